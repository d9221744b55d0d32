import { scoreReadingsAfter } from '../src/core/accuracy/scores.js';
import type { ReadingScore as NextReading } from '../src/core/accuracy/nextReading.js';
import { outlookFor } from '../src/core/assessment/outlook.js';
import { DEFAULT_POLICY } from '../src/core/assessment/policy.js';
import { chanceWithin, LONGEST_DAYS, PROBABILITIES, type Crossing } from '../src/core/forecast/crossing.js';
import type { Experience } from '../src/core/forecast/experience.js';
import type { History, HistoryVisit } from '../src/core/history.js';
import { lineRule, oracle, twoPointRule } from './rivals.js';
import type { SimulatedVehicle, Truth } from './worlds.js';

/** One forecast made at one visit, compared with the outcome; plain numbers, stored as JSON. */
export interface Case {
  vehicle: number;
  /** The shop whose experience it used. */
  shop: number;
  /** Visits so far, from 1. */
  visits: number;
  date: DateForecast;
  /** The readings of the next visit, for every third vehicle. */
  readings: NextReading[];
}

export interface DateForecast {
  /** The chance that the forecast gave to reaching the limit by the true day. */
  place: number;
  covered50: boolean;
  covered80: boolean;
  covered95: boolean;
  /** Truth before the 10 % date, and after the 90 % date. */
  early: boolean;
  late: boolean;
  noMedian: boolean;
  /** Continuous ranked probability score, days. */
  crps: number;
  /** Absolute errors in days, of the median and of the forecasts to compare with. */
  error: number;
  twoPoint: number;
  line: number;
  oracle: number;
}

/** Null before the first reading, when there is no forecast to score. */
export type Forecaster = (history: History) => Crossing | null;

/** The service's own forecast of the front axle. */
export const serviceForecaster =
  (experience: Experience): Forecaster =>
  (history) =>
    outlookFor(history, () => experience, DEFAULT_POLICY).axles[0]!.crossing;

/**
 * Forecasts at every visit of every vehicle, each from what was known on that day.
 *
 * @param from number of the first vehicle among all that are forecast
 */
export function forecastAll(
  vehicles: readonly SimulatedVehicle[],
  forecast: Forecaster,
  { experience, shop, from }: { experience: Experience; shop: number; from: number },
): Case[] {
  return vehicles.flatMap(({ history, found, truths, pace }, vehicle) =>
    truths.flatMap((truth, index): Case[] => {
      const known = { ...history, visits: history.visits.slice(0, index + 1) };
      const next = history.visits[index + 1] ?? found;
      const crossing = forecast(known);
      if (!crossing) return [];
      return [
        {
          vehicle: from + vehicle,
          shop,
          visits: index + 1,
          date: dateForecast(crossing, known, truth, pace),
          readings: next && vehicle % READINGS_OF_ONE_IN === 0 ? readingsOf(known, next, experience) : [],
        },
      ];
    }),
  );
}

/** A third of the vehicles have enough readings. */
const READINGS_OF_ONE_IN = 3;

const readingsOf = (known: History, next: HistoryVisit, experience: Experience): NextReading[] =>
  scoreReadingsAfter(
    { ...known, visits: [...known.visits, next] },
    known.visits.length - 1,
    'front',
    () => () => experience,
  );

function dateForecast(crossing: Crossing, known: History, truth: Truth, pace: number): DateForecast {
  const { daysLeft } = truth;
  const median = quantile(crossing, 0.5);
  return {
    place: chanceWithin(crossing, daysLeft),
    covered50: isCovered(crossing, daysLeft, 0.5),
    covered80: isCovered(crossing, daysLeft, 0.8),
    covered95: isCovered(crossing, daysLeft, 0.95),
    early: daysLeft < quantile(crossing, 0.1),
    late: daysLeft > quantile(crossing, 0.9),
    noMedian: median === Infinity,
    crps: crpsOf(crossing, daysLeft),
    error: errorOf(median, daysLeft),
    twoPoint: errorOf(twoPointRule(known), daysLeft),
    line: errorOf(lineRule(known), daysLeft),
    oracle: errorOf(oracle(truth, pace), daysLeft),
  };
}

/** Errors are capped at this many days, so that a few extreme ones do not dominate. */
const ERROR_CAP = 4000;

/** A date beyond 30 years, or no visible wear, counts as 30 years. */
function errorOf(days: number | null, daysLeft: number): number {
  return Math.min(ERROR_CAP, Math.abs(Math.min(LONGEST_DAYS, days ?? LONGEST_DAYS) - daysLeft));
}

/**
 * Days by which the limit is reached with any probability, linear between the stored ones; infinite beyond 30 years.
 */
function quantile({ already, days }: Crossing, probability: number): number {
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

function isCovered(crossing: Crossing, daysLeft: number, share: number): boolean {
  const tail = (1 - share) / 2;
  return quantile(crossing, tail) <= daysLeft && daysLeft <= quantile(crossing, 1 - tail);
}

const CRPS_POINTS = Array.from({ length: 100 }, (_, index) => (index + 0.5) / 100);

/** Twice the mean quantile loss. Quantiles beyond 30 years count as 30. */
function crpsOf(crossing: Crossing, daysLeft: number): number {
  const losses = CRPS_POINTS.map((probability) => {
    const over = daysLeft - Math.min(LONGEST_DAYS, quantile(crossing, probability));
    return over * (probability - Number(over < 0));
  });
  return 2 * mean(losses);
}

/** The results of a set of forecasts; shares are of forecasts. */
export interface DateScore {
  cases: number;
  covered50: number;
  covered80: number;
  covered95: number;
  /** Standard errors of `covered80`, with the forecasts of a vehicle, or of a shop, taken together. */
  seByVehicle: number;
  seByShop: number;
  early: number;
  late: number;
  noMedian: number;
  error: number;
  crps: number;
  againstTwoPoint: number;
  againstLine: number;
  againstOracle: number;
  tenths: number[];
}

export function dateScore(cases: readonly Case[]): DateScore {
  const meanOf = (value: (date: DateForecast) => number | boolean) =>
    mean(cases.map(({ date }) => Number(value(date))));
  const error = meanOf((date) => date.error);
  const covered = cases.map(({ date }) => Number(date.covered80));
  return {
    cases: cases.length,
    covered50: meanOf((date) => date.covered50),
    covered80: mean(covered),
    covered95: meanOf((date) => date.covered95),
    seByVehicle: clusteredSe(covered, cases.map(vehicleOf)),
    seByShop: clusteredSe(covered, cases.map(shopOf)),
    early: meanOf((date) => date.early),
    late: meanOf((date) => date.late),
    noMedian: meanOf((date) => date.noMedian),
    error,
    crps: meanOf((date) => date.crps),
    againstTwoPoint: error / meanOf((date) => date.twoPoint),
    againstLine: error / meanOf((date) => date.line),
    againstOracle: error / meanOf((date) => date.oracle),
    tenths: tenthsOf(cases.map(({ date }) => date.place)),
  };
}

/** The ratio of the error to that of other forecasts at the same visits, and its standard error by vehicle. */
export function errorAgainst(cases: readonly Case[], others: readonly Case[]): { ratio: number; se: number } {
  const placeOf = ({ vehicle, visits }: Case) => `${vehicle} ${visits}`;
  const rival = new Map(others.map((each) => [placeOf(each), each.date.error]));
  const both = cases.filter((each) => rival.has(placeOf(each)));
  const theirs = mean(both.map((each) => rival.get(placeOf(each))!));
  const ratio = mean(both.map(({ date }) => date.error)) / theirs;
  const off = both.map((each) => (each.date.error - ratio * rival.get(placeOf(each))!) / theirs);
  return { ratio, se: clusteredSe(off, both.map(vehicleOf)) };
}

export interface ReadingScore {
  readings: number;
  covered50: number;
  covered80: number;
  covered95: number;
  seByVehicle: number;
  crps: number;
  tenths: number[];
}

export function readingScore(cases: readonly Case[]): ReadingScore {
  const readings = cases.flatMap((each) => each.readings.map((reading) => ({ ...reading, each })));
  const coveredBy = (share: number) =>
    readings.map(({ chance }) => Number(Math.abs(chance - 0.5) <= share / 2));
  const covered = coveredBy(0.8);
  return {
    readings: readings.length,
    covered50: mean(coveredBy(0.5)),
    covered80: mean(covered),
    covered95: mean(coveredBy(0.95)),
    seByVehicle: clusteredSe(
      covered,
      readings.map(({ each }) => vehicleOf(each)),
    ),
    crps: mean(readings.map(({ crpsMm }) => crpsMm)),
    tenths: tenthsOf(readings.map(({ chance }) => chance)),
  };
}

const vehicleOf = ({ vehicle }: Case): string => String(vehicle);
const shopOf = ({ shop }: Case): string => String(shop);

/** Shares of places in each tenth from 0 to 1. */
const tenthsOf = (places: readonly number[]): number[] =>
  Array.from({ length: 10 }, (_, tenth) =>
    mean(places.map((place) => Number(Math.min(9, Math.floor(10 * place)) === tenth))),
  );

/** Standard error of a mean whose values are independent between clusters only. */
function clusteredSe(values: readonly number[], clusters: readonly string[]): number {
  const centre = mean(values);
  const sums = new Map<string, number>();
  values.forEach((value, index) => {
    sums.set(clusters[index]!, (sums.get(clusters[index]!) ?? 0) + value - centre);
  });
  const squares = [...sums.values()].reduce((sum, residual) => sum + residual * residual, 0);
  return (Math.sqrt(squares) / values.length) * Math.sqrt(sums.size / Math.max(1, sums.size - 1));
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
