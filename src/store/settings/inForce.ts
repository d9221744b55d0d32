import { asc, desc } from 'drizzle-orm';
import { policyFrom, type Policy } from '../../core/assessment/policy.js';
import { ownGauge, STANDARD_GAUGES, type Gauges } from '../../core/gauges.js';
import { DEFAULT_POLICY_BODY, type PolicyBody } from '../../core/vocabulary/settings.js';
import type { Database } from '../engine/sqlite/connection.js';
import { gauges, policies } from '../engine/sqlite/schema.js';

/** What the shop settled, as the core takes it; `revision` grows with every change. */
export interface Settings {
  revision: number;
  policy: Policy;
  /** What the due-soon report asks where its caller does not say; it decides what is due. */
  dueSoon: PolicyBody['dueSoon'];
  beforeTransfer: PolicyBody['beforeTransfer'];
  gauges: Gauges;
}

/** Both tables only ever grow, so that the number of their rows tells one state from another. */
export const REVISION_IN_FORCE = '((select count(*) from gauges) + (select count(*) from policies))';

/** Reads the settings in force; another process may have changed them since the last time. */
export function settingsReader(database: Database): () => Settings {
  const latestPolicy = database.select().from(policies).orderBy(desc(policies.version)).limit(1).prepare();
  const current = database.$client.prepare(`select ${REVISION_IN_FORCE}`).pluck();
  const allGauges = database.select().from(gauges).orderBy(asc(gauges.name), asc(gauges.version)).prepare();
  let known: Settings | null = null;
  return () => {
    const revision = current.get() as number;
    if (known?.revision !== revision) {
      const own = allGauges.all().map(({ name, body }) => [name, ownGauge(name, body)] as const);
      const body = complete(latestPolicy.get()?.body);
      known = {
        revision,
        policy: policyFrom(body),
        dueSoon: body.dueSoon,
        beforeTransfer: body.beforeTransfer,
        gauges: new Map([...STANDARD_GAUGES, ...own]),
      };
    }
    return known;
  };
}

/** A policy that was set by an earlier program lacks what has been added since; that has its default. */
export const complete = (body: Partial<PolicyBody> = {}): PolicyBody => ({ ...DEFAULT_POLICY_BODY, ...body });
