import formbody from '@fastify/formbody';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { wearAnswer } from '../../core/assessment/wearAnswer.js';
import { axlePicture } from '../../core/assessment/picture.js';
import { type Axle } from '../../core/vocabulary/terms.js';
import { layout, type Made } from '../../render/pages/layout.js';
import {
  fileNotReadPage,
  problemPage,
  savedNotice,
  sessionEndedPage,
  signInPage,
} from '../../render/pages/others.js';
import { sheetPage } from '../../render/pages/sheet.js';
import { STYLESHEET } from '../../render/pages/stylesheet.js';
import { partCharts, type PartChart } from '../../render/wearSvg.js';
import { sha256 } from '../../digest.js';
import type { Caller, KeyCaller } from '../../store/contract/caller.js';
import type { RouteContext, ZodServer } from '../context.js';
import { isKnownAs } from '../etag.js';
import { refuseOtherMethods } from '../methods.js';
import { describe, HttpProblem, PROBLEMS } from '../problems.js';
import { rateLimiter } from '../rateLimit.js';
import { vehicleParams } from '../schemas.js';
import { FormBody, savedMessage } from './formPosts.js';
import { importPages } from './importing.js';
import { listPages } from './lists.js';
import { recordingPages } from './recording.js';
import { vehiclePages } from './vehicleForms.js';
import { refuseForeignForm, sessionCookies, signInFailures } from './sessions.js';

/** Pages for people, rendered on the server without scripts. The OpenAPI document omits them. */
export const PAGES: ReadonlyMap<string, ReadonlySet<string>> = new Map([
  ['/', new Set(['GET', 'HEAD'])],
  ['/sign-in', new Set(['GET', 'HEAD', 'POST'])],
  ['/sign-out', new Set(['POST'])],
  ['/vehicles/:vehicleId', new Set(['GET', 'HEAD'])],
  ['/sheets/:vehicleId', new Set(['GET', 'HEAD'])],
  ['/vehicles/:vehicleId/record', new Set(['GET', 'HEAD', 'POST'])],
  ['/vehicles/:vehicleId/change', new Set(['GET', 'HEAD', 'POST'])],
  ['/vehicles/new', new Set(['GET', 'HEAD', 'POST'])],
  ['/import', new Set(['GET', 'HEAD', 'POST'])],
  ['/import/accept', new Set(['POST'])],
  ['/imports/:importId', new Set(['GET', 'HEAD'])],
  ['/visits/:visitId/add', new Set(['GET', 'HEAD', 'POST'])],
  ['/visits/:visitId/correct', new Set(['GET', 'HEAD', 'POST'])],
  ['/visits/:visitId/void', new Set(['POST'])],
  ['/due-soon', new Set(['GET', 'HEAD'])],
  ['/due-soon.csv', new Set(['GET', 'HEAD'])],
  ['/due-soon.ics', new Set(['GET', 'HEAD'])],
  ['/stops.csv', new Set(['GET', 'HEAD'])],
  ['/measure-first', new Set(['GET', 'HEAD'])],
  ['/measure-first.csv', new Set(['GET', 'HEAD'])],
  ['/unassessed.csv', new Set(['GET', 'HEAD'])],
  ['/pages.css', new Set(['GET', 'HEAD'])],
]);

/** Pages that need no session. */
const OPEN = new Set(['/sign-in', '/sign-out', '/pages.css']);

const POLICY =
  "default-src 'none'; style-src 'self'; img-src data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

const hidden = { schema: { hide: true } } as const;

export interface PagesContext extends RouteContext {
  rateLimitPerMinute: number;
}

/** The signed-in user; null if there is none. */
const callerOf = ({ caller }: FastifyRequest): KeyCaller | null => caller;

export async function pages(app: ZodServer, context: PagesContext): Promise<void> {
  const { store, today, now, rateLimitPerMinute } = context;
  const sessions = await sessionCookies(app, store.sessions, now);
  const failures = signInFailures(now, store.counts);
  const countRequest = await rateLimiter(app, {
    id: 'pages',
    name: 'default',
    perMinute: rateLimitPerMinute,
    by: (request) => callerOf(request)?.keyName ?? request.ip,
  });
  app.decorateRequest('caller', null as unknown as KeyCaller);
  app.addHook('onRequest', async (request, reply) => {
    // `same-origin`: with `no-referrer`, a browser that lacks Sec-Fetch-Site would not say that a form came from this
    // service.
    reply.headers({
      'content-security-policy': POLICY,
      'cache-control': 'private, no-store',
      'referrer-policy': 'same-origin',
    });
    const caller = await sessions.callerOf(request);
    if (caller) request.caller = caller;
    await countRequest(request, reply);
    const { url = '' } = request.routeOptions;
    const isRead = request.method === 'GET' || request.method === 'HEAD';
    // A form's target cannot be opened with GET, so sign-in must not return to it.
    const acceptsMethod = PAGES.get(url)?.has(request.method) ?? true;
    if (!caller && isRead && acceptsMethod && !OPEN.has(url)) {
      return reply.redirect(`/sign-in?next=${encodeURIComponent(request.url)}`, 303);
    }
  });
  // If the session has expired, shows the submitted entries again so that the user can sign in and resend them.
  app.addHook('preHandler', async (request, reply) => {
    if (callerOf(request) || OPEN.has(request.routeOptions.url ?? '')) return;
    if (request.method !== 'POST')
      throw new HttpProblem('key-needed', 'you are not signed in, or your session has expired');
    refuseForeignForm(request);
    if (request.isMultipart()) return send(request, reply.code(401), fileNotReadPage(request.url));
    const fields = FormBody.parse(request.body);
    return send(request, reply.code(401), sessionEndedPage(request.url, fields));
  });
  await app.register(formbody);
  app.setErrorHandler(async (error, request, reply) => sendProblemPage(error, request, reply));
  const send = (request: FastifyRequest, reply: FastifyReply, made: Made) =>
    reply
      .type('text/html; charset=utf-8')
      .send(layout({ ...made, caller: callerOf(request), path: request.routeOptions.url }));

  app.get('/pages.css', hidden, async (request, reply) => {
    reply.header('cache-control', 'public, max-age=3600');
    if (isKnownAs(request, reply, STYLESHEET_TAG)) return reply.send();
    return reply.type('text/css; charset=utf-8').send(STYLESHEET);
  });

  app.get(
    '/sign-in',
    { schema: { hide: true, querystring: z.object({ next: z.string().max(2000).optional() }) } },
    async (request, reply) => {
      const next = ownPath(request.query.next);
      const said =
        next === '/' ? null : 'You are not signed in, or your session has expired. Sign in to continue.';
      return send(request, reply, signInPage(next, said));
    },
  );

  app.post(
    '/sign-in',
    {
      schema: {
        hide: true,
        body: z.object({ key: z.string().max(300), next: z.string().max(2000).optional() }),
      },
    },
    async (request, reply) => {
      refuseForeignForm(request);
      const next = ownPath(request.body.next);
      const sent = request.body.key.trim();
      const caller = await store.keys.find(sha256(sent));
      if (!caller) {
        request.log.warn({ remoteAddress: request.ip }, 'sign-in failed');
        await failures.note(request.ip, sent);
        reply.code(401);
        return send(request, reply, signInPage(next, 'That key is not valid. Check it and try again.'));
      }
      await sessions.begin(request, reply, caller);
      return reply.redirect(next, 303);
    },
  );

  app.post('/sign-out', hidden, async (request, reply) => {
    refuseForeignForm(request);
    await sessions.end(request, reply);
    return reply.redirect('/sign-in', 303);
  });

  app.get(
    '/vehicles/:vehicleId',
    {
      schema: {
        hide: true,
        params: vehicleParams,
        querystring: z.object({
          saved: z.string().max(100).optional(),
          already: z.literal('1').optional(),
        }),
      },
    },
    async (request, reply) => {
      const sheet = await sheetOf(context, request.caller, request.params.vehicleId, today());
      const { saved, already } = request.query;
      const known = already && ['This visit was already saved. It is recorded only once.'];
      const said = saved === undefined ? known : await savedMessage(store.outcomes, request, saved);
      const made = sheetPage({ ...sheet, role: request.caller.role });
      return send(request, reply, { ...made, main: savedNotice(said ?? []) + made.main });
    },
  );

  // The sheet's former address; keeps bookmarks and printed links working.
  app.get('/sheets/:vehicleId', { schema: { hide: true, params: vehicleParams } }, async (request, reply) =>
    reply.redirect(`/vehicles/${encodeURIComponent(request.params.vehicleId)}`, 308),
  );

  listPages(app, context, send);
  recordingPages(app, context, send);
  vehiclePages(app, context, send);
  await importPages(app, context, send);

  refuseOtherMethods(app, PAGES);

  async function sendProblemPage(error: unknown, request: FastifyRequest, reply: FastifyReply) {
    const { code, detail, errors = [], headers = {}, members } = describe(error);
    // A vehicle that was merged into another: redirect to the other's sheet.
    if (members?.vehicleId) return reply.redirect(`/vehicles/${members.vehicleId}`, 303);
    const { status, title: defaultTitle } = PROBLEMS[code];
    const title = code === 'not-found' ? NOT_FOUND : defaultTitle;
    if (status >= 500) request.log.error({ err: error }, 'page failed');
    const details = [
      detail,
      ...errors.map((each) => `${each.parameter ?? each.pointer ?? ''} ${each.detail}`),
    ];
    reply.code(status).headers(headers);
    return send(request, reply, problemPage(title, details, `urn:request:${request.id}`));
  }
}

const NOT_FOUND = 'Not found';

/** Whether the client is a browser that wants a page. */
export const isForPerson = ({ headers }: FastifyRequest): boolean =>
  headers.accept?.includes('text/html') === true;

/** The page for an address that does not exist. */
export async function sendNotFoundPage(request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
  const made = problemPage(NOT_FOUND, ['this address does not exist'], `urn:request:${request.id}`);
  return reply
    .code(404)
    .header('content-security-policy', POLICY)
    .type('text/html; charset=utf-8')
    .send(layout({ ...made, caller: null }));
}

const STYLESHEET_TAG = `"${sha256(STYLESHEET)}"`;

/** Accepts only a path of this service, so that sign-in cannot redirect elsewhere. */
function ownPath(path: string | undefined): string {
  return path !== undefined && /^\/(?![/\\])[\x21-\x5b\x5d-\x7e]*$/.test(path) ? path : '/';
}

async function sheetOf({ store }: RouteContext, caller: Caller, vehicleId: string, today: string) {
  const { history, outlook } = await store.outlooks.withHistory(caller, vehicleId, null);
  const vehicle = await store.vehicles.get(caller, vehicleId);
  const wear = wearAnswer(vehicleId, outlook, { today, until: null });
  const latest = history.visits.at(-1) ?? null;
  const openPoints = latest ? (await store.openPoints.ofVisit(caller, latest.id)).items : [];
  const charts = new Map<Axle, PartChart[]>(
    wear.axles.map(({ axle }) => [
      axle,
      partCharts(axlePicture(history, wear, axle, today)!, history.vehicle),
    ]),
  );
  return { vehicle, wear, visits: history.visits, openPoints, charts, today };
}
