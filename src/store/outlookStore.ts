import { eq, sql } from 'drizzle-orm';
import { outlookFor, type Outlook } from '../core/assessment/outlook.js';
import { notFound } from '../core/refusal.js';
import type { Database } from './database.js';
import { experienceOf } from './experience.js';
import { experienceKnownOn } from './knownExperience.js';
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

export function outlookStore({ database, policy, history }: StoreParts): OutlookStore {
  const stored = database
    .select({ fleet: vehicles.fleet, body: outlooks.body })
    .from(vehicles)
    .innerJoin(outlooks, eq(outlooks.vehicleSeq, vehicles.seq))
    .where(eq(vehicles.id, sql.placeholder('id')))
    .prepare();
  const knownOn = experienceKnownOn(database);
  const vehicleById = database
    .select()
    .from(vehicles)
    .where(eq(vehicles.id, sql.placeholder('id')))
    .prepare();

  return {
    async get(scope: Scope, vehicleId: string) {
      const row = stored.get({ id: vehicleId });
      if (!row || !isInScope(row, scope)) throw notFound('vehicle');
      return row.body;
    },

    async asOf(scope: Scope, vehicleId: string, date: string) {
      const row = vehicleById.get({ id: vehicleId });
      if (!row || !isInScope(row, scope)) throw notFound('vehicle');
      const visits = history.visitsOf(row.seq, row.id).filter((visit) => visit.date <= date);
      return outlookFor({ vehicle: row.body, visits }, experienceOf(row.body, knownOn(date)), policy);
    },
  };
}
