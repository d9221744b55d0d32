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
import { takeReading, type Following, type Hypothesis } from './follow.js';
import { cutOff } from './renewal.js';

/** What is believed of the age of a set before it is measured. */
export interface AgeBelief {
  /** The greatest age at a node, 1000 km. */
  furthest: (node: number) => number;
  /** Chance of the set and density of its age together, at a node. */
  density: (age: number, node: number) => number;
}

/** What one measured part says of its set's age. */
interface Witness {
  look: Look;
  /** Age by the reading and the part's mean rate, and its precision by how far it is trusted. */
  age: number;
  precision: number;
  rate: number;
  varianceMm: number;
}

const SQRT_2PI = Math.sqrt(2 * Math.PI);

/**
 * Begins the parts of a set of an unknown age in every lane, and takes in the readings of those that were measured.
 * All of the set have one age: of each part, the others tell what it is.
 *
 * @returns the likelihood of the set and its readings, lane by lane
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
  const likelihoods = new Float64Array(weights.length);
  for (let lane = 0; lane < weights.length; lane++) {
    if (weights[lane] === 0) continue;
    const likelihood = beginInLane(following, hypothesis, members, own, belief, lane, model);
    likelihoods[lane] = isSound(hypothesis, members, lane)
      ? likelihood
      : rulesOut(following, hypothesis, members, lane);
  }
  return likelihoods;
}

/** Whether the states of parts are numbers: at a rate that the readings rule out altogether their densities vanish. */
function isSound({ weights, states }: Hypothesis, members: readonly number[], lane: number): boolean {
  return members.every((part) => {
    const at = (part * weights.length + lane) * PART;
    return states.subarray(at, at + PART).every(Number.isFinite);
  });
}

/** A lane that the readings rule out: its parts are as new, and it has no likelihood. */
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

function beginInLane(
  following: Following,
  { weights, states }: Hypothesis,
  members: readonly number[],
  looks: readonly Look[],
  belief: AgeBelief,
  lane: number,
  model: FilterModel,
): number {
  const { rates, parts, lives, cellVariance } = following;
  const furthest = belief.furthest(lane);
  const rateOf = (part: number): number =>
    rates[lane]! * Math.exp(parts[part]!.ratioShare * model.logInnerOuter);
  const spread = model.partVariance + cellVariance;
  const witnesses = witnessesOf(looks, rateOf, furthest, model, spread, following);
  const precision = witnesses.reduce((sum, witness) => sum + witness.precision, 0);
  const pull = witnesses.reduce((sum, witness) => sum + witness.precision * witness.age, 0);
  const common = model.visitVariance / rates[lane]! ** 2;
  const ageWithout = (left: Witness | undefined) => {
    const rest = precision - (left?.precision ?? 0);
    if (rest < 1e-9 * precision || !(rest > 0))
      return { mean: furthest / 2, variance: furthest ** 2 / 12, share: 1 };
    const mean = (pull - (left ? left.precision * left.age : 0)) / rest;
    return cutOff(mean, Math.sqrt(1 / rest + common), 0, furthest);
  };
  for (const part of members) {
    const witness = witnesses.find(({ look }) => look.part === part);
    const { mean, variance } = ageWithout(witness);
    const at = (part * weights.length + lane) * PART;
    beginAtAge(
      states,
      at,
      model,
      rateOf(part),
      spread,
      lives[part]!.set!.newMm,
      mean,
      variance,
      parts.length,
    );
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
  rateOf: (part: number) => number,
  furthest: number,
  model: FilterModel,
  spread: number,
  { lives }: Following,
): Witness[] {
  const ages = looks
    .map((look) => (lives[look.part]!.set!.newMm - look.mm) / rateOf(look.part))
    .sort((a, b) => a - b);
  const middle = Math.min(furthest, Math.max(0, ages[ages.length >> 1]!));
  return looks.map((look) => {
    const rate = rateOf(look.part);
    const { newMm } = lives[look.part]!.set!;
    const varianceMm =
      spread * (rate * middle) ** 2 +
      model.startVariance +
      model.wanderVariance * middle +
      lookVariance(look, model);
    const off = newMm - look.mm - rate * middle;
    const wide = varianceMm + model.visitVariance;
    const plain = (model.plain * Math.exp((-0.5 * off * off) / wide)) / Math.sqrt(wide);
    const trust = plain / (plain + model.misreadChance / look.rangeMm + 1e-300);
    return {
      look,
      rate,
      varianceMm,
      age: (newMm - look.mm) / rate,
      precision: (trust * rate * rate) / varianceMm,
    };
  });
}

/** A part that was new so long ago: its thickness and rate hang together, since a fast one has worn more. */
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

/** The density of the readings, the age integrated out about where they put it. */
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
  // Where the readings put the age outside of what it can be, only the near end of their density counts.
  const beyond = Math.abs(nearest - best);
  const whole = (SQRT_2PI / Math.sqrt(precision)) * (beyond > 0 ? 0.5 : share);
  let product = density(mean) * Math.min(whole, furthest, beyond > 0 ? 1 / (precision * beyond) : Infinity);
  for (const { look, rate, age, varianceMm } of witnesses) {
    const off = rate * (nearest - age);
    const plain = (model.plain * Math.exp((-0.5 * off * off) / varianceMm)) / Math.sqrt(varianceMm);
    product *= plain + model.misreadChance / look.rangeMm;
  }
  return product;
}
