import { sql, type SQL } from 'drizzle-orm';
import {
  check,
  customType,
  index,
  integer,
  primaryKey,
  real,
  sqliteTable,
  text,
  uniqueIndex,
  type AnySQLiteColumn,
} from 'drizzle-orm/sqlite-core';
import type { VehicleScores } from '../../../core/accuracy/scores.js';
import type { CounterpartDue } from '../../../core/assessment/dueParts.js';
import type { Outlook } from '../../../core/assessment/outlookShape.js';
import type { Crossing } from '../../../core/forecast/crossing.js';
import type { FittedExperience } from '../../../core/forecast/fit.js';
import type { Attempt, WebhookEvent } from '../../../core/vocabulary/events.js';
import type { CalendarSubscriptionBody } from '../../../core/vocabulary/calendarSubscription.js';
import type { Import } from '../../../core/vocabulary/import.js';
import type { Reason } from '../../../core/vocabulary/quantities.js';
import type { StopFinding } from '../../../core/vocabulary/wear.js';
import {
  AXLES,
  CONDITION_PARTS,
  CONDITION_STATES,
  DELIVERY_STATES,
  DISTANCE_UNITS,
  DUE_PARTS,
  EVENT_TYPES,
  IMPORT_STATES,
  LENGTH_UNITS,
  LINING_NAMES,
  LINING_POSITIONS,
  PLACES,
  READING_KINDS,
  ROLES,
  SIDES,
  TAKEN,
  TORQUE_UNITS,
  VEHICLE_EVENTS,
  VISIT_EVENTS,
  WORK_KINDS,
  type NewsType,
} from '../../../core/vocabulary/terms.js';
import type { GaugeBody, PolicyBody } from '../../../core/vocabulary/settings.js';
import type { VehicleBody } from '../../../core/vocabulary/vehicle.js';
import type { VisitBody, Voided, WorkBody } from '../../../core/vocabulary/visit.js';
import type { DeedEffect } from '../../contract/histories.js';
import type { ItemNumbers } from '../contract/visits.js';

/**
 * The tables. Quantities are stored as entered and converted on reading. `seq` columns are the order of arrival and are
 * internal. Migrations are generated from this file and made STRICT by hand, since drizzle cannot express it: see
 * DEVELOPERS.md.
 */

/** JSON as text; unlike the library's JSON mode it stores null as SQL null. */
const json = <T>(name: string) =>
  customType<{ data: T; driverData: string | null }>({
    dataType: () => 'text',
    toDriver: (value) => (value === null ? null : JSON.stringify(value)),
    fromDriver: (text) => JSON.parse(text!) as T,
  })(name);

const oneOf = (name: string, column: AnySQLiteColumn, terms: readonly string[]) =>
  check(name, sql`${column} in (${sql.raw(terms.map((term) => `'${term}'`).join(', '))})`);

const fromBody = (path: string): SQL => sql.raw(`json_extract(body, '$.${path}')`);

export const apiKeys = sqliteTable(
  'api_keys',
  {
    name: text('name').primaryKey(),
    role: text('role', { enum: ROLES }).notNull(),
    /** The fleets that a fleet-manager sees; empty for other roles. */
    fleets: json<string[]>('fleets').notNull(),
    /** SHA-256 of the key, hex. */
    digest: text('digest').notNull(),
    createdAt: text('created_at').notNull(),
    revokedAt: text('revoked_at'),
    /** The instant, in UTC, at which the key expires; null means never. */
    expiresAt: text('expires_at'),
    /** An instant in UTC, at most an hour before the last use. */
    lastUsedAt: text('last_used_at'),
    /** Of a rotated key: the previous digest, and the instant until which it is accepted. */
    formerDigest: text('former_digest'),
    formerUntil: text('former_until'),
  },
  (table) => [
    uniqueIndex('api_keys_digest').on(table.digest),
    uniqueIndex('api_keys_former_digest').on(table.formerDigest),
    oneOf('api_keys_role', table.role, ROLES),
  ],
);

/** The service's own secrets, created on first use. */
export const serviceSecrets = sqliteTable('service_secrets', {
  name: text('name').primaryKey(),
  /** 256 random bits, base64url. */
  secret: text('secret').notNull(),
});

/** Addresses from which calendar programs read the due-soon report, each with its own token. */
export const calendarSubscriptions = sqliteTable(
  'calendar_subscriptions',
  {
    seq: integer('seq').primaryKey(),
    id: text('id').notNull(),
    /** The key that created it and must still be valid. */
    keyName: text('key_name')
      .notNull()
      .references(() => apiKeys.name),
    /** SHA-256 of the token, hex. */
    digest: text('digest').notNull(),
    body: json<CalendarSubscriptionBody>('body').notNull(),
    createdAt: text('created_at').notNull(),
  },
  (table) => [
    uniqueIndex('calendar_subscriptions_id').on(table.id),
    uniqueIndex('calendar_subscriptions_digest').on(table.digest),
    index('calendar_subscriptions_key').on(table.keyName, table.seq),
    check('calendar_subscriptions_body', sql`json_valid(${table.body})`),
  ],
);
/** Sessions of the pages; a session is valid only while its key is. */
export const sessions = sqliteTable('sessions', {
  /** SHA-256 of the token in the cookie, hex. */
  digest: text('digest').primaryKey(),
  keyName: text('key_name')
    .notNull()
    .references(() => apiKeys.name),
  expiresAt: text('expires_at').notNull(),
});

export const vehicles = sqliteTable(
  'vehicles',
  {
    seq: integer('seq').primaryKey(),
    id: text('id').notNull(),
    version: integer('version').notNull(),
    body: json<VehicleBody>('body').notNull(),
    externalId: text('external_id').generatedAlwaysAs(fromBody('externalId'), { mode: 'virtual' }),
    registration: text('registration').generatedAlwaysAs(fromBody('registration'), { mode: 'virtual' }),
    vin: text('vin').generatedAlwaysAs(fromBody('vin'), { mode: 'virtual' }),
    model: text('model').generatedAlwaysAs(fromBody('model'), { mode: 'virtual' }),
    fleet: text('fleet').generatedAlwaysAs(fromBody('fleet'), { mode: 'virtual' }),
    outOfServiceDate: text('out_of_service_date').generatedAlwaysAs(fromBody('outOfService.date'), {
      mode: 'virtual',
    }),
    /** The registration, normalized with `identifierKey`; null if none. */
    registrationKey: text('registration_key'),
    /** Registration, VIN and externalId, normalized for search and separated by spaces. */
    searchKey: text('search_key'),
    /** The id of the record that this one was merged into; a merged record is read-only. */
    mergedInto: text('merged_into'),
    /** When its personal data was erased; nothing more can be recorded for it. */
    erasedAt: text('erased_at'),
    createdAt: text('created_at').notNull(),
    updatedAt: text('updated_at').notNull(),
  },
  (table) => [
    uniqueIndex('vehicles_id').on(table.id),
    uniqueIndex('vehicles_external_id')
      .on(table.externalId)
      .where(sql`merged_into is null`),
    uniqueIndex('vehicles_vin')
      .on(table.vin)
      .where(sql`merged_into is null`),
    index('vehicles_registration').on(table.registrationKey),
    // Covers a search, which reads every entry.
    index('vehicles_search')
      .on(table.searchKey, table.fleet)
      .where(sql`merged_into is null`),
    index('vehicles_fleet').on(table.fleet, table.seq),
    index('vehicles_model').on(table.model, table.seq),
    check('vehicles_body', sql`json_valid(${table.body})`),
    check(
      'vehicles_identified',
      sql`json_extract(${table.body}, '$.externalId') is not null or json_extract(${table.body}, '$.registration') is not null or json_extract(${table.body}, '$.vin') is not null`,
    ),
    check('vehicles_version', sql`${table.version} >= 1`),
  ],
);

export const visits = sqliteTable(
  'visits',
  {
    seq: integer('seq').primaryKey(),
    id: text('id').notNull(),
    vehicleSeq: integer('vehicle_seq')
      .notNull()
      .references(() => vehicles.seq),
    version: integer('version').notNull(),
    date: text('date').notNull(),
    time: text('time'),
    odometerValue: real('odometer_value'),
    odometerUnit: text('odometer_unit', { enum: DISTANCE_UNITS }),
    odometerReplaced: json<VisitBody['odometerReplaced']>('odometer_replaced'),
    workOrder: text('work_order'),
    shop: text('shop'),
    technician: text('technician'),
    complaint: text('complaint'),
    notes: text('notes'),
    roadTest: json<VisitBody['roadTest']>('road_test'),
    /** SHA-256 of the visit as first sent: distinguishes a repeated work order from a conflicting one. */
    contentDigest: text('content_digest').notNull(),
    /** Who voided it, when and why; a voided visit is ignored in all computations. */
    voided: json<Voided>('voided'),
    /** The numbers in its items' ids; null while they equal the items' positions. */
    itemNumbers: json<ItemNumbers>('item_numbers'),
    createdAt: text('created_at').notNull(),
    updatedAt: text('updated_at').notNull(),
  },
  (table) => [
    uniqueIndex('visits_id').on(table.id),
    index('visits_vehicle').on(table.vehicleSeq, table.date),
    uniqueIndex('visits_work_order')
      .on(table.vehicleSeq, sql`(case when shop is null then '' else shop end)`, table.workOrder)
      .where(sql`work_order is not null and voided is null`),
    check('visits_date', sql`${table.date} glob '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'`),
    check(
      'visits_odometer',
      sql`(${table.odometerValue} is null) = (${table.odometerUnit} is null) and ${table.odometerValue} >= 0`,
    ),
    oneOf('visits_odometer_unit', table.odometerUnit, DISTANCE_UNITS),
    check('visits_version', sql`${table.version} >= 1`),
  ],
);

const ofVisit = () => ({
  vehicleSeq: integer('vehicle_seq')
    .notNull()
    .references(() => vehicles.seq),
  visitSeq: integer('visit_seq')
    .notNull()
    .references(() => visits.seq),
  /** Position within the visit, in the order in which the items were sent. */
  number: integer('number').notNull(),
});

export const readings = sqliteTable(
  'readings',
  {
    ...ofVisit(),
    kind: text('kind', { enum: READING_KINDS }).notNull(),
    axle: text('axle', { enum: AXLES }).notNull(),
    /** Null for the thinnest lining of the axle. */
    side: text('side', { enum: SIDES }),
    /** The pad, or the shoe of a drum brake. */
    pad: text('pad', { enum: LINING_POSITIONS }),
    at: text('at', { enum: PLACES }),
    point: integer('point'),
    repeat: integer('repeat').notNull(),
    value: real('value').notNull(),
    unit: text('unit', { enum: LENGTH_UNITS }).notNull(),
    taken: text('taken', { enum: TAKEN }).notNull(),
    gauge: text('gauge'),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.visitSeq, table.number] }),
    uniqueIndex('readings_place').on(
      table.visitSeq,
      table.kind,
      table.axle,
      sql`(case when side is null then '' else side end)`,
      sql`(case when pad is null then '' else pad end)`,
      sql`(case when at is null then '' else at end)`,
      sql`(case when point is null then 0 else point end)`,
      table.repeat,
      table.taken,
    ),
    oneOf('readings_kind', table.kind, READING_KINDS),
    oneOf('readings_axle', table.axle, AXLES),
    oneOf('readings_side', table.side, SIDES),
    oneOf('readings_pad', table.pad, LINING_POSITIONS),
    oneOf('readings_at', table.at, PLACES),
    oneOf('readings_unit', table.unit, LENGTH_UNITS),
    oneOf('readings_taken', table.taken, TAKEN),
    check('readings_value', sql`${table.value} >= 0`),
    check(
      'readings_side_given',
      sql`${table.side} is not null or (${table.pad} is not null and ${table.pad} = 'thinnest')`,
    ),
    check(
      'readings_pad_named',
      sql`(${table.kind} in ('pad-thickness', 'shoe-thickness')) = (${table.pad} is not null)`,
    ),
  ],
);

export const conditions = sqliteTable(
  'conditions',
  {
    ...ofVisit(),
    part: text('part', { enum: CONDITION_PARTS }).notNull(),
    axle: text('axle', { enum: AXLES }).notNull(),
    side: text('side', { enum: SIDES }),
    pad: text('pad', { enum: LINING_POSITIONS }),
    state: text('state', { enum: CONDITION_STATES }).notNull(),
    notes: text('notes'),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.visitSeq, table.number] }),
    oneOf('conditions_part', table.part, CONDITION_PARTS),
    oneOf('conditions_axle', table.axle, AXLES),
    oneOf('conditions_state', table.state, CONDITION_STATES),
  ],
);

export const notMeasured = sqliteTable(
  'not_measured',
  {
    ...ofVisit(),
    axle: text('axle', { enum: AXLES }).notNull(),
    side: text('side', { enum: SIDES }),
    part: text('part', { enum: CONDITION_PARTS }),
    pad: text('pad', { enum: LINING_POSITIONS }),
    why: text('why').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.visitSeq, table.number] }),
    oneOf('not_measured_axle', table.axle, AXLES),
  ],
);

export const workItems = sqliteTable(
  'work_items',
  {
    ...ofVisit(),
    kind: text('kind', { enum: WORK_KINDS }).notNull(),
    axle: text('axle', { enum: AXLES }),
    side: text('side', { enum: SIDES }),
    /** The item as sent: specs of the parts fitted, part, notes. */
    body: json<WorkBody>('body').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.visitSeq, table.number] }),
    oneOf('work_items_kind', table.kind, WORK_KINDS),
    oneOf('work_items_axle', table.axle, AXLES),
    oneOf('work_items_side', table.side, SIDES),
    check('work_items_on_axle', sql`${table.axle} is not null or ${table.kind} = 'fluid-changed'`),
  ],
);

export const torques = sqliteTable(
  'torques',
  {
    ...ofVisit(),
    fastener: text('fastener').notNull(),
    axle: text('axle', { enum: AXLES }).notNull(),
    side: text('side', { enum: SIDES }),
    position: integer('position'),
    value: real('value').notNull(),
    unit: text('unit', { enum: TORQUE_UNITS }).notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.visitSeq, table.number] }),
    oneOf('torques_axle', table.axle, AXLES),
    oneOf('torques_unit', table.unit, TORQUE_UNITS),
    check('torques_value', sql`${table.value} >= 0`),
  ],
);

/** A vehicle's outlook, computed in the transaction that last changed its history. */
export const outlooks = sqliteTable(
  'outlooks',
  {
    vehicleSeq: integer('vehicle_seq')
      .primaryKey()
      .references(() => vehicles.seq),
    body: json<Outlook>('body').notNull(),
    /** The experience it was computed with; 0 means the starting values. */
    experienceVersion: integer('experience_version').notNull().default(0),
    /** The settings revision it was computed under; -1 if written by an earlier program. */
    settingsRevision: integer('settings_revision').notNull().default(-1),
    /** The program that computed it (`programDigest`). */
    program: text('program').notNull().default(''),
  },
  (table) => [
    check('outlooks_body', sql`json_valid(${table.body})`),
    index('outlooks_experience').on(table.experienceVersion),
    index('outlooks_settings').on(table.settingsRevision),
    index('outlooks_program').on(table.program),
  ],
);

/** A vehicle's prepared wear answer; small columns first, since the text is long. */
export const wearAnswers = sqliteTable('wear_answers', {
  vehicleSeq: integer('vehicle_seq')
    .primaryKey()
    .references(() => vehicles.seq),
  /** Copied from the vehicle's outlook, as is the program. */
  settingsRevision: integer('settings_revision').notNull(),
  program: text('program').notNull(),
  open: json<Outlook>('open').notNull(),
  text: text('text').notNull(),
});

/** The owner's policy, one row per change; the latest is in force. */
export const policies = sqliteTable(
  'policies',
  {
    version: integer('version').primaryKey(),
    body: json<PolicyBody>('body').notNull(),
    /** The name of the key that set it. */
    updatedBy: text('updated_by').notNull(),
    updatedAt: text('updated_at').notNull(),
  },
  (table) => [check('policies_body', sql`json_valid(${table.body})`)],
);

/** Gauges of the shop's own, or its changes to a standard one: every version, the latest in force. */
export const gauges = sqliteTable(
  'gauges',
  {
    name: text('name').notNull(),
    version: integer('version').notNull(),
    body: json<GaugeBody>('body').notNull(),
    updatedBy: text('updated_by').notNull(),
    updatedAt: text('updated_at').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.name, table.version] }),
    check('gauges_body', sql`json_valid(${table.body})`),
  ],
);

/** What was learned from the shop's own vehicles, one row per fit. */
export const experiences = sqliteTable(
  'experiences',
  {
    version: integer('version').primaryKey(),
    fitted: json<FittedExperience>('fitted').notNull(),
    /** The last visit it used, by order of arrival. */
    lastVisitSeq: integer('last_visit_seq').notNull(),
    /** The latest date of a visit it learned from; null if none. */
    learnedTo: text('learned_to'),
    createdAt: text('created_at').notNull(),
    /** The program that fitted it (`programDigest`). */
    program: text('program').notNull().default(''),
  },
  (table) => [check('experiences_fitted', sql`json_valid(${table.fitted})`)],
);

/** What would have been learned from the visits up to a past date, used to recompute forecasts of that time. */
export const pastExperiences = sqliteTable(
  'past_experiences',
  {
    learnedTo: text('learned_to').primaryKey(),
    fitted: json<FittedExperience>('fitted').notNull(),
    createdAt: text('created_at').notNull(),
  },
  (table) => [check('past_experiences_fitted', sql`json_valid(${table.fitted})`)],
);

/** Scores of a vehicle's past forecasts; null if its history has changed since. */
export const forecastScores = sqliteTable(
  'forecast_scores',
  {
    vehicleSeq: integer('vehicle_seq')
      .primaryKey()
      .references(() => vehicles.seq),
    scores: json<VehicleScores>('scores'),
    /** Incremented when the history changes, so that scores of an earlier history are not stored. */
    revision: integer('revision').notNull(),
    /** Number of past fits at scoring time: another fit makes the scores stale without touching a row. */
    pastFits: integer('past_fits').notNull().default(0),
  },
  (table) => [check('forecast_scores_scores', sql`${table.scores} is null or json_valid(${table.scores})`)],
);

/** The columns of each axle's outlook that reports query by index. */
export const axleOutlooks = sqliteTable(
  'axle_outlooks',
  {
    vehicleSeq: integer('vehicle_seq')
      .notNull()
      .references(() => vehicles.seq),
    axle: text('axle', { enum: AXLES }).notNull(),
    /** The vehicle's fleet, model and out-of-service date, copied here so that a report reads one index. */
    fleet: text('fleet'),
    model: text('model'),
    outOfServiceDate: text('out_of_service_date'),
    asAtDate: text('as_at_date'),
    /** The part with the soonest early date; the dates below are for this part. */
    part: text('part', { enum: DUE_PARTS }),
    /** The first date on which the chance of any part reaches the minimum worth naming (0.1 %). */
    firstDate: text('first_date'),
    earlyDate: text('early_date'),
    medianDate: text('median_date'),
    lateDate: text('late_date'),
    /** Whether a reading of a lining fails its limit. */
    failing: integer('failing', { mode: 'boolean' }).notNull(),
    /** Date from which any part is overdue; before any real date if a reading fails its limit. */
    overdueFrom: text('overdue_from'),
    /** Of the linings. */
    crossing: json<Crossing>('crossing'),
    /** The forecast of the rotors or drums; null if none. */
    counterpart: json<CounterpartDue>('counterpart'),
    /** Whether the linings are pads or shoes; null in rows of earlier versions. */
    linings: text('linings', { enum: LINING_NAMES }),
    governingSide: text('governing_side', { enum: SIDES }),
    governingPad: text('governing_pad', { enum: LINING_POSITIONS }),
    limitMm: real('limit_mm'),
    limitSource: text('limit_source'),
    lastReadingDate: text('last_reading_date'),
    /** Chance that rotors or drums are replaced with the next set of linings; null if unknown. */
    rotorChance: real('rotor_chance'),
    /** Whether they must be replaced now, whatever the state of the linings. */
    rotorsNow: integer('rotors_now', { mode: 'boolean' }).notNull().default(false),
    /** Why there is no forecast; null if there is one. */
    unassessed: json<Reason>('unassessed'),
    /** Its stop findings; null if none. Never includes their words, which quote notes of visits. */
    stops: json<StopFinding[]>('stops'),
    /** Date from which it should be measured before planning; null if its dates are close enough together. */
    measureDate: text('measure_date'),
    /** Expected date of the vehicle's next visit; null if it never had one. */
    expectedDate: text('expected_date'),
    /** When the reported columns last changed; for older rows, a date before any. */
    changedAt: text('changed_at').notNull().default('2020-01-01T00:00:00.000Z'),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.axle] }),
    // Covering index for report pages: axles that stay in service, in report order, with everything that is counted.
    // Includes a date that is null in every row, since SQLite would otherwise read it from the table.
    index('axle_outlooks_early')
      .on(
        table.outOfServiceDate,
        table.earlyDate,
        table.vehicleSeq,
        table.axle,
        table.fleet,
        table.model,
        table.asAtDate,
        table.overdueFrom,
      )
      .where(sql`early_date is not null and out_of_service_date is null`),
    index('axle_outlooks_fleet')
      .on(
        table.fleet,
        table.outOfServiceDate,
        table.earlyDate,
        table.vehicleSeq,
        table.axle,
        table.model,
        table.asAtDate,
        table.overdueFrom,
        table.measureDate,
        table.expectedDate,
        table.lastReadingDate,
        table.unassessed,
      )
      .where(sql`out_of_service_date is null`),
    // Covering index for counting.
    index('axle_outlooks_due')
      .on(table.outOfServiceDate, table.axle, table.earlyDate)
      .where(sql`early_date is not null and out_of_service_date is null`),
    index('axle_outlooks_overdue')
      .on(table.outOfServiceDate, table.axle, table.overdueFrom, table.earlyDate)
      .where(sql`early_date is not null and out_of_service_date is null`),
    index('axle_outlooks_first')
      .on(table.outOfServiceDate, table.firstDate)
      .where(sql`first_date is not null and out_of_service_date is null`),
    // Axles with an out-of-service date; searched for the few still in service.
    index('axle_outlooks_leaving')
      .on(table.outOfServiceDate)
      .where(sql`out_of_service_date is not null`),
    index('axle_outlooks_unassessed')
      .on(table.fleet, table.axle, table.outOfServiceDate, table.unassessed)
      .where(sql`unassessed is not null`),
    index('axle_outlooks_unassessed_listed')
      .on(table.vehicleSeq, table.axle)
      .where(sql`unassessed is not null`),
    index('axle_outlooks_measure')
      .on(
        table.outOfServiceDate,
        table.measureDate,
        table.expectedDate,
        table.earlyDate,
        table.asAtDate,
        table.fleet,
        table.unassessed,
      )
      .where(sql`measure_date is not null and unassessed is null and out_of_service_date is null`),
    index('axle_outlooks_last_reading')
      .on(
        table.outOfServiceDate,
        table.lastReadingDate,
        table.measureDate,
        table.expectedDate,
        table.earlyDate,
        table.asAtDate,
        table.fleet,
        table.unassessed,
      )
      .where(sql`last_reading_date is not null and unassessed is null and out_of_service_date is null`),
    index('axle_outlooks_stopped')
      .on(
        table.fleet,
        table.outOfServiceDate,
        table.earlyDate,
        table.vehicleSeq,
        table.axle,
        table.asAtDate,
        table.stops,
      )
      .where(sql`stops is not null`),
    oneOf('axle_outlooks_axle', table.axle, AXLES),
  ],
);

/**
 * Every version of a visit. This table and the next two are append-only: triggers, which drizzle cannot express,
 * enforce it.
 */
export const visitVersions = sqliteTable(
  'visit_versions',
  {
    visitSeq: integer('visit_seq')
      .notNull()
      .references(() => visits.seq),
    version: integer('version').notNull(),
    /** The vehicle that the visit belonged to. */
    vehicleSeq: integer('vehicle_seq')
      .notNull()
      .references(() => vehicles.seq),
    kind: text('kind', { enum: VISIT_EVENTS }).notNull(),
    at: text('at').notNull(),
    /** The name of the API key; null if none was used, or before histories were kept. */
    keyName: text('key_name'),
    reason: text('reason'),
    body: json<VisitBody>('body').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.visitSeq, table.version] }),
    oneOf('visit_versions_kind', table.kind, VISIT_EVENTS),
    check('visit_versions_body', sql`json_valid(${table.body})`),
  ],
);

/** Every version of a vehicle. */
export const vehicleVersions = sqliteTable(
  'vehicle_versions',
  {
    vehicleSeq: integer('vehicle_seq')
      .notNull()
      .references(() => vehicles.seq),
    version: integer('version').notNull(),
    kind: text('kind', { enum: VEHICLE_EVENTS }).notNull(),
    at: text('at').notNull(),
    keyName: text('key_name'),
    reason: text('reason'),
    body: json<VehicleBody>('body').notNull(),
    /** The merge patch from the previous version; null for the first. */
    patch: json<object>('patch'),
    /** The date from which the patch applies; null if it always did. */
    effectiveFrom: text('effective_from'),
    /** The other record of a merge. */
    mergedWith: text('merged_with'),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.version] }),
    oneOf('vehicle_versions_kind', table.kind, VEHICLE_EVENTS),
    check('vehicle_versions_body', sql`json_valid(${table.body})`),
  ],
);

/** One row per write: which key did what to which resource, and when. */
export const audit = sqliteTable(
  'audit',
  {
    seq: integer('seq').primaryKey(),
    at: text('at').notNull(),
    /** Null if done on the command line. */
    keyName: text('key_name'),
    /** Its effect on the resource; null on the command line. */
    effect: text('effect').$type<DeedEffect>(),
    action: text('action').notNull(),
    resource: text('resource').notNull(),
    resourceId: text('resource_id').notNull(),
    /** The result, if the resource itself does not keep it permanently. */
    detail: text('detail'),
  },
  (table) => [index('audit_at').on(table.at)],
);

/** The first answer to a POST with an Idempotency-Key, to be replayed byte for byte. */
export const idempotencyRecords = sqliteTable(
  'idempotency_records',
  {
    /** The name of the API key that sent it. */
    keyName: text('key_name').notNull(),
    target: text('target').notNull(),
    key: text('idempotency_key').notNull(),
    /** SHA-256 of the content to write, hex. */
    fingerprint: text('fingerprint').notNull(),
    /** Null if erased. */
    outcome: text('outcome'),
    createdAt: text('created_at').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.keyName, table.target, table.key] }),
    index('idempotency_records_created').on(table.createdAt),
  ],
);

/** Files sent for import, and the result of each. */
export const imports = sqliteTable(
  'imports',
  {
    seq: integer('seq').primaryKey(),
    id: text('id').notNull(),
    state: text('state', { enum: IMPORT_STATES }).notNull(),
    /** The latest import report. */
    body: json<Import>('body').notNull(),
    createdAt: text('created_at').notNull(),
  },
  (table) => [
    uniqueIndex('imports_id').on(table.id),
    index('imports_created').on(table.createdAt),
    oneOf('imports_state', table.state, IMPORT_STATES),
    check('imports_body', sql`json_valid(${table.body})`),
  ],
);

/** Axles known to be due: an event was raised for each, or it was due before any endpoint existed. */
export const dueAxles = sqliteTable(
  'due_axles',
  {
    vehicleSeq: integer('vehicle_seq')
      .notNull()
      .references(() => vehicles.seq),
    axle: text('axle', { enum: AXLES }).notNull(),
    since: text('since').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.axle] }),
    oneOf('due_axles_axle', table.axle, AXLES),
  ],
);

/** Vehicles whose history is being entered: the final state is reported at the next daily check. */
export const untoldVehicles = sqliteTable('untold_vehicles', {
  vehicleSeq: integer('vehicle_seq')
    .primaryKey()
    .references(() => vehicles.seq),
  /** The state before that, which is not news. */
  before: json<string[]>('before').notNull(),
});

/** Where events are posted. */
export const webhookEndpoints = sqliteTable(
  'webhook_endpoints',
  {
    seq: integer('seq').primaryKey(),
    id: text('id').notNull(),
    version: integer('version').notNull(),
    url: text('url').notNull(),
    /** Null means all. */
    eventTypes: json<NewsType[]>('event_types'),
    /** Null means every vehicle. */
    fleets: json<string[]>('fleets'),
    enabled: integer('enabled', { mode: 'boolean' }).notNull(),
    disabledBecause: text('disabled_because'),
    /** `whsec_` and the key in base64: signing needs the key itself, so a digest is not enough. */
    secret: text('secret').notNull(),
    previousSecret: text('previous_secret'),
    previousSecretUntil: text('previous_secret_until'),
    /** The receiver asked for no requests until this instant. */
    pausedUntil: text('paused_until'),
    createdAt: text('created_at').notNull(),
    updatedAt: text('updated_at').notNull(),
  },
  (table) => [
    uniqueIndex('webhook_endpoints_id').on(table.id),
    check(
      'webhook_endpoints_previous',
      sql`(${table.previousSecret} is null) = (${table.previousSecretUntil} is null)`,
    ),
  ],
);

/** The outbox: events, written in the transaction that caused them. */
export const events = sqliteTable(
  'events',
  {
    seq: integer('seq').primaryKey(),
    /** The webhook-id. */
    id: text('id').notNull(),
    type: text('type', { enum: EVENT_TYPES }).notNull(),
    /** Key under which the event is raised only once; null if its state may recur. */
    once: text('once'),
    /** The exact text that is signed and sent. */
    body: json<WebhookEvent>('body').notNull(),
    createdAt: text('created_at').notNull(),
  },
  (table) => [
    uniqueIndex('events_id').on(table.id),
    uniqueIndex('events_once')
      .on(table.once)
      .where(sql`once is not null`),
    index('events_created').on(table.createdAt),
    oneOf('events_type', table.type, EVENT_TYPES),
    check('events_body', sql`json_valid(${table.body})`),
  ],
);

/** One event for one endpoint, and its delivery status. */
export const webhookDeliveries = sqliteTable(
  'webhook_deliveries',
  {
    seq: integer('seq').primaryKey(),
    id: text('id').notNull(),
    version: integer('version').notNull(),
    eventSeq: integer('event_seq')
      .notNull()
      .references(() => events.seq),
    endpointSeq: integer('endpoint_seq')
      .notNull()
      .references(() => webhookEndpoints.seq),
    status: text('status', { enum: DELIVERY_STATES }).notNull(),
    /** Attempts since it was last queued. */
    tries: integer('tries').notNull(),
    attempts: json<Attempt[]>('attempts').notNull(),
    /** If pending: when to try it, or, while in flight, when to consider the attempt lost. */
    nextAttemptAt: text('next_attempt_at'),
    deliveredAt: text('delivered_at'),
    createdAt: text('created_at').notNull(),
  },
  (table) => [
    uniqueIndex('webhook_deliveries_id').on(table.id),
    index('webhook_deliveries_pending')
      .on(table.endpointSeq, table.nextAttemptAt)
      .where(sql`status = 'pending'`),
    index('webhook_deliveries_given_up')
      .on(table.seq)
      .where(sql`status = 'given-up'`),
    index('webhook_deliveries_endpoint').on(table.endpointSeq, table.seq),
    index('webhook_deliveries_event').on(table.eventSeq),
    oneOf('webhook_deliveries_status', table.status, DELIVERY_STATES),
    check(
      'webhook_deliveries_next',
      sql`(${table.status} = 'pending') = (${table.nextAttemptAt} is not null)`,
    ),
  ],
);
