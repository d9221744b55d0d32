import { and, asc, desc, eq, gt, inArray, isNotNull, isNull, lte, or, sql, type SQL } from 'drizzle-orm';
import { itemAt } from '../../../../core/items.js';
import type { VehicleRows, VehicleSelection, VehicleVersionRows } from '../../contract/vehicles.js';
import type { Database } from '../connections.js';
import { vehicles, vehicleVersions, visits } from '../schema.js';
import { isAmong } from '../visibility.js';

/**
 * Until the transaction ends, no other one can number a vehicle, so vehicles are committed in the order of their
 * numbers. Lists follow that order, and a caller who pages through one misses none. Any number that no other lock uses
 * will do.
 */
const IN_ORDER = sql`select pg_advisory_xact_lock(7264333)`;

export function vehicleRows(database: Database): VehicleRows {
  const where = (condition: SQL | undefined) =>
    database.select().from(vehicles).where(condition).orderBy(asc(vehicles.seq)).prepare('');
  const byId = where(eq(vehicles.id, sql.placeholder('id')));
  const bySeq = where(eq(vehicles.seq, sql.placeholder('seq')));
  const isStanding = isNull(vehicles.mergedInto);
  const byExternalId = where(and(eq(vehicles.externalId, sql.placeholder('externalId')), isStanding));
  const byVin = where(and(eq(vehicles.vin, sql.placeholder('vin')), isStanding));
  const byRegistrationKey = where(and(eq(vehicles.registrationKey, sql.placeholder('key')), isStanding));
  const bearers = database
    .select({ seq: vehicles.seq })
    .from(vehicles)
    .where(
      and(
        isStanding,
        or(
          eq(vehicles.externalId, sql.placeholder('name')),
          eq(vehicles.registrationKey, sql.placeholder('key')),
          eq(vehicles.vin, sql.placeholder('key')),
        ),
      ),
    )
    .orderBy(asc(vehicles.seq))
    .prepare('');

  return {
    byId: async (id) => (await byId.execute({ id }))[0] ?? null,
    bySeq: async (seq) => (await bySeq.execute({ seq }))[0] ?? null,
    byExternalId: async (externalId) => (await byExternalId.execute({ externalId }))[0] ?? null,
    byVin: async (vin) => (await byVin.execute({ vin }))[0] ?? null,
    byRegistrationKey: async (key) => byRegistrationKey.execute({ key }),
    bearersOf: async (name, key) => (await bearers.execute({ name, key })).map(({ seq }) => seq),

    list: async (selection, after, limit) =>
      database
        .select()
        .from(vehicles)
        .where(and(isSelected(selection), gt(vehicles.seq, after)))
        .orderBy(asc(vehicles.seq))
        .limit(limit),

    async fleets(among) {
      const rows = await database
        .selectDistinct({ fleet: vehicles.fleet })
        .from(vehicles)
        .where(among ? inArray(vehicles.fleet, [...among]) : isNotNull(vehicles.fleet))
        .orderBy(asc(vehicles.fleet));
      return rows.map(({ fleet }) => fleet!);
    },

    ofLatestVisits: async (fleets, among, limit) =>
      database
        .select({ vehicle: vehicles, date: visits.date })
        .from(visits)
        .innerJoin(vehicles, eq(vehicles.seq, visits.vehicleSeq))
        .where(
          and(
            gt(visits.seq, sql`(select max(seq) from ${visits}) - ${among}`),
            isNull(visits.voided),
            isStanding,
            isAmong(vehicles.fleet, fleets),
          ),
        )
        .orderBy(desc(visits.date), desc(visits.seq))
        .limit(limit),

    mergedInto: async (id) =>
      database.select().from(vehicles).where(eq(vehicles.mergedInto, id)).orderBy(asc(vehicles.seq)),
    async insert(row) {
      await database.execute(IN_ORDER);
      return itemAt(await database.insert(vehicles).values(row).returning(), 0);
    },

    async update(seq, changes) {
      await database.update(vehicles).set(changes).where(eq(vehicles.seq, seq));
    },
  };
}

function isSelected(selection: VehicleSelection): SQL | undefined {
  const { fleets, registrationKey, searchKeyPart, vin, externalId, model, inServiceOn } = selection;
  return and(
    isNull(vehicles.mergedInto),
    isAmong(vehicles.fleet, fleets),
    registrationKey === undefined ? undefined : eq(vehicles.registrationKey, registrationKey),
    searchKeyPart === undefined ? undefined : sql`position(${searchKeyPart} in ${vehicles.searchKey}) > 0`,
    vin === undefined ? undefined : eq(vehicles.vin, vin),
    externalId === undefined ? undefined : eq(vehicles.externalId, externalId),
    model === undefined ? undefined : eq(vehicles.model, model),
    inServiceOn === undefined
      ? undefined
      : or(isNull(vehicles.outOfServiceDate), gt(vehicles.outOfServiceDate, inServiceOn)),
  );
}

export function vehicleVersionRows(database: Database): VehicleVersionRows {
  const ofVehicle = eq(vehicleVersions.vehicleSeq, sql.placeholder('vehicleSeq'));
  const effectiveOn = database
    .select({ body: vehicleVersions.body, patch: vehicleVersions.patch })
    .from(vehicleVersions)
    .where(
      and(
        ofVehicle,
        or(
          isNull(vehicleVersions.effectiveFrom),
          lte(vehicleVersions.effectiveFrom, sql.placeholder('date')),
        ),
      ),
    )
    .orderBy(asc(vehicleVersions.version))
    .prepare('');
  const fleets = database
    .select({
      version: vehicleVersions.version,
      at: vehicleVersions.at,
      effectiveFrom: vehicleVersions.effectiveFrom,
      fleet: sql<string | null>`${vehicleVersions.body} ->> 'fleet'`,
    })
    .from(vehicleVersions)
    .where(ofVehicle)
    .orderBy(asc(vehicleVersions.version))
    .prepare('');

  return {
    async insert(row) {
      await database.insert(vehicleVersions).values(row);
    },
    page: async (vehicleSeq, after, limit) =>
      database
        .select()
        .from(vehicleVersions)
        .where(and(eq(vehicleVersions.vehicleSeq, vehicleSeq), gt(vehicleVersions.version, after)))
        .orderBy(asc(vehicleVersions.version))
        .limit(limit),
    effectiveOn: async (vehicleSeq, date) => effectiveOn.execute({ vehicleSeq, date }),
    fleets: async (vehicleSeq) => fleets.execute({ vehicleSeq }),
  };
}
