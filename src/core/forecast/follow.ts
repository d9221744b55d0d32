import type { Stop } from './events.js';
import { copied, filled, mapped, zeros } from './floats.js';
import { decay } from './normal.js';
import {
  addByMoments,
  beganToDrag,
  beginPart,
  carry,
  densityAboutMean,
  DRAGGING,
  FAST,
  free,
  hasStart,
  lookVariance,
  MM,
  NORMAL,
  PART,
  RATE,
  STATE,
  VAR_MM,
  WEIGHT,
  type FilterModel,
  type Look,
  type PartTracks,
  type Track,
} from './filter.js';
import { driveWithChanges } from './changes.js';
import { MIN_NODE_WEIGHT, type Following, type Hypothesis, type Assumptions } from './following.js';
import { takeReading } from './takeReading.js';
import { beginAtUnknownAge, type AgeBelief } from './unknownAge.js';
import { ageDensity, maxAge, originalChance, usualLife } from './renewal.js';

/**
 * Tracks the wear of all parts of an axle over distance. The unknowns are nodes of the log base rate and a few
 * hypotheses about the fitted set. Given a node and a hypothesis the parts are independent, so no sampling is needed.
 */

/** Maximum number of hypotheses, and minimum share of the total weight for each. */
const MAX_HYPOTHESES = 6;
const MIN_HYPOTHESIS_SHARE = 1e-4;
/** Chance per 1000 km that a set is replaced elsewhere, regardless of its wear. */
const REPLACED_ANYWAY = 0.0005;
/** Share of unrecorded replacements that affect one wheel only. */
const ONE_WHEEL = 0.15;
/** Chance that a new set deviates from its specified thickness. */
const OTHER_NEW = 0.02;
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

export function copyOf(following: Following): Following {
  return {
    ...following,
    hypotheses: following.hypotheses.map(copyOfHypothesis),
    lives: following.lives.slice(),
    unmeasured: following.unmeasured.slice(),
  };
}

const copyOfHypothesis = ({ told, weights, states, origins }: Hypothesis): Hypothesis => ({
  told,
  weights: copied(weights),
  states: copied(states),
  origins: origins && copied(origins),
});

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

/** Reach of a new set's rate on either side, in standard deviations. */
const SET_REACH = 4;

/**
 * Spreads the weights for a new set, which wears at a rate of its own about its vehicle's. In a fit, whose nodes stay,
 * a node is the rate of the first set, so this does nothing.
 */
function drawSetRate({ model: { setSpread }, logRates, nodesStay }: Following, hypothesis: Hypothesis): void {
  const nodes = logRates.length;
  if (setSpread === 0 || nodesStay || nodes === 1) return;
  const spacing = logRates[1]! - logRates[0]!;
  const reach = Math.min(nodes - 1, Math.ceil((SET_REACH * setSpread) / spacing));
  const kernel = filled(reach + 1, (apart) => Math.exp(-0.5 * ((apart * spacing) / setSpread) ** 2));
  const spread = zeros(nodes);
  for (let from = 0; from < nodes; from++) {
    const weight = hypothesis.weights[from]!;
    if (weight === 0) continue;
    const first = Math.max(0, from - reach);
    const last = Math.min(nodes - 1, from + reach);
    let total = 0;
    for (let to = first; to <= last; to++) total += kernel[Math.abs(to - from)]!;
    for (let to = first; to <= last; to++) spread[to]! += (weight * kernel[Math.abs(to - from)]!) / total;
  }
  hypothesis.weights = spread;
}

/** How a hypothesis processes the readings of a visit. */
interface Plan {
  /** Parts known only from this reading. */
  atReading: readonly number[];
  /** Parts of one set of unknown age. */
  renewed: { members: readonly number[]; belief: AgeBelief } | null;
  /** Standard deviation of the set's new thickness about its specification, mm; 0 if as specified. */
  otherNewSd: number;
}

interface Child {
  kind: string;
  hypothesis: Hypothesis;
}

/** Updates every hypothesis with the readings of a visit, and adds the new hypotheses they suggest. */
function takeLooks(following: Following, stop: Stop): void {
  const plan = beginUnknown(following, stop);
  const { looks } = stop;
  const before = following.hypotheses;
  const children = before.flatMap((hypothesis) => childrenOf(following, hypothesis, looks, plan));
  for (const hypothesis of before) takeIn(following, hypothesis, looks, plan);
  following.hypotheses = [...before, ...mergeAlike(children)];
  for (const { part } of looks) following.unmeasured[part] = false;
  following.lastSeen = stop.at;
  normaliseAndPrune(following);
}

/** Begins lives known only from readings: as one set of unknown age if its new thickness is known, or one by one. */
function beginUnknown(following: Following, { begun }: Stop): Plan {
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

/** Belief about the age of a set that is not the original one. */
function renewalBelief(
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

/** New hypotheses that the readings of a visit suggest, in addition to their parent. */
function childrenOf(following: Following, parent: Hypothesis, looks: readonly Look[], plan: Plan): Child[] {
  if (plan.renewed || plan.atReading.length > 0) return [];
  const excess = excessOf(parent, looks);
  const originals = unseenOriginals(following, parent);
  return [
    ...(originals.length > 0
      ? laterSet(following, parent, looks, plan, excess, originals)
      : replacedUnseen(following, parent, looks, plan, excess)),
    ...otherThickness(following, parent, looks, plan, excess),
    ...wrongVisit(following, parent, looks, excess),
    ...copiedVisit(following, parent, looks, excess),
  ];
}

/** Excess of each reading over its forecast, mm. */
function excessOf({ weights, states }: Hypothesis, looks: readonly Look[]): number[] {
  return looks.map(({ part, mm }) => {
    let total = 0;
    let mean = 0;
    for (let lane = 0; lane < weights.length; lane++) {
      if (weights[lane] === 0) continue;
      const at = (part * weights.length + lane) * PART + NORMAL;
      total += weights[lane]! * states[at + WEIGHT]!;
      mean += weights[lane]! * states[at + WEIGHT]! * states[at + MM]!;
    }
    return mm - mean / total;
  });
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length / 2;
  return (sorted[Math.floor(middle - 0.5)]! + sorted[Math.floor(middle)]!) / 2;
}

/** Minimum chance of a later set to give a hypothesis if no reading suggests one. */
const MIN_LATER_CHANCE = 0.001;

/** Parts of the original set, if this is its first measurement. */
function unseenOriginals({ lives, unmeasured }: Following, { told }: Hypothesis): number[] {
  const originals = lives.flatMap((life, part) => (life && told.sets[part] === 'original' ? [part] : []));
  return originals.every((part) => unmeasured[part]) ? originals : [];
}

/** At the first measurement of a vehicle: its set may already be a later one than the original. */
function laterSet(
  following: Following,
  parent: Hypothesis,
  looks: readonly Look[],
  plan: Plan,
  excess: readonly number[],
  members: readonly number[],
): Child[] {
  const { lives, rates, here, nodesStay } = following;
  const { told, weights } = parent;
  const life = lives[members[0]!]!;
  const set = life.set!;
  const driven = here! - life.startAt!;
  const drivenSd = set.startAtSd;
  if (!(driven > 0)) return [];
  const original = mapped(rates, (rate) =>
    originalChance(set.habits, usualLife(set, rate), driven, drivenSd),
  );
  const later = weights.reduce((sum, weight, lane) => sum + weight * (1 - original[lane]!), 0);
  if (later < MIN_LATER_CHANCE && median(excess) < set.habits.excessMm) return [];
  const child = copyOfHypothesis(parent);
  for (let lane = 0; lane < weights.length; lane++) {
    if (!nodesStay && weights[lane]! * (1 - original[lane]!) < MIN_NODE_WEIGHT) child.weights[lane] = 0;
    weights[lane]! *= original[lane]!;
  }
  scaleOrigins(parent, (node) => original[node]!);
  child.told = {
    ...told,
    sets: told.sets.map((kind, part) => (members.includes(part) ? 'unknown' : kind)),
  };
  const belief = renewalBelief(following, members[0]!, driven, drivenSd);
  takeIn(following, child, looks, { ...plan, renewed: { members, belief } });
  return [{ kind: 'later', hypothesis: child }];
}

/** All parts of the axle, or those of one wheel, may have been replaced without a record since they were last seen. */
function replacedUnseen(
  following: Following,
  parent: Hypothesis,
  looks: readonly Look[],
  plan: Plan,
  excess: readonly number[],
): Child[] {
  const { lives, parts, lastSeen, here } = following;
  const isOver = (mm: number, index: number): boolean =>
    mm > (lives[looks[index]!.part]?.set?.habits.excessMm ?? Infinity);
  if (lastSeen === null || !(here! > lastSeen) || !excess.some(isOver)) return [];
  const renewable = lives.flatMap((life, part) => (life?.set ? [part] : []));
  const onWheel = (wheel: number | undefined) => renewable.filter((part) => parts[part]!.wheel === wheel);
  const wheels = [...new Set(renewable.map((part) => parts[part]!.wheel))];
  const grown = looks.map((look) => grownMm(following, look));
  const exceeds = (members: readonly number[]): boolean => {
    const { excessMm } = lives[members[0]!]!.set!.habits;
    const isOwn = (_: number, index: number): boolean => members.includes(looks[index]!.part);
    const own = excess.filter(isOwn);
    return own.length > 0 && median(own) > excessMm && median(grown.filter(isOwn)) > excessMm;
  };
  const exceeding = wheels.map(onWheel).filter(exceeds);
  const single = exceeding.length === 1 && wheels.length > 1 ? exceeding : [];
  const sets = [...(exceeding.length > 0 && exceeds(renewable) ? [renewable] : []), ...single];
  if (sets.length === 0) return [];
  const prior = replacedPrior(following, parent, here! - lastSeen);
  const children = sets.map((members): Child => {
    const share = wheels.length === 1 ? 1 : members === renewable ? 1 - ONE_WHEEL : ONE_WHEEL / 2;
    const child = copyOfHypothesis(parent);
    if (members === renewable) drawSetRate(following, child);
    const belief: AgeBelief = {
      furthest: () => here! - lastSeen,
      density: (_, lane) => (share * prior[lane]!) / (here! - lastSeen),
    };
    child.told = {
      sets: parent.told.sets.map((set, part) => (members.includes(part) ? 'unseen' : set)),
      unseen: { from: lastSeen, to: here!, parts: [...members] },
      otherNew: members === renewable ? false : parent.told.otherNew,
      copiedAt: members === renewable ? null : parent.told.copiedAt,
    };
    takeIn(following, child, looks, { ...plan, renewed: { members, belief } });
    return { kind: `replaced ${members.join()}`, hypothesis: child };
  });
  const { weights } = parent;
  for (let lane = 0; lane < weights.length; lane++) weights[lane]! *= 1 - prior[lane]!;
  return children;
}

/** How much thicker than before a part was read, mm; infinite (no growth is required) unless distances are in doubt. */
function grownMm({ parts, lives, here }: Following, { part, mm }: Look): number {
  const life = lives[part];
  if (!parts[part]!.distanceDoubted || !life) return Infinity;
  const before = life.at.findLastIndex((at) => at < here!);
  return mm - (life.mm[before] ?? life.startMm ?? -Infinity);
}

/** Chance, in each lane, that the parts were replaced within a step without a record; it grows with their wear. */
function replacedPrior(following: Following, { weights, states }: Hypothesis, step: number): Float64Array {
  const { lives, model } = following;
  const anyway = 1 - Math.exp(-REPLACED_ANYWAY * step);
  return mapped(weights, (weight, lane) => {
    if (weight === 0) return 0;
    let max = -Infinity;
    lives.forEach((life, part) => {
      if (!life?.set) return;
      const { limitMm, habits } = life.set;
      const left = states[(part * weights.length + lane) * PART + NORMAL + MM]! - limitMm;
      max = Math.max(max, (habits.wornAboveLimitMm - left) / habits.wornRangeMm);
    });
    return Math.min(0.9, anyway + model.replacedWornChance / (1 + Math.exp(-max)));
  });
}

/** At the first measurement of a set: its new thickness may differ from the specification. */
function otherThickness(
  following: Following,
  parent: Hypothesis,
  looks: readonly Look[],
  plan: Plan,
  excess: readonly number[],
): Child[] {
  const { lives, unmeasured } = following;
  const { told } = parent;
  const isFresh = looks.every(
    ({ part }) =>
      unmeasured[part] &&
      lives[part]?.set &&
      (told.sets[part] === 'recorded' || told.sets[part] === 'original'),
  );
  const habits = lives[looks[0]!.part]?.set?.habits;
  if (told.otherNew || !isFresh || !habits || Math.abs(median(excess)) < habits.excessMm) return [];
  const child = copyOfHypothesis(parent);
  child.told = { ...told, otherNew: true };
  scale(child, OTHER_NEW);
  takeIn(following, child, looks, { ...plan, otherNewSd: habits.otherNewSdMm });
  return [{ kind: 'other thickness', hypothesis: child }];
}

/** Range within which all wrong readings of one visit lie, mm: they are alike. */
const WRONG_APART_MM = 1;

/** All readings of a visit may be wrong. They are then no evidence: the first lies anywhere, the others near it. */
function wrongVisit(
  { lives }: Following,
  parent: Hypothesis,
  looks: readonly Look[],
  excess: readonly number[],
): Child[] {
  const [first, ...others] = looks;
  const habits = lives[first!.part]?.set?.habits;
  if (!habits?.wrongVisitChance || others.length === 0) return [];
  if (others.some(({ mm }) => Math.abs(mm - first!.mm) > WRONG_APART_MM / 2)) return [];
  if (excess.some((mm) => Math.abs(mm) < habits.excessMm)) return [];
  const child = copyOfHypothesis(parent);
  scale(child, habits.wrongVisitChance / first!.rangeMm / WRONG_APART_MM ** others.length);
  return [{ kind: `wrong ${JSON.stringify(child.told)}`, hypothesis: child }];
}

/** Fewer equal readings are no surprise. */
const MIN_COPIED = 3;

/**
 * Readings that are exactly those of the visit before may have been copied without measuring, and then tell nothing.
 * A copy has no error, so each reading has the density of one step of its gauge. Only one visit of a set counts as copied,
 * so that a vehicle which really wears so little is believed when it is measured again.
 */
function copiedVisit(
  following: Following,
  parent: Hypothesis,
  looks: readonly Look[],
  excess: readonly number[],
): Child[] {
  const habits = following.lives[looks[0]!.part]?.set?.habits;
  if (!habits?.copiedChance || parent.told.copiedAt !== null || looks.length < MIN_COPIED) return [];
  if (median(excess) < habits.excessMm || !looks.every((look) => isRepeated(following, look))) return [];
  const child = copyOfHypothesis(parent);
  child.told = { ...child.told, copiedAt: following.here };
  const density = looks.reduce(
    (product, { gaugeVariance }) => product / Math.sqrt(12 * gaugeVariance),
    habits.copiedChance,
  );
  scale(child, density);
  return [{ kind: `copied ${JSON.stringify(child.told)}`, hypothesis: child }];
}

function isRepeated({ lives, here }: Following, { part, mm }: Look): boolean {
  const life = lives[part];
  return life !== null && life !== undefined && life.mm[life.at.findLastIndex((at) => at < here!)] === mm;
}

function scale({ weights, origins }: Hypothesis, by: number): void {
  for (let lane = 0; lane < weights.length; lane++) weights[lane]! *= by;
  if (origins) for (let index = 0; index < origins.length; index++) origins[index]! *= by;
}

function scaleOrigins({ weights, origins }: Hypothesis, by: (node: number) => number): void {
  origins?.forEach((_, index) => (origins[index]! *= by((index / weights.length) | 0)));
}

/** Merges children of the same kind, which have new sets and differ only in weight. */
function mergeAlike(children: readonly Child[]): Hypothesis[] {
  const joined = new Map<string, Hypothesis>();
  for (const { kind, hypothesis } of children) {
    const alike = joined.get(kind);
    if (!alike) joined.set(kind, hypothesis);
    else mergeInto(alike, hypothesis);
  }
  return [...joined.values()];
}

function mergeInto(into: Hypothesis, from: Hypothesis): void {
  const lanes = into.weights.length;
  for (let lane = 0; lane < lanes; lane++) {
    const total = into.weights[lane]! + from.weights[lane]!;
    if (from.weights[lane] === 0) continue;
    const share = from.weights[lane]! / total;
    for (let at = lane * PART; at < into.states.length; at += lanes * PART) {
      for (let component = at; component < at + PART; component += STATE) {
        into.states[component + WEIGHT]! *= 1 - share;
        from.states[component + WEIGHT]! *= share;
        addByMoments(into.states, component, from.states, component);
      }
    }
    into.weights[lane] = total;
  }
  from.origins?.forEach((weight, index) => (into.origins![index]! += weight));
}

/** Normalises the weights over all hypotheses and drops negligible hypotheses and nodes. */
function normaliseAndPrune(following: Following): void {
  const totals = following.hypotheses.map(({ weights }) => weights.reduce((sum, weight) => sum + weight, 0));
  const total = totals.reduce((sum, each) => sum + each, 0);
  following.logLikelihood += Math.log(total);
  const heaviest = [...totals].sort((a, b) => b - a)[Math.min(MAX_HYPOTHESES, totals.length) - 1]!;
  const minTotal = Math.max(heaviest, MIN_HYPOTHESIS_SHARE * total);
  following.hypotheses = following.hypotheses.filter((_, index) => totals[index]! >= minTotal);
  for (const hypothesis of following.hypotheses) scale(hypothesis, 1 / total);
  if (following.nodesStay) return;
  const mean = meanLogRate(following);
  dropLightNodes(following, mean);
  narrow(following, mean);
}

function meanLogRate({ hypotheses, logRates }: Following): number {
  let mean = 0;
  for (const { weights } of hypotheses)
    for (let node = 0; node < logRates.length; node++) mean += weights[node]! * logRates[node]!;
  return mean;
}

/** Nodes this close to the mean are never dropped: later sets may wear at a rate that earlier ones seem to rule out. */
const MIN_REACH = 0.4;

function dropLightNodes({ hypotheses, logRates }: Following, mean: number): void {
  for (const { weights } of hypotheses) {
    for (let node = 0; node < weights.length; node++) {
      if (weights[node]! < MIN_NODE_WEIGHT && Math.abs(logRates[node]! - mean) > MIN_REACH) weights[node] = 0;
    }
  }
}

/** With changes of rate, nodes within this many standard deviations of a change from the mean are never dropped. */
const CHANGES_REACH = 3.5;
/** Minimum share of nodes without use at which dropping them is worth the copying. */
const MIN_SHARE_DROPPED = 0.15;

/** Drops nodes at either end that have no weight and that no change of rate can reach. */
function narrow(following: Following, mean: number): void {
  const { hypotheses, logRates, model, rates } = following;
  const nodes = rates.length;
  const weights = zeros(nodes);
  for (const { weights: own } of hypotheses)
    for (let node = 0; node < nodes; node++) weights[node]! += own[node]!;
  const reach = Math.max(MIN_REACH, model.jumpPerMm > 0 ? CHANGES_REACH * model.jumpSd : 0);
  const isKept = (weight: number, node: number): boolean =>
    weight > 0 || Math.abs(logRates[node]! - mean) < reach;
  const first = weights.findIndex(isKept);
  const end = weights.findLastIndex(isKept) + 1;
  if (nodes - (end - first) < MIN_SHARE_DROPPED * nodes) return;
  following.logRates = copied(logRates, first, end);
  following.rates = copied(rates, first, end);
  for (const hypothesis of hypotheses) {
    const { states } = hypothesis;
    hypothesis.weights = copied(hypothesis.weights, first, end);
    const kept = zeros((states.length * (end - first)) / nodes);
    following.parts.forEach((_, part) => {
      const from = (part * nodes + first) * PART;
      kept.set(states.subarray(from, from + (end - first) * PART), part * (end - first) * PART);
    });
    hypothesis.states = kept;
  }
}

/** Updates one hypothesis with the readings of a visit. */
function takeIn(following: Following, hypothesis: Hypothesis, looks: readonly Look[], plan: Plan): void {
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

function multiply({ weights, origins }: Hypothesis, by: Float64Array): void {
  for (let lane = 0; lane < weights.length; lane++) weights[lane]! *= by[lane]!;
  if (!origins) return;
  const nodes = weights.length;
  for (let index = 0; index < origins.length; index++) origins[index]! *= by[(index / nodes) | 0]!;
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
