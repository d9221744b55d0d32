import { createHash } from 'node:crypto';
import { itemAt } from '../core/items.js';
import type { Engine, ReadingComponents } from './engine/contract/engine.js';
import { openPostgres } from './engine/postgres/engine.js';
import { openEngine } from './engine/sqlite/engine.js';
import { TABLES, type TableName, type TableRow } from './engine/contract/tables.js';

/** A SQLite file or a PostgreSQL URL. */
export type Place = { file: string } | { url: string };

const openPlace = async (place: Place): Promise<Engine> =>
  'url' in place ? openPostgres({ ...place, continuesMove: true }) : openEngine(place);

/**
 * {@link moveShop} between two places.
 *
 * @throws DatabaseUnusable, MoveFailed
 */
export async function moveBetween(
  from: Place,
  to: Place,
  onTable: (table: TableName, rows: number) => void,
): Promise<number> {
  const source = await openPlace(from);
  try {
    const target = await openPlace(to);
    try {
      return await moveShop(source, target, onTable);
    } finally {
      await target.close();
    }
  } finally {
    await source.close();
  }
}

/** Rows read and written at a time. */
const BATCH = 200;

/** A table's number of rows, and a digest of its rows in order. */
interface TableDigest {
  rows: number;
  digest: string;
}

export class MoveFailed extends Error {}

/**
 * Copies a whole shop from one database to another, in the order of the primary keys, so that an interrupted copy
 * continues where it stopped. Then compares the number of rows and a digest of every table.
 *
 * @param onTable called after each table, with its rows
 * @returns the number of rows
 * @throws MoveFailed if the copy differs from the source
 */
export async function moveShop(
  from: Engine,
  to: Engine,
  onTable: (table: TableName, rows: number) => void,
): Promise<number> {
  if (!(await to.write((rows) => rows.tables.beginCopy())))
    throw new MoveFailed('the target already holds a shop; name an empty database');
  return from.consistently(async (source) => {
    for (const table of TABLES) await copyTable(source, to, table);
    let total = 0;
    for (const table of TABLES) {
      const [wanted, copied] = [await digestTable(source, table), await digestTable(to.reading, table)];
      if (wanted.rows !== copied.rows || wanted.digest !== copied.digest) {
        throw new MoveFailed(
          `${table}: the copy has ${copied.rows} rows and the source ${wanted.rows}, or their contents differ; the source was written to since the move began. Empty the target, stop the service and start again`,
        );
      }
      onTable(table, wanted.rows);
      total += wanted.rows;
    }
    await to.write((rows) => rows.tables.endCopy());
    return total;
  });
}

async function copyTable(source: ReadingComponents, to: Engine, table: TableName): Promise<void> {
  let after = await to.reading.tables.last(table);
  for (;;) {
    const rows = await source.tables.read(table, after, BATCH);
    if (rows.length === 0) return;
    await to.write((own) => own.tables.insert(table, rows));
    after = itemAt(rows, -1);
  }
}

async function digestTable({ tables }: ReadingComponents, table: TableName): Promise<TableDigest> {
  const hash = createHash('sha256');
  let count = 0;
  for (let after: TableRow | null = null; ;) {
    const rows = await tables.read(table, after, BATCH);
    if (rows.length === 0) return { rows: count, digest: hash.digest('hex') };
    for (const row of rows) hash.update(`${JSON.stringify(sortColumns(row))}\n`);
    count += rows.length;
    after = itemAt(rows, -1);
  }
}

/** Sorts the columns by name, so that the digest does not depend on their order. */
const sortColumns = (row: TableRow): TableRow =>
  Object.fromEntries(Object.entries(row).sort(([a], [b]) => (a < b ? -1 : 1)));
