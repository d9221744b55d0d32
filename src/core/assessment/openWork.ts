import { toDay } from '../calendar.js';
import { ONE_SET_DAYS, type History, type HistoryVisit } from '../history.js';
import { round } from '../rounding.js';
import type { OpenPoint } from '../vocabulary/openPoints.js';
import type { Axle, Side, WorkKind } from '../vocabulary/terms.js';
import { capital, termInWords, workInWords } from '../words.js';
import { liningName } from './adviceFacts.js';
import { liningInWords } from './limitFindings.js';
import { covers, type LiningAt } from './linings.js';
import { point, sidesOf, theAxle, workedOn, type Job, type JudgedAxle } from './openPointParts.js';
import { judgeTorque, lastTorques, OPENS_FASTENERS, opensFastener, torqueInWords } from './torques.js';

/** Open points of the work recorded at a visit. */

export const openWork = (history: History, job: Job, axles: readonly JudgedAxle[]): OpenPoint[] => [
  ...oneSidedWork(history, job),
  ...positionsNotMeasured(job, axles),
  ...bleedingMissing(history, job),
  ...torquesMissing(history, job),
  ...torquesOutside(history, job),
];

/** Work that must be done on both sides of an axle. */
const IN_PAIRS: readonly WorkKind[] = [
  'pads-replaced',
  'rotor-replaced',
  'rotor-machined',
  'shoes-replaced',
  'drum-replaced',
  'drum-machined',
];

const isOneSet = (a: Pick<HistoryVisit, 'date'>, b: Pick<HistoryVisit, 'date'>): boolean =>
  Math.abs(toDay(a.date) - toDay(b.date)) <= ONE_SET_DAYS;

function oneSidedWork({ visits }: History, { visit, since }: Job): OpenPoint[] {
  const oneSet = [...visits.filter((other) => isOneSet(other, visit)), ...since];
  const sidesInJob = (kind: WorkKind, axle: Axle): Side[] =>
    sidesOf(oneSet.flatMap(({ work }) => work.filter((item) => item.kind === kind && item.axle === axle)));
  return IN_PAIRS.flatMap((kind) =>
    workedOn(visit, new Set([kind]))
      .filter(({ axle }) => sidesInJob(kind, axle).length === 1)
      .map(({ axle, sides: [side] }) => {
        const other = side === 'left' ? 'right' : 'left';
        const message = `Recorded on the ${side} of ${theAxle(axle)} only: ${workInWords(kind)}. Do the ${other} side too, or record it.`;
        return point('one-side-only', message, { axle, side: other });
      }),
  );
}

/** Linings that were not measured although their axle was worked on; quotes the recorded reason, if any. */
function positionsNotMeasured({ visit, whole }: Job, axles: readonly JudgedAxle[]): OpenPoint[] {
  const worked = new Set(workedOn(visit, OPENS_FASTENERS).map(({ axle }) => axle));
  return axles
    .filter(({ axle }) => worked.has(axle))
    .flatMap(({ axle, pads, drums }) =>
      pads
        .filter((at) => !whole.some((each) => isMeasured(each, axle, at)))
        .map(({ side, pad }) => {
          const why = visit.notMeasured.find(
            (entry) =>
              entry.axle === axle &&
              (entry.part == null || entry.part === 'pad' || entry.part === 'shoe') &&
              (side === null || (entry.side ?? side) === side) &&
              (entry.pad ?? pad) === pad,
          )?.why;
          const because = why ? ` (${why})` : '';
          const message = `${capital(theAxle(axle))} was worked on, but its ${liningInWords({ side, pad, lining: liningName({ drums }) })} was not measured${because}. Measure it while the wheel is off.`;
          return point('position-not-measured', message, { axle, side, pad });
        }),
    );
}

/** Whether a lining was measured itself, or through a reading of the thinnest of its wheel or axle. */
function isMeasured({ readings }: HistoryVisit, axle: Axle, at: LiningAt): boolean {
  return readings.some((reading) => {
    if (reading.axle !== axle || (reading.kind !== 'pad-thickness' && reading.kind !== 'shoe-thickness'))
      return false;
    const read = { side: reading.side, pad: 'pad' in reading ? reading.pad : reading.shoe };
    const isSame = read.side === at.side && read.pad === at.pad;
    return isSame || covers(read, at) || covers(at, read);
  });
}

/** Work that opens the hydraulics. */
const OPENS_HYDRAULICS: ReadonlySet<WorkKind> = new Set(['caliper-replaced', 'hose-replaced']);

function bleedingMissing({ vehicle }: History, { visit, since }: Job): OpenPoint[] {
  const opened = workedOn(visit, OPENS_HYDRAULICS).filter(({ axle, sides }) => {
    const isHydraulic = (vehicle.axles[axle]?.actuation ?? 'hydraulic') === 'hydraulic';
    const isBled = (side: Side): boolean =>
      since.some(({ work }) =>
        work.some(
          (item) =>
            item.kind === 'fluid-changed' && (item.axle ?? axle) === axle && (item.side ?? side) === side,
        ),
      );
    return isHydraulic && !sides.every(isBled);
  });
  return opened.map(({ axle }) =>
    point(
      'bleeding-not-recorded',
      `The hydraulics of ${theAxle(axle)} were opened, but neither bleeding nor a fluid change is recorded. Bleed the system, check for leaks under pressure and record the new fluid.`,
      { axle },
    ),
  );
}

function torquesMissing({ vehicle }: History, { visit, since }: Job): OpenPoint[] {
  return workedOn(visit, OPENS_FASTENERS).flatMap(({ axle, sides }) => {
    const recorded = since.flatMap(({ torques }) => torques).filter((torque) => torque.axle === axle);
    const fasteners = Object.keys(vehicle.axles[axle]?.torque ?? {});
    if (fasteners.length === 0) {
      const missing = sides.filter((side) => !sidesOf(recorded).includes(side));
      if (missing.length === 0) return [];
      const [side] = missing.length < sides.length ? missing : [null];
      const where = side ? `the ${side} of ${theAxle(axle)}` : theAxle(axle);
      const message = `${capital(where)} was worked on, but no torque is recorded. The vehicle record has no figure: use the maker’s, and record what was set.`;
      return [point('torque-not-recorded', message, { axle, side: side ?? null })];
    }
    return fasteners.flatMap((fastener) =>
      sides
        .filter((side) => !sidesOf(recorded.filter((each) => each.fastener === fastener)).includes(side))
        .map((side) =>
          point(
            'torque-not-recorded',
            `No torque is recorded for the ${termInWords(fastener)} on the ${side} of ${theAxle(axle)}. Set it and record it.`,
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

/** Torques of this visit or an earlier one that are outside their specification and have not been set again since. */
function torquesOutside({ vehicle, visits }: History, { since }: Job): OpenPoint[] {
  const later = since.slice(1);
  const whole = [...visits, ...later];
  const current = lastTorques(
    whole.flatMap((visit, index) =>
      visit.torques
        .filter((torque) => !whole.slice(index + 1).some((next) => opensFastener(next, torque)))
        .map((torque) => ({ ...torque, date: visit.date, isLater: later.includes(visit) })),
    ),
  );
  return current.flatMap((torque) => {
    const judged = judgeTorque(torque, vehicle.axles[torque.axle]?.torque ?? {});
    if (!judged || judged.within || torque.isLater) return [];
    const { specifiedNm, toleranceNm } = judged;
    const message = `${torqueInWords(torque, judged, torque.date)} Set it again and record it.`;
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
