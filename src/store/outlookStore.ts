import { and, eq, sql } from 'drizzle-orm';
import { wearAnswer, type Outlook, type Question } from '../core/assessment/outlook.js';
import { fillTemplate } from '../core/assessment/wearTemplate.js';
import type { Database } from './database.js';
import { isInScope } from './findVehicle.js';
import { experienceKnownOn } from './knownExperience.js';
import { workOut } from './outlooks.js';
import type { StoreParts } from './parts.js';
import { outlooks, vehicles, wearAnswers } from './schema.js';
import { revisionInForce } from './settings.js';
import type { OutlookStore, Scope } from './store.js';

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
  findVehicle,
  versions,
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
  const ready = database
    .select({ fleet: vehicles.fleet, open: wearAnswers.open, text: wearAnswers.text })
    .from(vehicles)
    .innerJoin(wearAnswers, eq(wearAnswers.vehicleSeq, vehicles.seq))
    .where(and(eq(vehicles.id, sql.placeholder('id')), eq(wearAnswers.settingsRevision, revisionInForce)))
    .prepare();
  const knownOn = experienceKnownOn(database);

  function outlookOf(scope: Scope, vehicleId: string): Outlook {
    const row = stored.get({ id: vehicleId });
    if (!row || !isInScope(row, scope)) throw findVehicle.missing(scope, vehicleId);
    const inForce = settings();
    if (row.settingsRevision === inForce.revision) return row.body;
    // The settings have changed, and its turn to be worked out anew has not come yet.
    const { seq, body: vehicle } = findVehicle.standing(scope, vehicleId);
    const visits = history.visitsOf(seq, vehicleId);
    return workOut({ vehicle, visits }, experience(), inForce).outlook;
  }

  return {
    async get(scope: Scope, vehicleId: string) {
      return outlookOf(scope, vehicleId);
    },

    async wear(scope: Scope, vehicleId: string, question: Question) {
      const row = ready.get({ id: vehicleId });
      return row && isInScope(row, scope)
        ? fillTemplate(vehicleId, row, question)
        : JSON.stringify(wearAnswer(vehicleId, outlookOf(scope, vehicleId), question));
    },

    async asOf(scope: Scope, vehicleId: string, date: string) {
      const row = findVehicle.standing(scope, vehicleId);
      const vehicle = versions.vehicleBodyOn(row.seq, date);
      const visits = history.visitsOf(row.seq, row.id).filter((visit) => visit.date <= date);
      return workOut({ vehicle, visits }, knownOn(date), settings()).outlook;
    },

    refresh: refreshOutlooks,
  };
}
