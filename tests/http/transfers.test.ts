import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { VisitVersion, VehicleVersion } from '../../src/core/vocabulary/records.js';
import type { Visit } from '../../src/core/vocabulary/visit.js';
import { fourPads, vehicleBody, visitBody } from '../support/bodies.js';
import { recordVehicle, recordVisit, type Recorded } from '../support/recording.js';
import { FLEET, startService, type Service } from '../support/service.js';

/** A vehicle of another fleet with two visits, which moves to the fleet manager's fleet and has one more visit. */
let service: Service;
let vehicle: Recorded;
let before: string;
let voided: string;
let after: string;

const PRIVATE = {
  technician: 'Private technician',
  shop: 'Private shop',
  complaint: 'private complaint',
  notes: 'private notes',
  conditions: [{ part: 'rotor', axle: 'front', side: 'left', state: 'scored', notes: 'private condition' }],
  work: [{ kind: 'slides-serviced', axle: 'front', side: 'left', notes: 'private work' }],
  roadTest: { pulls: 'none', pulsation: false, noise: false, notes: 'private road test' },
};

beforeAll(async () => {
  service = await startService();
  vehicle = await recordVehicle(
    service,
    vehicleBody({ fleet: 'private-fleet', description: 'private description' }),
  );
  const visit = { ...visitBody('2026-02-01', 60_000, fourPads([7, 7, 7, 7])), ...PRIVATE };
  before = (await recordVisit(service, vehicle.id, visit)).id;
  const second = await recordVisit(service, vehicle.id, { ...visitBody('2026-02-02', null), ...PRIVATE });
  voided = second.id;
  await service
    .as('owner', 'post', `/v1/visits/${voided}/corrections`)
    .set('If-Match', '*')
    .send({ reason: 'private reason', void: true });
  service.setClock('2026-03-05T09:00:00Z');
  await service
    .as('technician', 'patch', `/v1/vehicles/${vehicle.id}`)
    .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
    .send({ fleet: FLEET, description: 'own description' });
  after = (
    await recordVisit(service, vehicle.id, {
      ...visitBody('2026-03-05', 61_000, fourPads([6, 6, 6, 6])),
      technician: 'T4',
      notes: 'own notes',
    })
  ).id;
});
afterAll(() => service.close());

const manager = async <Answer>(path: string): Promise<Answer> =>
  (await service.as('fleet-manager', 'get', path)).body as Answer;
const pathsOf = () => [
  `/v1/vehicles/${vehicle.id}`,
  `/v1/vehicles/${vehicle.id}/history`,
  `/v1/vehicles/${vehicle.id}/visits?includeVoided=true`,
  ...[before, voided, after].flatMap((id) => [
    `/v1/visits/${id}`,
    `/v1/visits/${id}/history`,
    `/v1/visits/${id}/open-points`,
  ]),
  `/v1/vehicles/${vehicle.id}/wear`,
];
const setPolicy = async (beforeTransfer: object) => {
  const response = await service
    .as('owner', 'put', '/v1/policy')
    .set('If-Match', '*')
    .send({ beforeTransfer });
  expect(response.status).toBe(200);
};

describe('a vehicle that came from another fleet', () => {
  it('the new fleet manager sees the earlier readings, and no notes, names or fleets', async () => {
    for (const path of pathsOf()) {
      const { status, text } = await service.as('fleet-manager', 'get', path);
      expect([path, status, /.{0,80}private.{0,80}/i.exec(text)?.[0]]).toEqual([path, 200, undefined]);
    }
    const visit = await manager<Visit>(`/v1/visits/${before}`);
    expect(visit.readings).toHaveLength(4);
    expect(visit).toMatchObject({ odometer: { value: 60_000 }, technician: null, shop: null, notes: null });
    expect(visit.conditions).toMatchObject([{ state: 'scored', notes: null }]);
    const versions = await manager<{ items: VisitVersion[] }>(`/v1/visits/${before}/history`);
    expect(versions.items).toMatchObject([{ by: null, body: { technician: null } }]);
  });

  it('the new fleet manager sees everything since, and the names of the own fleet', async () => {
    expect(await manager<Visit>(`/v1/visits/${after}`)).toMatchObject({
      technician: 'T4',
      notes: 'own notes',
    });
    const { items } = await manager<{ items: VehicleVersion[] }>(`/v1/vehicles/${vehicle.id}/history`);
    expect(items.map(({ by, body }) => [by, body.fleet, body.description])).toEqual([
      [null, null, null],
      ['technician', FLEET, 'own description'],
    ]);
  });

  it('a caller who sees the whole shop sees everything', async () => {
    const { text } = await service.as('technician', 'get', `/v1/visits/${before}`);
    for (const value of ['Private technician', 'private notes', 'private road test', 'private work'])
      expect(text).toContain(value);
  });

  it('the new fleet manager sees what the policy allows', async () => {
    await setPolicy({ notes: true, names: true, fleets: true });
    const texts = await Promise.all(
      pathsOf().map(async (path) => (await service.as('fleet-manager', 'get', path)).text),
    );
    for (const value of ['Private technician', 'private reason', 'private-fleet', 'private description'])
      expect(texts.join('\n')).toContain(value);
  });

  it('the policy can hide the earlier visits themselves; the forecast still uses them', async () => {
    await setPolicy({ readings: false });
    for (const path of ['', '/history', '/open-points'])
      expect((await service.as('fleet-manager', 'get', `/v1/visits/${before}${path}`)).status).toBe(404);
    const visits = await manager<{ items: Visit[] }>(`/v1/vehicles/${vehicle.id}/visits?includeVoided=true`);
    expect(visits.items.map(({ id }) => id)).toEqual([after]);
    const wear = (role: 'owner' | 'fleet-manager') =>
      service.as(role, 'get', `/v1/vehicles/${vehicle.id}/wear`);
    expect((await wear('fleet-manager')).body.axles[0].pads).toEqual(
      (await wear('owner')).body.axles[0].pads,
    );
  });

  it('nothing is hidden if the vehicle was in no fleet before', async () => {
    const fresh = await recordVehicle(service, vehicleBody({ fleet: null }));
    const visit = await recordVisit(service, fresh.id, { ...visitBody('2026-03-01', null), notes: 'kept' });
    await service
      .as('technician', 'patch', `/v1/vehicles/${fresh.id}`)
      .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
      .send({ fleet: FLEET });
    expect(await manager<Visit>(`/v1/visits/${visit.id}`)).toMatchObject({ notes: 'kept' });
  });
});
