import { sql, type SQL } from 'drizzle-orm';
import {
  bigint,
  boolean,
  check,
  customType,
  doublePrecision,
  index,
  integer,
  pgTable,
  primaryKey,
  uniqueIndex,
  type AnyPgColumn,
} from 'drizzle-orm/pg-core';
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
 * The tables, with the names and columns of the SQLite schema. Quantities are stored as entered and converted on
 * reading. `seq` columns are the order of arrival and are internal. Dates and instants are ISO texts; texts are
 * compared byte by byte, as SQLite compares them, whatever the server's locale.
 */

/** Text that sorts by its bytes. */
const text = customType<{ data: string; driverData: string }>({ dataType: () => 'text collate "C"' });

/** A column with one of the listed terms. */
const term = <Term extends string>(name: string, _terms: readonly Term[]) =>
  customType<{ data: Term; driverData: string }>({ dataType: () => 'text collate "C"' })(name);

/** JSON as sent: unlike `jsonb` it keeps the order of members, so answers have the same bytes on either engine. */
const json = <T>(name: string) =>
  customType<{ data: T; driverData: unknown }>({
    dataType: () => 'json',
    toDriver: (value) => (value === null ? null : JSON.stringify(value)),
    // The driver parses JSON itself.
    fromDriver: (value) => value as T,
  })(name);

/** The number of a transaction. */
const xid8 = customType<{ data: string; driverData: string }>({ dataType: () => 'xid8' });

/** Numbered by the engine in the order of insertion; a copied row keeps its number. */
const arrival = () => bigint('seq', { mode: 'number' }).generatedByDefaultAsIdentity().primaryKey();

const oneOf = (name: string, column: AnyPgColumn, terms: readonly string[]) =>
  check(name, sql`${column} in (${sql.raw(terms.map((each) => `'${each}'`).join(', '))})`);

const fromBody = (...path: string[]): SQL => sql.raw(`body #>> '{${path.join(',')}}'`);

export const apiKeys = pgTable(
  'api_keys',
  {
    name: text('name').primaryKey(),
    role: term('role', ROLES).notNull(),
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
export const serviceSecrets = pgTable('service_secrets', {
  name: text('name').primaryKey(),
  /** 256 random bits, base64url. */
  secret: text('secret').notNull(),
});

/** Addresses from which calendar programs read the due-soon report, each with its own token. */
export const calendarSubscriptions = pgTable(
  'calendar_subscriptions',
  {
    seq: arrival(),
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
  ],
);
/** Sessions of the pages; a session is valid only while its key is. */
export const sessions = pgTable('sessions', {
  /** SHA-256 of the token in the cookie, hex. */
  digest: text('digest').primaryKey(),
  keyName: text('key_name')
    .notNull()
    .references(() => apiKeys.name),
  expiresAt: text('expires_at').notNull(),
});

export const vehicles = pgTable(
  'vehicles',
  {
    seq: arrival(),
    id: text('id').notNull(),
    version: integer('version').notNull(),
    body: json<VehicleBody>('body').notNull(),
    externalId: text('external_id').generatedAlwaysAs(fromBody('externalId')),
    registration: text('registration').generatedAlwaysAs(fromBody('registration')),
    vin: text('vin').generatedAlwaysAs(fromBody('vin')),
    model: text('model').generatedAlwaysAs(fromBody('model')),
    fleet: text('fleet').generatedAlwaysAs(fromBody('fleet')),
    outOfServiceDate: text('out_of_service_date').generatedAlwaysAs(fromBody('outOfService', 'date')),
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
    check(
      'vehicles_identified',
      sql`(${table.body} ->> 'externalId') is not null or (${table.body} ->> 'registration') is not null or (${table.body} ->> 'vin') is not null`,
    ),
    check('vehicles_version', sql`${table.version} >= 1`),
  ],
);

export const visits = pgTable(
  'visits',
  {
    seq: arrival(),
    id: text('id').notNull(),
    vehicleSeq: bigint('vehicle_seq', { mode: 'number' })
      .notNull()
      .references(() => vehicles.seq),
    version: integer('version').notNull(),
    date: text('date').notNull(),
    time: text('time'),
    odometerValue: doublePrecision('odometer_value'),
    odometerUnit: term('odometer_unit', DISTANCE_UNITS),
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
      .on(table.vehicleSeq, sql`coalesce(shop, '')`, table.workOrder)
      .where(sql`work_order is not null and voided is null`),
    check('visits_date', sql`${table.date} ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$'`),
    check(
      'visits_odometer',
      sql`(${table.odometerValue} is null) = (${table.odometerUnit} is null) and ${table.odometerValue} >= 0`,
    ),
    oneOf('visits_odometer_unit', table.odometerUnit, DISTANCE_UNITS),
    check('visits_version', sql`${table.version} >= 1`),
  ],
);

const ofVisit = () => ({
  vehicleSeq: bigint('vehicle_seq', { mode: 'number' })
    .notNull()
    .references(() => vehicles.seq),
  visitSeq: bigint('visit_seq', { mode: 'number' })
    .notNull()
    .references(() => visits.seq),
  /** Position within the visit, in the order in which the items were sent. */
  number: integer('number').notNull(),
});

export const readings = pgTable(
  'readings',
  {
    ...ofVisit(),
    kind: term('kind', READING_KINDS).notNull(),
    axle: term('axle', AXLES).notNull(),
    /** Null for the thinnest lining of the axle. */
    side: term('side', SIDES),
    /** The pad, or the shoe of a drum brake. */
    pad: term('pad', LINING_POSITIONS),
    at: term('at', PLACES),
    point: integer('point'),
    repeat: integer('repeat').notNull(),
    value: doublePrecision('value').notNull(),
    unit: term('unit', LENGTH_UNITS).notNull(),
    taken: term('taken', TAKEN).notNull(),
    gauge: text('gauge'),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.visitSeq, table.number] }),
    uniqueIndex('readings_place').on(
      table.visitSeq,
      table.kind,
      table.axle,
      sql`coalesce(side, '')`,
      sql`coalesce(pad, '')`,
      sql`coalesce(at, '')`,
      sql`coalesce(point, 0)`,
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

export const conditions = pgTable(
  'conditions',
  {
    ...ofVisit(),
    part: term('part', CONDITION_PARTS).notNull(),
    axle: term('axle', AXLES).notNull(),
    side: term('side', SIDES),
    pad: term('pad', LINING_POSITIONS),
    state: term('state', CONDITION_STATES).notNull(),
    notes: text('notes'),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.visitSeq, table.number] }),
    oneOf('conditions_part', table.part, CONDITION_PARTS),
    oneOf('conditions_axle', table.axle, AXLES),
    oneOf('conditions_state', table.state, CONDITION_STATES),
  ],
);

export const notMeasured = pgTable(
  'not_measured',
  {
    ...ofVisit(),
    axle: term('axle', AXLES).notNull(),
    side: term('side', SIDES),
    part: term('part', CONDITION_PARTS),
    pad: term('pad', LINING_POSITIONS),
    why: text('why').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.visitSeq, table.number] }),
    oneOf('not_measured_axle', table.axle, AXLES),
  ],
);

export const workItems = pgTable(
  'work_items',
  {
    ...ofVisit(),
    kind: term('kind', WORK_KINDS).notNull(),
    axle: term('axle', AXLES),
    side: term('side', SIDES),
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

export const torques = pgTable(
  'torques',
  {
    ...ofVisit(),
    fastener: text('fastener').notNull(),
    axle: term('axle', AXLES).notNull(),
    side: term('side', SIDES),
    position: integer('position'),
    value: doublePrecision('value').notNull(),
    unit: term('unit', TORQUE_UNITS).notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.visitSeq, table.number] }),
    oneOf('torques_axle', table.axle, AXLES),
    oneOf('torques_unit', table.unit, TORQUE_UNITS),
    check('torques_value', sql`${table.value} >= 0`),
  ],
);

/** A vehicle's outlook, computed in the transaction that last changed its history. */
export const outlooks = pgTable(
  'outlooks',
  {
    vehicleSeq: bigint('vehicle_seq', { mode: 'number' })
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
    index('outlooks_experience').on(table.experienceVersion),
    index('outlooks_settings').on(table.settingsRevision),
    index('outlooks_program').on(table.program),
  ],
);

/** A vehicle's prepared wear answer; small columns first, since the text is long. */
export const wearAnswers = pgTable('wear_answers', {
  vehicleSeq: bigint('vehicle_seq', { mode: 'number' })
    .primaryKey()
    .references(() => vehicles.seq),
  /** Copied from the vehicle's outlook, as is the program. */
  settingsRevision: integer('settings_revision').notNull(),
  program: text('program').notNull(),
  open: json<Outlook>('open').notNull(),
  text: text('text').notNull(),
});

/** The owner's policy, one row per change; the latest is in force. */
export const policies = pgTable('policies', {
  version: integer('version').primaryKey(),
  body: json<PolicyBody>('body').notNull(),
  /** The name of the key that set it. */
  updatedBy: text('updated_by').notNull(),
  updatedAt: text('updated_at').notNull(),
});

/** Gauges of the shop's own, or its changes to a standard one: every version, the latest in force. */
export const gauges = pgTable(
  'gauges',
  {
    name: text('name').notNull(),
    version: integer('version').notNull(),
    body: json<GaugeBody>('body').notNull(),
    updatedBy: text('updated_by').notNull(),
    updatedAt: text('updated_at').notNull(),
  },
  (table) => [primaryKey({ columns: [table.name, table.version] })],
);

/** What was learned from the shop's own vehicles, one row per fit. */
export const experiences = pgTable('experiences', {
  version: integer('version').primaryKey(),
  fitted: json<FittedExperience>('fitted').notNull(),
  /** The last visit it used, by order of arrival. */
  lastVisitSeq: bigint('last_visit_seq', { mode: 'number' }).notNull(),
  /** The latest date of a visit it learned from; null if none. */
  learnedTo: text('learned_to'),
  createdAt: text('created_at').notNull(),
  /** The program that fitted it (`programDigest`). */
  program: text('program').notNull().default(''),
});

/** What would have been learned from the visits up to a past date, used to recompute forecasts of that time. */
export const pastExperiences = pgTable('past_experiences', {
  learnedTo: text('learned_to').primaryKey(),
  fitted: json<FittedExperience>('fitted').notNull(),
  createdAt: text('created_at').notNull(),
});

/** Scores of a vehicle's past forecasts; null if its history has changed since. */
export const forecastScores = pgTable('forecast_scores', {
  vehicleSeq: bigint('vehicle_seq', { mode: 'number' })
    .primaryKey()
    .references(() => vehicles.seq),
  scores: json<VehicleScores>('scores'),
  /** Incremented when the history changes, so that scores of an earlier history are not stored. */
  revision: integer('revision').notNull(),
  /** Number of past fits at scoring time: another fit makes the scores stale without touching a row. */
  pastFits: integer('past_fits').notNull().default(0),
});

/** The columns of each axle's outlook that reports query by index. */
export const axleOutlooks = pgTable(
  'axle_outlooks',
  {
    vehicleSeq: bigint('vehicle_seq', { mode: 'number' })
      .notNull()
      .references(() => vehicles.seq),
    axle: term('axle', AXLES).notNull(),
    /** The vehicle's fleet, model and out-of-service date, copied here so that a report reads one index. */
    fleet: text('fleet'),
    model: text('model'),
    outOfServiceDate: text('out_of_service_date'),
    asAtDate: text('as_at_date'),
    /** The part with the soonest early date; the dates below are for this part. */
    part: term('part', DUE_PARTS),
    /** The first date on which the chance of any part reaches the minimum worth naming (0.1 %). */
    firstDate: text('first_date'),
    earlyDate: text('early_date'),
    medianDate: text('median_date'),
    lateDate: text('late_date'),
    /** Whether a reading of a lining fails its limit. */
    failing: boolean('failing').notNull(),
    /** Date from which any part is overdue; before any real date if a reading fails its limit. */
    overdueFrom: text('overdue_from'),
    /** Of the linings. */
    crossing: json<Crossing>('crossing'),
    /** The forecast of the rotors or drums; null if none. */
    counterpart: json<CounterpartDue>('counterpart'),
    /** Whether the linings are pads or shoes; null in rows of earlier versions. */
    linings: term('linings', LINING_NAMES),
    governingSide: term('governing_side', SIDES),
    governingPad: term('governing_pad', LINING_POSITIONS),
    limitMm: doublePrecision('limit_mm'),
    limitSource: text('limit_source'),
    lastReadingDate: text('last_reading_date'),
    /** Chance that rotors or drums are replaced with the next set of linings; null if unknown. */
    rotorChance: doublePrecision('rotor_chance'),
    /** Whether they must be replaced now, whatever the state of the linings. */
    rotorsNow: boolean('rotors_now').notNull().default(false),
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
    // Report pages and counts: axles that stay in service, in report order.
    index('axle_outlooks_early')
      .on(
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
        table.earlyDate,
        table.vehicleSeq,
        table.axle,
        table.model,
        table.asAtDate,
        table.overdueFrom,
      )
      .where(sql`out_of_service_date is null`),
    index('axle_outlooks_due')
      .on(table.axle, table.earlyDate)
      .where(sql`early_date is not null and out_of_service_date is null`),
    index('axle_outlooks_overdue')
      .on(table.axle, table.overdueFrom, table.earlyDate)
      .where(sql`early_date is not null and out_of_service_date is null`),
    index('axle_outlooks_first')
      .on(table.firstDate)
      .where(sql`first_date is not null and out_of_service_date is null`),
    // Axles with an out-of-service date; searched for the few still in service.
    index('axle_outlooks_leaving')
      .on(table.outOfServiceDate)
      .where(sql`out_of_service_date is not null`),
    index('axle_outlooks_unassessed')
      .on(table.fleet, table.axle, table.outOfServiceDate)
      .where(sql`unassessed is not null`),
    index('axle_outlooks_unassessed_listed')
      .on(table.vehicleSeq, table.axle)
      .where(sql`unassessed is not null`),
    index('axle_outlooks_measure')
      .on(table.measureDate, table.expectedDate, table.earlyDate, table.asAtDate, table.fleet)
      .where(sql`measure_date is not null and unassessed is null and out_of_service_date is null`),
    index('axle_outlooks_last_reading')
      .on(
        table.lastReadingDate,
        table.measureDate,
        table.expectedDate,
        table.earlyDate,
        table.asAtDate,
        table.fleet,
      )
      .where(sql`last_reading_date is not null and unassessed is null and out_of_service_date is null`),
    index('axle_outlooks_stopped')
      .on(table.fleet, table.earlyDate, table.vehicleSeq, table.axle)
      .where(sql`stops is not null`),
    oneOf('axle_outlooks_axle', table.axle, AXLES),
  ],
);

/**
 * Every version of a visit. This table and the next two are append-only: triggers, which drizzle cannot express,
 * enforce it.
 */
export const visitVersions = pgTable(
  'visit_versions',
  {
    visitSeq: bigint('visit_seq', { mode: 'number' })
      .notNull()
      .references(() => visits.seq),
    version: integer('version').notNull(),
    /** The vehicle that the visit belonged to. */
    vehicleSeq: bigint('vehicle_seq', { mode: 'number' })
      .notNull()
      .references(() => vehicles.seq),
    kind: term('kind', VISIT_EVENTS).notNull(),
    at: text('at').notNull(),
    /** The name of the API key; null if none was used, or before histories were kept. */
    keyName: text('key_name'),
    reason: text('reason'),
    body: json<VisitBody>('body').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.visitSeq, table.version] }),
    oneOf('visit_versions_kind', table.kind, VISIT_EVENTS),
  ],
);

/** Every version of a vehicle. */
export const vehicleVersions = pgTable(
  'vehicle_versions',
  {
    vehicleSeq: bigint('vehicle_seq', { mode: 'number' })
      .notNull()
      .references(() => vehicles.seq),
    version: integer('version').notNull(),
    kind: term('kind', VEHICLE_EVENTS).notNull(),
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
  ],
);

/** One row per write: which key did what to which resource, and when. */
export const audit = pgTable(
  'audit',
  {
    seq: arrival(),
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
    /** The transaction that wrote it: the order in which pages list the rows. */
    writtenBy: xid8('written_by')
      .notNull()
      .default(sql`pg_current_xact_id()`),
  },
  (table) => [index('audit_at').on(table.at), index('audit_settled').on(table.writtenBy, table.seq)],
);

/** The first answer to a POST with an Idempotency-Key, to be replayed byte for byte. */
export const idempotencyRecords = pgTable(
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
export const imports = pgTable(
  'imports',
  {
    seq: arrival(),
    id: text('id').notNull(),
    state: term('state', IMPORT_STATES).notNull(),
    /** The latest import report. */
    body: json<Import>('body').notNull(),
    createdAt: text('created_at').notNull(),
  },
  (table) => [
    uniqueIndex('imports_id').on(table.id),
    index('imports_created').on(table.createdAt),
    oneOf('imports_state', table.state, IMPORT_STATES),
  ],
);

/** Axles known to be due: an event was raised for each, or it was due before any endpoint existed. */
export const dueAxles = pgTable(
  'due_axles',
  {
    vehicleSeq: bigint('vehicle_seq', { mode: 'number' })
      .notNull()
      .references(() => vehicles.seq),
    axle: term('axle', AXLES).notNull(),
    since: text('since').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.vehicleSeq, table.axle] }),
    oneOf('due_axles_axle', table.axle, AXLES),
  ],
);

/** Vehicles whose history is being entered: the final state is reported at the next daily check. */
export const untoldVehicles = pgTable('untold_vehicles', {
  vehicleSeq: bigint('vehicle_seq', { mode: 'number' })
    .primaryKey()
    .references(() => vehicles.seq),
  /** The state before that, which is not news. */
  before: json<string[]>('before').notNull(),
});

/** Where events are posted. */
export const webhookEndpoints = pgTable(
  'webhook_endpoints',
  {
    seq: arrival(),
    id: text('id').notNull(),
    version: integer('version').notNull(),
    url: text('url').notNull(),
    /** Null means all. */
    eventTypes: json<NewsType[]>('event_types'),
    /** Null means every vehicle. */
    fleets: json<string[]>('fleets'),
    enabled: boolean('enabled').notNull(),
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
export const events = pgTable(
  'events',
  {
    seq: arrival(),
    /** The webhook-id. */
    id: text('id').notNull(),
    type: term('type', EVENT_TYPES).notNull(),
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
  ],
);

/** One event for one endpoint, and its delivery status. */
export const webhookDeliveries = pgTable(
  'webhook_deliveries',
  {
    seq: arrival(),
    id: text('id').notNull(),
    version: integer('version').notNull(),
    eventSeq: bigint('event_seq', { mode: 'number' })
      .notNull()
      .references(() => events.seq),
    endpointSeq: bigint('endpoint_seq', { mode: 'number' })
      .notNull()
      .references(() => webhookEndpoints.seq),
    status: term('status', DELIVERY_STATES).notNull(),
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
