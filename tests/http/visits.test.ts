import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  contractVehicle,
  contractVisit,
  fourPads,
  km,
  mm,
  padReading,
  rotorReading,
  vehicleBody,
  visitBody,
  type Body,
} from '../support/bodies.js';
import { read, recordVehicle, recordVisit, type Recorded } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const newVehicle = async (changes: Body = {}) => (await recordVehicle(service, vehicleBody(changes))).id;
const send = (vehicleId: string, body: unknown) =>
  service.as('technician', 'post', `/v1/vehicles/${vehicleId}/visits`).send(body as object);
const addTo = (visitId: string, body: unknown) =>
  service.as('technician', 'post', `/v1/visits/${visitId}/entries`).send(body as object);
const visitsOf = async (vehicleId: string) =>
  (await read<{ items: Recorded[] }>(service, `/v1/vehicles/${vehicleId}/visits?limit=200`)).items;

interface Problem {
  code: string;
  detail: string;
  visitId?: string;
  errors?: { detail: string; pointer: string }[];
}
const pointersOf = (body: Problem) => (body.errors ?? []).map(({ pointer }) => pointer);

async function expectRefused(vehicleId: string, body: unknown, pointers: string[]): Promise<Problem> {
  const before = await visitsOf(vehicleId);
  const response = await send(vehicleId, body);
  expect(response.status, response.text).toBe(422);
  expect(pointersOf(response.body)).toEqual(pointers);
  expect(await visitsOf(vehicleId)).toEqual(before);
  return response.body;
}

describe('recording a visit', () => {
  it('the contract’s example is stored and returned flat, with ids, conversions and outlook', async () => {
    const { id: vehicleId } = await recordVehicle(service, contractVehicle());
    const response = await send(vehicleId, contractVisit());
    expect(response.status).toBe(201);
    const { body } = response;
    expect(response.headers.location).toBe(`/v1/visits/${body.id}`);
    expect(response.headers.etag).toBe('"v1"');
    expect(body).toMatchObject({ ...contractVisit(), vehicleId, version: 1 });
    expect(body.odometer).toEqual({ value: 61240, unit: 'km', km: 61240 });
    expect(body.readings.map(({ mm: read }: { mm: number }) => read)).toEqual([6.5, 27.4574, 0.0381]);
    expect(body.readings[1]).toMatchObject({ taken: 'as-found', repeat: 1, value: 1.081, unit: 'in' });
    expect(body.torques[0].Nm).toBeCloseTo(119.31, 2);
    expect(body.work[0].new).toEqual({ value: 11, unit: 'mm', mm: 11 });
    const items = [...body.readings, ...body.work, ...body.torques].map(({ id }) => id);
    expect(items.every((id) => typeof id === 'string' && id !== '')).toBe(true);
    expect(new Set(items).size).toBe(items.length);
    expect(Object.keys(body.outlook)).toEqual(['front']);
    expect(body.cautions.length).toBeGreaterThan(0);
  });

  it('the answer has the outlook that the wear answer then gives', async () => {
    const vehicleId = await newVehicle();
    const { outlook, findings, cautions } = (
      await send(vehicleId, visitBody('2026-03-02', 61_240, fourPads([3.1, 7, 7, 7])))
    ).body;
    const wear = await read<{ axles: { axle: string; findings: unknown[] }[]; cautions: unknown[] }>(
      service,
      `/v1/vehicles/${vehicleId}/wear`,
    );
    expect(Object.values(outlook)).toEqual(wear.axles);
    expect(findings).toEqual(wear.axles.flatMap((axle) => axle.findings));
    expect(findings.length).toBeGreaterThan(0);
    expect(cautions).toEqual(wear.cautions);
  });

  it('a stored visit is returned with an ETag', async () => {
    const vehicleId = await newVehicle();
    const {
      outlook: _outlook,
      findings: _findings,
      cautions: _cautions,
      ...stored
    } = await recordVisit(service, vehicleId, contractVisit());
    const response = await service.as('technician', 'get', `/v1/visits/${stored.id}`);
    expect(response.body).toEqual(stored);
    const etag = response.headers.etag!;
    const again = await service.as('technician', 'get', `/v1/visits/${stored.id}`).set('If-None-Match', etag);
    expect(again.status).toBe(304);
    expect(await visitsOf(vehicleId)).toEqual([stored]);
  });

  it('a visit with only its date is accepted', async () => {
    const vehicleId = await newVehicle();
    const { body, status } = await send(vehicleId, { date: '2026-03-02' });
    expect(status).toBe(201);
    expect(body).toMatchObject({
      odometer: null,
      time: null,
      readings: [],
      work: [],
      torques: [],
      roadTest: null,
    });
  });

  it('a vehicle or visit that does not exist gets 404', async () => {
    expect((await send('nobody', visitBody('2026-03-02', 1))).status).toBe(404);
    expect((await addTo('nothing', { roadTest: { pulls: 'none' } })).status).toBe(404);
    expect((await service.as('technician', 'get', '/v1/visits/nothing')).status).toBe(404);
    expect((await service.as('technician', 'get', '/v1/vehicles/nobody/visits')).status).toBe(404);
  });
});

describe('the order of visits', () => {
  it('visits may arrive in any order of date, and the latest is listed first', async () => {
    const vehicleId = await newVehicle();
    for (const [date, odometer] of [
      ['2025-03-01', 30_000],
      ['2024-03-01', 15_000],
      ['2026-03-01', 45_000],
      ['2025-09-01', 37_000],
    ] as const)
      await recordVisit(service, vehicleId, visitBody(date, odometer));
    const dates = (await visitsOf(vehicleId)).map(({ date }) => date);
    expect(dates).toEqual(['2026-03-01', '2025-09-01', '2025-03-01', '2024-03-01']);
  });

  it('the pages of a vehicle’s visits hold each visit once', async () => {
    const vehicleId = await newVehicle();
    for (let month = 1; month <= 5; month++) {
      await recordVisit(service, vehicleId, visitBody(`2025-0${month}-01`, month * 1000));
      await recordVisit(service, vehicleId, visitBody(`2025-0${month}-01`, month * 1000 + 10));
    }
    const seen: string[] = [];
    let next: string | null = '';
    while (next !== null) {
      const page: { items: Recorded[]; nextCursor: string | null } = await read(
        service,
        `/v1/vehicles/${vehicleId}/visits?limit=3${next && `&cursor=${next}`}`,
      );
      seen.push(...page.items.map(({ id }) => id));
      next = page.nextCursor;
    }
    expect(seen).toEqual((await visitsOf(vehicleId)).map(({ id }) => id));
    expect(new Set(seen).size).toBe(10);
  });

  /** The latest reading of the left inner pad in the wear answer. */
  async function latestOf(visits: Body[]): Promise<number> {
    const vehicleId = await newVehicle();
    for (const visit of visits) await recordVisit(service, vehicleId, visit);
    const { axles } = await read<{ axles: { pads: { latest: { valueMm: number } }[] }[] }>(
      service,
      `/v1/vehicles/${vehicleId}/wear`,
    );
    return axles[0]!.pads[0]!.latest.valueMm;
  }
  const looked = (value: number, odometer: number | null, more: Body = {}) =>
    visitBody('2026-03-02', odometer, [padReading('left', 'inner', value)], more);

  it('visits of one day are ordered by time', async () => {
    const morning = looked(8, 40_000, { time: '08:10' });
    const evening = looked(7, 40_000, { time: '17:45' });
    expect(await latestOf([morning, evening])).toBe(7);
    expect(await latestOf([evening, morning])).toBe(7);
  });

  it('visits of one day without a time are ordered by odometer', async () => {
    const first = looked(8, 40_000);
    const second = looked(7, 40_050);
    expect(await latestOf([first, second])).toBe(7);
    expect(await latestOf([second, first])).toBe(7);
  });

  it('visits of one day with one odometer reading are ordered by arrival', async () => {
    expect(await latestOf([looked(8, 40_000), looked(7, 40_000)])).toBe(7);
    expect(await latestOf([looked(7, 40_000), looked(8, 40_000)])).toBe(8);
  });
});

describe('the odometer reading of a visit', () => {
  it('an odometer reading below an earlier visit’s is refused, and the visit is named', async () => {
    const vehicleId = await newVehicle();
    const earlier = await recordVisit(service, vehicleId, visitBody('2025-03-01', 30_000));
    const problem = await expectRefused(vehicleId, visitBody('2026-03-01', 29_999), ['#/odometer']);
    expect(problem.visitId).toBe(earlier.id);
  });

  it('an odometer reading above a later visit’s is refused, and the visit is named', async () => {
    const vehicleId = await newVehicle();
    const later = await recordVisit(service, vehicleId, visitBody('2026-03-01', 30_000));
    const problem = await expectRefused(vehicleId, visitBody('2025-03-01', 30_001), ['#/odometer']);
    expect(problem.visitId).toBe(later.id);
  });

  it('the odometer reading of a visit is compared across units', async () => {
    const vehicleId = await newVehicle();
    await recordVisit(service, vehicleId, { date: '2025-03-01', odometer: { value: 20_000, unit: 'mi' } });
    await expectRefused(vehicleId, visitBody('2026-03-01', 32_186.87), ['#/odometer']);
    expect((await send(vehicleId, visitBody('2026-03-01', 32_186.88))).status).toBe(201);
  });

  it('the odometer reading of a visit may stay the same for a parked vehicle', async () => {
    const vehicleId = await newVehicle();
    await recordVisit(service, vehicleId, visitBody('2025-03-01', 30_000));
    await recordVisit(service, vehicleId, visitBody('2026-03-01', 30_000));
  });

  it('an odometer reading below the one at in-service is refused', async () => {
    const vehicleId = await newVehicle({ inService: { date: '2023-05-04', odometer: km(5000) } });
    await expectRefused(vehicleId, visitBody('2026-03-01', 4999), ['#/odometer']);
  });

  it('visits without an odometer reading are skipped in the comparison', async () => {
    const vehicleId = await newVehicle();
    const earlier = await recordVisit(service, vehicleId, visitBody('2025-03-01', 30_000));
    await recordVisit(service, vehicleId, visitBody('2025-06-01', null));
    const problem = await expectRefused(vehicleId, visitBody('2025-09-01', 29_000), ['#/odometer']);
    expect(problem.visitId).toBe(earlier.id);
  });

  it('the odometer reading of a visit starts again after a replacement', async () => {
    const vehicleId = await newVehicle();
    await recordVisit(service, vehicleId, visitBody('2024-03-01', 80_000));
    const replaced = { oldFinal: km(90_000), newStart: km(0) };
    const swap = await recordVisit(
      service,
      vehicleId,
      visitBody('2025-03-01', 5, [], { odometerReplaced: replaced }),
    );
    expect(swap.odometerReplaced).toEqual({
      oldFinal: { ...km(90_000), km: 90_000 },
      newStart: { ...km(0), km: 0 },
    });
    await recordVisit(service, vehicleId, visitBody('2026-03-01', 12_000));
    // For the old odometer the old order still holds.
    expect(
      (await expectRefused(vehicleId, visitBody('2024-06-01', 79_000), ['#/odometer'])).visitId,
    ).toBeDefined();
    await expectRefused(vehicleId, visitBody('2024-09-01', 90_001), ['#/odometer']);
    await recordVisit(service, vehicleId, visitBody('2024-09-01', 85_000));
    // And for the new one the new order.
    await expectRefused(vehicleId, visitBody('2025-09-01', 12_001), ['#/odometer']);
    await recordVisit(service, vehicleId, visitBody('2025-09-01', 6000));
  });

  it('the odometer reading of a visit follows the times of a day even if another visit of that day has neither time nor odometer', async () => {
    const vehicleId = await newVehicle();
    await recordVisit(service, vehicleId, visitBody('2025-01-01', 90_000));
    const replaced = { odometerReplaced: { newStart: km(0) }, time: '08:00' };
    await recordVisit(service, vehicleId, visitBody('2026-03-01', 3, [], replaced));
    await recordVisit(service, vehicleId, visitBody('2026-03-01', 5, [], { time: '10:00' }));
    await recordVisit(service, vehicleId, visitBody('2026-03-01', null));
    await recordVisit(service, vehicleId, visitBody('2026-03-01', null, [], { time: '11:00' }));
    await expectRefused(vehicleId, visitBody('2026-03-01', 4, [], { time: '12:00' }), ['#/odometer']);
  });

  it('a replacement of the odometer without any figures is accepted', async () => {
    const vehicleId = await newVehicle();
    await recordVisit(service, vehicleId, visitBody('2024-03-01', 80_000));
    await recordVisit(
      service,
      vehicleId,
      visitBody('2025-03-01', null, [], { odometerReplaced: { oldFinal: null, newStart: null } }),
    );
    await recordVisit(service, vehicleId, visitBody('2026-03-01', 12_000));
  });

  it('an old odometer that ended below an earlier visit is refused', async () => {
    const vehicleId = await newVehicle();
    const earlier = await recordVisit(service, vehicleId, visitBody('2024-03-01', 80_000));
    const problem = await expectRefused(
      vehicleId,
      visitBody('2025-03-01', 5, [], { odometerReplaced: { oldFinal: km(79_999), newStart: km(0) } }),
      ['#/odometerReplaced/oldFinal'],
    );
    expect(problem.visitId).toBe(earlier.id);
  });

  it('a new odometer that shows less than it started from is refused', async () => {
    const vehicleId = await newVehicle();
    await expectRefused(
      vehicleId,
      visitBody('2025-03-01', 4, [], { odometerReplaced: { oldFinal: null, newStart: km(5) } }),
      ['#/odometer'],
    );
  });
});

describe('the date of a visit', () => {
  it('a visit dated before in-service is refused', async () => {
    const vehicleId = await newVehicle();
    await expectRefused(vehicleId, visitBody('2023-05-03', null), ['#/date']);
    expect((await send(vehicleId, visitBody('2023-05-04', 12))).status).toBe(201);
  });

  it('the date of a visit may be any date if in-service is unknown', async () => {
    const vehicleId = await newVehicle({ inService: null });
    expect((await send(vehicleId, visitBody('1999-12-31', 12))).status).toBe(201);
  });

  it('the date of a visit is refused if it is in the future everywhere on earth', async () => {
    const later = await startService({ now: '2026-03-10T09:59:59Z' });
    const { id } = await recordVehicle(later, vehicleBody());
    const post = (date: string) => later.as('technician', 'post', `/v1/vehicles/${id}/visits`).send({ date });
    // At 09:59:59 UTC it is still 10 March at UTC+14; a second later it is the 11th there.
    expect(pointersOf((await post('2026-03-11')).body)).toEqual(['#/date']);
    later.setClock('2026-03-10T10:00:00Z');
    expect((await post('2026-03-11')).status).toBe(201);
    expect((await post('2026-03-12')).status).toBe(422);
    await later.close();
  });

  it.each(['2026-02-29', '2026-13-01', '2026-3-2', '2026-03-02T08:00:00Z', '20260302', 'yesterday', ''])(
    'a date such as %j is refused',
    async (date) => {
      await expectRefused(await newVehicle(), { date }, ['#/date']);
    },
  );

  it.each(['24:00', '8:10', '08:60', '08:10:00', 'noon'])('a time such as %j is refused', async (time) => {
    await expectRefused(await newVehicle(), { date: '2026-03-02', time }, ['#/time']);
  });
});

describe('the readings of a visit', () => {
  const readingsRefused = async (readings: unknown[], pointers: string[]) =>
    expectRefused(await newVehicle(), visitBody('2026-03-02', 61_240, readings as Body[]), pointers);

  it('the readings of a visit are refused on an axle that the vehicle lacks', async () => {
    const problem = await readingsRefused(
      [padReading('left', 'inner', 7), padReading('left', 'inner', 7, { axle: 'rear' })],
      ['#/readings/1/axle'],
    );
    expect(problem.errors![0]!.detail).toContain('front');
  });

  it('the readings of a visit are refused twice for one place', async () => {
    await readingsRefused(
      [padReading('left', 'inner', 7), padReading('left', 'inner', 7.5)],
      ['#/readings/1'],
    );
    await readingsRefused(
      [padReading('left', 'inner', 7, { at: 'thinnest' }), padReading('left', 'inner', 7)],
      ['#/readings/1'],
    );
    await readingsRefused([rotorReading('left', 27), rotorReading('left', 27.1)], ['#/readings/1']);
  });

  it('the readings of a visit are accepted for different places, repeats and parts', async () => {
    const vehicleId = await newVehicle();
    const readings = [
      padReading('left', 'inner', 7),
      padReading('left', 'outer', 7),
      padReading('right', 'inner', 7),
      padReading('left', 'inner', 7, { at: 'leading' }),
      padReading('left', 'inner', 7, { repeat: 2 }),
      padReading('left', 'inner', 11, { taken: 'as-left' }),
      rotorReading('left', 27),
      rotorReading('left', 27, { point: 2 }),
      rotorReading('left', 27, { point: undefined }),
      { kind: 'rotor-runout', axle: 'front', side: 'left', value: 0.02, unit: 'mm' },
    ];
    const stored = await recordVisit(service, vehicleId, visitBody('2026-03-02', 61_240, readings));
    expect(stored.readings).toHaveLength(readings.length);
  });

  it.each<[string, Body]>([
    ['a pad of 80 mm', padReading('left', 'inner', 80)],
    ['a pad of 2 in', padReading('left', 'inner', 2, { unit: 'in' })],
    ['a pad of 52/32 in', padReading('left', 'inner', 52, { unit: 'in/32' })],
    ['a pad below zero', padReading('left', 'inner', -0.1)],
    ['a rotor of 1.081 mm, meant as inches', rotorReading('left', 1.081)],
    ['a rotor of 28 in', rotorReading('left', 28, { unit: 'in' })],
    ['a run-out of 6 mm', { kind: 'rotor-runout', axle: 'front', side: 'left', value: 6, unit: 'mm' }],
  ])('the readings of a visit are refused beyond their bounds: %s', async (_name, reading) => {
    await readingsRefused([reading], ['#/readings/0/value']);
  });

  it('the readings of a visit are accepted at the bounds', async () => {
    const vehicleId = await newVehicle();
    const readings = fourPads([0, 40, 0, 40]);
    await recordVisit(service, vehicleId, visitBody('2026-03-02', 61_240, readings));
  });

  it.each<[string, Body, string]>([
    ['an unknown kind', { kind: 'pad-width' }, 'kind'],
    ['an unknown side', { side: 'nearside' }, 'side'],
    ['an unknown pad', { pad: 'middle' }, 'pad'],
    ['an unknown end', { at: 'top' }, 'at'],
    ['an unknown unit', { unit: 'cm' }, 'unit'],
    ['an unknown taken', { taken: 'before' }, 'taken'],
    ['an unknown gauge', { gauge: 'my-ruler' }, 'gauge'],
    ['a repeat of 0', { repeat: 0 }, 'repeat'],
    ['a number as text', { value: '7' }, 'value'],
    ['an unknown field', { thickness: 7 }, 'thickness'],
    ['a point of a pad', { point: 1 }, 'point'],
  ])('the readings of a visit are refused with %s', async (_name, change, field) => {
    await readingsRefused([padReading('left', 'inner', 7, change)], [`#/readings/0/${field}`]);
  });

  it('readings of discs are refused on a drum brake', async () => {
    const vehicleId = await newVehicle({ axles: { rear: { brake: 'drum' } } });
    const readings = [padReading('left', 'inner', 7, { axle: 'rear' })];
    await expectRefused(vehicleId, visitBody('2026-03-02', 61_240, readings), ['#/readings/0/kind']);
  });

  it('the readings of a visit are stored without a gauge if none was named', async () => {
    const vehicleId = await newVehicle();
    const readings = [padReading('left', 'inner', 7, { gauge: undefined })];
    const stored = await recordVisit(service, vehicleId, visitBody('2026-03-02', 61_240, readings));
    expect(stored.readings).toEqual([expect.objectContaining({ gauge: null })]);
  });
});

describe('the other entries of a visit', () => {
  it.each<[string, Body, string]>([
    ['work on an axle it lacks', { work: [{ kind: 'pads-replaced', axle: 'rear' }] }, '#/work/0/axle'],
    ['work without an axle', { work: [{ kind: 'pads-replaced' }] }, '#/work/0/axle'],
    ['unknown work', { work: [{ kind: 'pads-cleaned', axle: 'front' }] }, '#/work/0/kind'],
    [
      'new pads of 80 mm',
      { work: [{ kind: 'pads-replaced', axle: 'front', new: mm(80) }] },
      '#/work/0/new/value',
    ],
    [
      'a discard on pads',
      { work: [{ kind: 'pads-replaced', axle: 'front', discard: mm(20) }] },
      '#/work/0/discard',
    ],
    [
      'a state that the part cannot have',
      { conditions: [{ part: 'rotor', axle: 'front', state: 'shiny' }] },
      '#/conditions/0/state',
    ],
    [
      'a condition on a missing axle',
      { conditions: [{ part: 'rotor', axle: 'rear', state: 'ok' }] },
      '#/conditions/0/axle',
    ],
    ['no reason', { notMeasured: [{ axle: 'front' }] }, '#/notMeasured/0/why'],
    [
      'a torque on a missing axle',
      { torques: [{ fastener: 'x', axle: 'axle-9', value: 1, unit: 'Nm' }] },
      '#/torques/0/axle',
    ],
    [
      'a torque in kg',
      { torques: [{ fastener: 'x', axle: 'front', value: 1, unit: 'kg' }] },
      '#/torques/0/unit',
    ],
    ['an odd pull', { roadTest: { pulls: 'up' } }, '#/roadTest/pulls'],
    ['an unknown field', { mileage: 61_240 }, '#/mileage'],
  ])('a visit with %s is refused', async (_name, change, pointer) => {
    await expectRefused(await newVehicle(), { date: '2026-03-02', ...change }, [pointer]);
  });

  it('work on the whole vehicle needs no axle', async () => {
    const stored = await recordVisit(service, await newVehicle(), {
      date: '2026-03-02',
      work: [{ kind: 'fluid-changed' }, { kind: 'slides-serviced', axle: 'front', side: 'left' }],
    });
    expect(stored.work).toMatchObject([
      { kind: 'fluid-changed', axle: null },
      { kind: 'slides-serviced', axle: 'front', side: 'left' },
    ]);
  });
});

describe('the work order of a visit', () => {
  const body = (more: Body = {}) =>
    visitBody('2026-03-02', 61_240, [padReading('left', 'inner', 7)], { workOrder: 'WO-1', ...more });

  it('a work order sent again with the same content gets 200 and the stored visit', async () => {
    const vehicleId = await newVehicle();
    const first = await send(vehicleId, body());
    const again = await send(vehicleId, body());
    expect([first.status, again.status]).toEqual([201, 200]);
    expect(again.body).toEqual(first.body);
    // The order of members, and null for missing, do not change the content.
    const reordered = Object.fromEntries(Object.entries({ ...body(), notes: null }).reverse());
    expect((await send(vehicleId, reordered)).status).toBe(200);
    expect(await visitsOf(vehicleId)).toHaveLength(1);
  });

  it('a work order sent again with other content gets 409 and the visit’s id', async () => {
    const vehicleId = await newVehicle();
    const first = await recordVisit(service, vehicleId, body());
    for (const other of [body({ notes: 'other' }), body({ readings: [padReading('left', 'inner', 7.1)] })]) {
      const response = await send(vehicleId, other);
      expect(response.status).toBe(409);
      expect(response.body).toMatchObject({ code: 'work-order-known', visitId: first.id });
    }
    expect(await visitsOf(vehicleId)).toHaveLength(1);
  });

  it('the same work order at another shop or on another vehicle is a different one', async () => {
    const vehicleId = await newVehicle();
    for (const shop of [null, 'a', 'b']) await recordVisit(service, vehicleId, body({ shop }));
    await recordVisit(service, await newVehicle(), body());
    expect(await visitsOf(vehicleId)).toHaveLength(3);
  });
});

describe('entries added to a visit', () => {
  const morning = () =>
    visitBody('2026-03-02', 61_240, fourPads([3.2, 3.5, 3.4, 3.6]), { workOrder: 'WO-2' });

  it('work added to the morning’s readings changes the outlook', async () => {
    const vehicleId = await newVehicle();
    const visit = await recordVisit(service, vehicleId, morning());
    const response = await addTo(visit.id, {
      readings: fourPads([11, 11, 11, 11], { taken: 'as-left' }),
      work: [{ kind: 'pads-replaced', axle: 'front' }],
      torques: [{ fastener: 'caliper-bracket-bolt', axle: 'front', side: 'left', value: 121, unit: 'Nm' }],
      conditions: [{ part: 'slide', axle: 'front', side: 'left', state: 'seized' }],
      notMeasured: [{ axle: 'front', part: 'rotor', why: 'gauge away' }],
      roadTest: { pulls: 'none', noise: false },
    });
    expect(response.status).toBe(201);
    expect(response.headers.etag).toBe('"v2"');
    const { body } = response;
    expect(body).toMatchObject({ id: visit.id, version: 2, roadTest: { pulls: 'none' } });
    expect(body.readings).toHaveLength(8);
    expect(new Set(body.readings.map(({ id }: { id: string }) => id)).size).toBe(8);
    expect(body.readings.slice(0, 4)).toEqual(visit.readings);
    expect([body.work, body.torques, body.conditions, body.notMeasured].map((list) => list.length)).toEqual([
      1, 1, 1, 1,
    ]);
    expect(body.outlook.front.pads[0]).toMatchObject({
      readings: 1,
      latest: { valueMm: 11 },
      fitted: { date: '2026-03-02' },
    });
    const read = (await service.as('technician', 'get', `/v1/visits/${visit.id}`)).body;
    expect(body).toMatchObject(read);
  });

  it('entries added to a visit add to earlier added entries', async () => {
    const visit = await recordVisit(service, await newVehicle(), { date: '2026-03-02' });
    await addTo(visit.id, { readings: [padReading('left', 'inner', 7)] });
    const { body } = await addTo(visit.id, { readings: [padReading('left', 'outer', 7)] });
    expect(body.version).toBe(3);
    expect(new Set(body.readings.map(({ id }: { id: string }) => id)).size).toBe(2);
  });

  it.each<[string, Body, string]>([
    ['a place that has a reading already', { readings: [padReading('left', 'inner', 3)] }, '#/readings/0'],
    ['an axle it lacks', { work: [{ kind: 'pads-replaced', axle: 'rear' }] }, '#/work/0/axle'],
    ['an unknown gauge', { readings: [rotorReading('left', 27, { gauge: 'eye' })] }, '#/readings/0/gauge'],
    ['the date', { date: '2026-03-01', roadTest: { noise: true } }, '#/date'],
    ['nothing', {}, '#'],
    ['empty lists', { readings: [], work: [] }, '#'],
  ])('entries added to a visit are refused with %s', async (_name, entry, pointer) => {
    const visit = await recordVisit(service, await newVehicle(), morning());
    const response = await addTo(visit.id, entry);
    expect(response.status).toBe(422);
    expect(pointersOf(response.body)).toEqual([pointer]);
    const { body } = await service.as('technician', 'get', `/v1/visits/${visit.id}`);
    expect(body.version).toBe(1);
  });

  it('a second road test is a conflict', async () => {
    const visit = await recordVisit(service, await newVehicle(), {
      ...morning(),
      roadTest: { pulls: 'left' },
    });
    const response = await addTo(visit.id, { roadTest: { pulls: 'none' } });
    expect(response.status).toBe(409);
    expect(response.body).toMatchObject({ code: 'road-test-recorded', visitId: visit.id });
  });

  it('a repeat of the work order is still recognized', async () => {
    const vehicleId = await newVehicle();
    const body = morning();
    const visit = await recordVisit(service, vehicleId, body);
    await addTo(visit.id, { roadTest: { pulls: 'none' } });
    const again = await send(vehicleId, body);
    expect(again.status).toBe(200);
    expect(again.body).toMatchObject({ id: visit.id, version: 2, roadTest: { pulls: 'none' } });
  });
});

describe('the list of visits', () => {
  it('the list of visits orders the visits of one day by time, the latest first', async () => {
    const { id } = await recordVehicle(service, vehicleBody());
    for (const time of ['17:45', '08:10', '12:00'])
      await recordVisit(service, id, visitBody('2026-03-02', 40_000, [], { time }));
    const { items } = await read<{ items: Recorded[] }>(service, `/v1/vehicles/${id}/visits`);
    expect(items.map(({ time }) => time)).toEqual(['17:45', '12:00', '08:10']);
  });
});
