import { eq, sql } from 'drizzle-orm';
import { dateInterval, outlookFor, type AxleOutlook, type Outlook } from '../core/assessment/outlook.js';
import { wearTemplate } from '../core/assessment/wearTemplate.js';
import { toDay, toFullDate } from '../core/calendar.js';
import type { History } from '../core/history.js';
import type { Reason } from '../core/vocabulary/quantities.js';
import type { VehicleBody } from '../core/vocabulary/vehicle.js';
import type { Database } from './database.js';
import { experienceOf, type CurrentExperience, type KnownExperience } from './experience.js';
import { inserter } from './inserts.js';
import { axleOutlooks, forecastScores, outlooks, wearAnswers } from './schema.js';
import type { Settings } from './settings.js';

/** An outlook with what stands behind it. */
export interface WorkedOutlook<Version = number> {
  outlook: Outlook;
  experienceVersion: Version;
  settingsRevision: number;
}

export function workOut<Version extends number | string>(
  history: History,
  known: KnownExperience<Version>,
  { policy, gauges, revision }: Settings,
): WorkedOutlook<Version> {
  const outlook = outlookFor({ ...history, gauges }, experienceOf(history.vehicle, known), policy);
  return { outlook, experienceVersion: known.version, settingsRevision: revision };
}

/** What an outlook is worked out anew for; a new experience changes no forecast that was made before it. */
type Because = 'history' | 'experience';

/** Works a vehicle's outlook out and writes it; to be called within the transaction that changed the history. */
export function outlookWriter(
  database: Database,
  settings: () => Settings,
  experience: () => CurrentExperience,
) {
  const record = outlookRecorder(database);
  return (vehicleSeq: number, history: History, because: Because = 'history'): Outlook => {
    const worked = workOut(history, experience(), settings());
    record(vehicleSeq, history.vehicle, worked, because);
    return worked.outlook;
  };
}

export type OutlookWriter = ReturnType<typeof outlookWriter>;

/** Writes an outlook that has been worked out; to be called within a transaction. */
export function outlookRecorder(database: Database) {
  const upsert = database
    .insert(outlooks)
    .values({
      vehicleSeq: sql.placeholder('vehicleSeq'),
      body: sql.placeholder('body'),
      experienceVersion: sql.placeholder('experienceVersion'),
      settingsRevision: sql.placeholder('settingsRevision'),
    })
    .onConflictDoUpdate({
      target: outlooks.vehicleSeq,
      set: {
        body: sql`excluded.body`,
        experienceVersion: sql`excluded.experience_version`,
        settingsRevision: sql`excluded.settings_revision`,
      },
    })
    .prepare();
  const makeReady = database
    .insert(wearAnswers)
    .values({
      vehicleSeq: sql.placeholder('vehicleSeq'),
      settingsRevision: sql.placeholder('settingsRevision'),
      open: sql.placeholder('open'),
      text: sql.placeholder('text'),
    })
    .onConflictDoUpdate({
      target: wearAnswers.vehicleSeq,
      set: {
        settingsRevision: sql`excluded.settings_revision`,
        open: sql`excluded.open`,
        text: sql`excluded.text`,
      },
    })
    .prepare();
  const forget = database
    .delete(axleOutlooks)
    .where(eq(axleOutlooks.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare();
  const insert = inserter(database, axleOutlooks);
  const forgetScores = database
    .insert(forecastScores)
    .values({ vehicleSeq: sql.placeholder('vehicleSeq'), scores: null, revision: 1 })
    .onConflictDoUpdate({
      target: forecastScores.vehicleSeq,
      set: { scores: null, revision: sql`revision + 1` },
    })
    .prepare();

  return (
    vehicleSeq: number,
    vehicle: VehicleBody,
    { outlook, ...versions }: WorkedOutlook,
    because: Because = 'history',
  ): void => {
    const { settingsRevision } = versions;
    upsert.run({ vehicleSeq, body: outlook, ...versions });
    makeReady.run({ vehicleSeq, settingsRevision, ...wearTemplate(outlook) });
    if (because === 'history') forgetScores.run({ vehicleSeq });
    forget.run({ vehicleSeq });
    for (const axle of outlook.axles) insert({ vehicleSeq, ...reportColumns(axle, outlook, vehicle) });
  };
}

function reportColumns(axle: AxleOutlook, { asAt }: Outlook, vehicle: VehicleBody) {
  const { crossing, replacement } = axle;
  const dates = crossing && asAt ? dateInterval(crossing, asAt.date) : null;
  const firstDays = crossing?.days[0] ?? null;
  return {
    axle: axle.axle,
    fleet: vehicle.fleet ?? null,
    outOfServiceDate: vehicle.outOfService?.date ?? null,
    asAtDate: asAt?.date ?? null,
    firstDate: asAt && firstDays !== null ? toFullDate(toDay(asAt.date) + Math.floor(firstDays)) : null,
    earlyDate: dates?.early ?? null,
    medianDate: dates?.median ?? null,
    lateDate: dates?.late ?? null,
    failing: axle.failing,
    crossing: dates ? crossing : null,
    governingSide: replacement.governingPad?.side ?? null,
    governingPad: replacement.governingPad?.pad ?? null,
    limitMm: replacement.limitMm,
    limitSource: axle.limitSource,
    lastReadingDate: axle.lastReadingDate,
    unassessed: whyUnassessed(axle, dates?.early ?? null),
  };
}

/** An axle is assessed when it has a projection, be it that its date lies beyond any that is given. */
function whyUnassessed({ crossing, replacement }: AxleOutlook, earlyDate: string | null): Reason | null {
  const [reason] = replacement.reasons;
  if (crossing && (earlyDate !== null || reason?.code === 'beyond-30-years')) return null;
  return reason ?? null;
}
