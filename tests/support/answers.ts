import { buildApp } from '../../src/app.js';
import type { OpenStore } from '../../src/store/open.js';
import { cookieOf, OWN_FORM } from './pages.js';

/** Requests about a whole shop and the service's answers, to compare one database with another. */

/** The paths of the wear answers, lists, reports, exports and pages. */
export const pathsOf = (vehicleIds: readonly string[]): string[] => [
  ...vehicleIds.flatMap((id) => [
    `/v1/vehicles/${id}`,
    `/v1/vehicles/${id}/wear`,
    `/v1/vehicles/${id}/wear?asOf=2025-09-01`,
    `/v1/vehicles/${id}/visits?limit=200`,
    `/v1/vehicles/${id}/history`,
    `/v1/vehicles/${id}/replacement-plan?dates=2026-10-20`,
    `/vehicles/${id}`,
  ]),
  '/v1/vehicles?limit=200',
  '/v1/vehicles?find=KR',
  '/v1/reports/unassessed',
  '/v1/reports/unassessed?fleet=north-depot',
  ...['due-soon', 'measure-first', 'stops'].flatMap((report) => [
    `/v1/reports/${report}`,
    `/v1/reports/${report}?withinDays=365&fleet=north-depot`,
  ]),
  '/v1/reports/due-soon?withinDays=400&chance=0.5&groupBy=fleet',
  '/v1/reports/due-soon?withinDays=400&chance=0.001&groupBy=model',
  '/v1/reports/due-soon?withinDays=400&chance=0.0001',
  '/v1/reports/due-soon?withinDays=400&groupBy=model',
  '/v1/reports/due-soon?withinDays=400&format=csv',
  '/v1/reports/due-soon?withinDays=400&format=ics',
  '/v1/reports/parts-demand?months=12',
  '/v1/reports/forecast-accuracy',
  '/v1/exports/visits',
  '/v1/exports/vehicles',
  '/v1/audit?limit=200',
  '/v1/policy',
  '/v1/gauges',
  '/v1/experience',
  '/',
  '/due-soon?withinDays=400',
  '/measure-first',
];

/**
 * The service's answer to each path: status, entity tag and body. Closes the store.
 *
 * @param key of an owner, who is also signed in
 */
export async function answersOf(
  store: OpenStore,
  { key, paths, clock }: { key: string; paths: readonly string[]; clock: () => Date },
): Promise<Record<string, string>> {
  const app = await buildApp({ store, config: { timeZone: 'UTC', rateLimitPerMinute: 0 }, clock });
  const signedIn = await app.inject({
    method: 'POST',
    url: '/sign-in',
    headers: { ...OWN_FORM, 'content-type': 'application/x-www-form-urlencoded' },
    payload: new URLSearchParams({ key }).toString(),
  });
  const cookie = cookieOf({ 'set-cookie': [signedIn.headers['set-cookie']].flat() });
  const answers: Record<string, string> = {};
  for (const path of paths) {
    const credentials = path.startsWith('/v1/') ? { authorization: `Bearer ${key}` } : { cookie };
    const { statusCode, headers, body } = await app.inject({ url: path, headers: credentials });
    answers[path] = `${statusCode} ${String(headers['etag'])} ${body}`;
  }
  await app.close();
  await store.close();
  return answers;
}
