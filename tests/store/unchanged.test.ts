import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setImmediate as turn } from 'node:timers/promises';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openConnection, type Database } from '../../src/store/engine/sqlite/connection.js';
import { whileUnchanged } from '../../src/store/engine/sqlite/whileUnchanged.js';

/** A table of words, read over one connection; a second connection stands for another process. */
let folder: string;
let here: Database;
let other: Database;
let reads: number;
let find: (name: string) => { word: string } | null;

const set = ({ $client }: Database, name: string, word: string) =>
  $client.prepare('insert or replace into words values (?, ?)').run(name, word);

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
  const file = join(folder, 'words.sqlite');
  [here, other] = [drizzle(openConnection(file)), drizzle(openConnection(file))];
  here.$client.exec('create table words (name text primary key, word text)');
  set(here, 'a', 'first');
  const select = here.$client.prepare('select word from words where name = ?');
  reads = 0;
  find = whileUnchanged(here)((name: string) => {
    reads++;
    return (select.get(name) as { word: string } | undefined) ?? null;
  }, 3);
});

afterEach(() => {
  here.$client.close();
  other.$client.close();
  rmSync(folder, { recursive: true });
});

describe('the cache of unchanged data', () => {
  it('a value is read once, even if it is empty', async () => {
    for (let time = 0; time < 3; time++) {
      expect(find('a')).toEqual({ word: 'first' });
      expect(find('b')).toBeNull();
      await turn();
    }
    expect(reads).toBe(2);
  });

  it('a write over the same connection invalidates it at once', () => {
    expect(find('a')).toEqual({ word: 'first' });
    set(here, 'a', 'second');
    expect(find('a')).toEqual({ word: 'second' });
    here.$client.exec('delete from words');
    expect(find('a')).toBeNull();
  });

  it('a write by another process invalidates it', async () => {
    expect(find('a')).toEqual({ word: 'first' });
    set(other, 'a', 'second');
    await turn();
    expect(find('a')).toEqual({ word: 'second' });
  });

  it('values from a rolled-back transaction are not kept', () => {
    here.$client.exec('begin');
    set(here, 'a', 'unsaid');
    expect(find('a')).toEqual({ word: 'unsaid' });
    here.$client.exec('rollback');
    expect(find('a')).toEqual({ word: 'first' });
    expect(find('a')).toEqual({ word: 'first' });
    expect(reads).toBe(2);
  });

  it('uncommitted data of another process are not seen', async () => {
    other.$client.exec('begin immediate');
    set(other, 'a', 'second');
    expect(find('a')).toEqual({ word: 'first' });
    await turn();
    expect(find('a')).toEqual({ word: 'first' });
    other.$client.exec('commit');
    await turn();
    expect(find('a')).toEqual({ word: 'second' });
  });

  it('the cache of unchanged data holds at most the given number of values', () => {
    for (const name of ['a', 'b', 'c', 'd']) find(name);
    find('d');
    expect(reads).toBe(4);
    find('a');
    expect(reads).toBe(5);
  });
});
