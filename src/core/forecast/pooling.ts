import { HERMITE } from './normal.js';

/** A log likelihood as a function of a group's mean, with its first two derivatives. */
export interface Curve {
  log: number;
  slope: number;
  curvature: number;
}

/** A group's members: their log likelihood alone, or with its derivatives. */
export interface Members {
  log: (mean: number) => number;
  curve: (mean: number) => Curve;
}

export interface Pooled {
  /** Log of the likelihood with the group's mean integrated out. */
  log: number;
  mean: number;
  variance: number;
}

const NEWTON_STEPS = 12;
/** A variance below this share of what the curvature at the mode promises was not taken about the mode. */
const LEAST_SHARE = 0.1;

/**
 * Integrates a group's mean out of its members' likelihood by Gauss–Hermite about the mode: partial pooling of the
 * group towards its class.
 *
 * @param start where to look for the mode first
 */
export function poolGroup(members: Members, prior: { mean: number; sd: number }, start = prior.mean): Pooled {
  const precision = 1 / (prior.sd * prior.sd);
  const logAt = (mean: number): number =>
    members.log(mean) - 0.5 * precision * (mean - prior.mean) ** 2 + 0.5 * Math.log(precision);
  const found = findMode(members, prior.mean, precision, start);
  const pooled = integrate(logAt, found);
  if (found.isFound && pooled.variance > LEAST_SHARE * found.sd * found.sd) return pooled;
  // Many members who agree make a mode so sharp that Newton's steps leap over it.
  const mode = climb(logAt, pooled.mean, prior.sd);
  return integrate(logAt, { mode, sd: sdAt(members, mode, precision) });
}

interface Mode {
  mode: number;
  sd: number;
}

function integrate(logAt: (mean: number) => number, { mode, sd }: Mode): Pooled {
  const points = HERMITE.map(([z, weight]) => {
    const mean = mode + sd * z;
    return { mean, log: Math.log(weight * sd) + logAt(mean) + 0.5 * z * z };
  });
  const top = Math.max(...points.map(({ log }) => log));
  const weights = points.map(({ log }) => Math.exp(log - top));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = points.reduce((sum, point, index) => sum + weights[index]! * point.mean, 0) / total;
  const variance =
    points.reduce((sum, point, index) => sum + weights[index]! * (point.mean - mean) ** 2, 0) / total;
  return { log: top + Math.log(total), mean, variance };
}

function findMode(
  members: Members,
  priorMean: number,
  precision: number,
  start: number,
): Mode & { isFound: boolean } {
  let mode = start;
  let sd = 1 / Math.sqrt(precision);
  for (let step = 0; step < NEWTON_STEPS; step++) {
    const { slope, curvature } = members.curve(mode);
    sd = sdBy(curvature, precision);
    const move = sd * sd * (slope - precision * (mode - priorMean));
    mode += Math.max(-1, Math.min(1, move));
    if (Math.abs(move) < 0.1 * sd) return { mode, sd, isFound: true };
  }
  return { mode, sd, isFound: false };
}

/** Where an odd member bends the curve the wrong way, the prior's own curvature still leads towards the mode. */
const sdBy = (curvature: number, precision: number): number =>
  1 / Math.sqrt(Math.max(precision, precision - curvature));

const sdAt = (members: Members, mode: number, precision: number): number =>
  sdBy(members.curve(mode).curvature, precision);

/** A climb ends when its stride is this share of what it began with. */
const SHORTEST_STRIDE = 1e-3;

/** Goes uphill by strides, shorter ones where neither side is higher. */
function climb(logAt: (mean: number) => number, start: number, stride: number): number {
  let here = start;
  let height = logAt(here);
  for (let step = stride; step > SHORTEST_STRIDE * stride;) {
    const sides = [here - step, here + step].map((mean) => ({ mean, log: logAt(mean) }));
    const higher = sides[0]!.log > sides[1]!.log ? sides[0]! : sides[1]!;
    if (higher.log > height) [here, height] = [higher.mean, higher.log];
    else step *= 0.4;
  }
  return here;
}

/** A draw lighter than this is not worth its share of every forecast. */
const LIGHTEST_DRAW = 0.02;

/** The draws that count, heaviest first, their weights made to sum to one again. */
export function weighty<Item extends { weight: number }>(draws: readonly Item[]): Item[] {
  const kept = draws.filter(({ weight }) => weight >= LIGHTEST_DRAW);
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);
  return kept.map((draw) => ({ ...draw, weight: draw.weight / total })).sort((a, b) => b.weight - a.weight);
}

/** As many as asked for, taken evenly along the list. */
export function evenly<Item>(items: readonly Item[], most: number): readonly Item[] {
  if (items.length <= most) return items;
  return Array.from({ length: most }, (_, index) => items[Math.floor((index * items.length) / most)]!);
}

/** Histories by model; one of no known model is a group of its own. */
export function groupsOf<History extends { model: string | null }>(
  histories: readonly History[],
): History[][] {
  const groups = new Map<string, History[]>();
  histories.forEach((history, index) => {
    const key = history.model === null ? `alone ${index}` : `model ${history.model}`;
    const group = groups.get(key);
    if (group) group.push(history);
    else groups.set(key, [history]);
  });
  return [...groups.values()];
}
