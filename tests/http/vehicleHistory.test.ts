import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { VehicleVersion, VisitVersion } from '../../src/core/vocabulary/records.js';
import type { Vehicle } from '../../src/core/vocabulary/vehicle.js';
import type { Visit } from '../../src/core/vocabulary/visit.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { axleWith, fourPads, km, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { correct, read, recordVehicle, recordVisit, setVoided, type Recorded } from '../support/recording.js';
import { FLEET, startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const change = (vehicleId: string, patch: Body, query = '') =>
  service
    .as('front-desk', 'patch', `/v1/vehicles/${vehicleId}${query}`)
    .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
    .send(JSON.stringify(patch));
const merge = (into: string, from: string, ifMatch = '*') =>
  service
    .as('owner', 'post', `/v1/vehicles/${into}/merge`)
    .set('If-Match', ifMatch)
    .send({ from, reason: 'recorded twice' });
const historyOf = async (vehicleId: string) =>
  (await read<{ items: VehicleVersion[] }>(service, `/v1/vehicles/${vehicleId}/history`)).items;
const wearOf = (vehicleId: string, query = '') =>
  read<Wear>(service, `/v1/vehicles/${vehicleId}/wear${query}`);
const limitOn = async (vehicleId: string, date: string) =>
  (await wearOf(vehicleId, `?asOf=${date}`)).axles[0]!.replacement.limitMm;
const limit = (value: number) => ({ axles: { front: { pad: { limit: { value, unit: 'mm' } } } } });

describe('the history of a vehicle', () => {
  it('the history of a vehicle has every version with its content, who wrote it and when', async () => {
    const sent = vehicleBody();
    const { id } = await recordVehicle(service, sent);
    service.setClock('2026-03-11T08:30:00Z');
    await change(id, { fleet: 'south' });
    service.setClock('2026-03-10T12:00:00Z');
    const [first, second, ...rest] = await historyOf(id);
    expect(rest).toEqual([]);
    expect(first).toMatchObject({ version: 1, kind: 'recorded', by: 'technician', body: sent });
    expect(second).toMatchObject({
      version: 2,
      kind: 'changed',
      by: 'front-desk',
      at: '2026-03-11T08:30:00.000Z',
      effectiveFrom: '2026-03-11',
      body: { ...sent, fleet: 'south' },
    });
  });
});

describe('a change to a vehicle', () => {
  let vehicleId: string;
  beforeAll(async () => {
    ({ id: vehicleId } = await recordVehicle(service, vehicleBody({ axles: { front: axleWith(11, 2) } })));
    await recordVisit(service, vehicleId, visitBody('2025-06-01', 30_000, fourPads([7, 7, 7, 7])));
    await recordVisit(service, vehicleId, visitBody('2026-01-15', 55_000, fourPads([5, 5, 5, 5])));
  });

  it('a change to a vehicle leaves answers as of an earlier date unchanged', async () => {
    const before = await wearOf(vehicleId, '?asOf=2026-02-01');
    expect((await change(vehicleId, limit(3))).status).toBe(200);
    expect((await wearOf(vehicleId)).axles[0]!.replacement.limitMm).toBe(3);
    expect(await limitOn(vehicleId, '2026-03-10')).toBe(3);
    expect(await wearOf(vehicleId, '?asOf=2026-02-01')).toEqual(before);
  });

  it('a change with effectiveFrom applies to earlier dates, and other changes do not', async () => {
    const corrected = await change(
      vehicleId,
      { axles: { front: { pad: { new: { value: 12, unit: 'mm' } } } } },
      '?effectiveFrom=2023-05-04',
    );
    expect(corrected.status).toBe(200);
    expect((await historyOf(vehicleId)).at(-1)).toMatchObject({ effectiveFrom: '2023-05-04' });
    // The limit of the earlier change still applied only from that change's own date.
    expect(await limitOn(vehicleId, '2026-02-01')).toBe(2);
    const fresh = await recordVehicle(service, vehicleBody({ axles: { front: axleWith(12, 2) } }));
    await recordVisit(service, fresh.id, visitBody('2025-06-01', 30_000, fourPads([7, 7, 7, 7])));
    const asOf = '?asOf=2026-01-14';
    expect((await wearOf(vehicleId, asOf)).axles).toEqual((await wearOf(fresh.id, asOf)).axles);
  });

  it.each(['2026-03-11', '2026-02-30', 'yesterday'])(
    'a change to a vehicle cannot take effect from %s',
    async (date) => {
      const before = await service.rowCounts();
      const response = await change(vehicleId, limit(4), `?effectiveFrom=${date}`);
      expect(response.status).toBe(400);
      expect(response.body.errors).toEqual([expect.objectContaining({ parameter: 'effectiveFrom' })]);
      expect(await service.rowCounts()).toEqual(before);
    },
  );
});

describe('a vehicle out of service', () => {
  it('a vehicle out of service stays readable, with its history, visits and wear', async () => {
    const { id } = await recordVehicle(service, vehicleBody());
    await recordVisit(service, id, visitBody('2026-01-15', 55_000, fourPads([3, 3, 3, 3])));
    const due = async () =>
      (await read<{ items: Body[] }>(service, '/v1/reports/due-soon?limit=200')).items.filter(
        (item) => item.vehicleId === id,
      ).length;
    const listed = async (query = '') =>
      (await read<{ items: Body[] }>(service, `/v1/vehicles?limit=200${query}`)).items.some(
        (item) => item.id === id,
      );
    expect([await due(), await listed()]).toEqual([1, true]);
    await change(id, { outOfService: { date: '2026-03-01', reason: 'sold' } });
    expect([await due(), await listed(), await listed('&includeOutOfService=true')]).toEqual([
      0,
      false,
      true,
    ]);
    for (const path of ['', '/history', '/visits', '/wear'])
      expect((await service.as('technician', 'get', `/v1/vehicles/${id}${path}`)).status).toBe(200);
  });
});

/** Two records of one van: the one to keep, with its first visit, and the other with a later one. */
async function twoRecords(changes: Body = {}, otherChanges: Body = {}) {
  const into = await recordVehicle(service, vehicleBody(changes));
  const other = await recordVehicle(service, vehicleBody(otherChanges));
  const first = visitBody('2025-06-01', 30_000, fourPads([7, 7, 7, 7]), { workOrder: 'WO-1' });
  const second = visitBody('2026-01-15', 55_000, fourPads([4, 4, 4, 4]), { workOrder: 'WO-2' });
  return {
    into,
    other,
    visits: [
      await recordVisit(service, into.id, first),
      await recordVisit(service, other.id, second),
    ] as const,
    bodies: [first, second],
  };
}

describe('merging two records of one vehicle', () => {
  it('merging moves the visits, and the answer is that of one vehicle with all of them', async () => {
    const { into, other, visits, bodies } = await twoRecords();
    const whole = await recordVehicle(service, vehicleBody());
    for (const body of bodies) await recordVisit(service, whole.id, body);
    const response = await merge(into.id, other.id, '"v1"');
    expect([response.status, response.headers.etag, response.body.id]).toEqual([200, '"v2"', into.id]);
    const { items } = await read<{ items: Visit[] }>(service, `/v1/vehicles/${into.id}/visits`);
    expect(items.map(({ id, vehicleId }) => [id, vehicleId])).toEqual([
      [visits[1].id, into.id],
      [visits[0].id, into.id],
    ]);
    expect({ ...(await wearOf(into.id)), vehicleId: whole.id }).toEqual(await wearOf(whole.id));
    const moved = await read<Visit>(service, `/v1/visits/${visits[1].id}`);
    expect(moved).toMatchObject({ vehicleId: into.id, version: 2, readings: fourPads([4, 4, 4, 4]) });
    const history = await read<{ items: VisitVersion[] }>(service, `/v1/visits/${visits[1].id}/history`);
    expect(history.items.map(({ kind, vehicleId, reason }) => [kind, vehicleId, reason])).toEqual([
      ['recorded', other.id, null],
      ['moved', into.id, 'recorded twice'],
    ]);
  });

  it('the merged record stays readable, and leaves lists and reports', async () => {
    const { into, other } = await twoRecords({ fleet: FLEET }, { fleet: FLEET });
    await merge(into.id, other.id);
    const gone = await read<Vehicle>(service, `/v1/vehicles/${other.id}`);
    expect(gone).toMatchObject({
      id: other.id,
      version: 2,
      mergedInto: into.id,
      externalId: other.externalId,
    });
    expect((await read<Vehicle>(service, `/v1/vehicles/${into.id}`)).mergedInto).toBeNull();
    expect((await historyOf(other.id)).at(-1)).toMatchObject({ kind: 'merged-into', mergedWith: into.id });
    expect((await historyOf(into.id)).at(-1)).toMatchObject({
      kind: 'merged',
      mergedWith: other.id,
      by: 'owner',
    });
    const idsIn = async (path: string) =>
      (await read<{ items: { id?: string; vehicleId?: string }[] }>(service, path)).items.map(
        ({ id, vehicleId }) => id ?? vehicleId,
      );
    for (const path of [
      '/v1/vehicles?limit=200&includeOutOfService=true',
      `/v1/vehicles?externalId=${String(other.externalId)}`,
      '/v1/reports/due-soon?withinDays=3650&chance=0&limit=200',
      '/v1/reports/unassessed?limit=200',
    ]) {
      expect([path, (await idsIn(path)).includes(other.id)]).toEqual([path, false]);
    }
    // A fit recomputes every outlook; the merged record gets no outlook.
    await service.store.experience.refit();
    expect(await idsIn('/v1/reports/unassessed?limit=200')).not.toContain(other.id);
    const asked = [
      service.as('technician', 'get', `/v1/vehicles/${other.id}/wear`),
      service.as('technician', 'get', `/v1/vehicles/${other.id}/wear?asOf=2026-03-01`),
      service.as('technician', 'get', `/v1/vehicles/${other.id}/visits`),
      service.as('technician', 'post', `/v1/vehicles/${other.id}/visits`).send({ date: '2026-03-02' }),
      change(other.id, { description: 'x' }),
    ];
    for (const response of await Promise.all(asked))
      expect([response.status, response.body.vehicleId]).toEqual([404, into.id]);
  });

  it('merging fills in missing identifiers, and the others stay', async () => {
    const vin = '11111111111111111';
    const { into, other } = await twoRecords(
      { externalId: 'MERGE-1', vin: null, fleet: 'a' },
      { vin, fleet: 'b' },
    );
    const { body } = await merge(into.id, other.id);
    expect(body).toMatchObject({ externalId: 'MERGE-1', vin, registration: into.registration, fleet: 'a' });
    const found = await read<{ items: Vehicle[] }>(service, `/v1/vehicles?vin=${vin}`);
    expect(found.items.map(({ id }) => id)).toEqual([into.id]);
    const twin = await service.as('technician', 'post', '/v1/vehicles').send(vehicleBody({ vin }));
    expect([twin.status, twin.body.vehicleId]).toEqual([409, into.id]);
    expect((await recordVehicle(service, vehicleBody({ externalId: other.externalId }))).id).toBeTruthy();
  });

  it('a caller who sees the vehicle sees the merged record, and no one else does', async () => {
    const { into, other } = await twoRecords({ fleet: 'south' }, { fleet: FLEET });
    const see = () => service.as('fleet-manager', 'get', `/v1/vehicles/${other.id}`);
    expect((await see()).status).toBe(200);
    await merge(into.id, other.id);
    for (const path of ['', '/wear', '/history']) {
      const response = await service.as('fleet-manager', 'get', `/v1/vehicles/${other.id}${path}`);
      expect([path, response.status, response.body.vehicleId]).toEqual([path, 404, undefined]);
    }
    await change(into.id, { fleet: FLEET });
    expect((await see()).body.mergedInto).toBe(into.id);
  });

  it('work orders on both records are listed, and nothing moves', async () => {
    const { into, other, visits } = await twoRecords();
    const clash = await recordVisit(service, other.id, { date: '2025-07-01', workOrder: 'WO-1' });
    const before = await service.rowCounts();
    const response = await merge(into.id, other.id);
    expect([response.status, response.body.code]).toEqual([409, 'work-orders-collide']);
    expect(response.body.errors).toHaveLength(1);
    expect(response.body.errors[0].detail).toContain(visits[0].id);
    expect(response.body.errors[0].detail).toContain(clash.id);
    expect(await service.rowCounts()).toEqual(before);
    await setVoided(service, clash.id, true);
    expect((await merge(into.id, other.id)).status).toBe(200);
    const { items } = await read<{ items: Visit[] }>(
      service,
      `/v1/vehicles/${into.id}/visits?includeVoided=true`,
    );
    expect(items).toHaveLength(3);
  });

  it('impossible odometer readings, dates and axles are listed, and nothing moves', async () => {
    const { into, other } = await twoRecords(
      {},
      { inService: null, axles: { front: axleWith(11, 2), rear: axleWith(10, 2) } },
    );
    const tooHigh = await recordVisit(service, other.id, visitBody('2025-03-01', 40_000));
    const tooEarly = await recordVisit(service, other.id, { date: '2022-01-01' });
    const rear = fourPads([6, 6, 6, 6], { axle: 'rear' });
    const noAxle = await recordVisit(service, other.id, visitBody('2025-12-01', null, rear));
    const response = await merge(into.id, other.id, '"v1"');
    expect(response.status).toBe(422);
    const details: string[] = response.body.errors.map(({ detail }: { detail: string }) => detail);
    for (const { id } of [tooHigh, tooEarly, noAxle])
      expect(details.some((detail) => detail.includes(id))).toBe(true);
    const { version, mergedInto } = await read<Vehicle>(service, `/v1/vehicles/${other.id}`);
    expect([version, mergedInto]).toEqual([1, null]);
    expect((await wearOf(other.id)).asAt?.date).toBe('2026-01-15');
  });

  it('a record merged into a merged record belongs to the last one', async () => {
    const { into: middle, other: first } = await twoRecords();
    const last = await recordVehicle(service, vehicleBody());
    await merge(middle.id, first.id);
    expect((await merge(last.id, middle.id)).status).toBe(200);
    const response = await service.as('technician', 'get', `/v1/vehicles/${first.id}/wear`);
    expect([response.status, response.body.vehicleId]).toEqual([404, last.id]);
    expect((await read<{ items: Visit[] }>(service, `/v1/vehicles/${last.id}/visits`)).items).toHaveLength(2);
  });

  it.each<[string, (ids: { into: Recorded; other: Recorded }) => string]>([
    ['itself', ({ into }) => into.id],
    ['a record that does not exist', () => 'nothing'],
  ])('a merge with %s is refused', async (_name, from) => {
    const records = await twoRecords();
    const response = await merge(records.into.id, from(records));
    expect([response.status, response.body.errors[0].pointer]).toEqual([422, '#/from']);
  });

  it('a second merge is refused, and so is one without the current version', async () => {
    const { into, other } = await twoRecords();
    const path = `/v1/vehicles/${into.id}/merge`;
    const body = { from: other.id, reason: 'x' };
    expect((await service.as('owner', 'post', path).send(body)).status).toBe(428);
    expect((await merge(into.id, other.id, '"v7"')).status).toBe(412);
    expect((await service.as('front-desk', 'post', path).set('If-Match', '*').send(body)).status).toBe(403);
    expect((await merge(into.id, other.id)).status).toBe(200);
    expect((await merge(into.id, other.id)).status).toBe(422);
  });

  it('a visit moved by a merge can be corrected', async () => {
    const { into, other, visits } = await twoRecords();
    await merge(into.id, other.id);
    const corrected = await correct(service, visits[1].id, {
      reason: 'x',
      changes: { odometer: km(56_000) },
    });
    expect([corrected.status, corrected.body.vehicleId]).toEqual([200, into.id]);
    expect((await wearOf(into.id)).asAt?.odometerKm).toBe(56_000);
  });
});
