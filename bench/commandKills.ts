import { spawn } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import BetterSqlite from 'better-sqlite3';
import type { Chance } from '../seed/random.js';
import { createKey } from '../src/commands/keys.js';
import { VehicleBody, EXAMPLE_VEHICLE } from '../src/core/vocabulary/vehicle.js';
import { VisitBody } from '../src/core/vocabulary/visit.js';
import { OPERATOR } from '../src/store/contract/caller.js';
import { openStore } from '../src/store/open.js';
import { ask, killServer, startServer, type Answer } from './serverProcess.js';
import { compareOutlooks, wrongIn } from './databaseCheck.js';

/** A backup, a fit, an import and a start, each killed at a random moment, and what each leaves behind. */

export const KILLED = ['backup', 'refit', 'import', 'start'] as const;
export type Killed = (typeof KILLED)[number];

export interface KillFigures {
  kills: number;
  /** How many had finished when they were killed. */
  finished: number;
  wrong: string[];
}

const VEHICLES = 12;
const VISITS = 6;
const IMPORTED = 20;
const DAY_MS = 86_400_000;
const FIRST_DAY = Date.UTC(2024, 0, 8);

const dateOf = (visit: number): string =>
  new Date(FIRST_DAY + visit * 120 * DAY_MS).toISOString().slice(0, 10);
const kmOf = (visit: number): number => 20_000 + 7000 * visit;
const pads = (mm: number) =>
  (['left', 'right'] as const).flatMap((side) =>
    (['inner', 'outer'] as const).map((pad) => ({
      kind: 'pad-thickness',
      axle: 'front',
      side,
      pad,
      value: mm,
      unit: 'mm',
    })),
  );

/** A shop in its own file, from which every trial starts. */
export async function makeKillShop(file: string): Promise<string> {
  const store = await openStore({ file, timeZone: 'UTC' });
  try {
    const key = await createKey(store.keys, { name: 'kills', role: 'owner', fleets: [] });
    const caller = { ...OPERATOR, keyName: 'kills' };
    for (let index = 0; index < VEHICLES; index++) {
      const vehicle = { ...EXAMPLE_VEHICLE, externalId: `K-${index}`, registration: `KI ${index}` };
      const { id } = await store.vehicles.create(caller, VehicleBody.parse(vehicle), null);
      for (let visit = 0; visit < VISITS; visit++) {
        const readings = pads(10 - visit * (0.6 + (index % 7) / 20));
        const odometer = { value: kmOf(visit), unit: 'km' };
        await store.visits.record(
          caller,
          id,
          VisitBody.parse({ date: dateOf(visit), odometer, readings }),
          null,
        );
      }
    }
    return key;
  } finally {
    await store.close();
  }
}

interface Trial {
  folder: string;
  file: string;
  key: string;
  chance: Chance;
  /** A little longer than a complete run takes. */
  wholeMs: number;
}

/** @returns what is wrong after the kill, and whether the run had finished */
const TRIALS: Record<Killed, (trial: Trial) => Promise<{ finished: boolean; wrong: string[] }>> = {
  backup: async ({ folder, file, chance, wholeMs }) => {
    const target = join(folder, 'copy.sqlite');
    const finished = await runAndKill('backup', [target], file, chance.between(0, wholeMs));
    const wrong = existsSync(target) ? await wrongAt(target) : [];
    if (finished && !existsSync(target)) wrong.push('the backup reported success, and its file is missing');
    // The remains do not block the next run.
    if (!existsSync(target) && !(await runAndKill('backup', [target], file, null)))
      wrong.push('the backup after a kill failed');
    return {
      finished,
      wrong: [...wrong, ...(await wrongAt(file)), ...(existsSync(target) ? await wrongAt(target) : [])],
    };
  },

  refit: async ({ file, chance, wholeMs }) => {
    const finished = await runAndKill('refit', [], file, chance.between(0, wholeMs));
    const store = await openStore({ file, timeZone: 'UTC' });
    await store.outlooks.refresh();
    await store.close();
    return { finished, wrong: await wrongAt(file) };
  },

  import: async ({ file, key, chance, wholeMs }) => {
    const send = (address: string) => sendSheet(address, key);
    const server = startServer(file);
    const sending = send(await server.listening);
    await sleep(chance.between(0, wholeMs));
    await killServer(server);
    const answer = await sending;
    const wrong: string[] = [];
    const visits = (await countVisits(file)) - VEHICLES * VISITS;
    if (visits !== 0 && visits !== IMPORTED) wrong.push(`${visits} of ${IMPORTED} visits were imported`);
    if (answer?.status === 201 && visits === 0) wrong.push('an acknowledged import is lost');
    const again = startServer(file);
    const second = await send(await again.listening);
    await killServer(again);
    if (second?.status !== 201)
      wrong.push(`sending it again answers ${second?.status} ${second?.text.slice(0, 200)}`);
    const after = (await countVisits(file)) - VEHICLES * VISITS;
    if (after !== IMPORTED) wrong.push(`sending it again leaves ${after} of ${IMPORTED} visits`);
    return { finished: answer !== null, wrong: [...wrong, ...(await wrongAt(file))] };
  },

  start: async ({ folder, file, key, chance, wholeMs }) => {
    // Every other time there is no database yet, so that the schema is created.
    const isNew = chance.happens(0.5);
    const served = isNew ? join(folder, 'new', 'brakes.sqlite') : file;
    const server = startServer(served);
    const finished = await Promise.race([
      server.listening.then(() => true),
      sleep(chance.between(0, wholeMs)).then(() => false),
    ]);
    await killServer(server);
    const again = startServer(served);
    const address = await again.listening;
    const wrong: string[] = [];
    const { status } = await ask(address, key, '/v1/vehicles?limit=1');
    if (status !== (isNew ? 401 : 200)) wrong.push(`the service answers ${status} after the start`);
    await killServer(again);
    return { finished, wrong: [...wrong, ...(await wrongAt(served))] };
  },
};

/** A command in its own process group, killed after a time; null lets it finish. */
function runAndKill(command: string, args: string[], file: string, afterMs: number | null): Promise<boolean> {
  return new Promise((settle) => {
    const child = spawn(process.execPath, [resolve(`dist/src/commands/${command}.js`), ...args], {
      env: { ...process.env, DATABASE_FILE: file, TIME_ZONE: 'UTC' },
      stdio: 'ignore',
      detached: true,
    });
    const timer =
      afterMs === null
        ? undefined
        : setTimeout(() => child.exitCode === null && process.kill(-child.pid!, 'SIGKILL'), afterMs);
    child.once('exit', (code) => {
      clearTimeout(timer);
      settle(code === 0);
    });
  });
}

/** How long each takes if it is not killed, in milliseconds. */
const WHOLE: Record<Killed, (trial: Omit<Trial, 'wholeMs' | 'chance'>) => Promise<number>> = {
  backup: ({ folder, file }) => timed(() => runAndKill('backup', [join(folder, 'first.sqlite')], file, null)),
  refit: ({ file }) => timed(() => runAndKill('refit', [], file, null)),
  import: async ({ file, key }) => {
    const server = startServer(file);
    const address = await server.listening;
    const took = await timed(() => sendSheet(address, key));
    await killServer(server);
    return took;
  },
  start: async ({ file }) => {
    const server = startServer(file);
    const took = await timed(() => server.listening);
    await killServer(server);
    return took;
  },
};

async function timed(run: () => Promise<unknown>): Promise<number> {
  const began = performance.now();
  await run();
  return performance.now() - began;
}

/** Null if no answer arrived. */
const sendSheet = (address: string, key: string): Promise<Answer | null> =>
  ask(address, key, '/v1/imports/visits', {
    method: 'POST',
    headers: { 'content-type': 'text/csv', 'idempotency-key': 'sheet' },
    body: importedSheet(),
  }).catch(() => null);

function importedSheet(): string {
  const rows = Array.from({ length: IMPORTED }, (_, index) => {
    const row = [
      `K-${index % VEHICLES}`,
      dateOf(VISITS + Math.floor(index / VEHICLES)),
      kmOf(VISITS + 1),
      'km',
    ];
    return [...row, 'pad-thickness', 'front', 'left', 'inner', 4, 'mm'].join(',');
  });
  return ['vehicle,date,odometer,odometerUnit,entry,axle,side,pad,value,unit', ...rows].join('\n');
}

async function look<Result>(
  file: string,
  at: (connection: BetterSqlite.Database) => Result | Promise<Result>,
): Promise<Result> {
  const connection = new BetterSqlite(file, { fileMustExist: true });
  try {
    return await at(connection);
  } finally {
    connection.close();
  }
}

const countVisits = (file: string): Promise<number> =>
  look(file, (connection) => connection.prepare('select count(*) from visits').pluck().get() as number);

const wrongAt = (file: string): Promise<string[]> =>
  look(file, async (connection) => [
    ...wrongIn(connection),
    ...(await compareOutlooks(connection, null)).different.map((id) => `outlook of ${id}`),
  ]);

/**
 * @param shop created by {@link makeKillShop}
 * @param folder for the trials, which is emptied for each
 */
export async function killTrials(
  what: Killed,
  kills: number,
  { shop, key, folder, chance }: { shop: string; key: string; folder: string; chance: Chance },
): Promise<KillFigures> {
  const figures: KillFigures = { kills: 0, finished: 0, wrong: [] };
  const file = join(folder, 'brakes.sqlite');
  const begin = (): void => {
    rmSync(folder, { recursive: true, force: true });
    mkdirSync(folder, { recursive: true });
    copyFileSync(shop, file);
  };
  begin();
  const wholeMs = 1.05 * (await WHOLE[what]({ folder, file, key }));
  for (let kill = 1; kill <= kills; kill++) {
    begin();
    const { finished, wrong } = await TRIALS[what]({ folder, file, key, chance, wholeMs });
    figures.kills += 1;
    if (finished) figures.finished += 1;
    figures.wrong.push(...wrong.map((each) => `${what} ${kill}: ${each}`));
  }
  return figures;
}
