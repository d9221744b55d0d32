import { streams, type Chance } from '../seed/random.js';
import { scoreReadingsAfter } from '../src/core/accuracy/scores.js';
import { recordOf } from '../src/core/assessment/record.js';
import {
  experienceOf,
  groupOf,
  STARTING,
  type KnownExperience,
} from '../src/core/assessment/whichExperience.js';
import { toFullDate } from '../src/core/calendar.js';
import { fitExperience } from '../src/core/forecast/fit.js';
import type { History, HistoryVisit } from '../src/core/history.js';

/** A row of a CSV file, every cell as text. */
export type Row = Record<string, string>;

/** A wearing unit, in the terms of a pad: distances in km, thicknesses in mm, from the first reading on. */
export interface Unit {
  km: number[];
  mm: number[];
}

/** A reading that was forecast at the previous one, or at the fitting. */
export interface ReadingCase {
  unit: number;
  /** Readings before it. */
  before: number;
  /** The chance that the forecast gave to a lower reading. */
  chance: number;
  /** Absolute errors, mm: of the median forecast, and of the least-squares line through the readings before. */
  off: number;
  lineOff: number | null;
}

const NEW_MM = 11;
/** Lining between new and the limit, which represents all the wear allowed to a unit. */
const USABLE_MM = 8;
/** The mean scales a unit's wear per distance to that of a pad. */
const RATE_PER_KM = 0.13 / 1000;
/** Units have no dates, so they get the use of ordinary vehicles; wear by distance does not depend on it. */
const KM_PER_DAY = 40;
const PACE_SPREAD = 0.4;
const INTERVAL_SPREAD = 0.2;
const FIRST_DAY = 14_610;

/** Wear in mm by operating time; liners are replaced at 4 mm. */
export const linerUnits = (rows: readonly Row[]): Unit[] =>
  scaled(grouped(rows, 'liner', 'operating_10000h', 'wear_mm'), 4);

/**
 * Cracks by Paris's law with exponent 3.73 (W. Q. Meeker and L. A. Escobar, Statistical Methods for Reliability Data,
 * 1998, from memory), which makes them grow linearly; the limit is 1.6 in if they begin at 0.9 in.
 */
export function fatigueUnits(rows: readonly Row[]): Unit[] {
  const straight = (length: number) => 1 - length ** (1 - 3.73 / 2);
  return scaled(cracks(rows, straight), straight(1.6 / 0.9));
}

/** The same cracks as measured: their growth accelerates, as no pad's wear does. */
export const rawFatigueUnits = (rows: readonly Row[]): Unit[] =>
  scaled(
    cracks(rows, (length) => length - 1),
    1.6 / 0.9 - 1,
  );

interface Wear {
  use: number;
  worn: number;
}

const cracks = (rows: readonly Row[], wornOf: (length: number) => number): Wear[][] =>
  grouped(rows, 'Path', 'cycles', 'relLength').map((unit) =>
    unit.filter(({ use }) => use > 0).map(({ use, worn }) => ({ use, worn: wornOf(worn) })),
  );

function grouped(rows: readonly Row[], unit: string, use: string, worn: string): Wear[][] {
  const units = new Map<string, Wear[]>();
  for (const row of rows) {
    const name = row[unit]!;
    units.set(name, [...(units.get(name) ?? []), { use: Number(row[use]), worn: Number(row[worn]) }]);
  }
  return [...units.values()];
}

function scaled(units: readonly Wear[][], limit: number): Unit[] {
  const sum = (of: (wear: Wear) => number) => units.reduce((total, unit) => total + of(unit.at(-1)!), 0);
  const mmPerWorn = USABLE_MM / limit;
  const kmPerUse = (mmPerWorn * sum(({ worn }) => worn)) / sum(({ use }) => use) / RATE_PER_KM;
  return units.map((unit) => ({
    km: unit.map(({ use }) => Math.round(use * kmPerUse)),
    mm: unit.map(({ worn }) => NEW_MM - worn * mmPerWorn),
  }));
}

/** A unit as a vehicle with one pad, fitted new at its first visit. */
function historyOf({ km, mm }: Unit, index: number, chance: Chance): History {
  const pace = chance.logNormal(KM_PER_DAY, PACE_SPREAD);
  let day = FIRST_DAY;
  const days = km.map((atKm, reading) => {
    const driven = atKm - (km[reading - 1] ?? 0);
    return (day += Math.max(1, Math.round(driven / chance.logNormal(pace, INTERVAL_SPREAD))));
  });
  const visit = (position: number, atKm: number, onDay: number): HistoryVisit => ({
    id: `${index}-${position}`,
    date: toFullDate(onDay),
    odometer: { value: atKm, unit: 'km', km: atKm },
    arrival: position,
    readings: [],
    conditions: [],
    work: [],
    notMeasured: [],
    torques: [],
  });
  const fitting = {
    ...visit(0, 0, FIRST_DAY),
    work: [{ id: 'w', kind: 'pads-replaced' as const, axle: 'front' as const }],
  };
  const looks = km.map((atKm, reading): HistoryVisit => ({
    ...visit(reading + 1, atKm, days[reading]!),
    readings: [
      {
        id: 'r',
        kind: 'pad-thickness',
        axle: 'front',
        side: 'left',
        pad: 'inner',
        at: 'thinnest',
        taken: 'as-found',
        repeat: 1,
        gauge: 'depth-gauge',
        value: mm[reading]!,
        unit: 'mm',
        mm: mm[reading]!,
      },
    ],
  }));
  return {
    vehicle: {
      externalId: `unit-${index}`,
      model: 'unit',
      powertrain: 'combustion',
      brakeSystem: { regenerative: false },
      axles: {
        front: {
          brake: 'disc',
          steered: true,
          pad: {
            new: { value: NEW_MM, unit: 'mm' },
            limit: { value: NEW_MM - USABLE_MM, unit: 'mm' },
          },
        },
      },
    },
    visits: [fitting, ...looks],
  };
}

/** Folds for a fit that leaves one unit out at a time. */
export const FITTED = Infinity;

/**
 * Forecasts every reading of every unit from those before it.
 *
 * @param folds null for the starting values; otherwise the units are split into this many folds, and each is forecast
 *   from a fit to those of the other folds
 */
export function scoreUnits(units: readonly Unit[], folds: number | null): ReadingCase[] {
  const chances = streams(1, units.length);
  const histories = units.map((unit, index) => historyOf(unit, index, chances[index]!));
  const count = Math.min(folds ?? 1, units.length);
  return Array.from({ length: count }, (_, fold) => fold).flatMap((fold) => {
    const others = histories.filter((_, index) => index % count !== fold);
    const known = folds === null ? STARTING : learnFrom(others);
    return histories.flatMap((history, index) =>
      index % count === fold ? scoreUnit(history, units[index]!, index, known) : [],
    );
  });
}

const learnFrom = (histories: readonly History[]): KnownExperience => ({
  version: 1,
  fitted: fitExperience(histories.map((history) => recordOf(history, groupOf(history.vehicle)))),
});

function scoreUnit(history: History, unit: Unit, index: number, known: KnownExperience): ReadingCase[] {
  const experience = experienceOf(history.vehicle, known);
  return unit.mm.flatMap((mm, before): ReadingCase[] => {
    const seen = { ...history, visits: history.visits.slice(0, before + 2) };
    return scoreReadingsAfter(seen, before, 'front', () => experience).map(({ chance, offMm }) => ({
      unit: index,
      before,
      chance,
      off: Math.abs(offMm),
      lineOff: before === 0 ? null : Math.abs(lineAt(unit, before) - mm),
    }));
  });
}

/** The straight line from new, by least squares through the readings before one, at its distance. */
function lineAt({ km, mm }: Unit, reading: number): number {
  let products = 0;
  let squares = 0;
  for (let index = 0; index < reading; index++) {
    products += km[index]! * (NEW_MM - mm[index]!);
    squares += km[index]! ** 2;
  }
  return NEW_MM - (products / squares) * km[reading]!;
}

export interface RealWearScore {
  readings: number;
  /** Percentage inside the 80 % interval, below and above it. */
  covers: number;
  below: number;
  above: number;
  /** Mean absolute error of the forecast, mm; that of the line, and their ratio, if the line gives one. */
  error: number;
  line: number | null;
  againstLine: number | null;
}

export function realWearScore(cases: readonly ReadingCase[]): RealWearScore {
  const share = (which: (each: ReadingCase) => boolean) => (100 * cases.filter(which).length) / cases.length;
  const mean = (values: readonly number[]) => values.reduce((sum, each) => sum + each, 0) / values.length;
  const both = cases.filter(({ lineOff }) => lineOff !== null);
  const line = both.length > 0 ? mean(both.map(({ lineOff }) => lineOff!)) : null;
  return {
    readings: cases.length,
    covers: share(({ chance }) => chance >= 0.1 && chance <= 0.9),
    below: share(({ chance }) => chance < 0.1),
    above: share(({ chance }) => chance > 0.9),
    error: mean(cases.map(({ off }) => off)),
    line,
    againstLine: line === null ? null : mean(both.map(({ off }) => off)) / line,
  };
}
