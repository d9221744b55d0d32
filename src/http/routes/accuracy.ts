import { z } from 'zod';
import { itemAt } from '../../core/items.js';
import { Accuracy, PastForecast } from '../../core/vocabulary/accuracy.js';
import { Reason, wholeNumber } from '../../core/vocabulary/quantities.js';
import { forecastAccuracyCsv } from '../../render/csv.js';
import { EVERYONE } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { exampleAccuracy } from '../examples.js';
import { pagingQuery } from '../paging.js';
import { listProblems } from '../problems.js';
import { axleQuery, csvContent, CSV_CONTENT_TYPE, csvOrJson, fleetQuery, modelQuery } from '../schemas.js';
import { inWords } from '../../core/rounding.js';
import { countInWords } from '../../core/words.js';

const ForecastAccuracy = z
  .strictObject({
    ...Accuracy.shape,
    vehicles: wholeNumber.meta({ description: 'Vehicles whose past forecasts have been scored.' }),
    pendingVehicles: wholeNumber.meta({
      description: 'Vehicles not scored yet. Ask again later for complete figures.',
    }),
    reasons: z.array(Reason),
    total: wholeNumber.meta({ description: 'The number of past forecasts on all pages.' }),
    items: z.array(PastForecast),
    nextCursor: z.string().nullable(),
  })
  .meta({ id: 'ForecastAccuracy' });

const Position = z.tuple([z.string(), z.int(), z.int()]);

export async function accuracyRoutes(app: ZodServer, { store, paging }: RouteContext): Promise<void> {
  app.get(
    '/reports/forecast-accuracy',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getForecastAccuracy',
        summary: 'Get the accuracy of past forecasts',
        description:
          'The server repeats the forecast of each past visit from what was known then, and compares it with when the axle’s first pad reached its governing limit. It also compares each reading with its forecast from the visit before. A forecast uses no data from after its visit; its experience is the newest that was learned from earlier visits only. JSON has the accuracy figures and, as items, the forecasts, latest first. CSV has the forecasts only.',
        tags: ['reports'],
        querystring: z.strictObject({
          fleet: fleetQuery,
          model: modelQuery,
          axle: axleQuery,
          format: csvOrJson,
          ...pagingQuery,
        }),
        response: {
          200: {
            description: 'The accuracy of past forecasts.',
            content: {
              'application/json': { schema: ForecastAccuracy, example: exampleAccuracy },
              ...csvContent,
            },
          },
          ...listProblems,
        },
      },
    },
    async (request, reply) => {
      const { limit, cursor, format, ...filter } = request.query;
      const { fleet = null, model = null, axle = null } = filter;
      const query = { fleet, model, axle };
      const { caller } = request;
      if (format === 'csv') {
        const { items, pendingVehicles } = await store.accuracy.report(caller, query, null);
        // CSV has no place for these reasons, so a header carries them.
        return reply
          .type(CSV_CONTENT_TYPE)
          .header('pending-vehicles', pendingVehicles)
          .send(forecastAccuracyCsv(items));
      }
      const page = paging.readPage({ limit, cursor }, filter, Position);
      const report = await store.accuracy.report(caller, query, page);
      const { accuracy, vehicles, pendingVehicles, total, items, next } = report;
      const reasons = [...pendingReasons(report), ...sampleReasons(report)];
      return {
        ...accuracy,
        words: [...reasons.map(sentenceOf), accuracy.words].join(' '),
        vehicles,
        pendingVehicles,
        reasons,
        total,
        items,
        nextCursor: paging.nextCursor(next, filter),
      };
    },
  );
}

const sentenceOf = ({ detail }: Reason): string => `${itemAt(detail, 0).toUpperCase()}${detail.slice(1)}.`;

type Counts = Record<'vehicles' | 'pendingVehicles' | 'ofVehicles', number>;

function pendingReasons({ pendingVehicles }: Counts): Reason[] {
  if (pendingVehicles === 0) return [];
  const detail = `the past forecasts of ${countInWords(pendingVehicles, 'vehicle')} have not been scored yet and are left out; ask again later`;
  return [{ field: 'pendingVehicles', code: 'still-scoring', detail }];
}

function sampleReasons({ vehicles, pendingVehicles, ofVehicles }: Counts): Reason[] {
  const looked = vehicles + pendingVehicles;
  if (looked === ofVehicles) return [];
  const detail = `the server scores a fixed sample of ${inWords(looked)} of the ${countInWords(ofVehicles, 'vehicle')}`;
  return [{ field: 'vehicles', code: 'sample', detail }];
}
