import { toDay } from '../calendar.js';
import { COVERAGE_FACTOR } from '../gauges.js';
import type { History } from '../history.js';
import { itemAt } from '../items.js';
import type { Life, Observation } from '../lives.js';
import type { Road } from '../odometer.js';
import type { Range } from '../vocabulary/quantities.js';
import { SIDES, type Axle, type WorkKind } from '../vocabulary/terms.js';
import type { AxleWear, DateInterval } from '../vocabulary/wear.js';
import {
  QUANTILES,
  type Fan,
  type LimitLine,
  type PartEvent,
  type PicturedLife,
  type PicturedReading,
  type Position,
  type Quantile,
  type Ray,
} from './pictureShape.js';

/** Functions that the charts of linings and those of rotors or drums share. */

type Lived = Life<object>;

export interface PictureContext {
  history: History;
  road: Road;
  axle: Axle;
  wear: AxleWear;
  asAt: number | null;
  kmPerDay: number | null;
}

export const perDay = ({ low, median, high }: Range, kmPerDay: number): Range => ({
  low: (low * kmPerDay) / 1000,
  median: (median * kmPerDay) / 1000,
  high: (high * kmPerDay) / 1000,
});

/** Merges lines with the same figure and meaning; a line for all positions names none. */
export function mergeLines(lines: readonly LimitLine[], positions: number): LimitLine[] {
  const byMeaning = new Map<string, LimitLine>();
  for (const line of lines) {
    const meaning = `${line.kind} ${line.mm} ${line.source}`;
    const known = byMeaning.get(meaning);
    byMeaning.set(meaning, {
      ...line,
      governs: line.governs || known?.governs === true,
      positions: [...new Set([...(known?.positions ?? []), ...line.positions])],
    });
  }
  return [...byMeaning.values()].map((line) =>
    line.positions.length === positions ? { ...line, positions: [] } : line,
  );
}

export const raysOf = (date: DateInterval, ray: (quantile: Quantile) => Omit<Ray, 'day'>): Fan['rays'] =>
  Object.fromEntries(
    QUANTILES.map((quantile) => {
      const day = date[quantile];
      return [quantile, { ...ray(quantile), day: day === null ? null : toDay(day) }];
    }),
  ) as Fan['rays'];

/** The quartile of a normal distribution relative to its 90 % point. */
const QUARTILE = 0.6744898 / 1.2815516;

/** Quantiles of a range; its quartiles are those of a normal distribution on either side of the median. */
export const quantilesOf = ({ low, median, high }: Range): Record<Quantile, number> => ({
  early: low,
  lowerQuartile: median + QUARTILE * (low - median),
  median,
  upperQuartile: median + QUARTILE * (high - median),
  late: high,
});

/** Lives shown per position: the present one and the one before. */
const LIVES_SHOWN = 2;

export const earlierSets = (lived: readonly (readonly Lived[])[]): number =>
  Math.max(0, ...lived.map((lives) => lives.length - LIVES_SHOWN));

export function positionOf(
  lives: readonly Lived[],
  { side, pad }: Pick<Position, 'side' | 'pad'>,
): Omit<Position, 'ahead'> {
  const shown = lives.slice(-LIVES_SHOWN).map((life, index, all): PicturedLife => {
    const { origin, start, startMm, observations } = life;
    return {
      fitted: start && startMm !== null ? { day: start.day, mm: startMm } : null,
      readings: observations.map(picturedReading),
      begunBy: origin === 'replaced' || origin === 'machined' ? start!.day : null,
      endedBy: all[index + 1]?.start?.day ?? null,
    };
  });
  return { side, pad, lives: shown, latest: itemAt(shown, -1).readings.at(-1) ?? null };
}

const picturedReading = ({ day, mm, standardUncertaintyMm, unit }: Observation): PicturedReading => ({
  day,
  mm,
  reachMm: COVERAGE_FACTOR * standardUncertaintyMm,
  unit,
});

/** The work that began or ended a life in the chart; both sides on one day count as one event. */
export function eventsOf(
  { visits }: History,
  axle: Axle,
  kinds: readonly WorkKind[],
  positions: readonly Position[],
): PartEvent[] {
  const days = new Set(
    positions.flatMap(({ lives }) => lives.flatMap(({ begunBy, endedBy }) => [begunBy, endedBy])),
  );
  const events: PartEvent[] = [];
  for (const { date, work } of visits) {
    const day = toDay(date);
    if (!days.has(day)) continue;
    for (const kind of kinds) {
      const items = work.filter((item) => item.kind === kind && item.axle === axle);
      if (items.length === 0) continue;
      const sides = SIDES.filter((side) => items.some((item) => item.side == null || item.side === side));
      events.push({ day, kind, side: sides.length === 1 ? itemAt(sides, 0) : null });
    }
  }
  return events;
}
