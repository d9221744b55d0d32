import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readMigrationFiles } from 'drizzle-orm/migrator';
import { itemAt, required } from '../../../core/items.js';
import { DatabaseUnusable } from '../../contract/faults.js';
import type { Connections, Query } from './connections.js';

/** The oldest version of the server that has every feature in use. */
const MIN_SERVER = 14;
/** Names the lock under which one process at a time migrates; any number that no other lock uses will do. */
const MIGRATION_LOCK = 7_264_331;

/** The first words of a migration that older programs cannot work with. */
const ENDS_OLDER = '-- Ends older programs.';

/** The migrations folder is at the top of the package. */
function migrationsFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'migrations', 'postgres', 'meta', '_journal.json'))) {
    const above = dirname(folder);
    if (above === folder) throw new DatabaseUnusable('the migrations folder is missing');
    folder = above;
  }
  return join(folder, 'migrations', 'postgres');
}

/**
 * Applies missing migrations in one transaction, one process at a time; others wait and find them applied.
 *
 * @throws DatabaseUnusable if the server is too old, the database newer than the program, or an unfinished copy
 */
export async function bringUpToDate(
  connections: Connections,
  server: string,
  { continuesMove = false } = {},
): Promise<void> {
  await connections.hold(async (query) => {
    await refuseOld(query, server);
    if (!continuesMove) await refuseUnfinished(query, server);
    await query('begin', []);
    try {
      await query(`select pg_advisory_xact_lock(${MIGRATION_LOCK})`, []);
      await applyMissing(query, server);
      await settleRestored(query);
      await query('commit', []);
    } catch (fault) {
      await query('rollback', []);
      throw fault;
    }
  });
}

async function refuseOld(query: Query, server: string): Promise<void> {
  const [row] = await query("select current_setting('server_version_num')::int / 10000", []);
  const version = required(row, 'row')[0] as number;
  if (version >= MIN_SERVER) return;
  throw new DatabaseUnusable(
    `${server}: has version ${version}; the service needs PostgreSQL ${MIN_SERVER} or newer`,
  );
}

async function refuseUnfinished(query: Query, server: string): Promise<void> {
  const [row] = await query("select to_regclass('unfinished_move') is null", []);
  if (required(row, 'row')[0] === true) return;
  throw new DatabaseUnusable(`${server}: is a copy that was never finished; run the move again`);
}

const migrationsOf = () => readMigrationFiles({ migrationsFolder: migrationsFolder() });

/** The name of this program's connections; it includes the newest schema that the program knows. */
export const programName = (): string => `brake-wear-service ${migrationsOf().length}`;

async function applyMissing(query: Query, server: string): Promise<void> {
  const migrations = migrationsOf();
  await query(
    'create table if not exists applied_migrations (number int primary key, hash text not null, at timestamptz not null default now())',
    [],
  );
  const [counted] = await query('select count(*)::int from applied_migrations', []);
  const applied = required(counted, 'count')[0] as number;
  if (applied > migrations.length) {
    throw new DatabaseUnusable(
      `${server}: has schema ${applied}, newer than this program's ${migrations.length}; run a newer program`,
    );
  }
  for (const [index, { sql, hash }] of migrations.entries()) {
    if (index < applied) continue;
    if (itemAt(sql, 0).trimStart().startsWith(ENDS_OLDER)) await refuseBesideOlder(query, server, index + 1);
    for (const statement of sql) await query(statement, []);
    await query('insert into applied_migrations (number, hash) values ($1, $2)', [index + 1, hash]);
  }
}

async function refuseBesideOlder(query: Query, server: string, schema: number): Promise<void> {
  const [row] = await query(
    `select count(*) from pg_stat_activity
     where datname = current_database() and application_name ~ '^brake-wear-service'
       and coalesce(substring(application_name from '[0-9]+$')::int, 0) < $1`,
    [schema],
  );
  if (row![0] === 0) return;
  throw new DatabaseUnusable(
    `${server}: is in use by servers of an older version, which cannot work with the tables of this one; stop them first`,
  );
}

/**
 * Audit pages follow the order of the transactions that wrote the rows. A restored dump has transaction numbers of
 * another server, some of which may still be to come on this one; its rows then follow their order of arrival.
 */
async function settleRestored(query: Query): Promise<void> {
  const [row] = await query(
    'select exists (select from audit where written_by >= pg_snapshot_xmax(pg_current_snapshot()))',
    [],
  );
  if (row![0] === false) return;
  await query("select set_config('brake_wear.changing_history', 'on', true)", []);
  await query("update audit set written_by = '0'", []);
}
