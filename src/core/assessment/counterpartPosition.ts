import { gaugeFor } from '../gauges.js';
import type { History, HistoryVisit } from '../history.js';
import {
  isDrumBrake,
  judgeRepeats,
  leftUntil,
  type CounterpartSpec,
  type Life,
  type Observation,
} from '../lives.js';
import { COUNTERPART_PLACEMENT_SD_MM } from '../placement.js';
import { roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import { TAKEN, type Axle, type Conformity, type LengthUnit, type Side } from '../vocabulary/terms.js';
import { conformityAsItWears, conformityBelow } from './conformity.js';
import { DRUM, ROTOR, type Counterpart } from './counterpart.js';
import type { AxleContext } from './padPosition.js';
import { standingFailure, type StandingFailure } from './standing.js';
import { axleFacts, defectsOf } from './whichRules.js';

/** What is known of one rotor or drum now. */
export interface CounterpartPosition {
  counterpart: Counterpart;
  side: Side;
  lives: Life<CounterpartSpec>[];
  present: Life<CounterpartSpec>;
  latest: Observation | null;
  /** The discard thickness of a rotor, the maximum diameter of a drum. */
  limitMm: number | null;
  /** What the latest reading leaves until then, mm. */
  marginMm: number | null;
  machineToMm: number | null;
  standardUncertaintyMm: number | null;
  conformity: Conformity | null;
  points: number;
  variationMm: number | null;
  variationConformity: Conformity | null;
  runoutMm: number | null;
  runoutUnit: LengthUnit | null;
  runoutConformity: Conformity | null;
  /** Whether an earlier measurement of this life already asked to clean the hub: over its limit or too close to it. */
  runoutAsked: boolean;
  /** When it was found cracked, and the rules that make this a defect; null if not cracked. */
  cracked: { date: string; defects: string[] } | null;
  damaged: string | null;
  /** Date of a visit that both found it cracked and replaced it, until somebody has looked at the new one. */
  crackedBefore: string | null;
  /** The rules under which a part past its limit is a defect. */
  limitDefects: string[];
  /** A failing reading that no later one has overruled. */
  standing: StandingFailure | null;
  /** Its thickness or diameter right after machining if that is past the machine-to figure, mm. */
  leftBeyondMachineToMm: number | null;
  /** What is expected at the latest visit if the last measurement is much older; null otherwise. */
  outOfDate: { expectedMm: number; visitDate: string } | null;
  /** Chance of passing the limit before the next visit; null if unknown. */
  beforeNextVisit: { chance: number; date: string } | null;
}

/** What a new rotor or drum has to wear if its figure is unknown, mm (common practice, no source). */
const USUAL_USABLE_MM = 2;

/** The position before any forecast. */
export type KnownPosition = Omit<CounterpartPosition, 'beforeNextVisit' | 'outOfDate'>;

export function counterpartPosition(
  { history, ruleSets }: AxleContext,
  lives: Life<CounterpartSpec>[],
  axle: Axle,
  side: Side,
): KnownPosition {
  const present = lives.at(-1)!;
  const { spec } = present;
  const latest = present.observations.at(-1) ?? null;
  const u = latest?.standardUncertaintyMm ?? null;
  const limitMm = spec.limit ? toMm(spec.limit) : null;
  const thicknesses = latest ? [...latest.places.values()] : [];
  const variationMm =
    thicknesses.length > 1 ? roundMm(Math.max(...thicknesses) - Math.min(...thicknesses)) : null;
  const runouts = runoutsOf(history, present, axle, side);
  const runout = runouts.at(-1);
  const isOver = (each: Runout): boolean =>
    spec.runoutLimit != null && conformityOfRunout(each, toMm(spec.runoutLimit)) !== 'conforms';
  const counterpart = isDrumBrake(history, axle) ? DRUM : ROTOR;
  const { wears } = counterpart;
  const conditions = conditionsSince(history, present, counterpart.part, axle, side);
  const machineToMm = spec.machineTo ? toMm(spec.machineTo) : null;
  const facts = axleFacts(history.vehicle, axle);
  const crackedOn = crackOf(history, lives, counterpart.part, axle, side);
  return {
    counterpart,
    side,
    lives,
    present,
    latest,
    limitMm,
    marginMm: latest && limitMm !== null ? roundMm(leftUntil(wears, latest.mm, limitMm)) : null,
    machineToMm,
    standardUncertaintyMm: u,
    conformity: latest && limitMm !== null ? conformityAsItWears(wears, latest.mm, limitMm, u!) : null,
    points: thicknesses.length,
    variationMm,
    // A variation is the difference of two readings, so its standard uncertainty is √2 that of one.
    variationConformity:
      variationMm !== null && spec.variationLimit
        ? conformityBelow(variationMm, toMm(spec.variationLimit), u! * Math.SQRT2)
        : null,
    runoutMm: runout?.mm ?? null,
    runoutUnit: runout?.unit ?? null,
    runoutConformity: runout && spec.runoutLimit ? conformityOfRunout(runout, toMm(spec.runoutLimit)) : null,
    runoutAsked: runouts.slice(0, -1).some(isOver),
    cracked:
      crackedOn === null
        ? null
        : { date: crackedOn, defects: defectsOf(ruleSets, facts, counterpart.part, 'cracked') },
    crackedBefore: crackedWhenReplaced(history, present, counterpart.part, axle, side),
    limitDefects: defectsOf(ruleSets, facts, counterpart.part, 'beyond-marked-figure'),
    standing:
      limitMm === null
        ? null
        : standingFailure(present.observations, {
            wears,
            limitMm,
            failsAtLimit: false,
            placementSdMm: COUNTERPART_PLACEMENT_SD_MM,
            usableMm: spec.new ? leftUntil(wears, toMm(spec.new), limitMm) : USUAL_USABLE_MM,
          }),
    leftBeyondMachineToMm: leftBeyond(present, counterpart, machineToMm),
    damaged: conditions.find((state) => state === 'scored' || state === 'heat-spotted') ?? null,
  };
}

/**
 * The thickness or diameter right after machining if it is past the machine-to figure; null otherwise, or if either is
 * unknown.
 */
function leftBeyond(
  life: Life<CounterpartSpec>,
  { wears }: Counterpart,
  machineToMm: number | null,
): number | null {
  if (life.origin !== 'machined' || machineToMm === null) return null;
  const left = life.observations[0]?.mm;
  return left !== undefined && leftUntil(wears, left, machineToMm) < 0 ? left : null;
}

interface Runout {
  mm: number;
  u: number;
  unit: LengthUnit;
  /** The largest repeat of the deciding gauge. */
  largestMm: number;
}

/** A repeat over the limit keeps the answer open, however many others are under it. */
function conformityOfRunout({ mm, u, largestMm }: Runout, limitMm: number): Conformity {
  const conformity = conformityBelow(mm, limitMm, u);
  return conformity === 'conforms' && largestMm > limitMm ? 'inconclusive' : conformity;
}

/** The run-out of the rotor in its present state, at each measurement, oldest first. */
function runoutsOf(history: History, { begunAt }: Life<CounterpartSpec>, axle: Axle, side: Side): Runout[] {
  return history.visits.flatMap((visit, index) =>
    TAKEN.flatMap((taken) => {
      if (index < begunAt || (index === begunAt && taken === 'as-found')) return [];
      const readings = visit.readings.filter(
        (reading) =>
          reading.kind === 'rotor-runout' &&
          reading.axle === axle &&
          reading.side === side &&
          reading.taken === taken,
      );
      if (readings.length === 0) return [];
      const {
        mm,
        standardUncertaintyMm: u,
        unit,
        worstRepeat,
      } = judgeRepeats(
        readings.map((reading) => ({
          mm: reading.mm,
          gauge: gaugeFor(reading.gauge, reading.kind, history.gauges),
          unit: reading.unit,
        })),
        { placementSdMm: 0, wears: 'wider' },
      );
      return [{ mm, u, unit, largestMm: worstRepeat.mm }];
    }),
  );
}

const isOnSide = (entry: { axle: Axle; side?: Side | null }, axle: Axle, side: Side): boolean =>
  entry.axle === axle && (entry.side == null || entry.side === side);

/** Conditions recorded on a rotor in its life, in order; `ok` cancels the earlier ones. */
function conditionsSince(
  { visits }: History,
  { begunAt }: Life<CounterpartSpec>,
  part: Counterpart['part'],
  axle: Axle,
  side: Side,
): string[] {
  const found = visits
    .slice(begunAt + 1)
    .flatMap((visit) => visit.conditions)
    .filter((entry) => entry.part === part && isOnSide(entry, axle, side))
    .map((entry) => entry.state);
  return found.slice(found.lastIndexOf('ok') + 1);
}

/** When a crack was last found; only a replacement clears it, not machining or a later entry. */
function crackOf(
  { visits }: History,
  lives: readonly Life<CounterpartSpec>[],
  part: Counterpart['part'],
  axle: Axle,
  side: Side,
): string | null {
  const { begunAt } = lives.findLast((life) => life.origin !== 'machined')!;
  const found = visits
    .slice(begunAt + 1)
    .findLast((visit) =>
      visit.conditions.some(
        (entry) => entry.part === part && entry.state === 'cracked' && isOnSide(entry, axle, side),
      ),
    );
  return found?.date ?? null;
}

/**
 * The date of a visit that both found a part cracked and replaced it, without saying in which of the two the crack is;
 * null if none. A later `ok` answers, and so does a later visit that looked at the part.
 */
function crackedWhenReplaced(
  { visits }: History,
  { begunAt, origin, observations }: Life<CounterpartSpec>,
  part: Counterpart['part'],
  axle: Axle,
  side: Side,
): string | null {
  const visit = origin === 'replaced' ? visits[begunAt] : undefined;
  if (!visit) return null;
  const statesAt = ({ conditions }: HistoryVisit): string[] =>
    conditions
      .filter((entry) => entry.part === part && isOnSide(entry, axle, side))
      .map(({ state }) => state);
  const states = statesAt(visit);
  const isOpen = states.lastIndexOf('cracked') > states.lastIndexOf('ok');
  const isLookedAt =
    observations.some((observation) => observation.visit.id !== visit.id) ||
    visits.slice(begunAt + 1).some((later) => statesAt(later).length > 0);
  return isOpen && !isLookedAt ? visit.date : null;
}

/** Fitted in the workshop at a known thickness, and not in use since long before. */
export const isFittedNew = ({ origin, startMm }: Life<CounterpartSpec>): boolean =>
  origin === 'replaced' && startMm !== null;

/** Whether its thickness and its limit are known. */
export const isJudged = ({ limitMm, latest, present }: KnownPosition): boolean =>
  limitMm !== null && (latest !== null || isFittedNew(present));

/** Recorded as fitted new at a thickness or diameter that its limit does not allow. */
export const isFittedBeyondLimit = ({ present, limitMm, counterpart }: CounterpartPosition): boolean =>
  present.origin === 'replaced' &&
  present.startMm !== null &&
  limitMm !== null &&
  leftUntil(counterpart.wears, present.startMm, limitMm) <= 0;
