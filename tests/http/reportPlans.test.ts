import BetterSqlite from 'better-sqlite3';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import type { Role } from '../../src/core/vocabulary/terms.js';
import { startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(async () => {
  vi.restoreAllMocks();
  await service.close();
});

type Run = 'all' | 'get';

/** The query plan of every statement on axles' outlooks that a request runs. */
async function plansOf(role: Role, path: string): Promise<string[]> {
  const connection = new BetterSqlite(service.file, { readonly: true });
  try {
    // Most are prepared once and reused.
    const statement = Object.getPrototypeOf(connection.prepare('select 1')) as Record<Run, () => unknown>;
    const ran = (['all', 'get'] as const).map((run) => vi.spyOn(statement, run));
    const response = await service.as(role, 'get', path);
    const statements = ran
      .flatMap(({ mock }) => mock.contexts as unknown as BetterSqlite.Statement[])
      .map(({ source }) => source)
      .filter((text) => text.includes('axle_outlooks'));
    for (const spy of ran) spy.mockRestore();
    expect([response.status, statements.length > 0]).toEqual([200, true]);
    return statements.flatMap((text) => {
      const rows = connection
        .prepare(`explain query plan ${text}`)
        .all(...Array(text.split('?').length - 1).fill(null));
      return (rows as { detail: string }[]).map(({ detail }) => detail);
    });
  } finally {
    connection.close();
  }
}

const REPORTS = [
  'due-soon?',
  'due-soon?groupBy=fleet',
  'due-soon?groupBy=model',
  'due-soon?chance=0.5&axle=front',
  'due-soon?format=ics',
  'measure-first?',
  'measure-first?chance=0.02',
  'stops?',
  'stops?chance=0.02',
];
/** Partial indexes that contain only the requested rows. */
const WHOLE_OF = /^SCAN axle_outlooks USING COVERING INDEX axle_outlooks_(unassessed|stopped)$/;
/** The fleets of a key, the possible axles, and the results of an inner query: none is a table. */
const NO_TABLE = /^SCAN (json_each\b|every\b|place$|due$|wanted$|\()/;

it.each(REPORTS.flatMap((report) => [[report, 'owner'] as const, [report, 'fleet-manager'] as const]))(
  'the report %s searches an index and scans no table when the %s asks',
  async (report, role) => {
    const plans = await plansOf(role, `/v1/reports/${report}`);
    expect(
      plans.filter((detail) => detail.includes('SCAN') && !WHOLE_OF.test(detail) && !NO_TABLE.test(detail)),
    ).toEqual([]);
    const isByIndex = (detail: string): boolean =>
      /SEARCH axle_outlooks USING (COVERING )?INDEX/.test(detail) || WHOLE_OF.test(detail);
    expect(plans.some(isByIndex)).toBe(true);
  },
);
