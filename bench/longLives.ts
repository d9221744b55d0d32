import { parseArgs } from 'node:util';
import { streams } from '../seed/random.js';
import { condensed } from '../src/core/forecast/condense.js';
import { survival, survivalBy, type Survival } from '../src/core/forecast/crossing.js';
import { startingExperience, type Draw, type WearParameters } from '../src/core/forecast/experience.js';
import { padBeliefs } from '../src/core/forecast/starting.js';
import { wearPosterior, type PartTracks } from '../src/core/forecast/wear.js';
import { markdownTable } from './markdown.js';
import { drawClass, driveAxle, LIMIT_MM, type ModelAxle } from './modelAxles.js';
import { wholeNumber } from './options.js';
import { mean } from './scores.js';

/**
 * Measures what a forecast loses if readings close together in long lives are combined. The axles wear as the model
 * says and are read every few hundred kilometres; each is forecast from every reading and as the service does it.
 * Prints scores of the distance at which the first pad reaches its limit, compared with the truth.
 *
 *   npm run bench:long-lives -- [--axles 500] [--seed 3]
 */

const GROUP = { steeredOrFront: true, regenerative: false };
const VISITING = { min: 50, max: 150, gap: 0.4 };
const CHANGES = { jumpPerMm: 0.1, jumpSd: 0.5 };

interface Score {
  /** Log density of the log of the true distance. */
  log: number;
  /** Continuous ranked probability score, as a share of the true distance. */
  crps: number;
  processorMs: number;
}

function scoreOf(
  parts: readonly PartTracks[],
  { now, truth }: ModelAxle,
  draws: readonly Draw<WearParameters>[],
): Score {
  const before = process.cpuUsage();
  const posterior = wearPosterior(parts, draws, now);
  const { user, system } = process.cpuUsage(before);
  const table = survival(
    posterior,
    parts.map((_, part) => ({ part, limitMm: LIMIT_MM })),
  );
  return { ...scoresOf(table, truth.crossing), processorMs: (user + system) / 1000 };
}

const LOG_STEP = 0.1;
const MIN_DENSITY = 1e-6;
const CRPS_STEPS = 200;
/** The multiple of the true distance up to which the score is summed. */
const CRPS_REACH = 8;

function scoresOf(table: Survival, crossing: number): Pick<Score, 'log' | 'crps'> {
  const beyond = (share: number): number => survivalBy(table, share * crossing);
  const density = (beyond(Math.exp(-LOG_STEP)) - beyond(Math.exp(LOG_STEP))) / (2 * LOG_STEP);
  let crps = 0;
  for (let step = 0.5; step < CRPS_REACH * CRPS_STEPS; step++) {
    const share = step / CRPS_STEPS;
    const off = 1 - beyond(share) - (share >= 1 ? 1 : 0);
    crps += (off * off) / CRPS_STEPS;
  }
  return { log: Math.log(density + MIN_DENSITY), crps };
}

function axlesOf(count: number, seed: number): ModelAxle[] {
  return streams(seed, count)
    .map((chance) => driveAxle(chance, drawClass(chance, padBeliefs(GROUP)).parameters, VISITING))
    .filter(({ truth: { crossing } }) => crossing > 0 && Number.isFinite(crossing));
}

function rowOf(words: string, axles: readonly ModelAxle[], draws: readonly Draw<WearParameters>[]): string[] {
  const scores = axles.map((axle) => ({
    all: scoreOf(axle.parts, axle, draws),
    short: scoreOf(axle.parts.map(condensed), axle, draws),
  }));
  const shown = (of: keyof Score, digits: number): string[] => {
    const differences = scores.map(({ all, short }) => short[of] - all[of]);
    const difference = mean(differences);
    const error = Math.sqrt(mean(differences.map((each) => (each - difference) ** 2)) / scores.length);
    return [
      mean(scores.map(({ all }) => all[of])).toFixed(digits),
      mean(scores.map(({ short }) => short[of])).toFixed(digits),
      error.toFixed(digits),
    ];
  };
  return [words, ...shown('crps', 4), ...shown('log', 4), ...shown('processorMs', 1).slice(0, 2)];
}

const { values } = parseArgs({
  options: { axles: { type: 'string', default: '500' }, seed: { type: 'string', default: '3' } },
});
const axles = axlesOf(wholeNumber('axles', values.axles), wholeNumber('seed', values.seed));
const { pads } = startingExperience(GROUP);
const changing = pads.map(({ weight, parameters }) => ({
  weight,
  parameters: { ...parameters, ...CHANGES },
}));
const heads = [
  'CRPS, all readings',
  'condensed',
  '± of the difference',
  'log score, all readings',
  'condensed',
  '±',
];
console.log(
  markdownTable(
    [`${axles.length} axles`, ...heads, 'ms, all readings', 'condensed'],
    [rowOf('rate does not change', axles, pads), rowOf('rate may change', axles, changing)],
  ),
);
