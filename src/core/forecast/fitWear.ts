import type { Draw, WearParameters } from './experience.js';
import { LIKELIEST_FAST } from './experience.js';
import { drawAround, minimise, type Minimum } from './laplace.js';
import { DRAWS } from './net.js';
import { evenly, groupsOf, poolGroup, weighty, type Curve, type Pooled } from './pooling.js';
import { along, type WearBeliefs, type WearLearned } from './starting.js';
import { stopsOf, type Stop } from './events.js';
import { filterModel, type PartTracks } from './filter.js';
import { followOn, startFollowing } from './follow.js';
import type { Following } from './following.js';

/**
 * Fit of one class of axles to a shop's histories. Log base rates are normal about their model's mean, and the models'
 * means about the class's: m_g ~ N(m, δ²), log b ~ N(m_g, τ²). Given the parameters of the filter, each axle's
 * likelihood is computed once at a few nodes of log b; integrating the rates and the models' means out of these costs
 * next to nothing.
 */

/** All lives of the parts of one axle. */
export interface AxleHistory {
  model: string | null;
  parts: PartTracks[];
}

/** The fit of one model within a class: its mean log rate at each draw. */
export interface FittedModel {
  axles: number;
  readings: number;
  rates: { mean: number; sd: number }[];
}

export interface FittedWear {
  axles: number;
  readings: number;
  /** `modelSd`: spread of the models' means about `logRateMean`; `logRateSd`: of a model's axles about its mean. */
  draws: (Draw<WearParameters> & { modelSd: number })[];
  models: Record<string, FittedModel>;
}

/** Maximum number of axles used to fit a class, for its first approximation, and for a model's mean. */
const MAX_FOR_SHAPE = 120;
const MAX_AT_FIRST = 40;
const MAX_FOR_MODEL = 120;
/** The same with changes of rate, which cost more per axle. */
const MAX_WITH_JUMPS = 40;
/** Minimum gain in log posterior to accept changes of rate in a class. */
const CLEAR_GAIN = 4;

const PLAIN: readonly WearLearned[] = [
  'logRateMean',
  'modelSd',
  'logRateSd',
  'partSpread',
  'wander',
  'placementSd',
  'logInnerOuter',
  'fastChance',
  'fastFactor',
  'visitSd',
  'dragsPer1000Km',
  'replacedWornChance',
];
const WITH_JUMPS: readonly WearLearned[] = [...PLAIN, 'jumpPerMm', 'jumpSd'];
const ROTOR: readonly WearLearned[] = PLAIN.slice(0, 6);

export function fitPads(histories: readonly AxleHistory[], beliefs: WearBeliefs): FittedWear | null {
  const axles = prepare(histories, beliefs);
  if (axles.length === 0) return null;
  const sample = evenly(axles, MAX_FOR_SHAPE);
  const plain = fitShape(sample, withJumps(beliefs, 0), PLAIN);
  const { jumpPerMm: belief } = beliefs.learned;
  if (belief.sd === 0) return fitClass(axles, withJumps(beliefs, belief.value), plain);
  const { shape, beliefs: learned } = withChanges(beliefs, plain);
  const found = fitClass(axles, shape === plain ? withJumps(beliefs, 0) : beliefs, shape);
  if (shape !== plain) return found;
  const { jumpPerMm, jumpSd } = learned.given;
  const draws = found.draws.map((draw) => ({
    ...draw,
    parameters: { ...draw.parameters, jumpPerMm, jumpSd },
  }));
  return { ...found, draws };
}

export function fitRotors(histories: readonly AxleHistory[], beliefs: WearBeliefs): FittedWear | null {
  const axles = prepare(histories, beliefs);
  if (axles.length === 0) return null;
  return fitClass(axles, beliefs, fitShape(evenly(axles, MAX_FOR_SHAPE), beliefs, ROTOR));
}

/** One axle with fixed nodes of log b, so that the likelihood is smooth in the parameters. */
interface Prepared {
  model: string | null;
  parts: PartTracks[];
  stops: Stop[];
  readings: number;
  /** Belief about log b when the nodes were placed. */
  around: Around;
  nodes: Float64Array;
}

interface Around {
  mean: number;
  sd: number;
}

function prepare(histories: readonly AxleHistory[], beliefs: WearBeliefs): Prepared[] {
  const { value, sd } = beliefs.learned.logRateMean;
  const around = {
    mean: value,
    sd: Math.hypot(sd, beliefs.learned.modelSd.value, beliefs.given.logRateSd),
  };
  return histories.flatMap(({ model, parts }) => {
    const readings = countReadings(parts);
    if (readings === 0) return [];
    const unplaced = { model, parts, stops: stopsOf(parts), readings, around, nodes: NOWHERE };
    return [withNodesPlaced(unplaced, beliefs.given, around)];
  });
}

const countReadings = (parts: readonly PartTracks[]): number =>
  parts.reduce((sum, { lives }) => sum + lives.reduce((count, { at }) => count + at.length, 0), 0);

const NOWHERE = new Float64Array(0);
const NODES = 15;
/** With changes of rate, the nodes span both the first and the last rates. */
const NODES_WITH_JUMPS = 21;
const COARSE_NODES = 41;
const REACH = 4.5;
/** Nodes whose log posterior is further than this below the maximum are left out, of the first and of the last rate. */
const NEGLIGIBLE = 10;
const NEGLIGIBLE_AT_END = 6;

/** The axle with evenly spaced nodes over the part of the prior that the readings support. */
function withNodesPlaced(axle: Prepared, parameters: WearParameters, around: Around): Prepared {
  const step = (2 * REACH * around.sd) / (COARSE_NODES - 1);
  const coarse = Float64Array.from(
    { length: COARSE_NODES },
    (_, index) => around.mean - REACH * around.sd + index * step,
  );
  const logs = likelihoods(axle, { ...parameters, jumpPerMm: 0 }, coarse).map(
    (log, index) => log + logPrior(coarse[index]!, around),
  );
  const counts = [aboveBy(logs, NEGLIGIBLE)];
  if (parameters.jumpPerMm > 0)
    counts.push(aboveBy(logsAtEnd(axle, parameters, coarse, around), NEGLIGIBLE_AT_END));
  const from = coarse[Math.min(...counts.map(({ first }) => first))]! - step / 2;
  const to = coarse[Math.max(...counts.map(({ last }) => last))]! + step / 2;
  const many = parameters.jumpPerMm > 0 ? NODES_WITH_JUMPS : NODES;
  const nodes = Float64Array.from({ length: many }, (_, index) => from + (index * (to - from)) / (many - 1));
  return { ...axle, around, nodes };
}

const logPrior = (node: number, { mean, sd }: Around): number => -0.5 * ((node - mean) / sd) ** 2;

function aboveBy(logs: Float64Array, fall: number): { first: number; last: number } {
  const best = Math.max(...logs);
  return {
    first: logs.findIndex((log) => log > best - fall),
    last: logs.findLastIndex((log) => log > best - fall),
  };
}

/** Log weight of each node after the last reading, when the rate may have changed since the first. */
function logsAtEnd(
  { parts, stops }: Prepared,
  parameters: WearParameters,
  nodes: Float64Array,
  around: Around,
): Float64Array {
  const weights = nodes.map((node) => Math.exp(logPrior(node, around)));
  const end = startFollowing(parts, filterModel(parameters), nodes, weights, true);
  followOn(end, stops);
  return weightsOf(end).map((weight) => Math.log(weight + 1e-300));
}

/** Weight of each node, summed over the hypotheses. */
function weightsOf({ hypotheses, rates }: Following): Float64Array {
  return rates.map((_, node) => hypotheses.reduce((sum, { weights }) => sum + weights[node]!, 0));
}

/** Log likelihood of an axle's readings, by its initial base rate. */
function likelihoods(
  { parts, stops, around }: Prepared,
  parameters: WearParameters,
  nodes: Float64Array,
): Float64Array {
  const changes = parameters.jumpPerMm > 0;
  const prior = nodes.map((node) => (changes ? Math.exp(logPrior(node, around)) : 1));
  const total = prior.reduce((sum, weight) => sum + weight, 0);
  const model = filterModel(parameters);
  const end = startFollowing(
    parts,
    model,
    nodes,
    prior.map((weight) => weight / total),
    true,
  );
  followOn(end, stops);
  const weights = changes ? originsOf(end) : weightsOf(end);
  return weights.map(
    (weight, node) => end.logLikelihood + Math.log(weight + 1e-300) - Math.log(prior[node]! / total),
  );
}

/** Weight of each initial node, given all readings. */
function originsOf({ hypotheses, rates }: Following): Float64Array {
  const sums = new Float64Array(rates.length);
  for (const { origins } of hypotheses) {
    origins!.forEach((weight, index) => (sums[index % rates.length]! += weight));
  }
  return sums;
}

/** Likelihood of one axle's readings at its nodes, divided by its maximum `exp(top)`, times the node spacing. */
interface NodeLikelihood {
  nodes: Float64Array;
  top: number;
  values: Float64Array;
}

function atNodes(axle: Prepared, parameters: WearParameters): NodeLikelihood {
  const { nodes } = axle;
  const logs = likelihoods(axle, parameters, nodes);
  const top = Math.max(...logs);
  const step = nodes[1]! - nodes[0]!;
  return { nodes, top, values: logs.map((log) => step * Math.exp(log - top)) };
}

const LOG_SQRT_2PI = 0.5 * Math.log(2 * Math.PI);

/**
 * Minimum spread in node spacings. With a narrower spread, the sum over nodes diverges where the mean meets a node. A
 * narrower spread counts as this wide; its prior keeps it close to that.
 */
const MIN_SPREAD_STEPS = 0.6;

/** Adds the log likelihood of an axle whose log base rate is normal about `mean`, with its derivatives by the mean. */
function addCurve({ nodes, top, values }: NodeLikelihood, mean: number, spread: number, into: Curve): void {
  const sd = Math.max(spread, MIN_SPREAD_STEPS * (nodes[1]! - nodes[0]!));
  const smallest = minSquare(nodes, mean, sd);
  let sum = 0;
  let first = 0;
  let second = 0;
  for (let index = 0; index < nodes.length; index++) {
    const z = (nodes[index]! - mean) / sd;
    const weight = values[index]! * Math.exp(-0.5 * (z * z - smallest));
    sum += weight;
    first += weight * z;
    second += weight * z * z;
  }
  const meanZ = first / sum;
  into.log += top + Math.log(sum / sd) - 0.5 * smallest - LOG_SQRT_2PI;
  into.slope += meanZ / sd;
  into.curvature += (second / sum - meanZ * meanZ - 1) / (sd * sd);
}

/** Beyond this many standard deviations a normal density nearly underflows. */
const FAR_SDS = 25;

/** Squared distance of a far mean from the nearest node, in standard deviations; 0 if no scaling is needed. */
function minSquare(nodes: Float64Array, mean: number, sd: number): number {
  const off = Math.max(nodes[0]! - mean, mean - nodes[nodes.length - 1]!) / sd;
  return off > FAR_SDS ? off * off : 0;
}

/** Values of the learned parameters, at a point in units of their priors' standard deviations. */
type Values = Partial<Record<WearLearned, number>> & {
  logRateMean: number;
  modelSd: number;
  logRateSd: number;
};

function valuesAt({ learned }: WearBeliefs, names: readonly WearLearned[], x: Float64Array): Values {
  const values = Object.fromEntries(names.map((name, index) => [name, along(learned[name], x[index]!)]));
  if (values['fastChance'] !== undefined) {
    values['fastChance'] = Math.min(LIKELIEST_FAST, values['fastChance']);
  }
  return values as unknown as Values;
}

function parametersAt({ given }: WearBeliefs, { modelSd: _, ...values }: Values): WearParameters {
  return { ...given, ...values };
}

function poolAxles(axles: readonly NodeLikelihood[], values: Values, start?: number): Pooled {
  const members = (mean: number): Curve => {
    const curve = { log: 0, slope: 0, curvature: 0 };
    for (const axle of axles) addCurve(axle, mean, values.logRateSd, curve);
    return curve;
  };
  return poolGroup(
    { curve: members, log: (mean) => members(mean).log },
    { mean: values.logRateMean, sd: values.modelSd },
    start,
  );
}

/** Number of parameters of the population, which come first. Changing any other one runs the filter again. */
const POPULATION = 3;
const MAX_CACHED = 3;

/** Negative log posterior of the learned parameters, given a class's axles. */
function objectiveOf(axles: readonly Prepared[], beliefs: WearBeliefs, names: readonly WearLearned[]) {
  const groups = groupsOf(axles);
  const cache: { key: string; axles: NodeLikelihood[][] }[] = [];
  const starts = new Map<number, number>();
  const filtered = (key: string, parameters: WearParameters): NodeLikelihood[][] => {
    const known = cache.find((entry) => entry.key === key);
    if (known) return known.axles;
    const made = groups.map((group) => group.map((axle) => atNodes(axle, parameters)));
    cache.unshift({ key, axles: made });
    cache.length = Math.min(cache.length, MAX_CACHED);
    return made;
  };
  return (x: Float64Array): number => {
    const values = valuesAt(beliefs, names, x);
    const likelihood = filtered(x.subarray(POPULATION).join(), parametersAt(beliefs, values)).reduce(
      (sum, group, index) => {
        const pooled = poolAxles(group, values, starts.get(index));
        starts.set(index, pooled.mean);
        return sum + pooled.log;
      },
      0,
    );
    return 0.5 * x.reduce((sum, z) => sum + z * z, 0) - likelihood;
  };
}

interface Shape {
  names: readonly WearLearned[];
  mode: Minimum;
  /** The axles with nodes placed for the fitted parameters. */
  axles: readonly Prepared[];
}

/** Finds the mode twice: with nodes placed for the starting values, then with nodes placed for the first result. */
function fitShape(
  sample: readonly Prepared[],
  beliefs: WearBeliefs,
  names: readonly WearLearned[],
  start = new Float64Array(names.length),
): Shape {
  const rough = minimise(objectiveOf(evenly(sample, MAX_AT_FIRST), beliefs, names), start, 0.3);
  const axles = withNodesPlacedAgain(sample, beliefs, valuesAt(beliefs, names, rough.x));
  return { names, mode: minimise(objectiveOf(axles, beliefs, names), rough.x), axles };
}

/** Places the nodes again around each axle's posterior; somewhat wider, since draws lie on either side of the mode. */
function withNodesPlacedAgain(axles: readonly Prepared[], beliefs: WearBeliefs, values: Values): Prepared[] {
  const parameters = parametersAt(beliefs, values);
  const replacements = new Map<Prepared, Prepared>();
  for (const group of groupsOf(axles)) {
    const pooled = poolAxles(
      group.map((axle) => atNodes(axle, { ...parameters, jumpPerMm: 0 })),
      values,
    );
    const sd = Math.hypot(1.3 * values.logRateSd, Math.sqrt(pooled.variance));
    for (const axle of group)
      replacements.set(axle, withNodesPlaced(axle, parameters, { mean: pooled.mean, sd }));
  }
  return axles.map((axle) => replacements.get(axle)!);
}

/** Possible chances of a change of rate per mm worn, with their prior weights. */
const CHANGES: readonly { jumpPerMm: number; weight: number }[] = [
  { jumpPerMm: 0.005, weight: 0.35 },
  { jumpPerMm: 0.02, weight: 0.35 },
  { jumpPerMm: 0.08, weight: 0.3 },
];

/**
 * Adds changes of rate in mid-life to the fit. They are learned if the histories clearly support them. Otherwise their
 * frequency is the posterior mean over {@link CHANGES} and all else stays as in the plain fit.
 */
function withChanges(beliefs: WearBeliefs, plain: Shape): { shape: Shape; beliefs: WearBeliefs } {
  const sample = evenly(plain.axles, MAX_WITH_JUMPS);
  const start = new Float64Array(WITH_JUMPS.length);
  start.set(plain.mode.x);
  const axles = withNodesPlacedAgain(sample, beliefs, valuesAt(beliefs, WITH_JUMPS, start));
  const without = objectiveOf(axles, withJumps(beliefs, 0), PLAIN)(plain.mode.x);
  const objective = objectiveOf(axles, beliefs, WITH_JUMPS);
  if (objective(start) < without) {
    const mode = minimise(objective, start, 0.2);
    if (mode.value < without - CLEAR_GAIN) return { shape: { names: WITH_JUMPS, mode, axles }, beliefs };
  }
  const logs = CHANGES.map(({ jumpPerMm, weight }) => {
    const value = objectiveOf(axles, withJumps(beliefs, jumpPerMm), PLAIN)(plain.mode.x);
    return Math.log(weight) - (value * plain.axles.length) / sample.length;
  });
  const top = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - top));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = CHANGES.reduce((sum, { jumpPerMm }, index) => sum + (jumpPerMm * weights[index]!) / total, 0);
  return { shape: plain, beliefs: withJumps(beliefs, mean) };
}

/** The beliefs with a fixed frequency of changes of rate. */
const withJumps = (beliefs: WearBeliefs, jumpPerMm: number): WearBeliefs => ({
  ...beliefs,
  given: { ...beliefs.given, jumpPerMm },
});

function fitClass(all: readonly Prepared[], beliefs: WearBeliefs, { names, mode, axles }: Shape): FittedWear {
  const points = drawAround(objectiveOf(axles, beliefs, names), mode, DRAWS);
  const values = points.map(({ x }) => valuesAt(beliefs, names, x));
  const groups = groupsOf(withNodesPlacedAgain(all, beliefs, valuesAt(beliefs, names, mode.x)));
  const models = groups.flatMap((group): [string, FittedModel][] => {
    const { model } = group[0]!;
    return model === null ? [] : [[model, modelOf(group, beliefs, values)]];
  });
  return {
    axles: all.length,
    readings: all.reduce((sum, { readings }) => sum + readings, 0),
    draws: points.map(({ weight }, index) => ({
      weight,
      parameters: parametersAt(beliefs, values[index]!),
      modelSd: values[index]!.modelSd,
    })),
    models: Object.fromEntries(models),
  };
}

function modelOf(group: readonly Prepared[], beliefs: WearBeliefs, draws: readonly Values[]): FittedModel {
  const sample = evenly(group, MAX_FOR_MODEL);
  return {
    axles: group.length,
    readings: group.reduce((sum, { readings }) => sum + readings, 0),
    rates: draws.map((values) => {
      const parameters = parametersAt(beliefs, values);
      const pooled = poolAxles(
        sample.map((axle) => atNodes(axle, parameters)),
        values,
      );
      return { mean: pooled.mean, sd: Math.sqrt(pooled.variance) };
    }),
  };
}

/** Draws for a forecast for one model; an unseen model is drawn from the distribution of its class's models. */
export function wearDraws(fit: FittedWear, model: string | null): Draw<WearParameters>[] {
  const known = model === null ? undefined : fit.models[model];
  const draws = fit.draws.map(({ weight, parameters, modelSd }, index) => {
    const rate = known?.rates[index] ?? { mean: parameters.logRateMean, sd: modelSd };
    const logRateSd = Math.hypot(parameters.logRateSd, rate.sd);
    return { weight, parameters: { ...parameters, logRateMean: rate.mean, logRateSd } };
  });
  return weighty(draws);
}
