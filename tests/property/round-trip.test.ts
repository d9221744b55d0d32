import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Refusal } from '../../src/core/refusal.js';
import { rowsOf } from '../../src/core/spreadsheet/rows.js';
import {
  CONDITION_PARTS,
  CONDITION_STATES,
  DISTANCE_UNITS,
  LENGTH_UNITS,
  LINING_POSITIONS,
  PADS,
  PLACES,
  PULLS,
  SHOES,
  SIDES,
  TAKEN,
  TORQUE_UNITS,
} from '../../src/core/vocabulary/terms.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { EntryBody, VisitBody } from '../../src/core/vocabulary/visit.js';
import { vehicleLines } from '../../src/http/vehicleLines.js';
import { visitRows } from '../../src/http/visitRows.js';
import { sheetHeader, sheetRows } from '../../src/render/csv.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import type { OpenStore } from '../../src/store/open.js';
import { onSqlite, openOwnStore } from '../support/ownDatabase.js';
import { inDepth } from '../support/thorough.js';

const SEED = 20_260_310;
/** Each shop needs two databases, and a PostgreSQL server takes longer to create them. */
const RUNS = inDepth(onSqlite ? 30 : 15, 200);
const ALL = { ...OPERATOR, keyName: 'test', role: 'owner' } as const;

/** Text as people and their programs write it, with parts that may confuse a spreadsheet. */
const words = fc
  .array(
    fc.constantFrom(
      'a',
      ' ',
      ',',
      ';',
      '"',
      "'",
      '=',
      '+',
      '-',
      '@',
      '\t',
      '\r',
      '\n',
      '\r\n',
      'é',
      '＝',
      '轮',
      '0',
      '.',
    ),
    { minLength: 1, maxLength: 8 },
  )
  .map((pieces) => pieces.join(''))
  .filter((text) => text.trim() !== '');
/** The same on one line, as in names and numbers. */
const names = words.map((text) => text.replace(/[\t\r\n]/g, '')).filter((text) => text.trim() !== '');
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined, freq: 2 });
const one = <T>(values: readonly T[]) => fc.constantFrom(...values);
/** A quantity whose value is within bounds in any unit. */
const length = (highestMm: number, lowestMm = highestMm / 2) =>
  one(LENGTH_UNITS).chain((unit) =>
    fc.double({ min: lowestMm, max: highestMm, noNaN: true }).map((mm) => ({
      value: unit === 'mm' ? mm : (mm / 25.4) * (unit === 'in' ? 1 : 32),
      unit,
    })),
  );
const torqueValue = { value: fc.double({ min: 0, max: 1000, noNaN: true }), unit: one(TORQUE_UNITS) };

const reading = fc
  .oneof(
    fc.record({ kind: fc.constant('pad-thickness'), side: one(SIDES), pad: one(PADS), at: one(PLACES) }),
    fc.record({
      kind: fc.constant('rotor-thickness'),
      side: one(SIDES),
      point: maybe(fc.integer({ min: 1, max: 3 })),
    }),
    fc.record({
      kind: fc.constant('shoe-thickness'),
      axle: fc.constant('rear'),
      side: one(SIDES),
      shoe: one(SHOES),
      at: one(PLACES),
    }),
  )
  .chain((head) =>
    fc
      .record({
        quantity: length(30),
        taken: one(TAKEN),
        repeat: fc.integer({ min: 1, max: 2 }),
        gauge: maybe(one(['caliper', 'visual'])),
      })
      .map(({ quantity, ...rest }) => ({ axle: 'front', ...head, ...rest, ...quantity })),
  );
const axle = { axle: fc.constant('front') };
const item = {
  condition: fc.record({
    ...axle,
    part: one(CONDITION_PARTS),
    state: one(CONDITION_STATES),
    side: maybe(one(SIDES)),
    pad: maybe(one(LINING_POSITIONS)),
    notes: maybe(words),
  }),
  notMeasured: fc.record({
    ...axle,
    side: maybe(one(SIDES)),
    part: maybe(one(CONDITION_PARTS)),
    pad: maybe(one(LINING_POSITIONS)),
    why: words,
  }),
  torque: fc.record({
    ...axle,
    fastener: names,
    side: maybe(one(SIDES)),
    position: maybe(fc.integer({ min: 1, max: 2 })),
    ...torqueValue,
  }),
  pads: fc.record({
    ...axle,
    kind: fc.constant('pads-replaced'),
    side: maybe(one(SIDES)),
    part: maybe(words),
    notes: maybe(words),
    new: maybe(length(12)),
    limit: maybe(length(3)),
    wearIndicator: maybe(
      length(4).chain((quantity) =>
        maybe(one(['mechanical', 'mark'])).map((type) => ({ ...quantity, type })),
      ),
    ),
  }),
  rotor: fc.record({
    ...axle,
    kind: fc.constant('rotor-replaced'),
    new: maybe(length(28, 27.1)),
    discard: maybe(length(26)),
    machineTo: maybe(length(27, 26.1)),
    runoutLimit: maybe(length(0.1)),
    variationLimit: maybe(length(0.05)),
  }),
  shoes: fc.record({
    axle: fc.constant('rear'),
    kind: fc.constant('shoes-replaced'),
    new: maybe(length(5)),
    limit: maybe(length(2)),
  }),
  drum: fc.record({
    axle: fc.constant('rear'),
    kind: fc.constant('drum-replaced'),
    new: maybe(length(254)),
    maximum: maybe(length(257, 256.1)),
    machineTo: maybe(length(256, 254.1)),
  }),
  fluid: fc.record({ kind: fc.constant('fluid-changed'), notes: maybe(words) }),
};
const list = <T>(arbitrary: fc.Arbitrary<T>) => maybe(fc.array(arbitrary, { minLength: 1, maxLength: 3 }));
const roadTest = maybe(
  fc.record({
    pulls: maybe(one(PULLS)),
    pulsation: maybe(fc.boolean()),
    noise: maybe(fc.boolean()),
    notes: maybe(words),
  }),
);
const contents = {
  readings: list(reading),
  conditions: list(item.condition),
  notMeasured: list(item.notMeasured),
  torques: list(item.torque),
  work: list(fc.oneof(item.pads, item.rotor, item.shoes, item.drum, item.fluid)),
  roadTest,
};
const distance = fc.record({
  value: fc.oneof(
    fc.integer({ min: 0, max: 9999 }),
    fc.integer({ min: 0, max: 999_999 }).map((m) => m / 1000),
  ),
  unit: one(DISTANCE_UNITS),
});
const visit = fc.record({
  date: one(['2026-02-27', '2026-02-28', '2026-03-01']),
  time: maybe(one(['08:10', '16:30'])),
  odometer: maybe(distance),
  odometerReplaced: fc.option(fc.record({ oldFinal: maybe(distance), newStart: maybe(distance) }), {
    nil: undefined,
    freq: 8,
  }),
  workOrder: maybe(names),
  shop: maybe(names),
  technician: maybe(names),
  complaint: maybe(words),
  notes: maybe(words),
  ...contents,
});
const vehicle = fc.record({
  externalId: maybe(names),
  registration: one(['R 1', 'R 2', '=R']),
  description: maybe(words),
  axles: fc.constant({ front: { brake: 'disc' }, rear: { brake: 'drum' } }),
});
const shop = fc.array(
  fc.record({
    vehicle,
    visits: fc.array(fc.record({ visit, entry: maybe(fc.record(contents)) }), { maxLength: 5 }),
  }),
  { minLength: 1, maxLength: 3 },
);

/** In this order the second reading makes the first doubtful; in the other order the service refuses the second. */
const DOUBTED_FIRST = {
  vehicle: {
    externalId: undefined,
    registration: 'R 1' as const,
    description: undefined,
    axles: { front: { brake: 'disc' }, rear: { brake: 'drum' } } as const,
  },
  visits: [
    { date: '2026-02-28', odometerReplaced: { oldFinal: { value: 0, unit: 'km' } } },
    { date: '2026-02-27', odometerReplaced: { newStart: { value: 1.602, unit: 'km' } } },
  ].map((visit) => ({ visit: visit as never, entry: undefined })),
};

/** Records what the service accepts; refused records are not exported. */
async function unlessRefused<T>(work: () => Promise<T>): Promise<T | null> {
  try {
    return await work();
  } catch (refusal) {
    if (refusal instanceof Refusal) return null;
    throw refusal;
  }
}

async function exportsOf(store: OpenStore): Promise<{ vehicles: string; visits: string }> {
  let vehicles = '';
  for await (const page of store.exports.vehicles())
    vehicles += page.map((body) => `${JSON.stringify(body)}\n`).join('');
  let visits = sheetHeader();
  for await (const page of store.exports.visits()) {
    visits += sheetRows(page.flatMap(({ visit: stored, name, number }) => rowsOf(stored, name, number)));
  }
  return { vehicles, visits };
}

async function* inPieces(text: string, size: number): AsyncGenerator<Buffer> {
  const bytes = Buffer.from(text);
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
}

async function imported(
  store: OpenStore,
  { vehicles, visits }: { vehicles: string; visits: string },
  size: number,
) {
  const begin = (kind: 'vehicles' | 'visits') => store.imports.begin(ALL, kind, { dryRun: false });
  const cars = await store.imports.vehicles(
    (await begin('vehicles')).id,
    vehicleLines(inPieces(vehicles, size)),
    null,
  );
  const rest = await store.imports.visits(
    (await begin('visits')).id,
    visitRows(inPieces(visits, size)),
    null,
  );
  expect([...cars.errors, ...rest.errors]).toEqual([]);
  return cars.rowsAdded + rest.rowsAdded + rest.visitsExtended;
}

describe('an export of visits', () => {
  it('an export is the same byte for byte after an import into an empty database, and adds nothing to its source', async () => {
    const clock = () => new Date('2026-03-10T12:00:00Z');
    const open = () => openOwnStore({ timeZone: 'UTC', clock });
    let recorded = 0;
    await fc.assert(
      fc.asyncProperty(shop, fc.integer({ min: 7, max: 4000 }), async (records, size) => {
        const from = await open();
        const to = await open();
        for (const { vehicle: body, visits } of records) {
          const known = await unlessRefused(() => from.vehicles.create(ALL, VehicleBody.parse(body), null));
          if (!known) continue;
          for (const { visit: sent, entry } of visits) {
            const stored = await unlessRefused(() =>
              from.visits.record(ALL, known.id, VisitBody.parse(sent), null),
            );
            const added = EntryBody.safeParse(entry);
            if (!stored) continue;
            recorded += 1;
            if (added.success)
              await unlessRefused(() => from.visits.add(ALL, stored.visit.id, added.data, null));
          }
        }
        const before = await exportsOf(from);
        await imported(to, before, size);
        expect(await exportsOf(to)).toEqual(before);
        expect(await imported(from, before, size)).toBe(0);
        expect(await exportsOf(from)).toEqual(before);
        await from.close();
        await to.close();
      }),
      { seed: SEED, numRuns: RUNS, examples: [[[DOUBTED_FIRST], 4000]] },
    );
    expect(recorded).toBeGreaterThan((5 / 3) * RUNS);
  }, 240_000);
});
