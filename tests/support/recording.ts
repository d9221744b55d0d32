import assert from 'node:assert/strict';
import type { Role } from '../../src/core/vocabulary/terms.js';
import type { Body } from './bodies.js';
import type { Service } from './service.js';

/** Records through the service what a test needs first, and reads answers. */

export interface Recorded extends Body {
  id: string;
  version: number;
}

export async function recordVehicle(service: Service, body: Body): Promise<Recorded> {
  const response = await service.as('technician', 'post', '/v1/vehicles').send(body);
  assert.equal(response.status, 201, response.text);
  return response.body as Recorded;
}

export async function recordVisit(service: Service, vehicleId: string, body: Body): Promise<Recorded> {
  const response = await service.as('technician', 'post', `/v1/vehicles/${vehicleId}/visits`).send(body);
  assert.equal(response.status, 201, response.text);
  return response.body as Recorded;
}

/** A vehicle with its visits, recorded in the order given. */
export async function recordHistory(service: Service, vehicle: Body, visits: Body[]): Promise<Recorded> {
  const recorded = await recordVehicle(service, vehicle);
  for (const visit of visits) await recordVisit(service, recorded.id, visit);
  return recorded;
}

/** A correction of the current version, or of any version; the test checks the answer. */
export function correct(
  service: Service,
  visitId: string,
  correction: Body,
  { role = 'front-desk', ifMatch = '*' }: { role?: Role; ifMatch?: string } = {},
) {
  return service
    .as(role, 'post', `/v1/visits/${visitId}/corrections`)
    .set('If-Match', ifMatch)
    .send(correction);
}

/** @throws when the answer is not 200 */
export async function setVoided(service: Service, visitId: string, voided: boolean): Promise<Recorded> {
  const correction = { reason: 'recorded on the wrong van', void: voided };
  const response = await correct(service, visitId, correction, { role: 'owner' });
  assert.equal(response.status, 200, response.text);
  return response.body as Recorded;
}

/** @throws when the answer is not 200 */
export async function read<Answer>(service: Service, path: string): Promise<Answer> {
  const response = await service.as('technician', 'get', path);
  assert.equal(response.status, 200, response.text);
  return response.body as Answer;
}
