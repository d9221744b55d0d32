import BetterSqlite from 'better-sqlite3';
import { createKey } from '../../src/commands/keys.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import { openStore } from '../../src/store/open.js';
import { fourPads, vehicleBody, visitBody } from './bodies.js';
import { putEmptyDatabase } from './emptyDatabase.js';

/** A database file as a closed service leaves it, with vehicles that have one visit each, and an owner's key. */
export async function makeShopFile(
  file: string,
  vehicles = 1,
): Promise<{ key: string; vehicleIds: string[] }> {
  const caller = { ...OPERATOR, keyName: 'owner' };
  await putEmptyDatabase(file);
  const store = await openStore({ file, timeZone: 'UTC' });
  try {
    const key = await createKey(store.keys, { name: 'owner', role: 'owner', fleets: [] });
    const vehicleIds: string[] = [];
    for (let index = 0; index < vehicles; index++) {
      const { id } = await store.vehicles.create(caller, VehicleBody.parse(vehicleBody()), null);
      const visit = visitBody('2026-03-01', 60_000, fourPads([8, 8, 8, 8]));
      await store.visits.record(caller, id, VisitBody.parse(visit), null);
      vehicleIds.push(id);
    }
    // The first start of the service creates it.
    await store.secret('cursors');
    return { key, vehicleIds };
  } finally {
    await store.close();
  }
}

/** Opens a connection to a file for one use and closes it afterwards. */
export function withConnection<Result>(
  file: string,
  use: (connection: BetterSqlite.Database) => Result,
): Result {
  const connection = new BetterSqlite(file);
  const close = (): void => void connection.close();
  let result: Result;
  try {
    result = use(connection);
  } catch (error) {
    close();
    throw error;
  }
  if (result instanceof Promise) return result.finally(close) as Result;
  close();
  return result;
}

/** Locks a file for writing, as another process would, until the work is done. */
export async function whileLocked<Result>(file: string, work: () => Promise<Result>): Promise<Result> {
  const connection = new BetterSqlite(file);
  try {
    connection.exec('begin immediate');
    return await work();
  } finally {
    connection.close();
  }
}
