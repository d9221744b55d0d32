import { z } from 'zod';
import { GAUGES, isOutOfDate, ownGauge } from '../../core/gauges.js';
import { itemAt } from '../../core/items.js';
import { EXAMPLE_GAUGE, Gauge, GaugeBody, type GaugeAnswer } from '../../core/vocabulary/settings.js';
import type { StoredGauge } from '../../store/contract/settings.js';
import { EVERYONE, OWNER } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { etagOf, expectedVersions, sendVersioned } from '../etag.js';
import { listProblems, resourceProblems } from '../problems.js';
import { answerJson, ifMatchIfKnownHeader, ifNoneMatchHeader, notModified } from '../schemas.js';
import { refreshOutlooks, settingProblems } from '../settingChanges.js';

const gaugeParams = z.strictObject({
  name: z
    .string()
    .regex(/^[a-z0-9](?:[a-z0-9-]{0,58}[a-z0-9])?$/, 'must be 1 to 60 lowercase letters, digits and hyphens')
    .meta({ description: 'The name of a gauge. Readings refer to it in `gauge`.', example: 'depth-gauge-2' }),
});
const exampleGauge = answer(
  { version: 1, gauge: ownGauge('depth-gauge-2', GaugeBody.parse(EXAMPLE_GAUGE)) },
  '2026-03-02',
);

export async function gaugeRoutes(app: ZodServer, { store, today }: RouteContext): Promise<void> {
  app.get(
    '/gauges',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'listGauges',
        summary: 'List the gauges',
        description:
          'The standard gauges and the shop’s own. A reading names one of them. If it names none, the server assumes a coarse gauge.',
        tags: ['reference'],
        querystring: z.strictObject({}),
        response: {
          200: answerJson(
            z.object({ items: z.array(Gauge), nextCursor: z.null() }).meta({ id: 'GaugeList' }),
            'All gauges.',
            { items: [answer({ version: 0, gauge: itemAt(GAUGES, 0) }, '2026-03-02')], nextCursor: null },
          ),
          ...listProblems,
        },
      },
    },
    async () => ({
      items: (await store.settings.gauges()).map((stored) => answer(stored, today())),
      nextCursor: null,
    }),
  );

  app.get(
    '/gauges/:name',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getGauge',
        summary: 'Read a gauge',
        description: 'Its resolution, standard uncertainty and calibration.',
        tags: ['reference'],
        params: gaugeParams,
        headers: ifNoneMatchHeader,
        response: {
          200: answerJson(Gauge, 'The gauge.', exampleGauge),
          304: notModified,
          ...resourceProblems,
        },
      },
    },
    async (request, reply) => {
      const stored = await store.settings.gauge(request.params.name);
      return sendVersioned(request, reply, answer(stored, today())) as GaugeAnswer;
    },
  );

  app.put(
    '/gauges/:name',
    {
      config: { roles: OWNER },
      schema: {
        operationId: 'setGauge',
        summary: 'Add or change a gauge',
        description:
          'Adds one of the shop’s own gauges, or replaces the description of an existing gauge, which needs If-Match. The server recomputes every outlook that uses its readings.',
        tags: ['reference'],
        params: gaugeParams,
        headers: ifMatchIfKnownHeader,
        body: GaugeBody,
        response: {
          200: answerJson(Gauge, 'The changed gauge.', exampleGauge),
          201: answerJson(Gauge, 'The added gauge.', exampleGauge),
          ...settingProblems,
        },
      },
    },
    async (request, reply) => {
      const { name } = request.params;
      const adds = request.headers['if-match'] === undefined && !(await isKnown(name));
      const expected = adds ? null : expectedVersions(request);
      const stored = await store.settings.setGauge(request.caller, name, request.body, expected);
      await refreshOutlooks(store, request.log);
      reply.code(stored.isNew ? 201 : 200).header('etag', etagOf(stored.version));
      return answer(stored, today());
    },
  );

  async function isKnown(name: string): Promise<boolean> {
    const stored = await store.settings.gauges();
    return stored.some(({ gauge }) => gauge.name === name);
  }
}

function answer({ version, gauge }: StoredGauge, today: string): GaugeAnswer {
  return { id: gauge.name, version, ...gauge, outOfDate: isOutOfDate(gauge, today) };
}
