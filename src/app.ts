import { randomUUID } from 'node:crypto';
import { maxHeaderSize } from 'node:http';
import fastify, { type FastifyRequest, type FastifyServerOptions } from 'fastify';
import type { Config } from './config.js';
import { dateIn } from './core/calendar.js';
import { authentication } from './http/auth.js';
import type { RouteContext, ZodServer } from './http/context.js';
import { idempotency } from './http/idempotency.js';
import { noteMethods, refuseOtherMethods, routeOtherMethods } from './http/methods.js';
import { readBodies } from './http/bodies.js';
import { answerUnreadable, refuseExpectation } from './http/unreadable.js';
import { AnswerLog } from './http/logging.js';
import { openApi } from './http/openapi.js';
import { pagingWith } from './http/paging.js';
import { isForPerson, pages, sendNotFoundPage } from './http/pages/pages.js';
import { securityHeaders } from './http/securityHeaders.js';
import { prepareRateLimits } from './http/rateLimit.js';
import {
  HttpProblem,
  InputRejected,
  problemHandlers,
  sendNotFound,
  sendProblem,
  type InputPart,
} from './http/problems.js';
import { calendarRoutes, calendarSubscriptionRoutes } from './http/routes/calendars.js';
import { correctionRoutes } from './http/routes/corrections.js';
import { accuracyRoutes } from './http/routes/accuracy.js';
import { experienceRoutes } from './http/routes/experience.js';
import { exportRoutes } from './http/routes/exports.js';
import { gaugeRoutes } from './http/routes/gauges.js';
import { healthRoutes } from './http/routes/health.js';
import { openPointRoutes } from './http/routes/openPoints.js';
import { policyRoutes } from './http/routes/policy.js';
import { limitRoutes } from './http/routes/limits.js';
import { historyRoutes } from './http/routes/histories.js';
import { measureFirstRoutes } from './http/routes/measureFirst.js';
import { mergeRoutes } from './http/routes/merging.js';
import { importRoutes } from './http/routes/imports.js';
import { keyRoutes } from './http/routes/keys.js';
import { partsDemandRoutes } from './http/routes/partsDemand.js';
import { replacementPlanRoutes } from './http/routes/replacementPlan.js';
import { reportRoutes } from './http/routes/reports.js';
import { stopsRoutes } from './http/routes/stops.js';
import { vehicleRoutes } from './http/routes/vehicles.js';
import { visitRoutes } from './http/routes/visits.js';
import { wearRoutes } from './http/routes/wear.js';
import { webhookRoutes } from './http/routes/webhooks.js';
import type { Answered } from './metrics.js';
import type { ImportStore } from './store/contract/imports.js';
import type { Store } from './store/contract/store.js';
import { z, type ZodType } from 'zod';

export interface AppOptions {
  store: Store;
  config: Pick<Config, 'timeZone' | 'rateLimitPerMinute'> &
    Partial<Pick<Config, 'failedKeysPerMinute' | 'trustProxy' | 'webhookAllowPrivate' | 'publicUrl'>>;
  clock?: () => Date;
  logger?: FastifyServerOptions['logger'];
  /** Called after every answer. */
  onAnswer?: (answered: Answered) => void;
}

/** HTTP/1.1 needs a Host, RFC 9112 section 3.2. */
const lacksHost = ({ headers, raw }: FastifyRequest): boolean =>
  headers.host === undefined && raw.httpVersion === '1.1';

const BODY_LIMIT_BYTES = 1024 * 1024;
/** Answers are data: a browser that displays one must not run or load anything from it. */
const RUN_NOTHING = "default-src 'none'; frame-ancestors 'none'";

const API_ROUTES = [
  vehicleRoutes,
  visitRoutes,
  openPointRoutes,
  correctionRoutes,
  mergeRoutes,
  historyRoutes,
  wearRoutes,
  replacementPlanRoutes,
  reportRoutes,
  measureFirstRoutes,
  stopsRoutes,
  calendarSubscriptionRoutes,
  partsDemandRoutes,
  accuracyRoutes,
  gaugeRoutes,
  policyRoutes,
  limitRoutes,
  experienceRoutes,
  importRoutes,
  exportRoutes,
  webhookRoutes,
  keyRoutes,
];

/** Builds the whole service without listening. Closing it does not close the store. */
export async function buildApp({
  store,
  config,
  clock = () => new Date(),
  logger = false,
  onAnswer,
}: AppOptions) {
  const app = newServer(config, logger);
  useSchemas(app);
  app.server.on('checkExpectation', refuseExpectation);
  await store.imports.recover();
  sendHeaders(app);
  refuseWhileClosing(app, store.imports);
  if (onAnswer) reportAnswers(app, onAnswer);
  problemHandlers(app);
  app.setNotFoundHandler(async (request, reply) =>
    isForPerson(request) ? sendNotFoundPage(request, reply) : sendNotFound(request, reply),
  );
  await prepareRateLimits(app, store.counts);
  await openApi(app);
  const context: RouteContext = {
    store,
    paging: pagingWith(await store.secret('cursors')),
    now: clock,
    today: () => dateIn(clock(), config.timeZone),
    webhookAllowPrivate: config.webhookAllowPrivate ?? false,
    publicUrl: config.publicUrl ?? null,
  };
  await serveWithoutKeys(app, context, config);
  await serveApi(app, context, config);
  return app;
}

type AppConfig = AppOptions['config'];

function newServer(config: AppConfig, logger: NonNullable<AppOptions['logger']>): ZodServer {
  return fastify({
    logger,
    logController: new AnswerLog(),
    bodyLimit: BODY_LIMIT_BYTES,
    ...(config.trustProxy?.length && { trustProxy: config.trustProxy }),
    // Allows for the largest file over a slow line; a caller without a key is refused before the body is read.
    requestTimeout: 600_000,
    // Node would answer a missing Host with an empty 400.
    http: { headersTimeout: 60_000, connectionsCheckingInterval: 10_000, requireHostHeader: false },
    connectionTimeout: 120_000,
    // Longer than the 60 s of common proxies: if the service closed an idle connection first, the proxy would answer
    // 502.
    keepAliveTimeout: 75_000,
    genReqId: () => randomUUID(),
    return503OnClosing: false,
    rewriteUrl: routeOtherMethods,
    clientErrorHandler: answerUnreadable,
    // Longer than any address, so that overlong parameters reach their own schema, after authentication.
    routerOptions: { maxParamLength: maxHeaderSize },
    frameworkErrors: (error, request, reply) => {
      // No hook runs for an address that cannot be decoded.
      void reply.headers({
        'request-id': request.id,
        'x-content-type-options': 'nosniff',
        'cache-control': 'no-store',
      });
      void sendProblem(request, reply, {
        code: 'malformed-request',
        detail: error.message,
      });
    },
  });
}

function useSchemas(app: ZodServer): void {
  app.setValidatorCompiler(({ schema, httpPart }) => (data: unknown) => {
    const result = (schema as ZodType).safeParse(data);
    return result.success
      ? { value: result.data }
      : { error: new InputRejected(httpPart as InputPart, result.error.issues) };
  });
  // Typed code builds the answers and the tests check them against their schemas, so plain JSON.stringify is enough.
  app.setSerializerCompiler(() => JSON.stringify);
  // A route that declares no query parameters accepts none.
  app.addHook('onRoute', (route) => {
    if (route.schema && !route.schema.hide) route.schema.querystring ??= z.strictObject({});
  });
}

function sendHeaders(app: ZodServer): void {
  const headers = securityHeaders();
  app.addHook('onRequest', (request, reply, done) => {
    reply.headers(headers).header('request-id', request.id);
    if (lacksHost(request))
      done(new HttpProblem('malformed-request', 'the Host header is missing', [], { connection: 'close' }));
    else done();
  });
}

function refuseWhileClosing(app: ZodServer, imports: ImportStore): void {
  let closing = false;
  app.addHook('preClose', async () => {
    closing = true;
    // Also closes connections whose answer has already begun, soon after it ends.
    app.server.keepAliveTimeout = 1;
    await imports.stop();
  });
  app.addHook('onRequest', (_request, _reply, done) => {
    if (closing) done(new HttpProblem('unavailable', 'the service is closing', [], { 'retry-after': '5' }));
    else done();
  });
  app.addHook('onSend', (_request, reply, payload, done) => {
    // A kept-alive connection would delay the shutdown.
    if (closing) reply.header('connection', 'close');
    done(null, payload);
  });
}

function reportAnswers(app: ZodServer, onAnswer: (answered: Answered) => void): void {
  app.addHook('onResponse', (request, reply, done) => {
    const route = request.routeOptions.url ?? 'none';
    const { statusCode: status, elapsedTime } = reply;
    onAnswer({ method: request.method, route, status, seconds: elapsedTime / 1000 });
    done();
  });
}

/** Health, calendars by their secret address, and the pages with their own sign-in. */
async function serveWithoutKeys(app: ZodServer, context: RouteContext, config: AppConfig): Promise<void> {
  await app.register(async (health: ZodServer) => {
    const noted = noteMethods(health);
    await health.register(healthRoutes, context);
    refuseOtherMethods(health, noted);
  });
  await app.register(async (calendars: ZodServer) => {
    const noted = noteMethods(calendars);
    await calendars.register(calendarRoutes, { ...context, rateLimitPerMinute: config.rateLimitPerMinute });
    refuseOtherMethods(calendars, noted);
  });
  await app.register(pages, { ...context, rateLimitPerMinute: config.rateLimitPerMinute });
}

async function serveApi(app: ZodServer, context: RouteContext, config: AppConfig): Promise<void> {
  await app.register(
    async (api: ZodServer) => {
      await api.register(authentication, {
        keys: context.store.keys,
        rateLimitPerMinute: config.rateLimitPerMinute,
        failedKeysPerMinute: config.failedKeysPerMinute ?? 0,
      });
      await api.register(idempotency, { outcomes: context.store.outcomes });
      readBodies(api);
      const noted = noteMethods(api);
      api.addHook('onSend', (_request, reply, payload, done) => {
        if (!reply.hasHeader('cache-control')) reply.header('cache-control', 'no-store');
        if (!reply.hasHeader('content-security-policy')) reply.header('content-security-policy', RUN_NOTHING);
        done(null, payload);
      });
      for (const routes of API_ROUTES) await routes(api, context);
      refuseOtherMethods(api, noted);
      // Unknown addresses under /v1 also require a key first.
      api.setNotFoundHandler({}, sendNotFound);
    },
    { prefix: '/v1' },
  );
}
