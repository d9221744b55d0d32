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
 * The fit of one class of axles to the histories of a shop. Log base rates are normal about their model's mean, and
 * the models' means about the class's: m_g ~ N(m, δ²), log b ~ N(m_g, τ²). Given the parameters of the filter, each
 * axle's likelihood is worked out once at a few nodes of log b; the rates and the models' means are then integrated
 * out of these, which costs next to nothing.
 */

/** All lives of the parts of one axle of one vehicle. */
export interface AxleHistory {
  model: string | null;
  parts: PartTracks[];
}

/** What the histories tell of one model within a class: its mean log rate at each draw. */
export interface FittedModel {
  axles: number;
  readings: number;
  rates: { mean: number; sd: number }[];
}

export interface FittedWear {
  axles: number;
  readings: number;
  /** `modelSd`: spread of the models' means about `logRateMean`; `logRateSd`: spread of the axles about their model's. */
  draws: (Draw<WearParameters> & { modelSd: number })[];
  models: Record<string, FittedModel>;
}

/** Axles that the shape of a class is learned from, those that it is first looked for with, and those of a model's mean. */
const MOST_FOR_SHAPE = 120;
const MOST_AT_FIRST = 40;
const MOST_FOR_MODEL = 120;
/** Where rates change an axle costs more to follow, so that fewer must do. */
const MOST_WITH_JUMPS = 40;
/** Gain in log posterior that changes of rate must bring before a class is believed to have them. */
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
  const sample = evenly(axles, MOST_FOR_SHAPE);
  const plain = shapeOf(sample, withJumps(beliefs, 0), PLAIN);
  const { jumpPerMm: belief } = beliefs.learned;
  if (belief.sd === 0) return fitted(axles, withJumps(beliefs, belief.value), plain);
  const { shape, beliefs: learned } = withChanges(beliefs, plain);
  const found = fitted(axles, shape === plain ? withJumps(beliefs, 0) : beliefs, shape);
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
  return fitted(axles, beliefs, shapeOf(evenly(axles, MOST_FOR_SHAPE), beliefs, ROTOR));
}

/** One axle with its nodes of log b, fixed so that the likelihood is smooth in the parameters. */
interface Prepared {
  model: string | null;
  parts: PartTracks[];
  stops: Stop[];
  readings: number;
  /** What was believed of log b when the nodes were placed. */
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
    return [placed(unplaced, beliefs.given, around)];
  });
}

const countReadings = (parts: readonly PartTracks[]): number =>
  parts.reduce((sum, { lives }) => sum + lives.reduce((count, { at }) => count + at.length, 0), 0);

const NOWHERE = new Float64Array(0);
const NODES = 15;
/** Where rates change, the nodes span what they were as well as what they became. */
const NODES_WITH_JUMPS = 21;
const COARSE_NODES = 41;
const REACH = 4.5;
/** Fall in log posterior beyond which a node is left out: of the rate at first, and of what it became. */
const NEGLIGIBLE = 10;
const NEGLIGIBLE_AT_END = 6;

/** The axle with evenly spaced nodes over the part of a normal prior's reach that the readings leave of account. */
function placed(axle: Prepared, parameters: WearParameters, around: Around): Prepared {
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

/** Log weight of each node at the end, where the rate may have changed since the start. */
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

/** Weight of each node over all hypotheses. */
function weightsOf({ hypotheses, rates }: Following): Float64Array {
  return rates.map((_, node) => hypotheses.reduce((sum, { weights }) => sum + weights[node]!, 0));
}

/** Log likelihood of an axle's readings by its base rate at first. */
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

/** Weight of each node at the start, by what has come of it since. */
function originsOf({ hypotheses, rates }: Following): Float64Array {
  const sums = new Float64Array(rates.length);
  for (const { origins } of hypotheses) {
    origins!.forEach((weight, index) => (sums[index % rates.length]! += weight));
  }
  return sums;
}

/** The likelihood of one axle's readings at its nodes, scaled so that the highest is one, times the nodes' step. */
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
 * Nodes tell nothing of a spread that is narrower than this many of their steps: summed over them, its likelihood grows
 * without end where its mean meets a node. A narrower one counts as this wide, which its prior then keeps it near.
 */
const NARROWEST_STEPS = 0.6;

/** Log likelihood of an axle whose log base rate is normal about a mean, with its derivatives by that mean. */
function addCurve({ nodes, top, values }: NodeLikelihood, mean: number, spread: number, into: Curve): void {
  const sd = Math.max(spread, NARROWEST_STEPS * (nodes[1]! - nodes[0]!));
  const least = leastSquare(nodes, mean, sd);
  let sum = 0;
  let first = 0;
  let second = 0;
  for (let index = 0; index < nodes.length; index++) {
    const z = (nodes[index]! - mean) / sd;
    const weight = values[index]! * Math.exp(-0.5 * (z * z - least));
    sum += weight;
    first += weight * z;
    second += weight * z * z;
  }
  const meanZ = first / sum;
  into.log += top + Math.log(sum / sd) - 0.5 * least - LOG_SQRT_2PI;
  into.slope += meanZ / sd;
  into.curvature += (second / sum - meanZ * meanZ - 1) / (sd * sd);
}

/** From here on a normal density is near the smallest numbers there are. */
const FAR_SDS = 25;

/** Square of how many standard deviations a far mean lies off the nearest node; what is near needs no scaling. */
function leastSquare(nodes: Float64Array, mean: number, sd: number): number {
  const off = Math.max(nodes[0]! - mean, mean - nodes[nodes.length - 1]!) / sd;
  return off > FAR_SDS ? off * off : 0;
}

/** Values of the learned parameters at a point in units of their prior's standard deviations. */
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

/** The parameters of the population; all others are the filter's, and changing them costs a filter run. */
const POPULATION = 3;
const KEPT = 3;

/** Minus the log posterior of the learned parameters, given a class's axles. */
function objectiveOf(axles: readonly Prepared[], beliefs: WearBeliefs, names: readonly WearLearned[]) {
  const groups = groupsOf(axles);
  const kept: { key: string; axles: NodeLikelihood[][] }[] = [];
  const starts = new Map<number, number>();
  const filtered = (key: string, parameters: WearParameters): NodeLikelihood[][] => {
    const known = kept.find((entry) => entry.key === key);
    if (known) return known.axles;
    const made = groups.map((group) => group.map((axle) => atNodes(axle, parameters)));
    kept.unshift({ key, axles: made });
    kept.length = Math.min(kept.length, KEPT);
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
  /** The axles with nodes placed by what was learned. */
  axles: readonly Prepared[];
}

/** The mode: first on nodes placed by the starting values, then on nodes placed by what that found. */
function shapeOf(
  sample: readonly Prepared[],
  beliefs: WearBeliefs,
  names: readonly WearLearned[],
  start = new Float64Array(names.length),
): Shape {
  const rough = minimise(objectiveOf(evenly(sample, MOST_AT_FIRST), beliefs, names), start, 0.3);
  const axles = replaced(sample, beliefs, valuesAt(beliefs, names, rough.x));
  return { names, mode: minimise(objectiveOf(axles, beliefs, names), rough.x), axles };
}

/** Nodes placed anew about each axle's own posterior; a little wide, since draws lie to either side of the mode. */
function replaced(axles: readonly Prepared[], beliefs: WearBeliefs, values: Values): Prepared[] {
  const parameters = parametersAt(beliefs, values);
  const replacements = new Map<Prepared, Prepared>();
  for (const group of groupsOf(axles)) {
    const pooled = poolAxles(
      group.map((axle) => atNodes(axle, { ...parameters, jumpPerMm: 0 })),
      values,
    );
    const sd = Math.hypot(1.3 * values.logRateSd, Math.sqrt(pooled.variance));
    for (const axle of group) replacements.set(axle, placed(axle, parameters, { mean: pooled.mean, sd }));
  }
  return axles.map((axle) => replacements.get(axle)!);
}

/** Chances per mm worn that the rate changes, with what is believed of them before anything is learned. */
const CHANGES: readonly { jumpPerMm: number; weight: number }[] = [
  { jumpPerMm: 0.005, weight: 0.35 },
  { jumpPerMm: 0.02, weight: 0.35 },
  { jumpPerMm: 0.08, weight: 0.3 },
];

/**
 * The shape with changes of rate in mid-life: learned where the histories clearly ask for them; else as rare as the
 * histories leave likely, with everything else as it is without.
 */
function withChanges(beliefs: WearBeliefs, plain: Shape): { shape: Shape; beliefs: WearBeliefs } {
  const sample = evenly(plain.axles, MOST_WITH_JUMPS);
  const start = new Float64Array(WITH_JUMPS.length);
  start.set(plain.mode.x);
  const axles = replaced(sample, beliefs, valuesAt(beliefs, WITH_JUMPS, start));
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

/** The beliefs with so frequent changes of rate taken as given. */
const withJumps = (beliefs: WearBeliefs, jumpPerMm: number): WearBeliefs => ({
  ...beliefs,
  given: { ...beliefs.given, jumpPerMm },
});

function fitted(all: readonly Prepared[], beliefs: WearBeliefs, { names, mode, axles }: Shape): FittedWear {
  const points = drawAround(objectiveOf(axles, beliefs, names), mode, DRAWS);
  const values = points.map(({ x }) => valuesAt(beliefs, names, x));
  const groups = groupsOf(replaced(all, beliefs, valuesAt(beliefs, names, mode.x)));
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
  const sample = evenly(group, MOST_FOR_MODEL);
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

/** The draws that a forecast for one model uses; a model never seen is drawn from among the models of its class. */
export function wearDraws(fit: FittedWear, model: string | null): Draw<WearParameters>[] {
  const known = model === null ? undefined : fit.models[model];
  const draws = fit.draws.map(({ weight, parameters, modelSd }, index) => {
    const rate = known?.rates[index] ?? { mean: parameters.logRateMean, sd: modelSd };
    const logRateSd = Math.hypot(parameters.logRateSd, rate.sd);
    return { weight, parameters: { ...parameters, logRateMean: rate.mean, logRateSd } };
  });
  return weighty(draws);
}
