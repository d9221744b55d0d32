import type { Job, Result } from './calibration.js';
import type { ExperienceName } from './experiences.js';
import { markdownTable } from './markdown.js';
import { dateScore, readingScore, type Case, type DateScore } from './scores.js';
import { LIMIT_MM, NEW_MM, type World } from './worlds.js';

export interface Finished {
  job: Job;
  result: Result;
}

export interface Run {
  worlds: readonly World[];
  experiences: readonly ExperienceName[];
  vehicles: number;
  seed: number;
  /** Seed of the vehicles that the first shop learned from; the others count on from it. */
  learnSeed: number;
}

/** The whole report, in Markdown. */
export function calibrationReport(run: Run, finished: readonly Finished[]): string {
  const { worlds, experiences, vehicles, seed, learnSeed } = run;
  const ms = finished.reduce((sum, { result }) => sum + result.fitMs + result.outlookMs, 0);
  const command = `npm run bench:calibration -- --world ${worlds.map(({ name }) => name).join()} --experience ${experiences.join()} --vehicles ${vehicles} --seed ${seed}`;
  return [
    `\`${command}\``,
    `${vehicles} vehicles a world with seed ${seed}; those that a fit learned from have seeds from ${learnSeed} on. Node ${process.versions.node}, ${(ms / 60_000).toFixed(1)} minutes of processor time for fits and outlooks.`,
    '### The worlds',
    worldTable(worlds),
    `Pads wear from ${NEW_MM} mm to ${LIMIT_MM} mm. Rates in mm per 1000 km and paces in km a day are medians; “±” is the standard deviation of the logarithm over the vehicles, of a pad about its axle a share.`,
    ...experiences.flatMap((experience) => experienceReport(experience, worlds, finished)),
  ].join('\n\n');
}

function worldTable(worlds: readonly World[]): string {
  const columns: [heading: string, cell: (world: World) => string | number][] = [
    ['world', ({ name }) => name],
    ['in words', ({ words }) => words],
    ['rate ±', ({ rate, rateSpread }) => `${rate} ±${rateSpread}`],
    ['pad ±', ({ partSpread }) => partSpread],
    ['inner/outer', ({ innerOuter }) => innerOuter],
    ['fast axles', ({ fastAxles, fastFactor }) => `${fastAxles} ×${fastFactor}`],
    ['wander, mm', ({ wander }) => wander],
    ['changes', ({ changes, changeSize }) => `${changes} ±${changeSize}`],
    ['pace ±', ({ pace, paceSpread }) => `${pace} ±${paceSpread}`],
    ['day to day', ({ dayToDay }) => dayToDay],
    ['season', ({ season }) => season],
    ['correlation', ({ correlation }) => correlation],
    ['start, mm', ({ startSd }) => startSd],
    ['placement, mm', ({ placement }) => placement],
    ['gauge', ({ gauge }) => gauge],
    ['misread', ({ misreadings }) => misreadings],
    ['missing', ({ missing }) => missing],
  ];
  return tableOf(columns, worlds);
}

type Column<Row> = readonly [heading: string, cell: (row: Row) => string | number];

const tableOf = <Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string =>
  markdownTable(
    columns.map(([heading]) => heading),
    rows.map((row) => columns.map(([, cell]) => String(cell(row)))),
  );

const WORDS: Record<ExperienceName, string> = {
  starting: 'no experience: the starting values',
  ideal: 'the fleet’s true parameters',
  3: 'a fit to 3 vehicles',
  10: 'a fit to 10 vehicles',
  30: 'a fit to 30 vehicles',
  100: 'a fit to 100 vehicles',
};

function experienceReport(
  experience: ExperienceName,
  worlds: readonly World[],
  finished: readonly Finished[],
): string[] {
  const own = finished.filter(({ job }) => job.experience === experience);
  const byWorld = worlds.map(({ name }) => ({
    name,
    cases: own.filter(({ job }) => job.world === name).flatMap(({ result }) => result.cases),
  }));
  const all = byWorld.flatMap(({ cases }) => cases);
  const stages = STAGES.map(([name, holds]) => ({ name, cases: all.filter(holds) }));
  return [
    `### Experience: ${WORDS[experience]}`,
    ...(Number(experience) > 0 ? [fitWords(own)] : []),
    'The date on which the first pad reached its limit:',
    tableOf(DATE_COLUMNS, [...byWorld, ...stages].filter(hasCases).map(withDateScore)),
    'The readings of the next visit:',
    tableOf(READING_COLUMNS, byWorld.filter(hasCases).map(withReadingScore)),
    speedWords(own),
  ];
}

/** By what was known when the forecast was made, over all worlds. */
const STAGES: readonly [name: string, holds: (each: Case) => boolean][] = [
  ['after 1 visit', ({ visits }) => visits === 1],
  ['after 2', ({ visits }) => visits === 2],
  ['after 3', ({ visits }) => visits === 3],
  ['after 4 or more', ({ visits }) => visits >= 4],
];

interface Group {
  name: string;
  cases: readonly Case[];
}

const hasCases = ({ cases }: Group): boolean => cases.length > 0;
const withDateScore = ({ name, cases }: Group) => ({ name, score: dateScore(cases) });
const withReadingScore = ({ name, cases }: Group) => ({ name, score: readingScore(cases) });

const percent = (share: number): string => (100 * share).toFixed(1);
const tenths = (shares: readonly number[]): string =>
  shares.map((share) => (100 * share).toFixed(0)).join(' ');

const DATE_COLUMNS: readonly Column<{ name: string; score: DateScore }>[] = [
  ['world', ({ name }) => name],
  ['cases', ({ score }) => score.cases],
  ['50 %', ({ score }) => percent(score.covered50)],
  ['80 %', ({ score }) => percent(score.covered80)],
  ['± vehicles', ({ score }) => percent(score.seByVehicle)],
  ['± shops', ({ score }) => percent(score.seByShop)],
  ['95 %', ({ score }) => percent(score.covered95)],
  ['before 10 %', ({ score }) => percent(score.early)],
  ['after 90 %', ({ score }) => percent(score.late)],
  ['error, days', ({ score }) => score.error.toFixed(0)],
  ['/two-point', ({ score }) => score.againstTwoPoint.toFixed(2)],
  ['/line', ({ score }) => score.againstLine.toFixed(2)],
  ['/oracle', ({ score }) => score.againstOracle.toFixed(2)],
  ['CRPS, days', ({ score }) => score.crps.toFixed(1)],
  ['no date', ({ score }) => percent(score.noMedian)],
  ['% in each tenth', ({ score }) => tenths(score.tenths)],
];

const READING_COLUMNS: readonly Column<ReturnType<typeof withReadingScore>>[] = [
  ['world', ({ name }) => name],
  ['readings', ({ score }) => score.readings],
  ['50 %', ({ score }) => percent(score.covered50)],
  ['80 %', ({ score }) => percent(score.covered80)],
  ['± vehicles', ({ score }) => percent(score.seByVehicle)],
  ['95 %', ({ score }) => percent(score.covered95)],
  ['CRPS, mm', ({ score }) => score.crps.toFixed(3)],
  ['% in each tenth', ({ score }) => tenths(score.tenths)],
];

function fitWords(own: readonly Finished[]): string {
  const seconds = own.map(({ result }) => result.fitMs / 1000);
  const mean = seconds.reduce((sum, each) => sum + each, 0) / seconds.length;
  return `${own.length} shops, ${mean.toFixed(1)} s of processor time a fit (at most ${Math.max(...seconds).toFixed(1)} s).`;
}

function speedWords(own: readonly Finished[]): string {
  const ms = own.reduce((sum, { result }) => sum + result.outlookMs, 0);
  const cases = own.reduce((sum, { result }) => sum + result.cases.length, 0);
  return `${(ms / cases).toFixed(2)} ms of processor time an outlook.`;
}
