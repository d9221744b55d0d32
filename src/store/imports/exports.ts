import { setImmediate } from 'node:timers/promises';
import { entryOf, itemAt } from '../../core/items.js';
import type { SheetName } from '../../core/spreadsheet/rows.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { ExportStore } from '../contract/exports.js';
import type { StoreParts } from '../parts.js';
import { vehicleNames } from '../vehicles/names.js';
import type { StoredVisit } from '../visits/history.js';

const PAGE = 100;

export function exportStore({ reading }: StoreParts): ExportStore {
  const names = vehicleNames(reading.rows);
  const page = (after: number) => reading.rows.vehicles.list({ fleets: null }, after, PAGE);

  async function* pages() {
    for (let rows = await page(0); rows.length > 0; rows = await page(itemAt(rows, -1).seq)) {
      yield rows;
      await setImmediate();
    }
  }

  async function nameOf(seq: number, { externalId, registration, vin }: VehicleBody): Promise<SheetName> {
    const vehicle = (externalId ?? registration ?? vin)!;
    const bearers = await names(vehicle);
    return { vehicle, number: bearers.length > 1 ? bearers.indexOf(seq) + 1 : null };
  }

  return {
    async *vehicles() {
      for await (const rows of pages()) yield rows.map(({ body }) => body);
    },

    async *visits() {
      for await (const rows of pages()) {
        for (const { seq, id, body } of rows) {
          const name = await nameOf(seq, body);
          const visits = await reading.history.visitsOf(seq, id);
          yield numbered(visits).map((visit) => ({ ...visit, name }));
          await setImmediate();
        }
      }
    },
  };
}

/** A vehicle's visits in order of arrival; several of the same day and work order are numbered. */
function numbered(visits: StoredVisit[]): { visit: StoredVisit; number: number | null }[] {
  const inArrival = [...visits].sort((a, b) => a.arrival - b.arrival);
  const keyOf = ({ date, workOrder }: StoredVisit): string => `${date}|${workOrder ?? ''}`;
  const totals = new Map<string, number>();
  for (const visit of inArrival) totals.set(keyOf(visit), (totals.get(keyOf(visit)) ?? 0) + 1);
  const counts = new Map<string, number>();
  return inArrival.map((visit) => {
    const key = keyOf(visit);
    const number = (counts.get(key) ?? 0) + 1;
    counts.set(key, number);
    return { visit, number: entryOf(totals, key) > 1 ? number : null };
  });
}
