import assert from 'node:assert/strict';
import type { Role } from '../../src/core/vocabulary/terms.js';
import type { Service } from './service.js';

/** The pages as a browser requests them; they are not in the OpenAPI document, so nothing validates them against it. */

/** The headers a browser sends with a form from the service's own pages. */
export const OWN_FORM = { 'Sec-Fetch-Site': 'same-origin' };

export const postForm = (
  service: Service,
  path: string,
  fields: Record<string, string>,
  headers: Record<string, string> = OWN_FORM,
) => service.unchecked.post(path).type('form').set(headers).send(fields).redirects(0);

/** Signs in with a key; returns the cookie to send back. */
export async function signIn(service: Service, key: string): Promise<string> {
  const response = await postForm(service, '/sign-in', { key });
  assert.equal(response.status, 303, response.text);
  return cookieOf(response.headers);
}

export function cookieOf(headers: Record<string, unknown>): string {
  const [set] = headers['set-cookie'] as string[];
  return set!.split(';')[0]!;
}

export const getPage = (service: Service, cookie: string, path: string) =>
  service.unchecked.get(path).set('Cookie', cookie).redirects(0);

/** A page's text for a caller with a role. */
export async function readPage(service: Service, role: Role, path: string): Promise<string> {
  const response = await getPage(service, await signIn(service, service.keys[role]), path);
  assert.equal(response.status, 200, response.text);
  return response.text;
}
