import { least } from 'd3-array';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { toDay } from '../../core/calendar.js';
import { schemaIssues } from '../../core/vocabulary/issues.js';
import { AXLES, URGENCIES } from '../../core/vocabulary/terms.js';
import type { AxleWear, Wear } from '../../core/vocabulary/wear.js';
import { sentence } from '../../core/words.js';
import { dueSoonCalendar } from '../../render/calendar.js';
import { dueSoonCsv, measureFirstCsv, stopsCsv, unassessedCsv } from '../../render/csv.js';
import { dueSoonPage } from '../../render/pages/dueSoonPage.js';
import { homePage, type RecentVehicle } from '../../render/pages/homePage.js';
import { badQueryPage, type ListedAxle, type ListedStop, type ListQuery } from '../../render/pages/lists.js';
import { measureFirstPage } from '../../render/pages/measureFirstPage.js';
import { findPage } from '../../render/pages/others.js';
import type { Caller } from '../../store/contract/caller.js';
import type { DueAxle, StoppedAxle } from '../../store/contract/reports.js';
import type { RouteContext, ZodServer } from '../context.js';
import { CALENDAR, calendarName, dueSoonQuery, readDueSoonQuery } from '../dueSoon.js';
import { CSV_CONTENT_TYPE } from '../schemas.js';
import type { Send } from './visitForms.js';

/** The home page and the planning lists, as pages, spreadsheets and a calendar. */

const MAX_FOUND = 20;
const MAX_LISTED = 200;
const MAX_RECENT = 6;
const MAX_ON_HOME = 6;
const FIRST = { limit: MAX_LISTED, after: null };

/** Treats an empty form field as missing. */
const filled = <Schema extends z.ZodType>(schema: Schema) =>
  z.preprocess((value) => (value === '' ? undefined : value), schema);
const ListForm = z.object({
  withinDays: filled(dueSoonQuery.withinDays),
  chance: filled(dueSoonQuery.chance),
  fleet: filled(dueSoonQuery.fleet),
  axle: filled(z.enum(AXLES).optional()),
});
const QueryTexts = z.record(z.string(), z.union([z.string(), z.array(z.string())]));

export function listPages(app: ZodServer, context: RouteContext, send: Send): void {
  startPage(app, context, send);
  planningPages(app, context, send);
  downloads(app, context);
}

function startPage(app: ZodServer, context: RouteContext, send: Send): void {
  const { store, today } = context;

  app.get(
    '/',
    { schema: { hide: true, querystring: z.object({ q: z.string().trim().max(100).optional() }) } },
    async (request, reply) => {
      const { caller } = request;
      const text = request.query.q || null;
      if (text !== null) {
        const found = await store.vehicles.search(caller, text, MAX_FOUND);
        const [first, ...others] = found;
        if (first && others.length === 0) return reply.redirect(`/vehicles/${first.id}`, 303);
        return send(request, reply, findPage(text, found, MAX_FOUND));
      }
      const query = await readDueSoonQuery(store, {}, today());
      const page = { limit: MAX_ON_HOME, after: null };
      const soon = await store.reports.dueSoon(caller, query, { limit: 1, after: null });
      const now = { ...query, horizon: query.today };
      const due = await store.reports.dueSoon(caller, now, page);
      const stopped = await store.reports.stopped(caller, now, page);
      const made = homePage({
        due: await listed(context, caller, due.items),
        dueNowCount: due.total,
        total: soon.total + soon.stopCount,
        stops: await listedStops(context, caller, stopped.items),
        stopCount: stopped.total,
        withinDays: toDay(query.horizon) - toDay(query.today),
        recent: await recentVehicles(context, caller),
        toMeasure: soon.unassessedCount + soon.measureFirstCount,
        role: request.caller.role,
      });
      return send(request, reply, made);
    },
  );
}

function planningPages(app: ZodServer, context: RouteContext, send: Send): void {
  const { store } = context;

  app.get('/due-soon', { schema: { hide: true } }, async (request, reply) => {
    const listQuery = await readListQuery(context, request);
    if (listQuery.filled.errors.length > 0) {
      return send(request, reply.code(400), badQueryPage('Due soon', '/due-soon', listQuery));
    }
    const { caller, query } = listQuery;
    const due = await store.reports.dueSoon(caller, query, FIRST);
    const stopped = await store.reports.stopped(caller, query, FIRST);
    const items = await listed(context, caller, due.items);
    const stops = await listedStops(context, caller, stopped.items);
    return send(request, reply, dueSoonPage({ ...listQuery, ...due, items, stops }));
  });

  app.get('/measure-first', { schema: { hide: true } }, async (request, reply) => {
    const listQuery = await readListQuery(context, request);
    if (listQuery.filled.errors.length > 0) {
      return send(request, reply.code(400), badQueryPage('Measure first', '/measure-first', listQuery));
    }
    const { caller, query } = listQuery;
    const unassessed = await store.reports.unassessed(caller, query, FIRST);
    const apart = await store.reports.measureFirst(caller, query, FIRST);
    const made = measureFirstPage({
      ...listQuery,
      unassessed: unassessed.items,
      unassessedTotal: unassessed.total,
      apart: apart.items,
      apartTotal: apart.total,
      role: request.caller.role,
    });
    return send(request, reply, made);
  });
}

/** Serves the lists as complete files. */
function downloads(app: ZodServer, context: RouteContext): void {
  const { reports } = context.store;
  const file = (reply: FastifyReply, type: string, name: string): FastifyReply =>
    reply.header('content-type', type).header('content-disposition', `attachment; filename="${name}"`);

  function spreadsheet<Item>(
    name: string,
    list: (caller: Caller, query: ListQuery, page: null) => Promise<{ items: Item[] }>,
    csv: (items: Item[]) => string,
  ): void {
    app.get(`/${name}.csv`, { schema: { hide: true } }, async (request, reply) => {
      const { caller, query } = await readListQuery(context, request);
      const { items } = await list(caller, query, null);
      return file(reply, CSV_CONTENT_TYPE, `${name}-${query.today}.csv`).send(csv(items));
    });
  }
  spreadsheet('due-soon', reports.dueSoon, dueSoonCsv);
  spreadsheet('stops', reports.stopped, stopsCsv);
  spreadsheet('measure-first', reports.measureFirst, measureFirstCsv);
  spreadsheet('unassessed', reports.unassessed, unassessedCsv);

  app.get('/due-soon.ics', { schema: { hide: true } }, async (request, reply) => {
    const { caller, query } = await readListQuery(context, request);
    const { items } = await reports.dueSoon(caller, query, null);
    const frame = { ...query, name: calendarName(query), now: context.now() };
    return file(reply, CALENDAR, 'due-soon.ics').send(dueSoonCalendar(items, frame));
  });
}

/** Reads wear answers, once per vehicle. */
function wearReader({ store, today }: RouteContext, caller: Caller) {
  const known = new Map<string, Promise<Wear>>();
  const question = { today: today(), until: null };
  return (vehicleId: string): Promise<Wear> => {
    const read = async () =>
      JSON.parse((await store.outlooks.wear(caller, vehicleId, question)).toString()) as Wear;
    const wear = known.get(vehicleId) ?? read();
    known.set(vehicleId, wear);
    return wear;
  };
}

async function listed(
  context: RouteContext,
  caller: Caller,
  items: readonly DueAxle[],
): Promise<ListedAxle[]> {
  const wearOf = wearReader(context, caller);
  return Promise.all(
    items.map(async (item) => {
      const axle = (await wearOf(item.vehicleId)).axles.find((each) => each.axle === item.axle);
      return { ...item, ...detailsOf(item, axle) };
    }),
  );
}

async function listedStops(
  context: RouteContext,
  caller: Caller,
  items: readonly StoppedAxle[],
): Promise<ListedStop[]> {
  const wearOf = wearReader(context, caller);
  return Promise.all(
    items.map(async (item) => {
      const { axles } = await wearOf(item.vehicleId);
      return { ...item, advice: axles.find(({ axle }) => axle === item.axle)?.advice ?? null };
    }),
  );
}

async function recentVehicles(context: RouteContext, caller: Caller): Promise<RecentVehicle[]> {
  const wearOf = wearReader(context, caller);
  const recent = await context.store.vehicles.recent(caller, MAX_RECENT);
  return Promise.all(
    recent.map(async ({ vehicle, date }) => {
      const { axles } = await wearOf(vehicle.id);
      const urgency = ({ advice }: AxleWear): number => URGENCIES.indexOf(advice.urgency);
      const [first] = [...axles].sort((a, b) => urgency(a) - urgency(b) || b.advice.checks - a.advice.checks);
      const { id: vehicleId, registration = null, externalId = null } = vehicle;
      return { vehicleId, registration, externalId, date, advice: first?.advice ?? null };
    }),
  );
}

/** Reads the list's query; errors are shown next to the fields. */
async function readListQuery({ store, today }: RouteContext, request: FastifyRequest) {
  const raw = QueryTexts.parse(request.query);
  const values = Object.fromEntries(
    Object.entries(raw).map(([name, value]) => [name, Array.isArray(value) ? (value.at(-1) ?? '') : value]),
  );
  const read = ListForm.safeParse(values);
  const errors = read.success
    ? []
    : schemaIssues(read.error.issues).map(({ path, detail }) => ({
        field: String(path[0]),
        message: sentence(detail),
      }));
  const query = await readDueSoonQuery(store, read.success ? read.data : {}, today());
  const withinDays = toDay(query.horizon) - toDay(query.today);
  const shown = { withinDays: String(withinDays), chance: String(query.chance), ...values };
  const { caller } = request;
  const search = new URLSearchParams(Object.entries(values).filter(([, value]) => value !== '')).toString();
  return {
    query: { ...query, withinDays } satisfies ListQuery,
    filled: { values: shown, errors },
    fleets: await store.vehicles.fleets(caller),
    caller,
    search: search === '' ? '' : `?${search}`,
  };
}

/** What the list shows about a due axle besides its dates. */
function detailsOf(
  { part, governingPad }: DueAxle,
  axle: AxleWear | undefined,
): Pick<ListedAxle, 'advice' | 'lowerQuartile' | 'upperQuartile' | 'readMm'> {
  const advice = axle?.advice ?? null;
  if (!axle) return { advice, lowerQuartile: null, upperQuartile: null, readMm: null };
  if (part !== 'pads') return { advice, ...rotorDetails(axle) };
  const pad = axle.pads.find(({ side, pad: of }) => side === governingPad?.side && of === governingPad.pad);
  const { lowerQuartile = null, upperQuartile = null } = axle.replacement.date ?? {};
  return { advice, lowerQuartile, upperQuartile, readMm: pad?.latest?.valueMm ?? null };
}

/** Details of the rotor or drum with the least margin. */
function rotorDetails({
  rotors,
  drums,
}: AxleWear): Pick<ListedAxle, 'lowerQuartile' | 'upperQuartile' | 'readMm'> {
  const parts = [
    ...rotors.map(({ marginMm, thinnestMm: readMm, date }) => ({ marginMm, readMm, date })),
    ...drums.map(({ marginMm, largestMm: readMm, date }) => ({ marginMm, readMm, date })),
  ];
  const known = parts.filter(({ marginMm }) => marginMm !== null);
  const first = least(known, ({ marginMm }) => marginMm ?? Infinity);
  const { lowerQuartile = null, upperQuartile = null } = first?.date ?? {};
  return { lowerQuartile, upperQuartile, readMm: first?.readMm ?? null };
}
