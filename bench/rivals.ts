import {
  lineRule as line,
  twoPointRule as twoPoint,
  type Mark,
  type Rule,
} from '../src/core/accuracy/rivals.js';
import { toDay } from '../src/core/calendar.js';
import type { History } from '../src/core/history.js';
import { toKm } from '../src/core/units.js';
import { PADS, SIDES } from '../src/core/vocabulary/terms.js';
import { LIMIT_MM, NEW_MM, type Truth } from './worlds.js';

/** The forecasts to compare with: those that a workshop makes by hand, and one that knows the true values. */

const positions = SIDES.flatMap((side) => PADS.map((pad) => ({ side, pad })));

/** Days from the latest visit until the earliest pad reaches its limit; infinite if no wear is visible. */
export const twoPointRule = (history: History): number | null => byHand(twoPoint, history);
export const lineRule = (history: History): number | null => byHand(line, history);

function byHand(rule: Rule, { vehicle, visits }: History): number | null {
  const { date, odometer } = vehicle.inService!;
  const fitted = { day: toDay(date), km: toKm(odometer!) };
  const marks = [
    fitted,
    ...visits.map((visit): Mark => ({ day: toDay(visit.date), km: visit.odometer!.km })),
  ];
  const pads = positions.map(({ side, pad }) => ({
    fitted: { ...fitted, mm: NEW_MM },
    limitMm: LIMIT_MM,
    looks: visits.flatMap(({ readings }, index) =>
      readings
        .filter((reading) => reading.kind === 'pad-thickness' && reading.side === side && reading.pad === pad)
        .map(({ mm }) => ({ ...marks[index + 1]!, mm })),
    ),
  }));
  return rule(pads, marks);
}

/** Knows the pads' true thickness and rates and the vehicle's mean km a day, but not the future. */
export function oracle({ mm, rates }: Truth, pace: number): number {
  return Math.min(...mm.map((left, pad) => (left - LIMIT_MM) / rates[pad]! / (pace / 1000)));
}
