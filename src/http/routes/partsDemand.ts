import { z } from 'zod';
import { demandWords } from '../../core/planning/demandWords.js';
import { monthsFrom } from '../../core/planning/demand.js';
import { PartsDemand } from '../../core/vocabulary/planning.js';
import { partsDemandCsv } from '../../render/csv.js';
import { EVERYONE } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { listProblems } from '../problems.js';
import {
  csvOrJson,
  CSV_CONTENT_TYPE,
  csvContent,
  fleetQuery,
  numberQuery,
  wholeNumberText,
} from '../schemas.js';

const DEFAULT_MONTHS = 6;
const MAX_MONTHS = 24;

const totals: PartsDemand['totals'] = [
  { month: '2026-03', item: 'pad-set', expected: 2.412, low: 1, high: 4 },
  { month: '2026-03', item: 'rotor-pair', expected: 0.73, low: 0, high: 2 },
];
const counts = { axles: 11, rotorsUnknownCount: 0, unassessedCount: 1 };
const example: PartsDemand = {
  today: '2026-03-05',
  words: demandWords(['2026-03'], totals, counts),
  ...counts,
  totals,
  items: totals.map((total) => ({
    ...total,
    fleet: 'north-depot',
    model: 'parcel-van-3t5',
    axle: 'front' as const,
  })),
  nextCursor: null,
};

export async function partsDemandRoutes(app: ZodServer, { store, today }: RouteContext): Promise<void> {
  app.get(
    '/reports/parts-demand',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getPartsDemand',
        summary: 'Get the parts needed by month',
        description:
          'The number of lining sets and of rotor or drum pairs needed, by calendar month from the current one, fleet, model and axle. A set of linings counts in the month in which the axle’s first lining reaches its governing limit, weighted by the chance of that. The first month also counts the chance that the limit has already been reached, and the whole set if a reading fails. Rotors and drums count together with the linings that they would not outlast, or earlier, in the month in which they reach their own limit. Those to be replaced now count in the first month. A month’s figures do not depend on how many months are requested. `expected` is the sum of the chances. `low` and `high` are the 10 % and 90 % points of the number, if axles wear out independently. If many vehicles share a season or a change of work, the true spread is wider. Each axle counts at most one set, even if the next set could wear out within these months. Vehicles out of service are not counted. The answer is not paged.',
        tags: ['reports'],
        querystring: z.strictObject({
          months: numberQuery(
            wholeNumberText(2, `must be a whole number from 1 to ${MAX_MONTHS}`).refine(
              (months) => months >= 1 && months <= MAX_MONTHS,
              `must be from 1 to ${MAX_MONTHS}`,
            ),
            {
              type: 'integer',
              minimum: 1,
              maximum: MAX_MONTHS,
              default: DEFAULT_MONTHS,
              description: 'The number of calendar months, including the current one.',
              example: 3,
            },
          ),
          fleet: fleetQuery,
          format: csvOrJson,
        }),
        response: {
          200: {
            description: 'The parts needed.',
            content: { 'application/json': { schema: PartsDemand, example }, ...csvContent },
          },
          ...listProblems,
        },
      },
    },
    async (request, reply) => {
      const { months = DEFAULT_MONTHS, fleet = null, format } = request.query;
      const date = today();
      const query = { today: date, months, fleet };
      const demand = await store.reports.partsDemand(request.caller, query);
      if (format === 'csv') return reply.type(CSV_CONTENT_TYPE).send(partsDemandCsv(demand.items));
      const words = demandWords(monthsFrom(date, months), demand.totals, demand);
      return { today: date, words, ...demand, nextCursor: null };
    },
  );
}
