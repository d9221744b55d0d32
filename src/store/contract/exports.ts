import type { SheetName } from '../../core/spreadsheet/rows.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { Visit } from '../../core/vocabulary/visit.js';

/** All data in the order in which it was recorded, page by page. */
export interface ExportStore {
  vehicles(): AsyncIterable<VehicleBody[]>;
  /** Visits, with the names that identify their vehicles in a spreadsheet. */
  visits(): AsyncIterable<{ visit: Visit; name: SheetName; number: number | null }[]>;
}
