import { hasStart, type PartTracks, type Track } from './filter.js';

/**
 * Condenses long lives of parts, so that a part measured hundreds of times costs little more than any other. Replaces
 * nearby old readings by their mean, which carries practically the same information about thickness and rate. Does not
 * change lives with an ordinary number of readings.
 */

/** Number of latest readings of a life that are never grouped. */
const KEPT = 12;
/** Older readings may be grouped if they are within the life's length / STRETCHES of each other. */
const STRETCHES = 24;
/** Maximum readings per group, so that the product of their densities does not underflow. */
const MAX_GROUP = 8;
/** Minimum number of readings for a life to be condensed. */
const MIN_READINGS = 48;
/** A reading further than this from its group's mean, in standard uncertainties of the gauge, starts a new group. */
const MAX_APART = 4;

/** A group of nearby readings, to be replaced by its mean. */
interface Together {
  first: number;
  count: number;
  at: number;
  atSd: number;
  mm: number;
  /** Sum of squares about the mean, mm². */
  scatter: number;
  gaugeVariance: number;
}

/**
 * Number of latest sets that keep all their readings. An older set keeps only its last ones, which give its overall
 * rate.
 */
const RECENT_LIVES = 3;
const LAST_OF_OLD = 2;

/**
 * A part's lives, with nearby old readings of long lives replaced by their means. A reading that deviates from its
 * group stays separate, since it may be a misreading.
 */
export function condensed(part: PartTracks): PartTracks {
  const { lives } = part;
  const isOld = (index: number): boolean => index < lives.length - RECENT_LIVES;
  if (!lives.some((life, index) => isLong(life) || isOld(index))) return part;
  return {
    ...part,
    lives: lives.map((life, index) => (isOld(index) ? endOf(life) : condenseLife(life))),
  };
}

/** A life with its last readings only; unchanged if the start is unknown, since the first reading is then its start. */
function endOf(life: Track): Track {
  const { at, atSd, mm, gaugeVariance, counts, scatter } = life;
  if (!hasStart(life) || at.length <= LAST_OF_OLD) return life;
  const last = <Values extends Float64Array | undefined>(values: Values) =>
    values?.subarray(-LAST_OF_OLD) as Values;
  return {
    ...life,
    at: last(at),
    atSd: last(atSd),
    mm: last(mm),
    gaugeVariance: last(gaugeVariance),
    ...(counts && { counts: last(counts) }),
    ...(scatter && { scatter: last(scatter) }),
  };
}

const isLong = ({ at }: Track): boolean => at.length >= MIN_READINGS;

function condenseLife(life: Track): Track {
  if (!isLong(life)) return life;
  const { at, startAt, startMm, set } = life;
  const old = at.length - KEPT;
  const width = (at[old - 1]! - at[0]!) / STRETCHES;
  const groups: Together[] = [];
  for (let index = 0; index < at.length; index++) {
    const group = groups.at(-1);
    // Keep the first reading: it may be the start of the life.
    const isAlone = index <= 1 || index >= old;
    if (!isAlone && isClose(life, index, group!, width)) addToGroup(life, index, group!);
    else groups.push(groupOfOne(life, index));
  }
  const each = (of: (group: Together) => number): Float64Array => Float64Array.from(groups, of);
  return {
    startAt,
    startMm,
    ...(set && { set }),
    at: each((group) => group.at),
    atSd: each((group) => group.atSd),
    mm: each((group) => group.mm),
    gaugeVariance: each((group) => group.gaugeVariance),
    counts: each((group) => group.count),
    scatter: each((group) => group.scatter),
  };
}

/** Whether a reading is close enough to a group, in distance and thickness, to join it. */
function isClose({ at, mm, gaugeVariance }: Track, index: number, group: Together, width: number): boolean {
  const variance = gaugeVariance[index]!;
  return (
    group.count < MAX_GROUP &&
    at[index]! - at[group.first]! < width &&
    variance === group.gaugeVariance &&
    (mm[index]! - group.mm) ** 2 < MAX_APART ** 2 * variance
  );
}

const groupOfOne = ({ at, atSd, mm, gaugeVariance }: Track, index: number): Together => ({
  first: index,
  count: 1,
  at: at[index]!,
  atSd: atSd[index]!,
  mm: mm[index]!,
  scatter: 0,
  gaugeVariance: gaugeVariance[index]!,
});

function addToGroup({ at, atSd, mm }: Track, index: number, group: Together): void {
  group.count += 1;
  const apart = mm[index]! - group.mm;
  group.at += (at[index]! - group.at) / group.count;
  group.atSd += (atSd[index]! - group.atSd) / group.count;
  group.mm += apart / group.count;
  group.scatter += apart * (mm[index]! - group.mm);
}
