import { isDeepStrictEqual } from 'node:util';
import type BetterSqlite from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import type { VehicleBody } from '../src/core/vocabulary/vehicle.js';
import { faultsOf } from '../src/store/engine/sqlite/damage.js';
import { componentsOn } from '../src/store/engine/sqlite/components.js';
import { experienceReader } from '../src/store/experience/experience.js';
import { outlookRecorder, outlookWriter } from '../src/store/outlooks/outlooks.js';
import { settingsReader } from '../src/store/settings/inForce.js';
import { historyReader } from '../src/store/visits/history.js';

/** Checks that a database after a fault contains only complete writes. */

/** Parts of a visit's body, and the tables that contain them. */
const PARTS = {
  readings: 'readings',
  notMeasured: 'not_measured',
  conditions: 'conditions',
  work: 'work_items',
  torques: 'torques',
};

const partLacks = Object.entries(PARTS).map(
  ([part, table]) => `ifnull(json_array_length(latest.body, '$.${part}'), 0) is not
    (select count(*) from ${table} where vehicle_seq = visit.vehicle_seq and visit_seq = visit.seq)`,
);

/** Visits without all of their parts, versions or audit lines; likewise vehicles, which also have an outlook. */
const INCOMPLETE = `
  with audited as (select resource, resource_id, count(*) as lines from audit group by resource, resource_id),
  visit_stored as (select visit_seq, count(*) as count, max(version) as last from visit_versions group by visit_seq),
  vehicle_stored as (select vehicle_seq, count(*) as count, max(version) as last from vehicle_versions group by vehicle_seq)
  select 'visit ' || visit.id from visits visit
    left join visit_stored stored on stored.visit_seq = visit.seq
    left join visit_versions latest on latest.visit_seq = visit.seq and latest.version = visit.version
    left join audited on audited.resource = 'visit' and audited.resource_id = visit.id
    where stored.count is not visit.version or stored.last is not visit.version or audited.lines is not visit.version
      or ${partLacks.join(' or ')}
  union all
  select 'vehicle ' || vehicle.id from vehicles vehicle
    left join vehicle_stored stored on stored.vehicle_seq = vehicle.seq
    left join outlooks outlook on outlook.vehicle_seq = vehicle.seq
    left join audited on audited.resource = 'vehicle' and audited.resource_id = vehicle.id
    where stored.count is not vehicle.version or stored.last is not vehicle.version or audited.lines is not vehicle.version
      or json_array_length(outlook.body, '$.axles') is not
        (select count(*) from axle_outlooks axle where axle.vehicle_seq = vehicle.seq)
  union all
  select 'audit of ' || audited.resource || ' ' || audited.resource_id from audited
    where (audited.resource = 'visit' and audited.resource_id not in (select id from visits))
      or (audited.resource = 'vehicle' and audited.resource_id not in (select id from vehicles))`;

/** Incomplete records, by kind and id. */
export const incompleteRecords = (connection: BetterSqlite.Database): string[] =>
  connection.prepare(INCOMPLETE).pluck().all() as string[];

/** Integrity, foreign keys, and no incomplete record. */
export const wrongIn = (connection: BetterSqlite.Database): string[] => [
  ...faultsOf(connection),
  ...incompleteRecords(connection).map((record) => `incomplete: ${record}`),
];

interface VehicleRow {
  seq: number;
  id: string;
  body: VehicleBody;
}

/**
 * Recomputes outlooks from scratch, as the service writes them, and rolls that back.
 *
 * @param ids of the vehicles; null for all
 * @returns how many were compared, and the ids of those that differed
 */
export async function compareOutlooks(
  connection: BetterSqlite.Database,
  ids: readonly string[] | null,
): Promise<{ compared: number; different: string[] }> {
  const stored = componentsOn(Object.assign(drizzle(connection), { $client: connection }));
  const history = historyReader(stored);
  const record = outlookRecorder(
    stored,
    () => new Date(),
    async () => null,
  );
  const write = outlookWriter(record, settingsReader()(stored, false), experienceReader()(stored, false));
  const rows = connection.prepare('select seq, id, body from vehicles order by seq').all() as {
    seq: number;
    id: string;
    body: string;
  }[];
  const wanted = ids && new Set(ids);
  const vehicles = rows
    .filter(({ id }) => !wanted || wanted.has(id))
    .map((row): VehicleRow => ({ ...row, body: JSON.parse(row.body) as VehicleBody }));
  const outlook = connection.prepare('select * from outlooks where vehicle_seq = ?');
  const axles = connection.prepare('select * from axle_outlooks where vehicle_seq = ? order by axle');
  // The check may run from source beside a compiled service, and the two differ in the digest of their code.
  const shown = (seq: number): unknown[] => [
    { ...(outlook.get(seq) as object), program: null },
    axles.all(seq),
  ];
  const different: string[] = [];
  connection.exec('begin immediate');
  try {
    for (const { seq, id, body } of vehicles) {
      const before = shown(seq);
      await write(seq, { vehicle: body, visits: await history.visitsOf(seq, id) });
      if (!isDeepStrictEqual(shown(seq), before)) different.push(id);
    }
  } finally {
    connection.exec('rollback');
  }
  return { compared: vehicles.length, different };
}
