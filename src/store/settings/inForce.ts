import { asc, desc } from 'drizzle-orm';
import { policyFrom, type Policy } from '../../core/assessment/policy.js';
import { ownGauge, STANDARD_GAUGES, type Gauges } from '../../core/gauges.js';
import { DEFAULT_POLICY_BODY, type PolicyBody } from '../../core/vocabulary/settings.js';
import type { Database } from '../engine/sqlite/connection.js';
import { gauges, policies } from '../engine/sqlite/schema.js';
import { settingsRevisionReader } from '../engine/sqlite/statements.js';

/** What the shop settled, as the core takes it; `revision` grows with every change. */
export interface Settings {
  revision: number;
  policy: Policy;
  /** What the due-soon report asks where its caller does not say; it decides what is due. */
  dueSoon: PolicyBody['dueSoon'];
  beforeTransfer: PolicyBody['beforeTransfer'];
  gauges: Gauges;
}

/** Reads the settings in force; another process may have changed them since the last time. */
export function settingsReader(database: Database): () => Settings {
  const latestPolicy = database.select().from(policies).orderBy(desc(policies.version)).limit(1).prepare();
  const revisionInForce = settingsRevisionReader(database);
  const allGauges = database.select().from(gauges).orderBy(asc(gauges.name), asc(gauges.version)).prepare();
  let known: Settings | null = null;
  return () => {
    const revision = revisionInForce();
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
