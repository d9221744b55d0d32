import {
  closeSync,
  copyFileSync,
  openSync,
  readFileSync,
  readSync,
  rmSync,
  truncateSync,
  writeSync,
} from 'node:fs';
import BetterSqlite from 'better-sqlite3';
import type { Chance } from '../seed/random.js';
import { openDatabase } from '../src/store/engine/sqlite/database.js';
import { compareOutlooks, wrongIn } from './databaseCheck.js';

/**
 * A write-ahead log torn by a power cut: cut off at some byte, or with a flipped bit. The part of the log that
 * SQLite has checkpointed into the database was on disk before, so the log is torn only after it.
 */

export interface TornFigures {
  trials: number;
  /** Trials in which something written was cut off. */
  shortened: number;
  wrong: string[];
}

/** SQLite's 'WAL-mode File Format', from memory: a header, then frames of a page each. */
const LOG_HEADER = 32;
const FRAME_HEADER = 24;
const PAGE_BYTES = 4096;
/** The same for the wal-index: where it counts the valid frames, and the checkpointed ones. */
const VALID_FRAMES_AT = 16;
const CARRIED_OVER_AT = 96;

/**
 * Tears copies of a closed database with its log as a killed process left it, and opens them.
 *
 * @returns figures without a trial if the log has nothing to tear
 */
export async function tornTrials(file: string, trials: number, chance: Chance): Promise<TornFigures> {
  const figures: TornFigures = { trials: 0, shortened: 0, wrong: [] };
  const [from, to] = tearable(file);
  if (from >= to) return figures;
  const whole = await historyIn(file, () => undefined);
  for (let trial = 0; trial < trials; trial++) {
    const at = chance.whole(from, to - 1);
    const cut = chance.happens(0.5);
    const tear = (log: string): void => (cut ? truncateSync(log, at) : flipBit(log, at, chance.whole(0, 7)));
    const said = `${cut ? 'cut' : 'flipped'} at ${at} of ${from}–${to}`;
    try {
      const torn = await historyIn(file, tear);
      figures.wrong.push(...torn.wrong.map((fault) => `${said}: ${fault}`));
      if (torn.lines.some((line, index) => line !== whole.lines[index]))
        figures.wrong.push(`${said}: not a prefix of what was written`);
      if (torn.lines.length < whole.lines.length) figures.shortened += 1;
    } catch (fault) {
      figures.wrong.push(`${said}: ${(fault as Error).message}`);
    }
    figures.trials += 1;
  }
  return figures;
}

/** The bytes of the log that are valid and not checkpointed. */
function tearable(file: string): [number, number] {
  const index = readFileSync(`${file}-shm`);
  const frame = FRAME_HEADER + PAGE_BYTES;
  const endOf = (at: number): number => LOG_HEADER + frame * index.readUInt32LE(at);
  return [endOf(CARRIED_OVER_AT), endOf(VALID_FRAMES_AT)];
}

/** The content of a torn copy, as the lines of its audit, and what is wrong with it. */
async function historyIn(
  file: string,
  tear: (log: string) => void,
): Promise<{ lines: string[]; wrong: string[] }> {
  const copy = `${file}.torn`;
  for (const end of ['', '-wal']) copyFileSync(file + end, copy + end);
  tear(`${copy}-wal`);
  try {
    openDatabase(copy).close();
    const connection = new BetterSqlite(copy);
    try {
      const lines = connection
        .prepare('select * from audit order by seq')
        .all()
        .map((line) => JSON.stringify(line));
      const { different } = await compareOutlooks(connection, null);
      return { lines, wrong: [...wrongIn(connection), ...different.map((id) => `outlook of ${id}`)] };
    } finally {
      connection.close();
    }
  } finally {
    for (const end of ['', '-wal', '-shm']) rmSync(copy + end, { force: true });
  }
}

function flipBit(file: string, at: number, bit: number): void {
  const descriptor = openSync(file, 'r+');
  try {
    const byte = Buffer.alloc(1);
    readSync(descriptor, byte, 0, 1, at);
    byte[0]! ^= 1 << bit;
    writeSync(descriptor, byte, 0, 1, at);
  } finally {
    closeSync(descriptor);
  }
}
