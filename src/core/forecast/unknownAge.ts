import {
  beginPart,
  COV,
  DRAGGING,
  FAST,
  lookVariance,
  MM,
  NORMAL,
  PART,
  RATE,
  STATE,
  VAR_MM,
  VAR_RATE,
  WEIGHT,
  type FilterModel,
  type Look,
} from './filter.js';
import { zeros } from './floats.js';
import type { Following } from './following.js';
import type { Hypothesis } from './hypothesis.js';
import { decay } from './normal.js';
import { ageDensity, cutOff, maxAge, usualLife } from './renewal.js';
import { takeReading } from './takeReading.js';

/** Sets of unknown age, for example the first one measured of a vehicle without records. */

/** Belief about the age of a set before it is measured. */
export interface AgeBelief {
  /** Maximum age at a node, 1000 km. */
  furthest: (node: number) => number;
  /** Joint density, at a node, of the set being fitted and of its age. */
  density: (age: number, node: number) => number;
}

/** Belief about the age of a set that is not the original one. */
export function renewalBelief(
  { lives, rates }: Following,
  part: number,
  driven: number,
  drivenSd: number,
): AgeBelief {
  const set = lives[part]!.set!;
  const lifeAt = (node: number): number => usualLife(set, rates[node]!);
  return {
    furthest: (node) => Math.min(driven + 3 * drivenSd, maxAge(set.habits, lifeAt(node))),
    density: (age, lane) => ageDensity(set.habits, age, lifeAt(lane), driven, drivenSd),
  };
}

/** The evidence of one measured part about its set's age. */
interface Witness {
  look: Look;
  /**
   * Age implied by the reading at the part's mean rate, and its precision, reduced if the reading may be a misreading.
   */
  age: number;
  precision: number;
  rate: number;
  varianceMm: number;
}

const SQRT_2PI = Math.sqrt(2 * Math.PI);

/**
 * Starts the parts of a set of unknown age in every lane and updates the measured ones with their readings. All parts
 * of the set have the same age, so each part's age is estimated from the others.
 *
 * @returns the likelihood of the set and its readings, by lane
 */
export function beginAtUnknownAge(
  following: Following,
  hypothesis: Hypothesis,
  members: readonly number[],
  looks: readonly Look[],
  belief: AgeBelief,
): Float64Array {
  const { model } = following;
  const { weights } = hypothesis;
  const own = looks.filter(({ part }) => members.includes(part));
  const ratios = following.parts.map(({ ratioShare }) => Math.exp(ratioShare * model.logInnerOuter));
  const likelihoods = zeros(weights.length);
  for (let lane = 0; lane < weights.length; lane++) {
    if (weights[lane] === 0) continue;
    const likelihood = beginInLane(following, hypothesis, members, own, belief, lane, ratios);
    likelihoods[lane] = isSound(hypothesis, members, lane)
      ? likelihood
      : rulesOut(following, hypothesis, members, lane);
  }
  return likelihoods;
}

/** Whether the parts' states are numbers; at a rate that the readings rule out, densities underflow. */
function isSound({ weights, states }: Hypothesis, members: readonly number[], lane: number): boolean {
  let sum = 0;
  for (const part of members) {
    const at = (part * weights.length + lane) * PART;
    for (let index = at; index < at + PART; index++) sum += states[index]!;
  }
  return Number.isFinite(sum);
}

/** Resets a lane that the readings rule out: its parts are new and its likelihood is 0. */
function rulesOut(
  { model, rates, lives, cellVariance }: Following,
  { weights, states }: Hypothesis,
  members: readonly number[],
  lane: number,
): number {
  const rate = rates[lane]!;
  const variance = rate * rate * (model.partVariance + cellVariance);
  for (const part of members) {
    const at = (part * weights.length + lane) * PART;
    beginPart(states, at, model, rate, variance, lives[part]!.set!.newMm, model.startVariance);
  }
  return 0;
}

/** @param ratios each part's rate over the axle's */
function beginInLane(
  following: Following,
  { weights, states }: Hypothesis,
  members: readonly number[],
  looks: readonly Look[],
  belief: AgeBelief,
  lane: number,
  ratios: readonly number[],
): number {
  const { rates, parts, lives, cellVariance, model } = following;
  const base = rates[lane]!;
  const furthest = belief.furthest(lane);
  const spread = model.partVariance + cellVariance;
  const witnesses = witnessesOf(looks, base, ratios, furthest, spread, following);
  let precision = 0;
  let pull = 0;
  for (const witness of witnesses) {
    precision += witness.precision;
    pull += witness.precision * witness.age;
  }
  const common = model.visitVariance / (base * base);
  for (const part of members) {
    const witness = witnesses.find(({ look }) => look.part === part);
    const rest = precision - (witness?.precision ?? 0);
    const others = pull - (witness ? witness.precision * witness.age : 0);
    // Without readings of other parts, any possible age is equally likely.
    const age =
      rest > 1e-9 * precision
        ? cutOff(others / rest, Math.sqrt(1 / rest + common), 0, furthest)
        : { mean: furthest / 2, variance: furthest ** 2 / 12 };
    const at = (part * weights.length + lane) * PART;
    const rate = base * ratios[part]!;
    const { newMm } = lives[part]!.set!;
    beginAtAge(states, at, model, rate, spread, newMm, age.mean, age.variance, parts.length);
    if (witness) takeReading(states, at, witness.look, 0, model.visitVariance, model);
  }
  return likelihoodOf(
    witnesses,
    precision,
    pull,
    common,
    furthest,
    (age) => belief.density(age, lane),
    model,
  );
}

function witnessesOf(
  looks: readonly Look[],
  base: number,
  ratios: readonly number[],
  furthest: number,
  spread: number,
  { lives, model }: Following,
): Witness[] {
  const witnesses = looks.map((look): Witness => {
    const rate = base * ratios[look.part]!;
    return { look, rate, age: (lives[look.part]!.set!.newMm - look.mm) / rate, varianceMm: 0, precision: 0 };
  });
  const middle = Math.min(furthest, Math.max(0, medianAge(witnesses)));
  for (const witness of witnesses) {
    const { look, rate, age } = witness;
    witness.varianceMm =
      spread * (rate * middle) ** 2 +
      model.startVariance +
      model.wanderVariance * middle +
      lookVariance(look, model);
    const off = rate * (age - middle);
    const wide = witness.varianceMm + model.visitVariance;
    const plain = (model.plain * decay((0.5 * off * off) / wide)) / Math.sqrt(wide);
    const trust = plain / (plain + model.misreadChance / look.rangeMm + 1e-300);
    witness.precision = (trust * rate * rate) / witness.varianceMm;
  }
  return witnesses;
}

/** The upper median. */
const medianAge = (witnesses: readonly Witness[]): number =>
  witnesses.map(({ age }) => age).sort((a, b) => a - b)[witnesses.length >> 1]!;

/** Starts a part of a given age. Thickness and rate are correlated, since a faster part has worn more. */
function beginAtAge(
  states: Float64Array,
  at: number,
  model: FilterModel,
  rate: number,
  spread: number,
  newMm: number,
  age: number,
  ageVariance: number,
  parts: number,
): void {
  beginPart(states, at, model, rate, rate * rate * spread, newMm, model.startVariance);
  for (const component of [NORMAL, FAST]) {
    const own = at + component;
    const varRate = states[own + VAR_RATE]!;
    const ownRate = states[own + RATE]!;
    states[own + MM]! -= ownRate * age;
    states[own + VAR_MM]! +=
      age * age * varRate + ownRate * ownRate * ageVariance + model.wanderVariance * age;
    states[own + COV]! -= age * varRate;
  }
  const chance = 1 - Math.exp((-model.dragsPer1000Km * age) / parts);
  const dragging = at + DRAGGING;
  for (let index = 0; index < STATE; index++) states[dragging + index] = states[at + NORMAL + index]!;
  const more = rate * (model.dragFactor - 1);
  states[dragging + WEIGHT] = chance * states[at + NORMAL + WEIGHT]!;
  states[dragging + MM]! -= (more * age) / 2;
  states[dragging + VAR_MM]! += (more * age) ** 2 / 12;
  states[dragging + RATE]! *= model.dragFactor;
  states[dragging + COV]! *= model.dragFactor;
  states[dragging + VAR_RATE] =
    model.dragFactor ** 2 * states[at + NORMAL + VAR_RATE]! + rate * rate * model.dragVariance;
  states[at + NORMAL + WEIGHT]! *= 1 - chance;
}

/** Density of the readings, with the age integrated out about its estimate. */
function likelihoodOf(
  witnesses: readonly Witness[],
  precision: number,
  pull: number,
  common: number,
  furthest: number,
  density: (age: number) => number,
  model: FilterModel,
): number {
  if (witnesses.length === 0 || !(precision > 0)) return density(furthest / 2) * furthest * 1e-3;
  const best = pull / precision;
  const nearest = Math.min(furthest, Math.max(0, best));
  const { mean, share } = cutOff(best, Math.sqrt(1 / precision + common), 0, furthest);
  // If the estimate lies outside the possible ages, only the near tail of its density counts.
  const beyond = Math.abs(nearest - best);
  const whole = (SQRT_2PI / Math.sqrt(precision)) * (beyond > 0 ? 0.5 : share);
  let product = density(mean) * Math.min(whole, furthest, beyond > 0 ? 1 / (precision * beyond) : Infinity);
  for (const { look, rate, age, varianceMm } of witnesses) {
    const off = rate * (nearest - age);
    const plain = (model.plain * decay((0.5 * off * off) / varianceMm)) / Math.sqrt(varianceMm);
    product *= plain + model.misreadChance / look.rangeMm;
  }
  return product;
}
