import type { Stretch } from '../stretches.js';
import type { Draw, UsageParameters } from './experience.js';
import { drawAround, minimise } from './laplace.js';
import { USAGE_DRAWS } from './net.js';
import { evenly, groupsOf, poolGroup, weighty, type Curve, type Pooled } from './pooling.js';
import { along, USAGE_BELIEFS, type UsageLearned } from './starting.js';
import { followPace, placePaces, stretchEvidence, type StretchEvidence } from './usage.js';

/**
 * Fit of use over time: log paces are normal about their model's mean, and the models' means about the shop's. When its
 * use changes, a vehicle's pace is redrawn from its model, so the filter runs again for each trial mean.
 */

export interface UsageHistory {
  model: string | null;
  stretches: Stretch[];
}

export interface FittedModelUsage {
  vehicles: number;
  paces: { mean: number; sd: number }[];
}

export interface FittedUsage {
  vehicles: number;
  draws: (Draw<UsageParameters> & { modelSd: number })[];
  models: Record<string, FittedModelUsage>;
}

const LEARNED: readonly UsageLearned[] = [
  'logPaceMean',
  'modelSd',
  'logPaceSd',
  'dayToDay',
  'season',
  'changesPerYear',
  'spellsPerYear',
];
const MAX_FOR_SHAPE = 150;
const MAX_FOR_MODEL = 150;

export function fitUsage(all: readonly UsageHistory[]): FittedUsage | null {
  const histories = all.filter(({ stretches }) => stretches.length > 0);
  if (histories.length === 0) return null;
  const objective = objectiveOf(evenly(histories, MAX_FOR_SHAPE));
  const mode = minimise(objective, new Float64Array(LEARNED.length));
  const points = drawAround(objective, mode, USAGE_DRAWS);
  const values = points.map(({ x }) => valuesAt(x));
  const models = groupsOf(histories).flatMap((group): [string, FittedModelUsage][] =>
    group[0]!.model === null ? [] : [[group[0]!.model, modelOf(group, values)]],
  );
  return {
    vehicles: histories.length,
    draws: points.map(({ weight }, index) => ({
      weight,
      parameters: parametersAt(values[index]!),
      modelSd: values[index]!.modelSd,
    })),
    models: Object.fromEntries(models),
  };
}

type Values = Record<UsageLearned, number>;

const valuesAt = (x: Float64Array): Values =>
  Object.fromEntries(
    LEARNED.map((name, index) => [name, along(USAGE_BELIEFS.learned[name], x[index]!)]),
  ) as Values;

const parametersAt = ({ modelSd: _, ...values }: Values): UsageParameters => ({
  ...USAGE_BELIEFS.given,
  ...values,
});

/** Nodes that cover any plausible fit. */
function placeNodes(): Float64Array {
  const { logPaceMean, logPaceSd, modelSd } = USAGE_BELIEFS.learned;
  const sd = Math.hypot(logPaceMean.sd, logPaceSd.value, modelSd.value);
  return placePaces([{ weight: 1, parameters: { ...USAGE_BELIEFS.given, logPaceSd: sd } }]);
}

type Evidence = StretchEvidence[];

const DERIVATIVE_STEP = 0.05;

function poolPaces(
  vehicles: readonly Evidence[],
  values: Values,
  logPaces: Float64Array,
  start?: number,
): Pooled {
  const parameters = parametersAt(values);
  const logAt = (logPaceMean: number): number => {
    const group = { ...parameters, logPaceMean };
    return vehicles.reduce((sum, evidence) => sum + followPace(evidence, group, logPaces).logLikelihood, 0);
  };
  const members = (mean: number): Curve => {
    const log = logAt(mean);
    const up = logAt(mean + DERIVATIVE_STEP);
    const down = logAt(mean - DERIVATIVE_STEP);
    return {
      log,
      slope: (up - down) / (2 * DERIVATIVE_STEP),
      curvature: (up + down - 2 * log) / DERIVATIVE_STEP ** 2,
    };
  };
  return poolGroup({ curve: members, log: logAt }, { mean: values.logPaceMean, sd: values.modelSd }, start);
}

/** Number of parameters of the population, which come first. Changing any other one recomputes the densities. */
const POPULATION = 3;
const MAX_CACHED = 3;

function objectiveOf(histories: readonly UsageHistory[]) {
  const logPaces = placeNodes();
  const paces = logPaces.map(Math.exp);
  const groups = groupsOf(histories);
  const cache: { key: string; evidence: Evidence[][] }[] = [];
  const starts = new Map<number, number>();
  const evidenceFor = (key: string, parameters: UsageParameters): Evidence[][] => {
    const known = cache.find((entry) => entry.key === key);
    if (known) return known.evidence;
    const evidence = groups.map((group) =>
      group.map(({ stretches }) => stretchEvidence(stretches, parameters, paces)),
    );
    cache.unshift({ key, evidence });
    cache.length = Math.min(cache.length, MAX_CACHED);
    return evidence;
  };
  return (x: Float64Array): number => {
    const values = valuesAt(x);
    const likelihood = evidenceFor(x.subarray(POPULATION).join(), parametersAt(values)).reduce(
      (sum, group, index) => {
        const pooled = poolPaces(group, values, logPaces, starts.get(index));
        starts.set(index, pooled.mean);
        return sum + pooled.log;
      },
      0,
    );
    return 0.5 * x.reduce((sum, z) => sum + z * z, 0) - likelihood;
  };
}

function modelOf(group: readonly UsageHistory[], draws: readonly Values[]): FittedModelUsage {
  const logPaces = placeNodes();
  const paces = logPaces.map(Math.exp);
  const sample = evenly(group, MAX_FOR_MODEL);
  return {
    vehicles: group.length,
    paces: draws.map((values) => {
      const parameters = parametersAt(values);
      const pooled = poolPaces(
        sample.map(({ stretches }) => stretchEvidence(stretches, parameters, paces)),
        values,
        logPaces,
      );
      return { mean: pooled.mean, sd: Math.sqrt(pooled.variance) };
    }),
  };
}

/** Draws for a forecast for one model; an unseen model is drawn from the distribution of the shop's models. */
export function usageDraws(fit: FittedUsage, model: string | null): Draw<UsageParameters>[] {
  const known = model === null ? undefined : fit.models[model];
  const draws = fit.draws.map(({ weight, parameters, modelSd }, index) => {
    const pace = known?.paces[index] ?? { mean: parameters.logPaceMean, sd: modelSd };
    const logPaceSd = Math.hypot(parameters.logPaceSd, pace.sd);
    // Fits by versions before standstills were modelled lack these values.
    return {
      weight,
      parameters: { ...USAGE_BELIEFS.given, ...parameters, logPaceMean: pace.mean, logPaceSd },
    };
  });
  return weighty(draws);
}
