import { setTimeout } from 'node:timers/promises';
import { z } from 'zod';
import { RULE_SET_IDS } from '../../core/assessment/ruleSets.js';
import { invalid } from '../../core/refusal.js';
import { withConversions } from '../../core/units.js';
import { EXAMPLE_POLICY, Policy, PolicyBody } from '../../core/vocabulary/settings.js';
import type { Store, StoredPolicy } from '../../store/store.js';
import { EVERYONE, OWNER } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { etagOf, expectedVersions, sendVersioned } from '../etag.js';
import { problemResponses, resourceProblems } from '../problems.js';
import { answerJson, ifMatchHeader, ifNoneMatchHeader, notModified } from '../schemas.js';

const examplePolicy = answer({
  version: 1,
  body: PolicyBody.parse(EXAMPLE_POLICY),
  updatedAt: '2026-03-02T09:15:00.000Z',
  updatedBy: 'owner-1',
});

/** What a change of the settings may answer beside success. */
export const settingProblems = problemResponses(
  'malformed-request',
  'key-needed',
  'role-not-allowed',
  'stale-version',
  'body-too-large',
  'media-type-not-supported',
  'invalid',
  'precondition-needed',
  'too-many-requests',
  'unavailable',
  'storage-full',
);

/** How long the answer to a change of settings waits for outlooks to be worked out anew; the rest follows behind it. */
const PATIENCE_MS = 5_000;

/** Works the outlooks out under changed settings, waiting for the whole of it only where the shop is small. */
export async function refreshOutlooks(store: Store, onFault: (error: unknown) => void): Promise<void> {
  const done = store.outlooks.refresh().catch(onFault);
  const patience = new AbortController();
  await Promise.race([
    done,
    setTimeout(PATIENCE_MS, undefined, { signal: patience.signal }).catch(() => undefined),
  ]);
  patience.abort();
}

export async function policyRoutes(app: ZodServer, { store }: RouteContext): Promise<void> {
  app.get(
    '/policy',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getPolicy',
        summary: 'Read the shop’s policy',
        description:
          'Which rule sets apply, the shop’s own least thickness, what the reports ask by default, and how long between visits and readings.',
        tags: ['reference'],
        querystring: z.strictObject({}),
        headers: ifNoneMatchHeader,
        response: {
          200: answerJson(Policy, 'The policy in force.', examplePolicy),
          304: notModified,
          ...resourceProblems,
        },
      },
    },
    async (request, reply) =>
      sendVersioned(request, reply, answer(await store.settings.policy())) as z.infer<typeof Policy>,
  );

  app.put(
    '/policy',
    {
      config: { roles: OWNER },
      schema: {
        operationId: 'setPolicy',
        summary: 'Set the shop’s policy',
        description:
          'Replaces the whole policy. Every outlook is worked out anew under it: a vehicle asked for answers by it at once, reports as soon as their outlooks have had their turn.',
        tags: ['reference'],
        headers: ifMatchHeader,
        body: PolicyBody,
        response: { 200: answerJson(Policy, 'The policy now in force.', examplePolicy), ...settingProblems },
      },
    },
    async (request, reply) => {
      const expected = expectedVersions(request);
      refuseUnknownSets(request.body.ruleSets);
      const stored = await store.settings.setPolicy(request.body, expected, request.caller.name);
      await refreshOutlooks(store, (error) => request.log.error({ err: error }, 'outlooks not refreshed'));
      reply.header('etag', etagOf(stored.version));
      return answer(stored);
    },
  );
}

function refuseUnknownSets(ids: readonly string[]): void {
  const issues = ids.flatMap((id, index) =>
    RULE_SET_IDS.includes(id)
      ? []
      : [{ path: ['ruleSets', index], detail: `unknown rule set; known are ${RULE_SET_IDS.join(', ')}` }],
  );
  if (issues.length > 0) throw invalid(issues);
}

function answer({ version, body, updatedAt, updatedBy }: StoredPolicy): z.infer<typeof Policy> {
  const { padMinimum, ...rest } = body;
  return {
    id: 'policy',
    version,
    ...rest,
    padMinimum: padMinimum ? withConversions(padMinimum) : null,
    updatedAt,
    updatedBy,
  } as z.infer<typeof Policy>;
}
