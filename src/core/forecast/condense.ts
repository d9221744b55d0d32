import { hasStart, type PartTracks, type Track } from './filter.js';

/**
 * Long lives of parts made short, so that one measured hundreds of times costs little more than others. What is taken
 * together tells of thickness and rate what it would by itself, as far as anything shows. A life with an ordinary number
 * of readings is left as it is.
 */

/** Readings at the end of a life that are kept one by one. */
const KEPT = 12;
/** Those before them are taken together where they lie closer than the life's length over this. */
const STRETCHES = 24;
/** So many at most, so that the product of their densities stays a number. */
const MOST = 8;
/** Lives with fewer readings than this are left as they are. */
const MANY = 48;
/** A reading this many standard uncertainties of its gauge off the mean of those before it begins anew. */
const ALIKE = 4;

/** Readings of a life that lie close together, as one. */
interface Together {
  first: number;
  count: number;
  at: number;
  atSd: number;
  mm: number;
  /** Sum of the squares about their mean, mm². */
  scatter: number;
  gaugeVariance: number;
}

/** Of the sets before so many latest ones only the last readings count: they tell how fast the set wore as a whole. */
const RECENT_LIVES = 3;
const LAST_OF_OLD = 2;

/**
 * A part's lives, in which readings close together in the older part of a long one are taken as one: their mean, at
 * their mean place. One that is off the others stays by itself, as it may be a mistake.
 */
export function condensed(part: PartTracks): PartTracks {
  const { lives } = part;
  const isOld = (index: number): boolean => index < lives.length - RECENT_LIVES;
  if (!lives.some((life, index) => isLong(life) || isOld(index))) return part;
  return {
    ...part,
    lives: lives.map((life, index) => (isOld(index) ? endOf(life) : condensedLife(life))),
  };
}

/** A life with its last readings alone; one whose start is not known begins with its first. */
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

const isLong = ({ at }: Track): boolean => at.length >= MANY;

function condensedLife(life: Track): Track {
  if (!isLong(life)) return life;
  const { at, startAt, startMm, set } = life;
  const old = at.length - KEPT;
  const width = (at[old - 1]! - at[0]!) / STRETCHES;
  const groups: Together[] = [];
  for (let index = 0; index < at.length; index++) {
    const group = groups.at(-1);
    // The first reading may be what the life begins with.
    const isAlone = index <= 1 || index >= old;
    if (!isAlone && isClose(life, index, group!, width)) add(life, index, group!);
    else groups.push(alone(life, index));
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

/** Whether a reading lies close enough to those of a group, on the road and in thickness, to be one of them. */
function isClose({ at, mm, gaugeVariance }: Track, index: number, group: Together, width: number): boolean {
  const variance = gaugeVariance[index]!;
  return (
    group.count < MOST &&
    at[index]! - at[group.first]! < width &&
    variance === group.gaugeVariance &&
    (mm[index]! - group.mm) ** 2 < ALIKE ** 2 * variance
  );
}

const alone = ({ at, atSd, mm, gaugeVariance }: Track, index: number): Together => ({
  first: index,
  count: 1,
  at: at[index]!,
  atSd: atSd[index]!,
  mm: mm[index]!,
  scatter: 0,
  gaugeVariance: gaugeVariance[index]!,
});

function add({ at, atSd, mm }: Track, index: number, group: Together): void {
  group.count += 1;
  const apart = mm[index]! - group.mm;
  group.at += (at[index]! - group.at) / group.count;
  group.atSd += (atSd[index]! - group.atSd) / group.count;
  group.mm += apart / group.count;
  group.scatter += apart * (mm[index]! - group.mm);
}
