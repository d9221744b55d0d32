import type { History, HistoryVisit } from '../history.js';
import { inWords, round } from '../rounding.js';
import { SIDES, type Axle, type Side, type WorkKind } from '../vocabulary/terms.js';
import type { OpenPoint } from '../vocabulary/openPoints.js';
import type { Finding } from '../vocabulary/wear.js';
import { judgeTorque } from './torques.js';

/** Work for which a wheel comes off and fasteners are opened. */
const OPENS_FASTENERS: ReadonlySet<WorkKind> = new Set([
  'pads-replaced',
  'rotor-replaced',
  'rotor-machined',
  'slides-serviced',
  'caliper-replaced',
  'hose-replaced',
  'shoes-replaced',
  'drum-replaced',
  'drum-machined',
]);
/** Work that an axle is given on both sides. */
const IN_PAIRS: readonly WorkKind[] = [
  'pads-replaced',
  'rotor-replaced',
  'rotor-machined',
  'shoes-replaced',
  'drum-replaced',
  'drum-machined',
];

/**
 * What answers a finding beside the replacement that makes it go away: work on that axle, or the state recorded of a
 * part that the finding asks to look at (`ok` among them), or the place measured once more.
 */
const ANSWERS: Record<string, { work?: WorkKind[]; parts?: string[]; repeated?: true }> = {
  'uneven-inner-outer': {
    work: ['slides-serviced', 'caliper-replaced', 'hose-replaced', 'pads-replaced'],
    parts: ['slide', 'caliper', 'hose'],
  },
  'uneven-left-right': {
    work: ['slides-serviced', 'caliper-replaced', 'hose-replaced', 'pads-replaced'],
    parts: ['slide', 'caliper', 'hose'],
  },
  taper: { work: ['slides-serviced', 'caliper-replaced', 'pads-replaced'], parts: ['slide', 'caliper'] },
  'thicker-than-before': { work: ['pads-replaced'], repeated: true },
  'reading-off-forecast': { work: ['pads-replaced'], parts: ['slide', 'caliper'], repeated: true },
  'pads-replaced-one-side': { parts: ['pad'] },
  'shoes-replaced-one-side': { parts: ['shoe'] },
  'drum-replaced-one-side': { parts: ['drum'] },
  'rotor-replaced-one-side': { parts: ['rotor'] },
};

/** Findings that say something of the gauge or the records and wait for nobody at this visit. */
const NOT_OF_THE_JOB = new Set(['torque-outside-specification', 'gauge-out-of-calibration']);

/**
 * What a visit still lacks before the job can be called complete. It never blocks the record.
 *
 * @param history up to and with the visit, which is its last
 * @param findings what the outlook of that history calls for
 */
export function openPointsOf(history: History, findings: readonly Finding[]): OpenPoint[] {
  const visit = history.visits.at(-1)!;
  return [
    ...findings.flatMap((finding) => unanswered(visit, finding)),
    ...oneSidedWork(visit),
    ...torquesMissing(history, visit),
    ...torquesOutside(history, visit),
    ...roadTestMissing(visit),
    ...odometerMissing(visit),
  ];
}

const point = (code: string, message: string, at: Partial<OpenPoint> = {}): OpenPoint => ({
  code,
  axle: null,
  side: null,
  pad: null,
  fastener: null,
  finding: null,
  message,
  numbers: {},
  ...at,
});

function unanswered(visit: HistoryVisit, finding: Finding): OpenPoint[] {
  const { code, axle, side, pad, severity, message, check, numbers } = finding;
  if (severity === 'note' || NOT_OF_THE_JOB.has(code) || isAnswered(visit, finding)) return [];
  return [point('finding-not-answered', `${message} ${check}`, { axle, side, pad, finding: code, numbers })];
}

function isAnswered(visit: HistoryVisit, { code, axle, side, pad }: Finding): boolean {
  const { work = [], parts = [], repeated = false } = ANSWERS[code] ?? {};
  const isHere = (item: { axle?: Axle | null; side?: Side | null }): boolean =>
    item.axle === axle && (side === null || item.side == null || item.side === side);
  return (
    visit.work.some((item) => work.includes(item.kind) && isHere(item)) ||
    visit.conditions.some((entry) => parts.includes(entry.part) && isHere(entry)) ||
    (repeated &&
      visit.readings.some(
        (reading) =>
          (('pad' in reading && reading.pad === pad) || ('shoe' in reading && reading.shoe === pad)) &&
          reading.repeat > 1 &&
          isHere(reading),
      ))
  );
}

const sidesOf = (items: readonly { side?: Side | null }[]): Side[] =>
  SIDES.filter((side) => items.some((item) => item.side == null || item.side === side));

/** The axles on which something was done at the visit, with the sides it was done on. */
function workedOn({ work }: HistoryVisit, kinds: ReadonlySet<WorkKind>): { axle: Axle; sides: Side[] }[] {
  const done = work.filter(({ kind, axle }) => kinds.has(kind) && axle != null);
  return [...new Set(done.map(({ axle }) => axle!))].map((axle) => ({
    axle,
    sides: sidesOf(done.filter((item) => item.axle === axle)),
  }));
}

function oneSidedWork(visit: HistoryVisit): OpenPoint[] {
  return IN_PAIRS.flatMap((kind) =>
    workedOn(visit, new Set([kind]))
      .filter(({ sides }) => sides.length === 1)
      .map(({ axle, sides: [side] }) => {
        const other = side === 'left' ? 'right' : 'left';
        const message = `${kind} is recorded on the ${side} of axle ${axle} only; the ${other} is not.`;
        return point('one-side-only', message, { axle, side: other });
      }),
  );
}

function torquesMissing({ vehicle }: History, visit: HistoryVisit): OpenPoint[] {
  return workedOn(visit, OPENS_FASTENERS).flatMap(({ axle, sides }) => {
    const recorded = visit.torques.filter((torque) => torque.axle === axle);
    const fasteners = Object.keys(vehicle.axles[axle]?.torque ?? {});
    if (fasteners.length === 0) {
      if (recorded.length > 0) return [];
      const message = `Work was done on axle ${axle} and no torque is recorded; none is specified for it either: use the maker’s figures.`;
      return [point('torque-not-recorded', message, { axle })];
    }
    return fasteners.flatMap((fastener) =>
      sides
        .filter((side) => !sidesOf(recorded.filter((each) => each.fastener === fastener)).includes(side))
        .map((side) =>
          point(
            'torque-not-recorded',
            `No torque of ${fastener} is recorded on the ${side} of axle ${axle}.`,
            {
              axle,
              side,
              fastener,
            },
          ),
        ),
    );
  });
}

/** Of a fastener set twice the later torque counts. */
function torquesOutside({ vehicle }: History, visit: HistoryVisit): OpenPoint[] {
  const last = new Map(
    visit.torques.map((torque) => [
      [torque.axle, torque.side ?? '', torque.fastener, torque.position ?? ''].join('|'),
      torque,
    ]),
  );
  return [...last.values()].flatMap((torque) => {
    const judged = judgeTorque(torque, vehicle.axles[torque.axle]?.torque ?? {});
    if (!judged || judged.within) return [];
    const { specifiedNm, toleranceNm } = judged;
    const message = `${torque.fastener} is recorded at ${inWords(torque.Nm, 1)} N·m; the specification is ${inWords(specifiedNm, 1)} ± ${inWords(toleranceNm, 1)} N·m. Set it again and record it.`;
    return [
      point('torque-outside-specification', message, {
        axle: torque.axle,
        side: torque.side ?? null,
        fastener: torque.fastener,
        numbers: {
          torqueNm: round(torque.Nm, 2),
          specifiedNm: round(specifiedNm, 2),
          toleranceNm: round(toleranceNm, 2),
        },
      }),
    ];
  });
}

function roadTestMissing({ work, roadTest }: HistoryVisit): OpenPoint[] {
  if (work.length === 0 || roadTest) return [];
  return [point('no-road-test', 'Work was done and no road test is recorded.')];
}

function odometerMissing({ odometer }: HistoryVisit): OpenPoint[] {
  if (odometer) return [];
  return [point('odometer-not-read', 'The odometer was not read: no wear rate follows from this visit.')];
}
