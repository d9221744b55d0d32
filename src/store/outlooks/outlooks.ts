import { setImmediate } from 'node:timers/promises';
import { min } from 'd3-array';
import { liningName } from '../../core/assessment/adviceFacts.js';
import { axleOverdueFrom, counterpartDue, partsDue, type PartDue } from '../../core/assessment/dueParts.js';
import { outlookFor } from '../../core/assessment/outlook.js';
import { ALWAYS, expectedVisit } from '../../core/assessment/forecastDates.js';
import type { AxleOutlookRow } from '../engine/contract/outlooks.js';
import type { AxleOutlook, Outlook } from '../../core/assessment/outlookShape.js';
import { measureDateOf } from '../../core/assessment/measureFirst.js';
import { sharedOutlook, type WorkElsewhere } from '../../core/assessment/sharedOutlook.js';
import { wearTemplate } from '../../core/assessment/wearTemplate.js';
import {
  experienceOf,
  type CurrentExperience,
  type KnownExperience,
} from '../../core/assessment/whichExperience.js';
import { toDay, toFullDate } from '../../core/calendar.js';
import type { Cause } from '../../core/events/news.js';
import type { Crossing } from '../../core/forecast/crossing.js';
import type { History } from '../../core/history.js';
import type { Reason } from '../../core/vocabulary/quantities.js';
import type { StopFinding } from '../../core/vocabulary/wear.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { Components } from '../engine/contract/engine.js';
import type { NewsListener } from '../events/events.js';
import { programDigest } from './program.js';
import type { Settings } from '../settings/inForce.js';

/** An outlook with the versions of its inputs. */
export interface ComputedOutlook<Version = number> {
  outlook: Outlook;
  experienceVersion: Version;
  settingsRevision: number;
}

export function computeOutlook<Version extends number | string>(
  history: History,
  known: KnownExperience<Version>,
  { policy, gauges, revision }: Settings,
): ComputedOutlook<Version> {
  const outlook = outlookFor({ ...history, gauges }, experienceOf(history.vehicle, known), policy);
  return { outlook, experienceVersion: known.version, settingsRevision: revision };
}

/** Offloads axles to the worker thread when it is idle. Create only one, since it counts computations in flight. */
export function sharedWork(elsewhere: WorkElsewhere) {
  let underWay = 0;
  return async (
    history: History,
    known: CurrentExperience,
    { policy, gauges, revision }: Settings,
  ): Promise<ComputedOutlook> => {
    underWay += 1;
    try {
      // Let requests that have just arrived be counted first.
      await setImmediate();
      const outlook = await sharedOutlook(history, { known, policy, gauges }, elsewhere, underWay > 1);
      return { outlook, experienceVersion: known.version, settingsRevision: revision };
    } finally {
      underWay -= 1;
    }
  };
}

export type SharedWork = ReturnType<typeof sharedWork>;

/** Computes and writes a vehicle's outlook, in the transaction that changed the history. */
export function outlookWriter(
  record: OutlookRecorder,
  settings: () => Promise<Settings>,
  experience: () => Promise<CurrentExperience>,
) {
  return async (vehicleSeq: number, history: History, cause: Cause = 'history'): Promise<Outlook> => {
    const worked = computeOutlook(history, await experience(), await settings());
    await record(vehicleSeq, history.vehicle, worked, cause);
    return worked.outlook;
  };
}

export type OutlookWriter = ReturnType<typeof outlookWriter>;

/** Writes a computed outlook and raises its news, within a transaction. */
export function outlookRecorder(
  { outlooks }: Pick<Components, 'outlooks'>,
  clock: () => Date,
  listen: NewsListener,
) {
  return async (
    vehicleSeq: number,
    vehicle: VehicleBody,
    { outlook, ...versions }: ComputedOutlook,
    cause: Cause,
  ): Promise<void> => {
    const tell = await listen(vehicleSeq);
    const changedAt = clock().toISOString();
    await outlooks.put({
      vehicleSeq,
      body: outlook,
      ...versions,
      program: programDigest(),
      answer: wearTemplate(outlook),
      axles: outlook.axles.map((axle) => ({ changedAt, ...reportColumns(axle, outlook, vehicle) })),
      // A new experience does not change earlier forecasts, so their scores stay valid.
      expiresScores: cause !== 'experience',
    });
    await tell?.(outlook, cause);
  };
}

export type OutlookRecorder = ReturnType<typeof outlookRecorder>;

function reportColumns(
  axle: AxleOutlook,
  outlook: Outlook,
  vehicle: VehicleBody,
): Omit<AxleOutlookRow, 'vehicleSeq' | 'changedAt'> {
  const { replacement, failing, limitSource, lastReadingDate } = axle;
  const { governingPad, limitMm } = replacement;
  const names = `${liningName(axle)}s` as const;
  const asAtDate = outlook.asAt?.date ?? null;
  const crossing = asAtDate === null ? null : axle.crossing;
  const counterpart = counterpartDue(axle);
  const linings = { linings: names, crossing, failing, governingPad, limitMm, limitSource, lastReadingDate };
  const parts = partsDue({ asAtDate, counterpart, ...linings });
  return {
    axle: axle.axle,
    fleet: vehicle.fleet ?? null,
    model: vehicle.model ?? null,
    outOfServiceDate: vehicle.outOfService?.date ?? null,
    asAtDate,
    ...firstPartOf(parts),
    ...datesAhead(asAtDate, parts, crossing, outlook),
    failing,
    overdueFrom: axleOverdueFrom(parts) ?? (failing ? ALWAYS : null),
    crossing,
    counterpart,
    linings: names,
    governingSide: governingPad?.side ?? null,
    governingPad: governingPad?.pad ?? null,
    limitMm,
    limitSource,
    lastReadingDate,
    rotorChance: axle.rotorRenewal.withLinings,
    rotorsNow: axle.rotorRenewal.now,
    unassessed: whyUnassessed(axle, parts.find(({ part }) => part === 'pads')?.dates.early ?? null),
    stops: stopsOf(axle),
  };
}

/** The part due first, with its dates. */
function firstPartOf([first]: readonly PartDue[]) {
  const { early = null, median = null, late = null } = first?.dates ?? {};
  return { part: first?.part ?? null, earlyDate: early, medianDate: median, lateDate: late };
}

/**
 * Dates that follow from the latest visit: when any part may first reach a limit, when to measure again, the expected
 * visit.
 */
function datesAhead(
  asAtDate: string | null,
  parts: readonly PartDue[],
  crossing: Crossing | null,
  outlook: Outlook,
) {
  if (asAtDate === null) return { firstDate: null, measureDate: null, expectedDate: null };
  const firstDays = min(parts, ({ crossing: { days } }) => days[0]);
  return {
    firstDate: firstDays === undefined ? null : toFullDate(toDay(asAtDate) + Math.floor(firstDays)),
    measureDate: crossing && measureDateOf(crossing, asAtDate, outlook),
    expectedDate: expectedVisit(asAtDate, outlook),
  };
}

function stopsOf({ findings }: AxleOutlook): StopFinding[] | null {
  const stops = findings
    .filter(({ severity }) => severity === 'stop')
    .map(({ code, side, pad }) => ({ code, side, pad }));
  return stops.length > 0 ? stops : null;
}

/** An axle counts as assessed if it has a forecast, even if its date is beyond the forecast's range. */
function whyUnassessed({ crossing, replacement }: AxleOutlook, earlyDate: string | null): Reason | null {
  const [reason] = replacement.reasons;
  if (crossing && (earlyDate !== null || reason?.code === 'beyond-30-years')) return null;
  return reason ?? null;
}
