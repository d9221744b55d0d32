import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setImmediate as turn } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { DEFAULT_POLICY_BODY } from '../../src/core/vocabulary/settings.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import type { Engine, ReadingComponents } from '../../src/store/engine/contract/engine.js';
import type { SecretRows } from '../../src/store/engine/contract/operation.js';
import { openEngine } from '../../src/store/engine/sqlite/engine.js';
import { openStore } from '../../src/store/open.js';
import { settingsReader } from '../../src/store/settings/inForce.js';
import { fourPads, vehicleBody, visitBody } from '../support/bodies.js';

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
  file = join(folder, 'shop.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('an engine’s transaction', () => {
  let engine: Engine;
  beforeEach(async () => {
    engine = await openEngine({ file });
  });
  afterEach(() => engine.close());

  const secretIn = ({ secrets }: ReadingComponents): Promise<string | null> => secrets.find('one');

  it('no one else sees what a transaction has written until it is committed', async () => {
    await engine.write(async (rows) => {
      await rows.secrets.insert('one', 'written');
      await turn();
      expect(await secretIn(rows)).toBe('written');
      expect(await secretIn(engine.reading)).toBeNull();
      expect(await engine.consistently(secretIn)).toBeNull();
    });
    expect(await secretIn(engine.reading)).toBe('written');
    expect(await engine.consistently(secretIn)).toBe('written');
  });

  it('a failed transaction leaves nothing, and the next one is carried out', async () => {
    const failing = engine.write(async (rows) => {
      await rows.secrets.insert('one', 'written');
      await turn();
      throw new Error('no more');
    });
    await expect(failing).rejects.toThrow('no more');
    expect(await secretIn(engine.reading)).toBeNull();
    await engine.write((rows) => rows.secrets.insert('one', 'again'));
    expect(await secretIn(engine.reading)).toBe('again');
  });

  it('the writes of one process follow one another, in the order in which they were requested', async () => {
    const steps: string[] = [];
    const write = (name: string) =>
      engine.write(async (rows) => {
        steps.push(`${name} reads ${await secretIn(rows)}`);
        await turn();
        await rows.secrets.insert('one', `by ${name}`);
        await turn();
        steps.push(`${name} ends`);
      });
    await Promise.all(['first', 'second', 'third'].map(write));
    expect(steps).toEqual([
      'first reads null',
      'first ends',
      'second reads by first',
      'second ends',
      'third reads by first',
      'third ends',
    ]);
  });

  it('a snapshot does not change while others write', async () => {
    await engine.consistently(async (rows) => {
      expect(await secretIn(rows)).toBeNull();
      await engine.write((own) => own.secrets.insert('one', 'written'));
      expect(await secretIn(rows)).toBeNull();
      expect(await secretIn(engine.reading)).toBe('written');
    });
    expect(await engine.consistently(secretIn)).toBe('written');
  });

  it('a write through the interface for reading is refused, inside a transaction and outside', async () => {
    // The types do not allow it.
    const insert = ({ secrets }: ReadingComponents) => (secrets as SecretRows).insert('one', 'written');
    await expect(insert(engine.reading)).rejects.toThrow(/readonly/);
    await expect(engine.consistently(insert)).rejects.toThrow(/readonly/);
    await expect(engine.write(() => insert(engine.reading))).rejects.toThrow(/readonly|cannot be written/);
    expect(await secretIn(engine.reading)).toBeNull();
  });

  it('a cached answer is read again once a write is done, and not before', async () => {
    const find = engine.whileUnchanged(
      async (name: string) => ({ secret: await engine.reading.secrets.find(name) }),
      10,
    );
    await engine.write(async (rows) => {
      await rows.secrets.insert('one', 'written');
      expect(await find('one')).toEqual({ secret: null });
      await turn();
      expect(await find('one')).toEqual({ secret: null });
    });
    expect(await find('one')).toEqual({ secret: 'written' });
  });

  it('settings of a write that was rolled back are not cached', async () => {
    const settingsOn = settingsReader();
    const policy = (visitIntervalDays: number) => ({
      version: 1,
      body: { ...DEFAULT_POLICY_BODY, visitIntervalDays },
      updatedBy: 'owner',
      updatedAt: '2026-03-01T00:00:00.000Z',
    });
    const failing = engine.write(async (rows) => {
      await rows.settings.insertPolicy(policy(11));
      expect((await settingsOn(rows, false)()).policy.visitIntervalDays).toBe(11);
      throw new Error('no more');
    });
    await expect(failing).rejects.toThrow('no more');
    await engine.write((rows) => rows.settings.insertPolicy(policy(22)));
    expect((await settingsOn(engine.reading, true)()).policy.visitIntervalDays).toBe(22);
  });

  it('a database in memory is one database too, and is gone once it is closed', async () => {
    const inMemory = await openEngine({ file: ':memory:' });
    await inMemory.write((rows) => rows.secrets.insert('one', 'written'));
    expect(await secretIn(inMemory.reading)).toBe('written');
    await inMemory.close();
    const another = await openEngine({ file: ':memory:' });
    expect(await secretIn(another.reading)).toBeNull();
    await another.close();
  });
});

describe('a caller who has written', () => {
  const OWNER = { ...OPERATOR, keyName: 'owner', role: 'owner' } as const;
  let store: Awaited<ReturnType<typeof openStore>>;
  beforeEach(async () => {
    store = await openStore({ file, timeZone: 'UTC' });
  });
  afterEach(() => store.close());

  it('a caller reads its own write at once, also where answers are cached', async () => {
    const { id } = await store.vehicles.create(OWNER, VehicleBody.parse(vehicleBody()), null);
    const wear = async (): Promise<string> =>
      String(await store.outlooks.wear(OWNER, id, { today: '2026-03-02', until: null }));
    const due = () =>
      store.reports.dueSoon(
        OWNER,
        { today: '2026-03-02', horizon: '2056-03-02', chance: 0.1, fleet: null, axle: null },
        null,
      );
    let [wearBefore, dueBefore] = [await wear(), (await due()).total];
    for (const [date, km, mm] of [
      ['2025-03-01', 20_000, 9],
      ['2026-03-01', 60_000, 4],
    ] as const) {
      const body = VisitBody.parse(visitBody(date, km, fourPads([mm, mm, mm, mm])));
      await store.visits.record(OWNER, id, body, null);
      const [wearAfter, dueAfter] = [await wear(), (await due()).total];
      expect(wearAfter).not.toBe(wearBefore);
      expect(wearAfter).toContain(date);
      expect(dueAfter).toBeGreaterThanOrEqual(dueBefore);
      [wearBefore, dueBefore] = [wearAfter, dueAfter];
    }
    expect(dueBefore).toBe(1);
  });

  it('a caller finds a key that was just made, and no longer one that was just revoked', async () => {
    const digest = 'd'.repeat(64);
    expect(await store.keys.find(digest)).toBeNull();
    await store.keys.create({ name: 'desk', role: 'front-desk', fleets: [], digest });
    expect(await store.keys.find(digest)).toMatchObject({ keyName: 'desk' });
    await store.keys.revoke('desk');
    expect(await store.keys.find(digest)).toBeNull();
  });

  it('a caller reads its own write while another write waits in its transaction', async () => {
    const { id } = await store.vehicles.create(OWNER, VehicleBody.parse(vehicleBody()), null);
    const visits = Array.from({ length: 6 }, (_, index) =>
      VisitBody.parse(visitBody(`2026-01-0${index + 1}`, 10_000 + index * 100, fourPads([9, 9, 9, 9]))),
    );
    await Promise.all(
      visits.map(async (body) => {
        const { visit } = await store.visits.record(OWNER, id, body, null);
        expect(await store.visits.get(OWNER, visit.id)).toEqual(visit);
      }),
    );
  });
});
