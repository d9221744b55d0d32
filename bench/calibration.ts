import { parseArgs } from 'node:util';
import { startingExperience, type Experience } from '../src/core/forecast/experience.js';
import { idealExperience } from './ideal.js';
import { forecastAll, score, serviceForecaster, type Case, type Forecaster, type Score } from './scores.js';
import { simulate, WORLDS, type World } from './worlds.js';

/**
 * Scores the service's forecasts against simulated fleets whose truth is known: made at every visit, held against the
 * day on which the first pad truly reached its limit, and against what a workshop would work out by hand.
 *
 *   npm run bench:calibration -- [--vehicles 300] [--worlds coarse,fine] [--experience starting,ideal] [--seed 1]
 */

const EXPERIENCES: Record<string, (world: World) => Experience> = {
  starting: ({ regenerative }) => startingExperience({ steeredOrFront: true, regenerative }),
  ideal: idealExperience,
};

interface Options {
  vehicles: number;
  seed: number;
  worlds: readonly World[];
  experiences: string[];
}

function readOptions(): Options {
  const { values } = parseArgs({
    options: {
      vehicles: { type: 'string', default: '300' },
      seed: { type: 'string', default: '1' },
      worlds: { type: 'string' },
      experience: { type: 'string', default: 'starting' },
    },
  });
  const named = values.worlds?.split(',') ?? WORLDS.map(({ name }) => name);
  return {
    vehicles: wholeNumber('vehicles', values.vehicles),
    seed: wholeNumber('seed', values.seed),
    worlds: named.map((name) => oneOf('world', WORLDS, name)),
    experiences: values.experience
      .split(',')
      .map((name) => oneOf('experience', Object.keys(EXPERIENCES), name)),
  };
}

function wholeNumber(option: string, value: string): number {
  const number = Number(value);
  if (!Number.isInteger(number) || number < 1) throw new Error(`--${option} must be a whole number from 1`);
  return number;
}

function oneOf<Choice extends string | { name: string }>(
  what: string,
  choices: readonly Choice[],
  name: string,
): Choice {
  const nameOf = (choice: Choice) => (typeof choice === 'string' ? choice : choice.name);
  const found = choices.find((choice) => nameOf(choice) === name);
  if (!found) throw new Error(`no ${what} ${name}; there are ${choices.map(nameOf).join(', ')}`);
  return found;
}

const COLUMNS: [heading: string, cell: (score: Score) => string][] = [
  ['cases', ({ cases }) => String(cases)],
  ['50 %', ({ covered50 }) => percent(covered50)],
  ['80 %', ({ covered80 }) => percent(covered80)],
  ['± s.e.', ({ covered80Se }) => percent(covered80Se)],
  ['95 %', ({ covered95 }) => percent(covered95)],
  ['before', ({ tooLate }) => percent(tooLate)],
  ['after', ({ tooEarly }) => percent(tooEarly)],
  ['error', ({ error }) => error.toFixed(0)],
  ['CRPS', ({ crps }) => crps.toFixed(0)],
  ['/2-point', ({ againstTwoPoint }) => againstTwoPoint.toFixed(2)],
  ['/line', ({ againstLine }) => againstLine.toFixed(2)],
  ['/oracle', ({ againstOracle }) => againstOracle.toFixed(2)],
  ['no date', ({ withoutMedian }) => percent(withoutMedian)],
];

const percent = (share: number): string => (100 * share).toFixed(1);

const NAME_WIDTH = 16;
const CELL_WIDTH = 9;

function printHeading(title: string): void {
  console.log(`\n${title}`);
  console.log(''.padEnd(NAME_WIDTH) + COLUMNS.map(([heading]) => heading.padStart(CELL_WIDTH)).join(''));
}

function printRow(name: string, cases: readonly Case[]): void {
  if (cases.length === 0) return;
  const result = score(cases);
  console.log(
    name.padEnd(NAME_WIDTH) + COLUMNS.map(([, cell]) => cell(result).padStart(CELL_WIDTH)).join(''),
  );
}

/** By what was known when the forecast was made. */
const STAGES: [name: string, holds: (each: Case) => boolean][] = [
  ['1 visit', ({ visits }) => visits === 1],
  ['2 visits', ({ visits }) => visits === 2],
  ['3 visits', ({ visits }) => visits === 3],
  ['4 or more', ({ visits }) => visits >= 4],
];

/** Counts the processor time that its forecasts take, ms, so that what else runs beside the bench does not matter. */
class Stopwatch {
  #spentMs = 0;
  #calls = 0;

  time(forecast: Forecaster): Forecaster {
    return (history) => {
      const before = process.cpuUsage();
      const result = forecast(history);
      const { user, system } = process.cpuUsage(before);
      this.#spentMs += (user + system) / 1000;
      this.#calls += 1;
      return result;
    };
  }

  toString(): string {
    return `${this.#calls} outlooks, ${(this.#spentMs / this.#calls).toFixed(2)} ms each`;
  }
}

function run({ vehicles, seed, worlds, experiences }: Options): void {
  const fleets = worlds.map((world) => ({ world, fleet: simulate(world, vehicles, seed) }));
  for (const experience of experiences) {
    const stopwatch = new Stopwatch();
    const results = fleets.map(({ world, fleet }) => {
      const known = EXPERIENCES[experience]!(world);
      return { world, cases: forecastAll(fleet, stopwatch.time(serviceForecaster(() => known))) };
    });
    printHeading(`${vehicles} vehicles a world, seed ${seed}, experience: ${experience}`);
    for (const { world, cases } of results) printRow(world.name, cases);
    for (const { world, cases } of results) {
      printHeading(`${world.name}: ${world.words}`);
      for (const [name, holds] of STAGES) printRow(name, cases.filter(holds));
    }
    console.log(`\n${stopwatch}`);
  }
}

run(readOptions());
