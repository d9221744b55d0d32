import { z } from 'zod';
import { RULE_SET_IDS } from '../../core/assessment/ruleSets.js';
import { invalid } from '../../core/refusal.js';
import { withConversions } from '../../core/units.js';
import { EXAMPLE_POLICY, Policy, PolicyBody } from '../../core/vocabulary/settings.js';
import type { StoredPolicy } from '../../store/contract/settings.js';
import { EVERYONE, OWNER } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { etagOf, expectedVersions, sendVersioned } from '../etag.js';
import { resourceProblems } from '../problems.js';
import { answerJson, ifMatchHeader, ifNoneMatchHeader, notModified } from '../schemas.js';
import { refreshOutlooks, settingProblems } from '../settingChanges.js';

const examplePolicy = answer({
  version: 1,
  body: PolicyBody.parse(EXAMPLE_POLICY),
  updatedAt: '2026-03-02T09:15:00.000Z',
  updatedBy: 'owner-1',
});

export async function policyRoutes(app: ZodServer, { store }: RouteContext): Promise<void> {
  app.get(
    '/policy',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getPolicy',
        summary: 'Read the shop’s policy',
        description:
          'The rule sets that apply, the shop’s own minimum thickness, the default parameters of the reports, and the intervals between visits and between readings.',
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
          'Replaces the whole policy. The server then recomputes every outlook. A vehicle’s own answers follow the new policy at once. Reports follow as their outlooks are recomputed in the background.',
        tags: ['reference'],
        headers: ifMatchHeader,
        body: PolicyBody,
        response: { 200: answerJson(Policy, 'The new policy.', examplePolicy), ...settingProblems },
      },
    },
    async (request, reply) => {
      const expected = expectedVersions(request);
      refuseUnknownSets(request.body.ruleSets);
      const stored = await store.settings.setPolicy(request.caller, request.body, expected);
      await refreshOutlooks(store, request.log);
      reply.header('etag', etagOf(stored.version));
      return answer(stored);
    },
  );
}

function refuseUnknownSets(ids: readonly string[]): void {
  const issues = ids.flatMap((id, index) =>
    RULE_SET_IDS.includes(id)
      ? []
      : [
          {
            path: ['ruleSets', index],
            detail: `unknown rule set; the known ones are ${RULE_SET_IDS.join(', ')}`,
          },
        ],
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
