import { median, pairs } from 'd3-array';
import { toDay } from '../calendar.js';
import { chanceWithin } from '../forecast/crossing.js';
import { usageOn } from '../forecast/days.js';
import { paceQuantile } from '../forecast/usage.js';
import type { UsagePosterior } from '../forecast/usagePosterior.js';
import { ONE_JOB_DAYS, type History, type HistoryVisit } from '../history.js';
import { itemAt } from '../items.js';
import { layRoad, type Road } from '../odometer.js';
import { round } from '../rounding.js';
import { findNotFinite } from '../soundness.js';
import { AXLES, type Axle } from '../vocabulary/terms.js';
import type { AsAt, Finding } from '../vocabulary/wear.js';
import { axleOutlook } from './axle.js';
import type { LiningContext } from './padPosition.js';
import { cautionsFor } from './cautions.js';
import { byWeight, rearFaster } from './findings.js';
import type { AxleOutlook, Outlook, ExperienceFor } from './outlookShape.js';
import type { Policy } from './policy.js';
import { noOdometer } from './reasons.js';
import { recordedTwice } from './recordFindings.js';
import { roadTestFindings } from './roadTestFindings.js';
import { ruleSetsNamed } from './ruleSets.js';
import { usageFindings } from './usageFindings.js';

/** An outlook that can be computed axle by axle, independently. */
export interface OutlookInParts {
  axle: (axle: Axle) => AxleOutlook;
  /** Assembles the outlook from those of all axles, in their order. */
  whole: (outlooks: readonly AxleOutlook[]) => Outlook;
}

/** Computes a vehicle's outlook from its whole history. It does not depend on today's date. */
export function outlookFor(history: History, experienceFor: ExperienceFor, policy: Policy): Outlook {
  const { axle, whole } = outlookInParts(history, experienceFor, policy);
  return whole(axlesOf(history).map(axle));
}

export function outlookInParts(
  history: History,
  experienceFor: ExperienceFor,
  policy: Policy,
): OutlookInParts {
  const latest = history.visits.at(-1);
  const rhythmDays = rhythmOf(history);
  const linings = liningContext(history, experienceFor, policy);
  const { road, usage } = linings;
  const context = { ...linings, daysToNextVisit: rhythmDays ?? policy.visitIntervalDays };
  return {
    axle: (axle) => axleOutlook(context, axle, experienceFor(axle)),
    whole: (outlooks) =>
      sound({
        usage: road.isByDistance
          ? { kmPerDay: kmPerDay(usage), reasons: [] }
          : { kmPerDay: null, reasons: [noOdometer('kmPerDay')] },
        asAt: latest ? asAtOf(latest, road) : null,
        isOdometerDoubted: latest !== undefined && isDoubted(latest, road),
        rhythmDays,
        axles: withFindings(withFasterRear(outlooks), [
          ...roadTestFindings(history),
          ...usageFindings(road, usage),
          ...recordedTwice(history),
        ]),
        cautions: cautionsFor(history.vehicle, {
          done: latest?.work.map(({ kind }) => kind) ?? [],
          renewal: outlooks.some((axle) => isRenewalAtHand(axle, context.daysToNextVisit)),
        }),
        policy: {
          visitIntervalDays: policy.visitIntervalDays,
          longestDaysWithoutReading: policy.longestDaysWithoutReading,
          dueSoonDays: policy.dueSoonDays,
        },
      }),
  };
}

/** An outlook that cannot be right, which the server neither stores nor answers. */
export class UnsoundOutlook extends Error {
  override name = 'UnsoundOutlook';
}

/**
 * Returns the outlook if its numbers are finite, its chances are between 0 and 1, and its days increase with their
 * probabilities.
 *
 * @throws {UnsoundOutlook} if not
 */
function sound(outlook: Outlook): Outlook {
  const fault = findNotFinite(outlook) ?? findBadCrossing(outlook.axles);
  if (fault !== null) throw new UnsoundOutlook(`the outlook is unsound: ${fault}`);
  return outlook;
}

function findBadCrossing(axles: readonly AxleOutlook[]): string | null {
  for (const { axle, crossing, counterparts } of axles) {
    for (const each of [crossing, counterparts.first, ...counterparts.crossings]) {
      if (!each) continue;
      const { already, days } = each;
      if (already < 0 || already > 1)
        return `the ${axle} axle’s chance of having reached its limit already is ${already}`;
      const order = days.map((day) => day ?? Infinity);
      if (pairs(order, (before, after) => before > after || before < 0).includes(true)) {
        return `the ${axle} axle’s days to its limit are ${days.join(', ')}`;
      }
    }
  }
  return null;
}

export const axlesOf = ({ vehicle }: History): Axle[] => AXLES.filter((axle) => vehicle.axles[axle]);

/** The inputs of each axle's lining forecast. */
export function liningContext(history: History, experienceFor: ExperienceFor, policy: Policy): LiningContext {
  const road = layRoad(history);
  return {
    history,
    road,
    usage: usageOn(road, experienceFor(itemAt(axlesOf(history), 0))),
    ruleSets: ruleSetsNamed(policy.ruleSets),
    padMinimum: policy.padMinimumMm,
  };
}

/** Whether linings or rotors more likely than not need replacing by the next visit. */
function isRenewalAtHand(
  { failing, crossing, rotors, drums }: AxleOutlook,
  daysToNextVisit: number,
): boolean {
  return (
    failing ||
    (crossing !== null && chanceWithin(crossing, daysToNextVisit) >= 0.5) ||
    [...rotors, ...drums].some(({ decision }) => decision === 'replace' || decision === 'machine')
  );
}

/** The latest visit, with its odometer reading unless that is missing or doubted. */
function asAtOf(visit: HistoryVisit, road: Road): AsAt {
  const { date, odometer } = visit;
  return { date, odometerKm: odometer && !isDoubted(visit, road) ? odometer.km : null };
}

const isDoubted = ({ id }: HistoryVisit, { doubted }: Road): boolean =>
  doubted.some(({ visitId, field }) => visitId === id && field === 'odometer');

/** Adds findings on the whole vehicle to those of the first axle. */
function withFindings(axles: readonly AxleOutlook[], findings: readonly Finding[]): AxleOutlook[] {
  if (findings.length === 0) return [...axles];
  return axles.map((axle, index) =>
    index === 0 ? { ...axle, findings: byWeight([...axle.findings, ...findings]) } : axle,
  );
}

/** Adds a finding to the rear axle if its pads wear faster than the front ones. */
function withFasterRear(axles: readonly AxleOutlook[]): AxleOutlook[] {
  const front = axles.find(({ axle }) => axle === 'front');
  return axles.map((axle) =>
    axle.axle === 'rear' && front
      ? { ...axle, findings: byWeight([...axle.findings, ...rearFaster(front.pads, axle.pads)]) }
      : axle,
  );
}

const kmPerDay = (usage: UsagePosterior) => ({
  low: round(paceQuantile(usage, 0.1), 2),
  median: round(paceQuantile(usage, 0.5), 2),
  high: round(paceQuantile(usage, 0.9), 2),
});

const VISITS_IN_RHYTHM = 6;

/** Median days between the latest visits; null with fewer than three visits. */
function rhythmOf({ visits }: History): number | null {
  const days: number[] = [];
  for (const visit of visits) {
    const day = toDay(visit.date);
    if (days.length === 0 || day - itemAt(days, -1) >= ONE_JOB_DAYS) days.push(day);
  }
  if (days.length < 3) return null;
  const gaps = pairs(days, (before, after) => after - before);
  return Math.round(median(gaps.slice(-VISITS_IN_RHYTHM)) ?? 0);
}
