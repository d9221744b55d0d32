import { and, desc, eq, inArray, isNull, lt, sql, type SQL } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import { v7 as uuid } from 'uuid';
import { latestDateAt } from '../../core/calendar.js';
import { identifierKey } from '../../core/identifiers.js';
import { notFound, Refusal } from '../../core/refusal.js';
import type { SheetRow } from '../../core/spreadsheet/cells.js';
import { historyAfter, planVehicle, type VehiclePlan } from '../../core/spreadsheet/plan.js';
import type { Import, RowError } from '../../core/vocabulary/import.js';
import type { ImportKind } from '../../core/vocabulary/terms.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import { digestOf } from '../../digest.js';
import type { VehicleRow } from '../vehicles/findVehicle.js';
import { vehicleNames } from '../vehicles/names.js';
import { workOut, type WorkedOutlook } from '../outlooks/outlooks.js';
import type { StoreParts } from '../parts.js';
import { imports, vehicles, visits } from '../engine/sqlite/schema.js';
import { openStage, type Stage } from '../engine/sqlite/stage.js';
import { OPERATOR, type Caller, type KeyCaller } from '../contract/caller.js';
import type { Keep } from '../contract/idempotency.js';
import type { FilePiece, ImportStore, VehicleLine } from '../contract/imports.js';
import type { Page, Paged } from '../contract/paging.js';
import type { LongWriter } from '../engine/sqlite/engine.js';
import { vehicleStateReader, type VehicleState } from '../outlooks/vehicleState.js';
import { vehicleRecorder } from '../vehicles/vehicles.js';
import { visitRecorder } from '../visits/visits.js';

/** No step of an import keeps other requests waiting for much longer than this. */
const STEP_MS = 15;
/** Vehicles whose outlooks are under way together: one more than the helping thread takes, so that neither waits. */
const LANES = 4;
/** How long it can be looked up what became of a file. */
const KEPT_MS = 90 * 86_400_000;
const UNFINISHED = ['receiving', 'checking', 'forecasting', 'writing'] as const;

/** The service is being closed: what is under way ends here. */
class Stopped extends Error {}
/** The vehicles have changed since the rows were checked, and now some are in error. */
class Refused extends Error {}

/** What the imports write with, over a connection of their own. */
interface OwnConnection {
  writer: LongWriter;
  parts: StoreParts;
}

interface Job {
  report: Import;
  stage: Stage;
  /** Lets other requests be answered when it is time. */
  breathe: () => Promise<void>;
}

/** What one kind of file needs: reading and checking it, and writing what it adds. */
interface Kind<Row> {
  take(job: Job, rows: Row[]): void;
  check(job: Job): Promise<void>;
  forecast(job: Job): Promise<void>;
  /** Within a transaction of the imports' own connection. */
  write(job: Job): Promise<void>;
}

/** @param ownParts of the imports' own connection */
type MakeKind<Row> = (parts: StoreParts, ownParts: () => StoreParts) => Kind<Row>;

export function importStore(
  parts: StoreParts,
  openOwn: () => OwnConnection,
): ImportStore & { close(): void } {
  const { database, clock, write } = parts;
  const byId = database
    .select()
    .from(imports)
    .where(eq(imports.id, sql.placeholder('id')))
    .prepare();
  const underWay = new Map<string, Import>();
  let own: OwnConnection | null = null;
  let stopping = false;
  let queue: Promise<unknown> = Promise.resolve();
  const ownConnection = (): OwnConnection => (own ??= openOwn());

  function save(report: Import, into = database): void {
    report.version += 1;
    into.update(imports).set({ state: report.state, body: report }).where(eq(imports.id, report.id)).run();
  }

  async function step(report: Import, changes: Partial<Import>): Promise<void> {
    Object.assign(report, changes);
    await write(() => save(report));
  }

  const finish = (report: Import, changes: Partial<Import>): Promise<void> =>
    step(report, { ...changes, finishedAt: clock().toISOString() });

  function breather(): () => Promise<void> {
    let since = performance.now();
    return async () => {
      if (stopping) throw new Stopped();
      if (performance.now() - since < STEP_MS) return;
      await setImmediate();
      since = performance.now();
    };
  }

  /** Writes all that a file adds, the outcome and the kept answer, in one transaction. */
  async function commit<Row>(kind: Kind<Row>, job: Job, keep: Keep<Import> | null): Promise<void> {
    const { report } = job;
    const { writer, parts: ownParts } = ownConnection();
    await writer.transaction(async () => {
      await kind.write(job);
      Object.assign(report, { state: 'done', finishedAt: clock().toISOString() });
      save(report, ownParts.database);
      noteWhatCame(ownParts, report);
      ownParts.outcomes.keep(keep, report);
    });
  }

  async function carryOut<Row>(
    kindOf: MakeKind<Row>,
    report: Import,
    pieces: AsyncIterable<FilePiece<Row>>,
    keep: Keep<Import> | null,
  ): Promise<void> {
    const stage = openStage();
    const kind = kindOf(parts, () => ownConnection().parts);
    const job: Job = { report, stage, breathe: breather() };
    const refuse = () =>
      finish(report, {
        state: 'refused',
        ...NOTHING_TAKEN,
        errorsTotal: stage.errorsTotal(),
        errors: stage.firstErrors(),
      });
    try {
      await step(report, { state: 'checking' });
      for await (const { rows, errors, unread } of pieces) {
        errors.forEach(stage.addError);
        kind.take(job, rows);
        report.rows += rows.length + unread;
        await job.breathe();
      }
      await kind.check(job);
      if (stage.errorsTotal() > 0) {
        await refuse();
        return;
      }
      if (report.dryRun) {
        await finish(report, { state: 'done' });
        return;
      }
      await step(report, { state: 'forecasting' });
      await kind.forecast(job);
      await step(report, { state: 'writing' });
      await commit(kind, job, keep);
    } catch (fault) {
      if (fault instanceof Refused) {
        await refuse();
        return;
      }
      const detail =
        fault instanceof Stopped
          ? 'the service was being closed'
          : fault instanceof Refusal
            ? fault.message
            : 'the service failed';
      await finish(report, { state: 'failed', ...NOTHING_TAKEN, detail: `${detail}; nothing was taken` });
      if (!(fault instanceof Stopped)) throw fault;
    } finally {
      stage.close();
    }
  }

  /** One file at a time, in the order in which they came in. */
  async function inTurn<Row>(
    kindOf: MakeKind<Row>,
    id: string,
    pieces: AsyncIterable<FilePiece<Row>>,
    keep: Keep<Import> | null,
  ): Promise<Import> {
    const report = byId.get({ id })!.body;
    underWay.set(id, report);
    const work = queue.then(() => carryOut(kindOf, report, pieces, keep));
    queue = work.catch(() => undefined);
    try {
      await work;
    } finally {
      underWay.delete(id);
    }
    return report;
  }

  return {
    async begin({ keyName: by }: KeyCaller, kind: ImportKind, { dryRun }) {
      const now = clock();
      const report: Import = {
        id: uuid(),
        version: 1,
        kind,
        dryRun,
        state: 'receiving',
        detail: null,
        by,
        rows: 0,
        vehicles: 0,
        vehiclesChecked: 0,
        vehiclesForecast: 0,
        ...NOTHING_TAKEN,
        errorsTotal: 0,
        errors: [],
        createdAt: now.toISOString(),
        finishedAt: null,
      };
      await write(() => {
        const expired = new Date(now.getTime() - KEPT_MS).toISOString();
        database.delete(imports).where(lt(imports.createdAt, expired)).run();
        const { id, state, createdAt } = report;
        database.insert(imports).values({ id, state, body: report, createdAt }).run();
      });
      return report;
    },

    async breakOff(id: string, detail: string) {
      await finish(byId.get({ id })!.body, { state: 'failed', detail });
    },

    async forget(id: string) {
      await write(() => database.delete(imports).where(eq(imports.id, id)).run());
    },

    visits: (id, pieces, keep) => inTurn(visitImport, id, pieces, keep),
    vehicles: (id, pieces, keep) => inTurn(vehicleImport, id, pieces, keep),

    async get(id: string) {
      const report = underWay.get(id) ?? byId.get({ id })?.body;
      if (!report) throw notFound('import');
      return { ...report };
    },

    async list({ limit, after }: Page): Promise<Paged<Import>> {
      const rows = database
        .select()
        .from(imports)
        .where(after ? lt(imports.seq, Number(after[0])) : undefined)
        .orderBy(desc(imports.seq))
        .limit(limit + 1)
        .all();
      const items = rows.slice(0, limit);
      return {
        items: items.map(({ id, body }) => ({ ...(underWay.get(id) ?? body) })),
        next: rows.length > limit ? [items.at(-1)!.seq] : null,
      };
    },

    async recover() {
      const left = database
        .select()
        .from(imports)
        .where(inArray(imports.state, [...UNFINISHED]))
        .all();
      for (const { body } of left) {
        const detail = 'the service ended before this was done; nothing was taken';
        await finish(body, { state: 'failed', ...NOTHING_TAKEN, detail });
      }
    },

    async stop() {
      stopping = true;
      await queue;
      stopping = false;
    },

    close: () => own?.writer.close(),
  };
}

/** One line in the audit that stays when the import itself can no longer be looked up; none where nothing came. */
function noteWhatCame({ versions }: StoreParts, report: Import): void {
  const { id, kind, rowsAdded, rowsSkipped, visitsAdded, visitsExtended } = report;
  if (rowsAdded + visitsExtended === 0) return;
  const detail =
    kind === 'vehicles'
      ? `${rowsAdded} vehicles recorded, ${rowsSkipped} known already`
      : `${visitsAdded} visits recorded, ${visitsExtended} added to, with ${rowsAdded} rows; ${rowsSkipped} rows known already`;
  versions.note(senderOf(report), {
    action: 'imported',
    resource: 'import',
    resourceId: id,
    detail,
  });
}

const NOTHING_TAKEN = {
  vehiclesWritten: 0,
  visitsAdded: 0,
  visitsExtended: 0,
  rowsAdded: 0,
  rowsSkipped: 0,
};

/** Visits: rows are gathered by vehicle, and each vehicle's are held against what is known of it. */
function visitImport(parts: StoreParts, ownParts: () => StoreParts): Kind<SheetRow> {
  const { clock, settings, experience, shareWork } = parts;
  const find = vehicleOfRow(vehicleNames(parts.database));
  const reader = vehicleStateReader(parts);

  function planFor(stage: Stage, { seq, row, visits }: VehicleState) {
    const rows = stage.rowsOf(seq);
    const { plan, errors } = planVehicle(row.body, visits(), rows, {
      gauges: settings().gauges,
      latestDate: latestDateAt(clock()),
      newId: uuid,
    });
    const adds = plan.visits.length + plan.entries.length > 0;
    return { plan, errors: adds && row.erasedAt !== null ? [...errors, erasedBefore(rows[0]!)] : errors };
  }

  return {
    take({ stage }, rows) {
      for (const row of rows) {
        const found = find(row);
        if (typeof found === 'number') stage.addRow(found, row);
        else stage.addError(found);
      }
    },

    async check({ report, stage, breathe }) {
      stage.stageWaiting();
      report.vehicles = stage.vehicleCount();
      for (const seq of stage.vehicles()) {
        const state = reader(seq);
        const { plan, errors } = planFor(stage, state);
        errors.forEach(stage.addError);
        report.vehiclesChecked += 1;
        report.rowsAdded += plan.rowsAdded;
        report.rowsSkipped += plan.rowsSkipped;
        report.visitsAdded += plan.visits.length;
        report.visitsExtended += plan.entries.length;
        const changes = plan.visits.length + plan.entries.length > 0;
        if (changes && !report.dryRun) stage.addPlan(seq, state.fingerprint, plan);
        await breathe();
      }
    },

    async forecast({ report, stage, breathe }) {
      const plans = stage.plans();
      const lane = async (): Promise<void> => {
        for (const seq of plans) {
          const { row, visits: known } = reader(seq);
          const after = { vehicle: row.body, visits: historyAfter(known(), stage.plan(seq).plan) };
          stage.addOutlook(seq, await shareWork(after, experience(), settings()));
          report.vehiclesForecast += 1;
          await breathe();
        }
      };
      // The stage is not closed before the last of them has ended.
      const ends = await Promise.allSettled(Array.from({ length: LANES }, lane));
      for (const end of ends) if (end.status === 'rejected') throw end.reason;
    },

    async write({ report, stage, breathe }) {
      const own = ownParts();
      const writer = planWriter(own, senderOf(report));
      for (const seq of stage.plans()) {
        const state = writer.state(seq);
        const staged = stage.plan(seq);
        if (staged.state === state.fingerprint) {
          writer.write(state, staged.plan, staged.worked!);
        } else {
          // Somebody has recorded something of this vehicle since: hold the rows against it once more.
          if (state.row.mergedInto !== null) {
            stage.addError(mergedMeanwhile(stage.rowsOf(seq)[0]!, state.row.mergedInto));
            throw new Refused();
          }
          const { plan, errors } = planFor(stage, state);
          errors.forEach(stage.addError);
          if (errors.length > 0) throw new Refused();
          report.rowsAdded += plan.rowsAdded - staged.plan.rowsAdded;
          report.rowsSkipped += plan.rowsSkipped - staged.plan.rowsSkipped;
          report.visitsAdded += plan.visits.length - staged.plan.visits.length;
          report.visitsExtended += plan.entries.length - staged.plan.entries.length;
          const after = { vehicle: state.row.body, visits: historyAfter(state.visits(), plan) };
          writer.write(state, plan, workOut(after, own.experience(), own.settings()));
        }
        report.vehiclesWritten += 1;
        await breathe();
      }
    },
  };
}

/** Who has sent a file: staff see every fleet. */
const senderOf = ({ by }: Import): Caller => ({ ...OPERATOR, keyName: by });

const mergedMeanwhile = ({ line }: SheetRow, into: string): RowError => ({
  line,
  column: 'vehicle',
  detail: `this vehicle was merged into vehicle ${into} while the file was being checked`,
  code: 'unknown-vehicle',
});

const erasedBefore = ({ line }: SheetRow): RowError => ({
  line,
  column: 'vehicle',
  detail: 'the personal data of this vehicle was erased, and nothing more is recorded of it',
  code: 'vehicle-erased',
});

/** Vehicles remembered by name while a file is read. */
const MOST_NAMES = 20_000;

/** Finds the vehicle that a row is about, or why it cannot be told. */
function vehicleOfRow(names: (name: string) => number[]): (row: SheetRow) => number | RowError {
  const known = new Map<string, number[]>();
  return ({ line, cells }) => {
    const { vehicle: name } = cells;
    const bearers = known.get(name) ?? names(name);
    if (known.size === MOST_NAMES) known.clear();
    known.set(name, bearers);
    const number = (cells.vehicleNumber ?? null) as number | null;
    const refuse = (column: string, code: string, detail: string): RowError => ({
      line,
      column,
      detail,
      code,
    });
    if (bearers.length === 0) {
      return refuse('vehicle', 'unknown-vehicle', `no vehicle has the externalId or registration ${name}`);
    }
    const several = `${bearers.length} vehicles are called ${name}`;
    if (number === null) {
      if (bearers.length === 1) return bearers[0]!;
      const detail = `${several}: give the externalId, or tell which in the column vehicleNumber`;
      return refuse('vehicle', 'ambiguous-vehicle', detail);
    }
    return bearers[number - 1] ?? refuse('vehicleNumber', 'unknown-vehicle', several);
  };
}

/** Carries plans out; its statements are of the imports' own connection. */
function planWriter(own: StoreParts, caller: Caller) {
  const recorder = visitRecorder(own);
  const visitById = own.database
    .select()
    .from(visits)
    .where(eq(visits.id, sql.placeholder('id')))
    .prepare();

  return {
    state: vehicleStateReader(own),
    write({ seq, row, visits: known }: VehicleState, plan: VehiclePlan, worked: WorkedOutlook): void {
      const before = plan.entries.length > 0 ? known() : [];
      for (const { visitId, entry } of plan.entries) {
        const visit = before.find(({ id }) => id === visitId)!;
        recorder.extend(caller, visitById.get({ id: visitId })!, visit, entry);
      }
      recorder.insertAll(caller, seq, plan.visits);
      own.recordOutlook(seq, row.body, worked, 'import');
    },
  };
}

/** Vehicles: those that the file tells of are held against those known by the same number, VIN or registration. */
function vehicleImport(parts: StoreParts, ownParts: () => StoreParts): Kind<VehicleLine> {
  const { experience, settings } = parts;
  const finder = knownVehicles(parts);

  /** Why a line adds nothing: an error, or null where its vehicle is known as it stands there. Undefined: it is new. */
  function known({ line, body }: VehicleLine, digest: string, stage: Stage): RowError | null | undefined {
    for (const name of namesOf(body)) {
      const recorded = finder(name);
      const earlier = stage.named(nameKey(name));
      const others = [...recorded.map((row) => digestOf(row.body)), ...earlier.map((other) => other.digest)];
      if (others.length === 0) continue;
      if (name.member === 'registration') {
        // Several vehicles may share one: those alike are matched one by one.
        const alike = recorded.filter((row) => digestOf(row.body) === digest).length;
        if (earlier.filter((other) => other.digest === digest).length < alike) return null;
        if (alike > 0 || recorded.length === 0) continue;
      } else if (others.every((other) => other === digest)) {
        return null;
      }
      const where = recorded[0] ? `vehicle ${recorded[0].id}` : `line ${earlier[0]!.line}`;
      const detail = `${where} has this ${name.member} with other content`;
      return { line, column: name.member, detail, code: 'conflict' };
    }
    return undefined;
  }

  return {
    take({ report, stage }, rows) {
      for (const row of rows) {
        const digest = digestOf(row.body);
        const found = known(row, digest, stage);
        if (found) stage.addError(found);
        else if (found === null) report.rowsSkipped += 1;
        else {
          stage.addVehicle(row);
          report.rowsAdded += 1;
        }
        for (const name of namesOf(row.body)) stage.addName(nameKey(name), row.line, digest);
        report.vehicles += 1;
        report.vehiclesChecked += 1;
      }
    },

    async check() {
      // Each vehicle stands for itself: all there is to check has been checked as it was read.
    },

    async forecast({ report, stage, breathe }) {
      for (const { line, body } of stage.newVehicles()) {
        stage.addVehicleOutlook(line, workOut({ vehicle: body, visits: [] }, experience(), settings()));
        report.vehiclesForecast += 1;
        await breathe();
      }
    },

    async write({ report, stage, breathe }) {
      const own = ownParts();
      const recorder = vehicleRecorder(own);
      for (const { line, body, worked } of stage.newVehicles()) {
        try {
          recorder.refuseDuplicate(body, null);
        } catch (fault) {
          if (!(fault instanceof Refusal)) throw fault;
          stage.addError({ line, column: null, detail: fault.message, code: 'conflict' });
          throw new Refused();
        }
        own.recordOutlook(recorder.insert(senderOf(report), body).seq, body, worked!, 'import');
        report.vehiclesWritten += 1;
        await breathe();
      }
    },
  };
}

interface VehicleName {
  member: 'externalId' | 'vin' | 'registration';
  value: string;
}

/** What tells a vehicle from others; a registration does so only where there is nothing better. */
function namesOf({ externalId, vin, registration }: VehicleBody): VehicleName[] {
  const names: VehicleName[] = [];
  if (externalId != null) names.push({ member: 'externalId', value: externalId });
  if (vin != null) names.push({ member: 'vin', value: vin });
  if (names.length === 0) names.push({ member: 'registration', value: registration! });
  return names;
}

const nameKey = ({ member, value }: VehicleName): string => `${member} ${value}`;

/** Finds the vehicles recorded under a name; under a registration, those that have no other. */
function knownVehicles({ database }: StoreParts): (name: VehicleName) => VehicleRow[] {
  const value = sql.placeholder('value');
  const standing = (named: SQL | undefined) =>
    database
      .select()
      .from(vehicles)
      .where(and(named, isNull(vehicles.mergedInto)))
      .prepare();
  const prepared = {
    externalId: standing(eq(vehicles.externalId, value)),
    vin: standing(eq(vehicles.vin, value)),
    registration: standing(
      and(
        eq(vehicles.registrationKey, sql.placeholder('key')),
        eq(vehicles.registration, value),
        isNull(vehicles.externalId),
        isNull(vehicles.vin),
      ),
    ),
  };
  return ({ member, value: wanted }) => prepared[member].all({ value: wanted, key: identifierKey(wanted) });
}
