import type { Stretch } from '../odometer.js';
import type { Draw, UsageParameters } from './experience.js';
import { decay } from './normal.js';
import { scratch } from './scratch.js';

/**
 * Use by calendar: the distance driven over d days has mean v·d and variance (c·v)²·d plus that of a yearly season
 * of unknown phase; log v is normal over the vehicles, by nodes; v may change altogether between visits.
 */

/** What is known of a vehicle's daily pace: nodes with weights that sum to one. */
export interface UsagePosterior {
  weights: Float64Array;
  /** km a day at each node. */
  paces: Float64Array;
  /** Standard deviation of the distance of one day over the pace, √day. */
  dayToDay: Float64Array;
  /** Amplitude of the season at each node, as a share of the pace. */
  season: Float64Array;
}

const NODES = 111;
/** Standard deviations of log v that the nodes reach upwards. */
const REACH = 4;
/** A parked vehicle is slower than any in use: the nodes begin at this pace, km a day. */
const PARKED_PACE = 0.02;
/** How far the nodes reach at least, where nothing but parked vehicles is known. */
const LEAST_REACH = 3;
/** Chance that a vehicle is of another kind than the group, such as parked, and the width of what it then may be. */
const OTHER_CHANCE = 0.02;
const OTHER_SD = 2.5;
/** Nodes of less weight than this are dropped once all stretches are in. */
const LIGHTEST_NODE = 1e-5;
/** Standard deviation of what even a parked vehicle moves, and of an odometer read to the kilometre, km. */
const YARD_KM = 3;
const DAYS_A_YEAR = 365.25;

/** Variance of the seasonal part of the days driven over `days`, averaged over the phase of the season. */
export function seasonVariance(season: number, days: number): number {
  const swing = (season * DAYS_A_YEAR * Math.sin((Math.PI * days) / DAYS_A_YEAR)) / Math.PI;
  return 0.5 * swing * swing;
}

/**
 * The posterior of a vehicle's daily pace from the stretches it has driven. The draws are merged at each node: the
 * scatter about the pace keeps its mean variance.
 */
export function usagePosterior(
  stretches: readonly Stretch[],
  draws: readonly Draw<UsageParameters>[],
): UsagePosterior {
  const logPaces = placePaces(draws);
  const paces = logPaces.map(Math.exp);
  const filtered = draws.map(({ parameters }) => filterPace(stretches, parameters, logPaces, paces));
  const top = Math.max(...filtered.map(({ logLikelihood }) => logLikelihood));
  const sums = new Float64Array(NODES);
  const dayToDay = new Float64Array(NODES);
  const season = new Float64Array(NODES);
  draws.forEach(({ weight, parameters }, draw) => {
    const { belief, logLikelihood } = filtered[draw]!;
    const likelihood = weight * Math.exp(logLikelihood - top);
    for (let node = 0; node < NODES; node++) {
      const share = likelihood * belief[node]!;
      sums[node]! += share;
      dayToDay[node]! += share * parameters.dayToDay ** 2;
      season[node]! += share * parameters.season ** 2;
    }
  });
  const total = sums.reduce((sum, value) => sum + value, 0);
  const kept = Array.from(sums.keys()).filter((node) => sums[node]! > LIGHTEST_NODE * total);
  const keptTotal = kept.reduce((sum, node) => sum + sums[node]!, 0);
  return {
    weights: Float64Array.from(kept, (node) => sums[node]! / keptTotal),
    paces: Float64Array.from(kept, (node) => paces[node]!),
    dayToDay: Float64Array.from(kept, (node) => Math.sqrt(dayToDay[node]! / sums[node]!)),
    season: Float64Array.from(kept, (node) => Math.sqrt(season[node]! / sums[node]!)),
  };
}

/** Evenly spaced nodes of log v, from a parked vehicle's pace up to the fastest the draws allow. */
export function placePaces(draws: readonly Draw<UsageParameters>[]): Float64Array {
  const low = Math.log(PARKED_PACE);
  const high = Math.max(
    low + LEAST_REACH,
    ...draws.map(({ parameters }) => parameters.logPaceMean + REACH * parameters.logPaceSd),
  );
  return Float64Array.from({ length: NODES }, (_, node) => low + (node * (high - low)) / (NODES - 1));
}

const roomForDensities = scratch();

/** Forward filter over the nodes of log v; between stretches the pace may be drawn anew from the prior. */
function filterPace(
  stretches: readonly Stretch[],
  parameters: UsageParameters,
  logPaces: Float64Array,
  paces: Float64Array,
): Followed {
  const room = roomForDensities(paces.length);
  return followPace(evidenceAlong(stretches, parameters, paces, room), parameters, logPaces);
}

/** One stretch after the other, each in the same room. */
function* evidenceAlong(
  stretches: readonly Stretch[],
  parameters: UsageParameters,
  paces: Float64Array,
  room: Float64Array,
): Iterable<StretchEvidence> {
  for (const stretch of stretches) yield evidenceOf(stretch, parameters, paces, room);
}

/** What one stretch says of the pace: its density at each node, and the chance that the use changed before it. */
export interface StretchEvidence {
  change: number;
  densities: Float64Array;
}

export function stretchEvidence(
  stretches: readonly Stretch[],
  parameters: UsageParameters,
  paces: Float64Array,
): StretchEvidence[] {
  return stretches.map((stretch) => evidenceOf(stretch, parameters, paces, new Float64Array(paces.length)));
}

/** @param densities room for one number a node */
function evidenceOf(
  { fromDay, toDay, km }: Stretch,
  { changesPerYear, dayToDay, season }: UsageParameters,
  paces: Float64Array,
  densities: Float64Array,
): StretchEvidence {
  const days = toDay - fromDay;
  const scatter = Math.max(
    Math.sqrt(dayToDay * dayToDay * days + seasonVariance(season, days)),
    NARROWEST_SCATTER * days * Math.log(paces[1]! / paces[0]!),
  );
  densities.fill(LEAST_DENSITY, 0, paces.length);
  let node = paces.length - 1;
  while (node > 0 && paces[node]! * days > km) node--;
  for (let up = node + 1; up < paces.length; up++) {
    if (!addDensity(densities, up, km, days, paces[up]!, scatter)) break;
  }
  for (let down = node; down >= 0; down--) {
    if (!addDensity(densities, down, km, days, paces[down]!, scatter)) break;
  }
  return { change: 1 - Math.exp((-changesPerYear * days) / DAYS_A_YEAR), densities };
}

interface Followed {
  prior: Float64Array;
  belief: Float64Array;
  logLikelihood: number;
}

export function followPace(
  evidence: Iterable<StretchEvidence>,
  parameters: UsageParameters,
  logPaces: Float64Array,
): Followed {
  const prior = pacePrior(logPaces, parameters);
  const belief = prior.slice();
  let logLikelihood = 0;
  let total = 1;
  for (const { change, densities } of evidence) {
    const staying = (1 - change) / total;
    total = 0;
    for (let node = 0; node < prior.length; node++) {
      const chance = (staying * belief[node]! + change * prior[node]!) * densities[node]!;
      belief[node] = chance;
      total += chance;
    }
    logLikelihood += Math.log(total);
  }
  for (let node = 0; node < prior.length; node++) belief[node]! /= total;
  return { prior, belief, logLikelihood };
}

/**
 * What nodes can tell apart: a spread of paces, and the scatter of one stretch, narrower than these shares of the step
 * between them would depend on where the nodes happen to lie, and count as this wide.
 */
const NARROWEST_SPREAD = 0.6;
const NARROWEST_SCATTER = 0.25;

/** Weights of the nodes before anything is driven; they sum to one. */
function pacePrior(logPaces: Float64Array, parameters: UsageParameters): Float64Array {
  // Slower than parked is parked.
  const logPaceMean = Math.max(parameters.logPaceMean, logPaces[0]!);
  const logPaceSd = Math.max(parameters.logPaceSd, NARROWEST_SPREAD * (logPaces[1]! - logPaces[0]!));
  const prior = new Float64Array(logPaces.length);
  let total = 0;
  for (let node = 0; node < prior.length; node++) {
    const z = (logPaces[node]! - logPaceMean) / logPaceSd;
    const other = (logPaces[node]! - logPaceMean) / OTHER_SD;
    const within = ((1 - OTHER_CHANCE) / logPaceSd) * decay(0.5 * z * z);
    prior[node] = within + (OTHER_CHANCE / OTHER_SD) * decay(0.5 * other * other);
    total += prior[node]!;
  }
  for (let node = 0; node < prior.length; node++) prior[node]! /= total;
  return prior;
}

/** A floor keeps one odd stretch from ruling everything out. */
const LEAST_DENSITY = 1e-12;
/** A pace this many standard deviations off the distance driven has but the floor. */
const UNLIKELY_SDS = 10;

/** Adds the density of a stretch's distance given the pace of a node; false where it is not worth it. */
function addDensity(
  densities: Float64Array,
  node: number,
  km: number,
  days: number,
  pace: number,
  scatter: number,
): boolean {
  const variance = pace * scatter * pace * scatter + YARD_KM * YARD_KM;
  const error = km - pace * days;
  if (error * error > UNLIKELY_SDS * UNLIKELY_SDS * variance) return false;
  const precision = 1 / variance;
  densities[node]! += decay(0.5 * error * error * precision) * Math.sqrt(precision);
  return true;
}

/** Weighted quantile of the daily pace, km a day, taken evenly within the step between nodes. */
export function paceQuantile({ weights, paces }: UsagePosterior, probability: number): number {
  let below = 0;
  let node = 0;
  while (node < weights.length - 1 && below + weights[node]! < probability) below += weights[node++]!;
  const before = Math.log(paces[node]! / (paces[node - 1] ?? paces[node]!));
  const after = Math.log((paces[node + 1] ?? paces[node]!) / paces[node]!);
  const share = Math.min(1, (probability - below) / weights[node]!);
  return paces[node]! * Math.exp(-before / 2 + (share * (before + after)) / 2);
}
