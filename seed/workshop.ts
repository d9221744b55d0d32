import type { z } from 'zod';
import { toMm, toNm } from '../src/core/units.js';
import type { Axle, LengthUnit, Side } from '../src/core/vocabulary/terms.js';
import { SIDES } from '../src/core/vocabulary/terms.js';
import type { VisitBody } from '../src/core/vocabulary/visit.js';
import {
  discardMm,
  fitPads,
  fitRotors,
  limitMm,
  machineRotors,
  rotorAt,
  type AxleTruth,
  type PadTruth,
} from './physics.js';
import type { Chance } from './random.js';
import { DEPTH_GAUGE, TECHNICIANS, VISUAL, type AxleInput, type Technician, type Tool } from './setting.js';

/**
 * What the workshop does with a vehicle, and the part of it that gets onto the job card: coarse, in various units and
 * incomplete.
 */

export type VisitInput = z.input<typeof VisitBody>;
type Entry<Key extends 'readings' | 'notMeasured' | 'conditions' | 'work' | 'torques'> = NonNullable<
  VisitInput[Key]
>[number];
type TakenInput = 'as-found' | 'as-left';

export interface Plan {
  /** `single`: only one pad is measured. */
  care: 'usual' | 'thorough' | 'single' | 'none';
  /** The front pads stay fitted, however thin: the customer declines, or the parts are on order. */
  keepFrontPads: boolean;
  slidesLeftAlone: boolean;
  event: 'machining' | 'crack' | 'scoring' | 'misreading' | 'grinding' | 'back-on-road' | null;
}

export interface Call {
  date: string;
  odometer: VisitInput['odometer'];
  odometerReplaced: VisitInput['odometerReplaced'];
  shop: string | null;
  axles: AxleTruth[];
  drums: readonly Axle[];
  plan: Plan;
}

interface Job {
  chance: Chance;
  technician: Technician;
  plan: Plan;
  card: {
    readings: Entry<'readings'>[];
    notMeasured: Entry<'notMeasured'>[];
    conditions: Entry<'conditions'>[];
    work: Entry<'work'>[];
    torques: Entry<'torques'>[];
  };
  notes: string[];
}

/** Pads are replaced when one measures less than this above its limit, mm. */
const PAD_RESERVE_MM = { low: 0.8, high: 1.8 } as const;
/** Rotors are replaced with the pads if they would not outlast the next set, mm above discard. */
const ROTOR_RESERVE_MM = 0.5;
/** The thickness of the backing plate, for readings that include it, mm. */
const BACKING_PLATE_MM = 4.6;

/**
 * Receives the vehicle, measures, repairs (which changes the truth) and fills in the job card; the work order is added
 * later.
 */
export function receive(chance: Chance, call: Call): VisitInput {
  const job: Job = {
    chance,
    technician: chance.pick(TECHNICIANS),
    plan: call.plan,
    card: { readings: [], notMeasured: [], conditions: [], work: [], torques: [] },
    notes: [],
  };
  const complaint = complaintOf(job, call.axles);
  for (const truth of call.axles) inspectAxle(job, truth);
  for (const axle of call.drums) skipDrum(job, axle);
  if (chance.happens(0.12)) job.card.work.push({ kind: 'fluid-changed' });
  const roadTest = roadTestOf(job, call.axles);
  return {
    date: call.date,
    ...(chance.happens(0.8) ? { time: timeOfDay(chance) } : {}),
    odometer: call.odometer,
    ...(call.odometerReplaced ? { odometerReplaced: call.odometerReplaced } : {}),
    ...(call.shop === null ? {} : { shop: call.shop }),
    technician: chance.happens(0.95) ? job.technician.code : null,
    ...(complaint === null ? {} : { complaint }),
    ...(job.notes.length > 0 ? { notes: job.notes.join('; ') } : {}),
    ...filled(job.card),
    ...(roadTest ? { roadTest } : {}),
  };
}

const filled = (card: Job['card']): Partial<Job['card']> =>
  Object.fromEntries(Object.entries(card).filter(([, entries]) => entries.length > 0));

function timeOfDay(chance: Chance): string {
  const hour = String(chance.whole(7, 16)).padStart(2, '0');
  return `${hour}:${String(5 * chance.whole(0, 11)).padStart(2, '0')}`;
}

function inspectAxle(job: Job, truth: AxleTruth): void {
  const { chance, plan } = job;
  if (plan.care === 'none') {
    job.card.notMeasured.push({ axle: truth.axle, why: 'road test only, wheels not removed' });
    return;
  }
  if (plan.care === 'single') return measureOnePad(job, truth);
  const tool = plan.event === 'grinding' ? DEPTH_GAUGE : chance.pick(job.technician.pads);
  const inspection = chooseInspection(job, truth);
  if (inspection === 'skipped') return skipAxle(job, truth.axle);
  if (inspection === 'through-wheel') return inspectThroughWheel(job, truth);
  noteConditions(job, truth);
  const thinnest = measurePads(job, truth, tool);
  repair(job, truth, tool, thinnest);
}

/** A technician who hears the wear indicator removes the wheels. */
function chooseInspection(
  { chance, plan }: Job,
  truth: AxleTruth,
): 'wheels-off' | 'through-wheel' | 'skipped' {
  const isNearLimit = truth.pads.some((pad) => pad.mm < limitMm(truth.spec) + 1);
  if (plan.care === 'thorough' || plan.event !== null || isNearLimit) return 'wheels-off';
  const isFirst = truth.axle === 'front' || truth.axle === 'axle-1';
  if (chance.happens(isFirst ? 0.08 : 0.2)) return 'skipped';
  return chance.happens(0.12) ? 'through-wheel' : 'wheels-off';
}

function skipAxle({ chance, card }: Job, axle: Axle): void {
  if (chance.happens(0.6)) {
    card.notMeasured.push({
      axle,
      part: 'pad',
      why: chance.pick(['wheels not removed', 'no time', 'no lift free']),
    });
  }
}

function skipDrum({ chance, card }: Job, axle: Axle): void {
  if (chance.happens(0.25)) card.notMeasured.push({ axle, why: 'drum brake, drums not removed' });
}

/** Only the outer pads are visible through the wheel. */
function inspectThroughWheel(job: Job, truth: AxleTruth): void {
  for (const pad of truth.pads.filter((each) => each.pad === 'outer')) writePad(job, truth, pad, VISUAL);
  job.card.notMeasured.push({
    axle: truth.axle,
    part: 'pad',
    pad: 'inner',
    why: 'not visible without removing the wheel',
  });
}

function measureOnePad(job: Job, truth: AxleTruth): void {
  if (truth.axle === 'front') writePad(job, truth, truth.pads[0]!, DEPTH_GAUGE);
  else job.card.notMeasured.push({ axle: truth.axle, part: 'pad', why: 'wheels not removed' });
}

/** @returns the thinnest reading as the technician sees it, mm */
function measurePads(job: Job, truth: AxleTruth, tool: Tool): number {
  const read = truth.pads.filter((pad) => !isMissed(job, truth.axle, pad));
  const thinnest = Math.min(...read.map((pad) => writePad(job, truth, pad, tool)));
  if (job.chance.happens(0.04) && read.length > 0) repeatPad(job, truth, read[0]!, tool);
  if (job.chance.happens(0.05) && read.length > 0) measureEnds(job, truth, read.at(-1)!, tool);
  return thinnest;
}

function isMissed({ chance, plan, card }: Job, axle: Axle, { side, pad }: PadTruth): boolean {
  if (plan.care === 'thorough' || !chance.happens(0.04)) return false;
  if (chance.happens(0.6)) {
    const why = chance.pick(['gauge would not reach', 'hidden by the dust shield', 'wheel bolt seized']);
    card.notMeasured.push({ axle, side, part: 'pad', pad, why });
  }
  return true;
}

function writePad(
  job: Job,
  truth: AxleTruth,
  pad: PadTruth,
  tool: Tool,
  taken: TakenInput = 'as-found',
): number {
  const isMisread = job.plan.event === 'misreading' && pad === misreadPad(truth) && taken === 'as-found';
  const reading = read(job.chance, tool, pad.mm + (isMisread ? BACKING_PLATE_MM : 0), 0);
  job.card.readings.push({
    kind: 'pad-thickness',
    axle: truth.axle,
    side: pad.side,
    pad: pad.pad,
    ...reading,
    ...takenOf(taken),
  });
  return toMm(reading);
}

const misreadPad = (truth: AxleTruth): PadTruth | null =>
  truth.axle === 'front' ? truth.pads.find((pad) => pad.side === 'right' && pad.pad === 'outer')! : null;

function repeatPad(
  { chance, card }: Job,
  { axle }: AxleTruth,
  { side, pad, mm }: PadTruth,
  tool: Tool,
): void {
  const reading = read(chance, tool, mm, 0);
  card.readings.push({ kind: 'pad-thickness', axle, side, pad, ...reading, repeat: 2 });
}

/** Measures both ends of a pad that is a little thicker at the end that the disc leaves last. */
function measureEnds(
  { chance, card }: Job,
  { axle }: AxleTruth,
  { side, pad, mm }: PadTruth,
  tool: Tool,
): void {
  const taper = chance.between(0.1, 0.7);
  const place = { kind: 'pad-thickness', axle, side, pad } as const;
  card.readings.push(
    { ...place, at: 'leading', ...read(chance, tool, mm + 0.1, 0) },
    { ...place, at: 'trailing', ...read(chance, tool, mm + 0.1 + taper, 0) },
  );
}

const takenOf = (taken: TakenInput) => (taken === 'as-left' ? { taken } : {});

const MM_PER: Record<LengthUnit, number> = {
  mm: 1,
  in: toMm({ value: 1, unit: 'in' }),
  'in/32': toMm({ value: 1, unit: 'in/32' }),
};

/** The reading that the tool shows: the truth with its error, rounded to the tool's step. */
function read(chance: Chance, tool: Tool, trueMm: number, minMm: number) {
  const shownMm = Math.max(minMm, chance.normal(trueMm, tool.errorMm));
  const steps = Math.round(shownMm / MM_PER[tool.unit] / tool.step);
  const value = Number((steps * tool.step).toFixed(4));
  return { value, unit: tool.unit, ...(tool.gauge === null ? {} : { gauge: tool.gauge }) };
}

function measureRotors(job: Job, truth: AxleTruth, taken: TakenInput = 'as-found'): number {
  const points = job.chance.pick([4, 4, 6, 8]);
  const measured = truth.rotors.flatMap((rotor) =>
    Array.from({ length: points }, (_, index) => {
      const reading = read(job.chance, job.technician.rotor, rotorAt(rotor, index + 1, points), 2);
      const place = {
        kind: 'rotor-thickness',
        axle: truth.axle,
        side: rotor.side,
        point: index + 1,
      } as const;
      job.card.readings.push({ ...place, ...reading, ...takenOf(taken) });
      return toMm(reading);
    }),
  );
  if (job.chance.happens(0.5)) measureRunout(job, truth, taken);
  return Math.min(...measured);
}

function measureRunout({ chance, card, technician }: Job, truth: AxleTruth, taken: TakenInput): void {
  for (const { side, runoutMm } of truth.rotors) {
    const reading = read(chance, technician.runout, runoutMm, 0);
    card.readings.push({ kind: 'rotor-runout', axle: truth.axle, side, ...reading, ...takenOf(taken) });
  }
}

function repair(job: Job, truth: AxleTruth, tool: Tool, thinnestMm: number): void {
  const { chance, plan } = job;
  const isFront = truth.axle === 'front';
  if (isFront && plan.event === 'crack') return renewBrake(job, truth, tool, true);
  const isDue = padsAreDue(job, truth, thinnestMm);
  if (isFront && plan.event === 'machining') return machine(job, truth, isDue);
  if (isDue) return renewBrake(job, truth, tool, false);
  if (plan.event === 'back-on-road' || chance.happens(plan.care === 'thorough' ? 0.5 : 0.3))
    measureRotors(job, truth);
  if (!plan.slidesLeftAlone && chance.happens(0.05)) serviceSlides(job, truth);
  if (chance.happens(0.012)) repairHydraulics(job, truth);
}

function padsAreDue({ chance, plan, notes }: Job, { axle, spec }: AxleTruth, thinnestMm: number): boolean {
  const marginMm = thinnestMm - limitMm(spec);
  if (marginMm > chance.between(PAD_RESERVE_MM.low, PAD_RESERVE_MM.high)) return false;
  const isKept = plan.keepFrontPads && axle === 'front';
  const isPutOff = isKept || (marginMm > 0.8 && chance.happens(0.25));
  if (isPutOff && marginMm > 0) notes.push(`${axle} pads near their limit, set on order`);
  else if (isPutOff)
    notes.push(`${axle} pads below their limit, customer told and declines the repair today`);
  return !isPutOff;
}

/** Fits new pads, and a new pair of rotors if the old ones are cracked or would not last another set. */
function renewBrake(job: Job, truth: AxleTruth, tool: Tool, isCracked: boolean): void {
  const { chance, card, plan } = job;
  const thinnestRotor = measureRotors(job, truth);
  const isThin = thinnestRotor - discardMm(truth.spec) < ROTOR_RESERVE_MM;
  if (isCracked || isThin) replaceRotors(job, truth);
  replacePads(job, truth);
  if (!plan.slidesLeftAlone && chance.happens(0.7)) serviceSlides(job, truth, false);
  if (chance.happens(0.75)) for (const pad of truth.pads) writePad(job, truth, pad, tool, 'as-left');
  if ((isCracked || isThin) && chance.happens(0.5)) measureRotors(job, truth, 'as-left');
  tighten(job, truth, 'caliper-bracket-bolt', 2);
  if (chance.happens(0.5)) tighten(job, truth, 'wheel-bolt', 1);
  if (isCracked) card.conditions.push({ part: 'pad', axle: truth.axle, side: 'left', state: 'glazed' });
}

/** Class B pads are cheaper, and a millimetre or a thirty-second of an inch thinner when new. */
function replacePads({ chance, card }: Job, truth: AxleTruth): void {
  const { new: original, limit } = truth.spec.pad!;
  const isCheap = chance.happens(0.25);
  const fresh = isCheap ? { ...original!, value: original!.value - 1 } : original!;
  const part = `${truth.axle} pad set, class ${isCheap ? 'B' : 'A'}`;
  card.work.push({ kind: 'pads-replaced', axle: truth.axle, new: fresh, limit, part });
  fitPads(chance, truth, toMm(fresh));
}

function replaceRotors({ chance, card }: Job, truth: AxleTruth): void {
  const { new: fresh, discard } = truth.spec.rotor!;
  card.work.push({
    kind: 'rotor-replaced',
    axle: truth.axle,
    new: fresh,
    discard,
    part: `${truth.axle} rotor pair`,
  });
  fitRotors(chance, truth);
}

/** The rotors arrive uneven enough to shake the pedal, and leave even and a little thinner. */
function machine(job: Job, truth: AxleTruth, padsAreDueToo: boolean): void {
  for (const rotor of truth.rotors) rotor.unevenMm = job.chance.between(0.028, 0.035);
  measureRotors(job, truth);
  job.card.work.push({
    kind: 'rotor-machined',
    axle: truth.axle,
    notes: 'turned on the vehicle, both sides',
  });
  machineRotors(job.chance, truth);
  if (padsAreDueToo) replacePads(job, truth);
  measureRotors(job, truth, 'as-left');
  tighten(job, truth, 'caliper-bracket-bolt', 2);
}

function serviceSlides(job: Job, truth: AxleTruth, alone = true): void {
  job.card.work.push({ kind: 'slides-serviced', axle: truth.axle });
  if (alone) tighten(job, truth, 'caliper-bracket-bolt', 2);
}

function repairHydraulics({ chance, card }: Job, { axle }: AxleTruth): void {
  const side = chance.pick(SIDES);
  if (chance.happens(0.5)) {
    card.conditions.push({ part: 'caliper', axle, side, state: 'seized', notes: 'piston stiff' });
    card.work.push({ kind: 'caliper-replaced', axle, side });
  } else {
    card.conditions.push({ part: 'hose', axle, side, state: 'leaking', notes: 'damp at the union' });
    card.work.push({ kind: 'hose-replaced', axle, side });
  }
}

function noteConditions({ chance, card, plan }: Job, { axle }: AxleTruth): void {
  const isFront = axle === 'front';
  const side: Side = 'left';
  if (isFront && plan.event === 'crack') {
    card.conditions.push({ part: 'rotor', axle, side, state: 'cracked', notes: 'from the edge inwards' });
  } else if (isFront && plan.event === 'scoring') {
    card.conditions.push({ part: 'rotor', axle, side, state: 'scored', notes: 'groove in the outer third' });
  } else if (plan.event === 'back-on-road') {
    card.conditions.push({ part: 'rotor', axle, state: 'corroded', notes: 'rust film over the whole face' });
  } else if (chance.happens(0.06)) {
    card.conditions.push({
      part: 'rotor',
      axle,
      state: chance.pick(['ok', 'ok', 'corroded', 'heat-spotted']),
    });
  }
}

/** One bolt in thirty is left outside its tolerance. */
function tighten(
  { chance, card, technician }: Job,
  truth: AxleTruth,
  fastener: string,
  positions: number,
): void {
  const spec = truth.spec.torque?.[fastener];
  if (!spec) return;
  const unit = technician.torqueUnit;
  const specified = toNm(spec) / toNm({ value: 1, unit });
  for (const side of SIDES) {
    for (let position = 1; position <= positions; position += 1) {
      const share = chance.happens(1 / 30) ? chance.pick([0.82, 1.15]) : chance.normal(1, 0.015);
      const value = Math.round(specified * share);
      card.torques.push({ fastener, axle: truth.axle, side, position, value, unit });
    }
  }
}

const indicatorMm = ({ pad }: AxleInput): number => (pad?.wearIndicator ? toMm(pad.wearIndicator) : 0);

const isSquealing = (axles: readonly AxleTruth[]): boolean =>
  axles.some(({ pads, spec }) => pads.some((pad) => pad.mm <= indicatorMm(spec)));

const isShaking = (axles: readonly AxleTruth[]): boolean =>
  axles.some(({ rotors, spec }) => rotors.some((rotor) => rotor.runoutMm > toMm(spec.rotor!.runoutLimit!)));

function complaintOf({ chance, plan }: Job, axles: readonly AxleTruth[]): string | null {
  if (plan.event === 'machining') return 'pedal shakes when braking from higher speed';
  if (plan.event === 'grinding') return 'grinding from the front when braking';
  if (plan.event === 'crack') return 'knocking once a turn when braking';
  if (isSquealing(axles) && chance.happens(0.7)) return 'squeals when braking gently';
  return chance.happens(0.06)
    ? chance.pick(['pulls a little in the wet', 'long pedal', 'brake dust on one wheel'])
    : null;
}

function roadTestOf({ chance, card, plan }: Job, axles: readonly AxleTruth[]): VisitInput['roadTest'] {
  const isWorkedOn = card.work.length > 0;
  if (plan.care !== 'none' && !chance.happens(isWorkedOn ? 0.7 : 0.15)) return null;
  const pulls = axles.some((axle) => axle.pads.some((pad) => pad.sticking)) ? 'left' : 'none';
  return {
    pulls: chance.happens(0.9) ? pulls : null,
    pulsation: isShaking(axles),
    noise: isSquealing(axles),
  };
}
