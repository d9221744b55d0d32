import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setImmediate as turn } from 'node:timers/promises';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openConnection, type Database } from '../../src/store/engine/sqlite/connection.js';
import { whileUnchanged } from '../../src/store/engine/sqlite/whileUnchanged.js';

/**
 * A table of words, read over one connection. This process writes over another, and a third represents another process.
 */
let folder: string;
let reading: Database;
let writing: Database;
let other: Database;
let commits: number;
let reads: number;
let find: (name: string) => Promise<{ word: string } | null>;
/** Called before each read ends. */
let meanwhile: () => Promise<void>;

const set = ({ $client }: Database, name: string, word: string) =>
  $client.prepare('insert or replace into words values (?, ?)').run(name, word);
const write = (name: string, word: string): void => {
  set(writing, name, word);
  commits += 1;
};

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
  const file = join(folder, 'words.sqlite');
  const open = () => drizzle(openConnection(file));
  [writing, reading, other] = [open(), open(), open()];
  writing.$client.exec('create table words (name text primary key, word text)');
  set(writing, 'a', 'first');
  const select = reading.$client.prepare('select word from words where name = ?');
  commits = 0;
  reads = 0;
  meanwhile = async () => undefined;
  find = whileUnchanged(reading, () => commits)(async (name: string) => {
    reads++;
    const found = (select.get(name) as { word: string } | undefined) ?? null;
    await meanwhile();
    return found;
  }, 3);
});

afterEach(() => {
  for (const { $client } of [reading, writing, other]) $client.close();
  rmSync(folder, { recursive: true });
});

describe('the cache of unchanged data', () => {
  it('a value is read once, even if it is empty', async () => {
    for (let time = 0; time < 3; time++) {
      expect(await find('a')).toEqual({ word: 'first' });
      expect(await find('b')).toBeNull();
      await turn();
    }
    expect(reads).toBe(2);
  });

  it('a write of this process invalidates the cached value at once', async () => {
    expect(await find('a')).toEqual({ word: 'first' });
    write('a', 'second');
    expect(await find('a')).toEqual({ word: 'second' });
    write('a', 'third');
    expect(await find('a')).toEqual({ word: 'third' });
  });

  it('a write of this process does not empty the cache twice', async () => {
    write('a', 'second');
    await find('a');
    await turn();
    await find('a');
    expect(reads).toBe(1);
  });

  it('a write by another process invalidates the cached value', async () => {
    expect(await find('a')).toEqual({ word: 'first' });
    set(other, 'a', 'second');
    await turn();
    expect(await find('a')).toEqual({ word: 'second' });
  });

  it('a value read before a write is not cached if the write ends during the read', async () => {
    meanwhile = async () => write('a', 'second');
    expect(await find('a')).toEqual({ word: 'first' });
    meanwhile = async () => undefined;
    expect(await find('a')).toEqual({ word: 'second' });
  });

  it('a value read before another process’s write is not cached either', async () => {
    meanwhile = async () => {
      set(other, 'a', 'second');
      await turn();
    };
    expect(await find('a')).toEqual({ word: 'first' });
    meanwhile = async () => undefined;
    expect(await find('a')).toEqual({ word: 'second' });
  });

  it('uncommitted data are not seen, whether of this process or of another', async () => {
    for (const database of [writing, other]) {
      const before = await find('a');
      database.$client.exec('begin immediate');
      set(database, 'a', 'unsaid');
      expect(await find('a')).toEqual(before);
      await turn();
      expect(await find('a')).toEqual(before);
      database.$client.exec('rollback');
      await turn();
      expect(await find('a')).toEqual(before);
    }
    expect(reads).toBe(1);
  });

  it('the cache of unchanged data holds at most the given number of values', async () => {
    for (const name of ['a', 'b', 'c', 'd']) await find(name);
    await find('d');
    expect(reads).toBe(4);
    await find('a');
    expect(reads).toBe(5);
  });
});
