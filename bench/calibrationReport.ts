import { missesOf, verdict } from './bars.js';
import type { Job, Result } from './calibration.js';
import { isFitted, type ExperienceName, type Lives } from './experiences.js';
import { markdownTable } from './markdown.js';
import { dateScore, errorAgainst, mean, readingScore, type Case, type DateScore } from './scores.js';
import { barOf, LIMIT_MM, NEW_MM, type World } from './worlds.js';

export interface Finished {
  job: Job;
  result: Result;
}

export interface Run {
  worlds: readonly World[];
  experiences: readonly ExperienceName[];
  lives: readonly Lives[];
  vehicles: number;
  seed: number;
  /** Seed of the vehicles that the first shop learned from; the others continue from it. */
  learnSeed: number;
}

/** The whole report, in Markdown. */
export function calibrationReport(run: Run, finished: readonly Finished[]): string {
  const { worlds, experiences, lives, vehicles, seed, learnSeed } = run;
  const ms = finished.reduce((sum, { result }) => sum + result.fitMs + result.outlookMs, 0);
  const command = `npm run bench:calibration -- --world ${worlds.map(({ name }) => name).join()} --experience ${experiences.join()} --lives ${lives.join()} --vehicles ${vehicles} --seed ${seed}`;
  return [
    `\`${command}\``,
    `${vehicles} vehicles per world with seed ${seed}; the vehicles to learn from have seeds from ${learnSeed} on. Node ${process.versions.node}, ${(ms / 60_000).toFixed(1)} minutes of processor time for fits and outlooks.`,
    '### The worlds',
    worldTable(worlds),
    `Pads wear from ${NEW_MM} mm to ${LIMIT_MM} mm. Rates in mm per 1000 km and paces in km a day are medians; “±” is the standard deviation of the logarithm over the vehicles; for a pad it is the standard deviation of its rate about its axle's, as a share.`,
    ...lives.flatMap((each) => [`### ${TITLES[each]}`, worldsReport(run, each, finished)]),
    '### By what was known, over all worlds',
    stageReport(run, finished),
    speedWords(finished),
  ].join('\n\n');
}

const TITLES: Record<Lives, string> = {
  complete: 'Learned from complete lives',
  'under-way': 'Learned from lives under way, as a shop has them',
};

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

/** The forecasts of one world with one experience, beside those with the next smaller experience. */
interface Line {
  world: World;
  experience: ExperienceName;
  cases: readonly Case[];
  less: readonly Case[] | null;
  jumps: readonly number[];
  score: DateScore;
}

function worldsReport({ worlds, experiences }: Run, lives: Lives, finished: readonly Finished[]): string {
  const lines = worlds.flatMap((world) => {
    let less: readonly Case[] | null = null;
    return experiences.flatMap((experience): Line[] => {
      const own = finished.filter(
        ({ job }) =>
          job.world === world.name &&
          job.experience === experience &&
          (job.lives === lives || !isFitted(experience)),
      );
      const cases = own.flatMap(({ result }) => result.cases);
      if (cases.length === 0) return [];
      const jumps = own.flatMap(({ result }) => result.jumpPerMm ?? []);
      const line = { world, experience, cases, less, jumps, score: dateScore(cases) };
      less = cases;
      return [line];
    });
  });
  return tableOf(COLUMNS, lines);
}

const percent = (share: number): string => (100 * share).toFixed(1);
const tenths = (shares: readonly number[]): string =>
  shares.map((share) => (100 * share).toFixed(0)).join(' ');

const COLUMNS: readonly Column<Line>[] = [
  ['world', ({ world }) => world.name],
  ['learned from', ({ experience }) => experience],
  ['forecasts', ({ cases }) => cases.length],
  ['80 %', ({ score }) => percent(score.covered80)],
  ['±', ({ score }) => percent(score.seByVehicle)],
  ['before early', ({ score }) => percent(score.early)],
  ['after late', ({ score }) => percent(score.late)],
  ['error, days', ({ score }) => score.error.toFixed(0)],
  ['/two-point', ({ score }) => score.againstTwoPoint.toFixed(2)],
  ['/line', ({ score }) => score.againstLine.toFixed(2)],
  ['/oracle', ({ score }) => score.againstOracle.toFixed(2)],
  ['CRPS, days', ({ score }) => score.crps.toFixed(0)],
  ['/less known', lessKnown],
  ['changes per mm, most', ({ jumps }) => jumpWords(jumps)],
  ['reading 80 %', ({ cases }) => percent(readingScore(cases).covered80)],
  ['bar', barWords],
];

function lessKnown({ cases, less }: Line): string {
  if (!less) return '';
  const { ratio, se } = errorAgainst(cases, less);
  return `${ratio.toFixed(3)} ±${se.toFixed(3)}`;
}

const jumpWords = (jumps: readonly number[]): string =>
  jumps.length === 0 ? '' : `${mean(jumps).toFixed(2)}, ${Math.max(...jumps).toFixed(2)}`;

/** Standard errors beyond which more experience counts as worse than less. */
const WORSE = 2;

function barWords({ world, experience, cases, less, score }: Line): string {
  const bar = experience === 'ideal' ? null : barOf(world, isFitted(experience) ? Number(experience) : 0);
  if (!bar) return '';
  const { covered80, early, late, againstTwoPoint, againstLine } = score;
  const misses = missesOf(
    { covers: 100 * covered80, early: 100 * early, late: 100 * late, againstTwoPoint, againstLine },
    bar,
  );
  const { ratio, se } = less ? errorAgainst(cases, less) : { ratio: 1, se: 0 };
  const worse = ratio - 1 > WORSE * se ? [`worse than with less by ${percent(ratio - 1)} %`] : [];
  return verdict([...misses, ...worse]);
}

/** By what was known about the vehicle when the forecast was made. */
const STAGES: readonly [name: string, holds: (each: Case) => boolean][] = [
  ['all', () => true],
  ['after 1 visit', ({ visits }) => visits === 1],
  ['after 2', ({ visits }) => visits === 2],
  ['after 3', ({ visits }) => visits === 3],
  ['after 4 or more', ({ visits }) => visits >= 4],
];

function stageReport({ experiences }: Run, finished: readonly Finished[]): string {
  const rows = experiences.flatMap((experience) => {
    const all = finished.flatMap(({ job, result }) => (job.experience === experience ? result.cases : []));
    return STAGES.flatMap(([stage, holds]) => {
      const cases = all.filter(holds);
      return cases.length > 0 ? [{ experience, stage, cases, score: dateScore(cases) }] : [];
    });
  });
  return tableOf(
    [
      ['learned from', ({ experience }) => experience],
      ['forecast', ({ stage }) => stage],
      ['forecasts', ({ cases }) => cases.length],
      ['50 %', ({ score }) => percent(score.covered50)],
      ['80 %', ({ score }) => percent(score.covered80)],
      ['95 %', ({ score }) => percent(score.covered95)],
      ['error, days', ({ score }) => score.error.toFixed(0)],
      ['/two-point', ({ score }) => score.againstTwoPoint.toFixed(2)],
      ['/line', ({ score }) => score.againstLine.toFixed(2)],
      ['CRPS, days', ({ score }) => score.crps.toFixed(0)],
      ['no date', ({ score }) => percent(score.noMedian)],
      ['% in each tenth', ({ score }) => tenths(score.tenths)],
      ['readings, % in each tenth', ({ cases }) => tenths(readingScore(cases).tenths)],
    ],
    rows,
  );
}

function speedWords(finished: readonly Finished[]): string {
  const ms = finished.reduce((sum, { result }) => sum + result.outlookMs, 0);
  const cases = finished.reduce((sum, { result }) => sum + result.cases.length, 0);
  const fits = finished
    .filter(({ job }) => isFitted(job.experience))
    .map(({ result }) => result.fitMs / 1000);
  const fitted =
    fits.length > 0
      ? ` ${fits.length} fits took ${mean(fits).toFixed(1)} s of processor time each, at most ${Math.max(...fits).toFixed(1)} s.`
      : '';
  return `An outlook took ${(ms / cases).toFixed(2)} ms of processor time.${fitted}`;
}
