import type { SheetRow } from '../../../core/spreadsheet/cells.js';
import type { VehiclePlan } from '../../../core/spreadsheet/plan.js';
import type { RowError } from '../../../core/vocabulary/import.js';
import type { VehicleLine } from '../../contract/imports.js';

/** The writes planned for one vehicle, and the vehicle's state they were planned for. */
export interface StagedPlan<Outlook> {
  state: string;
  plan: VehiclePlan;
  worked: Outlook | null;
}

/**
 * Stages one file's rows until all are checked, so that no file fills the memory. Not asynchronous, because each stage
 * belongs to one process.
 */
export interface Stage<Outlook> {
  addRow(vehicleSeq: number, row: SheetRow): void;
  /** Call this after the last row. */
  stageWaiting(): void;
  vehicles(): Generator<number>;
  vehicleCount(): number;
  rowsOf(vehicleSeq: number): SheetRow[];
  addPlan(vehicleSeq: number, state: string, plan: VehiclePlan): void;
  plans(): Generator<number>;
  plan(vehicleSeq: number): StagedPlan<Outlook>;
  addOutlook(vehicleSeq: number, worked: Outlook): void;
  addVehicle(line: VehicleLine): void;
  addVehicleOutlook(line: number, worked: Outlook): void;
  newVehicles(): Generator<VehicleLine & { worked: Outlook | null }>;
  /** Records a vehicle of the file, new or not, under a name that identifies it. */
  addName(name: string, line: number, digest: string): void;
  named(name: string): { line: number; digest: string }[];
  addError(error: RowError): void;
  errorsTotal(): number;
  firstErrors(): RowError[];
  close(): void;
}
