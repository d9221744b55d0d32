import { parseArgs } from 'node:util';
import { streams, type Chance } from '../seed/random.js';
import { startingExperience, type Draw, type WearParameters } from '../src/core/forecast/experience.js';
import { fitPads, wearDraws } from '../src/core/forecast/fitWear.js';
import { along, padBeliefs, type Belief, type WearBeliefs } from '../src/core/forecast/starting.js';
import { resultCache } from './resultCache.js';
import { markdownTable, writeSection } from './markdown.js';
import { drawClass, driveAxle, type ModelAxle } from './modelAxles.js';
import { wholeNumber } from './options.js';
import { isWorker, serveJobs, shareOut } from '../src/processes.js';
import { RANKED, ranksOf, type Ranks } from './ranks.js';
import { chiSquareTest, histogram, kolmogorovTest } from './uniform.js';

/**
 * Simulation-based calibration with many axles: the ranks of truths within their forecasts, with the starting values
 * and after a fit to a few vehicles of the same model, whose parameters were drawn from the prior.
 *
 *   npm run bench:sbc -- [--axles 5000] [--fitted 3,10] [--shops 200] [--seed 1] [--fresh] [--write]
 *
 * `--axles` is the number forecast with the starting values; `--shops` is how many shops of each size in `--fitted` are
 * drawn and fitted, each to forecast one more axle. Finished results are cached in data/sbc until the code changes;
 * `--fresh` recomputes them. `--write` puts the table into docs/calibration.md.
 */

const FRONT = { steeredOrFront: true, regenerative: false };
/** What the axles drawn here lack: errors shared by a visit, dragging, unrecorded sets and changes of rate. */
const WITHOUT_MESS = { visitSd: 0, dragsPer1000Km: 0, replacedWornChance: 0, jumpPerMm: 0 };
const BELIEFS = beliefsWithoutMess();
const MODEL = 'the only model';
/** Axles or shops per job, each with its own random stream. */
const JOB = 25;

interface Job {
  /** Vehicles in the shop's experience; 0 for the starting values. */
  fitted: number;
  seed: number;
  from: number;
  count: number;
}

function work({ fitted, seed, from, count }: Job): Ranks[] {
  const chances = streams(seed + 1_000_003 * fitted, from + count).slice(from);
  return chances.map((chance) => (fitted === 0 ? unfitted(chance) : afterFit(chance, fitted)));
}

function beliefsWithoutMess(): WearBeliefs {
  const { learned, given } = padBeliefs(FRONT);
  const none: Belief = { value: 0, sd: 0, scale: 'plain' };
  const known = Object.fromEntries(Object.keys(WITHOUT_MESS).map((name) => [name, none]));
  return { learned: { ...learned, ...known }, given: { ...given, ...WITHOUT_MESS } };
}

const STARTING = startingExperience(FRONT).pads.map(({ weight, parameters }) => ({
  weight,
  parameters: { ...parameters, ...WITHOUT_MESS },
}));

function unfitted(chance: Chance): Ranks {
  return rank(chance, drawClass(chance, BELIEFS).parameters, STARTING);
}

/** A shop of one model, its parameters drawn from the prior, and one more axle of that model. */
function afterFit(chance: Chance, vehicles: number): Ranks {
  const { parameters, modelSd } = drawClass(chance, BELIEFS);
  const own = {
    ...parameters,
    logRateMean: chance.normal(parameters.logRateMean, modelSd),
    // The starting values assume it; a fit learns it.
    placementSd: along(BELIEFS.learned.placementSd, chance.normal(0, 1)),
  };
  const histories = Array.from({ length: vehicles }, () => driveAxle(chance, own)).map(
    ({ parts }: ModelAxle) => ({ model: MODEL, parts }),
  );
  const fit = fitPads(histories, BELIEFS);
  return rank(chance, own, fit ? wearDraws(fit, MODEL) : STARTING);
}

const rank = (chance: Chance, truth: WearParameters, draws: readonly Draw<WearParameters>[]): Ranks =>
  ranksOf(driveAxle(chance, truth), draws, chance);

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      axles: { type: 'string', default: '5000' },
      fitted: { type: 'string', default: '3,10' },
      shops: { type: 'string', default: '200' },
      seed: { type: 'string', default: '1' },
      fresh: { type: 'boolean', default: false },
      write: { type: 'boolean', default: false },
    },
  });
  const seed = wholeNumber('seed', values.seed);
  const sizes = values.fitted === '' ? [] : values.fitted.split(',');
  const runs = [
    { fitted: 0, total: wholeNumber('axles', values.axles) },
    ...sizes.map((size) => ({
      fitted: wholeNumber('fitted', size),
      total: wholeNumber('shops', values.shops),
    })),
  ];
  const jobs = runs.flatMap(({ fitted, total }) =>
    Array.from({ length: Math.ceil(total / JOB) }, (_, index): Job => {
      const from = index * JOB;
      return { fitted, seed, from, count: Math.min(JOB, total - from) };
    }),
  );
  const ranks = new Map<number, Ranks[]>(runs.map(({ fitted }) => [fitted, []]));
  const cache = resultCache<Job, Ranks[]>('data/sbc', import.meta.dirname);
  const waiting = jobs.filter((job) => {
    const cached = values.fresh ? null : cache.find(job);
    if (cached) ranks.get(job.fitted)!.push(...cached);
    return !cached;
  });
  await shareOut<Job, Ranks[]>(import.meta.filename, waiting, (job, found) => {
    cache.save(job, found);
    ranks.get(job.fitted)!.push(...found);
  });
  const command = `npm run bench:sbc -- --axles ${values.axles} --fitted ${values.fitted} --shops ${values.shops} --seed ${seed}`;
  const text = [`\`${command}\``, table(ranks)].join('\n\n');
  console.log(text);
  if (values.write) writeSection('sbc', text);
}

function table(ranks: ReadonlyMap<number, readonly Ranks[]>): string {
  const rows = [...ranks].flatMap(([fitted, all]) =>
    RANKED.map((name) => {
      const places = all.map((each) => each[name]);
      const chiSquare = chiSquareTest(places);
      const kolmogorov = kolmogorovTest(places);
      return [
        fitted === 0 ? 'starting values' : `fit to ${fitted} vehicles`,
        name,
        String(places.length),
        chiSquare.statistic.toFixed(1),
        chiSquare.p.toPrecision(2),
        kolmogorov.statistic.toFixed(3),
        kolmogorov.p.toPrecision(2),
        histogram(places, 10)
          .map((share) => (100 * share).toFixed(1))
          .join(' '),
      ];
    }),
  );
  const headings = [
    'experience',
    'truth',
    'axles',
    'χ² (19 df)',
    'p',
    'Kolmogorov D',
    'p',
    '% in each tenth',
  ];
  return markdownTable(headings, rows);
}

if (isWorker) serveJobs(work);
else await main();
