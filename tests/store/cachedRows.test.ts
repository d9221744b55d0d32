import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setImmediate as turn } from 'node:timers/promises';
import BetterSqlite from 'better-sqlite3';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import { openEngine } from '../../src/store/engine/sqlite/engine.js';
import { openStore } from '../../src/store/open.js';
import { fourPads, vehicleBody, visitBody } from '../support/bodies.js';

const OWNER = { ...OPERATOR, keyName: 'owner', role: 'owner' } as const;
const QUERY = { today: '2026-03-02', horizon: '2056-03-02', chance: 0.1, fleet: null, axle: null };

let folder: string;
let file: string;
let store: Awaited<ReturnType<typeof openStore>>;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
  file = join(folder, 'shop.sqlite');
  store = await openStore({ file, timeZone: 'UTC' });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

const page = () => store.reports.dueSoon(OWNER, QUERY, { limit: 10, after: null });

/** A page caches its rows from one call to the next; the whole list is read from the database. */
async function expectAsRead(): Promise<string> {
  const paged = await page();
  const { items } = await store.reports.dueSoon(OWNER, QUERY, null);
  expect(paged.items).toEqual(items);
  return JSON.stringify(paged.items);
}

async function addVehicle(externalId: string): Promise<string> {
  const body = VehicleBody.parse(vehicleBody({ externalId, registration: null }));
  const { id } = await store.vehicles.create(OWNER, body, null);
  await addVisit(id, '2025-03-01', 20_000, 9);
  return id;
}

async function addVisit(id: string, date: string, km: number, mm: number): Promise<void> {
  const body = VisitBody.parse(visitBody(date, km, fourPads([mm, mm, mm, mm])));
  await store.visits.record(OWNER, id, body, null);
}

it('a page of due axles shows what each write has changed, of the vehicle written and of the others', async () => {
  const ids = [await addVehicle('one'), await addVehicle('two'), await addVehicle('three')];
  const steps: (() => Promise<unknown>)[] = [
    () => addVisit(ids[0]!, '2025-09-01', 40_000, 7),
    () => addVisit(ids[1]!, '2025-09-01', 30_000, 8.5),
    () => addVisit(ids[0]!, '2026-03-01', 60_000, 4),
    () => addVehicle('four'),
    () => change(ids[2]!, { registration: 'ABC 123' }),
    () => change(ids[2]!, { fleet: 'another' }),
    () => change(ids[1]!, { model: 'another' }),
    () => change(ids[1]!, { outOfService: { date: '2026-03-02' } }),
  ];
  let before = await expectAsRead();
  for (const step of steps) {
    await step();
    const after = await expectAsRead();
    expect(after).not.toBe(before);
    before = after;
  }
});

const change = (id: string, patch: object) =>
  store.vehicles.change(OWNER, id, '*', {
    patch,
    effectiveFrom: null,
    read: (patched) => VehicleBody.parse(patched),
  });

it('a page of due axles shows what another process has changed', async () => {
  await addVehicle('one');
  await expectAsRead();
  const other = new BetterSqlite(file);
  other.exec(
    `update vehicles set body = json_set(body, '$.externalId', 'another'); update axle_outlooks set limit_mm = 1.5`,
  );
  other.close();
  await turn();
  const { items } = await page();
  expect(items.map(({ externalId }) => externalId)).toContain('another');
  expect(await expectAsRead()).toContain('1.5');
});

it('a row is read again only after its vehicle has been written, or a transaction has tried to write it', async () => {
  await addVehicle('one');
  await addVehicle('two');
  const engine = await openEngine({ file });
  const asked = { ...QUERY, fleets: null, latestVisit: '2026-03-04', groupBy: null };
  const rows = () => engine.reading.reports.dueByEarly(asked, { after: null, limit: 10 });
  const [first, second] = await rows();
  expect(await rows()).toEqual([first, second]);
  const failing = engine.write(async (own) => {
    await own.outlooks.remove(first!.seq);
    throw new Error('no more');
  });
  await expect(failing).rejects.toThrow('no more');
  const again = await rows();
  expect(again).toEqual([first, second]);
  expect(again[0]).not.toBe(first);
  expect(again[1]).toBe(second);
  await engine.write((own) => own.outlooks.remove(second!.seq));
  expect(await rows()).toEqual([first]);
  await engine.close();
});
