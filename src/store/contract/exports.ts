import type { SheetName } from '../../core/spreadsheet/rows.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { Visit } from '../../core/vocabulary/visit.js';

/** Everything in the order in which it was recorded, a page at a time. */
export interface ExportStore {
  vehicles(): AsyncIterable<VehicleBody[]>;
  /** Visits with the names that a spreadsheet tells them apart by. */
  visits(): AsyncIterable<{ visit: Visit; name: SheetName; number: number | null }[]>;
}
