import {
  ERASED,
  erasedVehicle,
  erasedVehicleBody,
  erasedVehicleVersion,
  erasedVisit,
} from '../../core/erasure.js';
import { containsName, isName, namesIn, quotesName, type VehicleNames } from '../../core/mentions.js';
import { UNKNOWN_COLUMN } from '../../core/spreadsheet/cells.js';
import type { RowError } from '../../core/vocabulary/import.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import { digestOf } from '../../digest.js';
import { OPERATOR } from '../contract/caller.js';
import type { Erased } from '../contract/retention.js';
import type { OutcomeRow } from '../engine/contract/operation.js';
import type { VehicleRow } from '../engine/contract/vehicles.js';
import type { VisitRow } from '../engine/contract/visits.js';
import type { Rules } from '../parts.js';
import { nameKeys } from '../vehicles/names.js';
import { headOf, sourceOf } from '../visits/recording.js';
import { countInWords } from '../../core/words.js';

const REASON = 'personal data erased';

/** Erases the personal data of a vehicle, within a transaction that may change the history. */
export async function eraseVehicle(own: Rules, vehicleId: string): Promise<Erased> {
  const { history } = own.rows;
  const records = await recordsOf(own, vehicleId);
  const names = await namesOf(own, records);
  const visits: VisitRow[] = [];
  for (const record of records) visits.push(...(await eraseRecord(own, record)));
  const ids = records.map(({ id }) => id);
  const known = { ids: [...ids, ...visits.map(({ id }) => id)], names };
  await history.eraseAuditDetails(known.ids);
  const outcomes = await eraseOutcomes(own, known);
  await eraseImports(own, known);
  await history.eraseEvents(ids);
  await own.versions.note(OPERATOR, {
    action: 'erased',
    resource: 'vehicle',
    resourceId: vehicleId,
    detail: [
      countInWords(records.length, 'record'),
      countInWords(visits.length, 'visit'),
      countInWords(outcomes, 'answer'),
    ].join(', '),
  });
  return { records: records.length, visits: visits.length, outcomes };
}

/** What stored texts may say about the erased vehicle. */
interface Known {
  /** The ids of its records and visits. No other text contains one, so a part of a text is enough. */
  ids: readonly string[];
  names: VehicleNames;
}

const hasId = ({ ids }: Known, text: string): boolean => ids.some((id) => text.includes(id));

/**
 * The vehicle and every record merged into it, directly or indirectly.
 *
 * @throws Refusal of kind not-found; for a merged record, whose visits and names another vehicle now has, it names that
 *   vehicle
 */
async function recordsOf(
  { findVehicle, rows: { vehicles } }: Rules,
  vehicleId: string,
): Promise<VehicleRow[]> {
  const records = [await findVehicle.current(OPERATOR, vehicleId)];
  for (const record of records) records.push(...(await vehicles.mergedInto(record.id)));
  return records;
}

/** Every name the records ever had. */
async function namesOf({ rows: { history } }: Rules, records: readonly VehicleRow[]): Promise<VehicleNames> {
  const bodies: VehicleBody[] = [];
  for (const { seq, body } of records) {
    const versions = await history.vehicleVersions(seq);
    bodies.push(body, ...versions.map((version) => version.body));
  }
  return namesIn(bodies);
}

/** @returns the record's visits */
async function eraseRecord(own: Rules, record: VehicleRow): Promise<VisitRow[]> {
  const pseudonym = `${ERASED}-${record.id}`;
  await eraseVersions(own, record, pseudonym);
  const visits = await own.rows.visits.allOf(record.seq);
  for (const visit of visits) await eraseVisit(own, visit);
  const body = erasedVehicle(record.body, pseudonym, own.today());
  const at = own.clock().toISOString();
  const version = record.version + 1;
  await own.rows.vehicles.update(record.seq, {
    body,
    ...nameKeys(body),
    version,
    updatedAt: at,
    erasedAt: at,
  });
  await own.versions.vehicle(OPERATOR, {
    id: record.id,
    vehicleSeq: record.seq,
    version,
    kind: 'changed',
    at,
    reason: REASON,
    body,
    patch: { outOfService: body.outOfService },
    effectiveFrom: own.today(),
  });
  if (record.mergedInto === null)
    await own.writeOutlook(record.seq, {
      vehicle: body,
      visits: await own.history.visitsOf(record.seq, record.id),
    });
  return visits;
}

async function eraseVersions(
  { rows: { history } }: Rules,
  { seq }: VehicleRow,
  pseudonym: string,
): Promise<void> {
  for (const { vehicleSeq, version, body, patch, reason } of await history.vehicleVersions(seq))
    await history.updateVehicleVersion({
      vehicleSeq,
      version,
      body: erasedVehicleBody(body, pseudonym),
      patch: patch && erasedVehicleVersion(patch, pseudonym),
      reason: reason && ERASED,
    });
}

async function eraseVisit(own: Rules, row: VisitRow): Promise<void> {
  const { history, visits } = own.rows;
  for (const { visitSeq, version, body, reason } of await history.visitVersions(row.seq))
    await history.updateVisitVersion({
      visitSeq,
      version,
      body: erasedVisit(body),
      reason: reason && ERASED,
    });
  const body = await own.versions.visitBody(row.seq);
  const at = own.clock().toISOString();
  const version = row.version + 1;
  await visits.update(row.seq, {
    ...headOf(body),
    version,
    updatedAt: at,
    contentDigest: digestOf(body),
    voided: row.voided && { ...row.voided, reason: ERASED },
  });
  await own.recordVisit.replaceItems(row, body);
  await own.versions.visit(OPERATOR, {
    ...sourceOf(row),
    version,
    at,
    kind: 'corrected',
    reason: REASON,
    body,
  });
}

/**
 * An erased outcome stays without its text, so that a repeated request is not carried out again. Only a refusal at an
 * address that contains a name is deleted: no record has that address, so a repeated request is refused again.
 *
 * @returns how many outcomes were erased
 */
async function eraseOutcomes({ rows }: Rules, known: Known): Promise<number> {
  let erased = 0;
  for (const row of await rows.history.outcomes()) {
    const isNamed = isAddressed(known, row);
    if (!isNamed && !isAbout(known, row)) continue;
    await (isNamed ? rows.outcomes.remove(row) : rows.history.eraseOutcome(row));
    erased += 1;
  }
  return erased;
}

/** Whether a refused request gave a name where the path takes an id. */
function isAddressed({ names }: Known, { target, outcome }: OutcomeRow): boolean {
  const segment = /^POST \/v1\/(?:vehicles|visits)\/(?<id>[^/]+)/.exec(target)?.groups?.id;
  if (segment === undefined || outcome === null || isRecord(target, bodyOf(outcome))) return false;
  return isName(names, decoded(segment));
}

/** The path of an address that does not exist may be malformed. */
function decoded(segment: string): string {
  try {
    return decodeURIComponent(segment);
  } catch {
    return segment;
  }
}

function isAbout(known: Known, { target, outcome }: OutcomeRow): boolean {
  if (hasId(known, target)) return true;
  if (outcome === null) return false;
  if (hasId(known, outcome)) return true;
  const body = bodyOf(outcome);
  if (isRecord(target, body)) return false;
  return (
    textsIn(body).some((text) => saysName(known, text)) ||
    errorsIn(body).some((error) => isErrorAbout(known, error))
  );
}

/** The body after an outcome's first line; a text if it is not JSON. */
function bodyOf(outcome: string): unknown {
  const body = outcome.slice(outcome.indexOf('\n') + 1);
  try {
    return JSON.parse(body);
  } catch {
    return body;
  }
}

/**
 * Whether an answer is a vehicle or a visit. It then contains the id of its vehicle, and any name in it is that
 * vehicle's own: plates move between vehicles, and a work order may equal another vehicle's externalId.
 */
const isRecord = (target: string, body: unknown): boolean =>
  /^POST \/v1\/(?:vehicles|visits)(?:\/|$)/.test(target) &&
  typeof (body as { id?: unknown } | null)?.id === 'string';

const saysName = ({ names }: Known, text: string): boolean => isName(names, text) || quotesName(names, text);

function textsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(textsIn) : [];
}

/** The errors in an answer; only those of an import have a line, column and code. */
const errorsIn = (body: unknown): RowError[] =>
  typeof body === 'object' && body !== null ? ((body as { errors?: RowError[] }).errors ?? []) : [];

async function eraseImports({ rows }: Rules, known: Known): Promise<void> {
  for (const report of await rows.history.imports()) {
    const lines = new Set(
      report.errors.filter((error) => isErrorAbout(known, error)).map(({ line }) => line),
    );
    if (lines.size === 0) continue;
    const errors = report.errors.map((error) => (lines.has(error.line) ? withoutTexts(error) : error));
    await rows.imports.update({ ...report, version: report.version + 1, errors });
  }
}

function isErrorAbout(known: Known, { code, column, detail }: RowError): boolean {
  if (hasId(known, detail) || saysName(known, detail)) return true;
  // Neither an unreadable line nor a first row without headings is reliably divided into cells.
  const raw = code === 'not-json' ? detail : code === UNKNOWN_COLUMN ? column : null;
  return raw !== null && containsName(known.names, raw);
}

/** In a file without headings the columns are called after the cells of the first row. */
const withoutTexts = (error: RowError): RowError => ({
  ...error,
  column: error.code === UNKNOWN_COLUMN ? null : error.column,
  detail: ERASED,
});
