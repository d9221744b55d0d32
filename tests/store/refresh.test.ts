import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { DEFAULT_POLICY_BODY } from '../../src/core/vocabulary/settings.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import { openStore } from '../../src/store/open.js';
import { makeShopFile, withConnection } from '../support/shopFile.js';

const OWNER = { ...OPERATOR, keyName: 'owner', role: 'owner' } as const;

const folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
const file = join(folder, 'shop.sqlite');
let ids: string[];
let store: Awaited<ReturnType<typeof openStore>>;
beforeAll(async () => {
  ({ vehicleIds: ids } = await makeShopFile(file, 3));
  // An infinite reading, as only a damaged file could hold.
  withConnection(file, (connection) =>
    connection
      .prepare(
        `UPDATE readings SET value = 9e999 WHERE vehicle_seq = (SELECT seq FROM vehicles WHERE id = ?)`,
      )
      .run(ids[0]),
  );
  store = await openStore({ file, timeZone: 'UTC' });
});
afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

it('a vehicle whose outlook cannot be computed does not stop the others', async () => {
  const [spoiled, ...others] = ids;
  const intervalOf = async (id: string) => (await store.outlooks.get(OWNER, id))!.policy.visitIntervalDays;
  await store.settings.setPolicy(OWNER, { ...DEFAULT_POLICY_BODY, visitIntervalDays: 33 }, '*');
  await expect(store.outlooks.refresh()).rejects.toThrow(`except for ${spoiled}`);
  // It is tried again, and fails again, the next time.
  await expect(store.outlooks.refresh()).rejects.toThrow(`except for ${spoiled}`);
  const stale = withConnection(file, (connection) =>
    connection
      .prepare(
        `SELECT v.id FROM outlooks o JOIN vehicles v ON v.seq = o.vehicle_seq
         WHERE o.settings_revision <> (SELECT MAX(settings_revision) FROM outlooks)`,
      )
      .pluck()
      .all(),
  );
  expect(stale).toEqual([spoiled]);
  expect(await Promise.all(others.map(intervalOf))).toEqual([33, 33]);
});
