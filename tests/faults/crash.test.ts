import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { KILLED, killTrials, makeKillShop, type Killed } from '../../bench/commandKills.js';
import { crashTrial } from '../../bench/crashTrial.js';
import { compareOutlooks, wrongIn } from '../../bench/databaseCheck.js';
import { tornTrials, type TornFigures } from '../../bench/tornLog.js';
import { streams } from '../../seed/random.js';
import { makeShopFile, withConnection } from '../support/shopFile.js';
import { inDepth } from '../support/thorough.js';

/** A small part of what `npm run bench:crash` does hundreds of times. */

const KILLS = inDepth(2, 10);
const TORN_LOGS = inDepth(4, 10);
const KILLS_EACH = inDepth(1, 5);
/** With these seeds a run is killed first after the program has loaded, and a start while it creates a database. */
const SEEDS: Record<Killed, number> = { backup: 7, refit: 17, import: 1, start: 5 };

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'brake-wear-crash-'));
  file = join(folder, 'brakes.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('a service that is killed while it writes', () => {
  it('every answered write is complete with its outlooks after a restart, also with a torn log', async () => {
    const torn: TornFigures[] = [];
    const [chance] = streams(5, 1);
    const figures = await crashTrial({
      file,
      kills: KILLS,
      seed: 5,
      afterKill: async () => void torn.push(await tornTrials(file, TORN_LOGS, chance!)),
    });
    expect([figures.lost, figures.wrong]).toEqual([[], []]);
    expect(torn.flatMap(({ wrong }) => wrong)).toEqual([]);
    expect(figures.kills).toBe(KILLS);
    expect(figures.acknowledged).toBeGreaterThan(0);
    expect(figures.outlooksCompared).toBeGreaterThan(0);
  });
});

describe('commands and imports that are killed', () => {
  it.each(KILLED)('a killed run leaves nothing half done, and can be repeated: %s', async (what) => {
    const shop = join(folder, 'shop.sqlite');
    const key = await makeKillShop(shop);
    const [chance] = streams(SEEDS[what], 1);
    const figures = await killTrials(what, KILLS_EACH, {
      shop,
      key,
      folder: join(folder, what),
      chance: chance!,
    });
    expect([figures.kills, figures.wrong]).toEqual([KILLS_EACH, []]);
  });
});

describe('the check of a database after a crash', () => {
  it.each<[string, string, RegExp]>([
    ['a reading is missing', 'delete from readings where number = 2', /^incomplete: visit /],
    ['an outlook is missing', 'delete from outlooks', /^incomplete: vehicle /],
    ['an axle of an outlook is missing', 'delete from axle_outlooks', /^incomplete: vehicle /],
    ['a version is missing', 'update visits set version = 2', /^incomplete: visit /],
    ['a row refers to nothing', 'delete from visits', /refers to one that is missing/],
  ])('the check finds that %s', async (_name, spoil, message) => {
    await makeShopFile(file);
    withConnection(file, (connection) => {
      expect(wrongIn(connection)).toEqual([]);
      connection.pragma('foreign_keys = off');
      connection.exec(spoil);
      expect(wrongIn(connection)).toContainEqual(expect.stringMatching(message));
    });
  });

  it('the check finds an outlook that does not follow from the stored history', async () => {
    const { vehicleIds } = await makeShopFile(file, 2);
    await withConnection(file, async (connection) => {
      expect(await compareOutlooks(connection, null)).toEqual({ compared: 2, different: [] });
      connection.exec('update readings set value = 7.9 where vehicle_seq = 1 and number = 1');
      expect(await compareOutlooks(connection, null)).toEqual({ compared: 2, different: [vehicleIds[0]] });
      expect(await compareOutlooks(connection, [vehicleIds[1]!])).toEqual({ compared: 1, different: [] });
    });
  });
});
