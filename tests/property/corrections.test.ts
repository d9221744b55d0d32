import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Refusal } from '../../src/core/refusal.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { EntryBody, VisitBody } from '../../src/core/vocabulary/visit.js';
import type { OpenStore } from '../../src/store/open.js';
import type { Caller } from '../../src/store/contract/caller.js';
import { fourPads, km, mm, rotorReading, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { openOwnStore } from '../support/ownDatabase.js';
import { inDepth } from '../support/thorough.js';

const SEED = 20_260_310;
const EVERYTHING: Caller = { fleets: null, role: 'owner', keyName: 'owner' };
const WHOLE = { limit: 200, after: null };

let store: OpenStore;
beforeAll(async () => {
  store = await openOwnStore({ timeZone: 'UTC', clock: () => new Date('2026-03-10T12:00:00Z') });
});
afterAll(() => store.close());

/** Days of a van's visits, one of them with two. */
const DATES = ['2024-02-01', '2024-08-01', '2025-02-01', '2025-02-01', '2025-08-01', '2026-02-01'];

const thickness = fc.integer({ min: 20, max: 110 }).map((tenths) => tenths / 10);
const readings = fc
  .tuple(thickness, thickness, thickness, thickness, fc.boolean(), fc.integer({ min: 2600, max: 2800 }))
  .map(([a, b, c, d, isLeft, rotor]) => [
    ...fourPads([a, b, c, d], isLeft ? { taken: 'as-left' } : {}),
    rotorReading('left', rotor / 100),
  ]);
const padsReplaced: Body = { kind: 'pads-replaced', axle: 'front', new: mm(11), limit: mm(2) };
const work = fc.constantFrom<Body[]>(
  [],
  [{ kind: 'fluid-changed' }],
  [padsReplaced],
  [{ kind: 'rotor-replaced', axle: 'front', side: 'left', new: mm(28) }, padsReplaced],
);

/** An attempt to change one of the visits; the service may refuse it. */
interface Attempt {
  visit: number;
  change: { void: boolean } | { entry: Body } | { changes: Body };
}
const attempt: fc.Arbitrary<Attempt> = fc.record({
  visit: fc.nat({ max: DATES.length - 1 }),
  change: fc.oneof(
    fc.boolean().map((voided) => ({ void: voided })),
    work.map((items) => ({ entry: { work: items, notMeasured: [{ axle: 'front', why: 'no time' }] } })),
    fc
      .record(
        {
          readings,
          work,
          odometer: fc.integer({ min: 1, max: 90 }).map((thousands) => km(thousands * 1000)),
          date: fc.constantFrom(...DATES),
          time: fc.constantFrom('08:00', '15:30', null),
          odometerReplaced: fc.constantFrom<Body | null>(null, null, { newStart: km(0) }),
        },
        { requiredKeys: [] },
      )
      .map((changes) => ({ changes: changes as Body })),
  ),
});

/** @returns whether it was accepted; a refused attempt changes nothing */
async function tryTo(visitId: string, { change }: Attempt): Promise<boolean> {
  try {
    const reason = 'put right';
    if ('void' in change)
      await store.corrections.setVoided(EVERYTHING, visitId, '*', { reason, ...change }, null);
    else if ('entry' in change)
      await store.visits.add(EVERYTHING, visitId, EntryBody.parse(change.entry), null);
    else {
      const corrected = (body: VisitBody) => VisitBody.parse({ ...body, ...change.changes });
      await store.corrections.correct(EVERYTHING, visitId, '*', { reason, change: corrected }, null);
    }
    return true;
  } catch (error) {
    if (error instanceof Refusal) return false;
    throw error;
  }
}

async function record(vehicleId: string, body: VisitBody): Promise<string> {
  return (await store.visits.record(EVERYTHING, vehicleId, body, null)).visit.id;
}

const newVehicle = async () =>
  (await store.vehicles.create(EVERYTHING, VehicleBody.parse(vehicleBody()), null)).id;

/** What the reports say about a vehicle, except its name. */
async function reported(vehicleId: string) {
  const all = { today: '2026-03-10', horizon: '2050-01-01', chance: 0.1, fleet: null, axle: null };
  const due = await store.reports.dueSoon(EVERYTHING, all, null);
  const unassessed = await store.reports.unassessed(EVERYTHING, all, null);
  return [...due.items, ...unassessed.items]
    .filter((item) => item.vehicleId === vehicleId)
    .map(({ vehicleId: _id, externalId: _externalId, registration: _registration, ...rest }) => rest);
}

describe('any sequence of corrections, entries, voids and restores', () => {
  it('any sequence gives the same result as recording the remaining visits on a new vehicle', async () => {
    let [done, refused] = [0, 0];
    await fc.assert(
      fc.asyncProperty(
        fc.array(readings, { minLength: DATES.length, maxLength: DATES.length }),
        fc.array(attempt, { minLength: 1, maxLength: 12 }),
        async (read, attempts) => {
          const vehicleId = await newVehicle();
          const ids: string[] = [];
          for (const [index, date] of DATES.entries()) {
            const body = visitBody(date, 10_000 * (index + 1), read[index], {
              time: index % 2 ? '08:00' : null,
            });
            ids.push(await record(vehicleId, VisitBody.parse(body)));
          }
          for (const each of attempts) {
            if (await tryTo(ids[each.visit]!, each)) done += 1;
            else refused += 1;
          }

          const other = await newVehicle();
          for (const id of ids) {
            const { items } = await store.histories.ofVisit(EVERYTHING, id, WHOLE);
            expect(items.map(({ version }) => version)).toEqual(items.map((_, index) => index + 1));
            const { voided, version } = await store.visits.get(EVERYTHING, id);
            expect(version).toBe(items.length);
            if (!voided) await record(other, VisitBody.parse(items.at(-1)!.body));
          }
          expect(await store.outlooks.get(EVERYTHING, vehicleId)).toEqual(
            await store.outlooks.get(EVERYTHING, other),
          );
          expect(await reported(vehicleId)).toEqual(await reported(other));
        },
      ),
      { seed: SEED, numRuns: inDepth(12, 60) },
    );
    // Both happened; otherwise the sequence would show little.
    expect(done).toBeGreaterThan(30);
    expect(refused).toBeGreaterThan(10);
  }, 240_000);
});
