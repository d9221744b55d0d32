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
        summary: 'Read how many parts will be needed by month',
        description:
          'By calendar month from the current one, fleet, model and axle: how many sets of linings and pairs of rotors or drums. A set of linings counts in the month in which the first of the axle reaches its governing limit, with the chance of that; what may have been reached already, and all of it where a reading fails, in the first month. Rotors and drums count with the set of linings that they would not outlast, in the month in which they reach their own limit where that comes first, and in the first month where they are to go now. A month’s figures do not depend on how many months are asked for. `expected` is the sum of the chances, `low` and `high` are 10 % and 90 % points of the number, as if the axles wore out independently of one another; where many share a season or a change of work, the truth spreads wider. An axle counts for one set at most: that the set which follows wears out within these months too is left out. Vehicles out of service count for nothing. Never paged.',
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
              description: 'Calendar months, the current one included.',
              example: 3,
            },
          ),
          fleet: fleetQuery,
          format: csvOrJson,
        }),
        response: {
          200: {
            description: 'The parts that will be needed.',
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
