import { markdownTable } from './markdown.js';
import type { ShopJob, ShopName, ShopResult } from './wholeShop.js';
import { missesOf, verdict, type Bar } from './bars.js';
import { KINDS, shopScore, type ShopScore } from './wholeShopScores.js';

interface Run {
  shop: ShopName;
  vehicles: number;
  experiences: readonly number[];
  seed: number;
}

/** The report in Markdown: a table for each experience, with a row for each kind of hidden truth. */
export function wholeShopReport(
  { shop, vehicles, experiences, seed }: Run,
  finished: readonly { job: ShopJob; result: ShopResult }[],
): string {
  const command = `npm run bench:whole-shop -- --shop ${shop} --vehicles ${vehicles} --experience ${experiences.join()} --seed ${seed}`;
  const ms = finished.reduce((sum, { result }) => sum + result.fitMs + result.outlookMs, 0);
  return [
    `\`${command}\``,
    `${(ms / 60_000).toFixed(1)} minutes of processor time for fits and forecasts.`,
    ...experiences.flatMap((experience) => {
      const cases = finished.flatMap(({ job, result }) =>
        job.experience === experience ? result.cases : [],
      );
      const rows = KINDS.flatMap(({ name, holds, bar }) => {
        const own = cases.filter(holds);
        return own.length > 0 ? [rowOf(name, shopScore(own), bar)] : [];
      });
      const from = experience === 0 ? 'no experience' : `experience from ${experience} vehicles under way`;
      return [`### The ${shop} shop, ${from}`, markdownTable(HEADINGS, rows)];
    }),
  ].join('\n\n');
}

const HEADINGS = [
  'kind of hidden truth',
  'forecasts',
  'vehicles',
  'covers, %',
  '±',
  'before early',
  'after late',
  'error, days',
  'two-point',
  'line',
  'clean twin',
  '/two-point',
  '/twin',
  'twin covers',
  'mean error',
  'no date',
  'bar',
];

function rowOf(name: string, score: ShopScore, bar: Bar | undefined): string[] {
  return [
    name,
    String(score.cases),
    String(score.vehicles),
    score.covers.toFixed(1),
    score.coversSe.toFixed(1),
    score.early.toFixed(1),
    score.late.toFixed(1),
    score.error.toFixed(0),
    score.twoPoint.toFixed(0),
    score.line.toFixed(0),
    score.twin.toFixed(0),
    score.againstTwoPoint.toFixed(2),
    score.againstTwin.toFixed(2),
    score.twinCovers.toFixed(1),
    score.meanError.toFixed(0),
    score.noDate.toFixed(1),
    bar ? verdict(missesOf(score, bar)) : '',
  ];
}
