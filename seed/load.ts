import { VehicleBody, type Vehicle } from '../src/core/vocabulary/vehicle.js';
import { VisitBody, type Visit } from '../src/core/vocabulary/visit.js';
import { OPERATOR } from '../src/store/contract/caller.js';
import type { Store } from '../src/store/contract/store.js';
import type { DemoVehicle } from './generate.js';

/** A stored vehicle, with its visits in the order in which they took place. */
export interface LoadedVehicle {
  vehicle: Vehicle;
  visits: Visit[];
}

/** The town is the same every time; only the dates move with the day. */
export const DEMO_SEED = 5;

type Writes = Pick<Store, 'vehicles' | 'visits'>;

/**
 * Records a generated fleet through the operations behind the API's POSTs, so that it contains nothing that a caller
 * could not have sent.
 *
 * @throws ZodError or Refusal at the first vehicle or visit that is not valid
 */
export async function loadDemo(store: Writes, demo: readonly DemoVehicle[]): Promise<LoadedVehicle[]> {
  const loaded: LoadedVehicle[] = [];
  for (const vehicle of demo) loaded.push(await loadVehicle(store, vehicle));
  return loaded;
}

async function loadVehicle(store: Writes, demo: DemoVehicle): Promise<LoadedVehicle> {
  const vehicle = await store.vehicles.create(OPERATOR, VehicleBody.parse(demo.vehicle), null);
  const visits: Visit[] = [];
  for (const body of demo.visits) {
    const { visit } = await store.visits.record(OPERATOR, vehicle.id, VisitBody.parse(body), null);
    visits.push(visit);
  }
  return { vehicle, visits };
}
