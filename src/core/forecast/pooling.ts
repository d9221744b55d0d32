import { HERMITE } from './normal.js';

/** Log likelihood as a function of a group's mean, with its first two derivatives. */
export interface Curve {
  log: number;
  slope: number;
  curvature: number;
}

/** The log likelihood of a group's members, alone or with its derivatives. */
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
/** If the variance is a smaller share than this of what the curvature predicts, the integration missed the mode. */
const MIN_VARIANCE_SHARE = 0.1;

/**
 * Integrates a group's mean out of its members' likelihood by Gauss–Hermite quadrature about the mode: partial pooling
 * of the group towards its class.
 *
 * @param start initial guess of the mode
 */
export function poolGroup(members: Members, prior: { mean: number; sd: number }, start = prior.mean): Pooled {
  const precision = 1 / (prior.sd * prior.sd);
  const logAt = (mean: number): number =>
    members.log(mean) - 0.5 * precision * (mean - prior.mean) ** 2 + 0.5 * Math.log(precision);
  const found = findMode(members, prior.mean, precision, start);
  const pooled = integrate(logAt, found);
  if (found.isFound && pooled.variance > MIN_VARIANCE_SHARE * found.sd * found.sd) return pooled;
  // Many members that agree make the mode so sharp that Newton's steps overshoot it.
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

/** If an outlying member makes the curvature positive, the prior's own curvature still leads to the mode. */
const sdBy = (curvature: number, precision: number): number =>
  1 / Math.sqrt(Math.max(precision, precision - curvature));

const sdAt = (members: Members, mode: number, precision: number): number =>
  sdBy(members.curve(mode).curvature, precision);

/** A climb ends when its stride is this share of the first one. */
const MIN_STRIDE_SHARE = 1e-3;

/** Hill climbing; the stride shrinks when neither side is higher. */
function climb(logAt: (mean: number) => number, start: number, stride: number): number {
  let here = start;
  let height = logAt(here);
  for (let step = stride; step > MIN_STRIDE_SHARE * stride;) {
    const sides = [here - step, here + step].map((mean) => ({ mean, log: logAt(mean) }));
    const higher = sides[0]!.log > sides[1]!.log ? sides[0]! : sides[1]!;
    if (higher.log > height) [here, height] = [higher.mean, higher.log];
    else step *= 0.4;
  }
  return here;
}

/** Minimum weight at which a draw is worth its cost in every forecast. */
const MIN_DRAW_WEIGHT = 0.02;

/** The draws that are not negligible, heaviest first, renormalised. */
export function weighty<Item extends { weight: number }>(draws: readonly Item[]): Item[] {
  const kept = draws.filter(({ weight }) => weight >= MIN_DRAW_WEIGHT);
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);
  return kept.map((draw) => ({ ...draw, weight: draw.weight / total })).sort((a, b) => b.weight - a.weight);
}

/** Up to `max` items, evenly spaced along the list. */
export function evenly<Item>(items: readonly Item[], max: number): readonly Item[] {
  if (items.length <= max) return items;
  return Array.from({ length: max }, (_, index) => items[Math.floor((index * items.length) / max)]!);
}

/** Histories grouped by model; a history without a model is its own group. */
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
