import { parseArgs } from 'node:util';
import { calibrationReport, type Finished } from './calibrationReport.js';
import type { Experience } from '../src/core/forecast/experience.js';
import {
  experienceOf,
  EXPERIENCES,
  isFitted,
  LIVES,
  type ExperienceName,
  type Lives,
} from './experiences.js';
import { resultCache } from './resultCache.js';
import { writeSection } from './markdown.js';
import { oneOf, wholeNumber } from './options.js';
import { isWorker, serveJobs, shareOut } from '../src/processes.js';
import { forecastAll, serviceForecaster, type Case, type Forecaster } from './scores.js';
import { simulate, WORLDS, type World } from './worlds.js';

/**
 * Scores the service's forecasts against simulated fleets whose truth is known. Each forecast is made at a visit. It is
 * compared with the day on which the first pad truly reached its limit, with the readings of the next visit, and with
 * the rules that a workshop uses by hand.
 *
 *   npm run bench:calibration -- [--world coarse,fine] [--experience starting,ideal,3,10,30,100,300]
 *     [--lives complete,under-way] [--vehicles 300] [--seed 1] [--fresh] [--write]
 *
 * `--experience` is what the shop knows: the starting values, the fleet's true parameters, or a fit to this many
 * vehicles of the same world with other seeds. `--lives` says how far those vehicles had come: to the end of their
 * pads, or each to any of its visits, as in a shop. One fit may be lucky, so the vehicles are split over several shops,
 * each with a fit of its own. Results of finished shops are cached in data/calibration until the code changes, so that
 * a run can be interrupted and resumed; `--fresh` recomputes them. `--write` puts the tables into docs/calibration.md.
 */

/** The number of shops among which a world's vehicles are split. */
const SHOPS: Record<ExperienceName, number> = {
  starting: 6,
  ideal: 6,
  3: 6,
  10: 4,
  30: 3,
  100: 2,
  300: 1,
};

export interface Job {
  world: string;
  experience: ExperienceName;
  lives: Lives;
  vehicles: number;
  seed: number;
  shop: number;
}

/** The result of one shop's forecasts; processor time in ms. */
export interface Result {
  cases: Case[];
  /** Changes of rate per mm worn that the experience expects; null without a fit. */
  jumpPerMm: number | null;
  fitMs: number;
  outlookMs: number;
}

const worldNamed = (name: string): World => WORLDS.find((world) => world.name === name)!;

const shopsFor = (experience: ExperienceName, vehicles: number): number =>
  Math.min(vehicles, SHOPS[experience]);

function work({ world: name, experience: known, lives, vehicles, seed, shop }: Job): Result {
  const world = worldNamed(name);
  const shops = shopsFor(known, vehicles);
  const bound = (index: number) => Math.round((index * vehicles) / shops);
  const fleet = simulate(world, vehicles, seed).slice(bound(shop), bound(shop + 1));
  const [experience, fitMs] = timed(() => experienceOf(world, known, lives, seedOfShop(seed, shop)));
  const service = serviceForecaster(experience);
  let outlookMs = 0;
  const forecast: Forecaster = (history) => {
    const [crossing, ms] = timed(() => service(history));
    outlookMs += ms;
    return crossing;
  };
  const cases = forecastAll(fleet, forecast, { experience, shop, from: bound(shop) });
  return { cases, jumpPerMm: isFitted(known) ? jumpsOf(experience) : null, fitMs, outlookMs };
}

const jumpsOf = ({ pads }: Experience): number =>
  pads.reduce((sum, { weight, parameters }) => sum + weight * parameters.jumpPerMm, 0);

/** The vehicles that a shop learned from have other seeds. */
const seedOfShop = (seed: number, shop: number): number => 1_000 * seed + 1 + shop;

/** Processor time instead of wall-clock time, so that other load on the machine does not matter. */
function timed<Value>(act: () => Value): [value: Value, ms: number] {
  const before = process.cpuUsage();
  const value = act();
  const { user, system } = process.cpuUsage(before);
  return [value, (user + system) / 1000];
}

function readOptions() {
  const { values } = parseArgs({
    options: {
      world: { type: 'string' },
      experience: { type: 'string', default: 'starting,3,10,30,100,300' },
      lives: { type: 'string', default: LIVES.join() },
      vehicles: { type: 'string', default: '300' },
      seed: { type: 'string', default: '1' },
      fresh: { type: 'boolean', default: false },
      write: { type: 'boolean', default: false },
    },
  });
  const names = WORLDS.map(({ name }) => name);
  const barred = WORLDS.filter(({ bar }) => bar).map(({ name }) => name);
  return {
    worlds: (values.world?.split(',') ?? barred).map((name) => oneOf('world', names, name)),
    experiences: values.experience.split(',').map((name) => oneOf('experience', EXPERIENCES, name)),
    lives: values.lives.split(',').map((name) => oneOf('lives', LIVES, name)),
    vehicles: wholeNumber('vehicles', values.vehicles),
    seed: wholeNumber('seed', values.seed),
    fresh: values.fresh,
    write: values.write,
  };
}

async function main(): Promise<void> {
  const { worlds, experiences, lives: both, vehicles, seed, fresh, write } = readOptions();
  const cache = resultCache<Job, Result>('data/calibration', import.meta.dirname);
  const jobs = worlds.flatMap((world) =>
    experiences.flatMap((experience) =>
      // Without a fit, the vehicles to learn from do not matter.
      (isFitted(experience) ? both : both.slice(0, 1)).flatMap((lives) =>
        Array.from({ length: shopsFor(experience, vehicles) }, (_, shop): Job => ({
          world,
          experience,
          lives,
          vehicles,
          seed,
          shop,
        })),
      ),
    ),
  );
  const finished: Finished[] = [];
  const waiting = jobs.filter((job) => {
    const cached = fresh ? null : cache.find(job);
    if (cached) finished.push({ job, result: cached });
    return !cached;
  });
  const total = waiting.length;
  let done = 0;
  await shareOut<Job, Result>(import.meta.filename, waiting, (job, result) => {
    cache.save(job, result);
    finished.push({ job, result });
    done += 1;
    process.stderr.write(
      `${done} of ${total}: ${job.world}, ${job.experience} ${job.lives}, shop ${job.shop + 1}, fit ${(result.fitMs / 1000).toFixed(1)} s, ${result.cases.length} outlooks ${(result.outlookMs / 1000).toFixed(1)} s\n`,
    );
  });
  const text = calibrationReport(
    {
      worlds: worlds.map(worldNamed),
      experiences,
      lives: both,
      vehicles,
      seed,
      learnSeed: seedOfShop(seed, 0),
    },
    finished,
  );
  console.log(text);
  if (write) writeSection('calibration', text);
}

if (isWorker) serveJobs(work);
else await main();
