import type { ReadyAnswer } from '../contract/outlooks.js';
import type { Database } from './connection.js';

/** Hand-written statements: they run with every request or outlook, or the query builder cannot express them. */

/** Reads the number of the latest fit; 0 before the first. */
export function latestFitReader({ $client }: Database): () => number {
  const select = $client.prepare('select ifnull(max(version), 0) from experiences').pluck();
  return () => select.get() as number;
}

/** Rows are only added to both tables, so their number identifies a state. */
const SETTINGS_REVISION = '((select count(*) from gauges) + (select count(*) from policies))';

/** Reads the revision of the settings in force. */
export function settingsRevisionReader({ $client }: Database): () => number {
  const select = $client.prepare(`select ${SETTINGS_REVISION}`).pluck();
  return () => select.get() as number;
}

/** Reads a text that changes whenever one of a vehicle's visits does. */
export function visitsStateReader({ $client }: Database): (vehicleSeq: number) => string {
  const select = $client
    .prepare('select count(*), sum(version), max(seq) from visits where vehicle_seq = ?')
    .raw();
  return (vehicleSeq) => JSON.stringify(select.get(vehicleSeq));
}

/** Reads a vehicle's wear answer if it comes from the given program and the settings in force. */
export function readyAnswerReader({
  $client,
}: Database): (vehicleId: string, program: string) => ReadyAnswer | undefined {
  const select = $client.prepare(
    `select ready.open, cast(ready.text as blob) as text
     from vehicles join wear_answers ready on ready.vehicle_seq = vehicles.seq
     where vehicles.id = ? and ready.settings_revision = ${SETTINGS_REVISION} and ready.program = ?`,
  );
  return (vehicleId, program) => select.get(vehicleId, program) as ReadyAnswer | undefined;
}

/** Deletes the rows of axles that a vehicle's outlook no longer has. */
export function otherAxlesRemover({
  $client,
}: Database): (vehicleSeq: number, axles: readonly string[]) => void {
  const remove = $client.prepare(
    'delete from axle_outlooks where vehicle_seq = ? and axle not in (select value from json_each(?))',
  );
  return (vehicleSeq, axles) => void remove.run(vehicleSeq, JSON.stringify(axles));
}

/** Marks the scores of a vehicle's past forecasts as stale. */
export function scoresExpirer({ $client }: Database): (vehicleSeq: number) => void {
  const expire = $client.prepare(
    `insert into forecast_scores (vehicle_seq, revision) values (?, 1)
     on conflict do update set scores = null, revision = revision + 1`,
  );
  return (vehicleSeq) => void expire.run(vehicleSeq);
}

/**
 * Names the indexes explicitly: with statistics that show many vehicles without a VIN or registration, SQLite prefers a
 * full scan.
 */
const BEARERS = `
  select seq from vehicles indexed by vehicles_external_id where external_id = @name and merged_into is null
  union
  select seq from vehicles indexed by vehicles_registration where registration_key = @key and merged_into is null
  union
  select seq from vehicles indexed by vehicles_vin where vin = @key and merged_into is null
  order by seq`;

/**
 * Reads the unmerged vehicles with an externalId, or with a registration or VIN compared by letters and digits only.
 */
export function bearersReader({ $client }: Database): (name: string, key: string) => number[] {
  const select = $client.prepare(BEARERS).pluck();
  return (name, key) => select.all({ name, key }) as number[];
}
