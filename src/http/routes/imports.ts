import type { FastifyReply, FastifyRequest } from 'fastify';
import { Readable } from 'node:stream';
import { z } from 'zod';
import { itemAt } from '../../core/items.js';
import { Import } from '../../core/vocabulary/import.js';
import type { ImportKind } from '../../core/vocabulary/terms.js';
import { EXAMPLE_VEHICLE } from '../../core/vocabulary/vehicle.js';
import { DATE_FORMS } from '../../core/spreadsheet/dates.js';
import type { Keep } from '../../store/contract/idempotency.js';
import type { FilePiece, ImportStore } from '../../store/contract/imports.js';
import { STAFF } from '../auth.js';
import { CSV_TYPE, JSON_LINES } from '../bodies.js';
import type { RouteContext, ZodServer } from '../context.js';
import { etagOf, sendVersioned } from '../etag.js';
import { exampleImport, EXAMPLE_SPREADSHEET } from '../examples.js';
import { receiveFile, type ReceivedFile } from '../files.js';
import { keepFor, sendAnswer, type KeptAnswer } from '../idempotency.js';
import { listOf, pagingQuery } from '../paging.js';
import { HttpProblem, listProblems, postProblems, resourceProblems } from '../problems.js';
import {
  answerJson,
  flagQuery,
  idempotencyHeader,
  ifNoneMatchHeader,
  importParams,
  JSON_ANSWER,
  notModified,
} from '../schemas.js';
import { vehicleLines } from '../vehicleLines.js';
import { visitRows } from '../visitRows.js';
import { countInWords } from '../../core/words.js';

const MAX_BYTES = 200 * 2 ** 20;

const ImportList = listOf(Import, 'ImportList');
const ImportPosition = z.tuple([z.int()]);
const dryRunQuery = z.strictObject({
  dryRun: flagQuery('Checks the whole file and imports nothing.'),
});
const visitsQuery = dryRunQuery.extend({
  dates: z.enum(DATE_FORMS).optional().meta({
    description: 'The date format of the file. If missing, YYYY-MM-DD. The server never guesses the format.',
    example: 'DD.MM.YYYY',
  }),
});
const fileHeaders = idempotencyHeader.extend({
  prefer: z.string().optional().meta({
    description:
      'With `respond-async` (RFC 7240), the server answers 202 once it has received the file and imports it in the background.',
  }),
});
/** A schema cannot check the body, since it is a stream. */
const fileBody = (example: string, description: string) =>
  z.any().meta({ type: 'string', description, examples: [example] });
const importResponses = {
  200: answerJson(Import, 'A dry run without errors, or a file that added nothing.', {
    ...exampleImport,
    dryRun: true,
  }),
  201: answerJson(Import, 'The whole file was imported.', exampleImport),
  202: answerJson(
    Import,
    'The server has received the file and is importing it. `Location` holds the address of the import.',
    {
      ...exampleImport,
      state: 'receiving',
      finishedAt: null,
    },
  ),
  ...postProblems('bad-parameter', 'import-refused', 'not-found'),
};

export async function importRoutes(app: ZodServer, context: RouteContext): Promise<void> {
  fileRoutes(app, context);
  progressRoutes(app, context);
}

function fileRoutes(app: ZodServer, { store: { imports } }: RouteContext): void {
  const take = fileReceiver(imports);

  app.post(
    '/imports/visits',
    {
      bodyLimit: MAX_BYTES,
      config: { roles: STAFF, bodyType: CSV_TYPE },
      schema: {
        operationId: 'importVisits',
        summary: 'Import a spreadsheet of visits',
        description:
          'A heading row, then one row for each reading, work item, torque, condition or place not measured. The vehicle, date and work order of a row say which visit it belongs to. The text may be UTF-8, UTF-16 or Windows-1252, with commas, semicolons or tabs between the cells and decimal points or commas. Headings and terms may be in any case. The server skips rows that are already recorded. If the file has any error, the server imports nothing of it; otherwise it imports all of it.',
        tags: ['imports'],
        querystring: visitsQuery,
        headers: fileHeaders,
        consumes: [CSV_TYPE],
        body: fileBody(EXAMPLE_SPREADSHEET, 'The spreadsheet; at most 200 MiB.'),
        response: importResponses,
      },
    },
    async (request, reply) => {
      const { dates } = request.query;
      const read = (file: ReceivedFile) => visitRows(file.bytes(), { encoding: file.encoding, dates });
      await take(request, reply, 'visits', read, imports.visits);
      return reply;
    },
  );

  app.post(
    '/imports/vehicles',
    {
      bodyLimit: MAX_BYTES,
      config: { roles: STAFF, bodyType: JSON_LINES },
      schema: {
        operationId: 'importVehicles',
        summary: 'Import vehicles',
        description:
          'JSON Lines: one vehicle per line, in the form that POST /v1/vehicles accepts. The server skips vehicles that are already recorded. A recorded vehicle with different content is an error. If the file has any error, the server imports nothing of it; otherwise it imports all of it.',
        tags: ['imports'],
        querystring: dryRunQuery,
        headers: fileHeaders,
        consumes: [JSON_LINES],
        body: fileBody(`${JSON.stringify(EXAMPLE_VEHICLE)}\n`, 'The vehicles; at most 200 MiB.'),
        response: importResponses,
      },
    },
    async (request, reply) => {
      const read = (file: ReceivedFile) => vehicleLines(file.bytes());
      await take(request, reply, 'vehicles', read, imports.vehicles);
      return reply;
    },
  );
}

function progressRoutes(app: ZodServer, { store: { imports }, paging }: RouteContext): void {
  app.get(
    '/imports',
    {
      config: { roles: STAFF },
      schema: {
        operationId: 'listImports',
        summary: 'List imports',
        description: 'Imports, latest first, including those in progress.',
        tags: ['imports'],
        querystring: z.strictObject(pagingQuery),
        response: {
          200: answerJson(ImportList, 'A page of imports.', { items: [exampleImport], nextCursor: null }),
          ...listProblems,
        },
      },
    },
    async (request) => {
      const page = paging.readPage(request.query, {}, ImportPosition);
      const { items, next } = await imports.list(page);
      return { items, nextCursor: paging.nextCursor(next, {}) };
    },
  );

  app.get(
    '/imports/:importId',
    {
      config: { roles: STAFF },
      schema: {
        operationId: 'getImport',
        summary: 'Get import progress',
        description: 'Ask again until `state` is `done`, `refused` or `failed`.',
        tags: ['imports'],
        params: importParams,
        headers: ifNoneMatchHeader,
        response: {
          200: answerJson(Import, 'The import.', exampleImport),
          304: notModified,
          ...resourceProblems,
        },
      },
    },
    async (request, reply) => {
      const report = await imports.get(request.params.importId);
      // A running import changes faster than its version number, so it has no tag.
      return (report.finishedAt === null ? report : sendVersioned(request, reply, report)) as Import;
    },
  );
}

type Run<Row> = (
  id: string,
  pieces: AsyncIterable<FilePiece<Row>>,
  keep: Keep<Import> | null,
) => Promise<Import>;

/** Receives files to import, of visits or of vehicles. */
function fileReceiver(imports: ImportStore) {
  /** Receives a file and answers with the result, or with 202 if the caller does not want to wait. */
  async function take<Row>(
    request: FastifyRequest,
    reply: FastifyReply,
    kind: ImportKind,
    read: (file: ReceivedFile) => AsyncIterable<FilePiece<Row>>,
    run: Run<Row>,
  ): Promise<FastifyReply> {
    const { dryRun } = request.query as z.infer<typeof dryRunQuery>;
    const { id } = await imports.begin(request.caller, kind, { dryRun: dryRun ?? false });
    const file = await received(request, id);
    if (!(await isFirst(request, reply, file, id))) return reply;
    const whole = async (keep: Keep<Import> | null): Promise<Import> => {
      try {
        return await run(id, read(file), keep);
      } finally {
        await file.discard();
      }
    };
    reply.header('location', `/v1/imports/${id}`);
    // Processing a file can take long; do not let the idle timeout close the connection.
    request.raw.socket.setTimeout(0);
    if (wantsNoWait(request.headers.prefer)) {
      const begun = await imports.get(id);
      whole(null).catch((err: unknown) => request.log.error({ err }, 'import failed'));
      return reply.code(202).header('preference-applied', 'respond-async').send(begun);
    }
    const report = await whole(keepFor(request, answerTo));
    if (report.state === 'failed') throw new HttpProblem('unavailable', report.detail!);
    if (report.state === 'refused' && !report.dryRun) throw refusalOf(report);
    return sendAnswer(request, reply, answerTo, report);
  }

  async function received(request: FastifyRequest, id: string): Promise<ReceivedFile> {
    try {
      if (!(request.body instanceof Readable))
        throw new HttpProblem('malformed-request', 'the body is missing');
      return await receiveFile(request.body, MAX_BYTES);
    } catch (fault) {
      await imports.markIncomplete(id, 'the upload was cut short; nothing was imported');
      throw fault;
    }
  }

  /**
   * Whether a stored answer is still valid. After a 202 whose import failed nothing was stored, so the file may be sent
   * again.
   */
  async function counts({ status, headers }: KeptAnswer): Promise<boolean> {
    if (status !== 202) return true;
    const { state } = await imports.get(itemAt(headers.location!.split('/'), -1));
    return state !== 'failed';
  }

  /** False if a stored answer was replayed. */
  async function isFirst(
    request: FastifyRequest,
    reply: FastifyReply,
    file: ReceivedFile,
    id: string,
  ): Promise<boolean> {
    let first = false;
    try {
      first = !(await request.server.claimAnswer(request, reply, file.sha256, counts));
      return first;
    } finally {
      if (!first) {
        await file.discard();
        await imports.forget(id);
      }
    }
  }

  return take;
}

function answerTo(report: Import): KeptAnswer {
  const added = report.rowsAdded + report.visitsExtended > 0;
  return {
    status: added && !report.dryRun ? 201 : 200,
    headers: {
      'content-type': JSON_ANSWER,
      location: `/v1/imports/${report.id}`,
      etag: etagOf(report.version),
    },
    body: JSON.stringify(report),
  };
}

function refusalOf({ id, rows, errorsTotal, errors }: Import): HttpProblem {
  const detail = `nothing was imported: ${countInWords(errorsTotal, 'error')} in ${countInWords(rows, 'row')}; see errors`;
  return new HttpProblem('import-refused', detail, errors, {}, { importId: id, rows, errorsTotal });
}

const wantsNoWait = (prefer: string | string[] | undefined): boolean =>
  /(^|,)\s*respond-async\s*(;|,|$)/i.test(String(prefer ?? ''));
