import fc from 'fast-check';
import { setImmediate as turn } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isOverdue, overdueFrom } from '../../src/core/assessment/forecastDates.js';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import { AXLES, type Axle } from '../../src/core/vocabulary/terms.js';
import type { OpenStore } from '../../src/store/open.js';
import type { Caller } from '../../src/store/contract/caller.js';
import type { Page } from '../../src/store/contract/paging.js';
import type { DueSoonQuery } from '../../src/store/contract/reports.js';
import { makeOwnDatabase, onSqlite, type OwnDatabase } from '../support/ownDatabase.js';
import { inDepth } from '../support/thorough.js';

const TODAY = '2026-03-10';
/** Maximum days between measurements, by the default policy. */
const LONGEST_DAYS = 365;
const inDays = (days: number): string => toFullDate(toDay(TODAY) + days);

/** One axle as the reports see it, with any outlook. */
interface Row {
  vehicle: number;
  axle: Axle;
  asAt: string;
  early: string | null;
  median: string | null;
  failing: boolean;
  measure: string | null;
  expected: string | null;
  lastReading: string | null;
  unassessed: boolean;
}
interface Vehicle {
  fleet: string | null;
  model: string | null;
  outOfService: string | null;
}

/** Close to the dates that matter: today, the latest date of a visit, the horizons and the maximum time unmeasured. */
const dates = fc
  .tuple(fc.constantFrom(0, 2, 60, -LONGEST_DAYS), fc.integer({ min: -3, max: 3 }))
  .map(([near, off]) => inDays(near + off));
const sometimes = (date: fc.Arbitrary<string>) => fc.option(date, { freq: 4 });
const fleets = fc.constantFrom(null, '', 'north', 'south', 'süd', '𐐀', '\uFFFD');

const vehicles: fc.Arbitrary<Vehicle> = fc.record({
  fleet: fleets,
  model: fc.constantFrom(null, '', 'm-1', 'm-2', '𐐀', '\uFFFD'),
  outOfService: fc.option(dates, { freq: 1 }),
});
const rowsOf = (count: number): fc.Arbitrary<Row[]> =>
  fc.uniqueArray(
    fc.record({
      vehicle: fc.nat(count - 1),
      axle: fc.constantFrom<Axle>('front', 'rear', 'axle-9'),
      asAt: dates,
      early: sometimes(dates),
      median: sometimes(dates),
      failing: fc.boolean(),
      measure: sometimes(dates),
      expected: sometimes(dates),
      lastReading: sometimes(dates),
      unassessed: fc.boolean(),
    }),
    { selector: ({ vehicle, axle }) => `${vehicle} ${axle}`, maxLength: 30 },
  );
const shops = fc
  .array(vehicles, { minLength: 1, maxLength: 12 })
  .chain((known) => fc.tuple(fc.constant(known), rowsOf(known.length)));

const callers: fc.Arbitrary<Caller> = fc
  .oneof(
    fc.constant(null),
    fc.uniqueArray(fc.constantFrom('north', 'south', 'süd', 'elsewhere'), { maxLength: 3 }),
  )
  .map((seen) => ({ fleets: seen, role: null, keyName: 'any' }));
const queries: fc.Arbitrary<DueSoonQuery> = fc.record({
  today: fc.constant(TODAY),
  horizon: fc.constantFrom(0, 1, 2, 3, 60).map(inDays),
  chance: fc.constant(0.1),
  fleet: fc.option(fc.constantFrom('north', 'süd'), { freq: 1 }),
  axle: fc.option(fc.constantFrom<Axle>('front', 'axle-9'), { freq: 1 }),
  groupBy: fc.constantFrom(undefined, 'fleet', 'model'),
});

let database: OwnDatabase;
let store: OpenStore;
beforeAll(async () => {
  database = await makeOwnDatabase();
  store = await database.open({ timeZone: 'UTC' });
});
afterAll(async () => {
  await store.close();
  await database.remove();
});

const CROSSING = JSON.stringify({ already: 0.5, days: [] });

/** Both engines convert a quoted literal to the type of its column. */
const quoted = (value: string | number | null): string =>
  value === null ? 'null' : `'${String(value).replaceAll("'", "''")}'`;

async function insert(table: string, rows: readonly Record<string, string | number | null>[]): Promise<void> {
  if (rows.length === 0) return;
  const values = rows.map((row) => `(${Object.values(row).map(quoted).join(', ')})`);
  await database.query(
    `insert into ${table} (${Object.keys(rows[0]!).join(', ')}) values ${values.join(', ')}`,
  );
}

async function record(known: Vehicle[], rows: Row[]): Promise<void> {
  for (const table of ['axle_outlooks', 'vehicles']) await database.query(`delete from ${table}`);
  const vehicleRows = known.map(({ model }, index) => ({
    seq: index + 1,
    id: `v-${index + 1}`,
    version: 1,
    body: JSON.stringify({ externalId: `E-${index}`, model }),
    created_at: '',
    updated_at: '',
  }));
  const axleRows = rows.map((row) => ({
    vehicle_seq: row.vehicle + 1,
    axle: row.axle,
    fleet: known[row.vehicle]!.fleet,
    model: known[row.vehicle]!.model,
    out_of_service_date: known[row.vehicle]!.outOfService,
    as_at_date: row.asAt,
    early_date: row.early,
    median_date: row.median,
    failing: Number(row.failing),
    overdue_from: overdueFrom(row.failing, row.median),
    measure_date: row.measure,
    expected_date: row.expected,
    last_reading_date: row.lastReading,
    unassessed: row.unassessed ? '{}' : null,
    crossing: CROSSING,
  }));
  await insert('vehicles', vehicleRows);
  await insert('axle_outlooks', axleRows);
}

type VehicleRow = Row & Vehicle;

function isAsked({ fleet, outOfService, axle }: VehicleRow, caller: Caller, query: DueSoonQuery): boolean {
  const isSeen = caller.fleets === null || (fleet !== null && caller.fleets.includes(fleet));
  return (
    isSeen &&
    (query.fleet === null || fleet === query.fleet) &&
    (query.axle === null || axle === query.axle) &&
    (outOfService === null || outOfService > TODAY)
  );
}

/** Due by the horizon, or found worn at a visit, which may be dated up to two days ahead. */
function isDue({ early, asAt }: VehicleRow, { horizon }: DueSoonQuery): boolean {
  if (early === null) return false;
  return early <= horizon || (early <= asAt && early <= inDays(2));
}

function isToBeMeasured(
  { measure, expected, lastReading, unassessed }: VehicleRow,
  { horizon }: DueSoonQuery,
) {
  const isMissed = expected !== null && measure !== null && (expected > measure || expected < TODAY);
  const isToBePlanned = measure !== null && measure <= horizon && isMissed;
  const isOld = lastReading !== null && lastReading < inDays(-LONGEST_DAYS);
  return (isToBePlanned || isOld) && !unassessed;
}

function totalsOf(axles: VehicleRow[]) {
  const sum = (own: VehicleRow[]) => ({
    total: own.length,
    overdueCount: own.filter(({ failing, median }) => isOverdue(failing, median, TODAY)).length,
  });
  const byAxle = AXLES.map((axle) => ({ axle, ...sum(axles.filter((row) => row.axle === axle)) }));
  return { ...sum(axles), byAxle: byAxle.filter(({ total }) => total > 0) };
}

const byBytes = (a: string, b: string): number => Buffer.compare(Buffer.from(a), Buffer.from(b));

/** Items without a name come last. */
const groupsOf = (due: VehicleRow[], groupBy: DueSoonQuery['groupBy']) =>
  groupBy === undefined
    ? []
    : [...new Set(due.map((row) => row[groupBy]))]
        .sort((a, b) => Number(a === null) - Number(b === null) || byBytes(a ?? '', b ?? ''))
        .map((group) => ({ group, ...totalsOf(due.filter((row) => row[groupBy] === group)) }));

function inOrder(due: VehicleRow[], groupBy: DueSoonQuery['groupBy']): string[] {
  const group = (row: VehicleRow) => (groupBy ? row[groupBy] : null);
  return [...due]
    .sort(
      (a, b) =>
        Number(group(a) === null) - Number(group(b) === null) ||
        byBytes(group(a) ?? '', group(b) ?? '') ||
        byBytes(a.early!, b.early!) ||
        a.vehicle - b.vehicle ||
        byBytes(a.axle, b.axle),
    )
    .map(({ vehicle, axle }) => `v-${vehicle + 1} ${axle}`);
}

async function everyPage(caller: Caller, query: DueSoonQuery): Promise<string[]> {
  const found: string[] = [];
  let after: Page['after'] = null;
  do {
    const { items, next } = await store.reports.dueSoon(caller, query, { limit: 3, after });
    found.push(...items.map(({ vehicleId, axle }) => `${vehicleId} ${axle}`));
    after = next;
  } while (after !== null);
  return found;
}

describe('the totals of due-soon', () => {
  it('the totals of due-soon equal a count of the axles one by one, and the pages hold each axle once, in order', async () => {
    await fc.assert(
      fc.asyncProperty(shops, callers, queries, async ([known, rows], caller, query) => {
        await record(known, rows);
        // Like another process: its writes are seen from the next turn of the event loop.
        await turn();
        const asked = rows
          .map((row): VehicleRow => ({ ...row, ...known[row.vehicle]! }))
          .filter((row) => isAsked(row, caller, query));
        const due = asked.filter((row) => isDue(row, query));
        const {
          items: _,
          next: _next,
          ...totals
        } = await store.reports.dueSoon(caller, query, {
          limit: 1,
          after: null,
        });
        expect(totals).toEqual({
          ...totalsOf(due),
          groups: groupsOf(due, query.groupBy),
          unassessedCount: asked.filter(({ unassessed }) => unassessed).length,
          measureFirstCount: asked.filter((row) => isToBeMeasured(row, query) && !isDue(row, query)).length,
          // None of these axles has a finding.
          stopCount: 0,
        });
        expect(await everyPage(caller, query)).toEqual(inOrder(due, query.groupBy));
      }),
      { numRuns: inDepth(onSqlite ? 200 : 100, 1000) },
    );
  }, 240_000);
});
