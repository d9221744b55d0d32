import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compareOutlooks } from '../../bench/databaseCheck.js';
import { computeAxles, type WorkElsewhere } from '../../src/core/assessment/sharedOutlook.js';
import { DEFAULT_POLICY_BODY } from '../../src/core/vocabulary/settings.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import { openStore } from '../../src/store/open.js';
import type { RecordedVisit } from '../../src/store/contract/visits.js';
import { fourPads, padReading, vehicleBody, visitBody } from '../support/bodies.js';
import { withConnection } from '../support/shopFile.js';

const OWNER = { ...OPERATOR, keyName: 'owner', role: 'owner' } as const;
const AXLE = vehicleBody().axles as { front: object };

describe('an outlook that is computed before its visit is recorded', () => {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
  const file = join(folder, 'shop.sqlite');
  let store: Awaited<ReturnType<typeof openStore>>;
  let elsewhere: WorkElsewhere = () => null;
  let jobs = 0;
  beforeAll(async () => {
    store = await openStore({ file, timeZone: 'UTC', elsewhere: (job) => elsewhere(job) });
  });
  afterAll(async () => {
    await store.close();
    rmSync(folder, { recursive: true });
  });

  let made = 0;
  const newVehicle = async (): Promise<string> => {
    const body = vehicleBody({ externalId: `F-${++made}`, axles: { ...AXLE, rear: AXLE.front } });
    return (await store.vehicles.create(OWNER, VehicleBody.parse(body), null)).id;
  };
  const record = (id: string, date: string, km: number, mm: number): Promise<RecordedVisit> =>
    store.visits.record(
      OWNER,
      id,
      VisitBody.parse(visitBody(date, km, fourPads([mm, mm, mm, mm]), { workOrder: `WO-${date}` })),
      null,
    );
  /** The stored outlook follows from the whole history, and it equals the outlook in the answer. */
  const expectSound = async (id: string, answered: RecordedVisit): Promise<void> => {
    const { different } = await withConnection(file, (connection) => compareOutlooks(connection, [id]));
    expect(different).toEqual([]);
    expect(await store.outlooks.get(OWNER, id)).toEqual(answered.outlook);
  };

  /** Does something between computing a visit's outlook and recording the visit. */
  function meanwhile(work: () => Promise<unknown>): void {
    elsewhere = (job) => {
      jobs += 1;
      elsewhere = () => null;
      return work().then(() => computeAxles(job));
    };
  }

  it('the outlook computed early is stored and answered unchanged', async () => {
    const id = await newVehicle();
    meanwhile(async () => undefined);
    await expectSound(id, await record(id, '2026-01-05', 20_000, 9));
    expect(jobs).toBe(1);
  });

  it.each<[string, (id: string) => Promise<unknown>]>([
    ['another visit is recorded', (id) => record(id, '2025-07-01', 10_000, 10)],
    [
      'an entry is added to a visit',
      async (id) => {
        const { items } = await store.visits.list(
          OWNER,
          id,
          { includeVoided: false },
          { limit: 1, after: null },
        );
        const reading = { ...padReading('left', 'inner', 5), axle: 'rear' };
        await store.visits.add(
          OWNER,
          items[0]!.id,
          VisitBody.pick({ readings: true }).parse({ readings: [reading] }),
          null,
        );
      },
    ],
    [
      'the policy changes',
      () => store.settings.setPolicy(OWNER, { ...DEFAULT_POLICY_BODY, visitIntervalDays: 33 }, '*'),
    ],
    ['the experience changes', () => store.experience.fit()],
  ])('the outlook is recomputed if in the meantime %s', async (_what, change) => {
    const id = await newVehicle();
    await record(id, '2025-09-01', 15_000, 9.5);
    meanwhile(() => change(id));
    const before = jobs;
    await expectSound(id, await record(id, '2026-01-05', 20_000, 9));
    expect(jobs).toBe(before + 1);
  });

  it('the visit is refused if another visit took its place in the meantime, and nothing is stored', async () => {
    const id = await newVehicle();
    meanwhile(() => record(id, '2025-12-01', 30_000, 9));
    await expect(record(id, '2026-01-05', 20_000, 9)).rejects.toMatchObject({ kind: 'invalid' });
    const { items } = await store.visits.list(OWNER, id, { includeVoided: true }, { limit: 9, after: null });
    expect(items.map(({ date }) => date)).toEqual(['2025-12-01']);
  });

  it('the outlook is discarded if the same work order was recorded in the meantime', async () => {
    const id = await newVehicle();
    meanwhile(() => record(id, '2026-01-05', 20_000, 9));
    expect((await record(id, '2026-01-05', 20_000, 9)).isNew).toBe(false);
  });
});
