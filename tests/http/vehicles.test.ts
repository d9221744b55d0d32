import BetterSqlite from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  contractVehicle,
  km,
  mm,
  padReading,
  rotorReading,
  vehicleBody,
  type Body,
} from '../support/bodies.js';
import { correct, read, recordVehicle, recordVisit, setVoided, type Recorded } from '../support/recording.js';
import { onSqlite, startService, type Service } from '../support/service.js';

/** Invented, with a correct check digit: for ones, the weights sum to 89, and 89 mod 11 is 1. */
const VIN_OF_ONES = '11111111111111111';
/** Invented; the check digits come from another program. */
const VIN = 'ZZ9FD1004AA000001';
const VIN_WITH_X = 'ZZ9FD100XAA000004';
const VIN_TO_FIND = 'ZZ9FD1001AA000005';
const MERGE_PATCH = 'application/merge-patch+json';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const create = (body: unknown) => service.as('technician', 'post', '/v1/vehicles').send(body as object);
const get = (id: string) => service.as('technician', 'get', `/v1/vehicles/${id}`);
const patch = (id: string, change: unknown, ifMatch: string | null = '*') => {
  const request = service.as('technician', 'patch', `/v1/vehicles/${id}`).set('Content-Type', MERGE_PATCH);
  return (ifMatch === null ? request : request.set('If-Match', ifMatch)).send(JSON.stringify(change));
};
const list = (query = '') =>
  read<{ items: Recorded[]; nextCursor: string | null }>(service, `/v1/vehicles${query}`);
const pointersOf = (body: { errors?: { pointer?: string }[] }) =>
  (body.errors ?? []).map(({ pointer }) => pointer);

describe('recording a vehicle', () => {
  it('the contract’s example is stored, and quantities are returned as sent with their conversion inside', async () => {
    const response = await create(contractVehicle());
    expect(response.status).toBe(201);
    expect(response.headers.location).toBe(`/v1/vehicles/${response.body.id}`);
    expect(response.headers.etag).toBe('"v1"');
    expect(response.body).toMatchObject({
      ...contractVehicle(),
      version: 1,
      grossMass: { value: 3500, unit: 'kg', kg: 3500 },
      inService: { date: '2023-05-04', odometer: { value: 12, unit: 'km', km: 12 } },
      warnings: [],
    });
    const { axles } = response.body;
    expect(axles.front.pad.wearIndicator).toEqual({ value: 3, unit: 'mm', type: 'mechanical', mm: 3 });
    expect(axles.front.torque['caliper-bracket-bolt']).toEqual({
      value: 120,
      unit: 'Nm',
      Nm: 120,
      tolerance: { value: 10, unit: 'Nm', Nm: 10 },
    });
    expect((await get(response.body.id)).body).toEqual(response.body);
  });

  it('conversions use the exact factors', async () => {
    const body = vehicleBody({
      grossMass: { value: 7716, unit: 'lb' },
      inService: { date: '2023-05-04', odometer: { value: 38052, unit: 'mi' } },
      axles: {
        front: {
          pad: { new: { value: 14, unit: 'in/32' } },
          rotor: { new: { value: 1.081, unit: 'in' } },
          torque: { 'wheel-nut': { value: 88, unit: 'ft-lbf' } },
        },
      },
    });
    const { body: vehicle } = await create(body);
    expect(vehicle.inService.odometer).toEqual({ value: 38052, unit: 'mi', km: 61238.757888 });
    expect(vehicle.grossMass).toEqual({ value: 7716, unit: 'lb', kg: 3499.91872692 });
    expect(vehicle.axles.front.pad.new).toEqual({ value: 14, unit: 'in/32', mm: 11.1125 });
    expect(vehicle.axles.front.rotor.new).toEqual({ value: 1.081, unit: 'in', mm: 27.4574 });
    expect(vehicle.axles.front.torque['wheel-nut']).toEqual({
      value: 88,
      unit: 'ft-lbf',
      Nm: 119.31197945316323,
    });
  });

  it('an axle name and one identity are enough', async () => {
    for (const identity of [{ externalId: 'only-1' }, { registration: 'ON 1' }, { vin: VIN_OF_ONES }]) {
      const response = await create({ ...identity, axles: { rear: {} } });
      expect(response.status).toBe(201);
    }
  });

  it('a vehicle with neither externalId nor registration nor VIN is refused', async () => {
    const response = await create({ model: 'van', axles: { front: {} } });
    expect(response.status).toBe(422);
    expect(pointersOf(response.body)).toEqual(['#']);
  });

  it.each([
    ['no axles', {}, '#/axles'],
    ['an unknown axle name', { axles: { front: {}, middle: {} } }, '#/axles/middle'],
    ['axle-0', { axles: { front: {}, 'axle-0': {} } }, '#/axles/axle-0'],
  ])('a vehicle with %s is refused', async (_name, change, pointer) => {
    const response = await create({ externalId: 'no-axle', axles: {}, ...change });
    expect(response.status).toBe(422);
    expect(pointersOf(response.body)).toEqual([pointer]);
  });

  it('the axles of a long vehicle are accepted', async () => {
    const axles = Object.fromEntries(Array.from({ length: 9 }, (_, index) => [`axle-${index + 1}`, {}]));
    const response = await create(vehicleBody({ axles }));
    expect(response.status).toBe(201);
    expect(Object.keys(response.body.axles)).toHaveLength(9);
  });

  it.each([
    ['a pad of 80 mm', { front: { pad: { new: { value: 80, unit: 'mm' } } } }, '#/axles/front/pad/new/value'],
    [
      'a rotor of 9 in',
      { front: { rotor: { new: { value: 9, unit: 'in' } } } },
      '#/axles/front/rotor/new/value',
    ],
    ['a new pad of 0 mm', { front: { pad: { new: mm(0) } } }, '#/axles/front/pad/new/value'],
    ['a new rotor of 0 mm', { front: { rotor: { new: mm(0) } } }, '#/axles/front/rotor/new/value'],
    ['a drum-disc', { front: { brake: 'drum-disc' } }, '#/axles/front/brake'],
    ['an unknown field', { front: { pads: {} } }, '#/axles/front/pads'],
  ])('an impossible value is refused with a pointer to it: %s', async (_name, axles, pointer) => {
    const response = await create(vehicleBody({ axles }));
    expect(response.status).toBe(422);
    expect(response.body.code).toBe('invalid');
    expect(pointersOf(response.body)).toEqual([pointer]);
  });

  it('all errors of a vehicle are named at once', async () => {
    const response = await create(vehicleBody({ powertrain: 'steam', colour: 'blue', grossMass: km(3) }));
    expect(pointersOf(response.body).sort()).toEqual(['#/colour', '#/grossMass/unit', '#/powertrain']);
  });

  it('the pointer of an error is escaped as RFC 6901 requires', async () => {
    const torque = { 'a/b~c': { value: -1, unit: 'Nm' } };
    const response = await create(vehicleBody({ axles: { front: { torque } } }));
    expect(pointersOf(response.body)).toEqual(['#/axles/front/torque/a~1b~0c/value']);
  });

  it('the text of a vehicle is returned as it was sent', async () => {
    const description = "Ünïcode 🚚 “quotes” <b>&amp;</b> '; drop table vehicles; --\n\ttab";
    const { body } = await create(vehicleBody({ description }));
    expect((await get(body.id)).body.description).toBe(description);
  });
});

describe('duplicate vehicles', () => {
  it('a second vehicle with one externalId is refused, and the first is named', async () => {
    const first = await recordVehicle(service, vehicleBody({ externalId: 'twice' }));
    const response = await create(vehicleBody({ externalId: 'twice' }));
    expect(response.status).toBe(409);
    expect(response.body).toMatchObject({ code: 'duplicate-vehicle', vehicleId: first.id });
  });

  it('a second vehicle with one VIN is refused, and the first is named', async () => {
    const vin = VIN;
    const first = await recordVehicle(service, vehicleBody({ vin }));
    const response = await create(vehicleBody({ vin }));
    expect(response.status).toBe(409);
    expect(response.body.vehicleId).toBe(first.id);
  });

  it('one registration is allowed twice, because plates move between vehicles', async () => {
    await recordVehicle(service, vehicleBody({ registration: 'RG 2' }));
    const second = await recordVehicle(service, vehicleBody({ registration: 'RG 2' }));
    const { items } = await list('?registration=RG%202');
    expect(items).toHaveLength(2);
    expect(items.map(({ id }) => id)).toContain(second.id);
  });

  it('a second vehicle with the same plate gets a warning, however it is typed', async () => {
    const first = await recordVehicle(service, vehicleBody({ registration: 'KR 88 ab' }));
    const warned = (body: Body) => (body.warnings as Body[]).map(({ code, pointer }) => [code, pointer]);
    expect(warned((await get(first.id)).body)).toEqual([]);
    const second = await create(vehicleBody({ registration: 'kr-88-AB' }));
    expect(second.status).toBe(201);
    expect(warned(second.body)).toEqual([['registration-known', '#/registration']]);
    expect(second.body.warnings[0].detail).toContain(first.id);
    const third = await recordVehicle(service, vehicleBody());
    const changed = await patch(third.id, { registration: 'KR88AB' });
    expect(changed.body.warnings[0].detail).toContain(first.id);
  });

  it('a change that would make a duplicate is refused', async () => {
    const first = await recordVehicle(service, vehicleBody());
    const second = await recordVehicle(service, vehicleBody());
    const response = await patch(second.id, { externalId: first.externalId });
    expect(response.status).toBe(409);
    expect(response.body.vehicleId).toBe(first.id);
    expect((await get(second.id)).body.version).toBe(1);
  });
});

describe('the VIN of a vehicle', () => {
  it.each([
    ['short', VIN.slice(1)],
    ['long', `${VIN}1`],
    ['with an O', VIN.replace('AA', 'AO')],
    ['with an I', VIN.replace('AA', 'AI')],
    ['with a Q', VIN.replace('AA', 'AQ')],
    ['in small letters', VIN.toLowerCase()],
    ['empty', ''],
  ])('an invalid VIN is refused: %s', async (_name, vin) => {
    const response = await create(vehicleBody({ vin }));
    expect(response.status).toBe(422);
    expect(pointersOf(response.body)).toContain('#/vin');
  });

  it('a failed check digit gets a warning, and the vehicle is stored', async () => {
    const response = await create(vehicleBody({ vin: VIN_WITH_X.replace('X', '1') }));
    expect(response.status).toBe(201);
    expect(response.body.warnings).toEqual([
      { code: 'vin-check-digit', detail: expect.stringContaining('X'), pointer: '#/vin' },
    ]);
  });

  it('a correct VIN gets no warning', async () => {
    const { body } = await create(vehicleBody({ vin: VIN_WITH_X }));
    expect(body.warnings).toEqual([]);
  });
});

describe('finding vehicles', () => {
  let found: Recorded;
  beforeAll(async () => {
    found = await recordVehicle(
      service,
      vehicleBody({
        externalId: 'find/me',
        registration: 'FI 1',
        vin: VIN_TO_FIND,
        fleet: 'f&f',
        model: 'm 1',
      }),
    );
    await recordVehicle(service, vehicleBody({ fleet: 'another', model: 'm 2' }));
  });

  it.each([
    ['registration', 'FI 1'],
    ['vin', VIN_TO_FIND],
    ['externalId', 'find/me'],
    ['fleet', 'f&f'],
    ['model', 'm 1'],
  ])('a search by %s finds only exact matches', async (name, value) => {
    const { items } = await list(`?${name}=${encodeURIComponent(value)}`);
    expect(items.map(({ id }) => id)).toEqual([found.id]);
    expect((await list(`?${name}=${encodeURIComponent(value.slice(0, -1))}`)).items).toEqual([]);
  });

  it.each([
    ['the plate typed another way', 'registration=fi-1'],
    ['the plate in full-width letters', `registration=${encodeURIComponent('ＦＩ１')}`],
    [
      'the VIN in small letters with spaces',
      `vin=${encodeURIComponent(VIN_TO_FIND.toLowerCase().replace(/(.{5})/g, '$1 '))}`,
    ],
    ['part of the VIN', `find=${VIN_TO_FIND.slice(-6).toLowerCase()}`],
    ['part of the externalId', 'find=ind%20ME'],
    ['the plate in any field', 'find=f-i%201'],
  ])('a search by %s finds the vehicle', async (_name, query) => {
    expect((await list(`?${query}`)).items.map(({ id }) => id)).toContain(found.id);
  });

  it('a search text without letters and digits finds nothing', async () => {
    expect((await list('?find=-')).items).toEqual([]);
    expect((await list('?registration=-')).items).toEqual([]);
  });

  it('a vehicle is found by its new plate and no longer by the old one', async () => {
    const moved = await recordVehicle(service, vehicleBody({ registration: 'OLD 77' }));
    await patch(moved.id, { registration: 'new 78' });
    expect((await list('?registration=OLD77')).items).toEqual([]);
    expect((await list('?registration=NEW-78')).items.map(({ id }) => id)).toEqual([moved.id]);
    expect((await list('?find=w7')).items.map(({ id }) => id)).toEqual([moved.id]);
  });

  it('a search with several filters finds vehicles that match all of them', async () => {
    expect((await list('?fleet=another&model=m%201')).items).toEqual([]);
    expect((await list('?fleet=another&model=m%202')).items).toHaveLength(1);
  });

  it('the pages of a search hold every vehicle once, in the order of recording', async () => {
    const all = (await list('?limit=200')).items.map(({ id }) => id);
    const paged: string[] = [];
    let cursor: string | null = null;
    do {
      const page: Awaited<ReturnType<typeof list>> = await list(
        `?limit=3${cursor ? `&cursor=${cursor}` : ''}`,
      );
      expect(page.items.length).toBeLessThanOrEqual(3);
      paged.push(...page.items.map(({ id }) => id));
      cursor = page.nextCursor;
    } while (cursor !== null);
    expect(paged).toEqual(all);
    expect(all.length).toBeGreaterThan(6);
  });

  it.each(['?limit=0', '?limit=201', '?limit=1.5', '?limit=ten', '?limit=', '?limit=1&limit=2'])(
    'a query with %s is refused',
    async (query) => {
      const response = await service.as('technician', 'get', `/v1/vehicles${query}`);
      expect(response.status).toBe(400);
      expect(response.body.errors).toEqual([expect.objectContaining({ parameter: 'limit' })]);
    },
  );

  it('a cursor of a list with other filters is refused', async () => {
    const { nextCursor } = await list('?limit=1');
    const response = await service.as(
      'technician',
      'get',
      `/v1/vehicles?limit=1&fleet=another&cursor=${nextCursor}`,
    );
    expect(response.status).toBe(400);
    expect(response.body.errors).toEqual([expect.objectContaining({ parameter: 'cursor' })]);
  });
});

describe('changing a vehicle', () => {
  let vehicle: Recorded;
  const tag = async () => (await get(vehicle.id)).headers.etag as string;

  beforeAll(async () => {
    vehicle = await recordVehicle(service, vehicleBody());
  });

  it('changing a vehicle needs If-Match', async () => {
    const response = await patch(vehicle.id, { model: 'x' }, null);
    expect(response.status).toBe(428);
    expect(response.body.errors).toEqual([expect.objectContaining({ header: 'If-Match' })]);
  });

  it('changing a vehicle changes named members and leaves the rest', async () => {
    const { body: before } = await get(vehicle.id);
    const response = await patch(vehicle.id, { model: 'van-2' }, await tag());
    expect(response.status).toBe(200);
    expect(response.headers.etag).toBe(`"v${before.version + 1}"`);
    expect(response.body).toEqual({
      ...before,
      model: 'van-2',
      version: before.version + 1,
      updatedAt: expect.any(String),
    });
    expect((await get(vehicle.id)).body).toEqual(response.body);
  });

  it('an outdated version is refused', async () => {
    const { body: before } = await get(vehicle.id);
    for (const stale of ['"v999"', `"v${before.version - 1}"`, `W/"v${before.version}"`, 'v1', '""']) {
      const response = await patch(vehicle.id, { model: 'stale' }, stale);
      expect(response.status, stale).toBe(412);
      expect(response.body.code).toBe('stale-version');
    }
    expect((await get(vehicle.id)).body).toEqual(before);
  });

  it('only one of two changes to the same version takes effect', async () => {
    const version = await tag();
    const answers = await Promise.all([
      patch(vehicle.id, { model: 'one' }, version),
      patch(vehicle.id, { model: 'other' }, version),
    ]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412]);
  });

  it('If-Match may list several versions, or be *', async () => {
    expect((await patch(vehicle.id, { model: 'a' }, `"v999", ${await tag()}`)).status).toBe(200);
    expect((await patch(vehicle.id, { model: 'b' }, '*')).status).toBe(200);
  });

  it('changing a vehicle merges objects, removes null members and replaces other values', async () => {
    const change = {
      description: null,
      axles: { front: { pad: { limit: { value: 2.5 }, wearIndicator: null } }, rear: {} },
    };
    const { body } = await patch(vehicle.id, change);
    expect(body.description).toBeNull();
    expect(body.axles.front.pad).toEqual({
      new: { value: 11, unit: 'mm', mm: 11 },
      limit: { value: 2.5, unit: 'mm', mm: 2.5 },
    });
    expect(body.axles.rear).toEqual({});
    const removed = await patch(vehicle.id, { axles: { rear: null } });
    expect(Object.keys(removed.body.axles)).toEqual(['front']);
  });

  it.each<[string, Body, string]>([
    ['an unknown field', { colour: 'blue' }, '#/colour'],
    ['an unknown nested field', { axles: { front: { pad: { old: 1 } } } }, '#/axles/front/pad/old'],
    ['a bad value', { powertrain: 'steam' }, '#/powertrain'],
    ['the last axle removed', { axles: { front: null } }, '#/axles'],
    ['all axles removed', { axles: null }, '#/axles'],
    ['the last identity removed', { externalId: null, registration: null, vin: null }, '#'],
    ['a member that only the service sets', { version: 7 }, '#/version'],
    [
      'an out-of-service date before in-service',
      { outOfService: { date: '2020-01-01' } },
      '#/outOfService/date',
    ],
  ])('a change with %s is refused and changes nothing', async (_name, change, pointer) => {
    const { body: before } = await get(vehicle.id);
    const response = await patch(vehicle.id, change);
    expect(response.status).toBe(422);
    expect(pointersOf(response.body)).toEqual([pointer]);
    expect((await get(vehicle.id)).body).toEqual(before);
  });

  it('a patch that is not an object is refused', async () => {
    for (const change of [null, [], 'x', 7]) {
      const response = await patch(vehicle.id, change);
      expect(response.status, JSON.stringify(change)).toBe(422);
    }
  });

  it('a change that recorded visits contradict is refused', async () => {
    const { id } = await recordVehicle(service, vehicleBody());
    const readings = [{ kind: 'rotor-thickness', axle: 'front', side: 'left', value: 27, unit: 'mm' }];
    await recordVisit(service, id, { date: '2025-06-01', odometer: km(20_000), readings });
    const late = await patch(id, { inService: { date: '2025-06-02' } });
    expect([late.status, pointersOf(late.body)]).toEqual([422, ['#/inService/date']]);
    const far = await patch(id, { inService: { odometer: km(20_001) } });
    expect([far.status, pointersOf(far.body)]).toEqual([422, ['#/inService/odometer']]);
    const lost = await patch(id, { axles: { front: null, rear: {} } });
    expect([lost.status, pointersOf(lost.body)]).toEqual([422, ['#/axles/front']]);
  });

  it.each<[string, Body]>([
    ['a condition', { conditions: [{ part: 'hose', axle: 'front', state: 'leaking' }] }],
    ['a torque', { torques: [{ fastener: 'wheel-nut', axle: 'front', value: 120, unit: 'Nm' }] }],
    ['a place not measured', { notMeasured: [{ axle: 'front', why: 'wheel not removed' }] }],
    ['work', { work: [{ kind: 'slides-serviced', axle: 'front' }] }],
  ])('an axle cannot be removed if a visit has only %s on it', async (_name, part) => {
    const { id } = await recordVehicle(service, vehicleBody());
    const visit = await recordVisit(service, id, { date: '2025-06-01', ...part });
    const lost = await patch(id, { axles: { front: null, rear: {} } });
    expect([lost.status, pointersOf(lost.body)]).toEqual([422, ['#/axles/front']]);
    expect(lost.body.errors[0].detail).toContain(visit.id);
    await setVoided(service, visit.id, true);
    expect((await patch(id, { axles: { front: null, rear: {} } })).status).toBe(200);
  });

  const shoe = { kind: 'shoe-thickness', axle: 'front', side: 'left', value: 4, unit: 'mm' };
  it.each<[string, Body, Body, Body]>([
    ['a disc', { brake: 'disc' }, { readings: [padReading('left', 'inner', 8)] }, { brake: 'drum' }],
    ['a brake taken to be a disc', {}, { readings: [rotorReading('left', 27)] }, { brake: 'drum' }],
    ['a drum', { brake: 'drum' }, { readings: [shoe] }, { brake: 'disc' }],
    ['a drum', { brake: 'drum' }, { work: [{ kind: 'shoes-replaced', axle: 'front' }] }, { brake: null }],
  ])(
    'the kind of brake cannot change if visits have entries for %s',
    async (_name, front, entries, change) => {
      const { id } = await recordVehicle(service, vehicleBody({ axles: { front, rear: { brake: 'disc' } } }));
      const visit = await recordVisit(service, id, { date: '2025-06-01', ...entries });
      const refused = await patch(id, { axles: { front: change } });
      expect([refused.status, pointersOf(refused.body)]).toEqual([422, ['#/axles/front/brake']]);
      expect(refused.body.errors[0].detail).toContain(visit.id);
      expect((await patch(id, { axles: { rear: { brake: 'drum' } } })).status).toBe(200);

      const without = { reason: 'the other brake', changes: { readings: null, work: null } };
      expect((await correct(service, visit.id, without)).status).toBe(200);
      expect((await patch(id, { axles: { front: change } })).status).toBe(200);
    },
  );

  it.skipIf(!onSqlite)('a vehicle whose visits did not fit before can still be changed', async () => {
    const { id } = await recordVehicle(service, vehicleBody({ axles: { front: { brake: 'disc' } } }));
    await recordVisit(service, id, { date: '2025-06-01', readings: [padReading('left', 'inner', 8)] });
    const connection = new BetterSqlite(service.file);
    connection
      .prepare("update vehicles set body = json_set(body, '$.axles.front.brake', 'drum') where id = ?")
      .run(id);
    connection.close();
    expect((await patch(id, { description: 'long wheelbase' })).status).toBe(200);
    expect((await patch(id, { axles: { front: { brake: 'disc' } } })).status).toBe(200);
  });

  it('a vehicle that does not exist gets 404', async () => {
    expect((await patch('nobody', { model: 'x' })).status).toBe(404);
  });
});

describe('the entity tag of a vehicle', () => {
  it('a caller who has the version already gets 304 without a body', async () => {
    const { id } = await recordVehicle(service, vehicleBody());
    const etag = (await get(id)).headers.etag!;
    for (const header of [etag, `W/${etag}`, `"v9", ${etag}`, '*']) {
      const response = await get(id).set('If-None-Match', header);
      expect(response.status, header).toBe(304);
      expect(response.text).toBe('');
      expect(response.headers.etag).toBe(etag);
    }
    expect((await get(id).set('If-None-Match', '"v2"')).status).toBe(200);
  });

  it('the tag changes with the version', async () => {
    const { id } = await recordVehicle(service, vehicleBody());
    const etag = (await get(id)).headers.etag!;
    await patch(id, { model: 'new' });
    const response = await get(id).set('If-None-Match', etag);
    expect(response.status).toBe(200);
    expect(response.headers.etag).not.toBe(etag);
  });
});

describe('a vehicle out of service', () => {
  it('a vehicle out of service leaves default lists and reports on that date, and can return', async () => {
    const fleet = 'leaving';
    const { id } = await recordVehicle(service, vehicleBody({ fleet }));
    await recordVisit(service, id, {
      date: '2026-03-02',
      odometer: km(60_000),
      readings: [{ kind: 'pad-thickness', axle: 'front', side: 'left', pad: 'inner', value: 2, unit: 'mm' }],
    });
    const unread = await recordVehicle(service, vehicleBody({ fleet }));
    const seen = async () => ({
      listed: (await list(`?fleet=${fleet}`)).items.length,
      all: (await list(`?fleet=${fleet}&includeOutOfService=true`)).items.length,
      due: (await read<{ total: number }>(service, `/v1/reports/due-soon?fleet=${fleet}`)).total,
      unassessed: (await read<{ total: number }>(service, `/v1/reports/unassessed?fleet=${fleet}`)).total,
    });
    const there = { listed: 2, all: 2, due: 1, unassessed: 1 };
    expect(await seen()).toEqual(there);

    for (const vehicle of [id, unread.id])
      await patch(vehicle, { outOfService: { date: '2026-03-11', reason: 'sold' } });
    expect(await seen()).toEqual(there);
    service.setClock('2026-03-11T00:30:00Z');
    expect(await seen()).toEqual({ listed: 0, all: 2, due: 0, unassessed: 0 });
    expect((await get(id)).status).toBe(200);

    for (const vehicle of [id, unread.id]) await patch(vehicle, { outOfService: null });
    expect(await seen()).toEqual(there);
  });
});
