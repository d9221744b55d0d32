import { parseArgs } from 'node:util';
import { calibrationReport, type Finished } from './calibrationReport.js';
import { experienceOf, EXPERIENCES, type ExperienceName } from './experiences.js';
import { resultKeeper } from './keeper.js';
import { writeSection } from './markdown.js';
import { oneOf, wholeNumber } from './options.js';
import { isWorker, serveJobs, shareOut } from '../src/processes.js';
import { forecastAll, serviceForecaster, type Case, type Forecaster } from './scores.js';
import { simulate, WORLDS, type World } from './worlds.js';

/**
 * Scores the service's forecasts against simulated fleets whose truth is known: made at every visit, held against the
 * day on which the first pad truly reached its limit and against the readings of the next visit, beside what a
 * workshop would work out by hand.
 *
 *   npm run bench:calibration -- [--world coarse,fine] [--experience starting,ideal,3,10,30,100] [--vehicles 300]
 *     [--seed 1] [--fresh] [--write]
 *
 * `--experience` is what the shop knows: the starting values, the fleet's true parameters, or a fit to so many vehicles
 * of the same world with other seeds. One fit may be lucky, so the vehicles forecast are shared out over several
 * shops, each with a fit of its own. Finished shops are kept in data/calibration for as long as the code stays the
 * same, so that a run may be broken off and taken up again; `--fresh` does them anew. `--write` puts the tables into
 * docs/calibration.md.
 */

/** Shops that the vehicles of a world are shared out over. */
const SHOPS: Record<ExperienceName, number> = { starting: 6, ideal: 6, 3: 20, 10: 10, 30: 6, 100: 4 };

export interface Job {
  world: string;
  experience: ExperienceName;
  vehicles: number;
  seed: number;
  shop: number;
}

/** What one shop's forecasts came to; processor time in ms. */
export interface Result {
  cases: Case[];
  fitMs: number;
  outlookMs: number;
}

const worldNamed = (name: string): World => WORLDS.find((world) => world.name === name)!;

const shopsFor = (experience: ExperienceName, vehicles: number): number =>
  Math.min(vehicles, SHOPS[experience]);

function work({ world: name, experience: known, vehicles, seed, shop }: Job): Result {
  const world = worldNamed(name);
  const shops = shopsFor(known, vehicles);
  const bound = (index: number) => Math.round((index * vehicles) / shops);
  const fleet = simulate(world, vehicles, seed).slice(bound(shop), bound(shop + 1));
  const [experience, fitMs] = timed(() => experienceOf(world, known, seedOfShop(seed, shop)));
  const service = serviceForecaster(experience);
  let outlookMs = 0;
  const forecast: Forecaster = (history) => {
    const [crossing, ms] = timed(() => service(history));
    outlookMs += ms;
    return crossing;
  };
  const cases = forecastAll(fleet, forecast, { experience, shop });
  return { cases, fitMs, outlookMs };
}

/** The vehicles that a shop learned from have seeds of their own. */
const seedOfShop = (seed: number, shop: number): number => 1_000 * seed + 1 + shop;

/** Processor time rather than time on the clock, so that what else runs beside the bench does not matter. */
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
      experience: { type: 'string', default: EXPERIENCES.join() },
      vehicles: { type: 'string', default: '300' },
      seed: { type: 'string', default: '1' },
      fresh: { type: 'boolean', default: false },
      write: { type: 'boolean', default: false },
    },
  });
  const names = WORLDS.map(({ name }) => name);
  return {
    worlds: (values.world?.split(',') ?? names).map((name) => oneOf('world', names, name)),
    experiences: values.experience.split(',').map((name) => oneOf('experience', EXPERIENCES, name)),
    vehicles: wholeNumber('vehicles', values.vehicles),
    seed: wholeNumber('seed', values.seed),
    fresh: values.fresh,
    write: values.write,
  };
}

async function main(): Promise<void> {
  const { worlds, experiences, vehicles, seed, fresh, write } = readOptions();
  const keeper = resultKeeper<Job, Result>('data/calibration', import.meta.dirname);
  const jobs = worlds.flatMap((world) =>
    experiences.flatMap((experience) =>
      Array.from({ length: shopsFor(experience, vehicles) }, (_, shop): Job => ({
        world,
        experience,
        vehicles,
        seed,
        shop,
      })),
    ),
  );
  const finished: Finished[] = [];
  const waiting = jobs.filter((job) => {
    const kept = fresh ? null : keeper.find(job);
    if (kept) finished.push({ job, result: kept });
    return !kept;
  });
  const total = waiting.length;
  let done = 0;
  await shareOut<Job, Result>(import.meta.filename, waiting, (job, result) => {
    keeper.keep(job, result);
    finished.push({ job, result });
    done += 1;
    process.stderr.write(
      `${done} of ${total}: ${job.world}, ${job.experience}, shop ${job.shop + 1}, fit ${(result.fitMs / 1000).toFixed(1)} s, ${result.cases.length} outlooks ${(result.outlookMs / 1000).toFixed(1)} s\n`,
    );
  });
  const text = calibrationReport(
    { worlds: worlds.map(worldNamed), experiences, vehicles, seed, learnSeed: seedOfShop(seed, 0) },
    finished,
  );
  console.log(text);
  if (write) writeSection('calibration', text);
}

if (isWorker) serveJobs(work);
else await main();
