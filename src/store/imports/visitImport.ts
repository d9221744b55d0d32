import { v7 as uuid } from 'uuid';
import { latestDateAt } from '../../core/calendar.js';
import { itemAt, required } from '../../core/items.js';
import type { SheetRow } from '../../core/spreadsheet/cells.js';
import { ambiguousVehicle, noVehicleNamed, severalVehiclesNamed } from '../../core/spreadsheet/naming.js';
import { historyAfter, planVehicle, type VehiclePlan } from '../../core/spreadsheet/plan.js';
import type { Import, RowError } from '../../core/vocabulary/import.js';
import type { Caller } from '../contract/caller.js';
import { cached } from '../cached.js';
import { computeOutlook, type ComputedOutlook } from '../outlooks/outlooks.js';
import type { VehicleState } from '../outlooks/vehicleState.js';
import type { ReadingRules, Rules, StoreParts } from '../parts.js';
import { vehicleNames } from '../vehicles/names.js';
import { Refused, senderOf, type Job, type Kind } from './kind.js';

/** Vehicles computed concurrently: one more than the forecast worker takes, so that both threads stay busy. */
const LANES = 4;

/** Imports visits: groups rows by vehicle and compares each group with that vehicle's history. */
export function visitImport({ reading, clock, shareWork }: StoreParts): Kind<SheetRow> {
  const find = vehicleOfRow(vehicleNames(reading.rows));
  const latestDate = (): string => latestDateAt(clock());

  return {
    async take({ stage }, rows) {
      for (const row of rows) {
        const found = await find(row);
        if (typeof found === 'number') stage.addRow(found, row);
        else stage.addError(found);
      }
    },

    async check({ report, stage, yieldIfDue }) {
      stage.stageWaiting();
      report.vehicles = stage.vehicleCount();
      for (const seq of stage.vehicles()) {
        const state = await reading.stateOf(seq);
        const { plan, errors } = await planFor(reading, stage, state, latestDate());
        errors.forEach(stage.addError);
        report.vehiclesChecked += 1;
        addCounts(report, plan);
        const changes = plan.visits.length + plan.entries.length > 0;
        if (changes && !report.dryRun) stage.addPlan(seq, state.fingerprint, plan);
        await yieldIfDue();
      }
    },

    async forecast({ report, stage, yieldIfDue }) {
      const plans = stage.plans();
      const lane = async (): Promise<void> => {
        for (const seq of plans) {
          const { row, visits } = await reading.stateOf(seq);
          const after = { vehicle: row.body, visits: historyAfter(await visits(), stage.plan(seq).plan) };
          const worked = await shareWork(after, await reading.experience(), await reading.settings());
          stage.addOutlook(seq, worked);
          report.vehiclesForecast += 1;
          await yieldIfDue();
        }
      };
      // Wait for all lanes before the stage is closed.
      const ends = await Promise.allSettled(Array.from({ length: LANES }, lane));
      for (const end of ends) if (end.status === 'rejected') throw end.reason;
    },

    async write(own, { report, stage, yieldIfDue }) {
      for (const seq of stage.plans()) {
        const state = await own.stateOf(seq);
        const { plan, worked } = await currentPlan(own, { report, stage }, state, latestDate());
        await carryOut(own, senderOf(report), state, plan);
        await own.recordOutlook(seq, state.row.body, worked, 'import');
        report.vehiclesWritten += 1;
        await yieldIfDue();
      }
    },
  };
}

async function planFor(
  { settings }: ReadingRules,
  stage: Job['stage'],
  { seq, row, visits }: VehicleState,
  latestDate: string,
) {
  const rows = stage.rowsOf(seq);
  const { gauges } = await settings();
  const known = await visits();
  const { plan, errors } = planVehicle(row.body, known, rows, { gauges, latestDate, newId: uuid });
  const adds = plan.visits.length + plan.entries.length > 0;
  return {
    plan,
    errors: adds && row.erasedAt !== null ? [...errors, erasedBefore(itemAt(rows, 0))] : errors,
  };
}

/** @param sign −1 to subtract a plan's counts */
function addCounts(report: Import, plan: VehiclePlan, sign: 1 | -1 = 1): void {
  report.rowsAdded += sign * plan.rowsAdded;
  report.rowsSkipped += sign * plan.rowsSkipped;
  report.visitsAdded += sign * plan.visits.length;
  report.visitsExtended += sign * plan.entries.length;
}

/**
 * The plan for a vehicle and its outlook: as staged, or recomputed if the vehicle has changed since.
 *
 * @throws Refused if rows now have errors
 */
async function currentPlan(
  own: Rules,
  { report, stage }: Pick<Job, 'report' | 'stage'>,
  state: VehicleState,
  latestDate: string,
): Promise<{ plan: VehiclePlan; worked: ComputedOutlook }> {
  const { seq, row, fingerprint, visits } = state;
  const staged = stage.plan(seq);
  if (staged.state === fingerprint) return { plan: staged.plan, worked: staged.worked! };
  if (row.mergedInto !== null) {
    stage.addError(mergedMeanwhile(itemAt(stage.rowsOf(seq), 0), row.mergedInto));
    throw new Refused();
  }
  const { plan, errors } = await planFor(own, stage, state, latestDate);
  errors.forEach(stage.addError);
  if (errors.length > 0) throw new Refused();
  addCounts(report, staged.plan, -1);
  addCounts(report, plan);
  const after = { vehicle: row.body, visits: historyAfter(await visits(), plan) };
  return { plan, worked: computeOutlook(after, await own.experience(), await own.settings()) };
}

/** Writes what a plan adds to a vehicle. */
async function carryOut(
  { rows, recordVisit }: Rules,
  caller: Caller,
  { seq, visits }: VehicleState,
  plan: VehiclePlan,
): Promise<void> {
  const before = plan.entries.length > 0 ? await visits() : [];
  for (const { visitId, entry } of plan.entries) {
    const { visit } = required(await rows.visits.byId(visitId), 'visit');
    await recordVisit.extend(
      caller,
      visit,
      before.find(({ id }) => id === visitId)!,
      entry,
    );
  }
  await recordVisit.insertAll(caller, seq, plan.visits);
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
function vehicleOfRow(
  names: (name: string) => Promise<number[]>,
): (row: SheetRow) => Promise<number | RowError> {
  const bearersOf = cached(names, MAX_NAMES);
  return async ({ line, cells }) => {
    const { vehicle: name } = cells;
    const bearers = await bearersOf(name);
    const number = (cells.vehicleNumber ?? null) as number | null;
    const refuse = (column: string, code: string, detail: string): RowError => ({
      line,
      column,
      detail,
      code,
    });
    if (bearers.length === 0) {
      return refuse('vehicle', 'unknown-vehicle', noVehicleNamed(name));
    }
    if (number === null) {
      if (bearers.length === 1) return itemAt(bearers, 0);
      return refuse('vehicle', 'ambiguous-vehicle', ambiguousVehicle(bearers.length, name));
    }
    const detail = severalVehiclesNamed(bearers.length, name);
    return bearers[number - 1] ?? refuse('vehicleNumber', 'unknown-vehicle', detail);
  };
}
