import { and, asc, desc, eq, gt, inArray, isNotNull, isNull, lte, or, sql, type SQL } from 'drizzle-orm';
import type { VehicleRows, VehicleSelection, VehicleVersionRows } from '../../contract/vehicles.js';
import type { Database } from '../connection.js';
import { inserter } from '../inserts.js';
import { vehicles, vehicleVersions, visits } from '../schema.js';
import { selector } from '../selects.js';
import { bearersReader } from '../statements.js';
import { isAmong } from '../visibility.js';

export function vehicleRows(database: Database): VehicleRows {
  const byId = selector(database, vehicles, 'id = ?');
  const bySeq = selector(database, vehicles, 'seq = ?');
  const byExternalId = selector(database, vehicles, 'external_id = ? and merged_into is null');
  const byVin = selector(database, vehicles, 'vin = ? and merged_into is null');
  const byRegistrationKey = selector(
    database,
    vehicles,
    'registration_key = ? and merged_into is null order by seq',
  );
  const bearers = bearersReader(database);
  const insert = database
    .insert(vehicles)
    .values({
      id: sql.placeholder('id'),
      version: sql.placeholder('version'),
      body: sql.placeholder('body'),
      registrationKey: sql.placeholder('registrationKey'),
      searchKey: sql.placeholder('searchKey'),
      createdAt: sql.placeholder('createdAt'),
      updatedAt: sql.placeholder('updatedAt'),
    })
    .returning()
    .prepare();

  return {
    byId: async (id) => byId(id)[0] ?? null,
    bySeq: async (seq) => bySeq(seq)[0] ?? null,
    byExternalId: async (externalId) => byExternalId(externalId)[0] ?? null,
    byVin: async (vin) => byVin(vin)[0] ?? null,
    byRegistrationKey: async (key) => byRegistrationKey(key),
    bearersOf: async (name, key) => bearers(name, key),

    list: async (selection, after, limit) =>
      database
        .select()
        .from(vehicles)
        .where(and(isSelected(selection), gt(vehicles.seq, after)))
        .orderBy(asc(vehicles.seq))
        .limit(limit)
        .all(),

    fleets: async (among) =>
      database
        .selectDistinct({ fleet: vehicles.fleet })
        .from(vehicles)
        .where(among ? inArray(vehicles.fleet, [...among]) : isNotNull(vehicles.fleet))
        .all()
        .map(({ fleet }) => fleet!),

    ofLatestVisits: async (fleets, among, limit) =>
      database
        .select({ vehicle: vehicles, date: visits.date })
        .from(visits)
        .innerJoin(vehicles, eq(vehicles.seq, visits.vehicleSeq))
        .where(
          and(
            gt(visits.seq, sql`(select max(seq) from ${visits}) - ${among}`),
            isNull(visits.voided),
            isNull(vehicles.mergedInto),
            isAmong(vehicles.fleet, fleets),
          ),
        )
        .orderBy(desc(visits.date), desc(visits.seq))
        .limit(limit)
        .all(),

    mergedInto: async (id) => database.select().from(vehicles).where(eq(vehicles.mergedInto, id)).all(),
    insert: async (row) => insert.get({ ...row }),

    async update(seq, changes) {
      database.update(vehicles).set(changes).where(eq(vehicles.seq, seq)).run();
    },
  };
}

function isSelected(selection: VehicleSelection): SQL | undefined {
  const { fleets, registrationKey, searchKeyPart, vin, externalId, model, inServiceOn } = selection;
  return and(
    isNull(vehicles.mergedInto),
    isAmong(vehicles.fleet, fleets),
    registrationKey === undefined ? undefined : eq(vehicles.registrationKey, registrationKey),
    searchKeyPart === undefined ? undefined : sql`instr(${vehicles.searchKey}, ${searchKeyPart}) > 0`,
    vin === undefined ? undefined : eq(vehicles.vin, vin),
    externalId === undefined ? undefined : eq(vehicles.externalId, externalId),
    model === undefined ? undefined : eq(vehicles.model, model),
    inServiceOn === undefined
      ? undefined
      : or(isNull(vehicles.outOfServiceDate), gt(vehicles.outOfServiceDate, inServiceOn)),
  );
}

export function vehicleVersionRows(database: Database): VehicleVersionRows {
  const insert = inserter(database, vehicleVersions);
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
    .prepare();
  const fleets = database
    .select({
      version: vehicleVersions.version,
      at: vehicleVersions.at,
      effectiveFrom: vehicleVersions.effectiveFrom,
      fleet: sql<string | null>`json_extract(${vehicleVersions.body}, '$.fleet')`,
    })
    .from(vehicleVersions)
    .where(ofVehicle)
    .orderBy(asc(vehicleVersions.version))
    .prepare();

  return {
    async insert(row) {
      insert(row);
    },
    page: async (vehicleSeq, after, limit) =>
      database
        .select()
        .from(vehicleVersions)
        .where(and(eq(vehicleVersions.vehicleSeq, vehicleSeq), gt(vehicleVersions.version, after)))
        .orderBy(asc(vehicleVersions.version))
        .limit(limit)
        .all(),
    effectiveOn: async (vehicleSeq, date) => effectiveOn.all({ vehicleSeq, date }),
    fleets: async (vehicleSeq) => fleets.all({ vehicleSeq }),
  };
}
