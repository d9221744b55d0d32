import { drawSetRate } from './changes.js';
import { MM, NORMAL, PART, WEIGHT, type Look } from './filter.js';
import { mapped } from './floats.js';
import type { Following } from './following.js';
import {
  copyHypothesis,
  mergeInto,
  MIN_NODE_WEIGHT,
  multiply,
  scale,
  type Hypothesis,
} from './hypothesis.js';
import { originalChance, usualLife } from './renewal.js';
import { takeVisit, type VisitPlan } from './takeVisit.js';
import { renewalBelief, type AgeBelief } from './unknownAge.js';

/**
 * New hypotheses that the readings of a visit suggest: another set than recorded, one of another new thickness, or
 * readings that are no evidence.
 */

interface Child {
  kind: string;
  hypothesis: Hypothesis;
}

/** New hypotheses that the readings of a visit suggest, in addition to the present ones. */
export function newHypotheses(following: Following, looks: readonly Look[], plan: VisitPlan): Hypothesis[] {
  if (plan.renewed || plan.atReading.length > 0) return [];
  return mergeAlike(following.hypotheses.flatMap((parent) => childrenOf(following, parent, looks, plan)));
}

function childrenOf(
  following: Following,
  parent: Hypothesis,
  looks: readonly Look[],
  plan: VisitPlan,
): Child[] {
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
  plan: VisitPlan,
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
  const child = copyHypothesis(parent);
  for (let lane = 0; lane < weights.length; lane++) {
    if (!nodesStay && weights[lane]! * (1 - original[lane]!) < MIN_NODE_WEIGHT) child.weights[lane] = 0;
  }
  multiply(parent, original);
  child.told = {
    ...told,
    sets: told.sets.map((kind, part) => (members.includes(part) ? 'unknown' : kind)),
  };
  const belief = renewalBelief(following, members[0]!, driven, drivenSd);
  takeVisit(following, child, looks, { ...plan, renewed: { members, belief } });
  return [{ kind: 'later', hypothesis: child }];
}

/** Share of unrecorded replacements that affect one wheel only. */
const ONE_WHEEL = 0.15;

/** All parts of the axle, or those of one wheel, may have been replaced without a record since they were last seen. */
function replacedUnseen(
  following: Following,
  parent: Hypothesis,
  looks: readonly Look[],
  plan: VisitPlan,
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
    const child = copyHypothesis(parent);
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
    takeVisit(following, child, looks, { ...plan, renewed: { members, belief } });
    return { kind: `replaced ${members.join()}`, hypothesis: child };
  });
  multiply(
    parent,
    mapped(prior, (replaced) => 1 - replaced),
  );
  return children;
}

/** How much thicker than before a part was read, mm; infinite (no growth is required) unless distances are in doubt. */
function grownMm({ parts, lives, here }: Following, { part, mm }: Look): number {
  const life = lives[part];
  if (!parts[part]!.distanceDoubted || !life) return Infinity;
  const before = life.at.findLastIndex((at) => at < here!);
  return mm - (life.mm[before] ?? life.startMm ?? -Infinity);
}

/** Chance per 1000 km that a set is replaced elsewhere, regardless of its wear. */
const REPLACED_ANYWAY = 0.0005;

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

/** Chance that a new set deviates from its specified thickness. */
const OTHER_NEW = 0.02;

/** At the first measurement of a set: its new thickness may differ from the specification. */
function otherThickness(
  following: Following,
  parent: Hypothesis,
  looks: readonly Look[],
  plan: VisitPlan,
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
  const child = copyHypothesis(parent);
  child.told = { ...told, otherNew: true };
  scale(child, OTHER_NEW);
  takeVisit(following, child, looks, { ...plan, otherNewSd: habits.otherNewSdMm });
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
  const child = copyHypothesis(parent);
  scale(child, habits.wrongVisitChance / first!.rangeMm / WRONG_APART_MM ** others.length);
  return [{ kind: `wrong ${JSON.stringify(child.told)}`, hypothesis: child }];
}

/** Fewer readings may equal those of the visit before by chance. */
export const MIN_REPEATED = 3;

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
  if (!habits?.copiedChance || parent.told.copiedAt !== null || looks.length < MIN_REPEATED) return [];
  if (median(excess) < habits.excessMm || !looks.every((look) => isRepeated(following, look))) return [];
  const child = copyHypothesis(parent);
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
