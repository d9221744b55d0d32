import type { FastifyRequest } from 'fastify';
import { itemAt } from '../../core/items.js';
import { EntryBody, VisitBody } from '../../core/vocabulary/visit.js';
import { nearDateInWords } from '../../core/words.js';
import { usualGauges } from '../../forms/hints.js';
import { fillVisit } from '../../forms/fillVisit.js';
import { readVisit } from '../../forms/readVisit.js';
import type { Store } from '../../store/contract/store.js';
import type { RouteContext, ZodServer } from '../context.js';
import { HttpProblem } from '../problems.js';
import { vehicleParams, visitParams } from '../schemas.js';
import {
  FormBody,
  formOnce,
  keepForBackButton,
  parseBody,
  postOnce,
  refuseUnlessWriter,
  type FormOutcome,
} from './formPosts.js';
import {
  answerForm,
  habitsIn,
  outcomeOf,
  pageOf,
  remember,
  subjectOf,
  type FormTexts,
  type Pages,
  type Send,
  type Subject,
} from './visitForms.js';

/** Pages that record, extend and correct visits, with the same operations and checks as the API. */

export function recordingPages(app: ZodServer, context: RouteContext, send: Send): void {
  const pages = { ...context, send };
  recordRoutes(app, pages);
  addRoutes(app, pages);
  correctRoutes(app, pages);
  voidRoute(app, pages);
}

function recordTexts(today: string, vehicleId: string, { history }: Subject): FormTexts {
  const already = history.visits
    .filter(({ date }) => date === today)
    .map(({ id, time }) => ({ id, words: `A visit is already recorded today${time ? ` at ${time}` : ''}.` }));
  return {
    title: 'Record a visit',
    action: `/vehicles/${vehicleId}/record`,
    purpose: { kind: 'record', already },
  };
}

function recordRoutes(app: ZodServer, pages: Pages): void {
  app.get(
    '/vehicles/:vehicleId/record',
    { schema: { hide: true, params: vehicleParams } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      keepForBackButton(reply);
      const { vehicleId } = request.params;
      const subject = await subjectOf(pages, request, vehicleId);
      const values = {
        date: pages.today(),
        ...usualUnits(subject),
        ...usualGauges(subject.form, subject.history, habitsIn(request)),
      };
      return pages.send(
        request,
        reply,
        await pageOf(pages, subject, { values, errors: [] }, recordTexts(pages.today(), vehicleId, subject)),
      );
    },
  );

  app.post(
    '/vehicles/:vehicleId/record',
    { schema: { hide: true, params: vehicleParams, body: FormBody } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      const { vehicleId } = request.params;
      const fields = request.body;
      const subject = await subjectOf(pages, request, vehicleId);
      const texts = recordTexts(pages.today(), vehicleId, subject);
      const once = formOnce(pages.store.outcomes, request, fields);
      const { body, places } = readVisit(subject.form, fields);
      const write = async (): Promise<FormOutcome> => {
        const outcome = outcomeOf(pages, vehicleId, once.token, subject.wear, 'saved');
        if (isEmpty(body)) places.refuse('odometer', NOTHING_ENTERED);
        const visit = parseBody(VisitBody, body, places);
        const same = await recordedAlready(pages.store, request, subject, visit);
        if (same) return same;
        const recorded = await pages.store.visits.record(
          request.caller,
          vehicleId,
          visit,
          once.keep(outcome),
        );
        remember(reply, request, subject.form, fields);
        return outcome(recorded);
      };
      return answerForm(pages, request, reply, { subject, fields, texts, places, once }, write);
    },
  );
}

async function visitOf(pages: Pages, request: FastifyRequest, visitId: string) {
  const visit = await pages.store.visits.get(request.caller, visitId);
  const subject = await subjectOf(pages, request, visit.vehicleId);
  return { visit, subject };
}

/** The visit's body including later entries and corrections; a correction patches it. */
async function currentBody(
  { histories }: Store,
  request: FastifyRequest,
  visitId: string,
): Promise<VisitBody> {
  const page = { limit: 200, after: null };
  let versions = await histories.ofVisit(request.caller, visitId, page);
  while (versions.next) {
    versions = await histories.ofVisit(request.caller, visitId, {
      ...page,
      after: versions.next,
    });
  }
  return VisitBody.parse(itemAt(versions.items, -1).body);
}

/**
 * Finds a visit of the same day with identical content: the user reloaded the form and the browser restored its
 * values.
 */
async function recordedAlready(
  store: Store,
  request: FastifyRequest,
  { vehicle, history }: Subject,
  visit: VisitBody,
): Promise<FormOutcome | null> {
  const said = JSON.stringify(visit);
  for (const { id } of history.visits.filter(({ date }) => date === visit.date)) {
    if (JSON.stringify(await currentBody(store, request, id)) !== said) continue;
    return { location: `/vehicles/${vehicle.id}?already=1`, said: [] };
  }
  return null;
}

const addTexts = (today: string, { id, date }: { id: string; date: string }): FormTexts => ({
  title: `Add to the visit of ${nearDateInWords(date, today)}`,
  action: `/visits/${id}/add`,
  purpose: { kind: 'add', visit: id },
});

function addRoutes(app: ZodServer, pages: Pages): void {
  app.get('/visits/:visitId/add', { schema: { hide: true, params: visitParams } }, async (request, reply) => {
    refuseUnlessWriter(request);
    keepForBackButton(reply);
    const { visit, subject } = await visitOf(pages, request, request.params.visitId);
    const values = usualGauges(subject.form, subject.history, habitsIn(request));
    return pages.send(
      request,
      reply,
      await pageOf(pages, subject, { values, errors: [] }, addTexts(pages.today(), visit)),
    );
  });

  app.post(
    '/visits/:visitId/add',
    { schema: { hide: true, params: visitParams, body: FormBody } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      const fields = request.body;
      const { visit, subject } = await visitOf(pages, request, request.params.visitId);
      const texts = addTexts(pages.today(), visit);
      const once = formOnce(pages.store.outcomes, request, fields);
      const { body, places } = readVisit(subject.form, fields);
      const write = async (): Promise<FormOutcome> => {
        const outcome = outcomeOf(pages, visit.vehicleId, once.token, subject.wear, 'added to');
        const entry = parseBody(EntryBody, body, places);
        const recorded = await pages.store.visits.add(request.caller, visit.id, entry, once.keep(outcome));
        remember(reply, request, subject.form, fields);
        return outcome(recorded);
      };
      return answerForm(pages, request, reply, { subject, fields, texts, places, once }, write);
    },
  );
}

const correctTexts = (
  today: string,
  request: FastifyRequest,
  visit: { id: string; date: string },
  version: string,
  restCount: number,
): FormTexts => ({
  title: `Correct the visit of ${nearDateInWords(visit.date, today)}`,
  action: `/visits/${visit.id}/correct`,
  purpose: {
    kind: 'correct',
    visit: visit.id,
    version,
    restCount,
    mayVoid: request.caller.role === 'owner',
  },
});

function correctRoutes(app: ZodServer, pages: Pages): void {
  app.get(
    '/visits/:visitId/correct',
    { schema: { hide: true, params: visitParams } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      keepForBackButton(reply);
      const { visit, subject } = await visitOf(pages, request, request.params.visitId);
      if (visit.voided)
        throw new HttpProblem(
          'visit-voided',
          'this visit is voided; an owner can restore it through the API',
        );
      const { fields, restCount } = fillVisit(
        subject.form,
        await currentBody(pages.store, request, visit.id),
      );
      const texts = correctTexts(pages.today(), request, visit, String(visit.version), restCount);
      return pages.send(request, reply, await pageOf(pages, subject, { values: fields, errors: [] }, texts));
    },
  );

  app.post(
    '/visits/:visitId/correct',
    { schema: { hide: true, params: visitParams, body: FormBody } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      const fields = request.body;
      const { visit, subject } = await visitOf(pages, request, request.params.visitId);
      const once = formOnce(pages.store.outcomes, request, fields);
      const { rest, restCount } = fillVisit(subject.form, await currentBody(pages.store, request, visit.id));
      const texts = correctTexts(pages.today(), request, visit, fields.version ?? '', restCount);
      const { body, places } = readVisit(subject.form, fields);
      places.note(['reason'], 'reason');
      const write = async (): Promise<FormOutcome> => {
        const reason = fields.reason?.trim() ?? '';
        if (reason === '') places.refuse('reason', 'Say what was wrong, for the history.');
        const corrected = parseBody(VisitBody, withRest(body, rest), places);
        const outcome = outcomeOf(pages, visit.vehicleId, once.token, subject.wear, 'corrected');
        const recorded = await pages.store.corrections.correct(
          request.caller,
          visit.id,
          [Number(fields.version)],
          { reason, change: () => corrected },
          once.keep(outcome),
        );
        return outcome(recorded);
      };
      return answerForm(pages, request, reply, { subject, fields, texts, places, once }, write);
    },
  );
}

function voidRoute(app: ZodServer, pages: Pages): void {
  app.post(
    '/visits/:visitId/void',
    { schema: { hide: true, params: visitParams, body: FormBody } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      if (request.caller.role !== 'owner')
        throw new HttpProblem('role-not-allowed', 'only an owner may void a visit');
      const fields = request.body;
      const { visit, subject } = await visitOf(pages, request, request.params.visitId);
      const once = formOnce(pages.store.outcomes, request, fields);
      const reason = fields.voidReason?.trim() ?? '';
      if (reason === '') throw new HttpProblem('invalid', 'say why the visit does not count');
      const outcome = outcomeOf(
        pages,
        visit.vehicleId,
        once.token,
        subject.wear,
        'voided and no longer counts',
      );
      const write = async () =>
        outcome(
          await pages.store.corrections.setVoided(
            request.caller,
            visit.id,
            [Number(fields.version)],
            { reason, void: true },
            once.keep(outcome),
          ),
        );
      return postOnce(reply, once, write, async (earlier) => reply.redirect(earlier.location, 303));
    },
  );
}

const NOTHING_ENTERED =
  'Nothing is entered yet. Type the odometer, a reading or what was done, or choose why nothing was measured.';
/** Fields that the form prefills or that say nothing about the brakes. */
const NO_CONTENT = new Set(['date', 'time', 'workOrder', 'shop', 'technician']);
const isEmpty = (body: Record<string, unknown>): boolean =>
  Object.keys(body).every((name) => NO_CONTENT.has(name));

/** Appends the items that the form cannot show to those it can. */
function withRest(body: Record<string, unknown>, rest: Record<string, unknown>): Record<string, unknown> {
  const lists = Object.entries(rest).map(([list, items]) => [
    list,
    [...((body[list] ?? []) as unknown[]), ...(items as unknown[])],
  ]);
  return { ...body, ...(Object.fromEntries(lists) as Record<string, unknown[]>) };
}

/** The unit of the last odometer reading. */
const usualUnits = ({ history }: Subject): Record<string, string> => {
  const unit = history.visits.findLast(({ odometer }) => odometer != null)?.odometer?.unit;
  return unit === undefined ? {} : { odometerUnit: unit };
};
