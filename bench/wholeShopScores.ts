import { lineRule, twoPointRule, type Look, type Mark, type Rule } from '../src/core/accuracy/rivals.js';
import { axlesOf, outlookInParts } from '../src/core/assessment/outlook.js';
import { dateInterval } from '../src/core/assessment/forecastDates.js';
import type { AxleOutlook, ExperienceFor } from '../src/core/assessment/outlookShape.js';
import { DEFAULT_POLICY } from '../src/core/assessment/policy.js';
import { experienceOf, type KnownExperience } from '../src/core/assessment/whichExperience.js';
import { toDay } from '../src/core/calendar.js';
import { LONGEST_DAYS } from '../src/core/forecast/crossing.js';
import type { History } from '../src/core/history.js';
import { toKm, toMm } from '../src/core/units.js';
import type { Bar } from './bars.js';
import { LIMIT_MM, ODDITIES, POSITIONS } from './shopLife.js';
import type { ShopVehicle, StopTruth } from './shopHistory.js';

/** One forecast made at one visit, beside its clean twin's and a calculation by hand; days. Stored as JSON. */
export interface ShopCase {
  vehicle: number;
  /** Number of visits so far, from 1. */
  visits: number;
  truth: StopTruth & { daysLeft: number };
  own: Forecast;
  twin: Forecast;
  twoPoint: number;
  line: number;
}

/** The dates in the answer, as days from the visit; null if there is none or it is more than 30 years ahead. */
export interface Forecast {
  early: number | null;
  median: number | null;
  late: number | null;
  /** The chance of dragging that the answer gives, 0 if it mentions none. */
  dragging: number;
  /** What the answer says about the set, if anything. */
  set: string | null;
}

/** Forecasts at every visit of every vehicle from the first reading on, each from what was known on that day. */
export function forecastShop(vehicles: readonly ShopVehicle[], known: KnownExperience): ShopCase[] {
  return vehicles.flatMap(({ history, clean, truths }, vehicle) => {
    const experience = experienceOf(history.vehicle, known);
    return truths.flatMap((truth, index): ShopCase[] => {
      const { daysLeft } = truth;
      const seen = { ...history, visits: history.visits.slice(0, index + 1) };
      if (daysLeft === null || !seen.visits.some(({ readings }) => readings.length > 0)) return [];
      const { id } = history.visits[index]!;
      const upTo = clean.visits.findIndex((visit) => visit.id === id) + 1;
      return [
        {
          vehicle,
          visits: index + 1,
          truth: { ...truth, daysLeft },
          own: forecast(seen, experience),
          twin: forecast({ ...clean, visits: clean.visits.slice(0, upTo) }, experience),
          twoPoint: byHand(twoPointRule, seen),
          line: byHand(lineRule, seen),
        },
      ];
    });
  });
}

/** The service's answer on the front axle on the day of the latest visit. */
function forecast(history: History, experience: ExperienceFor): Forecast {
  const parts = outlookInParts(history, experience, DEFAULT_POLICY);
  const axle = parts.axle(axlesOf(history)[0]!);
  const { date } = history.visits.at(-1)!;
  const after = (on: string | null) => (on === null ? null : toDay(on) - toDay(date));
  const dates = axle.crossing && dateInterval(axle.crossing, date);
  return {
    early: dates && after(dates.early),
    median: dates && after(dates.median),
    late: dates && after(dates.late),
    dragging: draggingOf(axle),
    set: (axle.replacement.basis as { set?: string }).set ?? null,
  };
}

/** The highest chance of dragging in a finding on the axle. */
function draggingOf({ findings }: AxleOutlook): number {
  const chances = findings.flatMap(({ code, numbers }) =>
    code.includes('drag')
      ? Object.entries(numbers ?? {}).flatMap(([name, value]) =>
          /chance/i.test(name) && typeof value === 'number' ? [value] : [],
        )
      : [],
  );
  return Math.max(0, ...chances);
}

/**
 * Days until the earliest pad reaches its limit by a straight line through the shop's records at face value.
 * Without a recorded fitting the pads count as new at entry into service, whose odometer reading counts
 * as 0 if it is unknown.
 */
function byHand(rule: Rule, { vehicle, visits }: History): number {
  const { pad } = vehicle.axles.front!;
  const newMm = toMm(pad!.new!);
  const { inService } = vehicle;
  const changed = visits.findLastIndex(({ work }) => work.some(({ kind }) => kind === 'pads-replaced'));
  const entry = {
    day: toDay((inService ?? visits[0]!).date),
    km: inService?.odometer ? toKm(inService.odometer) : 0,
  };
  const places = visits.map(({ date, odometer }): Mark | null =>
    odometer ? { day: toDay(date), km: odometer.km } : null,
  );
  const marks = [...(inService ? [entry] : []), ...places.filter((place) => place !== null)];
  const start = changed >= 0 ? places[changed] : entry;
  const pads = POSITIONS.flatMap(({ side, pad: position }) => {
    const looks = visits.flatMap(({ readings }, index): Look[] => {
      const place = places[index];
      if (!place || index < changed) return [];
      return readings.flatMap((reading) =>
        reading.kind === 'pad-thickness' &&
        reading.side === side &&
        reading.pad === position &&
        (index > changed || reading.taken === 'as-left')
          ? [{ ...place, mm: reading.mm }]
          : [],
      );
    });
    const fitted = start ? { ...start, mm: newMm } : looks.shift();
    return fitted ? [{ fitted, looks, limitMm: LIMIT_MM }] : [];
  });
  const days = pads.length > 0 ? rule(pads, marks) : null;
  const passed = toDay(visits.at(-1)!.date) - (marks.at(-1)?.day ?? 0);
  return days === null ? LONGEST_DAYS : Math.max(0, Math.min(LONGEST_DAYS, days) - passed);
}

export interface Kind {
  name: string;
  holds: (each: ShopCase) => boolean;
  bar?: Bar;
}

const STOOD_LATELY_DAYS = 30;

/** By hidden truth; a case may be of several kinds. */
export const KINDS: readonly Kind[] = [
  {
    name: 'all',
    holds: () => true,
    bar: { covers: [77, 86], againstTwoPoint: 0.36, againstTwin: 1.2, outside: 12 },
  },
  {
    name: 'set recorded or original',
    holds: ({ truth }) => truth.set === 'recorded' || truth.set === 'original',
    bar: { covers: [78, 87], againstTwoPoint: 0.7 },
  },
  {
    name: 'set unknown',
    holds: ({ truth }) => truth.set === 'unknown',
    bar: { covers: [75, 100], againstTwoPoint: 0.1 },
  },
  {
    name: 'replaced and not recorded',
    holds: ({ truth }) => truth.set === 'unrecorded' && !truth.justForgotten,
    bar: { covers: [74, 100], againstTwoPoint: 0.1 },
  },
  { name: 'replaced at this visit, not recorded', holds: ({ truth }) => truth.justForgotten },
  {
    name: 'stood still lately',
    holds: ({ truth }) => truth.stoodDays >= STOOD_LATELY_DAYS,
    bar: { covers: [70, 100], againstTwoPoint: 0.25 },
  },
  { name: 'dragging', holds: ({ truth }) => truth.dragging, bar: { covers: [40, 100] } },
  {
    name: 'dragging, two readings or more since',
    holds: ({ truth }) => truth.readingsSinceDrag >= 2,
    bar: { covers: [60, 100] },
  },
  {
    name: 'answer gives dragging .3 or more',
    holds: ({ own }) => own.dragging >= 0.3,
    bar: { covers: [70, 100] },
  },
  { name: 'in a spell of other use', holds: ({ truth }) => truth.inSpell },
  { name: 'route changed in the last year', holds: ({ truth }) => truth.routeChangedLately },
  { name: 'odometer not read', holds: ({ truth }) => truth.odometer === 'unread' },
  { name: 'odometer mistyped', holds: ({ truth }) => truth.odometer === 'mistyped' },
  { name: 'odometer mistyped before', holds: ({ truth }) => truth.odometer === 'mistyped-before' },
  { name: 'a pad misread at this visit', holds: ({ truth }) => truth.misreadNow },
  ...ODDITIES.map((oddity): Kind => ({
    name: `oddity: ${oddity}`,
    holds: ({ truth }) => truth.oddity === oddity,
  })),
  { name: 'axles swapped at this visit', holds: ({ truth }) => truth.swappedNow },
  { name: 'first visit', holds: ({ visits }) => visits === 1 },
  { name: 'second', holds: ({ visits }) => visits === 2 },
  { name: 'third or fourth', holds: ({ visits }) => visits === 3 || visits === 4 },
  { name: 'fifth or later', holds: ({ visits }) => visits >= 5 },
];

/** Errors are capped at this many days, so that a few extreme ones do not dominate. */
const ERROR_CAP = 4000;

export interface ShopScore {
  cases: number;
  vehicles: number;
  /** Percentage, and its standard error with a vehicle's forecasts taken together. */
  covers: number;
  coversSe: number;
  early: number;
  late: number;
  /** Median absolute errors of the median date, days; and the mean of the service's. */
  error: number;
  meanError: number;
  twoPoint: number;
  line: number;
  twin: number;
  againstTwoPoint: number;
  againstTwin: number;
  twinCovers: number;
  /** Forecasts without a median date, percent. */
  noDate: number;
}

export function shopScore(cases: readonly ShopCase[]): ShopScore {
  const share = (which: (each: ShopCase) => boolean) => (100 * cases.filter(which).length) / cases.length;
  const errorsOf = (days: (each: ShopCase) => number | null) =>
    cases.map((each) => errorOf(days(each), each.truth.daysLeft));
  const own = errorsOf(({ own: { median } }) => median);
  const error = medianOf(own);
  const twoPoint = medianOf(errorsOf((each) => each.twoPoint));
  const twin = medianOf(errorsOf((each) => each.twin.median));
  return {
    cases: cases.length,
    vehicles: new Set(cases.map(({ vehicle }) => vehicle)).size,
    covers: share((each) => sideOf(each.own, each) === 'inside'),
    coversSe: 100 * clusteredSe(cases),
    early: share((each) => sideOf(each.own, each) === 'early'),
    late: share((each) => sideOf(each.own, each) === 'late'),
    error,
    meanError: own.reduce((sum, each) => sum + each, 0) / own.length,
    twoPoint,
    line: medianOf(errorsOf(({ line }) => line)),
    twin,
    againstTwoPoint: error / twoPoint,
    againstTwin: error / twin,
    twinCovers: share((each) => sideOf(each.twin, each) === 'inside'),
    noDate: share(({ own: { median } }) => median === null),
  };
}

/** Where the truth was relative to the 80 % interval; no date counts as later than all others. */
export function sideOf({ early, late }: Forecast, { truth }: ShopCase): 'early' | 'inside' | 'late' {
  if (truth.daysLeft < (early ?? Infinity)) return 'early';
  return truth.daysLeft > (late ?? Infinity) ? 'late' : 'inside';
}

export const errorOf = (days: number | null, truth: number): number =>
  Math.min(ERROR_CAP, Math.abs(Math.min(LONGEST_DAYS, days ?? LONGEST_DAYS) - truth));

function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length / 2;
  return (sorted[Math.floor(middle - 0.5)]! + sorted[Math.floor(middle)]!) / 2;
}

function clusteredSe(cases: readonly ShopCase[]): number {
  const inside = cases.map((each) => Number(sideOf(each.own, each) === 'inside'));
  const centre = inside.reduce((sum, each) => sum + each, 0) / inside.length;
  const sums = new Map<number, number>();
  cases.forEach(({ vehicle }, index) => {
    sums.set(vehicle, (sums.get(vehicle) ?? 0) + inside[index]! - centre);
  });
  const squares = [...sums.values()].reduce((sum, residual) => sum + residual * residual, 0);
  return (Math.sqrt(squares) / cases.length) * Math.sqrt(sums.size / Math.max(1, sums.size - 1));
}
