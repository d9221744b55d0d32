import { eq, sql } from 'drizzle-orm';
import { outlookFor, type Outlook } from '../core/assessment/outlook.js';
import { notFound } from '../core/refusal.js';
import type { Database } from './database.js';
import { experienceOf, STARTING, type CurrentExperience } from './experience.js';
import type { StoreParts } from './parts.js';
import { outlooks, vehicles } from './schema.js';
import type { OutlookStore, Scope } from './store.js';
import { isInScope } from './vehicles.js';

/** Reads a vehicle's stored outlook; every vehicle has one from its creation. */
export function outlookReader(database: Database): (vehicleSeq: number) => Outlook {
  const select = database
    .select()
    .from(outlooks)
    .where(eq(outlooks.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare();
  return (vehicleSeq) => select.get({ vehicleSeq })!.body;
}

export function outlookStore({
  database,
  settings,
  history,
  experience,
  refreshOutlooks,
}: StoreParts): OutlookStore {
  const stored = database
    .select({ fleet: vehicles.fleet, body: outlooks.body, settingsRevision: outlooks.settingsRevision })
    .from(vehicles)
    .innerJoin(outlooks, eq(outlooks.vehicleSeq, vehicles.seq))
    .where(eq(vehicles.id, sql.placeholder('id')))
    .prepare();
  const vehicleById = database
    .select()
    .from(vehicles)
    .where(eq(vehicles.id, sql.placeholder('id')))
    .prepare();

  /** Works a vehicle's outlook out from its visits up to a date, with an experience. */
  function workOut(scope: Scope, id: string, until: string | null, known: CurrentExperience): Outlook {
    const row = vehicleById.get({ id });
    if (!row || !isInScope(row, scope)) throw notFound('vehicle');
    const { policy, gauges } = settings();
    const all = history.visitsOf(row.seq, row.id);
    const visits = until === null ? all : all.filter(({ date }) => date <= until);
    return outlookFor({ vehicle: row.body, visits, gauges }, experienceOf(row.body, known), policy);
  }

  return {
    async get(scope: Scope, vehicleId: string) {
      const row = stored.get({ id: vehicleId });
      if (!row || !isInScope(row, scope)) throw notFound('vehicle');
      if (row.settingsRevision === settings().revision) return row.body;
      // The settings have changed, and its turn to be worked out anew has not come yet.
      return workOut(scope, vehicleId, null, experience());
    },

    // What was learned since that date must not be looked at, and what was known then is not kept.
    asOf: async (scope: Scope, vehicleId: string, date: string) => workOut(scope, vehicleId, date, STARTING),

    refresh: refreshOutlooks,
  };
}
