import {
  beginPart,
  densityAboutMean,
  DRAGGING,
  FAST,
  lookVariance,
  MM,
  PART,
  RATE,
  STATE,
  VAR_MM,
  WEIGHT,
  type FilterModel,
  type Look,
} from './filter.js';
import { zeros } from './floats.js';
import type { Following } from './following.js';
import { multiply, type Hypothesis } from './hypothesis.js';
import { decay } from './normal.js';
import { takeReading } from './takeReading.js';
import { beginAtUnknownAge, type AgeBelief } from './unknownAge.js';

/** Updates one hypothesis with the readings of a visit, which share an error. */

/** How a hypothesis processes the readings of a visit. */
export interface VisitPlan {
  /** Parts known only from this reading. */
  atReading: readonly number[];
  /** Parts of one set of unknown age. */
  renewed: { members: readonly number[]; belief: AgeBelief } | null;
  /** Standard deviation of the set's new thickness about its specification, mm; 0 if as specified. */
  otherNewSd: number;
}

/** Updates one hypothesis with the readings of a visit. */
export function takeVisit(
  following: Following,
  hypothesis: Hypothesis,
  looks: readonly Look[],
  plan: VisitPlan,
): void {
  const { atReading, renewed } = plan;
  const members = renewed?.members ?? [];
  for (const look of looks) if (atReading.includes(look.part)) beginAtReading(following, hypothesis, look);
  if (renewed) {
    const likelihoods = beginAtUnknownAge(following, hypothesis, renewed.members, looks, renewed.belief);
    multiply(hypothesis, likelihoods);
  }
  const others = looks.filter(({ part }) => !atReading.includes(part) && !members.includes(part));
  if (others.length > 0) takeTogether(following, hypothesis, others, plan.otherNewSd);
}

/** Starts a part at its first reading, its only source of thickness. */
function beginAtReading(
  { model, rates, parts, cellVariance }: Following,
  { weights, states }: Hypothesis,
  look: Look,
): void {
  for (let lane = 0; lane < weights.length; lane++) {
    const rate = rates[lane]! * Math.exp(parts[look.part]!.ratioShare * model.logInnerOuter);
    const variance = lookVariance(look, model) + model.visitVariance + rate * rate * look.placeVariance;
    const at = (look.part * weights.length + lane) * PART;
    beginPart(states, at, model, rate, rate * rate * (model.partVariance + cellVariance), look.mm, variance);
  }
}

/** Buffers for each reading's contribution to the estimate of the error that a visit's readings share. */
interface Shared {
  precision: Float64Array;
  pull: Float64Array;
  error: Float64Array;
  /** The shared error given the other readings: mean (`common`) and variance (`left`). */
  common: Float64Array;
  left: Float64Array;
}

/**
 * Updates parts with readings that share an error. Each reading is corrected by the shared error estimated from the
 * others. With `otherNewSd`, the shared deviation is that of the parts from their specification, so it changes their
 * thickness instead.
 */
function takeTogether(
  following: Following,
  hypothesis: Hypothesis,
  looks: readonly Look[],
  otherNewSd: number,
): void {
  const { model } = following;
  const { weights, states } = hypothesis;
  const lanes = weights.length;
  const shared: Shared = {
    precision: zeros(looks.length),
    pull: zeros(looks.length),
    error: zeros(looks.length),
    left: zeros(looks.length),
    common: zeros(looks.length),
  };
  const likelihoods = zeros(lanes);
  const commonVariance = model.visitVariance + otherNewSd * otherNewSd;
  const repeated = looks.reduce((product, look) => product * densityAboutMean(look, model), 1);
  for (let lane = 0; lane < lanes; lane++) {
    if (weights[lane] === 0) continue;
    let likelihood = repeated;
    if (commonVariance > 0)
      likelihood *= shareError(states, lane, lanes, looks, model, commonVariance, shared);
    for (let index = 0; index < looks.length; index++) {
      const look = looks[index]!;
      const at = (look.part * lanes + lane) * PART;
      const common = shared.common[index]!;
      const left = shared.left[index]!;
      if (otherNewSd > 0) {
        shift(states, at, common, left);
        likelihood *= takeReading(states, at, look, 0, 0, model);
      } else likelihood *= takeReading(states, at, look, common, left, model);
    }
    likelihoods[lane] = likelihood;
  }
  if (otherNewSd > 0) shiftUnmeasured(following, hypothesis, looks, otherNewSd);
  multiply(hypothesis, likelihoods);
}

/** Adds an uncertain amount to the thickness of a part in all components. */
function shift(states: Float64Array, at: number, mm: number, variance: number): void {
  for (let component = at; component < at + PART; component += STATE) {
    states[component + MM]! += mm;
    states[component + VAR_MM]! += variance;
  }
}

/** Adds the uncertainty of another new thickness to the parts of the set that were not measured. */
function shiftUnmeasured(
  { lives, unmeasured }: Following,
  { weights, states }: Hypothesis,
  looks: readonly Look[],
  otherNewSd: number,
): void {
  lives.forEach((life, part) => {
    if (!life || !unmeasured[part] || looks.some((look) => look.part === part)) return;
    for (let lane = 0; lane < weights.length; lane++) {
      shift(states, (part * weights.length + lane) * PART, 0, otherNewSd * otherNewSd);
    }
  });
}

/**
 * Estimates the shared error from all readings. The more likely a reading is a misreading, the less it counts.
 *
 * @returns the joint likelihood of all readings, taken as plain, divided by the product of each one's likelihood given
 *   the others
 */
function shareError(
  states: Float64Array,
  lane: number,
  lanes: number,
  looks: readonly Look[],
  model: FilterModel,
  commonVariance: number,
  { precision, pull, error, common, left }: Shared,
): number {
  let total = 1 / commonVariance;
  let pulls = 0;
  for (let index = 0; index < looks.length; index++) {
    const look = looks[index]!;
    let at = (look.part * lanes + lane) * PART;
    if (states[at + DRAGGING + WEIGHT]! > 0.5) at += DRAGGING;
    else if (states[at + FAST + WEIGHT]! > 0.5) at += FAST;
    const rate = states[at + RATE]!;
    const variance = states[at + VAR_MM]! + lookVariance(look, model) + rate * rate * look.placeVariance;
    const off = look.mm - states[at + MM]!;
    const wide = variance + commonVariance;
    const plain = (model.plain * decay((0.5 * off * off) / wide)) / Math.sqrt(wide);
    const trust = plain / (plain + model.misreadChance / look.rangeMm + 1e-300);
    error[index] = off;
    precision[index] = trust / variance;
    pull[index] = off * precision[index]!;
    total += precision[index]!;
    pulls += pull[index]!;
  }
  let product = 1 / (commonVariance * total);
  let exponent = (pulls * pulls) / total;
  for (let index = 0; index < looks.length; index++) {
    const own = precision[index]!;
    const variance = 1 / (total - own);
    const mean = variance * (pulls - pull[index]!);
    const apart = error[index]! - mean;
    left[index] = variance;
    common[index] = mean;
    product *= 1 + own * variance;
    exponent -= own * (error[index]! * error[index]! - (apart * apart) / (1 + own * variance));
  }
  return Math.sqrt(product) * Math.exp(0.5 * exponent);
}
