import type { UsageParameters } from './experience.js';
import { HERMITE } from './normal.js';
import { seasonVariance } from './seasons.js';
import type { UsagePosterior, UsageWay } from './usagePosterior.js';

/**
 * Standstills. A vehicle in use begins to stand still at a constant hazard, and stands for an exponential time. Between
 * two odometer readings there is at most one spell in use or standing besides those at the ends.
 */

/** What the vehicle does at the beginning and at the end of a stretch. */
export const MOVES = [
  'in-use to in-use',
  'in-use to standing',
  'standing to in-use',
  'standing to standing',
] as const;

/** One of the ways to drive a stretch: with so many days in use. */
export interface Move {
  inUse: number;
  /** Variance of these days: that of the cell they stand for. */
  variance: number;
  /** The chance of it for each of {@link MOVES}, given the first half of its name. */
  useToUse: number;
  useToStanding: number;
  standingToUse: number;
  standingToStanding: number;
  /** The nodes of the pace that could have driven the distance so; whoever knows it fills them in. */
  first: number;
  end: number;
}

const DAYS_A_YEAR = 365.25;
const MAX_CELLS = 5;
const MIN_CELLS = 2;
/** Days of a cell where the stretch is short. */
const CELL_DAYS = 40;

/**
 * The days of standstill within a stretch, by cells of equal width. Given what the vehicle did at its beginning, the
 * chances sum to one: what is left out would otherwise favour seldom spells, and cells too wide frequent ones.
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

/** Means of an exponential variable of mean one in fifths of its distribution, and so on. */
const partsOfExponential = (parts: number): number[] => {
  const below = (u: number): number => (u === 1 ? 1 : u + (1 - u) * Math.log(1 - u));
  return Array.from(
    { length: parts },
    (_, part) => parts * (below((part + 1) / parts) - below(part / parts)),
  );
};

const PARTS_STANDING = partsOfExponential(8);
const PARTS_AHEAD = partsOfExponential(3);

/** Days, as points with weights that sum to one. */
export interface WeightedDays {
  days: number[];
  weights: number[];
}

/**
 * Days of use out of some days ahead. A vehicle that stands now loses what is left of its spell, which an exponential
 * variable does not remember the beginning of; one in use may stand later. Where it does not stand at all, the scatter
 * from day to day and of the season count; beside the length of a standstill they do not.
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
  const spells = expected / (1 - none);
  const lost = PARTS_AHEAD.map((part) => spells * spellDays * (1 + (part - 1) / Math.sqrt(spells)));
  const scattered = {
    days: HERMITE.map(([z]) => days + sd * z),
    weights: HERMITE.map(([, weight]) => none * weight),
  };
  if (none === 1) return scattered;
  return {
    days: [...scattered.days, ...lost.map((part) => days - Math.min(days, part))],
    weights: [...scattered.weights, ...lost.map(() => (1 - none) / lost.length)],
  };
}
