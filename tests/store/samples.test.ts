import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Components } from '../../src/store/engine/contract/engine.js';
import { componentsOn } from '../../src/store/engine/sqlite/components.js';
import type { Database } from '../../src/store/engine/sqlite/connection.js';
import { openDatabase } from '../../src/store/engine/sqlite/database.js';
import { nameKeys, vehicleNames } from '../../src/store/vehicles/names.js';
import { learningSample, scoringShare } from '../../src/store/experience/sample.js';

/** A shop with many vehicles of one model, some of another, few of a third, and some without a model. */
const MODELS: readonly [model: string | null, vehicles: number][] = [
  ['many', 5000],
  ['some', 320],
  ['few', 7],
  [null, 40],
];

describe('sampling in a large shop', () => {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
  let database: Database;
  let rows: Components;
  let close: () => void;

  beforeAll(() => {
    ({ database, close } = openDatabase(join(folder, 'large.sqlite')));
    rows = componentsOn(database);
    const { $client } = database;
    const vehicle = $client.prepare(
      `insert into vehicles (seq, id, version, body, registration_key, created_at, updated_at) values (?, ?, 1, ?, ?, '2026-01-01T00:00:00.000Z', '2026-01-01T00:00:00.000Z')`,
    );
    const visit = $client.prepare(
      `insert into visits (seq, id, vehicle_seq, version, date, content_digest, created_at, updated_at) values (?, ?, ?, 1, '2026-01-01', 'd', '2026-01-01T00:00:00.000Z', '2026-01-01T00:00:00.000Z')`,
    );
    $client.transaction(() => {
      let seq = 0;
      for (const [model, number] of MODELS) {
        for (let index = 0; index < number; index++) {
          seq += 1;
          const body = { externalId: `V-${seq}`, registration: `R-${seq}`, model, axles: { front: {} } };
          vehicle.run(seq, `id-${seq}`, JSON.stringify(body), nameKeys(body).registrationKey);
          visit.run(seq, `visit-${seq}`, seq);
        }
      }
      vehicle.run(seq + 1, 'unvisited', JSON.stringify({ externalId: 'U', axles: { front: {} } }), null);
    })();
  });
  afterAll(() => {
    close();
    rmSync(folder, { recursive: true });
  });

  const modelsOf = (seqs: readonly number[]): Record<string, number> => {
    const counts: Record<string, number> = {};
    for (const seq of seqs) {
      let upTo = 0;
      const [model] = MODELS.find(([, number]) => seq <= (upTo += number))!;
      counts[String(model)] = (counts[String(model)] ?? 0) + 1;
    }
    return counts;
  };

  it('a fit uses at most 300 vehicles of a large model, and all of a smaller one', async () => {
    expect(modelsOf(await learningSample(rows))).toEqual({ many: 300, some: 300, few: 7, null: 40 });
  });

  it('the sample spreads evenly over the oldest and the newest records', async () => {
    const many = (await learningSample(rows)).filter((seq) => seq <= 5000);
    const gaps = many.slice(1).map((seq, index) => seq - many[index]!);
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(16);
    expect(Math.max(...gaps)).toBeLessThanOrEqual(17);
    expect(many[0]).toBeLessThanOrEqual(17);
    expect(many.at(-1)).toBe(5000);
  });

  it('vehicles that were never here are not sampled', async () => {
    expect(await learningSample(rows)).not.toContain(5368);
  });

  it('a shop with very many models has fewer vehicles of each sampled', async () => {
    const shop = openDatabase(':memory:');
    const vehicle = shop.database.$client.prepare(
      `insert into vehicles (seq, id, version, body, created_at, updated_at) values (?, ?, 1, ?, '', '')`,
    );
    const visit = shop.database.$client.prepare(
      `insert into visits (id, vehicle_seq, version, date, content_digest, created_at, updated_at) values (?, ?, 1, '2026-01-01', 'd', '', '')`,
    );
    shop.database.$client.transaction(() => {
      for (let seq = 1; seq <= 6000; seq++) {
        const body = { externalId: `V-${seq}`, model: `model-${seq % 100}`, axles: {} };
        vehicle.run(seq, `id-${seq}`, JSON.stringify(body));
        visit.run(`visit-${seq}`, seq);
      }
    })();
    const sample = await learningSample(componentsOn(shop.database));
    shop.close();
    expect(sample).toHaveLength(3000);
    const ofEach = new Map<number, number>();
    for (const seq of sample) ofEach.set(seq % 100, (ofEach.get(seq % 100) ?? 0) + 1);
    expect(new Set(ofEach.values())).toEqual(new Set([30]));
  });

  it('forecasts are scored on a sample that includes a smaller shop’s sample', async () => {
    const { $client } = database;
    $client.exec('insert into forecast_scores (vehicle_seq, revision) select seq, 1 from vehicles');
    const seqsOf = (of: number): Promise<number[]> =>
      rows.scores.pending({ fleets: null, model: null, share: scoringShare(of) });
    const half = await seqsOf(4000);
    const quarter = await seqsOf(8000);
    expect(half.length / 5368).toBeCloseTo(0.5, 1);
    expect(quarter.length / 5368).toBeCloseTo(0.25, 1);
    expect(half).toEqual(expect.arrayContaining(quarter));
    expect(await seqsOf(2000)).toHaveLength(5368);
  });

  it('vehicles are found by name without reading all of them', async () => {
    const { $client } = database;
    const { prepare } = $client;
    const prepared: string[] = [];
    $client.prepare = ((text: string) => {
      prepared.push(text);
      return prepare.call($client, text);
    }) as typeof prepare;
    const seqsOf = vehicleNames(componentsOn(database));
    const found = await Promise.all(['R-17', 'V-17', 'nobody'].map(seqsOf));
    $client.prepare = prepare;
    expect(found).toEqual([[17], [17], []]);
    const searches = prepared.filter((text) => text.includes('@name'));
    const steps = searches.flatMap((text) =>
      $client
        .prepare<[object], { detail: string }>(`explain query plan ${text}`)
        .all({ name: 'x', key: 'X' })
        .map(({ detail }) => detail),
    );
    expect(steps.filter((step) => step.startsWith('SEARCH vehicles'))).toHaveLength(3);
    expect(steps.filter((step) => step.startsWith('SCAN'))).toEqual([]);
  });
});
