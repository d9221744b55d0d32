import type { UsageParameters } from './experience.js';
import { HERMITE } from './normal.js';
import { seasonVariance } from './seasons.js';
import type { UsagePosterior, UsageWay } from './usagePosterior.js';

/**
 * Standstills. A vehicle in use stops at a constant hazard and stands for an exponential time. The model assumes at
 * most one complete spell of use or standstill between two odometer readings, besides those at the ends.
 */

/** Whether the vehicle is in use at the start and at the end of a stretch. */
export const MOVES = [
  'in-use to in-use',
  'in-use to standing',
  'standing to in-use',
  'standing to standing',
] as const;

/** One way to drive a stretch, with a given number of days in use. */
export interface Move {
  inUse: number;
  /** Variance of the days in use within the cell. */
  variance: number;
  /** Chance of each of {@link MOVES}, given the state at the start. */
  useToUse: number;
  useToStanding: number;
  standingToUse: number;
  standingToStanding: number;
  /** Range of pace nodes that could have driven the distance this way; the caller sets it. */
  first: number;
  end: number;
}

const DAYS_A_YEAR = 365.25;
const MAX_CELLS = 5;
const MIN_CELLS = 2;
/** Days per cell in short stretches. */
const CELL_DAYS = 40;

/**
 * Distribution of the days of standstill within a stretch, in cells of equal width. Given the state at the start, the
 * chances are normalised: leaving out the remainder would bias the fit towards rare spells, wider cells towards
 * frequent ones.
 */
export function spellsWithin(
  days: number,
  { spellsPerYear, spellDays }: Pick<UsageParameters, 'spellsPerYear' | 'spellDays'>,
): Move[] {
  const steady = move(days, 0, 1, 0, 0, 0);
  if (spellsPerYear === 0) return [steady];
  const begins = spellsPerYear / DAYS_A_YEAR;
  const ends = 1 / spellDays;
  const cells = Math.max(MIN_CELLS, Math.min(MAX_CELLS, Math.ceil(days / CELL_DAYS)));
  const width = days / cells;
  const moves = [steady, move(0, 0, 0, 0, 0, Math.exp(-ends * days))];
  steady.useToUse = Math.exp(-begins * days);
  for (let cell = 0; cell < cells; cell++) {
    const standing = (cell + 0.5) * width;
    const inUse = days - standing;
    const both = Math.exp(-begins * inUse - ends * standing) * width;
    const again = begins * ends * both;
    moves.push(
      move(inUse, (width * width) / 12, again * inUse, begins * both, ends * both, again * standing),
    );
  }
  let fromUse = 0;
  let fromStanding = 0;
  for (const each of moves) {
    fromUse += each.useToUse + each.useToStanding;
    fromStanding += each.standingToUse + each.standingToStanding;
  }
  for (const each of moves) {
    each.useToUse /= fromUse;
    each.useToStanding /= fromUse;
    each.standingToUse /= fromStanding;
    each.standingToStanding /= fromStanding;
  }
  return moves;
}

const move = (
  inUse: number,
  variance: number,
  useToUse: number,
  useToStanding: number,
  standingToUse: number,
  standingToStanding: number,
): Move => ({
  inUse,
  variance,
  useToUse,
  useToStanding,
  standingToUse,
  standingToStanding,
  first: 0,
  end: 0,
});

/** Means of a unit exponential variable within each of `parts` equally likely parts. */
const partsOfExponential = (parts: number): number[] => {
  const below = (u: number): number => (u === 1 ? 1 : u + (1 - u) * Math.log(1 - u));
  return Array.from(
    { length: parts },
    (_, part) => parts * (below((part + 1) / parts) - below(part / parts)),
  );
};

const PARTS_STANDING = partsOfExponential(8);
const PARTS_AHEAD = partsOfExponential(3);

/** Points in days, with weights that sum to one. */
export interface WeightedDays {
  days: number[];
  weights: number[];
}

/**
 * Days of use within the days ahead. If the vehicle stands now, it loses the rest of its spell, whenever the spell
 * began (an exponential has no memory). If it is in use, it may stand later. Day-to-day scatter and season are included
 * only without a standstill, since a standstill far outweighs them.
 */
export function daysInUse(
  ahead: number,
  { isStanding, year, fromDay }: Pick<UsageWay, 'isStanding' | 'year' | 'fromDay'>,
  usage: Pick<UsagePosterior, 'dayToDay' | 'season' | 'spellsPerYear' | 'spellDays'>,
): WeightedDays {
  const { dayToDay, season, spellsPerYear, spellDays } = usage;
  if (isStanding) {
    const days = PARTS_STANDING.map((part) => ahead - Math.min(ahead, part * spellDays));
    return { days, weights: days.map(() => 1 / days.length) };
  }
  const days = year ? year.daysOfUse(fromDay, fromDay + ahead) : ahead;
  const phase = year ? year.variance(fromDay, fromDay + ahead) : 0;
  const sd = Math.sqrt(dayToDay * dayToDay * days + seasonVariance(season, ahead) + phase);
  const expected = year ? 0 : (spellsPerYear / DAYS_A_YEAR) * ahead;
  const none = Math.exp(-expected);
  const points: WeightedDays = { days: [], weights: [] };
  for (const [z, weight] of HERMITE) {
    points.days.push(days + sd * z);
    points.weights.push(none * weight);
  }
  if (none === 1) return points;
  const spells = expected / (1 - none);
  for (const part of PARTS_AHEAD) {
    const lost = spells * spellDays * (1 + (part - 1) / Math.sqrt(spells));
    points.days.push(days - Math.min(days, lost));
    points.weights.push((1 - none) / PARTS_AHEAD.length);
  }
  return points;
}
