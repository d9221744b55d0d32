import type { Stretch } from '../stretches.js';
import type { Draw, UsageParameters } from './experience.js';
import { filled, mapped, zeros } from './floats.js';
import { decay } from './normal.js';
import { seasonsToTry, seasonVariance, type YearlyUse } from './seasons.js';
import { MOVES, spellsWithin, type Move } from './spells.js';
import type { UsagePosterior, UsageWay } from './usagePosterior.js';

/**
 * Use over time. In d days of use a vehicle drives v·d, with variance (c·v)²·d plus that of a yearly season of unknown
 * phase. Log v is normal over the vehicles and represented by nodes. At times the vehicle stands still for a while;
 * rarely, v changes permanently.
 */

const NODES = 68;
/** Upper end of the nodes, in standard deviations of log v. */
const REACH = 3.5;
/** Minimum pace, km a day. */
const MIN_PACE = 0.2;
/** Minimum range of the nodes in log v, for groups of slow vehicles only. */
const MIN_REACH = 3;
/** Chance that a vehicle is unlike its group, such as a collector's, and the spread of log v in that case. */
const OTHER_CHANCE = 0.02;
const OTHER_SD = 2.5;
/** Nodes with less weight than this are dropped after the last stretch. */
const MIN_NODE_WEIGHT = 1e-4;
/** Neighbouring nodes are merged up to this weight and this number. */
const FULL_GROUP = 0.015;
const MAX_GROUP = 4;
/** Ways with less weight than this are dropped. */
const MIN_WAY_WEIGHT = 0.01;
/** Standard deviation due to moves in the yard and to odometer readings in whole kilometres, km. */
const YARD_KM = 3;
const DAYS_A_YEAR = 365.25;

/** The use of vehicles that drive a known distance every day; each pace is equally likely. */
export function steadyUse(...paces: number[]): UsagePosterior {
  const weights = zeros(paces.length).fill(1 / paces.length);
  return {
    paces: Float64Array.from(paces),
    logStep: Infinity,
    weights,
    ways: [{ weights, isStanding: false, year: null, fromDay: 0 }],
    dayToDay: 0,
    season: 0,
    spellsPerYear: 0,
    spellDays: 0,
  };
}

/**
 * Posterior of a vehicle's use, given the stretches it has driven.
 *
 * @param draws the experience; weights sum to one
 */
export function usagePosterior(
  stretches: readonly Stretch[],
  draws: readonly Draw<UsageParameters>[],
): UsagePosterior {
  const logPaces = placePaces(draws, middlePace(stretches));
  const paces = mapped(logPaces, Math.exp);
  const mean = meanParameters(draws);
  const room = roomFor(paces);
  const runs = [
    ...draws.map(({ weight, parameters }) => ({ weight, parameters, year: null as YearlyUse | null })),
    ...seasonsToTry(stretches).map(({ chance, year }) => ({
      weight: chance,
      parameters: { ...mean, spellsPerYear: 0 },
      year,
    })),
  ].map((run) => ({ ...run, ...filterPace(stretches, run, logPaces, paces, room) }));
  const top = Math.max(...runs.map(({ logLikelihood }) => logLikelihood));
  const fromDay = stretches.at(-1)?.toDay ?? 0;
  const moving = zeros(NODES);
  const standing = zeros(NODES);
  const ways: UsageWay[] = [
    { weights: moving, isStanding: false, year: null, fromDay },
    { weights: standing, isStanding: true, year: null, fromDay },
  ];
  const sums = { dayToDay: 0, season: 0, spellsPerYear: 0, spellDays: 0, total: 0 };
  for (const { weight, parameters, year, logLikelihood, ...belief } of runs) {
    const likelihood = weight * Math.exp(logLikelihood - top);
    if (year) ways.push({ weights: scaled(belief.moving, likelihood), isStanding: false, year, fromDay });
    else {
      addScaled(moving, belief.moving, likelihood);
      addScaled(standing, belief.standing, likelihood);
      sums.total += likelihood;
      sums.dayToDay += likelihood * parameters.dayToDay ** 2;
      sums.season += likelihood * parameters.season ** 2;
      sums.spellsPerYear += likelihood * parameters.spellsPerYear;
      sums.spellDays += likelihood * parameters.spellDays;
    }
  }
  return {
    ...normalisedWays(paces, ways),
    logStep: logPaces[1]! - logPaces[0]!,
    dayToDay: Math.sqrt(sums.dayToDay / sums.total),
    season: Math.sqrt(sums.season / sums.total),
    spellsPerYear: sums.spellsPerYear / sums.total,
    spellDays: sums.spellDays / sums.total,
  };
}

/** Drops negligible ways, merges light nodes and normalises the rest. */
function normalisedWays(
  paces: Float64Array,
  ways: readonly UsageWay[],
): Pick<UsagePosterior, 'paces' | 'weights' | 'ways'> {
  const totals = ways.map(({ weights }) => sumOf(weights));
  const total = totals.reduce((sum, value) => sum + value, 0);
  const counted = ways.filter((_, index) => totals[index]! > MIN_WAY_WEIGHT * total);
  const sums = zeros(paces.length);
  for (const { weights } of counted) addScaled(sums, weights, 1);
  const groups = groupNodes(sums);
  const scale = 1 / groups.reduce((sum, group) => sum + group.weight, 0);
  const grouped = (weights: Float64Array): Float64Array =>
    filled(groups.length, (group) => scale * sumOf(weights, groups[group]!.first, groups[group]!.end));
  return {
    paces: Float64Array.from(groups, ({ first, end, weight }) => {
      let log = 0;
      for (let node = first; node < end; node++) log += sums[node]! * Math.log(paces[node]!);
      return Math.exp(log / weight);
    }),
    weights: grouped(sums),
    ways: counted.map((way) => ({ ...way, weights: grouped(way.weights) })),
  };
}

interface NodeGroup {
  first: number;
  end: number;
  weight: number;
}

/** Groups neighbouring light nodes and drops negligible groups. */
function groupNodes(weights: Float64Array): NodeGroup[] {
  const total = sumOf(weights);
  const groups: NodeGroup[] = [];
  let first = 0;
  let weight = 0;
  for (let node = 0; node < weights.length; node++) {
    weight += weights[node]!;
    const isFull = weight > FULL_GROUP * total || node + 1 - first === MAX_GROUP;
    if (!isFull && node + 1 < weights.length) continue;
    if (weight > MIN_NODE_WEIGHT * total) groups.push({ first, end: node + 1, weight });
    first = node + 1;
    weight = 0;
  }
  return groups;
}

function sumOf(values: Float64Array, first = 0, end = values.length): number {
  let sum = 0;
  for (let node = first; node < end; node++) sum += values[node]!;
  return sum;
}

const scaled = (values: Float64Array, by: number): Float64Array => mapped(values, (value) => by * value);

function addScaled(into: Float64Array, values: Float64Array, by: number): void {
  for (let node = 0; node < into.length; node++) into[node]! += by * values[node]!;
}

function meanParameters(draws: readonly Draw<UsageParameters>[]): UsageParameters {
  const mean = { ...draws[0]!.parameters };
  for (const name of Object.keys(mean) as (keyof UsageParameters)[]) {
    mean[name] = draws.reduce((sum, { weight, parameters }) => sum + weight * parameters[name], 0);
  }
  return mean;
}

/**
 * Evenly spaced nodes of log v, up to the fastest pace that the draws allow.
 *
 * @param through a pace that one node must match, km a day
 */
export function placePaces(draws: readonly Draw<UsageParameters>[], through = MIN_PACE): Float64Array {
  const low = Math.log(MIN_PACE);
  const high = Math.max(
    low + MIN_REACH,
    ...draws.map(({ parameters }) => parameters.logPaceMean + REACH * parameters.logPaceSd),
  );
  const step = (high - low) / (NODES - 1);
  const steps = (Math.log(through) - low) / step;
  const shift = (steps - Math.round(steps)) * step;
  return filled(NODES, (node) => low + shift + node * step);
}

/** Median pace over days, from the stretches. */
function middlePace(stretches: readonly Stretch[]): number {
  const paces = stretches
    .map(({ fromDay, toDay, km }) => ({ days: toDay - fromDay, pace: km / (toDay - fromDay) }))
    .sort((a, b) => a.pace - b.pace);
  const half = paces.reduce((sum, { days }) => sum + days, 0) / 2;
  let days = 0;
  const middle = paces.find((each) => (days += each.days) >= half);
  return Math.max(MIN_PACE, middle?.pace ?? 0);
}

/** A buffer for the densities of one stretch. */
const roomFor = (paces: Float64Array): Float64Array => zeros(MOVES.length * paces.length);

/** Forward filter over the nodes of log v and whether the vehicle stands still. */
function filterPace(
  stretches: readonly Stretch[],
  { parameters, year }: { parameters: UsageParameters; year: YearlyUse | null },
  logPaces: Float64Array,
  paces: Float64Array,
  room: Float64Array,
): Followed {
  return followPace(evidenceAlong(stretches, parameters, year, paces, room), parameters, logPaces);
}

/** The evidence of each stretch in turn, in a shared buffer. */
function* evidenceAlong(
  stretches: readonly Stretch[],
  parameters: UsageParameters,
  year: YearlyUse | null,
  paces: Float64Array,
  room: Float64Array,
): Iterable<StretchEvidence> {
  for (const stretch of stretches) yield evidenceOf(stretch, parameters, year, paces, room);
}

/**
 * Evidence of one stretch about the pace: its density at each node for each state at its start and end, and the chance
 * of a change of pace in each half of it.
 */
export interface StretchEvidence {
  change: number;
  /** The nodes that could have driven the distance, from `first` up to but not including `end`. */
  first: number;
  end: number;
  /** Densities at these nodes, node-major, for each of {@link MOVES}. */
  densities: Float64Array;
}

export function stretchEvidence(
  stretches: readonly Stretch[],
  parameters: UsageParameters,
  paces: Float64Array,
): StretchEvidence[] {
  const room = roomFor(paces);
  return stretches.map((stretch) => {
    const { change, first, end, densities } = evidenceOf(stretch, parameters, null, paces, room);
    return { change, first, end, densities: densities.slice(0, MOVES.length * (end - first)) };
  });
}

/** @param room buffer of {@link roomFor}, which the answer's densities are written to */
function evidenceOf(
  { fromDay, toDay, km }: Stretch,
  parameters: UsageParameters,
  year: YearlyUse | null,
  paces: Float64Array,
  room: Float64Array,
): StretchEvidence {
  const { changesPerYear, dayToDay, season } = parameters;
  const days = toDay - fromDay;
  const change = 1 - Math.exp((-0.5 * changesPerYear * days) / DAYS_A_YEAR);
  const logStep = Math.log(paces[1]! / paces[0]!);
  const swing = seasonVariance(season, days) / (days * days);
  const inUseAllYear = year?.daysOfUse(fromDay, toDay);
  const phase = year?.variance(fromDay, toDay) ?? 0;
  const moves = spellsWithin(days, parameters);
  let first = paces.length;
  let end = 0;
  for (const move of moves) {
    move.inUse = inUseAllYear ?? move.inUse;
    // Include the width of a node's cell: a narrower density would depend on where the nodes happen to be.
    const cell = (logStep * logStep) / 12 + swing;
    move.variance += phase + cell * move.inUse * move.inUse + dayToDay * dayToDay * move.inUse;
    setReach(move, paces, logStep, km);
    if (move.first < move.end) {
      first = Math.min(first, move.first);
      end = Math.max(end, move.end);
    }
  }
  room.fill(0, 0, MOVES.length * Math.max(0, end - first));
  for (const move of moves) addDensities(room, first, paces, km, move);
  return { change, first, end, densities: room };
}

/** Nodes whose pace is this many standard deviations away from the distance driven are ruled out. */
const UNLIKELY_SDS = 5;

/** Finds the nodes whose pace could have driven the distance in the move's days of use. */
function setReach(move: Move, paces: Float64Array, logStep: number, km: number): void {
  const { inUse, variance } = move;
  const yard = UNLIKELY_SDS * YARD_KM;
  move.first = 0;
  move.end = inUse > 0 || km <= yard ? paces.length : 0;
  if (inUse === 0) return;
  const relative = (UNLIKELY_SDS * Math.sqrt(variance)) / inUse;
  const slowest = (km - yard) / (inUse * (1 + relative));
  if (slowest > paces[0]!)
    move.first = Math.min(paces.length, Math.ceil(Math.log(slowest / paces[0]!) / logStep));
  const fastest = (km + yard) / (inUse * (1 - relative));
  if (relative < 1) {
    const last = Math.floor(Math.log(fastest / paces[0]!) / logStep);
    move.end = Math.max(0, Math.min(paces.length, last + 1));
  }
}

/** Adds the density of the stretch's distance at each pace that could have driven it. */
function addDensities(
  densities: Float64Array,
  firstNode: number,
  paces: Float64Array,
  km: number,
  { inUse, variance, useToUse, useToStanding, standingToUse, standingToStanding, first, end }: Move,
): void {
  for (let node = first; node < end; node++) {
    const pace = paces[node]!;
    const precision = 1 / (pace * pace * variance + YARD_KM * YARD_KM);
    const error = km - pace * inUse;
    const density = decay(0.5 * error * error * precision) * Math.sqrt(precision);
    const at = MOVES.length * (node - firstNode);
    densities[at]! += useToUse * density;
    densities[at + 1]! += useToStanding * density;
    densities[at + 2]! += standingToUse * density;
    densities[at + 3]! += standingToStanding * density;
  }
}

interface Followed {
  /** Weights of the nodes for a vehicle in use and for one that stands still; together they sum to one. */
  moving: Float64Array;
  standing: Float64Array;
  logLikelihood: number;
}

/** Minimum density of a stretch, the same for all paces, so that one odd stretch cannot rule out all of them. */
const MIN_DENSITY = 1e-12;

/** Filters the stretches in order. The pace may change before a stretch and after it, with half the chance each. */
export function followPace(
  evidence: Iterable<StretchEvidence>,
  parameters: UsageParameters,
  logPaces: Float64Array,
): Followed {
  const prior = pacePrior(logPaces, parameters);
  const shareStanding = 1 - shareInUse(parameters);
  let moving = mapped(prior, (weight) => (1 - shareStanding) * weight);
  let standing = mapped(prior, (weight) => shareStanding * weight);
  let nextMoving = zeros(prior.length);
  let nextStanding = zeros(prior.length);
  let standingTotal = shareStanding;
  let logLikelihood = 0;
  let changed = 0;
  for (const { change, first, end, densities } of evidence) {
    const changeChance = 1 - (1 - change) * (1 - changed);
    const redrawnMoving = changeChance * (1 - standingTotal);
    const redrawnStanding = changeChance * standingTotal;
    changed = change;
    let total = 0;
    let totalStanding = 0;
    nextMoving.fill(0);
    nextStanding.fill(0);
    for (let node = first, at = 0; node < end; node++, at += MOVES.length) {
      const wasMoving = (1 - changeChance) * moving[node]! + redrawnMoving * prior[node]!;
      const wasStanding = (1 - changeChance) * standing[node]! + redrawnStanding * prior[node]!;
      const isMoving = wasMoving * densities[at]! + wasStanding * densities[at + 2]!;
      const isStanding = wasMoving * densities[at + 1]! + wasStanding * densities[at + 3]!;
      nextMoving[node] = isMoving;
      nextStanding[node] = isStanding;
      total += isMoving + isStanding;
      totalStanding += isStanding;
    }
    if (!(total > MIN_DENSITY)) {
      logLikelihood += Math.log(MIN_DENSITY);
      continue;
    }
    logLikelihood += Math.log(total);
    standingTotal = totalStanding / total;
    for (let node = first; node < end; node++) {
      nextMoving[node]! /= total;
      nextStanding[node]! /= total;
    }
    [moving, nextMoving] = [nextMoving, moving];
    [standing, nextStanding] = [nextStanding, standing];
  }
  for (let node = 0; node < prior.length; node++) {
    const drawn = changed * prior[node]!;
    moving[node] = (1 - changed) * moving[node]! + drawn * (1 - standingTotal);
    standing[node] = (1 - changed) * standing[node]! + drawn * standingTotal;
  }
  return { moving, standing, logLikelihood };
}

/** Long-run share of days on which the vehicle is in use. */
export function shareInUse({
  spellsPerYear,
  spellDays,
}: Pick<UsageParameters, 'spellsPerYear' | 'spellDays'>): number {
  return 1 / (1 + (spellsPerYear * spellDays) / DAYS_A_YEAR);
}

/** Minimum spread of paces in node spacings; a narrower one would depend on where the nodes happen to be. */
const MIN_SPREAD = 0.6;

/** Prior weights of the nodes; they sum to one. */
function pacePrior(logPaces: Float64Array, parameters: UsageParameters): Float64Array {
  const logPaceMean = Math.max(parameters.logPaceMean, logPaces[0]!);
  const logPaceSd = Math.max(parameters.logPaceSd, MIN_SPREAD * (logPaces[1]! - logPaces[0]!));
  const prior = zeros(logPaces.length);
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

/** Quantile of the daily pace in use, km a day; uniform within each node's cell. */
export function paceQuantile({ weights, paces, logStep }: UsagePosterior, probability: number): number {
  let below = 0;
  let node = 0;
  while (node < weights.length - 1 && below + weights[node]! < probability) below += weights[node++]!;
  const before = Math.min(logStep, Math.log(paces[node]! / (paces[node - 1] ?? paces[node]!)));
  const after = Math.min(logStep, Math.log((paces[node + 1] ?? paces[node]!) / paces[node]!));
  const share = Math.min(1, (probability - below) / weights[node]!);
  return paces[node]! * Math.exp(-before / 2 + (share * (before + after)) / 2);
}
