import { Readable } from 'node:stream';
import { z } from 'zod';
import { rowsOf } from '../../core/spreadsheet/rows.js';
import { EXAMPLE_VEHICLE } from '../../core/vocabulary/vehicle.js';
import { sheetHeader, sheetRows } from '../../render/csv.js';
import type { Role } from '../../core/vocabulary/terms.js';
import { CSV_TYPE, JSON_LINES } from '../bodies.js';
import type { RouteContext, ZodServer } from '../context.js';
import { EXAMPLE_SPREADSHEET } from '../examples.js';
import { listProblems } from '../problems.js';
import { CSV_CONTENT_TYPE } from '../schemas.js';

const OWNER: readonly Role[] = ['owner'];

const fileAnswer = (type: string, description: string, example: string) => ({
  200: { description, content: { [type]: { schema: z.string(), example } } },
  ...listProblems,
});

export async function exportRoutes(app: ZodServer, { store }: RouteContext): Promise<void> {
  async function* visits(): AsyncGenerator<string> {
    yield sheetHeader();
    for await (const page of store.exports.visits()) {
      yield sheetRows(page.flatMap(({ visit, name, number }) => rowsOf(visit, name, number)));
    }
  }

  async function* vehicles(): AsyncGenerator<string> {
    for await (const page of store.exports.vehicles()) {
      yield page.map((body) => `${JSON.stringify(body)}\n`).join('');
    }
  }

  app.get(
    '/exports/visits',
    {
      config: { roles: OWNER },
      schema: {
        operationId: 'exportVisits',
        summary: 'Export every visit',
        description:
          'A spreadsheet that POST /v1/imports/visits accepts. If you import it into an empty database that has the exported vehicles, the next export is identical byte for byte.',
        tags: ['exports'],
        response: fileAnswer(CSV_TYPE, 'The spreadsheet, RFC 4180.', EXAMPLE_SPREADSHEET),
      },
    },
    async (_request, reply) =>
      reply
        .type(CSV_CONTENT_TYPE)
        .header('content-disposition', 'attachment; filename="visits.csv"')
        .send(Readable.from(visits()) as never),
  );

  app.get(
    '/exports/vehicles',
    {
      config: { roles: OWNER },
      schema: {
        operationId: 'exportVehicles',
        summary: 'Export every vehicle',
        description: 'JSON Lines, one vehicle per line, in the form that POST /v1/imports/vehicles accepts.',
        tags: ['exports'],
        response: fileAnswer(JSON_LINES, 'The vehicles.', `${JSON.stringify(EXAMPLE_VEHICLE)}\n`),
      },
    },
    async (_request, reply) =>
      reply
        .type(JSON_LINES)
        .header('content-disposition', 'attachment; filename="vehicles.jsonl"')
        .send(Readable.from(vehicles()) as never),
  );
}
