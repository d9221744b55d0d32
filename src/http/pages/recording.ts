import { randomUUID } from 'node:crypto';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { wearAnswer } from '../../core/assessment/wearAnswer.js';
import type { Outlook } from '../../core/assessment/outlookShape.js';
import { Refusal } from '../../core/refusal.js';
import type { Vehicle } from '../../core/vocabulary/vehicle.js';
import { EntryBody, VisitBody } from '../../core/vocabulary/visit.js';
import type { Wear } from '../../core/vocabulary/wear.js';
import { nearDateInWords, sentence, vehicleName } from '../../core/words.js';
import type { History } from '../../core/history.js';
import type { FieldError } from '../../forms/entered.js';
import {
  axleHints,
  gaugeOptions,
  habitsOf,
  odometerHint,
  usualGauges,
  type Habits,
  type HintsByAxle,
} from '../../forms/hints.js';
import { fieldErrors } from '../../forms/messages.js';
import type { Places } from '../../forms/places.js';
import { fillVisit, readVisit, visitForm, type VisitForm } from '../../forms/visitForm.js';
import type { Made } from '../../render/pages/layout.js';
import { recordPage, type RecordPage } from '../../render/pages/recordPage.js';
import { wearChanges } from '../../render/wearChanges.js';
import type { RecordedVisit } from '../../store/contract/visits.js';
import type { RouteContext, ZodServer } from '../context.js';
import { HttpProblem } from '../problems.js';
import { vehicleParams, visitParams } from '../schemas.js';
import {
  FormBody,
  formOnce,
  keepForBackButton,
  parsed,
  postOnce,
  refuseUnlessWriter,
  type FormOutcome,
} from './formPosts.js';

/** Pages that record, extend and correct visits, with the same operations and checks as the API. */

export type Send = (request: FastifyRequest, reply: FastifyReply, made: Made) => FastifyReply;

const HABITS_COOKIE = 'brake-wear-gauges';
const HABITS_SECONDS = 365 * 86_400;

/** The vehicle data that a visit form needs. */
interface Subject {
  vehicle: Vehicle;
  history: History;
  outlook: Outlook;
  wear: Wear;
  form: VisitForm;
}

/** A submitted form. */
interface SentForm {
  subject: Subject;
  fields: Record<string, string>;
  texts: Pick<RecordPage, 'title' | 'action' | 'purpose'>;
  places: Places;
  once: ReturnType<typeof formOnce>;
}

const CHANGED_MEANWHILE =
  'Somebody else has changed this visit since you opened it. Open it again and repeat the correction.';

export function recordingPages(app: ZodServer, { store, today }: RouteContext, send: Send): void {
  async function subjectOf(request: FastifyRequest, vehicleId: string): Promise<Subject> {
    const { caller } = request;
    const { history, outlook } = await store.outlooks.withHistory(caller, vehicleId, null);
    const vehicle = await store.vehicles.get(caller, vehicleId);
    const wear = wearAnswer(vehicleId, outlook, { today: today(), until: null });
    return { vehicle, history, outlook, wear, form: visitForm(history) };
  }

  async function pageOf(
    { vehicle, history, wear, form }: Subject,
    { values, errors }: Pick<RecordPage, 'values' | 'errors'>,
    rest: Pick<RecordPage, 'title' | 'action' | 'purpose'> & { once?: string },
  ): Promise<Made> {
    const gauges = (await store.settings.gauges()).map(({ gauge }) => gauge);
    const hints = form.axles.map((axle) => [
      axle.axle,
      axleHints(
        axle,
        history.vehicle,
        wear.axles.find((each) => each.axle === axle.axle),
        today(),
      ),
    ]);
    return recordPage({
      once: randomUUID(),
      ...rest,
      name: vehicleName(vehicle),
      description: [vehicle.description, vehicle.model].filter(Boolean).join(', '),
      form,
      hints: Object.fromEntries(hints) as HintsByAxle,
      gauges: gaugeOptions(gauges),
      odometerHint: odometerHint(history, wear, today()),
      today: today(),
      values,
      errors,
    });
  }

  /** Sorts a refusal's errors by field; rethrows any other fault. */
  function errorsOf(
    fault: unknown,
    places: Places,
    fields: Record<string, string>,
    { history }: Subject,
  ): FieldError[] {
    if (!(fault instanceof Refusal) || fault.kind === 'not-found') throw fault;
    const context = { visits: history.visits, today: today() };
    if (fault.issues.length > 0) return fieldErrors(fault.issues, places, fields, context);
    const ofWorkOrder = fault.code === 'work-order-known';
    const visitId = fault.members.visitId;
    const message = ofWorkOrder
      ? 'This work order is recorded already, with other content.'
      : sentence(fault.message);
    return [{ field: ofWorkOrder ? 'workOrder' : '', message, visitId }];
  }

  const outcomeOf =
    (vehicleId: string, once: string, before: Wear, verb: string) =>
    ({ visit, outlook }: RecordedVisit): FormOutcome => {
      const after = wearAnswer(vehicleId, outlook, { today: today(), until: null });
      const said = `The visit of ${nearDateInWords(visit.date, today())} is ${verb}.`;
      return {
        location: `/vehicles/${vehicleId}?saved=${once}`,
        said: [said, ...wearChanges(before, after)],
      };
    };

  /** The form was saved already and its content has changed since; the user went back to it. */
  const savedAlready = async (
    request: FastifyRequest,
    reply: FastifyReply,
    subject: Subject,
    fields: Record<string, string>,
    rest: Pick<RecordPage, 'title' | 'action' | 'purpose'>,
  ): Promise<FastifyReply> => {
    const message =
      'This form was saved before you changed it, and saving it again would record it twice. To change what was saved, correct that visit; to record something else, check the form and save it.';
    reply.code(409);
    return send(
      request,
      reply,
      await pageOf(subject, { values: fields, errors: [{ field: '', message }] }, rest),
    );
  };

  /**
   * Answers a form with its result. If it is refused, shows the form again with everything that was typed and the
   * errors next to their fields.
   */
  async function answerForm(
    request: FastifyRequest,
    reply: FastifyReply,
    { subject, fields, texts, places, once }: SentForm,
    write: () => Promise<FormOutcome>,
  ): Promise<FastifyReply> {
    const show = async (errors: FieldError[], status: number) => {
      reply.code(status);
      const shown = { values: fields, errors };
      return send(request, reply, await pageOf(subject, shown, { ...texts, once: fields.once }));
    };
    try {
      return await postOnce(reply, once, write, () => savedAlready(request, reply, subject, fields, texts));
    } catch (fault) {
      if (fault instanceof Refusal && fault.kind === 'stale')
        return show([{ field: '', message: CHANGED_MEANWHILE }], 412);
      return show([...places.errors, ...errorsOf(fault, places, fields, subject)], 422);
    }
  }

  const remember = (
    reply: FastifyReply,
    request: FastifyRequest,
    form: VisitForm,
    fields: Record<string, string>,
  ) => {
    const habits = { ...habitsIn(request), ...habitsOf(form, fields) };
    reply.setCookie(HABITS_COOKIE, JSON.stringify(habits), {
      path: '/',
      httpOnly: true,
      sameSite: 'strict',
      maxAge: HABITS_SECONDS,
    });
  };

  function recordTexts(
    vehicleId: string,
    { history }: Subject,
  ): Pick<RecordPage, 'title' | 'action' | 'purpose'> {
    const already = history.visits
      .filter(({ date }) => date === today())
      .map(({ id, time }) => ({ id, words: `A visit of today${time ? `, ${time},` : ''} is recorded.` }));
    return {
      title: 'Record a visit',
      action: `/vehicles/${vehicleId}/record`,
      purpose: { kind: 'record', already },
    };
  }

  app.get(
    '/vehicles/:vehicleId/record',
    { schema: { hide: true, params: vehicleParams } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      keepForBackButton(reply);
      const { vehicleId } = request.params;
      const subject = await subjectOf(request, vehicleId);
      const values = {
        date: today(),
        ...usualUnits(subject),
        ...usualGauges(subject.form, subject.history, habitsIn(request)),
      };
      return send(
        request,
        reply,
        await pageOf(subject, { values, errors: [] }, recordTexts(vehicleId, subject)),
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
      const subject = await subjectOf(request, vehicleId);
      const texts = recordTexts(vehicleId, subject);
      const once = formOnce(store.outcomes, request, fields);
      const { body, places } = readVisit(subject.form, fields);
      const write = async (): Promise<FormOutcome> => {
        const outcome = outcomeOf(vehicleId, fields.once!, subject.wear, 'saved');
        if (isEmpty(body)) places.refuse('odometer', NOTHING_ENTERED);
        const visit = parsed(VisitBody, body, places);
        const same = await recordedAlready(request, subject, visit);
        if (same) return same;
        const recorded = await store.visits.record(request.caller, vehicleId, visit, once.keep(outcome));
        remember(reply, request, subject.form, fields);
        return outcome(recorded);
      };
      return answerForm(request, reply, { subject, fields, texts, places, once }, write);
    },
  );

  async function visitOf(request: FastifyRequest, visitId: string) {
    const visit = await store.visits.get(request.caller, visitId);
    const subject = await subjectOf(request, visit.vehicleId);
    return { visit, subject };
  }

  /** The visit's body including later entries and corrections; a correction patches it. */
  async function standingBody(request: FastifyRequest, visitId: string): Promise<VisitBody> {
    const page = { limit: 200, after: null };
    let versions = await store.histories.ofVisit(request.caller, visitId, page);
    while (versions.next) {
      versions = await store.histories.ofVisit(request.caller, visitId, {
        ...page,
        after: versions.next,
      });
    }
    return VisitBody.parse(versions.items.at(-1)!.body);
  }

  /**
   * Finds a visit of the same day with identical content: the user reloaded the form and the browser restored its
   * values.
   */
  async function recordedAlready(
    request: FastifyRequest,
    { vehicle, history }: Subject,
    visit: VisitBody,
  ): Promise<FormOutcome | null> {
    const said = JSON.stringify(visit);
    for (const { id } of history.visits.filter(({ date }) => date === visit.date)) {
      if (JSON.stringify(await standingBody(request, id)) !== said) continue;
      return { location: `/vehicles/${vehicle.id}?already=1`, said: [] };
    }
    return null;
  }

  const addTexts = (visitId: string, date: string): Pick<RecordPage, 'title' | 'action' | 'purpose'> => ({
    title: `Add to the visit of ${nearDateInWords(date, today())}`,
    action: `/visits/${visitId}/add`,
    purpose: { kind: 'add', visit: visitId },
  });

  app.get('/visits/:visitId/add', { schema: { hide: true, params: visitParams } }, async (request, reply) => {
    refuseUnlessWriter(request);
    keepForBackButton(reply);
    const { visit, subject } = await visitOf(request, request.params.visitId);
    const values = usualGauges(subject.form, subject.history, habitsIn(request));
    return send(
      request,
      reply,
      await pageOf(subject, { values, errors: [] }, addTexts(visit.id, visit.date)),
    );
  });

  app.post(
    '/visits/:visitId/add',
    { schema: { hide: true, params: visitParams, body: FormBody } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      const fields = request.body;
      const { visit, subject } = await visitOf(request, request.params.visitId);
      const texts = addTexts(visit.id, visit.date);
      const once = formOnce(store.outcomes, request, fields);
      const { body, places } = readVisit(subject.form, fields);
      const write = async (): Promise<FormOutcome> => {
        const outcome = outcomeOf(visit.vehicleId, fields.once!, subject.wear, 'added to');
        const entry = parsed(EntryBody, body, places);
        const recorded = await store.visits.add(request.caller, visit.id, entry, once.keep(outcome));
        remember(reply, request, subject.form, fields);
        return outcome(recorded);
      };
      return answerForm(request, reply, { subject, fields, texts, places, once }, write);
    },
  );

  const correctTexts = (
    request: FastifyRequest,
    visit: { id: string; date: string },
    version: string,
    restCount: number,
  ): Pick<RecordPage, 'title' | 'action' | 'purpose'> => ({
    title: `Correct the visit of ${nearDateInWords(visit.date, today())}`,
    action: `/visits/${visit.id}/correct`,
    purpose: {
      kind: 'correct',
      visit: visit.id,
      version,
      restCount,
      mayVoid: request.caller.role === 'owner',
    },
  });

  app.get(
    '/visits/:visitId/correct',
    { schema: { hide: true, params: visitParams } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      keepForBackButton(reply);
      const { visit, subject } = await visitOf(request, request.params.visitId);
      if (visit.voided)
        throw new HttpProblem('visit-voided', 'this visit is voided; an owner can restore it over the API');
      const { fields, restCount } = fillVisit(subject.form, await standingBody(request, visit.id));
      const texts = correctTexts(request, visit, String(visit.version), restCount);
      return send(request, reply, await pageOf(subject, { values: fields, errors: [] }, texts));
    },
  );

  app.post(
    '/visits/:visitId/correct',
    { schema: { hide: true, params: visitParams, body: FormBody } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      const fields = request.body;
      const { visit, subject } = await visitOf(request, request.params.visitId);
      const once = formOnce(store.outcomes, request, fields);
      const { rest, restCount } = fillVisit(subject.form, await standingBody(request, visit.id));
      const texts = correctTexts(request, visit, fields.version ?? '', restCount);
      const { body, places } = readVisit(subject.form, fields);
      places.note(['reason'], 'reason');
      const write = async (): Promise<FormOutcome> => {
        const reason = fields.reason?.trim() ?? '';
        if (reason === '') places.refuse('reason', 'Say what was wrong, for the history.');
        const corrected = parsed(VisitBody, withRest(body, rest), places);
        const outcome = outcomeOf(visit.vehicleId, fields.once!, subject.wear, 'corrected');
        const recorded = await store.corrections.correct(
          request.caller,
          visit.id,
          [Number(fields.version)],
          { reason, change: () => corrected },
          once.keep(outcome),
        );
        return outcome(recorded);
      };
      return answerForm(request, reply, { subject, fields, texts, places, once }, write);
    },
  );

  app.post(
    '/visits/:visitId/void',
    { schema: { hide: true, params: visitParams, body: FormBody } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      if (request.caller.role !== 'owner')
        throw new HttpProblem('role-not-allowed', 'only an owner may void a visit');
      const fields = request.body;
      const { visit, subject } = await visitOf(request, request.params.visitId);
      const once = formOnce(store.outcomes, request, fields);
      const reason = fields.voidReason?.trim() ?? '';
      if (reason === '') throw new HttpProblem('invalid', 'say why the visit does not count');
      const outcome = outcomeOf(visit.vehicleId, fields.once!, subject.wear, 'voided and counts for nothing');
      const write = async () =>
        outcome(
          await store.corrections.setVoided(
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

const HabitsInCookie = z.partialRecord(
  z.enum(['linings', 'rotors', 'runout', 'drums']),
  z.object({ gauge: z.string().max(60).optional(), unit: z.string().max(10).optional() }),
);

function habitsIn(request: FastifyRequest): Habits {
  try {
    const read = HabitsInCookie.safeParse(JSON.parse(request.cookies[HABITS_COOKIE] ?? '{}'));
    return read.success ? read.data : {};
  } catch {
    return {};
  }
}

/** The unit of the last odometer reading. */
const usualUnits = ({ history }: Subject): Record<string, string> => {
  const unit = history.visits.findLast(({ odometer }) => odometer != null)?.odometer?.unit;
  return unit === undefined ? {} : { odometerUnit: unit };
};
