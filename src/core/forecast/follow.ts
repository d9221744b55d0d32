import { driveWithChanges, drawSetRate } from './changes.js';
import type { Stop } from './events.js';
import {
  addByMoments,
  beganToDrag,
  beginPart,
  carry,
  DRAGGING,
  free,
  hasStart,
  NORMAL,
  PART,
  STATE,
  WEIGHT,
  type FilterModel,
  type PartTracks,
  type Track,
} from './filter.js';
import { mapped, zeros } from './floats.js';
import type { Following } from './following.js';
import { copyHypothesis, type Assumptions, type Hypothesis } from './hypothesis.js';
import { newHypotheses } from './newHypotheses.js';
import { normaliseAndPrune } from './prune.js';
import { takeVisit, type VisitPlan } from './takeVisit.js';
import { renewalBelief } from './unknownAge.js';

/**
 * Tracks the wear of all parts of an axle over distance. The unknowns are nodes of the log base rate and a few
 * hypotheses about the fitted set. Given a node and a hypothesis the parts are independent, so no sampling is needed.
 */

/**
 * @param prior weight of each node
 * @param nodesStay whether to keep all nodes and track the origins of their weights
 */
export function startFollowing(
  parts: readonly PartTracks[],
  model: FilterModel,
  logRates: Float64Array,
  prior: Float64Array,
  nodesStay = false,
): Following {
  const states = zeros(parts.length * prior.length * PART);
  const nodes = logRates.length;
  const spacing = nodes > 1 ? logRates[1]! - logRates[0]! : 0;
  const origins = nodesStay && model.jumpPerMm > 0 ? zeros(nodes * nodes) : null;
  if (origins) prior.forEach((weight, node) => (origins[node * nodes + node] = weight));
  const told: Assumptions = {
    sets: parts.map(() => 'recorded'),
    unseen: null,
    otherNew: false,
    copiedAt: null,
  };
  return {
    parts,
    model,
    logRates,
    rates: mapped(logRates, Math.exp),
    cellVariance: (spacing * spacing) / 12,
    nodesStay,
    hypotheses: [{ told, weights: prior, states, origins }],
    logLikelihood: 0,
    lives: parts.map(() => null),
    unmeasured: parts.map(() => true),
    here: null,
    lastSeen: null,
  };
}

export function copyFollowing(following: Following): Following {
  return {
    ...following,
    hypotheses: following.hypotheses.map(copyHypothesis),
    lives: following.lives.slice(),
    unmeasured: following.unmeasured.slice(),
  };
}

/** Processes a series of stops. */
export function followOn(following: Following, stops: readonly Stop[]): void {
  for (const stop of stops) {
    driveTo(following, stop.at);
    freeParts(following, stop.freed);
    beginRecorded(following, stop);
    if (stop.looks.length > 0) takeLooks(following, stop);
  }
}

/** Moves all parts to a distance. */
export function driveTo(following: Following, at: number): void {
  const step = following.here === null ? 0 : at - following.here;
  following.here = at;
  if (!(step > 0)) return;
  for (const hypothesis of following.hypotheses) {
    if (following.model.jumpPerMm > 0) driveWithChanges(following, hypothesis, step);
    else carryAll(following, hypothesis, step);
    beginDragging(following, hypothesis, step);
  }
}

function carryAll({ parts, model, lives }: Following, { weights, states }: Hypothesis, step: number) {
  parts.forEach((_, part) => {
    if (!lives[part]) return;
    for (let lane = 0; lane < weights.length; lane++) {
      if (weights[lane] === 0) continue;
      const at = (part * weights.length + lane) * PART;
      carry(states, at, at + PART, step, model.wanderVariance);
    }
  });
}

/** Within each step, a share of each part's weight starts to drag. */
function beginDragging(
  { parts, model, lives }: Following,
  { weights, states }: Hypothesis,
  step: number,
): void {
  if (model.dragsPer1000Km === 0) return;
  const began = zeros(STATE);
  const share = 1 - Math.exp((-model.dragsPer1000Km * step) / parts.length);
  parts.forEach((_, part) => {
    if (!lives[part]) return;
    for (let lane = 0; lane < weights.length; lane++) {
      if (weights[lane] === 0) continue;
      const at = (part * weights.length + lane) * PART;
      const chance = share * states[at + NORMAL + WEIGHT]!;
      if (chance === 0) continue;
      beganToDrag(states, at + NORMAL, model, chance, step, began, 0);
      addByMoments(states, at + DRAGGING, began, 0);
      states[at + NORMAL + WEIGHT]! -= chance;
    }
  });
}

function freeParts({ hypotheses, model }: Following, freed: readonly number[]): void {
  for (const part of freed) {
    for (const { weights, states } of hypotheses) {
      for (let lane = 0; lane < weights.length; lane++) {
        free(states, (part * weights.length + lane) * PART, model);
      }
    }
  }
}

/** Begins the lives with a known start. If the whole axle is renewed, its hypotheses merge into one. */
function beginRecorded(following: Following, stop: Stop): void {
  const begun = stop.begun.filter(({ life }) => hasStart(life));
  if (begun.length === 0) return;
  for (const { part, life } of begun) {
    following.lives[part] = life;
    following.unmeasured[part] = true;
  }
  const isWhole = following.lives.every(
    (life, part) => life === null || begun.some((each) => each.part === part),
  );
  if (isWhole) {
    mergeHypotheses(following);
    const isFirst = following.lastSeen === null;
    if (!isFirst) drawSetRate(following, following.hypotheses[0]!);
  }
  for (const hypothesis of following.hypotheses) {
    const { told } = hypothesis;
    const sets = told.sets.slice();
    for (const { part, life } of begun) {
      sets[part] = life.set?.origin === 'in-service' ? 'original' : 'recorded';
      beginKnown(following, hypothesis, part, life);
    }
    const isSettled = told.unseen?.parts.every((part) => sets[part] !== 'unseen') ?? true;
    hypothesis.told = {
      sets,
      unseen: isSettled ? null : told.unseen,
      otherNew: isWhole ? false : told.otherNew,
      copiedAt: isWhole ? null : told.copiedAt,
    };
  }
  following.lastSeen = stop.at;
}

function beginKnown(
  { model, rates, parts, cellVariance }: Following,
  { weights, states }: Hypothesis,
  part: number,
  life: Track,
): void {
  const ratio = Math.exp(parts[part]!.ratioShare * model.logInnerOuter);
  const startAtSd = life.set?.startAtSd ?? 0;
  for (let lane = 0; lane < weights.length; lane++) {
    const rate = rates[lane]! * ratio;
    const at = (part * weights.length + lane) * PART;
    const variance = rate * rate * (model.partVariance + cellVariance);
    const mmVariance = model.startVariance + (rate * startAtSd) ** 2;
    beginPart(states, at, model, rate, variance, life.startMm!, mmVariance);
  }
}

/** Starts parts without any record: they wear like the axle's others, and their thickness is unknown (NaN). */
export function beginNeverSeen(following: Following): void {
  const { model, rates, parts, lives, cellVariance } = following;
  parts.forEach(({ ratioShare }, part) => {
    if (lives[part]) return;
    const ratio = Math.exp(ratioShare * model.logInnerOuter);
    for (const { weights, states } of following.hypotheses) {
      for (let lane = 0; lane < weights.length; lane++) {
        const rate = rates[lane]! * ratio;
        const at = (part * weights.length + lane) * PART;
        beginPart(states, at, model, rate, rate * rate * (model.partVariance + cellVariance), NaN, NaN);
      }
    }
  });
}

/** Merges the hypotheses of a set that was replaced; only their weights still matter. */
function mergeHypotheses(following: Following): void {
  const [first, ...others] = following.hypotheses;
  for (const { weights, origins } of others) {
    weights.forEach((weight, lane) => (first!.weights[lane]! += weight));
    origins?.forEach((weight, index) => (first!.origins![index]! += weight));
  }
  following.hypotheses = [first!];
}

/** Updates every hypothesis with the readings of a visit, and adds the new hypotheses they suggest. */
function takeLooks(following: Following, stop: Stop): void {
  const plan = beginUnknown(following, stop);
  const { looks } = stop;
  const before = following.hypotheses;
  const added = newHypotheses(following, looks, plan);
  for (const hypothesis of before) takeVisit(following, hypothesis, looks, plan);
  following.hypotheses = [...before, ...added];
  for (const { part } of looks) following.unmeasured[part] = false;
  following.lastSeen = stop.at;
  normaliseAndPrune(following);
}

/** Begins lives known only from readings: as one set of unknown age if its new thickness is known, or one by one. */
function beginUnknown(following: Following, { begun }: Stop): VisitPlan {
  const { lives, parts } = following;
  const unknown = begun.filter(({ part, life }) => !hasStart(life) && lives[part] !== life);
  const alone = unknown.filter(({ life }) => !life.set);
  const isFirst = alone.length < unknown.length;
  const together = parts.flatMap(({ lives: [life] }, part) =>
    isFirst && life && !hasStart(life) && life.set && lives[part] === null ? [{ part, life }] : [],
  );
  const later = unknown.filter(({ life }) => life.set && !together.some((each) => each.life === life));
  for (const { part, life } of [...unknown, ...together]) {
    lives[part] = life;
    following.unmeasured[part] = true;
  }
  const isWhole = lives.every((life, part) => life === null || unknown.some((each) => each.part === part));
  for (const hypothesis of following.hypotheses) {
    const { told } = hypothesis;
    const sets = told.sets.slice();
    for (const { part } of [...unknown, ...together]) sets[part] = 'unknown';
    hypothesis.told = isWhole ? { sets, unseen: null, otherNew: false, copiedAt: null } : { ...told, sets };
  }
  const members = together.map(({ part }) => part);
  return {
    atReading: [...alone, ...later].map(({ part }) => part),
    renewed:
      members.length > 0 ? { members, belief: renewalBelief(following, members[0]!, Infinity, 0) } : null,
    otherNewSd: 0,
  };
}
