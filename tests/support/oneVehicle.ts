import { afterAll, beforeAll } from 'vitest';
import { vehicleBody } from './bodies.js';
import { recordVehicle, type Recorded } from './recording.js';
import { startService, type Service } from './service.js';

/** A service with one vehicle, for all tests of a file that calls {@link serveOneVehicle}. */

export let service: Service;
export let vehicle: Recorded;

export function serveOneVehicle(): void {
  beforeAll(async () => {
    service = await startService();
    vehicle = await recordVehicle(service, vehicleBody());
  });
  afterAll(() => service.close());
}
