import { itemAt } from '../items.js';
import { isDrumBrake, leftUntil, type CounterpartSpec, type Life, type Observation } from '../lives.js';
import { COUNTERPART_PLACEMENT_SD_MM } from '../placement.js';
import { roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import type { Axle, Conformity, LengthUnit, Side } from '../vocabulary/terms.js';
import { conformityAsItWears, conformityBelow } from './conformity.js';
import { DRUM, ROTOR, type Counterpart } from './counterpart.js';
import { crackedWhenReplaced, crackOf, damageOf } from './counterpartDamage.js';
import { runoutOf } from './counterpartRunout.js';
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
  /** How far the latest reading is from the limit, mm; negative if past it. */
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
  /** Whether an earlier run-out of this life already called for cleaning the hub: over its limit or too close. */
  runoutAsked: boolean;
  /** When it was found cracked, and the rules that make this a defect; null if not cracked. */
  cracked: { date: string; defects: string[] } | null;
  damaged: string | null;
  /** Date of a visit that both found it cracked and replaced it; null once the new one has been checked. */
  crackedBefore: string | null;
  /** The rules under which a part past its limit is a defect. */
  limitDefects: string[];
  /** A failing reading that no later one has overruled. */
  standing: StandingFailure | null;
  /** Its thickness or diameter right after machining if that is past the machine-to figure, mm. */
  leftBeyondMachineToMm: number | null;
  /** The forecast for the latest visit if the last measurement is much older; null otherwise. */
  outOfDate: { expectedMm: number; visitDate: string } | null;
  /** The forecast for the latest visit if it takes the reading of that visit for a mistake; null otherwise. */
  disbelieved: { expectedMm: number } | null;
  /** Whether its readings show that it was replaced without a record. */
  replacedUnseen: boolean;
  /** Chance of passing the limit before the next visit; null if unknown. */
  beforeNextVisit: { chance: number; date: string } | null;
}

/** Usable wear of a new rotor or drum whose thickness or diameter is unknown, mm (common practice, no source). */
const USUAL_USABLE_MM = 2;

/** The position without the fields that need a forecast. */
export type KnownPosition = Omit<
  CounterpartPosition,
  'beforeNextVisit' | 'outOfDate' | 'disbelieved' | 'replacedUnseen'
>;

export function counterpartPosition(
  { history, ruleSets }: AxleContext,
  lives: Life<CounterpartSpec>[],
  axle: Axle,
  side: Side,
): KnownPosition {
  const present = itemAt(lives, -1);
  const counterpart = isDrumBrake(history, axle) ? DRUM : ROTOR;
  const { part } = counterpart;
  const place = { history, part, axle, side };
  const facts = axleFacts(history.vehicle, axle);
  const crackedOn = crackOf(place, lives);
  return {
    counterpart,
    side,
    lives,
    present,
    ...thicknessOf(present, counterpart),
    ...runoutOf(place, present),
    cracked:
      crackedOn === null ? null : { date: crackedOn, defects: defectsOf(ruleSets, facts, part, 'cracked') },
    crackedBefore: crackedWhenReplaced(place, present),
    limitDefects: defectsOf(ruleSets, facts, part, 'beyond-marked-figure'),
    damaged: damageOf(place, present),
  };
}

/** The latest thickness or diameter against its limits. */
function thicknessOf(present: Life<CounterpartSpec>, counterpart: Counterpart) {
  const { wears } = counterpart;
  const { spec, observations } = present;
  const latest = observations.at(-1) ?? null;
  const limitMm = spec.limit ? toMm(spec.limit) : null;
  const machineToMm = spec.machineTo ? toMm(spec.machineTo) : null;
  const u = latest?.standardUncertaintyMm ?? null;
  const limited = {
    latest,
    limitMm,
    machineToMm,
    standardUncertaintyMm: u,
    leftBeyondMachineToMm: leftBeyond(present, counterpart, machineToMm),
    ...variationOf(latest, spec),
  };
  if (!latest || limitMm === null) return { ...limited, marginMm: null, conformity: null, standing: null };
  return {
    ...limited,
    marginMm: roundMm(leftUntil(wears, latest.mm, limitMm)),
    conformity: conformityAsItWears(wears, latest.mm, limitMm, latest.standardUncertaintyMm),
    standing: standingFailure(observations, {
      wears,
      limitMm,
      failsAtLimit: false,
      placementSdMm: COUNTERPART_PLACEMENT_SD_MM,
      usableMm: spec.new ? leftUntil(wears, toMm(spec.new), limitMm) : USUAL_USABLE_MM,
    }),
  };
}

/** The variation of the latest readings around the face. */
function variationOf(latest: Observation | null, { variationLimit }: CounterpartSpec) {
  const measured = latest ? [...latest.places.values()] : [];
  if (!latest || measured.length < 2)
    return { points: measured.length, variationMm: null, variationConformity: null };
  const variationMm = roundMm(Math.max(...measured) - Math.min(...measured));
  // A variation is the difference of two readings, so its standard uncertainty is √2 that of one.
  const u = latest.standardUncertaintyMm * Math.SQRT2;
  const variationConformity = variationLimit ? conformityBelow(variationMm, toMm(variationLimit), u) : null;
  return { points: measured.length, variationMm, variationConformity };
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

/** A measured part whose limit is known, so that the reading can be compared with it. */
export type ComparedPosition = CounterpartPosition & {
  latest: Observation;
  limitMm: number;
  marginMm: number;
  standardUncertaintyMm: number;
  conformity: Conformity;
};

export const isCompared = (position: CounterpartPosition): position is ComparedPosition =>
  position.latest !== null && position.limitMm !== null;

type FittedNew = Life<CounterpartSpec> & { startMm: number };

/** Whether the record has its fitting in the workshop, at a known thickness. */
export const isFittedNew = (life: Life<CounterpartSpec>): life is FittedNew =>
  life.origin === 'replaced' && life.startMm !== null;

/** Whether its thickness and its limit are known. */
export const isJudged = <Position extends KnownPosition>(
  position: Position,
): position is Position & { limitMm: number } =>
  position.limitMm !== null && (position.latest !== null || isFittedNew(position.present));

/** Recorded as fitted new at a thickness or diameter that its limit does not allow. */
export const isFittedBeyondLimit = (
  position: CounterpartPosition,
): position is CounterpartPosition & { present: FittedNew; limitMm: number } =>
  isFittedNew(position.present) &&
  position.limitMm !== null &&
  leftUntil(position.counterpart.wears, position.present.startMm, position.limitMm) <= 0;
