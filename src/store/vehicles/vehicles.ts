import { and, asc, desc, eq, gt, isNotNull, isNull, or, sql, type SQL } from 'drizzle-orm';
import jsonMergePatch from 'json-merge-patch';
import { v7 as uuid } from 'uuid';
import { invalid, Refusal, type Issue } from '../../core/refusal.js';
import { withConversions } from '../../core/units.js';
import { hasValidVinCheckDigit, vinCheckDigit } from '../../core/vin.js';
import { conflictIn } from '../../core/odometer.js';
import { misfits } from '../../core/visitRules.js';
import type { History } from '../../core/history.js';
import type { Axle } from '../../core/vocabulary/terms.js';
import type { Vehicle, VehicleBody, Warning } from '../../core/vocabulary/vehicle.js';
import { identifierKey } from '../../core/identifiers.js';
import { refuseStale } from '../contract/expected.js';
import type { VehicleRow } from './findVehicle.js';
import { nameKeys } from './names.js';
import { visibleTo } from '../engine/sqlite/visibility.js';
import { pageOf, placeAfter, rowsFor } from '../paging.js';
import type { StoreParts } from '../parts.js';
import { vehicles, visits } from '../engine/sqlite/schema.js';
import { maySee, type Caller } from '../contract/caller.js';
import type { Expected } from '../contract/expected.js';
import type { Keep } from '../contract/idempotency.js';
import type { Page, Paged } from '../contract/paging.js';
import type { VehicleChange, VehicleFilter, VehicleStore } from '../contract/vehicles.js';

/** How many of the latest visits are searched for recently seen vehicles. */
const RECENT_VISITS = 2000;

/** Writes new vehicles; call within a transaction. */
export function vehicleRecorder({ database, clock, versions }: StoreParts) {
  const byExternalId = database
    .select()
    .from(vehicles)
    .where(and(eq(vehicles.externalId, sql.placeholder('externalId')), isNull(vehicles.mergedInto)))
    .prepare();
  const byVin = database
    .select()
    .from(vehicles)
    .where(and(eq(vehicles.vin, sql.placeholder('vin')), isNull(vehicles.mergedInto)))
    .prepare();
  const statement = database
    .insert(vehicles)
    .values({
      id: sql.placeholder('id'),
      version: 1,
      body: sql.placeholder('body'),
      registrationKey: sql.placeholder('registrationKey'),
      searchKey: sql.placeholder('searchKey'),
      createdAt: sql.placeholder('now'),
      updatedAt: sql.placeholder('now'),
    })
    .returning()
    .prepare();

  return {
    /** @throws Refusal if another vehicle than `self` has the same externalId or VIN */
    refuseDuplicate({ externalId, vin }: VehicleBody, self: number | null): void {
      const same = [
        { name: 'externalId', row: externalId == null ? undefined : byExternalId.get({ externalId }) },
        { name: 'VIN', row: vin == null ? undefined : byVin.get({ vin }) },
      ].find(({ row }) => row && row.seq !== self);
      if (!same) return;
      const detail = `vehicle ${same.row!.id} already has this ${same.name}`;
      throw new Refusal('conflict', 'duplicate-vehicle', detail, [], { vehicleId: same.row!.id });
    },

    insert(caller: Caller, body: VehicleBody): VehicleRow {
      const row = statement.get({ id: uuid(), body, ...nameKeys(body), now: clock().toISOString() });
      versions.vehicle(caller, {
        id: row.id,
        vehicleSeq: row.seq,
        version: 1,
        kind: 'recorded',
        at: row.createdAt,
        body,
      });
      return row;
    },
  };
}

export function vehicleStore(parts: StoreParts): VehicleStore {
  const { database, clock, write, today, findVehicle, history, versions, writeOutlook, outcomes } = parts;
  const { refuseDuplicate, insert } = vehicleRecorder(parts);
  const byRegistrationKey = database
    .select()
    .from(vehicles)
    .where(and(eq(vehicles.registrationKey, sql.placeholder('key')), isNull(vehicles.mergedInto)))
    .orderBy(asc(vehicles.seq))
    .prepare();

  /**
   * Names the first other vehicle with the same registration: plates move between vehicles, so this is only a warning.
   */
  function withPlateWarning(caller: Caller, vehicle: Vehicle): Vehicle {
    const { registrationKey: key } = nameKeys(vehicle);
    if (key === null) return vehicle;
    const other = byRegistrationKey
      .all({ key })
      .find((row) => row.id !== vehicle.id && maySee(caller, row.fleet));
    if (!other) return vehicle;
    const detail = `vehicle ${other.id} also has the registration ${other.registration}; if it is the same vehicle, merge the two records`;
    const warning = { code: 'registration-known', detail, pointer: '#/registration' };
    return { ...vehicle, warnings: [...vehicle.warnings, warning] };
  }

  return {
    async create(caller: Caller, body: VehicleBody, keep: Keep<Vehicle> | null) {
      return write(() => {
        refuseDuplicate(body, null);
        const row = insert(caller, body);
        writeOutlook(row.seq, { vehicle: body, visits: [] });
        const vehicle = withPlateWarning(caller, toVehicle(row));
        outcomes.keep(keep, vehicle);
        return vehicle;
      });
    },

    async get(caller: Caller, id: string) {
      return toVehicle(findVehicle.record(caller, id));
    },

    async list(caller: Caller, filter: VehicleFilter, page: Page): Promise<Paged<Vehicle>> {
      const rows = database
        .select()
        .from(vehicles)
        .where(
          and(
            visibleTo(caller, vehicles.fleet, filter.fleet),
            isNull(vehicles.mergedInto),
            filter.registration === undefined
              ? undefined
              : eq(vehicles.registrationKey, identifierKey(filter.registration)),
            filter.find === undefined ? undefined : matches(filter.find),
            filter.vin === undefined ? undefined : eq(vehicles.vin, identifierKey(filter.vin)),
            filter.externalId === undefined ? undefined : eq(vehicles.externalId, filter.externalId),
            filter.model === undefined ? undefined : eq(vehicles.model, filter.model),
            filter.includeOutOfService
              ? undefined
              : or(isNull(vehicles.outOfServiceDate), gt(vehicles.outOfServiceDate, today())),
            gt(vehicles.seq, placeAfter(page)),
          ),
        )
        .orderBy(asc(vehicles.seq))
        .limit(rowsFor(page))
        .all();
      return pageOf(rows, page, toVehicle, ({ seq }) => [seq]);
    },

    async fleets(caller: Caller) {
      if (caller.fleets !== null) return [...caller.fleets].sort();
      const rows = database
        .selectDistinct({ fleet: vehicles.fleet })
        .from(vehicles)
        .where(isNotNull(vehicles.fleet));
      return rows
        .all()
        .map(({ fleet }) => fleet!)
        .sort();
    },

    async recent(caller: Caller, max: number) {
      const rows = database
        .select({ vehicle: vehicles, date: visits.date })
        .from(visits)
        .innerJoin(vehicles, eq(vehicles.seq, visits.vehicleSeq))
        .where(
          and(
            gt(visits.seq, sql`(select max(seq) from ${visits}) - ${RECENT_VISITS}`),
            isNull(visits.voided),
            isNull(vehicles.mergedInto),
            visibleTo(caller, vehicles.fleet),
          ),
        )
        .orderBy(desc(visits.date), desc(visits.seq))
        .limit(max * 4)
        .all();
      const latest = new Map(rows.toReversed().map((row) => [row.vehicle.seq, row]));
      return [...latest.values()]
        .sort((a, b) => (a.date < b.date ? 1 : -1))
        .slice(0, max)
        .map(({ vehicle, date }) => ({ vehicle: toVehicle(vehicle), date }));
    },

    async search(caller: Caller, text: string, max: number) {
      return database
        .select()
        .from(vehicles)
        .where(and(visibleTo(caller, vehicles.fleet), isNull(vehicles.mergedInto), matches(text)))
        .orderBy(asc(vehicles.seq))
        .limit(max)
        .all()
        .map(toVehicle);
    },

    async change(
      caller: Caller,
      id: string,
      expected: Expected,
      { patch, effectiveFrom, read }: VehicleChange,
    ) {
      return write(() => {
        const row = findVehicle.open(caller, id);
        refuseStale(expected, row.version);
        const body = read(jsonMergePatch.apply(structuredClone(row.body), patch));
        refuseDuplicate(body, row.seq);
        const changed: History = { vehicle: body, visits: history.visitsOf(row.seq, row.id) };
        const issues = historyIssues(changed, row.body);
        if (issues.length > 0) throw invalid(issues);
        const next = {
          ...row,
          body,
          ...nameKeys(body),
          version: row.version + 1,
          updatedAt: clock().toISOString(),
        };
        database
          .update(vehicles)
          .set({ body, ...nameKeys(body), version: next.version, updatedAt: next.updatedAt })
          .where(eq(vehicles.seq, row.seq))
          .run();
        versions.vehicle(caller, {
          id,
          vehicleSeq: row.seq,
          version: next.version,
          kind: 'changed',
          at: next.updatedAt,
          body,
          patch,
          effectiveFrom: effectiveFrom ?? today(),
        });
        writeOutlook(row.seq, changed);
        return withPlateWarning(caller, toVehicle(next));
      });
    },
  };
}

/** Vehicles whose registration, VIN or externalId contains a text, compared by letters and digits only. */
function matches(text: string): SQL {
  const key = identifierKey(text);
  // A text without letters or digits finds nothing rather than everything.
  return key === '' ? sql`false` : sql`instr(${vehicles.searchKey}, ${key}) > 0`;
}

/** Errors if a change to a vehicle contradicts visits already recorded. */
function historyIssues({ vehicle, visits }: History, before: VehicleBody): Issue[] {
  const issues: Issue[] = [];
  const first = visits[0];
  if (first && vehicle.inService && vehicle.inService.date > first.date) {
    issues.push({
      path: ['inService', 'date'],
      detail: `a visit on ${first.date} (${first.id}) is before this date`,
    });
  } else if (conflictIn({ vehicle, visits })) {
    issues.push({
      path: ['inService', 'odometer'],
      detail: 'a recorded visit has an odometer reading below this one',
    });
  }
  return [...issues, ...axleIssues({ vehicle, visits }, before)];
}

/**
 * Errors if a change removes an axle, or changes its kind of brake, while visits refer to it: those visits could not be
 * sent again unchanged. Existing contradictions do not count against the change.
 */
function axleIssues({ vehicle, visits }: History, before: VehicleBody): Issue[] {
  return (Object.keys(before.axles) as Axle[]).flatMap((axle): Issue[] => {
    const changed = { ...before, axles: { ...before.axles, [axle]: vehicle.axles[axle] } };
    const first = visits.find((visit) => misfits(changed, visit).length > misfits(before, visit).length);
    if (!first) return [];
    const where = `the visit on ${first.date} (${first.id})`;
    if (!vehicle.axles[axle])
      return [
        {
          path: ['axles', axle],
          detail: `${where} has entries for this axle, so the axle cannot be removed`,
        },
      ];
    const brake = before.axles[axle]!.brake ?? 'disc';
    const detail = `${where} has entries for a ${brake} brake on this axle; correct or void it before you change the brake`;
    return [{ path: ['axles', axle, 'brake'], detail }];
  });
}

/** Builds a vehicle's answer: as sent, with conversions and warnings. */
export function toVehicle({
  id,
  version,
  body,
  mergedInto,
  erasedAt,
  createdAt,
  updatedAt,
}: Pick<
  VehicleRow,
  'id' | 'version' | 'body' | 'mergedInto' | 'erasedAt' | 'createdAt' | 'updatedAt'
>): Vehicle {
  const { externalId, registration, vin, description, model, fleet, powertrain, grossMass, brakeSystem } =
    body;
  const sent = {
    externalId: externalId ?? null,
    registration: registration ?? null,
    vin: vin ?? null,
    description: description ?? null,
    model: model ?? null,
    fleet: fleet ?? null,
    powertrain: powertrain ?? null,
    grossMass: grossMass ?? null,
    brakeSystem: brakeSystem ?? null,
    inService: body.inService ?? null,
    outOfService: body.outOfService ?? null,
    axles: body.axles,
  };
  return {
    id,
    version,
    ...(withConversions(sent) as typeof sent),
    mergedInto,
    erasedAt,
    createdAt,
    updatedAt,
    warnings: warningsOf(body),
  } as Vehicle;
}

function warningsOf({ vin }: VehicleBody): Warning[] {
  if (vin == null || hasValidVinCheckDigit(vin)) return [];
  const detail = `position 9 is ${vin[8]}, the check digit of 49 CFR 565.15 would be ${vinCheckDigit(vin)}; not every market uses a check digit, so compare the VIN with the plate`;
  return [{ code: 'vin-check-digit', detail, pointer: '#/vin' }];
}
