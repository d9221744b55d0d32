import { eq, sql } from 'drizzle-orm';
import { v7 as uuid } from 'uuid';
import { latestDateAt } from '../../core/calendar.js';
import type { SheetRow } from '../../core/spreadsheet/cells.js';
import { historyAfter, planVehicle, type VehiclePlan } from '../../core/spreadsheet/plan.js';
import type { RowError } from '../../core/vocabulary/import.js';
import type { Caller } from '../contract/caller.js';
import { visits } from '../engine/sqlite/schema.js';
import type { Stage } from '../engine/sqlite/stage.js';
import { workOut, type WorkedOutlook } from '../outlooks/outlooks.js';
import { vehicleStateReader, type VehicleState } from '../outlooks/vehicleState.js';
import type { StoreParts } from '../parts.js';
import { vehicleNames } from '../vehicles/names.js';
import { visitRecorder } from '../visits/visits.js';
import { Refused, senderOf, type Kind } from './kind.js';

/** Vehicles computed concurrently: one more than the forecast worker takes, so that both threads stay busy. */
const LANES = 4;

/** Imports visits: groups rows by vehicle and compares each group with that vehicle's history. */
export function visitImport(parts: StoreParts, ownParts: () => StoreParts): Kind<SheetRow> {
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
      // Wait for all lanes before the stage is closed.
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
          // The vehicle has changed since: check its rows again.
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

const mergedMeanwhile = ({ line }: SheetRow, into: string): RowError => ({
  line,
  column: 'vehicle',
  detail: `this vehicle was merged into vehicle ${into} while the file was being checked`,
  code: 'unknown-vehicle',
});

const erasedBefore = ({ line }: SheetRow): RowError => ({
  line,
  column: 'vehicle',
  detail: 'the personal data of this vehicle was erased; no further visits can be recorded',
  code: 'vehicle-erased',
});

/** Maximum vehicle names cached while a file is read. */
const MAX_NAMES = 20_000;

/** Finds the vehicle that a row names, or says why it is ambiguous or missing. */
function vehicleOfRow(names: (name: string) => number[]): (row: SheetRow) => number | RowError {
  const known = new Map<string, number[]>();
  return ({ line, cells }) => {
    const { vehicle: name } = cells;
    const bearers = known.get(name) ?? names(name);
    if (known.size === MAX_NAMES) known.clear();
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
      const detail = `${several}: give the externalId, or number the vehicle in the column vehicleNumber`;
      return refuse('vehicle', 'ambiguous-vehicle', detail);
    }
    return bearers[number - 1] ?? refuse('vehicleNumber', 'unknown-vehicle', several);
  };
}

/** Carries out plans on the import connection. */
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
