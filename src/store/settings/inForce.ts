import { asc, desc } from 'drizzle-orm';
import { policyFrom, type Policy } from '../../core/assessment/policy.js';
import { ownGauge, STANDARD_GAUGES, type Gauges } from '../../core/gauges.js';
import { DEFAULT_POLICY_BODY, type PolicyBody } from '../../core/vocabulary/settings.js';
import type { Database } from '../engine/sqlite/connection.js';
import { gauges, policies } from '../engine/sqlite/schema.js';
import { settingsRevisionReader } from '../engine/sqlite/statements.js';

/** The shop's settings in the form the core uses; `revision` grows with every change. */
export interface Settings {
  revision: number;
  policy: Policy;
  /** Defaults of the due-soon report; they also decide which axles count as due. */
  dueSoon: PolicyBody['dueSoon'];
  beforeTransfer: PolicyBody['beforeTransfer'];
  gauges: Gauges;
}

/** Reads the settings in force; checks each time, since another process may have changed them. */
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

/** A policy stored by an earlier program lacks newer members; those get their defaults. */
export const complete = (body: Partial<PolicyBody> = {}): PolicyBody => ({ ...DEFAULT_POLICY_BODY, ...body });
