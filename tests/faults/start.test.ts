import {
  chmodSync,
  closeSync,
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type BetterSqlite from 'better-sqlite3';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { ask, killServer, startServer, type Ended, type ServerOptions } from '../../bench/serverProcess.js';
import { wrongIn } from '../../bench/databaseCheck.js';
import { buildApp } from '../../src/app.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import { openStore } from '../../src/store/open.js';
import { visitBody } from '../support/bodies.js';
import { laterProgram } from '../support/program.js';
import { makeShopFile, whileLocked, withConnection } from '../support/shopFile.js';

const made = mkdtempSync(join(tmpdir(), 'brake-wear-start-'));
let folder: string;
let file: string;
let shop: Awaited<ReturnType<typeof makeShopFile>>;
beforeAll(async () => {
  shop = await makeShopFile(join(made, 'brakes.sqlite'), 3);
});
beforeEach(() => {
  folder = mkdtempSync(join(made, 'test-'));
  mkdirSync(join(folder, 'data'));
  file = join(folder, 'data', 'brakes.sqlite');
  copyFileSync(join(made, 'brakes.sqlite'), file);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));
afterAll(() => rmSync(made, { recursive: true, force: true }));

async function startEnds(options: ServerOptions = {}): Promise<Ended> {
  const server = startServer(file, options);
  const ended = await Promise.race([
    server.ended,
    server.listening.then(() => null).catch(() => server.ended),
  ]);
  if (ended === null) await killServer(server);
  expect(ended, 'the start was to be refused').not.toBeNull();
  return ended!;
}

/** One clear line, and an exit code other than 0. */
async function expectRefused(line: RegExp, options: ServerOptions = {}): Promise<void> {
  const { code, stderr } = await startEnds(options);
  expect([code, stderr.split('\n').length, stderr]).toEqual([1, 2, expect.stringMatching(line)]);
  expect(stderr).toContain(file);
}

async function expectServes(options: ServerOptions = {}): Promise<void> {
  const server = startServer(file, options);
  try {
    const address = await server.listening;
    for (const id of shop.vehicleIds)
      expect((await ask(address, shop.key, `/v1/vehicles/${id}/wear`)).status).toBe(200);
  } finally {
    await killServer(server);
  }
}

/** Checks that the service answers from the file, in this process: loading another takes a second and a half. */
async function expectAnswers(): Promise<void> {
  const store = await openStore({ file, timeZone: 'UTC' });
  const app = await buildApp({ store, config: { timeZone: 'UTC', rateLimitPerMinute: 0 } });
  try {
    const headers = { authorization: `Bearer ${shop.key}` };
    for (const id of shop.vehicleIds)
      expect((await app.inject({ url: `/v1/vehicles/${id}/wear`, headers })).statusCode).toBe(200);
  } finally {
    await app.close();
    await store.close();
  }
}

const contents = (): unknown =>
  withConnection(file, (connection) => {
    const tables = connection
      .prepare("select name, sql from sqlite_master where name not like 'sqlite_%'")
      .all();
    return (tables as { name: string; sql: string }[]).map(({ name, sql }) => [
      sql,
      sql.startsWith('CREATE TABLE') ? connection.prepare(`select * from "${name}"`).all() : [],
    ]);
  });

describe('starting with a damaged database', () => {
  const PAGE = 4096;
  function overwrite(from: number, bytes: number): void {
    const descriptor = openSync(file, 'r+');
    writeSync(descriptor, Buffer.alloc(bytes, 0x5a), 0, bytes, from);
    closeSync(descriptor);
  }
  const pagesOf = (table: string): number[] =>
    withConnection(file, (connection) =>
      connection.prepare('select pageno from dbstat where name = ? order by pageno').pluck().all(table),
    ) as number[];

  it.each<[string, () => void]>([
    ['its first page', () => overwrite(0, PAGE)],
    ['a page of its visits', () => overwrite(PAGE * (pagesOf('visits').at(-1)! - 1), PAGE)],
    ['a page of an index', () => overwrite(PAGE * (pagesOf('visits_vehicle')[0]! - 1), PAGE)],
    ['its second half', () => truncateSync(file, PAGE * Math.floor(statSync(file).size / PAGE / 2))],
    ['everything: it is another file', () => writeFileSync(file, 'no database at all'.repeat(1000))],
  ])('the service refuses to start: %s', async (_name, damage) => {
    damage();
    await expectRefused(/: is damaged; see docs\/backup\.md \(.+\)\n$/);
  });

  /** Larger than what is checked before the service starts. */
  function makeLarge(): void {
    withConnection(file, (connection) =>
      connection.exec('create table filler (bytes blob); insert into filler values (zeroblob(20000000))'),
    );
  }

  it('the service runs on a large damaged file until the background check finds the damage', async () => {
    makeLarge();
    overwrite(PAGE * (pagesOf('visits_vehicle')[0]! - 1), PAGE);
    const server = startServer(file);
    try {
      const address = await server.listening;
      const isReady = async () => (await ask(address, shop.key, '/health/ready')).status;
      await expect.poll(isReady, { timeout: 20_000 }).toBe(503);
      expect((await ask(address, shop.key, '/health/live')).status).toBe(200);
      // The log line and the answer may come in either order.
      await expect.poll(() => server.log()).toMatch(/: is damaged; see docs\/backup\.md \(.+\)"/);
    } finally {
      await killServer(server);
    }
  });

  it('the service refuses to start on a large file whose end is missing', async () => {
    makeLarge();
    truncateSync(file, 18_000_000);
    await expectRefused(/: is damaged; see docs\/backup\.md \(.+\)\n$/);
  });

  it('the service starts again on a restored copy', async () => {
    const whole = join(folder, 'whole.sqlite');
    withConnection(file, (connection) => connection.prepare('vacuum into ?').run(whole));
    overwrite(PAGE * (pagesOf('visits')[0]! - 1), PAGE);
    await expectRefused(/damaged/);
    withConnection(whole, (connection) => {
      rmSync(file);
      connection.prepare('vacuum into ?').run(file);
    });
    await expectAnswers();
  });
});

describe('starting with the database of a newer program', () => {
  it('the service refuses to start and changes nothing', async () => {
    const newer = (connection: BetterSqlite.Database) =>
      connection.exec(
        "insert into __drizzle_migrations (hash, created_at) values ('of tomorrow', 9999999999999)",
      );
    withConnection(file, newer);
    const before = contents();
    await expectRefused(/: has schema \d+, newer than this program's \d+; run a newer program\n$/);
    expect(contents()).toEqual(before);
  });
});

/** Root may ignore file modes; in a container, setpriv removes that right from the child. */
const WITHOUT_OVERRIDE =
  process.getuid?.() === 0 ? ['setpriv', '--bounding-set', '-dac_override,-dac_read_search', '--'] : [];

describe.skipIf(process.platform !== 'linux')('starting with a database that is not writable', () => {
  afterEach(() => {
    chmodSync(join(folder, 'data'), 0o755);
  });

  it.each<[string, () => void]>([
    ['its file', () => chmodSync(file, 0o444)],
    ['its folder', () => chmodSync(join(folder, 'data'), 0o555)],
  ])('the service refuses to start instead of failing at the first visit: %s', async (_name, protect) => {
    protect();
    await expectRefused(
      /: cannot be written by this user; the service needs to write the file and its folder/,
      {
        through: WITHOUT_OVERRIDE,
      },
    );
    chmodSync(join(folder, 'data'), 0o755);
    chmodSync(file, 0o644);
    await expectServes({ through: WITHOUT_OVERRIDE });
  });
});

describe('starting with a database that another process has locked', () => {
  it('the service starts and reads if it has served this database before', () =>
    whileLocked(file, () => expectServes()));

  it('the service refuses to start for the first time', async () => {
    withConnection(file, (connection) => connection.exec('delete from service_secrets'));
    await whileLocked(file, () => expectRefused(LOCKED));
    await expectAnswers();
  });

  it('the service refuses to start if the start has to write', async () => {
    const store = await openStore({ file, timeZone: 'UTC' });
    await store.imports.begin({ ...OPERATOR, keyName: 'owner', role: 'owner' }, 'visits', { dryRun: false });
    await store.close();
    await whileLocked(file, () => expectRefused(LOCKED));
    await expectAnswers();
  });

  it('a migration waits for the lock: the first start stops, a later one migrates', async () => {
    const main = laterProgram(join(folder, 'later'), HARMLESS);
    await whileLocked(file, () => expectRefused(LOCKED, { main }));
    await expectServes({ main });
  });
});

const LOCKED = /: is being written by another process; try again when that has ended/;
const HARMLESS = { tag: '9999_later', sql: 'create table later (id integer primary key) strict;' };

describe('migrating a database at start', () => {
  const copies = () => readdirSync(join(folder, 'data')).filter((name) => name.includes('.before-'));
  const copy = () => join(folder, 'data', copies()[0]!);
  const hasTable = (path: string, name: string): boolean =>
    withConnection(
      path,
      (connection) =>
        connection.prepare('select 1 from sqlite_master where name = ?').get(name) !== undefined,
    );
  const visitsIn = (path: string): unknown =>
    withConnection(path, (connection) => {
      expect(wrongIn(connection)).toEqual([]);
      return connection.prepare('select count(*) from visits').pluck().get();
    });
  /** The database is unchanged, a complete copy of it exists, and the present program runs on it. */
  async function expectAsBefore(before: unknown): Promise<void> {
    expect(contents()).toEqual(before);
    expect(copies()).toHaveLength(1);
    expect(visitsIn(copy())).toBe(3);
    expect(visitsIn(file)).toBe(3);
    await expectAnswers();
  }

  it('a killed migration leaves the database unchanged, and the next start completes it', async () => {
    const before = contents();
    const slow =
      'create table later (n integer) strict;--> statement-breakpoint\ninsert into later with recursive count(n) as (select 1 union all select n + 1 from count where n < 100000000) select n from count where n % 1000 = 0;';
    const main = laterProgram(join(folder, 'slow'), { tag: '9999_later', sql: slow });
    const server = startServer(file, { main });
    while (copies().length === 0 || copies()[0]!.endsWith('.unfinished')) await sleep(20);
    await sleep(300);
    await killServer(server);
    await expectAsBefore(before);
    await expectServes({ main: laterProgram(join(folder, 'later'), HARMLESS) });
    expect([hasTable(file, 'later'), hasTable(copy(), 'later')]).toEqual([true, false]);
  });

  it.each<[string, string, RegExp]>([
    [
      'a statement fails',
      'create table later (n integer) strict;insert into nowhere values (1);',
      /no such table/,
    ],
    [
      'rows would lose their parents',
      'delete from vehicles where seq = 1;',
      /refer to rows that are missing/,
    ],
  ])('the service stops if %s: the database is unchanged, and one line says why', async (_name, sql, why) => {
    const before = contents();
    const main = laterProgram(join(folder, 'failing'), { tag: '9999_later', sql });
    await expectRefused(
      new RegExp(`: could not be migrated from schema \\d+ to \\d+ and is unchanged: .*${why.source}`),
      { main },
    );
    await expectAsBefore(before);
  });

  it('the start after a failed migration migrates, and its copy holds the present data, whatever the failed one left', async () => {
    const main = laterProgram(join(folder, 'failing'), {
      tag: '9999_later',
      sql: 'insert into nowhere values (1);',
    });
    await expectRefused(/nowhere/, { main });
    expect(visitsIn(copy())).toBe(3);
    const store = await openStore({ file, timeZone: 'UTC' });
    const visit = VisitBody.parse(visitBody('2026-03-02', 60_100));
    await store.visits.record({ ...OPERATOR, keyName: 'owner' }, shop.vehicleIds[0]!, visit, null);
    await store.close();
    writeFileSync(`${copy()}.unfinished`, 'of a start that was killed while it copied');
    await expectServes({ main: laterProgram(join(folder, 'later'), HARMLESS) });
    expect([hasTable(file, 'later'), hasTable(copy(), 'later')]).toEqual([true, false]);
    expect(copies()).toHaveLength(1);
    expect(visitsIn(copy())).toBe(4);
  });
});
