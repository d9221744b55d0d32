import { LRUCache } from 'lru-cache';
import type { Axle } from '../../../core/vocabulary/terms.js';
import type { ForecastRow } from '../contract/reports.js';
import type { Database } from './connection.js';

/** Maximum vehicles whose rows are cached; enough for the pages that callers request repeatedly. */
const MAX_VEHICLES = 500;

/** The tables that a report row is read from, and the column that names the vehicle. */
const SOURCES = { axle_outlooks: 'vehicle_seq', vehicles: 'seq' };

/** Rows of reports, each cached until its axle or its vehicle is written. */
export interface CachedRows {
  get: (vehicleSeq: number, axle: Axle) => ForecastRow | undefined;
  keep: (row: ForecastRow) => void;
  /** Whether no other process has written since the last call; otherwise all rows are forgotten. */
  isCurrent: () => boolean;
  /** Call after every transaction: forgets the rows that it has written. */
  forgetWritten: () => void;
}

/**
 * Caches report rows, because a page of due axles is read again after every write, though most writes change one
 * vehicle. Triggers on the writing connection record the vehicles that each transaction changes, whichever statement
 * does it.
 */
export function cachedRows({ $client: writing }: Database): CachedRows {
  const kept = new LRUCache<number, Map<Axle, ForecastRow>>({ max: MAX_VEHICLES });
  const written = new Set<number>();
  noteWrites(writing, (vehicleSeq) => {
    written.add(vehicleSeq);
  });
  const commitsOfOthers = writing.prepare<[], number>('pragma data_version').pluck();
  let seen = commitsOfOthers.get();

  return {
    get: (vehicleSeq, axle) => kept.get(vehicleSeq)?.get(axle),

    keep(row) {
      const axles = kept.get(row.seq) ?? new Map<Axle, ForecastRow>();
      kept.set(row.seq, axles.set(row.outlook.axle, row));
    },

    isCurrent() {
      const now = commitsOfOthers.get();
      if (now === seen) return true;
      seen = now;
      kept.clear();
      return false;
    },

    forgetWritten() {
      for (const vehicleSeq of written) kept.delete(vehicleSeq);
      written.clear();
    },
  };
}

function noteWrites(writing: Database['$client'], note: (vehicleSeq: number) => void): void {
  writing.function('note_vehicle', note);
  for (const [table, column] of Object.entries(SOURCES)) {
    for (const [event, row] of Object.entries({ insert: 'new', update: 'old', delete: 'old' })) {
      writing.exec(
        `create temp trigger note_${table}_${event} after ${event} on main.${table}
         begin select note_vehicle(${row}.${column}); end`,
      );
    }
  }
}
