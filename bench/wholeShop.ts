import { parseArgs } from 'node:util';
import { streams } from '../seed/random.js';
import { recordOf } from '../src/core/assessment/record.js';
import { groupOf, STARTING, type KnownExperience } from '../src/core/assessment/whichExperience.js';
import { fitExperience } from '../src/core/forecast/fit.js';
import type { History } from '../src/core/history.js';
import { isWorker, serveJobs, shareOut } from '../src/processes.js';
import { resultCache } from './resultCache.js';
import { writeSection } from './markdown.js';
import { oneOf, wholeNumber } from './options.js';
import { simulateShop } from './shopHistory.js';
import { ODD_SHOP, WHOLE_SHOP } from './shopLife.js';
import { worstWords } from './wholeShopWorst.js';
import { wholeShopReport } from './wholeShopReport.js';
import { forecastShop, type ShopCase } from './wholeShopScores.js';

/**
 * Scores the service's forecasts in one shop with every kind of messy record: used cars, sets replaced elsewhere or
 * without a record, slides that begin to stick, standstills, wrong odometer readings (`bench/shopLife.ts`,
 * `bench/shopHistory.ts`). Each forecast is compared with the day on which the present set would reach its limit if it
 * stayed on, and with a forecast from the same truth with everything recorded. The scores are by kind of hidden truth.
 *
 *   npm run bench:whole-shop -- [--shop whole] [--vehicles 600] [--experience 0,10,100] [--seed 1] [--worst 5]
 *     [--fresh] [--write]
 *
 * `--shop odd` adds oddities, each in a tenth of the vehicles: half-yearly use, pads thicker than specified, the rear's
 * readings recorded as the front's, one disc, one pad read. `--experience` is the number of other vehicles of the shop,
 * under way, that it has learned from; 0 has the starting values. The vehicles are split over several shops, each with
 * a fit of its own. Finished pieces are cached in data/whole-shop until the code changes; `--fresh` recomputes them.
 * `--worst` prints the forecasts that were furthest off, by kind, with what was known. `--write` puts the tables into
 * docs/calibration.md.
 */

/** Vehicles that one job forecasts. */
const PIECE = 50;
/** Jobs with the same experience share a fit. */
const MAX_FITS = 3;

/** Shops by name. */
export const SHOPS = { whole: WHOLE_SHOP, odd: ODD_SHOP };
export type ShopName = keyof typeof SHOPS;

export interface ShopJob {
  shop: ShopName;
  experience: number;
  vehicles: number;
  seed: number;
  piece: number;
}

export interface ShopResult {
  cases: ShopCase[];
  fitMs: number;
  outlookMs: number;
}

/** Vehicles to learn from have other seeds, one for each fit. */
const learnSeed = (seed: number, fit: number): number => 1_000 * seed + 1 + fit;

const fitted = new Map<string, KnownExperience>();

/** A shop's experience from this many vehicles, each seen up to one of its visits. */
function experienceFrom(shop: ShopName, vehicles: number, seed: number): KnownExperience {
  if (vehicles === 0) return STARTING;
  const key = `${shop} ${vehicles} ${seed}`;
  const known = fitted.get(key);
  if (known) return known;
  const cuts = streams(seed + 500_000, vehicles);
  const records = simulateShop(vehicles, seed, SHOPS[shop]).map(({ history }, index) => {
    const { vehicle, visits }: History = history;
    const seen = { vehicle, visits: visits.slice(0, cuts[index]!.whole(1, Math.max(1, visits.length))) };
    return recordOf(seen, groupOf(vehicle));
  });
  const made = { version: 1, fitted: fitExperience(records) };
  fitted.set(key, made);
  return made;
}

function work({ shop, experience, vehicles, seed, piece }: ShopJob): ShopResult {
  const fleet = simulateShop(vehicles, seed, SHOPS[shop]).slice(piece * PIECE, (piece + 1) * PIECE);
  const [known, fitMs] = timed(() => experienceFrom(shop, experience, learnSeed(seed, piece % MAX_FITS)));
  const [cases, outlookMs] = timed(() => forecastShop(fleet, known));
  const numbered = cases.map((each) => ({ ...each, vehicle: each.vehicle + piece * PIECE }));
  return { cases: numbered, fitMs, outlookMs };
}

/** Processor time instead of wall-clock time, so that other load on the machine does not matter. */
function timed<Value>(act: () => Value): [value: Value, ms: number] {
  const before = process.cpuUsage();
  const value = act();
  const { user, system } = process.cpuUsage(before);
  return [value, (user + system) / 1000];
}

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      shop: { type: 'string', default: 'whole' },
      worst: { type: 'string', default: '0' },
      vehicles: { type: 'string', default: '600' },
      experience: { type: 'string', default: '0,10,100' },
      seed: { type: 'string', default: '1' },
      fresh: { type: 'boolean', default: false },
      write: { type: 'boolean', default: false },
    },
  });
  const shop = oneOf('shop', Object.keys(SHOPS) as ShopName[], values.shop);
  const worst = wholeNumber('worst', values.worst, 0);
  const vehicles = wholeNumber('vehicles', values.vehicles);
  const seed = wholeNumber('seed', values.seed);
  const experiences = values.experience.split(',').map((value) => wholeNumber('experience', value, 0));
  const cache = resultCache<ShopJob, ShopResult>('data/whole-shop', import.meta.dirname);
  const jobs = experiences.flatMap((experience) =>
    Array.from({ length: Math.ceil(vehicles / PIECE) }, (_, piece) => ({
      shop,
      experience,
      vehicles,
      seed,
      piece,
    })),
  );
  const finished: { job: ShopJob; result: ShopResult }[] = [];
  const waiting = jobs.filter((job) => {
    const cached = values.fresh ? null : cache.find(job);
    if (cached) finished.push({ job, result: cached });
    return !cached;
  });
  await shareOut<ShopJob, ShopResult>(import.meta.filename, waiting, (job, result) => {
    cache.save(job, result);
    finished.push({ job, result });
    process.stderr.write(
      `${finished.length} of ${jobs.length}: experience ${job.experience}, piece ${job.piece + 1}, fit ${(result.fitMs / 1000).toFixed(1)} s, ${result.cases.length} forecasts ${(result.outlookMs / 1000).toFixed(1)} s\n`,
    );
  });
  const text = wholeShopReport({ shop, vehicles, experiences, seed }, finished);
  console.log(text);
  if (worst > 0) console.log(worstWords(simulateShop(vehicles, seed, SHOPS[shop]), finished, worst));
  if (values.write) writeSection(`${shop}-shop`, text);
}

if (isWorker) serveJobs(work);
else await main();
