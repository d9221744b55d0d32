import pg from 'pg';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { OPERATOR, type Caller } from '../../src/store/contract/caller.js';
import { openServerStore, type OpenStore } from '../../src/store/open.js';
import { copyOfEmptyShop, SERVER, type TestDatabase } from '../support/postgres.js';

/**
 * The plans of the reports on a PostgreSQL server, for a shop so large that scanning a table costs more than using an
 * index; tests/http/reportPlans.test.ts tests the same on SQLite.
 */

const VEHICLES = 20_000;
const TODAY = '2026-03-10';
const PAGE = 50;

/** Rows as outlooks write them: one in a hundred has no forecast, and one in a hundred a stop finding. */
const SHOP = [
  `insert into vehicles (seq, id, version, body, created_at, updated_at)
   select n, 'v-' || n, 1,
     json_build_object('externalId', 'E-' || n, 'fleet', 'fleet-' || n % 40, 'model', 'model-' || n % 8), '', ''
   from generate_series(1, ${VEHICLES}) n`,
  `insert into axle_outlooks (vehicle_seq, axle, fleet, model, as_at_date, part, first_date, early_date, median_date,
     failing, overdue_from, crossing, measure_date, expected_date, last_reading_date, stops, unassessed)
   select n, axle, 'fleet-' || n % 40, 'model-' || n % 8, '2026-02-01',
     case when n % 100 > 0 then 'pads' end,
     case when n % 100 > 0 then (date '2026-02-01' + (n * 7919 % 3000))::text end,
     case when n % 100 > 0 then (date '2026-02-15' + (n * 7919 % 3000))::text end,
     case when n % 100 > 0 then (date '2026-05-01' + (n * 7919 % 3000))::text end,
     false,
     case when n % 100 > 0 then (date '2026-05-01' + (n * 7919 % 3000))::text end,
     case when n % 100 > 0 then '{"already": 0, "days": []}'::json end,
     case when n % 50 = 1 then (date '2026-01-01' + n % 1500)::text end,
     case when n % 50 = 1 then (date '2026-06-01' + n % 300)::text end,
     (date '2025-12-01' - n % 60)::text,
     case when n % 100 = 3 then '[]'::json end,
     case when n % 100 = 0 then '{"code": "no-readings"}'::json end
   from generate_series(1, ${VEHICLES}) n, unnest(array['front', 'rear']) axle`,
  'vacuum analyze',
];

interface Plan {
  'Node Type': string;
  'Relation Name'?: string;
  'Actual Rows': number;
  'Actual Loops': number;
  Plans?: Plan[];
}

interface Ran {
  text: string;
  values: unknown[];
}

const OWNER: Caller = { ...OPERATOR, keyName: 'owner', role: 'owner' };
const MANAGER: Caller = { keyName: 'manager', role: 'fleet-manager', fleets: ['fleet-3'] };
const QUERY = { today: TODAY, horizon: '2026-05-09', chance: 0.1, fleet: null, axle: null };
const FIRST = { limit: PAGE, after: null };

describe.skipIf(SERVER === null)('the reports of a large shop on a PostgreSQL server', () => {
  let database: TestDatabase;
  let store: OpenStore;
  let client: pg.Client;

  beforeAll(async () => {
    database = await copyOfEmptyShop();
    client = new pg.Client({ connectionString: database.url });
    await client.connect();
    for (const statement of SHOP) await client.query(statement);
    store = await openServerStore({ url: database.url, timeZone: 'UTC', clock: () => new Date(TODAY) });
  }, 60_000);
  afterAll(async () => {
    await store.close();
    await client.end();
    await database.drop();
  });

  /** The statements on axles' outlooks that a report runs. */
  async function statementsOf(report: () => Promise<unknown>): Promise<Ran[]> {
    const ran = vi.spyOn(pg.Client.prototype, 'query');
    await report();
    const statements = (ran.mock.calls as unknown as [Ran | string][]).flatMap(([config]) =>
      typeof config === 'object' && config.text.includes('axle_outlooks') ? [config] : [],
    );
    ran.mockRestore();
    return statements;
  }

  /** Every step of a statement's plan, as the server executes it. */
  async function planOf({ text, values }: Ran): Promise<Plan[]> {
    const { rows } = await client.query<{ 'QUERY PLAN': { Plan: Plan }[] }>(
      `explain (analyze, format json) ${text}`,
      values,
    );
    const steps = (plan: Plan): Plan[] => [plan, ...(plan.Plans ?? []).flatMap(steps)];
    return steps(rows[0]!['QUERY PLAN'][0]!.Plan);
  }

  const isOn = (table: string) => (step: Plan) => step['Relation Name'] === table;
  const rowsOf = (steps: Plan[]): number =>
    steps.reduce((sum, step) => sum + step['Actual Rows'] * step['Actual Loops'], 0);

  test.each<[string, () => Promise<unknown>]>([
    ['due-soon', () => store.reports.dueSoon(OWNER, QUERY, FIRST)],
    ['due-soon of one fleet', () => store.reports.dueSoon(OWNER, { ...QUERY, fleet: 'fleet-3' }, FIRST)],
    ['due-soon for a fleet manager', () => store.reports.dueSoon(MANAGER, QUERY, FIRST)],
    ['due-soon of one axle', () => store.reports.dueSoon(OWNER, { ...QUERY, axle: 'rear' }, FIRST)],
    ['due-soon by fleet', () => store.reports.dueSoon(OWNER, { ...QUERY, groupBy: 'fleet' }, FIRST)],
    ['due-soon by model', () => store.reports.dueSoon(OWNER, { ...QUERY, groupBy: 'model' }, FIRST)],
    ['due-soon by another chance', () => store.reports.dueSoon(OWNER, { ...QUERY, chance: 0.5 }, FIRST)],
    ['measure-first', () => store.reports.measureFirst(OWNER, QUERY, FIRST)],
    ['measure-first for a fleet manager', () => store.reports.measureFirst(MANAGER, QUERY, FIRST)],
    ['stops', () => store.reports.stopped(OWNER, QUERY, FIRST)],
    ['unassessed', () => store.reports.unassessed(OWNER, { today: TODAY, fleet: null }, FIRST)],
  ])('the report %s finds its axles by indexes', async (_name, report) => {
    const statements = await statementsOf(report);
    expect(statements.length).toBeGreaterThan(0);
    for (const statement of statements) {
      const steps = await planOf(statement);
      const scans = steps.filter((step) => step['Node Type'] === 'Seq Scan' && isOn('axle_outlooks')(step));
      expect(scans, statement.text).toEqual([]);
      expect(steps.some((step) => step['Node Type'].includes('Index'))).toBe(true);
    }
  });

  test('the first page of due-soon reads no more axles than it shows and one more', async () => {
    const statements = await statementsOf(() =>
      // The first request, so that nothing is cached.
      store.reports.dueSoon(OWNER, { ...QUERY, horizon: '2026-05-08' }, FIRST),
    );
    const pages = statements.filter(({ text }) => text.includes('page'));
    expect(pages).toHaveLength(1);
    const steps = await planOf(pages[0]!);
    expect(rowsOf(steps.filter(isOn('vehicles')))).toBe(PAGE + 1);
    // Once in order from the index, once for the rest of their columns.
    expect(rowsOf(steps.filter(isOn('axle_outlooks')))).toBe(2 * (PAGE + 1));
  });
});
