import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { carryOutFitTask, UnsoundFit, type FitTask } from '../../src/core/forecast/fit.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import { openStore } from '../../src/store/open.js';
import { makeShopFile } from '../support/shopFile.js';

describe('the experience of a shop of identical vehicles', { timeout: 120_000 }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
  const file = join(folder, 'alike.sqlite');
  let store: Awaited<ReturnType<typeof openStore>>;
  let vehicleId: string;

  beforeAll(async () => {
    vehicleId = (await makeShopFile(file, 12)).vehicleIds[7]!;
    store = await openStore({ file, timeZone: 'UTC' });
  });
  afterAll(async () => {
    await store.close();
    rmSync(folder, { recursive: true });
  });

  const basisOf = async (): Promise<string | null> => {
    const outlook = await store.outlooks.get({ ...OPERATOR, keyName: 'owner' }, vehicleId);
    return outlook.axles[0]!.replacement.basis.experience;
  };
  /** Runs the jobs of the fit, and makes one weight in each result invalid. */
  const spoiled = async (tasks: readonly FitTask[]) =>
    tasks.map((task) => {
      const done = carryOutFitTask(task);
      if (done) done.draws[0]!.weight = NaN;
      return done;
    });

  it('a fit learns the experience, and every outlook uses it', async () => {
    expect(await store.experience.refit()).toBe(1);
    expect(await basisOf()).toMatch(/^v1 /);
  });

  it('the experience stays in force if the result of a fit is invalid', async () => {
    const before = await store.experience.list();
    await expect(store.experience.fit(spoiled)).rejects.toThrow(UnsoundFit);
    expect(await store.experience.list()).toEqual(before);
    await store.outlooks.refresh();
    expect(await basisOf()).toMatch(/^v1 /);
  });
});
