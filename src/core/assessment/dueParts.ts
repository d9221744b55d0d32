import { itemAt, required } from '../items.js';
import type { Crossing } from '../forecast/crossing.js';
import type { DuePart, LiningNames } from '../vocabulary/terms.js';
import type { DateInterval } from '../vocabulary/wear.js';
import { chanceBy, dateInterval, overdueFrom } from './forecastDates.js';
import type { LiningAt } from './linings.js';
import type { AxleOutlook } from './outlookShape.js';

/** When the parts of an axle are due: its linings, and its rotors or drums. */

/** The forecast of the axle's first rotor or drum to reach its limit. */
export interface CounterpartDue {
  part: 'rotors' | 'drums';
  crossing: Crossing;
  /** Whether a reading is past the limit. */
  failing: boolean;
  limitMm: number;
  lastReadingDate: string | null;
}

/** Null without a forecast. */
export function counterpartDue({ rotors, drums, counterparts }: AxleOutlook): CounterpartDue | null {
  const { first, crossings } = counterparts;
  if (!first) return null;
  const all = [
    ...rotors.map(({ fails, discardMm: limitMm, latestDate }) => ({ fails, limitMm, latestDate })),
    ...drums.map(({ fails, maximumMm: limitMm, latestDate }) => ({ fails, limitMm, latestDate })),
  ];
  const soonest = crossings.reduce(
    (best, crossing, index) => (isSooner(crossing, crossings[best] ?? null) ? index : best),
    0,
  );
  const { limitMm, latestDate } = itemAt(all, soonest);
  return {
    part: drums.length > 0 ? 'drums' : 'rotors',
    crossing: first,
    failing: all.some(({ fails }) => fails === true),
    limitMm: required(limitMm, 'limit of a part with a forecast'),
    lastReadingDate: latestDate,
  };
}

function isSooner(a: Crossing | null, b: Crossing | null): boolean {
  if (!a || !b) return a !== null;
  const index = a.days.findIndex((days, at) => days !== b.days[at]);
  return index >= 0 && (a.days[index] ?? Infinity) < (b.days[index] ?? Infinity);
}

/** The stored forecasts of an axle that decide what is due on it. */
export interface AxleForecasts {
  asAtDate: string | null;
  crossing: Crossing | null;
  failing: boolean;
  linings: LiningNames;
  governingPad: LiningAt | null;
  limitMm: number | null;
  limitSource: string | null;
  lastReadingDate: string | null;
  counterpart: CounterpartDue | null;
}

/** One kind of part of an axle, with its dates. */
export interface PartDue extends Omit<AxleForecasts, 'asAtDate' | 'crossing' | 'counterpart'> {
  part: DuePart;
  crossing: Crossing;
  dates: DateInterval;
}

/** The parts of an axle that have a forecast, soonest early date first. */
export function partsDue({ asAtDate, crossing, counterpart, ...linings }: AxleForecasts): PartDue[] {
  if (asAtDate === null) return [];
  const parts: PartDue[] = [];
  if (crossing) parts.push({ ...linings, part: 'pads', crossing, dates: dateInterval(crossing, asAtDate) });
  if (counterpart) {
    const dates = dateInterval(counterpart.crossing, asAtDate);
    parts.push({ ...counterpart, dates, linings: linings.linings, governingPad: null, limitSource: 'maker' });
  }
  return parts.sort((a, b) => compare(a.dates.early, b.dates.early));
}

/** Null means beyond any date and sorts last. */
function compare(a: string | null, b: string | null): number {
  if (a === b) return 0;
  return a !== null && (b === null || a < b) ? -1 : 1;
}

/** Date from which any part of the axle is overdue; null if never. */
export const axleOverdueFrom = (parts: readonly PartDue[]): string | null =>
  parts.map(({ failing, dates }) => overdueFrom(failing, dates.median)).sort(compare)[0] ?? null;

/** The part to name as due: the first by early date whose chance by the date reaches the minimum. */
export function dueFirst(
  parts: readonly PartDue[],
  asAtDate: string,
  { horizon, chance }: { horizon: string; chance: number },
): PartDue | null {
  return parts.find(({ crossing }) => chanceBy(crossing, asAtDate, horizon) >= chance) ?? null;
}
