import { existsSync, readdirSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { backUp } from '../../src/store/engine/sqlite/backup.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import { openStore } from '../../src/store/open.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { fourPads, vehicleBody, visitBody } from '../support/bodies.js';
import { read, recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

describe('a backup', () => {
  it('a backup is made while visits are recorded, is complete, and serves like the original', async () => {
    const { id } = await recordVehicle(service, vehicleBody());
    const target = `${service.file}.copy`;
    const record = async (from: number, to: number) => {
      for (let index = from; index < to; index++) {
        const date = `2025-${String(index + 1).padStart(2, '0')}-10`;
        await recordVisit(service, id, visitBody(date, 10_000 + 1000 * index, fourPads([9, 9, 9, 9])));
      }
    };
    await record(0, 5);
    const [counts] = await Promise.all([backUp(service.file, target), record(5, 10)]);
    expect(counts.visits).toBeGreaterThanOrEqual(5);
    expect(counts.readings).toBe(4 * counts.visits);
    expect(counts.visit_versions).toBe(counts.visits);

    const restored = await openStore({ file: target, timeZone: 'UTC' });
    const visits = await restored.visits.list(
      OPERATOR,
      id,
      { includeVoided: false },
      { limit: 200, after: null },
    );
    expect(visits.items).toHaveLength(counts.visits);
    await restored.close();
    expect((await read<Wear>(service, `/v1/vehicles/${id}/wear`)).asAt!.date).toBe('2025-10-10');
  });

  it('a backup never overwrites an existing file', async () => {
    const target = `${service.file}.taken`;
    writeFileSync(target, 'something else');
    await expect(backUp(service.file, target)).rejects.toThrow('already exists');
  });

  it('a backup creates a missing folder, and only its owner can read the copy and the database', async () => {
    const target = join(dirname(service.file), 'copies', 'by-day', 'monday.sqlite');
    await backUp(service.file, target);
    expect(readdirSync(dirname(target))).toEqual(['monday.sqlite']);
    for (const path of [target, service.file, `${service.file}-wal`])
      expect([path, (statSync(path).mode & 0o777).toString(8)]).toEqual([path, '600']);
  });

  it('an unfinished copy is not served as an empty shop', async () => {
    const unfinished = `${service.file}.partial.unfinished`;
    writeFileSync(unfinished, '');
    await expect(openStore({ file: unfinished, timeZone: 'UTC' })).rejects.toThrow('never finished');
    // An unfinished copy does not block the next backup.
    await backUp(service.file, `${service.file}.partial`);
    expect(existsSync(unfinished)).toBe(false);
  });

  it('a missing or damaged database is refused, and no copy is left behind', async () => {
    await expect(backUp(`${service.file}.missing`, `${service.file}.a`)).rejects.toThrow('.missing');
    const whole = `${service.file}.whole`;
    rmSync(whole, { force: true });
    await backUp(service.file, whole);
    truncateSync(whole, 40_960);
    await expect(backUp(whole, `${service.file}.b`)).rejects.toThrow('could not be copied');
    expect([existsSync(`${service.file}.a`), existsSync(`${service.file}.b`)]).toEqual([false, false]);
  });
});
