import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { generateDemo, type DemoVehicle } from '../../seed/generate.js';
import { DEMO_SEED, loadDemo, type LoadedVehicle } from '../../seed/load.js';
import { KEEPERS } from '../../seed/setting.js';
import { calls, greeting } from '../../seed/tell.js';
import { visitToday, chooseExample, type Example } from '../../seed/tour.js';
import { wearAnswer } from '../../src/core/assessment/wearAnswer.js';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import { openStore } from '../../src/store/open.js';

const TODAY = '2026-03-02';
const FLEETS = ['north-depot', 'ferry-lane', 'courtesy-pool'];

const folder = mkdtempSync(join(tmpdir(), 'brake-wear-demo-'));
const store = await openStore({
  file: join(folder, 'demo.sqlite'),
  timeZone: 'UTC',
  clock: () => new Date(`${TODAY}T12:00:00Z`),
});
let demo: DemoVehicle[];
let loaded: LoadedVehicle[];

beforeAll(async () => {
  demo = generateDemo(DEMO_SEED, TODAY);
  loaded = await loadDemo(store, demo);
}, 120_000);

afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

const dueSoon = (fleet: string | null) => {
  const horizon = toFullDate(toDay(TODAY) + 60);
  return store.reports.dueSoon(OPERATOR, { today: TODAY, horizon, chance: 0.1, fleet, axle: null }, null);
};

const wearOf = async ({ vehicle }: LoadedVehicle): Promise<Wear> => {
  const outlook = await store.outlooks.get(OPERATOR, vehicle.id);
  return wearAnswer(vehicle.id, outlook, { today: TODAY, until: null });
};

async function exampleOf(fleet: string): Promise<Example> {
  const vehicles = loaded.filter(({ vehicle }) => vehicle.fleet === fleet);
  return chooseExample(
    await Promise.all(vehicles.map(async (each) => ({ loaded: each, wear: await wearOf(each) }))),
  );
}

/** Vehicles are in the order of the cast. */
const stickingIndex = KEEPERS.flatMap(({ cast }) => cast).findIndex(
  ({ story }) => story === 'sticking-slide',
);

describe('the demo fleet in a store', () => {
  it('every visit is accepted as a visit of its own', async () => {
    expect(loaded).toHaveLength(demo.length);
    for (const [index, { vehicle }] of loaded.entries()) {
      const { items, next } = await store.visits.list(
        OPERATOR,
        vehicle.id,
        { includeVoided: false },
        { limit: 200, after: null },
      );
      expect(next).toBeNull();
      const dates = items.map((visit) => visit.date).reverse();
      expect(dates).toEqual(demo[index]!.visits.map((visit) => visit.date));
    }
  });

  it('at least two fleets have axles due soon, some overdue', async () => {
    const reports = await Promise.all(FLEETS.map(dueSoon));
    expect(reports.filter(({ total }) => total > 0).length).toBeGreaterThanOrEqual(2);
    const { items } = await dueSoon(null);
    expect(items.some(({ overdue }) => overdue)).toBe(true);
    expect(items.some(({ overdue }) => !overdue)).toBe(true);
  });

  it('a wear answer from the cache equals one from the outlook', async () => {
    for (const { vehicle } of loaded) {
      const outlook = await store.outlooks.get(OPERATOR, vehicle.id);
      for (const today of [TODAY, '2026-09-02', '2029-01-01']) {
        const question = { today, until: null };
        expect(String(await store.outlooks.wear(OPERATOR, vehicle.id, question))).toBe(
          JSON.stringify(wearAnswer(vehicle.id, outlook, question)),
        );
      }
    }
  });

  it('one disc axle has no forecast, because it was never measured', async () => {
    const { items } = await store.reports.unassessed(OPERATOR, { today: TODAY, fleet: null }, null);
    const brakes = items
      .filter(({ reason }) => reason.code === 'no-readings')
      .map(
        ({ vehicleId, axle }) => loaded.find(({ vehicle }) => vehicle.id === vehicleId)!.vehicle.axles[axle],
      );
    expect(brakes.some((spec) => spec?.brake === 'disc')).toBe(true);
  });

  it('a visit finds the thin inner pad of a sticking slide', async () => {
    const { vehicle, visits } = loaded[stickingIndex]!;
    const outlooks = await Promise.all(
      visits.map(({ date }) => store.outlooks.asOf(OPERATOR, vehicle.id, date)),
    );
    expect(outlooks.flatMap(({ axles }) => axles[0]!.findings)).toContainEqual(
      expect.objectContaining({ code: 'uneven-inner-outer', axle: 'front', side: 'left', pad: 'inner' }),
    );
  });
});

describe('the tour of the demo', () => {
  it('the tour of the demo greets with one screen: an address, a key for each role, and calls with their answers in words', async () => {
    const example = await exampleOf('north-depot');
    const due = await dueSoon('north-depot');
    const lines = greeting({
      address: 'http://127.0.0.1:3000',
      keys: { owner: 'key-o', technician: 'key-t', 'front-desk': 'key-f', 'fleet-manager': 'key-m' },
      loaded,
      example,
      dueSoon: { ...due, unassessedCount: 1 },
      callsIn: 'data/demo-calls.sh',
    });
    // Two lines come before it while the fleet is loaded.
    expect(lines.length + 2).toBeLessThanOrEqual(24);
    const text = lines.join('\n');
    expect(lines.filter((line) => /^export \w+_KEY=key-\w$/.test(line))).toHaveLength(4);
    expect(lines).toContain('export BRAKES=http://127.0.0.1:3000');
    expect(text).toContain(
      `Bearer key-t" "http://127.0.0.1:3000/v1/vehicles/${example.loaded.vehicle.id}/wear"`,
    );
    for (const { advice } of example.wear.axles) expect(text).toContain(advice.words);
    expect(text).toContain('Bearer key-m" "http://127.0.0.1:3000/v1/reports/due-soon?withinDays=60"');
    expect(text).toContain(`${due.total} axles due, ${due.overdueCount} of them overdue`);
  });

  it('the tour of the demo shows an axle that is due, not overdue, and has something to check', async () => {
    const { axle } = await exampleOf('north-depot');
    expect(axle.replacement.overdue).toBe(false);
    expect(axle.findings.length).toBeGreaterThan(0);
    expect(axle.replacement.date!.median! > TODAY).toBe(true);
  });

  it('the tour of the demo prints a visit for today that the service accepts and that changes the outlook', async () => {
    const example = await exampleOf('north-depot');
    const { vehicle } = example.loaded;
    const keys = { owner: 'a', technician: 'b', 'front-desk': 'c', 'fleet-manager': 'd' };
    const printed = calls('http://127.0.0.1:3000', keys, vehicle, visitToday(example, TODAY));
    const [, body] = /-d '([^']+)'/.exec(printed.join('\n'))!;
    const visit = VisitBody.parse(JSON.parse(body!));
    const kinds = visit.readings!.map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'pad-thickness')).toHaveLength(4);
    expect(kinds).toContain('rotor-thickness');
    const { outlook } = await store.visits.record(OPERATOR, vehicle.id, visit, null);
    expect(outlook.asAt!.date).toBe(TODAY);
    expect(outlook.asAt!.odometerKm!).toBeGreaterThan(example.wear.asAt!.odometerKm!);
  });
});
