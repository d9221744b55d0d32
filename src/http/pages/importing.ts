import { randomUUID } from 'node:crypto';
import multipart from '@fastify/multipart';
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { DATE_FORMS, type DateForm } from '../../core/spreadsheet/dates.js';
import type { Import } from '../../core/vocabulary/import.js';
import { checkedPage, importPage, progressPage } from '../../render/pages/importPage.js';
import type { KeyCaller } from '../../store/contract/caller.js';
import type { Keep } from '../../store/contract/idempotency.js';
import type { ImportStore } from '../../store/contract/imports.js';
import type { RouteContext, ZodServer } from '../context.js';
import { receiveFile, type ReceivedFile } from '../files.js';
import { HttpProblem } from '../problems.js';
import { importParams } from '../schemas.js';
import { visitRows } from '../visitRows.js';
import { FormBody, formOnce, postOnce, refuseUnlessWriter } from './formPosts.js';
import type { Send } from './visitForms.js';

/** Pages that check a spreadsheet and then import it, with the same operations as the API. */

const MAX_BYTES = 200 * 2 ** 20;
/** How long a checked file waits for confirmation, and how many files may wait. */
const HELD_MS = 30 * 60_000;
const MAX_HELD = 50;

interface Held {
  file: ReceivedFile;
  dates: DateForm;
  /** The key that uploaded the file; only it may confirm the import. */
  keyName: string;
  until: number;
}

/** Checked files waiting for confirmation, by form token. */
class HeldFiles {
  private readonly held = new Map<string, Held>();

  constructor(private readonly clock: () => Date) {}

  async add(token: string, held: Omit<Held, 'until'>): Promise<void> {
    this.held.set(token, { ...held, until: this.clock().getTime() + HELD_MS });
    const now = this.clock().getTime();
    const expired = [...this.held].filter(
      ([, { until }], index) => until < now || index < this.held.size - MAX_HELD,
    );
    for (const [name, { file }] of expired) {
      this.held.delete(name);
      await file.discard();
    }
  }

  /** Removes and returns the file of a token; null if it has expired or belongs to another key. */
  take(token: string, keyName: string): Held | null {
    const held = this.held.get(token);
    if (!held || held.keyName !== keyName || held.until < this.clock().getTime()) return null;
    this.held.delete(token);
    return held;
  }

  async close(): Promise<void> {
    await Promise.all([...this.held.values()].map(({ file }) => file.discard()));
    this.held.clear();
  }
}

export async function importPages(app: ZodServer, { store, now }: RouteContext, send: Send): Promise<void> {
  const { imports } = store;
  const held = new HeldFiles(now);
  app.addHook('onClose', () => held.close());
  await app.register(multipart, { limits: { files: 1, fields: 5, fieldSize: 100, fileSize: MAX_BYTES } });

  app.get('/import', { schema: { hide: true } }, async (request, reply) => {
    refuseUnlessWriter(request);
    return send(request, reply, importPage({ values: {}, errors: [] }, null));
  });

  app.post('/import', { schema: { hide: true }, bodyLimit: MAX_BYTES }, async (request, reply) => {
    refuseUnlessWriter(request);
    const { file, name, dates } = await uploadedFile(request);
    const refuse = (said: string) =>
      send(request, reply.code(422), importPage({ values: { dates }, errors: [] }, said));
    if (file === null) return refuse('Choose a spreadsheet, saved as CSV, before checking it.');
    if (WORKBOOK.test(name)) {
      await file.discard();
      return refuse(NOT_CSV);
    }
    const { caller } = request;
    const report = await check(imports, file, dates, caller);
    if (report.state === 'failed') {
      await file.discard();
      throw new HttpProblem('unavailable', report.detail ?? 'the file could not be checked');
    }
    const token = report.errorsTotal === 0 ? randomUUID() : null;
    if (token === null) await file.discard();
    else await held.add(token, { file, dates, keyName: caller.keyName });
    if (report.errorsTotal > 0) reply.code(422);
    return send(request, reply, checkedPage(report, token, name));
  });

  app.post('/import/accept', { schema: { hide: true, body: FormBody } }, async (request, reply) => {
    refuseUnlessWriter(request);
    const fields = request.body;
    const once = formOnce(store.outcomes, request, fields);
    const write = async () => {
      const waiting = held.take(once.token, request.caller.keyName);
      if (!waiting) {
        throw new HttpProblem(
          'not-found',
          'this file has already been imported, or it was checked more than half an hour ago; choose it again',
        );
      }
      const { id } = await imports.begin(request.caller, 'visits', { dryRun: false });
      const outcome = { location: `/imports/${id}`, said: [] };
      const keep = once.keep<Import>(() => outcome);
      importVisits(imports, id, waiting, keep).catch((err: unknown) =>
        request.log.error({ err, importId: id }, 'import failed'),
      );
      return outcome;
    };
    return postOnce(reply, once, write, async ({ location }) => reply.redirect(location, 303));
  });

  app.get('/imports/:importId', { schema: { hide: true, params: importParams } }, async (request, reply) => {
    refuseUnlessWriter(request);
    return send(request, reply, progressPage(await imports.get(request.params.importId)));
  });
}

/** Files that spreadsheet programs write unless they are told to save as CSV. */
const WORKBOOK = /\.(?:xlsx?|xlsm|xlsb|ods|numbers)$/i;
const NOT_CSV =
  'This file is a workbook. Save its sheet as CSV in the spreadsheet program, and choose that file.';

const Dates = z.enum(DATE_FORMS).catch('YYYY-MM-DD');

/** The uploaded file, null if none was chosen, and its date format. */
async function uploadedFile(
  request: FastifyRequest,
): Promise<{ file: ReceivedFile | null; name: string; dates: DateForm }> {
  const part = await request.file();
  if (!part) return { file: null, name: '', dates: Dates.parse(undefined) };
  // The form's other fields precede the file.
  const { dates: sent } = part.fields;
  const dates = Dates.parse(sent && 'value' in sent ? sent.value : undefined);
  const file = await receiveFile(part.file, MAX_BYTES);
  if (part.filename !== '') return { file, name: part.filename.slice(-100), dates };
  await file.discard();
  return { file: null, name: '', dates };
}

/** Imports a checked file, and discards it even if the import fails. */
async function importVisits(
  imports: ImportStore,
  id: string,
  { file, dates }: Held,
  keep: Keep<Import>,
): Promise<void> {
  try {
    await imports.visits(id, visitRows(file.bytes(), { encoding: file.encoding, dates }), keep);
  } finally {
    await file.discard();
  }
}

async function check(
  imports: ImportStore,
  file: ReceivedFile,
  dates: DateForm,
  caller: KeyCaller,
): Promise<Import> {
  const { id } = await imports.begin(caller, 'visits', { dryRun: true });
  return imports.visits(id, visitRows(file.bytes(), { encoding: file.encoding, dates }), null);
}
