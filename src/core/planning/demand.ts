import { toDay } from '../calendar.js';
import { chanceWithin, PROBABILITIES, type Crossing } from '../forecast/crossing.js';
import type { CounterpartDue } from '../assessment/dueParts.js';
import { itemAt } from '../items.js';
import { round } from '../rounding.js';
import type { Spare } from '../vocabulary/terms.js';
import { countAt, noneOf, takeIn, type Count } from './counts.js';

/** Forecasts which parts will be fitted when: each axle's chance per month, and the total of many axles. */

/** Calendar months as YYYY-MM, starting with the month of a date. */
export function monthsFrom(today: string, months: number): string[] {
  const [year, month] = yearAndMonth(today);
  return Array.from({ length: months }, (_, ahead) =>
    new Date(Date.UTC(year, month - 1 + ahead, 1)).toISOString().slice(0, 7),
  );
}

/** The year and month of a date, or of a month as YYYY-MM. */
const yearAndMonth = (text: string): [year: number, month: number] => [
  Number(text.slice(0, 4)),
  Number(text.slice(5, 7)),
];

/** The last day of a calendar month. */
export function lastDayOf(month: string): string {
  const [year, number] = yearAndMonth(month);
  return new Date(Date.UTC(year, number, 0)).toISOString().slice(0, 10);
}

/** The stored values of an axle that determine which parts it will need. */
export interface AxleNeeds {
  crossing: Crossing | null;
  /** The date from which its days count. */
  asAtDate: string | null;
  /** Whether a reading fails its limit: the linings must be replaced now. */
  failing: boolean;
  /** When the first rotor or drum reaches its limit; null without a forecast. */
  counterpart: Pick<CounterpartDue, 'crossing' | 'failing'> | null;
  /** Chance that rotors or drums must be replaced with the next set of linings; null if unknown. */
  rotorChance: number | null;
  /** Whether rotors or drums must be replaced now, whatever the state of the linings. */
  rotorsNow: boolean;
}

/**
 * Chances that the first lining of an axle reaches its limit in each of the months. They add up to at most one, because
 * they leave out the next set. The first month includes the chance that the limit is already reached, and has the whole
 * chance if a reading fails.
 *
 * @param ends the last day of each month
 */
export function liningChances({ crossing, asAtDate, failing }: AxleNeeds, ends: readonly string[]): number[] {
  if (failing) return inFirst(ends);
  return perMonth(reachedBy(crossing, asAtDate, ends));
}

/**
 * Chances that the rotors or drums of an axle must be replaced in each of the months, given those of its linings: with
 * the linings, because they would not outlast the next set, or because they have reached their own limit by then.
 */
export function rotorChances(
  { asAtDate, counterpart, rotorChance, rotorsNow }: AxleNeeds,
  linings: readonly number[],
  ends: readonly string[],
): number[] {
  if (rotorsNow || counterpart?.failing) return inFirst(ends);
  const worn = reachedBy(counterpart?.crossing ?? null, asAtDate, ends);
  let withLinings = 0;
  return perMonth(
    worn.map((reached, month) => {
      withLinings += itemAt(linings, month) * (rotorChance ?? 0);
      return Math.max(reached, withLinings);
    }),
  );
}

const inFirst = (ends: readonly string[]): number[] => ends.map((_, month) => Number(month === 0));

/** Smaller chances count as 0, so that a month has no demand from an axle whose first date is after it. */
const MIN_CHANCE = itemAt(PROBABILITIES, 0);

/** The chance that a limit has been reached by the end of each month. */
function reachedBy(crossing: Crossing | null, asAtDate: string | null, ends: readonly string[]): number[] {
  if (!crossing || asAtDate === null) return ends.map(() => 0);
  const start = toDay(asAtDate);
  return ends.map((end) => {
    const chance = chanceWithin(crossing, toDay(end) - start);
    return chance < MIN_CHANCE ? 0 : chance;
  });
}

/** The increase in each month. */
function perMonth(reached: readonly number[]): number[] {
  let before = 0;
  return reached.map((chance) => {
    const added = Math.max(0, chance - before);
    before += added;
    return added;
  });
}

/** The linings of an axle, and its rotors or drums. */
const ITEMS = { disc: ['pad-set', 'rotor-pair'], drum: ['shoe-set', 'drum-pair'] } as const;
export type Brake = keyof typeof ITEMS;

export interface Demand {
  month: string;
  item: Spare;
  /** The sum of the chances. */
  expected: number;
  /** 10 % and 90 % points of the number. */
  low: number;
  high: number;
}

/** Adds up axles by group; the caller identifies each group by a text key. */
export function demandTally<Kind extends { brake: Brake }>(months: readonly string[]) {
  const kinds = new Map<string, { kind: Kind; linings: Count[]; rotors: Count[] }>();
  const none = () => months.map(noneOf);

  return {
    takeIn(name: string, kind: Kind, linings: readonly number[], rotors: readonly number[]): void {
      let counts = kinds.get(name);
      if (!counts) kinds.set(name, (counts = { kind, linings: none(), rotors: none() }));
      for (let month = 0; month < months.length; month++) {
        takeIn(itemAt(counts.linings, month), itemAt(linings, month));
        takeIn(itemAt(counts.rotors, month), itemAt(rotors, month));
      }
    },

    /** By month, then by group in order of appearance; omits parts without demand. */
    demands: (): (Kind & Demand)[] =>
      months.flatMap((month, index) =>
        [...kinds.values()].flatMap(({ kind, linings, rotors }) => {
          const [lining, rotor] = ITEMS[kind.brake];
          return [
            { month, ...kind, ...demandOf(lining, itemAt(linings, index)) },
            { month, ...kind, ...demandOf(rotor, itemAt(rotors, index)) },
          ].filter(({ expected }) => expected > 0);
        }),
      ),
  };
}

function demandOf(item: Spare, count: Count): Omit<Demand, 'month'> {
  return { item, expected: round(count.mean, 3), low: countAt(count, 0.1), high: countAt(count, 0.9) };
}
