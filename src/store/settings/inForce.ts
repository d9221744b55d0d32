import { policyFrom, type Policy } from '../../core/assessment/policy.js';
import { ownGauge, STANDARD_GAUGES, type Gauges } from '../../core/gauges.js';
import { DEFAULT_POLICY_BODY, type PolicyBody } from '../../core/vocabulary/settings.js';
import type { ReadingComponents } from '../engine/contract/engine.js';

/** The shop's settings in the form the core uses; `revision` grows with every change. */
export interface Settings {
  revision: number;
  policy: Policy;
  /** Defaults of the due-soon report; they also decide which axles count as due. */
  dueSoon: PolicyBody['dueSoon'];
  beforeTransfer: PolicyBody['beforeTransfer'];
  gauges: Gauges;
}

/**
 * Reads the settings in force. Checks their revision each time, since another process may have changed them. The cache
 * serves all views of the data.
 */
export function settingsReader() {
  let known: Settings | null = null;

  async function read(
    { settings }: Pick<ReadingComponents, 'settings'>,
    revision: number,
  ): Promise<Settings> {
    const own = (await settings.gauges()).map(({ name, body }) => [name, ownGauge(name, body)] as const);
    const body = complete((await settings.latestPolicy())?.body);
    return {
      revision,
      policy: policyFrom(body),
      dueSoon: body.dueSoon,
      beforeTransfer: body.beforeTransfer,
      gauges: new Map([...STANDARD_GAUGES, ...own]),
    };
  }

  /** @param mayCache false within a transaction: what it has written may be rolled back */
  return (rows: Pick<ReadingComponents, 'settings'>, mayCache: boolean) => async (): Promise<Settings> => {
    const revision = await rows.settings.revision();
    if (known?.revision === revision) return known;
    const fresh = await read(rows, revision);
    if (mayCache) known = fresh;
    return fresh;
  };
}

/** A policy stored by an earlier program lacks newer members; those get their defaults. */
export const complete = (body: Partial<PolicyBody> = {}): PolicyBody => ({ ...DEFAULT_POLICY_BODY, ...body });
