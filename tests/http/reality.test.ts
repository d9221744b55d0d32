import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { AxleWear, Wear } from '../../src/core/vocabulary/wear.js';
import { axleWith, fourPads, km, mm, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { read, recordHistory } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

/**
 * Records as a tired technician would post them: used cars, unrecorded replacements, a pad
 * that begins to drag, wrong specifications. Unless a case says otherwise the pads are 12 mm new with a limit
 * of 3 mm, all four read alike, and the vehicle went into service at 0 km.
 */

let service: Service;
beforeAll(async () => {
  service = await startService({ now: '2026-03-10T12:00:00Z' });
});
afterAll(() => service.close());

type Pads = [number, number, number, number];
const all = (value: number): Pads => [value, value, value, value];

/** Visits half a year apart, the last one at the start of March 2026. */
const halfYearly = (...visits: [odometerKm: number, pads: Pads][]): Body[] =>
  visits.map(([odometer, pads], index) => {
    const months = 6 * (visits.length - 1 - index);
    const date = new Date(Date.UTC(2026, 2 - months, 1)).toISOString().slice(0, 10);
    return visitBody(date, odometer, fourPads(pads));
  });

interface Case {
  inService: string;
  newMm?: number;
  visits: Body[];
}

async function front({ inService, newMm = 12, visits }: Case): Promise<AxleWear> {
  const vehicle = vehicleBody({
    inService: { date: inService, odometer: km(0) },
    axles: { front: axleWith(newMm, 3) },
  });
  const { id } = await recordHistory(service, vehicle, visits);
  const wear = await read<Wear>(service, `/v1/vehicles/${id}/wear`);
  return wear.axles.find(({ axle }) => axle === 'front')!;
}

const codes = ({ findings }: AxleWear): string[] => findings.map(({ code }) => code);

interface Expected {
  /** The distance left by hand, km, and the factor by which the median may differ. */
  leftKm?: number;
  within?: number;
  set?: string;
  finds?: string;
  findsNot?: string[];
}

const CASES: [string, Case, Expected][] = [
  [
    'a used car whose pads wear 1 mm in 7,500 km: 8, 7 and 6 mm at 165,000, 172,500 and 180,000 km',
    {
      inService: '2016-06-01',
      visits: halfYearly([165_000, all(8)], [172_500, all(7)], [180_000, all(6)]),
    },
    { leftKm: 22_500, within: 1.4, set: 'unknown' },
  ],
  [
    'a used car seen once, 8 mm at 180,000 km',
    { inService: '2016-06-01', visits: halfYearly([180_000, all(8)]) },
    { leftKm: 40_000, within: 2, set: 'unknown' },
  ],
  [
    'a set replaced without a record between 40,000 and 60,000 km',
    {
      inService: '2023-09-01',
      visits: halfYearly(
        [20_000, all(9.5)],
        [40_000, all(7)],
        [60_000, all(10.5)],
        [70_000, all(9.5)],
        [80_000, all(8)],
      ),
    },
    { leftKm: 38_000, within: 1.5, set: 'perhaps-replaced', finds: 'replaced-without-record' },
  ],
  [
    'a set replaced without a record between 40,000 and 48,000 km',
    {
      inService: '2023-03-01',
      visits: halfYearly([40_000, all(5)], [48_000, all(11)], [56_000, all(10)]),
    },
    { leftKm: 56_000, within: 1.5, set: 'perhaps-replaced', finds: 'replaced-without-record' },
  ],
  [
    'a left inner pad that drags since 30,000 km',
    {
      inService: '2024-06-01',
      visits: halfYearly(
        [20_000, all(10)],
        [30_000, all(9)],
        [33_000, [6.5, 8.5, 8.5, 8.5]],
        [36_000, [4.5, 8, 8, 8.5]],
      ),
    },
    { leftKm: 2_200, within: 1.6, finds: 'dragging' },
  ],
  [
    'pads specified 10 mm new that all read 12 mm',
    { inService: '2025-06-01', newMm: 10, visits: halfYearly([4_000, all(12)]) },
    { finds: 'new-thickness-doubtful', findsNot: ['thicker-than-before'] },
  ],
  [
    'new pads of 12 mm that read 14 mm as left',
    {
      inService: '2020-06-01',
      visits: [
        visitBody('2026-03-01', 60_000, [...fourPads(all(4)), ...fourPads(all(14), { taken: 'as-left' })], {
          work: [{ kind: 'pads-replaced', axle: 'front', new: mm(12) }],
        }),
      ],
    },
    { set: 'recorded', finds: 'new-thickness-doubtful', findsNot: ['reading-off-forecast', 'dragging'] },
  ],
  [
    'four pads each a good millimetre thinner than forecast',
    {
      inService: '2022-03-01',
      visits: halfYearly([20_000, all(11)], [30_000, all(10.5)], [40_000, all(10)], [50_000, all(8)]),
    },
    { finds: 'axle-off-forecast' },
  ],
  [
    'readings copied from the visit before',
    {
      inService: '2022-03-01',
      visits: halfYearly([20_000, all(10)], [35_000, all(8.5)], [50_000, all(7)], [65_000, all(7)]),
    },
    { finds: 'readings-repeated', findsNot: ['axle-off-forecast'] },
  ],
  [
    'readings copied from the only visit before',
    {
      inService: '2018-05-04',
      visits: [
        visitBody('2024-12-01', 90_000, fourPads([6.1, 6.4, 6, 6.5])),
        visitBody('2025-12-01', 112_000, fourPads([6.1, 6.4, 6, 6.5])),
      ],
    },
    { finds: 'readings-repeated', findsNot: ['axle-off-forecast', 'reading-off-forecast'] },
  ],
  [
    'equal readings after a short distance',
    {
      inService: '2022-03-01',
      visits: halfYearly([20_000, all(10)], [35_000, all(8.5)], [36_500, all(8.5)]),
    },
    { findsNot: ['readings-repeated', 'axle-off-forecast'] },
  ],
  [
    'the left side replaced and recorded',
    {
      inService: '2022-03-01',
      visits: [
        visitBody('2025-03-01', 40_000, fourPads(all(7)), {
          work: [{ kind: 'pads-replaced', axle: 'front', side: 'left', new: mm(12) }],
        }),
        visitBody('2026-03-01', 48_000, fourPads([11, 11, 6, 6])),
      ],
    },
    { findsNot: ['uneven-left-right', 'replaced-without-record'] },
  ],
];

describe('incomplete and wrong records', () => {
  it.each(CASES)('the answer is plausible for %s', async (_, sent, expected) => {
    const axle = await front(sent);
    const { basis, distanceKm } = axle.replacement;
    if (expected.leftKm !== undefined) {
      expect(distanceKm!.median!).toBeGreaterThan(expected.leftKm / expected.within!);
      expect(distanceKm!.median!).toBeLessThan(expected.leftKm * expected.within!);
    }
    if (expected.set) expect(basis.set).toBe(expected.set);
    if (basis.set !== 'recorded') expect(basis.words).not.toContain('were fitted');
    if (expected.finds) expect(codes(axle)).toContain(expected.finds);
    for (const code of expected.findsNot ?? []) expect(codes(axle)).not.toContain(code);
  });

  it('recording a replacement answers the question about an unrecorded one', async () => {
    const [, sent] = CASES.find(([title]) => title.includes('48,000 km'))!;
    const [first, ...later] = sent.visits;
    const recorded = visitBody('2025-05-01', 44_000, [], {
      work: [{ kind: 'pads-replaced', axle: 'front' }],
    });
    const axle = await front({ ...sent, visits: [first!, recorded, ...later] });
    expect(axle.replacement.basis.set).toBe('recorded');
    expect(codes(axle)).not.toContain('replaced-without-record');
  });

  it('a regenerative vehicle that wears as little as its readings say is believed when it is measured again', async () => {
    const vehicle = () =>
      vehicleBody({
        brakeSystem: { regenerative: true },
        inService: { date: '2023-03-01', odometer: km(0) },
        axles: { front: axleWith(11, 2) },
      });
    const dates = { '2024-03-01': 15_000, '2025-03-01': 30_000, '2025-09-01': 37_500, '2026-03-01': 45_000 };
    const visits = Object.entries(dates).map(([date, driven]) => visitBody(date, driven, fourPads(all(9))));
    const after = async (count: number): Promise<AxleWear> => {
      const { id } = await recordHistory(service, vehicle(), visits.slice(0, count));
      return (await read<Wear>(service, `/v1/vehicles/${id}/wear`)).axles[0]!;
    };
    const once = await after(2);
    const again = await after(4);
    expect(codes(once)).toContain('readings-repeated');
    expect(once.replacement.distanceKm!.median!).toBeLessThan(50_000);
    expect(codes(again)).not.toContain('readings-repeated');
    expect(again.replacement.distanceKm!.median!).toBeGreaterThan(200_000);
  });

  it('equal readings of a vehicle that wears little are no finding', async () => {
    const readings: [string, number, number][] = [
      ['2024-03-01', 15_000, 10.5],
      ['2025-03-01', 30_000, 10.5],
      ['2026-03-01', 45_000, 10],
    ];
    const axle = await front({
      inService: '2023-03-01',
      newMm: 11,
      visits: readings.map(([date, driven, mm]) => visitBody(date, driven, fourPads(all(mm)))),
    });
    expect(codes(axle)).not.toContain('readings-repeated');
  });

  it('figures that cannot be true give a forecast all the same', async () => {
    const vehicle = vehicleBody({
      inService: { date: '2015-01-01' },
      axles: { front: axleWith(12, 1) },
    });
    const visits = [
      visitBody('2016-12-31', 52_560, fourPads(all(9))),
      visitBody('2017-01-02', 106_524, [], {
        work: [{ kind: 'pads-replaced', axle: 'front', side: 'right' }],
      }),
      visitBody('2019-03-12', 15_321, fourPads(all(0)), { odometerReplaced: {} }),
    ];
    const { id } = await recordHistory(service, vehicle, visits);
    const { axles } = await read<Wear>(service, `/v1/vehicles/${id}/wear`);
    expect(axles[0]!.replacement).toMatchObject({ overdue: true, distanceKm: { median: 0 } });
    expect(codes(axles[0]!)).toContain('pad-at-limit');
  });

  it('an axle with a brake on one side has no pads on the other', async () => {
    const one = (value: number) => fourPads(all(value)).filter(({ side }) => side === 'left');
    const axle = await front({
      inService: '2024-03-01',
      visits: [visitBody('2025-03-01', 8_000, one(10)), visitBody('2026-03-01', 16_000, one(8))],
    });
    expect(axle.pads.map(({ side }) => side)).toEqual(['left', 'left']);
  });

  it('a governing pad that was never measured is named as such', async () => {
    const without = (value: number) =>
      fourPads(all(value)).filter(({ side, pad }) => side !== 'right' || pad !== 'inner');
    const axle = await front({
      inService: '2024-03-01',
      visits: [visitBody('2025-03-01', 20_000, without(10)), visitBody('2026-03-01', 40_000, without(8.5))],
    });
    const { governingPad, reasons } = axle.replacement;
    if (governingPad!.side === 'right' && governingPad!.pad === 'inner') {
      expect(reasons.map(({ code }) => code)).toContain('governing-pad-not-measured');
    } else expect(axle.pads.find(({ side, pad }) => side === 'right' && pad === 'inner')!.latest).toBeNull();
  });
});

type Measured = [date: string, odometerKm: number, mm: number];

/** Rotors 28 mm new with a discard thickness of 26 mm, or drums 280 mm new with a maximum of 282 mm. */
async function counterpartsAfter(
  part: 'rotor' | 'drum',
  inService: string | null,
  measured: Measured[],
): Promise<{ rate: number; years: number; axle: AxleWear }> {
  const rotor = { ...axleWith(12, 3), rotor: { new: mm(28), discard: mm(26) } };
  const drum = { brake: 'drum', drum: { new: mm(280), maximum: mm(282) } };
  const vehicle = vehicleBody({
    inService: inService && { date: inService, odometer: km(0) },
    axles: { front: part === 'rotor' ? rotor : drum },
  });
  const visits = measured.map(([date, odometer, value]) =>
    visitBody(
      date,
      odometer,
      (['left', 'right'] as const).map((side) => ({
        kind: part === 'rotor' ? 'rotor-thickness' : 'drum-diameter',
        axle: 'front',
        side,
        value,
        unit: 'mm',
        gauge: part === 'rotor' ? 'micrometer' : 'drum-gauge',
      })),
    ),
  );
  const { id } = await recordHistory(service, vehicle, visits);
  const axle = (await read<Wear>(service, `/v1/vehicles/${id}/wear`)).axles[0]!;
  const { ratePer1000KmMm, date } = part === 'rotor' ? axle.rotors[0]! : axle.drums[0]!;
  const days = (Date.parse(date!.median!) - Date.parse(measured.at(-1)![0])) / 86_400_000;
  return { rate: ratePer1000KmMm!.median, years: days / 365.25, axle };
}

describe('rotors and drums whose records are incomplete', () => {
  // By hand: 0.2 mm in 10,000 km, and 1.5 mm left, which is 75,000 km or 5 years.
  const USED: Measured[] = [
    ['2024-11-01', 150_000, 27.9],
    ['2025-07-01', 160_000, 27.7],
    ['2026-03-01', 170_000, 27.5],
  ];

  it.each([
    ['a used car', '2016-06-01'],
    ['a vehicle whose entry into service is not known', null],
  ])('the rotors of %s wear as their readings say, not as if they were the first ones', async (_, from) => {
    const { rate, years } = await counterpartsAfter('rotor', from, USED);
    expect(rate).toBeCloseTo(0.02, 2);
    expect(years).toBeGreaterThan(4);
    expect(years).toBeLessThan(6.5);
  });

  it('the drums of a used car wear as their readings say', async () => {
    const drums = USED.map(([date, odometer, thickness]): Measured => [date, odometer, 308 - thickness]);
    const { rate, years } = await counterpartsAfter('drum', '2016-06-01', drums);
    expect(rate).toBeCloseTo(0.02, 2);
    expect(years).toBeGreaterThan(4);
    expect(years).toBeLessThan(6.5);
  });

  it('a single reading of nearly new rotors on an old car says little about their rate', async () => {
    const { axle } = await counterpartsAfter('rotor', '2016-06-01', USED.slice(0, 1));
    const { low, high } = axle.rotors[0]!.ratePer1000KmMm!;
    expect(high).toBeGreaterThan(4 * low);
    expect(axle.rotors[0]!.date!.early).not.toBeNull();
  });

  it('rotors replaced without a record are not overdue by the wear of the old ones', async () => {
    const readings: Measured[] = [
      ['2023-11-01', 60_000, 26.8],
      ['2024-11-01', 75_000, 26.4],
      ['2025-07-01', 85_000, 27.9],
      ['2026-03-01', 95_000, 27.7],
    ];
    const { years, axle } = await counterpartsAfter('rotor', '2020-01-01', readings);
    expect(years).toBeGreaterThan(3);
    const asked = axle.findings.find(({ code }) => code === 'rotor-replaced-without-record');
    expect(asked?.message).toContain('between 2024-11-01 and 2025-07-01');
    expect(axle.rotors.map(({ decision }) => decision)).not.toContain('replace');
  });

  it('rotors thinner than specified from the start ask for the specification', async () => {
    const { rate, axle } = await counterpartsAfter('rotor', '2024-10-01', [
      ['2024-11-01', 1_000, 27.2],
      ['2025-07-01', 11_000, 27.1],
      ['2026-03-01', 21_000, 27],
    ]);
    expect(rate).toBeCloseTo(0.01, 2);
    expect(codes(axle)).toContain('rotor-new-thickness-doubtful');
  });

  it('rotors of a vehicle known since it was new keep the rate from new', async () => {
    const { rate, axle } = await counterpartsAfter('rotor', '2022-03-01', [
      ['2024-11-01', 60_000, 27.2],
      ['2025-07-01', 75_000, 27],
      ['2026-03-01', 90_000, 26.8],
    ]);
    expect(rate).toBeCloseTo(0.0133, 3);
    expect(codes(axle).filter((code) => code.startsWith('rotor-'))).toEqual([]);
  });
});
