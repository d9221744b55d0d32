import { and, count, eq, gt, isNotNull, isNull, or, type SQL } from 'drizzle-orm';
import type { Axle } from '../core/vocabulary/terms.js';
import type { Database } from './database.js';
import { axleOutlooks, type vehicles } from './schema.js';
import type { Scope } from './store.js';
import { fleetCondition } from './vehicles.js';

/** Which axles a report is about. */

export const inFleet = (scope: Scope, fleet: string | null): SQL | undefined =>
  fleetCondition(axleOutlooks.fleet as unknown as typeof vehicles.fleet, scope, fleet);

export const inService = (today: string): SQL | undefined =>
  or(isNull(axleOutlooks.outOfServiceDate), gt(axleOutlooks.outOfServiceDate, today));

/** How many axles have no projection. */
export function countUnassessed(
  database: Database,
  scope: Scope,
  { today, fleet, axle = null }: { today: string; fleet: string | null; axle?: Axle | null },
): number {
  const where = and(
    isNotNull(axleOutlooks.unassessed),
    inFleet(scope, fleet),
    axle ? eq(axleOutlooks.axle, axle) : undefined,
    inService(today),
  );
  return database.select({ total: count() }).from(axleOutlooks).where(where).get()!.total;
}
