import { and, eq, getTableColumns, sql, type SQL } from 'drizzle-orm';
import { measureDateOf } from '../core/assessment/measureFirst.js';
import {
  dateInterval,
  expectedVisit,
  outlookFor,
  overdueFrom,
  type AxleOutlook,
  type Outlook,
} from '../core/assessment/outlook.js';
import { wearTemplate } from '../core/assessment/wearTemplate.js';
import { toDay, toFullDate } from '../core/calendar.js';
import type { Cause } from '../core/events/news.js';
import type { History } from '../core/history.js';
import type { Reason } from '../core/vocabulary/quantities.js';
import type { VehicleBody } from '../core/vocabulary/vehicle.js';
import type { Database } from './database.js';
import type { NewsListener } from './events.js';
import { experienceOf, type CurrentExperience, type KnownExperience } from './experience.js';
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

/** Works a vehicle's outlook out and writes it; to be called within the transaction that changed the history. */
export function outlookWriter(
  record: OutlookRecorder,
  settings: () => Settings,
  experience: () => CurrentExperience,
) {
  return (vehicleSeq: number, history: History, cause: Cause = 'history'): Outlook => {
    const worked = workOut(history, experience(), settings());
    record(vehicleSeq, history.vehicle, worked, cause);
    return worked.outlook;
  };
}

export type OutlookWriter = ReturnType<typeof outlookWriter>;

/** Writes an outlook that has been worked out, and what is news in it; to be called within a transaction. */
export function outlookRecorder(database: Database, clock: () => Date, listen: NewsListener) {
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
  const upsertAxle = database
    .insert(axleOutlooks)
    .values({
      vehicleSeq: sql.placeholder('vehicleSeq'),
      axle: sql.placeholder('axle'),
      fleet: sql.placeholder('fleet'),
      model: sql.placeholder('model'),
      outOfServiceDate: sql.placeholder('outOfServiceDate'),
      asAtDate: sql.placeholder('asAtDate'),
      firstDate: sql.placeholder('firstDate'),
      earlyDate: sql.placeholder('earlyDate'),
      medianDate: sql.placeholder('medianDate'),
      lateDate: sql.placeholder('lateDate'),
      failing: sql.placeholder('failing'),
      overdueFrom: sql.placeholder('overdueFrom'),
      crossing: sql.placeholder('crossing'),
      governingSide: sql.placeholder('governingSide'),
      governingPad: sql.placeholder('governingPad'),
      limitMm: sql.placeholder('limitMm'),
      limitSource: sql.placeholder('limitSource'),
      lastReadingDate: sql.placeholder('lastReadingDate'),
      rotorChance: sql.placeholder('rotorChance'),
      rotorsNow: sql.placeholder('rotorsNow'),
      unassessed: sql.placeholder('unassessed'),
      measureDate: sql.placeholder('measureDate'),
      expectedDate: sql.placeholder('expectedDate'),
      changedAt: sql.placeholder('changedAt'),
    })
    .onConflictDoUpdate({ target: [axleOutlooks.vehicleSeq, axleOutlooks.axle], set: ANEW })
    .prepare();
  const forgetOthers = database
    .delete(axleOutlooks)
    .where(
      and(
        eq(axleOutlooks.vehicleSeq, sql.placeholder('vehicleSeq')),
        sql`${axleOutlooks.axle} not in (select value from json_each(${sql.placeholder('axles')}))`,
      ),
    )
    .prepare();
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
    cause: Cause,
  ): void => {
    const tell = listen(vehicleSeq);
    const { settingsRevision } = versions;
    upsert.run({ vehicleSeq, body: outlook, ...versions });
    makeReady.run({ vehicleSeq, settingsRevision, ...wearTemplate(outlook) });
    // A new experience changes no forecast that was made before it.
    if (cause !== 'experience') forgetScores.run({ vehicleSeq });
    forgetOthers.run({ vehicleSeq, axles: JSON.stringify(outlook.axles.map(({ axle }) => axle)) });
    const changedAt = clock().toISOString();
    for (const axle of outlook.axles)
      upsertAxle.run({ vehicleSeq, changedAt, ...reportColumns(axle, outlook, vehicle) });
    tell?.(outlook, cause);
  };
}

export type OutlookRecorder = ReturnType<typeof outlookRecorder>;

/** What is told of an axle in the reports; anything else may be written anew without a change. */
const TOLD = [
  axleOutlooks.asAtDate,
  axleOutlooks.crossing,
  axleOutlooks.failing,
  axleOutlooks.governingSide,
  axleOutlooks.governingPad,
  axleOutlooks.limitMm,
  axleOutlooks.limitSource,
  axleOutlooks.lastReadingDate,
  axleOutlooks.unassessed,
];

/** A row that is written anew keeps the instant of its last change where nothing that is told has changed. */
const ANEW: Record<string, SQL> = Object.fromEntries(
  Object.entries(getTableColumns(axleOutlooks)).map(([name, column]) => [
    name,
    sql.raw(`excluded.${column.name}`),
  ]),
);
ANEW.changedAt = sql.raw(
  `case when ${TOLD.map(({ name }) => `${name} is excluded.${name}`).join(' and ')} then changed_at else excluded.changed_at end`,
);

function reportColumns(axle: AxleOutlook, outlook: Outlook, vehicle: VehicleBody) {
  const { crossing, replacement } = axle;
  const { asAt } = outlook;
  const dates = crossing && asAt ? dateInterval(crossing, asAt.date) : null;
  const firstDays = crossing?.days[0] ?? null;
  return {
    axle: axle.axle,
    fleet: vehicle.fleet ?? null,
    model: vehicle.model ?? null,
    outOfServiceDate: vehicle.outOfService?.date ?? null,
    asAtDate: asAt?.date ?? null,
    firstDate: asAt && firstDays !== null ? toFullDate(toDay(asAt.date) + Math.floor(firstDays)) : null,
    earlyDate: dates?.early ?? null,
    medianDate: dates?.median ?? null,
    lateDate: dates?.late ?? null,
    failing: axle.failing,
    overdueFrom: overdueFrom(axle.failing, dates?.median ?? null),
    crossing: dates ? crossing : null,
    governingSide: replacement.governingPad?.side ?? null,
    governingPad: replacement.governingPad?.pad ?? null,
    limitMm: replacement.limitMm,
    limitSource: axle.limitSource,
    lastReadingDate: axle.lastReadingDate,
    rotorChance: axle.rotorRenewal.withLinings,
    rotorsNow: axle.rotorRenewal.now,
    unassessed: whyUnassessed(axle, dates?.early ?? null),
    measureDate: crossing && asAt ? measureDateOf(crossing, asAt.date, outlook) : null,
    expectedDate: asAt && expectedVisit(asAt.date, outlook),
  };
}

/** An axle is assessed when it has a projection, be it that its date lies beyond any that is given. */
function whyUnassessed({ crossing, replacement }: AxleOutlook, earlyDate: string | null): Reason | null {
  const [reason] = replacement.reasons;
  if (crossing && (earlyDate !== null || reason?.code === 'beyond-30-years')) return null;
  return reason ?? null;
}
