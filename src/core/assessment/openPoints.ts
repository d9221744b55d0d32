import { toDay } from '../calendar.js';
import { ONE_JOB_DAYS, type History, type HistoryVisit } from '../history.js';
import { itemAt } from '../items.js';
import type { OpenPoint } from '../vocabulary/openPoints.js';
import type { Axle, Side, WorkKind } from '../vocabulary/terms.js';
import type { DecisionReason, Finding, RotorWear } from '../vocabulary/wear.js';
import { point, theAxle, type Job, type JudgedAxle } from './openPointParts.js';
import { openWork } from './openWork.js';
import { QUESTIONS, unansweredBy } from './roadTestFindings.js';

/**
 * What answers a finding, apart from a replacement, which removes it: work on that axle, a recorded state (including
 * `ok`) of the part in question, or a repeated measurement.
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
  'unit-doubtful': { repeated: true },
  'thinnest-disagrees': { repeated: true },
  'reading-off-forecast': { work: ['pads-replaced'], parts: ['slide', 'caliper'], repeated: true },
  'pads-replaced-one-side': { parts: ['pad'] },
  'shoes-replaced-one-side': { parts: ['shoe'] },
  'drum-replaced-one-side': { parts: ['drum'] },
  'rotor-replaced-one-side': { parts: ['rotor'] },
};

/** Findings about the gauge or the records, with nothing to do at this visit. */
const NOT_OF_THE_JOB = new Set(['torque-outside-specification', 'gauge-out-of-calibration']);

/** Later visits of the same job, and each axle's outlook at the end of it. */
export interface LaterInJob {
  visits: readonly HistoryVisit[];
  axles: readonly JudgedAxle[];
}

/**
 * Lists what a visit still lacks before the job can be called complete. It never stops a visit from being recorded. A
 * point that a later visit of the same job resolved is no longer open.
 *
 * @param history up to and including the visit, which is its last
 * @param axles each axle's outlook for that history
 */
export function openPointsOf(
  history: History,
  axles: readonly JudgedAxle[],
  later: LaterInJob = { visits: [], axles },
): OpenPoint[] {
  const visit = itemAt(history.visits, -1);
  const before = history.visits.slice(0, -1).filter((other) => isOneJob(other, visit));
  const since = [visit, ...later.visits];
  const job = { visit, since, whole: [...before, ...since] };
  const open = axles.map((axle) => stillOpen(axle, later.axles));
  return [
    ...open.flatMap(({ findings }) => findings.flatMap((finding) => unanswered(visit, finding))),
    ...open.flatMap(decisionsNotActedOn),
    ...openWork(history, job, axles),
    ...roadTestMissing(job),
    ...odometerMissing(visit),
  ];
}

/** Groups of findings on one matter. A later reading may turn one finding into another without settling the matter. */
const MATTERS: readonly RegExp[] = [
  /^(metal-on-metal|pad-(at-limit|too-close-to-(limit|zero)|repeat-at-limit|failed-before))$/,
  /^(rotor|drum)-((repeat-)?(under-discard|over-maximum)|too-close-to-(discard|maximum)|failed-before)$/,
  /^runout-/,
  /^thickness-variation-/,
];
const matterOf = (code: string): string => MATTERS.find((matter) => matter.test(code))?.source ?? code;

/** An axle's findings and decisions that are still open at the end of the job, in their wording at that time. */
function stillOpen(axle: JudgedAxle, atEnd: readonly JudgedAxle[]): JudgedAxle {
  const end = atEnd.find((other) => other.axle === axle.axle) ?? axle;
  const isOpen = (now: Finding): boolean =>
    axle.findings.some(
      ({ code, side, pad }) => matterOf(code) === matterOf(now.code) && side === now.side && pad === now.pad,
    );
  const decided = <Part extends Pick<RotorWear, 'side' | 'decision'>>(
    parts: readonly Part[],
    now: readonly Part[],
  ): Part[] =>
    now.filter(({ side }) => parts.some((other) => other.side === side && other.decision !== 'keep'));
  return {
    ...axle,
    findings: end.findings.filter(isOpen),
    rotors: decided(axle.rotors, end.rotors),
    drums: decided(axle.drums, end.drums),
  };
}

/** Whether two visits are close enough together to belong to one job. */
export const isOneJob = (a: Pick<HistoryVisit, 'date'>, b: Pick<HistoryVisit, 'date'>): boolean =>
  Math.abs(toDay(a.date) - toDay(b.date)) < ONE_JOB_DAYS;

/** What to do with a part such as `the left rotor of the front axle`, and why. */
function toDoInWords(
  decision: Exclude<RotorWear['decision'], 'keep'>,
  parts: { one: string; both: string },
  { code, detail }: DecisionReason,
): string {
  if (code === 'no-discard' || code === 'no-maximum')
    return `Read the ${code === 'no-discard' ? 'discard thickness' : 'maximum diameter'} marked on ${parts.one} and record it on the vehicle.`;
  if (decision === 'measure') return `Measure ${parts.one} and record the reading: ${detail}.`;
  return `${decision === 'replace' ? 'Replace' : 'Machine or replace'} ${parts.both}: ${detail}.`;
}

/** A rotor or drum to replace, machine or measure, unless an open finding already says so. */
function decisionsNotActedOn({ axle, findings, rotors, drums }: JudgedAxle): OpenPoint[] {
  const part = drums.length > 0 ? 'drum' : 'rotor';
  const parts = [...rotors, ...drums];
  const open = parts.flatMap(({ side, decision, decisionReasons: [reason] }) => {
    if (!reason || decision === 'keep' || reason.code === 'pair') return [];
    const isSaid = findings.some(
      (finding) => finding.side === side && saysDecision(finding, part, reason.code),
    );
    return isSaid ? [] : [{ side, decision, reason }];
  });
  const [first, second] = open;
  const alike =
    first && second && first.decision === second.decision && first.reason.detail === second.reason.detail;
  return (alike ? [{ ...first, side: null }] : open).map(({ side, decision, reason }) => {
    const where = `of ${theAxle(axle)}`;
    const one = side ? `the ${side} ${part} ${where}` : `both ${part}s ${where}`;
    const message = toDoInWords(decision, { one, both: `both ${part}s ${where}` }, reason);
    return point(`${decision}-not-done`, message, { axle, side });
  });
}

/** Whether an open finding already asks for what a decision asks for. */
function saysDecision({ code, severity }: Finding, part: 'rotor' | 'drum', reason: string): boolean {
  if (severity === 'stop' && code.startsWith(part)) return true;
  if (reason === 'variation') return code.startsWith('thickness-variation');
  return code === `${part}-${reason}` || (reason.startsWith('runout') && code.startsWith('runout'));
}

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

const QUESTION_IN_WORDS = { pulls: 'pull', pulsation: 'pulsation', noise: 'noise' } as const;

/** The road tests of a job count together: one may answer what another leaves out. */
function roadTestMissing({ visit: { work, roadTest }, since, whole }: Job): OpenPoint[] {
  if (work.length === 0 && !roadTest) return [];
  // A test made before this visit's work does not cover that work.
  const tests = (work.length === 0 ? whole : since).flatMap((each) => each.roadTest ?? []);
  if (tests.length === 0) {
    const message = 'Work was done, but no road test is recorded. Road-test the vehicle and record it.';
    return [point('no-road-test', message)];
  }
  const unanswered = unansweredBy(tests);
  if (unanswered.length === 0) return [];
  if (unanswered.length === QUESTIONS.length) {
    const message =
      'The recorded road test says nothing about pull, pulsation or noise. Make the test, or correct the record.';
    return [point('road-test-says-nothing', message)];
  }
  const matters = unanswered.map((question) => QUESTION_IN_WORDS[question]).join(' or ');
  const message = `The recorded road test says nothing about ${matters}. Test that too, and correct the record.`;
  return [point('road-test-incomplete', message)];
}

function odometerMissing({ odometer }: HistoryVisit): OpenPoint[] {
  if (odometer) return [];
  return [
    point(
      'odometer-not-read',
      'The odometer was not read, so this visit gives no wear rate. Read it and correct the visit.',
    ),
  ];
}
