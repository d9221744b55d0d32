import { outlookFor, type ExperienceFor } from '../src/core/assessment/outlook.js';
import { LONGEST_DAYS, PROBABILITIES, type Crossing } from '../src/core/forecast/crossing.js';
import type { History } from '../src/core/history.js';
import { lineRule, oracle, twoPointRule } from './rivals.js';
import type { SimulatedVehicle } from './worlds.js';

/** One forecast made at one visit, with what came of it. */
export interface Case {
  vehicle: number;
  /** Visits so far, from 1. */
  visits: number;
  daysLeft: number;
  crossing: Crossing;
  twoPoint: number | null;
  line: number | null;
  oracle: number;
}

/** Null before the first reading: then no forecast is given, and none is scored. */
export type Forecaster = (history: History) => Crossing | null;

/** The service's own forecast of the front axle. */
export function serviceForecaster(experienceFor: ExperienceFor): Forecaster {
  return (history) => {
    const outlook = outlookFor(history, experienceFor, {
      visitIntervalDays: 180,
      longestDaysWithoutReading: 365,
      ruleSets: [],
      padMinimumMm: null,
    });
    return outlook.axles[0]!.crossing;
  };
}

/** Forecasts at every visit of every vehicle, each from what was known on that day. */
export function forecastAll(vehicles: readonly SimulatedVehicle[], forecast: Forecaster): Case[] {
  return vehicles.flatMap(({ history, truths, pace }, vehicle) =>
    truths.flatMap((truth, index): Case[] => {
      const known = { ...history, visits: history.visits.slice(0, index + 1) };
      const crossing = forecast(known);
      if (!crossing) return [];
      return [
        {
          vehicle,
          visits: index + 1,
          daysLeft: truth.daysLeft,
          crossing,
          twoPoint: twoPointRule(known),
          line: lineRule(known),
          oracle: oracle(truth, pace),
        },
      ];
    }),
  );
}

/** Errors are capped here, days, so that a few hopeless ones do not decide everything. */
const ERROR_CAP = 4000;

/** No date within 30 years, or no wear seen at all, counts as 30 years. */
function errorOf(days: number | null, { daysLeft }: Case): number {
  return Math.min(ERROR_CAP, Math.abs(Math.min(LONGEST_DAYS, days ?? LONGEST_DAYS) - daysLeft));
}

/** Days by which the limit is reached with any probability, straight between the kept ones; infinite beyond 30 years. */
export function quantile({ already, days }: Crossing, probability: number): number {
  if (probability <= already) return 0;
  const after = PROBABILITIES.findIndex((kept) => kept >= probability);
  if (after === -1) return Infinity;
  const late = days[after] ?? Infinity;
  if (after === 0 || late === Infinity) return late;
  const share =
    (probability - PROBABILITIES[after - 1]!) / (PROBABILITIES[after]! - PROBABILITIES[after - 1]!);
  const early = days[after - 1]!;
  return early + share * (late - early);
}

function isCovered({ crossing, daysLeft }: Case, share: number): boolean {
  const tail = (1 - share) / 2;
  return quantile(crossing, tail) <= daysLeft && daysLeft <= quantile(crossing, 1 - tail);
}

const CRPS_POINTS = Array.from({ length: 100 }, (_, index) => (index + 0.5) / 100);

/** Continuous ranked probability score in days: twice the mean quantile loss. Quantiles beyond 30 years count as 30. */
function crps({ crossing, daysLeft }: Case): number {
  const losses = CRPS_POINTS.map((probability) => {
    const over = daysLeft - Math.min(LONGEST_DAYS, quantile(crossing, probability));
    return over * (probability - Number(over < 0));
  });
  return 2 * mean(losses);
}

/** How a set of forecasts did. Shares are of forecasts; errors are of the median date, in days. */
export interface Score {
  cases: number;
  covered50: number;
  covered80: number;
  covered95: number;
  /** Standard error of `covered80`, the forecasts of one vehicle taken together. */
  covered80Se: number;
  /** Share of truths earlier than the 10 % and later than the 90 % date. */
  tooLate: number;
  tooEarly: number;
  error: number;
  crps: number;
  againstTwoPoint: number;
  againstLine: number;
  againstOracle: number;
  withoutMedian: number;
}

export function score(cases: readonly Case[]): Score {
  const share = (holds: (each: Case) => boolean) => mean(cases.map((each) => Number(holds(each))));
  const error = mean(cases.map((each) => errorOf(quantile(each.crossing, 0.5), each)));
  const covered80 = share((each) => isCovered(each, 0.8));
  return {
    cases: cases.length,
    covered50: share((each) => isCovered(each, 0.5)),
    covered80,
    covered95: share((each) => isCovered(each, 0.95)),
    covered80Se: clusteredSe(cases, covered80),
    tooLate: share(({ crossing, daysLeft }) => daysLeft < quantile(crossing, 0.1)),
    tooEarly: share(({ crossing, daysLeft }) => daysLeft > quantile(crossing, 0.9)),
    error,
    crps: mean(cases.map(crps)),
    againstTwoPoint: error / mean(cases.map((each) => errorOf(each.twoPoint, each))),
    againstLine: error / mean(cases.map((each) => errorOf(each.line, each))),
    againstOracle: error / mean(cases.map((each) => errorOf(each.oracle, each))),
    withoutMedian: share(({ crossing }) => quantile(crossing, 0.5) === Infinity),
  };
}

function clusteredSe(cases: readonly Case[], covered80: number): number {
  const byVehicle = new Map<number, number>();
  for (const each of cases) {
    const residual = Number(isCovered(each, 0.8)) - covered80;
    byVehicle.set(each.vehicle, (byVehicle.get(each.vehicle) ?? 0) + residual);
  }
  const squares = [...byVehicle.values()].reduce((sum, residual) => sum + residual * residual, 0);
  return Math.sqrt(squares) / cases.length;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
