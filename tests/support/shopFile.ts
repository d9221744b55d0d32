import BetterSqlite from 'better-sqlite3';
import { createKey } from '../../src/commands/keys.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import { openStore } from '../../src/store/open.js';
import { fourPads, vehicleBody, visitBody } from './bodies.js';

/** A database file with vehicles that have a visit each, and an owner's key, as a service leaves it that was closed. */
export async function makeShopFile(
  file: string,
  vehicles = 1,
): Promise<{ key: string; vehicleIds: string[] }> {
  const caller = { ...OPERATOR, keyName: 'owner' };
  const store = openStore({ file, timeZone: 'UTC' });
  try {
    const key = await createKey(store.keys, { name: 'owner', role: 'owner', fleets: [] });
    const vehicleIds: string[] = [];
    for (let index = 0; index < vehicles; index++) {
      const { id } = await store.vehicles.create(caller, VehicleBody.parse(vehicleBody()), null);
      const visit = visitBody('2026-03-01', 60_000, fourPads([8, 8, 8, 8]));
      await store.visits.record(caller, id, VisitBody.parse(visit), null);
      vehicleIds.push(id);
    }
    // The service's first start makes it.
    await store.secret('cursors');
    return { key, vehicleIds };
  } finally {
    store.close();
  }
}

/** Uses a connection to a file for a moment. */
export function withConnection<Result>(
  file: string,
  use: (connection: BetterSqlite.Database) => Result,
): Result {
  const connection = new BetterSqlite(file);
  try {
    return use(connection);
  } finally {
    connection.close();
  }
}

/** Keeps a file locked for writing, as another process would, until the work is done. */
export async function whileLocked<Result>(file: string, work: () => Promise<Result>): Promise<Result> {
  const connection = new BetterSqlite(file);
  try {
    connection.exec('begin immediate');
    return await work();
  } finally {
    connection.close();
  }
}
