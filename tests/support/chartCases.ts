import { outlookFor } from '../../src/core/assessment/outlook.js';
import { wearAnswer } from '../../src/core/assessment/wearAnswer.js';
import { axlePicture } from '../../src/core/assessment/picture.js';
import type { AxlePicture } from '../../src/core/assessment/pictureShape.js';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import { startingExperience } from '../../src/core/forecast/experience.js';
import type { History } from '../../src/core/history.js';
import { round } from '../../src/core/rounding.js';
import type { Axle, LengthUnit } from '../../src/core/vocabulary/terms.js';
import {
  DISC_AXLE,
  historyOf,
  km,
  mm,
  POLICY,
  type ReadingDraft,
  type VehicleDraft,
  type VisitDraft,
} from './coreHistories.js';

/** Invented histories, one for every case that a chart must show well. */
export interface ChartCase {
  name: string;
  picture: AxlePicture;
  history: History;
}

const TODAY = '2026-11-29';
const IN_SERVICE = { date: '2025-12-01', odometer: km(40) };
const FRONT = {
  ...DISC_AXLE,
  pad: { ...DISC_AXLE.pad, wearIndicator: { ...mm(3), type: 'mechanical' } },
} as const;
const VAN: VehicleDraft = { registration: 'KR 6482', inService: IN_SERVICE, axles: { front: FRONT } };
const LORRY: VehicleDraft = {
  registration: 'KR 6599',
  inService: { date: '2024-10-01', odometer: km(100) },
  axles: {
    rear: {
      brake: 'drum',
      shoe: { new: mm(14), limit: mm(5) },
      drum: { new: mm(325), maximum: mm(327), machineTo: mm(326.6) },
    },
  },
};

interface Read {
  /** Left inner, left outer, right inner, right outer; null where it was not measured. */
  pads?: readonly (number | null)[];
  rotors?: readonly [number, number];
  unit?: LengthUnit;
  gauge?: string;
}

const MM_IN: Record<LengthUnit, number> = { mm: 1, in: 25.4, 'in/32': 25.4 / 32 };
const DECIMALS: Record<LengthUnit, number> = { mm: 1, in: 3, 'in/32': 0 };
const PLACES = [
  ['left', 'inner'],
  ['left', 'outer'],
  ['right', 'inner'],
  ['right', 'outer'],
] as const;

function readingsOf({ pads = [], rotors, unit = 'mm', gauge = 'pad-gauge' }: Read): ReadingDraft[] {
  const linings = pads.flatMap((value, index): ReadingDraft[] => {
    const [side, pad] = PLACES[index]!;
    if (value === null) return [];
    const read = round(value / MM_IN[unit], DECIMALS[unit]);
    return [{ kind: 'pad-thickness', axle: 'front', side, pad, gauge, value: read, unit }];
  });
  const faces = (rotors ?? []).map((value, index): ReadingDraft => {
    const read = unit === 'mm' ? mm(value) : { value: round(value / 25.4, 4), unit: 'in' as const };
    return {
      kind: 'rotor-thickness',
      axle: 'front',
      side: PLACES[2 * index]![0],
      point: 1,
      gauge: 'micrometer',
      ...read,
    };
  });
  return [...linings, ...faces];
}

const visit = (
  date: string,
  odometer: number | null,
  read: Read,
  rest: Partial<VisitDraft> = {},
): VisitDraft => ({
  date,
  odometer: odometer === null ? null : km(odometer),
  readings: readingsOf(read),
  ...rest,
});

const NEW_PADS: VisitDraft['work'] = [{ kind: 'pads-replaced', axle: 'front', new: mm(11) }];

/** Visits at even distances on one set of pads, each pad wearing at its own pace. */
function evenly(
  count: number,
  from: string,
  days: number,
  kmEach: number,
  wear: readonly number[],
): VisitDraft[] {
  return Array.from({ length: count }, (_, index) => {
    const steps = index + 1;
    const pads = wear.map((each) => round(11 - each * steps, 1));
    const date = toFullDate(toDay(from) + days * steps);
    return visit(date, 40 + kmEach * steps, {
      pads,
      gauge: 'depth-gauge',
      rotors: [28 - 0.006 * steps, 28 - 0.005 * steps],
    });
  });
}

const USUAL: VisitDraft[] = [
  visit('2026-01-14', 4800, { pads: [10.2, 10.6, 10.4, 10.4], rotors: [27.93, 27.95] }),
  visit('2026-03-10', 9700, { pads: [9, 10, 9.6, 9.5], rotors: [27.86, 27.9] }),
  visit('2026-05-02', 13_600, {
    pads: [7.9, 9.5, 8.7, 8.7],
    unit: 'in',
    gauge: 'caliper',
    rotors: [27.8, 27.83],
  }),
  visit('2026-06-24', 17_100, {
    pads: [7.4, 9.1, 8.4, 8.2],
    unit: 'in',
    gauge: 'caliper',
    rotors: [27.74, 27.78],
  }),
  visit('2026-08-18', 21_900, { pads: [6, 9, 8, 8], rotors: [27.68, 27.7] }),
  visit('2026-10-07', 26_200, {
    pads: [5.5, 8.7, 7.1, 7.1],
    unit: 'in',
    gauge: 'caliper',
    rotors: [27.61, 27.64],
  }),
  visit('2026-11-21', 32_600, {
    pads: [3.7, 7.6, 6.2, 6.1],
    unit: 'in',
    gauge: 'caliper',
    rotors: [27.56, 27.58],
  }),
];

const REPLACED: VisitDraft[] = [
  visit('2024-02-10', 6000, { pads: [10.5, 10.5, 10, 10] }),
  visit('2024-06-03', 22_000, { pads: [9, 9.5, 8.5, 9] }),
  visit('2024-11-20', 44_000, { pads: [7, 7.5, 6.5, 7] }),
  visit('2025-04-14', 63_000, { pads: [5, 6, 5, 5.5] }),
  visit('2025-08-18', 80_000, { pads: [3.5, 4, 3, 3.5] }, { work: NEW_PADS }),
  visit('2025-11-05', 90_000, { pads: [10, 10, 9.5, 10] }),
  visit('2026-03-20', 107_000, { pads: [8, 8, 7, 7.5] }),
  visit('2026-10-20', 131_000, { pads: [5, 5, 5, 5] }),
];

const drumVisit = (
  date: string,
  odometer: number,
  shoes: readonly number[],
  drums: readonly number[],
): VisitDraft => ({
  date,
  odometer: km(odometer),
  readings: [
    ...shoes.map((value, index): ReadingDraft => {
      const side = index < 2 ? 'left' : 'right';
      const shoe = index % 2 === 0 ? 'leading' : 'trailing';
      return { kind: 'shoe-thickness', axle: 'rear', side, shoe, gauge: 'depth-gauge', ...mm(value) };
    }),
    ...drums.map((value, index): ReadingDraft => {
      return {
        kind: 'drum-diameter',
        axle: 'rear',
        side: index === 0 ? 'left' : 'right',
        point: 1,
        gauge: 'drum-gauge',
        ...mm(value),
      };
    }),
  ],
});

const USED: VehicleDraft = { registration: 'LS 8840', axles: { front: FRONT } };
const OLD_VAN: VehicleDraft = { ...VAN, inService: { date: '2023-10-01', odometer: km(20) } };

const CASES: readonly (readonly [name: string, vehicle: VehicleDraft, visits: VisitDraft[], axle?: Axle])[] =
  [
    ['usual, one pad wears faster', VAN, USUAL],
    ['one reading only', VAN, [visit('2026-11-12', 40_000, { pads: [null, 6, null, null] })]],
    ['four pads alike, replacement in between', OLD_VAN, REPLACED],
    [
      'under the limit',
      VAN,
      [
        visit('2026-02-01', 8000, { pads: [9.7, 9.7, 9.6, 9.7] }),
        visit('2026-05-20', 21_000, { pads: [4.9, 6.5, 6.4, 6.3] }),
        visit('2026-09-01', 38_000, { pads: [1.5, 4.6, 3.7, 4.1] }),
      ],
    ],
    [
      'overdue by the forecast',
      VAN,
      [
        ...evenly(4, '2025-12-01', 60, 9000, [1.7, 1.3, 1.6, 1.55]),
        visit('2026-09-20', 46_000, { pads: [3.4, 5.2, 3.5, 3.6], gauge: 'depth-gauge' }),
      ],
    ],
    [
      'not expected within 30 years',
      { ...VAN, powertrain: 'battery-electric', brakeSystem: { regenerative: true } },
      [
        visit('2026-03-05', 150, { pads: [10.9, 10.9, 10.9, 10.9], gauge: 'depth-gauge' }),
        visit('2026-06-14', 280, { pads: [10.9, 10.9, 10.9, 10.9], gauge: 'depth-gauge' }),
        visit('2026-08-16', 350, { pads: [10.9, 10.9, 10.9, 10.9], gauge: 'depth-gauge' }),
      ],
    ],
    [
      'rotor machined, read in inches',
      OLD_VAN,
      [
        visit('2024-05-01', 21_000, {
          pads: [8, 9, 8, 9],
          rotors: [27.8, 27.85],
          unit: 'in',
          gauge: 'caliper',
        }),
        visit('2025-01-15', 44_000, {
          pads: [6, 7, 6, 7],
          rotors: [27.6, 27.65],
          unit: 'in',
          gauge: 'caliper',
        }),
        visit(
          '2025-08-19',
          66_000,
          { pads: [3.6, 5, 4, 5], rotors: [27.45, 27.5], unit: 'in', gauge: 'caliper' },
          {
            work: [...NEW_PADS!, { kind: 'rotor-machined', axle: 'front' }],
          },
        ),
        visit('2025-08-20', 66_010, { rotors: [27.05, 27.02], unit: 'in' }),
        visit('2026-02-11', 84_000, {
          pads: [8, 9, 8, 9],
          rotors: [26.8, 26.82],
          unit: 'in',
          gauge: 'caliper',
        }),
        visit('2026-10-23', 104_000, {
          pads: [5.6, 7, 5.9, 7],
          rotors: [26.53, 26.56],
          unit: 'in',
          gauge: 'caliper',
        }),
      ],
    ],
    [
      'read in thirty-seconds, replacement in between',
      OLD_VAN,
      REPLACED.map((each) => ({
        ...each,
        readings: each.readings!.map((reading) => ({
          ...reading,
          unit: 'in/32' as const,
          gauge: 'pad-gauge-thirty-seconds',
          value: Math.round((reading.value as number) / (25.4 / 32)),
        })),
      })),
    ],
    ['thirty visits on one set', VAN, evenly(30, '2025-12-01', 12, 1100, [0.24, 0.19, 0.21, 0.2])],
    [
      'two hundred visits on one set',
      OLD_VAN,
      evenly(200, '2023-10-01', 5, 210, [0.038, 0.031, 0.034, 0.033]),
    ],
    [
      'just fitted, nothing read since',
      OLD_VAN,
      [...REPLACED, visit('2026-11-20', 134_000, { pads: [3, 4, 3.5, 4] }, { work: NEW_PADS })],
    ],
    [
      'drum: shoes and diameter',
      LORRY,
      [
        drumVisit('2025-02-01', 15_000, [13, 13.4, 13.1, 13.4], [325.2, 325.2]),
        drumVisit('2025-08-10', 42_000, [11, 11.8, 11.2, 11.9], [325.55, 325.5]),
        drumVisit('2026-03-03', 75_000, [8.8, 9.9, 9.1, 10.1], [325.95, 325.8]),
        drumVisit('2026-10-26', 104_000, [6.3, 7.9, 6.8, 8.1], [326.3, 326.05]),
      ],
      'rear',
    ],
    ['never measured', LORRY, [{ date: '2026-10-22', odometer: km(123_807), readings: [] }], 'rear'],
    [
      'pads missed at the last visit',
      VAN,
      [...USUAL.slice(0, 5), visit('2026-11-02', 28_000, { pads: [null, 8.6, null, 7.4] })],
    ],
    [
      'pads of a used car',
      USED,
      [
        visit('2025-10-04', 84_000, { pads: [6, 6.5, 6, 6.5], rotors: [27.1, 27.15] }),
        visit('2026-04-12', 92_500, { pads: [5, 5.5, 5, 6], rotors: [27, 27.05] }),
        visit('2026-10-14', 100_500, { pads: [4, 5, 4.5, 5], rotors: [26.95, 26.96] }),
      ],
    ],
    [
      'no odometer',
      USED,
      [
        visit('2026-03-03', null, { pads: [6, 6, 6, 6] }),
        visit('2026-09-03', null, { pads: [5, 5.5, 5, 5.5] }),
      ],
    ],
    [
      'one side replaced',
      OLD_VAN,
      [
        ...REPLACED.slice(0, 4),
        visit(
          '2025-08-18',
          80_000,
          { pads: [2.9, 4, 4.5, 5] },
          { work: [{ kind: 'pads-replaced', axle: 'front', side: 'left', new: mm(11) }] },
        ),
        visit('2026-09-20', 99_000, { pads: [9, 9.5, 3.8, 4.4] }),
      ],
    ],
    [
      'no limit known',
      { registration: 'LS 6950', axles: { front: { brake: 'disc' } } },
      [
        visit('2025-12-03', 20_000, { pads: [8, 8, 8, 8] }),
        visit('2026-09-03', 40_000, { pads: [6, 6.5, 6, 6.5] }),
      ],
    ],
    [
      'a reading too close to the limit',
      VAN,
      [
        visit('2026-03-03', 20_000, { pads: [7, 8, 7, 8] }),
        visit('2026-09-03', 38_000, { pads: [4.3, 4.2, 3.2, 5] }),
        visit('2026-11-21', 42_000, { pads: [3.5, 4, 3.2, 4.5], gauge: 'pad-gauge-1mm' }),
      ],
    ],
    [
      'two sets read by eye down to the limit',
      OLD_VAN,
      [
        visit('2024-06-03', 22_000, { pads: [3.5, 4, 4, 4.5], gauge: 'visual' }, { work: NEW_PADS }),
        visit('2025-02-10', 44_000, { pads: [9, 9.5, 9.5, 10], gauge: 'visual' }),
        visit('2025-11-05', 66_000, { pads: [6, 7, 6.5, 7], gauge: 'visual' }),
        visit('2026-11-10', 90_000, { pads: [3.2, 4.5, 4, 5], gauge: 'visual' }),
      ],
    ],
  ];

export function chartCases(): ChartCase[] {
  const experience = startingExperience({ steeredOrFront: true, regenerative: false });
  return CASES.map(([name, vehicle, visits, axle = 'front']) => {
    const history = historyOf(vehicle, visits);
    const outlook = outlookFor(history, () => experience, POLICY);
    const wear = wearAnswer('v', outlook, { today: TODAY, until: null } as never);
    return { name, history, picture: axlePicture(history, wear, axle, TODAY)! };
  });
}
