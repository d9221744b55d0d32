import jsonMergePatch from 'json-merge-patch';
import type { History } from '../../core/history.js';
import { identifierKey } from '../../core/identifiers.js';
import { invalid } from '../../core/refusal.js';
import type { Vehicle } from '../../core/vocabulary/vehicle.js';
import { fleetsSeen, maySee, type Caller } from '../contract/caller.js';
import { refuseStale, type Expected } from '../contract/expected.js';
import type { Page, Paged } from '../contract/paging.js';
import type { VehicleChange, VehicleFilter, VehicleStore } from '../contract/vehicles.js';
import type { VehicleSelection } from '../engine/contract/vehicles.js';
import { pageOf, placeAfter, rowsFor } from '../paging.js';
import type { Rules, StoreParts } from '../parts.js';
import { toVehicle } from './answer.js';
import { historyIssues } from './changes.js';
import { nameKeys } from './names.js';

/** How many of the latest visits are searched for recently seen vehicles. */
const RECENT_VISITS = 2000;

export function vehicleStore({ reading, write, today }: StoreParts): VehicleStore {
  const { vehicles } = reading.rows;

  return {
    async create(caller, body, keep) {
      return write(async (own) => {
        await own.recordVehicle.refuseDuplicate(body, null);
        const row = await own.recordVehicle.insert(caller, body);
        await own.writeOutlook(row.seq, { vehicle: body, visits: [] });
        const vehicle = await withPlateWarning(own, caller, toVehicle(row));
        await own.outcomes.keep(keep, vehicle);
        return vehicle;
      });
    },

    async get(caller, id) {
      return toVehicle(await reading.findVehicle.record(caller, id));
    },

    async list(caller: Caller, filter: VehicleFilter, page: Page): Promise<Paged<Vehicle>> {
      const selection = selectionOf(caller, filter, today());
      const rows = selection ? await vehicles.list(selection, placeAfter(page), rowsFor(page)) : [];
      return pageOf(rows, page, toVehicle, ({ seq }) => [seq]);
    },

    async fleets(caller) {
      return [...(caller.fleets ?? (await vehicles.fleets(null)))].sort();
    },

    async recent(caller, max) {
      const rows = await vehicles.ofLatestVisits(caller.fleets, RECENT_VISITS, max * 4);
      const latest = new Map(rows.toReversed().map((row) => [row.vehicle.seq, row]));
      return [...latest.values()]
        .sort((a, b) => (a.date < b.date ? 1 : -1))
        .slice(0, max)
        .map(({ vehicle, date }) => ({ vehicle: toVehicle(vehicle), date }));
    },

    async search(caller, text, max) {
      const selection = selectionOf(caller, { find: text, includeOutOfService: true }, today());
      return selection ? (await vehicles.list(selection, 0, max)).map(toVehicle) : [];
    },

    change: (caller, id, expected, change) =>
      write((own) => changeVehicle(own, caller, id, expected, change)),
  };
}

/** Which vehicles a filter selects; null if none can match, since its text has no letters or digits. */
function selectionOf(
  caller: Caller,
  { find, registration, vin, externalId, fleet, model, includeOutOfService }: VehicleFilter,
  today: string,
): VehicleSelection | null {
  const searchKeyPart = find === undefined ? undefined : identifierKey(find);
  if (searchKeyPart === '') return null;
  return {
    fleets: fleetsSeen(caller, fleet ?? null),
    registrationKey: registration === undefined ? undefined : identifierKey(registration),
    searchKeyPart,
    vin: vin === undefined ? undefined : identifierKey(vin),
    externalId,
    model,
    inServiceOn: includeOutOfService ? undefined : today,
  };
}

async function changeVehicle(
  own: Rules,
  caller: Caller,
  id: string,
  expected: Expected,
  { patch, effectiveFrom, read }: VehicleChange,
): Promise<Vehicle> {
  const row = await own.findVehicle.open(caller, id);
  refuseStale(expected, row.version);
  const body = read(jsonMergePatch.apply(structuredClone(row.body), patch));
  await own.recordVehicle.refuseDuplicate(body, row.seq);
  const history: History = { vehicle: body, visits: await own.history.visitsOf(row.seq, row.id) };
  const issues = historyIssues(history, row.body);
  if (issues.length > 0) throw invalid(issues);
  const next = { body, ...nameKeys(body), version: row.version + 1, updatedAt: own.clock().toISOString() };
  await own.rows.vehicles.update(row.seq, next);
  await own.versions.vehicle(caller, {
    id,
    vehicleSeq: row.seq,
    version: next.version,
    kind: 'changed',
    at: next.updatedAt,
    body,
    patch,
    effectiveFrom: effectiveFrom ?? own.today(),
  });
  await own.writeOutlook(row.seq, history);
  return withPlateWarning(own, caller, toVehicle({ ...row, ...next }));
}

/**
 * Names the first other vehicle with the same registration: plates move between vehicles, so this is only a warning.
 */
async function withPlateWarning({ rows }: Rules, caller: Caller, vehicle: Vehicle): Promise<Vehicle> {
  const { registrationKey: key } = nameKeys(vehicle);
  if (key === null) return vehicle;
  const alike = await rows.vehicles.byRegistrationKey(key);
  const other = alike.find((row) => row.id !== vehicle.id && maySee(caller, row.fleet));
  if (!other) return vehicle;
  const detail = `vehicle ${other.id} also has the registration ${other.registration}; if it is the same vehicle, merge the two records`;
  const warning = { code: 'registration-known', detail, pointer: '#/registration' };
  return { ...vehicle, warnings: [...vehicle.warnings, warning] };
}
