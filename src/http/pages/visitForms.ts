import { randomUUID } from 'node:crypto';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { wearAnswer } from '../../core/assessment/wearAnswer.js';
import type { Outlook } from '../../core/assessment/outlookShape.js';
import { Refusal } from '../../core/refusal.js';
import type { Vehicle } from '../../core/vocabulary/vehicle.js';
import type { Wear } from '../../core/vocabulary/wear.js';
import { nearDateInWords, sentence, vehicleName } from '../../core/words.js';
import type { History } from '../../core/history.js';
import type { FieldError } from '../../forms/entered.js';
import {
  axleHints,
  gaugeOptions,
  habitsOf,
  odometerHint,
  odometersAround,
  type Habits,
  type HintsByAxle,
} from '../../forms/hints.js';
import { fieldErrors } from '../../forms/messages.js';
import type { Places } from '../../forms/places.js';
import { visitForm, type VisitForm } from '../../forms/visitForm.js';
import type { Made } from '../../render/pages/layout.js';
import { recordPage, type RecordPage } from '../../render/pages/recordPage.js';
import { wearChanges } from '../../render/wearChanges.js';
import type { RecordedVisit } from '../../store/contract/visits.js';
import type { RouteContext } from '../context.js';
import { postOnce, type formOnce, type FormOutcome } from './formPosts.js';

/** Shared by the visit forms: showing a form, answering a submission, and showing it again with its errors. */

export type Send = (request: FastifyRequest, reply: FastifyReply, made: Made) => FastifyReply;

const HABITS_COOKIE = 'brake-wear-gauges';
const HABITS_SECONDS = 365 * 86_400;

export type FormTexts = Pick<RecordPage, 'title' | 'action' | 'purpose'>;

/** A route's context, and the function that sends a page. */
export interface Pages extends RouteContext {
  send: Send;
}

/** The vehicle data that a visit form needs. */
export interface Subject {
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
  texts: FormTexts;
  places: Places;
  once: ReturnType<typeof formOnce>;
}

const CHANGED_MEANWHILE =
  'Somebody else has changed this visit since you opened it. Open it again and repeat the correction.';

export async function subjectOf(
  { store, today }: RouteContext,
  request: FastifyRequest,
  vehicleId: string,
): Promise<Subject> {
  const { caller } = request;
  const { history, outlook } = await store.outlooks.withHistory(caller, vehicleId, null);
  const vehicle = await store.vehicles.get(caller, vehicleId);
  const wear = wearAnswer(vehicleId, outlook, { today: today(), until: null });
  return { vehicle, history, outlook, wear, form: visitForm(history) };
}

export async function pageOf(
  { store, today }: RouteContext,
  { vehicle, history, wear, form }: Subject,
  { values, errors }: Pick<RecordPage, 'values' | 'errors'>,
  rest: FormTexts & { once?: string },
): Promise<Made> {
  const { purpose } = rest;
  const gauges = (await store.settings.gauges()).map(({ gauge }) => gauge);
  const hints = form.axles.map((axle) => {
    const found = wear.axles.find((each) => each.axle === axle.axle);
    const known = axleHints(axle, history.vehicle, found, today());
    // The latest readings and checks may be those of the visit being corrected, or of later ones.
    return [axle.axle, purpose.kind === 'correct' ? { ...known, last: {}, checks: [] } : known];
  });
  return recordPage({
    once: randomUUID(),
    ...rest,
    vehicleId: vehicle.id,
    name: vehicleName(vehicle),
    description: [vehicle.description, vehicle.model].filter(Boolean).join(', '),
    form,
    hints: Object.fromEntries(hints) as HintsByAxle,
    gauges: gaugeOptions(gauges),
    odometerHint:
      purpose.kind === 'correct'
        ? odometersAround(history, purpose.visit, today())
        : odometerHint(history, wear, today()),
    today: today(),
    values,
    errors,
  });
}

/** Sorts a refusal's errors by field; rethrows any other fault. */
function errorsOf(
  today: string,
  fault: unknown,
  places: Places,
  fields: Record<string, string>,
  { history }: Subject,
): FieldError[] {
  if (!(fault instanceof Refusal) || fault.kind === 'not-found') throw fault;
  const context = { visits: history.visits, today };
  if (fault.issues.length > 0) return fieldErrors(fault.issues, places, fields, context);
  const ofWorkOrder = fault.code === 'work-order-known';
  const visitId = fault.members.visitId;
  const message = ofWorkOrder
    ? 'This work order is already recorded with different content.'
    : sentence(fault.message);
  return [{ field: ofWorkOrder ? 'workOrder' : '', message, visitId }];
}

/** What a form says on the next page, once its visit is stored. */
export const outcomeOf =
  ({ today }: RouteContext, vehicleId: string, once: string, before: Wear, verb: string) =>
  ({ visit, outlook }: RecordedVisit): FormOutcome => {
    const after = wearAnswer(vehicleId, outlook, { today: today(), until: null });
    const said = `The visit of ${nearDateInWords(visit.date, today())} is ${verb}.`;
    return {
      location: `/vehicles/${vehicleId}?saved=${once}`,
      said: [said, ...wearChanges(before, after)],
    };
  };

/** The user went back to a form that was already saved, and changed it. */
const savedAlready = async (
  pages: Pages,
  request: FastifyRequest,
  reply: FastifyReply,
  subject: Subject,
  fields: Record<string, string>,
  rest: FormTexts,
): Promise<FastifyReply> => {
  const message =
    'This form was saved before you changed it, and saving it again would record it twice. To change what was saved, correct that visit; to record something else, check the form and save it.';
  reply.code(409);
  return pages.send(
    request,
    reply,
    await pageOf(pages, subject, { values: fields, errors: [{ field: '', message }] }, rest),
  );
};

/**
 * Answers a form with its result. If it is refused, shows the form again with everything that was typed and the
 * errors next to their fields.
 */
export async function answerForm(
  pages: Pages,
  request: FastifyRequest,
  reply: FastifyReply,
  { subject, fields, texts, places, once }: SentForm,
  write: () => Promise<FormOutcome>,
): Promise<FastifyReply> {
  const show = async (errors: FieldError[], status: number) => {
    reply.code(status);
    const shown = { values: fields, errors };
    return pages.send(request, reply, await pageOf(pages, subject, shown, { ...texts, once: fields.once }));
  };
  try {
    return await postOnce(reply, once, write, () =>
      savedAlready(pages, request, reply, subject, fields, texts),
    );
  } catch (fault) {
    if (fault instanceof Refusal && fault.kind === 'stale')
      return show([{ field: '', message: CHANGED_MEANWHILE }], 412);
    return show([...places.errors, ...errorsOf(pages.today(), fault, places, fields, subject)], 422);
  }
}

/** Keeps the gauges and units of a form for the next one in this browser. */
export const remember = (
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

const HabitsInCookie = z.partialRecord(
  z.enum(['linings', 'rotors', 'runout', 'drums']),
  z.object({ gauge: z.string().max(60).optional(), unit: z.string().max(10).optional() }),
);

export function habitsIn(request: FastifyRequest): Habits {
  try {
    const read = HabitsInCookie.safeParse(JSON.parse(request.cookies[HABITS_COOKIE] ?? '{}'));
    return read.success ? read.data : {};
  } catch {
    return {};
  }
}
