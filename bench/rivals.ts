import { toDay } from '../src/core/calendar.js';
import type { History } from '../src/core/history.js';
import { toKm } from '../src/core/units.js';
import { PADS, SIDES, type Pad, type Side } from '../src/core/vocabulary/terms.js';
import { LIMIT_MM, NEW_MM, type Truth } from './worlds.js';

/** What a workshop would work out by hand, and what nobody could: the forecasts that the service's are held against. */

interface Look {
  /** Since the pads were fitted: days, and distance in 1000 km. */
  day: number;
  distance: number;
  mm: number;
}

const newPad: Look = { day: 0, distance: 0, mm: NEW_MM };

const positions = SIDES.flatMap((side) => PADS.map((pad) => ({ side, pad })));

/** Days from the latest visit until the earliest pad reaches its limit; null where none is seen to wear. */
type Rule = (history: History) => number | null;

/** The rate from new to the latest reading, at the last two visits' km a day. */
export const twoPointRule: Rule = (history) => {
  const marks = marksOf(history);
  const [before, latest] = [marks.at(-2)!, marks.at(-1)!];
  const pace = (latest.distance - before.distance) / (latest.day - before.day);
  return earliest(history, pace, (looks) => {
    const last = looks.at(-1)!;
    return (NEW_MM - last.mm) / last.distance;
  });
};

/** The least-squares line of each pad through its thickness when fitted, at the mean km a day since. */
export const lineRule: Rule = (history) => {
  const latest = marksOf(history).at(-1)!;
  return earliest(history, latest.distance / latest.day, (looks) => {
    const sum = (term: (look: Look) => number) => looks.reduce((total, look) => total + term(look), 0);
    return sum(({ distance, mm }) => distance * (NEW_MM - mm)) / sum(({ distance }) => distance ** 2);
  });
};

/** Knows the pads' true thickness and rates and the vehicle's mean km a day; not what is still to happen. */
export function oracle({ mm, rates }: Truth, pace: number): number {
  return Math.min(...mm.map((left, pad) => (left - LIMIT_MM) / rates[pad]! / (pace / 1000)));
}

/**
 * Runs each pad's line from its last reading or along the line through the fitted value: both rules draw a straight
 * line from the new pad, so where it meets the limit follows from the rate alone.
 */
function earliest(history: History, pace: number, rateOf: (looks: Look[]) => number): number | null {
  const here = marksOf(history).at(-1)!.distance;
  const ends = positions.flatMap(({ side, pad }) => {
    const looks = looksAt(history, side, pad);
    if (looks.length === 0) return [];
    const rate = rateOf(looks);
    return rate > 0 ? [(NEW_MM - LIMIT_MM) / rate] : [];
  });
  if (ends.length === 0 || pace <= 0) return null;
  return Math.max(0, (Math.min(...ends) - here) / pace);
}

/** The fitting and every visit, without thickness. */
function marksOf({ vehicle, visits }: History): Pick<Look, 'day' | 'distance'>[] {
  const start = vehicle.inService!;
  const [startDay, startKm] = [toDay(start.date), toKm(start.odometer!)];
  return [
    newPad,
    ...visits.map(({ date, odometer }) => ({
      day: toDay(date) - startDay,
      distance: (odometer!.km - startKm) / 1000,
    })),
  ];
}

function looksAt(history: History, side: Side, pad: Pad): Look[] {
  const marks = marksOf(history);
  return history.visits.flatMap(({ readings }, index) =>
    readings
      .filter((reading) => reading.kind === 'pad-thickness' && reading.side === side && reading.pad === pad)
      .map(({ mm }) => ({ ...marks[index + 1]!, mm })),
  );
}
