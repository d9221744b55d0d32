import { hasStart, type PartTracks, type Track } from './filter.js';

/**
 * Condenses long lives of parts, so that a part measured hundreds of times costs little more than any other. Nearby old
 * readings are replaced by their mean, which carries practically the same information about thickness and rate. Lives
 * with an ordinary number of readings are unchanged.
 */

/** Number of latest readings of a life that are always kept as they are. */
const KEPT = 12;
/** Older readings are grouped if they lie within this fraction of the life's length: length / STRETCHES. */
const STRETCHES = 24;
/** Maximum readings per group, so that the product of their densities does not underflow. */
const MAX_GROUP = 8;
/** Minimum number of readings for a life to be condensed. */
const MANY = 48;
/** A reading further than this from its group's mean, in standard uncertainties of the gauge, starts a new group. */
const ALIKE = 4;

/** A group of nearby readings, replaced by its mean. */
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
 * Number of latest sets kept in full. Of older sets only the last readings matter: they give the set's overall rate.
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
    lives: lives.map((life, index) => (isOld(index) ? endOf(life) : condensedLife(life))),
  };
}

/** A life's last readings. Unchanged if the start is unknown, since it then begins with its first reading. */
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
    // Keep the first reading: it may be the start of the life.
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

/** Whether a reading is close enough to a group, in distance and thickness, to join it. */
function isClose({ at, mm, gaugeVariance }: Track, index: number, group: Together, width: number): boolean {
  const variance = gaugeVariance[index]!;
  return (
    group.count < MAX_GROUP &&
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
