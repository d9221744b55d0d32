import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Range, Reason } from '../../src/core/vocabulary/quantities.js';
import type { AxleWear, PadWear, RotorWear, Wear } from '../../src/core/vocabulary/wear.js';
import {
  axleWith,
  fourPads,
  km,
  mm,
  padReading,
  rotorReading,
  vehicleBody,
  visitBody,
  type Body,
} from '../support/bodies.js';
import { unexplainedNulls } from '../support/nulls.js';
import { read, recordHistory, recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

const NOW = '2026-03-10T12:00:00Z';
const TODAY = '2026-03-10';

let service: Service;
beforeAll(async () => {
  service = await startService({ now: NOW });
});
afterAll(() => service.close());

/** A wear answer in which no member that the contract names is null without a reason. */
async function wearOf(vehicleId: string, query = ''): Promise<Wear> {
  const wear = await read<Wear>(service, `/v1/vehicles/${vehicleId}/wear${query}`);
  expect(unexplainedNulls(wear)).toEqual([]);
  return wear;
}

async function wearAfter(vehicle: Body, visits: Body[], query = ''): Promise<Wear> {
  return wearOf((await recordHistory(service, vehicle, visits)).id, query);
}

const front = (wear: Wear): AxleWear => wear.axles.find(({ axle }) => axle === 'front')!;
const padOf = (wear: Wear, side = 'left', pad = 'inner'): PadWear =>
  front(wear).pads.find((position) => position.side === side && position.pad === pad)!;
const rotorOf = (wear: Wear, side = 'left'): RotorWear =>
  front(wear).rotors.find((rotor) => rotor.side === side)!;
const codes = (list: readonly { code: string }[]) => list.map(({ code }) => code);
const reasonFor = (reasons: readonly Reason[], field: string) =>
  reasons.find((reason) => reason.field === field)?.code;

function expectOrdered({ low, median, high }: Range): void {
  expect(low).toBeLessThanOrEqual(median);
  expect(median).toBeLessThanOrEqual(high);
}

const dueItems = async (query: string) =>
  (await read<{ items: Record<string, unknown>[] }>(service, `/v1/reports/due-soon?limit=200&${query}`))
    .items;

describe('a vehicle with even wear', () => {
  // 11 mm new; 0.1 mm per 1000 km; 40 km a day: 2 mm above the indicator's 3 mm last 20,000 km, 500 days.
  const visits = [
    visitBody('2024-06-16', 20_000, fourPads([9, 9, 9, 9])),
    visitBody('2025-10-29', 40_000, fourPads([7, 7, 7, 7])),
    visitBody('2026-03-08', 45_200, fourPads([6.5, 6.5, 6.5, 6.5])),
  ];
  let wear: Wear;
  beforeAll(async () => {
    const inService = { date: '2023-02-02', odometer: km(0) };
    wear = await wearAfter(vehicleBody({ inService }), visits);
  });

  it('the wear answer is as at the latest visit', () => {
    expect(wear.asAt).toEqual({ date: '2026-03-08', odometerKm: 45_200 });
    expect(wear.reasons).toEqual([]);
    expect(wear.usage.kmPerDay!.median).toBeCloseTo(40, -1);
    expectOrdered(wear.usage.kmPerDay!);
  });

  it('every pad has its rate, remaining thickness and limits', () => {
    expect(front(wear).pads.map(({ side, pad }) => `${side} ${pad}`)).toEqual([
      'left inner',
      'left outer',
      'right inner',
      'right outer',
    ]);
    for (const pad of front(wear).pads) {
      expect(pad.readings).toBe(3);
      expect(pad.fitted).toEqual({ date: '2023-02-02', odometerKm: 0 });
      expect(pad.latest).toEqual({ valueMm: 6.5, date: '2026-03-08' });
      expectOrdered(pad.ratePer1000KmMm!);
      expect(pad.ratePer1000KmMm!.median).toBeGreaterThan(0.09);
      expect(pad.ratePer1000KmMm!.median).toBeLessThan(0.11);
      expectOrdered(pad.remainingMm!);
      expect(pad.remainingMm!.median).toBeCloseTo(3.5, 0);
      expect(pad.limits).toMatchObject([
        {
          source: 'wear-indicator',
          limitMm: 3,
          failsAt: 'at-or-below',
          fails: false,
          conformity: 'conforms',
          governs: true,
        },
        {
          source: 'maker',
          limitMm: 2,
          failsAt: 'at-or-below',
          fails: false,
          conformity: 'conforms',
          governs: false,
        },
      ]);
    }
  });

  it('the distance and dates follow from the rate and the remaining thickness', () => {
    const { replacement } = front(wear);
    const { distanceKm, date } = replacement;
    expect(replacement.limitMm).toBe(3);
    expect(replacement.overdue).toBe(false);
    expect(replacement.reasons).toEqual([]);
    expect(distanceKm!.early).toBeLessThan(distanceKm!.median!);
    expect(distanceKm!.median).toBeLessThan(distanceKm!.late!);
    // The first of four pads reaches the limit somewhat before an even pad's 35,000 km.
    expect(distanceKm!.median).toBeGreaterThan(25_000);
    expect(distanceKm!.median).toBeLessThan(36_000);
    expect(date!.early! > '2026-09-01').toBe(true);
    expect(date!.early! < date!.median! && date!.median! < date!.late!).toBe(true);
    const days = (Date.parse(date!.median!) - Date.parse('2026-03-08')) / 86_400_000;
    expect(days).toBeGreaterThan(25_000 / 44);
    expect(days).toBeLessThan(36_000 / 36);
  });

  it('the basis of the answer is given in figures and words', () => {
    const { basis } = front(wear).replacement;
    expect(basis.readings).toBe(12);
    expect(basis.experience).toBe('starting-values');
    expect(basis.words).toMatch(/^12 readings .*starting values/);
  });

  it('a vehicle with even wear has no findings', () => {
    expect(front(wear).findings).toEqual([]);
    expect(codes(wear.cautions)).toContain('maker-law-and-licence');
  });
});

describe('missing data', () => {
  it('a vehicle without any specification has no remaining thickness and date, but a rate', async () => {
    const vehicle = { externalId: 'bare', axles: { front: {} } };
    const wear = await wearAfter(vehicle, [
      visitBody('2025-03-01', 20_000, fourPads([9, 9, 9, 9])),
      visitBody('2026-03-01', 40_000, fourPads([7, 7, 7, 7])),
    ]);
    const pad = padOf(wear);
    expect(pad.ratePer1000KmMm!.median).toBeCloseTo(0.1, 1);
    expect([pad.limits, pad.remainingMm, reasonFor(pad.reasons, 'remainingMm')]).toEqual([
      [],
      null,
      'no-limit',
    ]);
    const { replacement } = front(wear);
    expect(replacement).toMatchObject({
      date: null,
      distanceKm: null,
      governingPad: null,
      limitMm: null,
      overdue: false,
    });
    expect(reasonFor(replacement.reasons, 'date')).toBe('no-limit');
  });

  it('a vehicle without a visit has only nulls, with reasons', async () => {
    const wear = await wearAfter(vehicleBody(), []);
    expect(wear.asAt).toBeNull();
    expect(reasonFor(wear.reasons, 'asAt')).toBe('no-visits');
    expect(reasonFor(wear.usage.reasons, 'kmPerDay')).toBe('no-odometer');
    expect(reasonFor(front(wear).replacement.reasons, 'date')).toBe('no-readings');
    expect(front(wear).replacement.untilNextVisit.chanceLimitReached).toBeNull();
    expect(padOf(wear)).toMatchObject({ readings: 0, latest: null });
  });

  it('a vehicle without readings has no date', async () => {
    const wear = await wearAfter(vehicleBody(), [visitBody('2026-03-01', 61_240)]);
    const { replacement } = front(wear);
    expect([replacement.date, replacement.overdue]).toEqual([null, false]);
    expect(reasonFor(replacement.reasons, 'date')).toBe('no-readings');
    expect(reasonFor(padOf(wear).reasons, 'latest')).toBe('no-readings');
    expect(reasonFor(padOf(wear).reasons, 'remainingMm')).toBe('no-readings');
    expect(replacement.basis.readings).toBe(0);
  });

  it('a drum axle that was never measured gets a reason, and other axles are answered', async () => {
    const axles = { front: axleWith(11, 2), rear: { brake: 'drum' } };
    const wear = await wearAfter(vehicleBody({ axles }), [
      visitBody('2026-03-01', 61_240, fourPads([7, 7, 7, 7])),
    ]);
    const [first, rear] = wear.axles;
    expect([first!.axle, rear!.axle]).toEqual(['front', 'rear']);
    expect(rear!.pads.map(({ latest }) => latest)).toEqual([null, null, null, null]);
    expect(rear!.rotors).toEqual([]);
    expect(reasonFor(rear!.replacement.reasons, 'date')).toBe('no-readings');
    expect(first!.replacement.date).not.toBeNull();
  });

  it('a vehicle that does not exist gets 404', async () => {
    expect((await service.as('technician', 'get', '/v1/vehicles/nobody/wear')).status).toBe(404);
    expect((await service.as('technician', 'get', '/v1/vehicles/nobody/wear?asOf=2026-01-01')).status).toBe(
      404,
    );
  });
});

describe('a single reading', () => {
  it('a single reading gives an answer with its basis, and a wider interval than two readings', async () => {
    const first = visitBody('2025-03-01', 30_000, fourPads([8, 8, 8, 8]));
    const second = visitBody('2026-03-01', 45_000, fourPads([6.5, 6.5, 6.5, 6.5]));
    const one = front(await wearAfter(vehicleBody(), [first]));
    const two = front(await wearAfter(vehicleBody(), [first, second]));
    const width = ({ low, median, high }: Range) => (high - low) / median;
    expect(one.replacement.date!.late).not.toBeNull();
    expect(width(one.pads[0]!.ratePer1000KmMm!)).toBeGreaterThan(width(two.pads[0]!.ratePer1000KmMm!));
  });

  it('one pad’s reading gives an answer for the axle', async () => {
    const wear = await wearAfter(vehicleBody({ inService: null }), [
      visitBody('2026-03-01', 45_000, [padReading('right', 'outer', 4)]),
    ]);
    const { replacement } = front(wear);
    expect(replacement.governingPad).toEqual({ side: 'right', pad: 'outer' });
    expect(replacement.date!.median).not.toBeNull();
    expect(replacement.basis.readings).toBe(1);
    expect(replacement.basis.words).toMatch(/^1 reading /);
  });
});

describe('a parked vehicle', () => {
  it('a parked vehicle gets finite answers, an early date, and a finding that its use has changed', async () => {
    const vehicle = vehicleBody({ inService: { date: '2020-01-01', odometer: km(0) } });
    const visits = ['2023-03-01', '2024-03-01', '2025-03-01', '2026-03-01'].map((date) =>
      visitBody(date, 20_000, fourPads([8, 8, 8, 8])),
    );
    const wear = await wearAfter(vehicle, visits);
    const { distanceKm, date, overdue, reasons } = front(wear).replacement;
    expect(distanceKm!.median).toBeGreaterThan(10_000);
    expect(overdue).toBe(false);
    // By hand: 20,000 km in the three years before it was parked are 17.3 km a day.
    expect(wear.usage.kmPerDay!.median).toBeLessThan(30);
    expect(date!.early).not.toBeNull();
    expect(date!.early! > '2026-03-01').toBe(true);
    expect(codes(front(wear).findings)).toContain('use-changed');
    if (date!.late === null) expect(reasonFor(reasons, 'date')).toBe('beyond-30-years');
  });

  it('a vehicle that never moved since its first reading gets the same answers', async () => {
    const wear = await wearAfter(vehicleBody({ inService: null }), [
      visitBody('2025-03-01', 0, fourPads([11, 11, 11, 11])),
      visitBody('2026-03-01', 0, fourPads([11, 11, 11, 11])),
    ]);
    expect(front(wear).replacement.distanceKm!.median).toBeGreaterThan(0);
    expect(front(wear).findings).toEqual([]);
  });
});

describe('a reading below its limit', () => {
  it('a reading below its limit makes the axle overdue, has a stop finding and is in due-soon', async () => {
    const { id } = await recordHistory(service, vehicleBody({ fleet: 'below' }), [
      visitBody('2026-03-01', 61_240, fourPads([1.5, 6, 6, 6])),
    ]);
    const wear = await wearOf(id);
    const { replacement, findings } = front(wear);
    expect(replacement).toMatchObject({
      overdue: true,
      governingPad: { side: 'left', pad: 'inner' },
      distanceKm: { early: 0, median: 0 },
      date: { early: '2026-03-01', median: '2026-03-01' },
    });
    expect(padOf(wear).limits[0]).toMatchObject({ fails: true, conformity: 'does-not-conform' });
    const [stop] = findings;
    expect(stop).toMatchObject({ severity: 'stop', side: 'left', pad: 'inner', axle: 'front' });
    expect(stop!.numbers).toMatchObject({ readingMm: 1.5, limitMm: 3 });
    expect(stop!.check).not.toBe('');
    expect(await dueItems('fleet=below&withinDays=0&chance=1e0'.replace('1e0', '0.9'))).toMatchObject([
      { vehicleId: id, axle: 'front', overdue: true, earlyDate: '2026-03-01', limitMm: 3 },
    ]);
  });

  it('a reading at the limit fails, one just above it is too close to tell; both are stops', async () => {
    for (const [value, code] of [
      [3, 'pad-at-limit'],
      [3.05, 'pad-too-close-to-limit'],
    ] as const) {
      const wear = await wearAfter(vehicleBody(), [
        visitBody('2026-03-01', 61_240, [padReading('left', 'inner', value)]),
      ]);
      const [finding] = front(wear).findings;
      expect([finding!.code, finding!.severity]).toEqual([code, 'stop']);
    }
  });

  it('a reading below its limit makes the axle overdue without any odometer reading too', async () => {
    const { id } = await recordHistory(service, vehicleBody({ fleet: 'below-2', inService: null }), [
      visitBody('2026-03-01', null, fourPads([1.5, 6, 6, 6])),
    ]);
    const wear = await read<Wear>(service, `/v1/vehicles/${id}/wear`);
    expect(front(wear).replacement).toMatchObject({ overdue: true, date: { early: '2026-03-01' } });
    expect(codes(front(wear).findings)).toContain('pad-at-limit');
    expect(await dueItems('fleet=below-2')).toMatchObject([{ vehicleId: id, overdue: true }]);
  });

  it('the gauge decides whether a reading is too close to tell', async () => {
    const withGauge = async (gauge: string | undefined) => {
      const reading = padReading('left', 'inner', 4, { gauge });
      const wear = await wearAfter(vehicleBody(), [visitBody('2026-03-01', 61_240, [reading])]);
      return padOf(wear).limits[0]!.conformity;
    };
    expect(await withGauge('depth-gauge')).toBe('conforms');
    expect(await withGauge('pad-gauge')).toBe('conforms');
    expect(await withGauge('visual')).toBe('inconclusive');
    // Without a named gauge the service assumes a coarse one: 1 mm / √12 × 1.96 reaches 0.57 mm.
    expect(await withGauge(undefined)).toBe('conforms');
  });
});

describe('a vehicle whose date has come', () => {
  it('a vehicle whose date has come is overdue from the median date on, without a new reading', async () => {
    const { id } = await recordHistory(service, vehicleBody({ fleet: 'come' }), [
      visitBody('2026-03-01', 61_240, fourPads([4, 4, 4, 4])),
    ]);
    const { median } = front(await wearOf(id)).replacement.date!;
    const dayBefore = new Date(Date.parse(median!) - 86_400_000).toISOString();
    service.setClock(dayBefore);
    expect(front(await wearOf(id)).replacement.overdue).toBe(false);
    service.setClock(`${median}T00:00:01Z`);
    expect(front(await wearOf(id)).replacement.overdue).toBe(true);
    expect(await dueItems('fleet=come&withinDays=0')).toMatchObject([{ vehicleId: id, overdue: true }]);
    service.setClock(NOW);
  });
});

describe('a vehicle with an unknown in-service date', () => {
  it('each life starts from its first reading, and the answer says so', async () => {
    const wear = await wearAfter(vehicleBody({ inService: null }), [
      visitBody('2025-03-01', 20_000, fourPads([9, 9, 9, 9])),
      visitBody('2026-03-01', 40_000, fourPads([7, 7, 7, 7])),
    ]);
    const pad = padOf(wear);
    expect([pad.fitted, reasonFor(pad.reasons, 'fitted')]).toEqual([null, 'fitting-unknown']);
    expect(pad.readings).toBe(2);
    expect(pad.ratePer1000KmMm!.median).toBeCloseTo(0.1, 1);
    expect(front(wear).replacement.date!.median).not.toBeNull();
  });
});

describe('a vehicle without any odometer reading', () => {
  it('a vehicle without any odometer reading gets its remaining thickness and dates, and no rate or distance', async () => {
    const { id } = await recordHistory(service, vehicleBody({ inService: { date: '2023-05-04' } }), [
      visitBody('2025-03-01', null, fourPads([9, 9, 9, 9])),
      visitBody('2026-03-01', null, fourPads([7, 7, 7, 7])),
    ]);
    const wear = await read<Wear>(service, `/v1/vehicles/${id}/wear`);
    expect(reasonFor(wear.usage.reasons, 'kmPerDay')).toBe('no-odometer');
    const pad = padOf(wear);
    expect([pad.ratePer1000KmMm, reasonFor(pad.reasons, 'ratePer1000KmMm')]).toEqual([null, 'no-odometer']);
    expect(pad.latest!.valueMm).toBe(7);
    // The earlier reading also counts.
    expect(Math.abs(pad.remainingMm!.median - 4)).toBeLessThan(0.1);
    const { date, distanceKm, reasons, overdue } = front(wear).replacement;
    // By hand: 2 mm in the last year, 4 mm in the 1032 days since it was new; the 4 mm above 3 mm last until March 2028
    // at the former and until December 2028 at the latter.
    expect(date!.median! > '2027-09-01' && date!.median! < '2029-06-30', date!.median!).toBe(true);
    expect([distanceKm?.median ?? null, overdue]).toEqual([null, false]);
    expect(reasonFor(reasons, 'distanceKm')).toBe('no-odometer');
  });

  it('a visit without an odometer reading between others counts by its date', async () => {
    const wear = await wearAfter(vehicleBody({ inService: { date: '2023-03-01', odometer: km(0) } }), [
      visitBody('2024-03-01', 20_000, fourPads([9, 9, 9, 9])),
      visitBody('2025-03-01', null, fourPads([7, 7, 7, 7])),
      visitBody('2026-03-01', 60_000, fourPads([5, 5, 5, 5])),
    ]);
    expect(padOf(wear).readings).toBe(3);
    expect(padOf(wear).ratePer1000KmMm!.median).toBeCloseTo(0.1, 1);
  });
});

describe('a replacement of pads', () => {
  const before = visitBody('2025-03-01', 40_000, fourPads([5, 5, 5, 5]));

  it('a replacement of pads separates as-found from as-left readings', async () => {
    const wear = await wearAfter(vehicleBody(), [
      before,
      visitBody(
        '2026-03-01',
        60_000,
        [...fourPads([3.2, 3.2, 3.2, 3.2]), ...fourPads([11, 11, 11, 11], { taken: 'as-left' })],
        { work: [{ kind: 'pads-replaced', axle: 'front' }] },
      ),
    ]);
    for (const pad of front(wear).pads) {
      expect(pad.readings).toBe(1);
      expect(pad.latest).toEqual({ valueMm: 11, date: '2026-03-01' });
      expect(pad.fitted).toEqual({ date: '2026-03-01', odometerKm: 60_000 });
      expect(pad.remainingMm!.median).toBeCloseTo(8, 0);
      // What the old set showed about the rate is used as far as it was certainly the original set.
      expect(pad.ratePer1000KmMm!.median).toBeGreaterThan(0.09);
      expect(pad.ratePer1000KmMm!.median).toBeLessThan(0.17);
    }
    expect(front(wear).findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
    expect(front(wear).replacement.overdue).toBe(false);
  });

  it('wear counts from the new thickness until a later reading', async () => {
    const wear = await wearAfter(vehicleBody(), [
      before,
      visitBody('2026-03-01', 60_000, fourPads([1, 1, 1, 1]), {
        work: [{ kind: 'pads-replaced', axle: 'front' }],
      }),
    ]);
    const pad = padOf(wear);
    expect([pad.readings, pad.latest, reasonFor(pad.reasons, 'latest')]).toEqual([0, null, 'no-readings']);
    expect(pad.remainingMm!.median).toBeCloseTo(8, 0);
    expect(front(wear).replacement).toMatchObject({ overdue: false, basis: { readings: 0 } });
    expect(front(wear).replacement.date!.early! > '2026-06-01').toBe(true);
    expect(codes(front(wear).findings)).not.toContain('pad-at-limit');
  });

  it('as-left readings of a visit without a replacement belong to the same life', async () => {
    const wear = await wearAfter(vehicleBody(), [
      visitBody('2026-03-01', 60_000, [
        padReading('left', 'inner', 5),
        padReading('left', 'inner', 4.8, { taken: 'as-left' }),
      ]),
    ]);
    expect(padOf(wear).readings).toBe(2);
    expect(padOf(wear).latest!.valueMm).toBe(4.8);
  });

  it('the specification of a replacement applies to the parts fitted then', async () => {
    const wear = await wearAfter(vehicleBody(), [
      visitBody('2026-03-01', 60_000, [], {
        work: [{ kind: 'pads-replaced', axle: 'front', new: mm(14), limit: mm(4) }],
      }),
    ]);
    const pad = padOf(wear);
    expect(pad.limits).toMatchObject([
      { source: 'maker', limitMm: 4, governs: true },
      { source: 'wear-indicator', limitMm: 3, governs: false },
    ]);
    expect(pad.remainingMm!.median).toBeCloseTo(10, 0);
    expect(front(wear).replacement.limitMm).toBe(4);
  });

  it('a replacement on one side leaves the other side’s life unchanged', async () => {
    const wear = await wearAfter(vehicleBody(), [
      before,
      visitBody('2026-03-01', 60_000, fourPads([3.2, 3.2, 3.2, 3.2]), {
        work: [{ kind: 'pads-replaced', axle: 'front', side: 'left' }],
      }),
    ]);
    for (const name of ['inner', 'outer']) {
      expect(padOf(wear, 'left', name)).toMatchObject({ readings: 0, fitted: { date: '2026-03-01' } });
      expect(padOf(wear, 'right', name)).toMatchObject({ readings: 2, fitted: { date: '2023-05-04' } });
    }
    expect(front(wear).replacement.governingPad!.side).toBe('right');
  });

  it('a replacement on another axle changes nothing here', async () => {
    const axles = { front: axleWith(11, 2), rear: axleWith(10, 2) };
    const wear = await wearAfter(vehicleBody({ axles }), [
      before,
      visitBody('2026-03-01', 60_000, [], { work: [{ kind: 'pads-replaced', axle: 'rear' }] }),
    ]);
    expect(padOf(wear)).toMatchObject({ readings: 1, fitted: { date: '2023-05-04' } });
  });

  it('a replacement of pads may be listed before or after its reading', async () => {
    const visits = [
      before,
      visitBody('2025-06-01', 45_000, [], { work: [{ kind: 'pads-replaced', axle: 'front' }] }),
      visitBody('2026-03-01', 60_000, fourPads([9, 9, 9, 9])),
    ];
    const straight = await wearAfter(vehicleBody(), visits);
    const reversed = await wearAfter(vehicleBody(), [...visits].reverse());
    expect(padOf(reversed)).toEqual(padOf(straight));
    expect(padOf(straight)).toMatchObject({
      readings: 1,
      fitted: { date: '2025-06-01', odometerKm: 45_000 },
    });
  });
});

describe('several readings of one pad', () => {
  const lookedAt = (readings: Body[]) =>
    wearAfter(vehicleBody(), [visitBody('2026-03-01', 60_000, readings)]);

  it('repeats of one place are averaged', async () => {
    const wear = await lookedAt([
      padReading('left', 'inner', 7),
      padReading('left', 'inner', 7.4, { repeat: 2 }),
    ]);
    expect(padOf(wear)).toMatchObject({ readings: 1, latest: { valueMm: 7.2 } });
  });

  it('the thinnest of several places counts, and taper is found', async () => {
    const wear = await lookedAt([
      padReading('left', 'inner', 7, { at: 'leading' }),
      padReading('left', 'inner', 6, { at: 'centre' }),
      padReading('left', 'inner', 5, { at: 'trailing' }),
    ]);
    expect(padOf(wear).latest!.valueMm).toBe(5);
    const taper = front(wear).findings.find(({ code }) => code === 'taper');
    expect(taper).toMatchObject({
      side: 'left',
      pad: 'inner',
      severity: 'check',
      numbers: { differenceMm: 2 },
    });
  });
});

describe('findings in the wear answer', () => {
  const after = async (...visits: Body[]) => front(await wearAfter(vehicleBody(), visits)).findings;

  it('findings in the wear answer name uneven wear between inner and outer, and left and right', async () => {
    const findings = await after(visitBody('2026-03-01', 60_000, fourPads([4, 8, 8, 8])));
    expect(findings.find(({ code }) => code === 'uneven-inner-outer')).toMatchObject({
      side: 'left',
      pad: 'inner',
    });
    expect(findings.find(({ code }) => code === 'uneven-left-right')).toMatchObject({
      side: 'left',
      pad: 'inner',
    });
    for (const { check, numbers } of findings) {
      expect(check).toMatch(/\?|\./);
      expect(Object.keys(numbers).length).toBeGreaterThan(0);
    }
  });

  it('findings in the wear answer do not name differences within reading error', async () => {
    const readings = fourPads([6.5, 7, 7, 6.5], { gauge: 'pad-gauge' });
    expect(await after(visitBody('2026-03-01', 60_000, readings))).toEqual([]);
  });

  it('findings in the wear answer name a reading thicker than the last without a replacement', async () => {
    const findings = await after(
      visitBody('2025-03-01', 40_000, fourPads([6, 6, 6, 6])),
      visitBody('2026-03-01', 60_000, fourPads([9, 5, 5, 5])),
    );
    expect(findings.find(({ code }) => code === 'thicker-than-before')).toMatchObject({
      side: 'left',
      pad: 'inner',
      numbers: { growthMm: 3 },
    });
  });

  it('findings in the wear answer name a torque outside its specification, and none inside', async () => {
    const torqued = (value: number, unit: string) => ({
      torques: [{ fastener: 'caliper-bracket-bolt', axle: 'front', side: 'left', value, unit }],
    });
    const loose = await after(visitBody('2026-03-01', 60_000, fourPads([7, 7, 7, 7]), torqued(109, 'Nm')));
    expect(loose).toMatchObject([
      { code: 'torque-outside-specification', side: 'left', numbers: { torqueNm: 109 } },
    ]);
    expect(await after(visitBody('2026-03-01', 60_000, fourPads([7, 7, 7, 7]), torqued(110, 'Nm')))).toEqual(
      [],
    );
    expect(
      await after(visitBody('2026-03-01', 60_000, fourPads([7, 7, 7, 7]), torqued(88, 'ft-lbf'))),
    ).toEqual([]);
    expect(
      codes(await after(visitBody('2026-03-01', 60_000, fourPads([7, 7, 7, 7]), torqued(100, 'ft-lbf')))),
    ).toEqual(['torque-outside-specification']);
  });
});

describe('rotors in the wear answer', () => {
  const points = (side: 'left' | 'right', values: number[], more: Body = {}) =>
    values.map((value, index) => rotorReading(side, value, { point: index + 1, ...more }));
  const both = (values: number[]) => [...points('left', values), ...points('right', values)];
  const measured = (readings: Body[], more: Body = {}) =>
    wearAfter(vehicleBody(), [
      visitBody('2026-03-01', 60_000, [...fourPads([7, 7, 7, 7]), ...readings], more),
    ]);

  it('the margin comes from the thinnest point, with its uncertainty and future margins', async () => {
    const rotor = rotorOf(await measured(both([27.5, 27.48, 27.49, 27.5])));
    expect(rotor).toMatchObject({
      side: 'left',
      thinnestMm: 27.48,
      discardMm: 26,
      marginMm: 1.48,
      conformity: 'conforms',
      variationMm: 0.02,
      decision: 'keep',
    });
    expect(rotor.marginStandardUncertaintyMm).toBeCloseTo(0.01 / Math.sqrt(12), 5);
    expectOrdered(rotor.ratePer1000KmMm!);
    expectOrdered(rotor.marginAtPadReplacementMm!);
    expectOrdered(rotor.marginAfterNextPadSetMm!);
    expect(rotor.marginAtPadReplacementMm!.median).toBeLessThan(1.48);
    expect(rotor.marginAfterNextPadSetMm!.median).toBeLessThan(rotor.marginAtPadReplacementMm!.median);
    expect(rotor.decisionReasons.length).toBeGreaterThan(0);
  });

  it('readings of rotors in inches are accepted', async () => {
    const rotor = rotorOf(await measured([rotorReading('left', 1.081, { unit: 'in' })]));
    expect([rotor.thinnestMm, rotor.marginMm]).toEqual([27.4574, 1.4574]);
  });

  it('rotors under discard are replaced in pairs, with a stop', async () => {
    const wear = await measured([
      ...points('left', [25.9, 25.9, 25.9, 25.9]),
      ...points('right', [27, 27, 27, 27]),
    ]);
    expect(rotorOf(wear)).toMatchObject({
      decision: 'replace',
      conformity: 'does-not-conform',
      marginMm: -0.1,
    });
    expect(rotorOf(wear, 'right').decision).toBe('replace');
    expect(front(wear).findings).toContainEqual(
      expect.objectContaining({ code: 'rotor-under-discard', severity: 'stop', side: 'left' }),
    );
  });

  it('rotors too close to tell are measured again, with a stop', async () => {
    const readings = [rotorReading('left', 26.03, { gauge: 'caliper' })];
    const wear = await measured(readings);
    expect(rotorOf(wear)).toMatchObject({ decision: 'measure', conformity: 'inconclusive' });
    expect(front(wear).findings).toContainEqual(expect.objectContaining({ severity: 'stop', side: 'left' }));
  });

  it('cracked rotors are replaced whatever their thickness', async () => {
    const conditions = [{ part: 'rotor', axle: 'front', side: 'right', state: 'cracked' }];
    const wear = await measured(both([27.5, 27.5, 27.5, 27.5]), { conditions });
    expect(rotorOf(wear, 'right').decision).toBe('replace');
    expect(codes(rotorOf(wear, 'right').decisionReasons)).toContain('cracked');
    expect(front(wear).findings).toContainEqual(
      expect.objectContaining({ code: 'rotor-cracked', severity: 'stop', side: 'right' }),
    );
  });

  it('rotors with run-out over the limit are cleaned, re-indexed and measured first', async () => {
    const runout = {
      kind: 'rotor-runout',
      axle: 'front',
      side: 'left',
      value: 0.09,
      unit: 'mm',
      gauge: 'dial-indicator',
    };
    const wear = await measured([...both([27.5, 27.5, 27.5, 27.5]), runout]);
    expect(rotorOf(wear)).toMatchObject({ runoutMm: 0.09, decision: 'measure' });
    expect(rotorOf(wear).decisionReasons[0]!.detail).toMatch(/clean the hub.*re-index.*measure again/);
    expect(codes(front(wear).findings)).toContain('runout-over-limit');
  });

  it('run-out and variation without a recorded limit appear as notes, neither judged nor omitted', async () => {
    const rotor = { new: mm(28), discard: mm(26), machineTo: mm(26.4) };
    const vehicle = vehicleBody({ axles: { front: { ...axleWith(11, 2), rotor } } });
    const runout = { kind: 'rotor-runout', axle: 'front', unit: 'mm', gauge: 'dial-indicator' };
    const wear = await wearAfter(vehicle, [
      visitBody('2026-03-01', 60_000, [
        ...fourPads([7, 7, 7, 7]),
        ...points('left', [27.5, 27.4, 27.5, 27.45]),
        ...points('right', [27.5, 27.5, 27.5, 27.5]),
        { ...runout, side: 'left', value: 0.09 },
        { ...runout, side: 'right', value: 0 },
      ]),
    ]);
    const said = front(wear).findings.filter(({ code }) => code.endsWith('-without-limit'));
    expect(said).toMatchObject([
      {
        code: 'runout-without-limit',
        side: 'left',
        severity: 'note',
        message:
          'Left rotor run-out is 0.09 mm; no run-out limit is recorded for this vehicle, so the service does not judge it.',
        check: 'Compare it with the maker’s limit, and record that limit with the vehicle’s rotors.',
        numbers: { runoutMm: 0.09 },
      },
      {
        code: 'thickness-variation-without-limit',
        side: 'left',
        severity: 'note',
        message:
          'Left rotor thickness varies by 0.1 mm; no variation limit is recorded for this vehicle, so the service does not judge it.',
        numbers: { variationMm: 0.1 },
      },
    ]);
    expect(rotorOf(wear)).toMatchObject({
      runoutConformity: null,
      variationConformity: null,
      decision: 'keep',
    });
  });

  it('rotors with variation over the limit are machined if enough is left, otherwise replaced', async () => {
    const thick = await measured(both([27.5, 27.4, 27.5, 27.45]));
    expect(rotorOf(thick)).toMatchObject({ variationMm: 0.1, decision: 'machine' });
    expect(codes(front(thick).findings)).toContain('thickness-variation-over-limit');
    const thin = await measured(both([26.6, 26.5, 26.6, 26.55]));
    expect(rotorOf(thin).decision).toBe('replace');
  });

  it('rotors without a discard thickness or a reading are to be measured, with the reason', async () => {
    const { rotor: _rotor, ...axle } = axleWith(11, 2);
    const bare = await wearAfter(vehicleBody({ axles: { front: axle } }), [
      visitBody('2026-03-01', 60_000, [rotorReading('left', 27)]),
    ]);
    expect(rotorOf(bare)).toMatchObject({ discardMm: null, marginMm: null, decision: 'measure' });
    expect(reasonFor(rotorOf(bare).reasons, 'marginMm')).toBe('no-discard');
    const unread = await measured([]);
    expect(rotorOf(unread)).toMatchObject({ thinnestMm: null, marginMm: null, decision: 'measure' });
    expect(reasonFor(rotorOf(unread).reasons, 'thinnestMm')).toBe('no-readings');
  });

  it('a machined rotor starts a new life', async () => {
    const wear = await wearAfter(vehicleBody(), [
      visitBody('2025-03-01', 40_000, both([27.6, 27.6, 27.6, 27.6])),
      visitBody(
        '2026-03-01',
        60_000,
        [
          ...both([27.4, 27.3, 27.4, 27.4]),
          ...points('left', [26.9, 26.9, 26.9, 26.9], { taken: 'as-left' }),
        ],
        { work: [{ kind: 'rotor-machined', axle: 'front', side: 'left' }] },
      ),
    ]);
    expect(rotorOf(wear)).toMatchObject({ readings: 1, thinnestMm: 26.9, marginMm: 0.9, discardMm: 26 });
    expect(rotorOf(wear, 'right')).toMatchObject({ readings: 2, thinnestMm: 27.3 });
    // Machining took the half millimetre, not wear.
    expect(rotorOf(wear).ratePer1000KmMm!.high).toBeLessThan(0.03);
  });

  it('a replaced rotor starts a new life with its new specification', async () => {
    const wear = await wearAfter(vehicleBody(), [
      visitBody('2025-03-01', 40_000, both([27.6, 27.6, 27.6, 27.6])),
      visitBody('2026-03-01', 60_000, fourPads([7, 7, 7, 7]), {
        work: [{ kind: 'rotor-replaced', axle: 'front', new: mm(30), discard: mm(27.5) }],
      }),
    ]);
    expect(rotorOf(wear)).toMatchObject({ readings: 0, thinnestMm: null, discardMm: 27.5, marginMm: null });
    expect(rotorOf(wear).marginAtPadReplacementMm!.median).toBeGreaterThan(1.5);
  });

  it('a single point gives no variation, with a reason', async () => {
    const rotor = rotorOf(await measured([rotorReading('left', 27.4)]));
    expect([rotor.variationMm, reasonFor(rotor.reasons, 'variationMm')]).toEqual([null, 'too-few-points']);
  });
});

describe('the parameter asOf', () => {
  it('the parameter asOf gives the answer that was given on that date', async () => {
    const { id } = await recordVehicle(service, vehicleBody());
    service.setClock('2025-03-05T12:00:00Z');
    await recordVisit(service, id, visitBody('2025-03-01', 40_000, fourPads([6, 6, 6, 6])));
    const then = await wearOf(id);
    service.setClock(NOW);
    await recordVisit(service, id, visitBody('2026-03-01', 60_000, fourPads([3, 3, 3, 3])));
    await recordVisit(
      service,
      id,
      visitBody('2025-03-06', 40_100, [], { work: [{ kind: 'pads-replaced', axle: 'front' }] }),
    );
    expect(await wearOf(id)).not.toEqual(then);
    expect(await wearOf(id, '?asOf=2025-03-05')).toEqual(then);
  });

  it('visits dated on the day of asOf count', async () => {
    const { id } = await recordHistory(service, vehicleBody(), [
      visitBody('2025-03-01', 40_000, fourPads([6, 6, 6, 6])),
      visitBody('2026-03-01', 60_000, fourPads([4, 4, 4, 4])),
    ]);
    expect((await wearOf(id, '?asOf=2026-03-01')).asAt!.date).toBe('2026-03-01');
    expect((await wearOf(id, '?asOf=2026-02-28')).asAt!.date).toBe('2025-03-01');
    expect((await wearOf(id, '?asOf=2025-02-28')).asAt).toBeNull();
    expect(await wearOf(id, `?asOf=${TODAY}`)).toEqual(await wearOf(id));
  });
});

describe('the forecast until the next visit', () => {
  const next = async (id: string, query = '') => front(await wearOf(id, query)).replacement.untilNextVisit;
  const spaced = (dates: string[]) =>
    dates.map((date, index) =>
      visitBody(date, 20_000 * (index + 1), fourPads([9 - index, 9 - index, 9 - index, 9 - index])),
    );

  it('the forecast until the next visit uses the requested date', async () => {
    const { id } = await recordHistory(service, vehicleBody(), [
      visitBody('2026-03-01', 61_240, fourPads([5, 5, 5, 5])),
    ]);
    let last = 0;
    for (const until of ['2026-03-01', '2026-06-01', '2026-12-01', '2027-12-01', '2035-01-01']) {
      const answer = await next(id, `?until=${until}`);
      expect(answer).toMatchObject({ date: until, dateSource: 'until' });
      expect(answer.chanceLimitReached).toBeGreaterThanOrEqual(last);
      last = answer.chanceLimitReached!;
    }
    expect(last).toBeGreaterThan(0.9);
  });

  it('the forecast until the next visit agrees with the dates: by the median date half have reached the limit', async () => {
    const { id } = await recordHistory(
      service,
      vehicleBody(),
      spaced(['2024-03-01', '2025-03-01', '2026-03-01']),
    );
    const { date } = front(await wearOf(id)).replacement;
    for (const [until, chance] of [
      [date!.early, 0.1],
      [date!.median, 0.5],
      [date!.late, 0.9],
    ] as const) {
      expect((await next(id, `?until=${until}`)).chanceLimitReached).toBeCloseTo(chance, 2);
    }
  });

  it('the forecast until the next visit follows the rhythm of the visits, otherwise the shop’s interval', async () => {
    const rhythmic = await recordHistory(
      service,
      vehicleBody(),
      spaced(['2025-09-01', '2025-12-01', '2026-03-01']),
    );
    expect(await next(rhythmic.id)).toMatchObject({ dateSource: 'rhythm', date: '2026-05-31' });
    const two = await recordHistory(service, vehicleBody(), spaced(['2025-12-01', '2026-03-01']));
    expect(await next(two.id)).toMatchObject({ dateSource: 'policy', date: '2026-08-30' });
  });

  it('the forecast until the next visit is for today if the expected date has passed', async () => {
    const { id } = await recordHistory(
      service,
      vehicleBody(),
      spaced(['2024-03-01', '2024-06-01', '2024-09-01']),
    );
    expect(await next(id)).toMatchObject({ dateSource: 'rhythm', date: TODAY });
  });
});

describe('the cautions of an answer', () => {
  it('the cautions of an answer follow from the vehicle’s properties', async () => {
    const plain = vehicleBody({ brakeSystem: null });
    const electric = vehicleBody({
      powertrain: 'battery-electric',
      brakeSystem: { brakeByWire: true, electricParkingBrake: true },
    });
    const always = codes((await wearAfter(plain, [])).cautions);
    const more = codes((await wearAfter(electric, [])).cautions);
    expect(more).toEqual(expect.arrayContaining(always));
    expect(more.filter((code) => !always.includes(code))).toEqual([
      'high-voltage',
      'regenerative-braking',
      'brake-by-wire',
      'electric-parking-brake',
    ]);
  });
});

describe('the present date', () => {
  it('the present date is the date in the shop’s time zone', async () => {
    const east = await startService({ now: '2026-03-10T12:00:00Z', timeZone: 'Pacific/Kiritimati' });
    const { id } = await recordVehicle(east, vehicleBody());
    const visits = ['2024-03-01', '2024-06-01', '2024-09-01'];
    for (const date of visits) await recordVisit(east, id, visitBody(date, null, []));
    const wear = await read<Wear>(east, `/v1/vehicles/${id}/wear`);
    // 12:00 UTC is 02:00 the next day at UTC+14.
    expect(front(wear).replacement.untilNextVisit.date).toBe('2026-03-11');
    await east.close();
  });
});

describe('a missing odometer reading', () => {
  it('a reason names the latest visit', async () => {
    const wear = await wearAfter(vehicleBody(), [
      visitBody('2025-03-01', 60_000, fourPads([7, 7, 7, 7])),
      visitBody('2026-03-01', null, fourPads([6, 6, 6, 6])),
    ]);
    expect(wear.asAt!.odometerKm).toBeNull();
  });

  it('a reason names the fitting, at in-service or at a replacement', async () => {
    const inService = await wearAfter(vehicleBody({ inService: { date: '2023-05-04' } }), [
      visitBody('2026-03-01', 60_000, fourPads([7, 7, 7, 7])),
    ]);
    const replaced = await wearAfter(vehicleBody(), [
      visitBody('2025-03-01', null, [], { work: [{ kind: 'pads-replaced', axle: 'front' }] }),
      visitBody('2026-03-01', 60_000, fourPads([7, 7, 7, 7])),
    ]);
    for (const wear of [inService, replaced]) expect(padOf(wear).fitted!.odometerKm).toBeNull();
  });
});
