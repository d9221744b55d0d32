import { least } from 'd3-array';
import type { History } from '../history.js';
import { DISAGREE_SDS, padLives, type Life, type Observation } from '../lives.js';
import type { Road } from '../odometer.js';
import { PLACEMENT_SD_MM } from '../placement.js';
import type { Axle, Side } from '../vocabulary/terms.js';
import type { PadSpec } from '../vocabulary/vehicle.js';
import { covers, liningsOf, sidesOf, type LiningAt } from './linings.js';

/**
 * Readings of the thinnest lining on a day on which its candidates, the linings that it may be, were read too. The
 * thinnest is then one of the candidates, read twice, and not a further lining.
 */

/** A lining, with its lives as recorded and as the forecast uses them. */
export interface LivedLining extends LiningAt {
  recorded: Life<PadSpec>[];
  /** The same, but the readings of a lining that was also read as the thinnest combine both figures. */
  believed: Life<PadSpec>[];
  /** For the latest reading of the thinnest; null for named linings, or if no candidate was read that day. */
  sameDay: SameDay | null;
}

/** A reading of the thinnest, compared with its thinnest candidate, which is at `side` and `pad`. */
export interface SameDay extends LiningAt {
  /** How much thinner the reading of the thinnest is than that candidate's, mm. */
  thinnerMm: number;
  /** Whether reading error explains the difference. */
  isExplained: boolean;
  /** Whether every candidate was read. */
  isComplete: boolean;
}

/** Whether the thinnest is a lining that has a reading of its own. */
export const isSameLining = (sameDay: SameDay | null): boolean =>
  sameDay !== null && sameDay.isComplete && (sameDay.isExplained || sameDay.thinnerMm < 0);

/** The linings of an axle with their lives. */
export function livedLinings(
  history: History,
  road: Road,
  axle: Axle,
  sides = sidesOf(history, axle),
): LivedLining[] {
  const linings = liningsOf(history, axle, sides).map(({ side, pad }): LivedLining => {
    const recorded = padLives(history, road, axle, side, pad);
    return { side, pad, recorded, believed: recorded, sameDay: null };
  });
  for (const thinnest of linings.filter(({ pad }) => pad === 'thinnest')) {
    const others = linings.filter((other) => covers(thinnest, other));
    const wheels = thinnest.side === null ? sides : [thinnest.side];
    thinnest.recorded.forEach((life, index) => {
      for (const reading of life.observations) {
        const beside = besideReading(reading, others, wheels, history);
        if (!beside) continue;
        if (beside.sameDay.isComplete) takeBoth(beside);
        const isLatest = index === thinnest.recorded.length - 1 && reading === life.observations.at(-1);
        if (isLatest) thinnest.sameDay = beside.sameDay;
      }
    });
  }
  return linings;
}

/** The thinnest candidate read on the day of a reading of the thinnest. */
interface Beside {
  lining: LivedLining;
  reading: Observation;
  /** Standard deviation of the difference due to reading error, mm. */
  sdMm: number;
  sameDay: SameDay;
}

function besideReading(
  thinnest: Observation,
  others: readonly LivedLining[],
  wheels: readonly Side[],
  { visits }: History,
): Beside | null {
  const at = visits.indexOf(thinnest.visit);
  const read = others.flatMap((lining) => {
    const reading = readOn(lining, thinnest, at);
    return reading ? [{ lining, reading }] : [];
  });
  const byWheel = wheels.map((side) => {
    const ofWheel = read.filter(({ lining }) => lining.side === side);
    const named = ofWheel.filter(({ lining }) => lining.pad !== 'thinnest');
    const isNamed = named.length === LININGS_OF_A_WHEEL;
    return { read: isNamed ? named : ofWheel, isComplete: isNamed || ofWheel.length > named.length };
  });
  const first = least(
    byWheel.flatMap((wheel) => wheel.read),
    ({ reading }) => reading.mm,
  );
  if (!first) return null;
  const { lining, reading } = first;
  const sdMm = Math.sqrt(variance(thinnest) + variance(reading));
  const thinnerMm = reading.mm - thinnest.mm;
  return {
    lining,
    reading,
    sdMm,
    sameDay: {
      side: lining.side,
      pad: lining.pad,
      thinnerMm,
      isExplained: Math.abs(thinnerMm) <= DISAGREE_SDS * sdMm,
      isComplete: byWheel.every(({ isComplete }) => isComplete),
    },
  };
}

/** Inner and outer pad, or leading and trailing shoe. */
const LININGS_OF_A_WHEEL = 2;

/** A lining's reading on the day of another reading, preferably at the same visit, if the same linings were fitted. */
function readOn(
  { believed }: LivedLining,
  { visit, day, taken }: Observation,
  at: number,
): Observation | undefined {
  const fitted = believed.findLast(({ begunAt }) => begunAt < at || (begunAt === at && taken === 'as-left'));
  const read = fitted?.observations.filter((other) => other.day === day) ?? [];
  return read.find((other) => other.visit.id === visit.id && other.taken === taken) ?? read.at(-1);
}

const variance = ({ standardUncertaintyMm }: Observation): number =>
  standardUncertaintyMm ** 2 + PLACEMENT_SD_MM ** 2;

/**
 * Sets the lining's reading to the mean of both readings, weighted by their uncertainty. A thicker figure for the
 * thinnest adds nothing: the thinner candidate then is the thinnest. Of a far thinner figure, only as much counts here
 * as reading error explains; the figure also counts as a reading of the thinnest.
 */
function takeBoth({ lining, reading, sdMm, sameDay: { thinnerMm } }: Beside): void {
  if (thinnerMm <= 0) return;
  const share = variance(reading) / sdMm ** 2;
  const mm = reading.mm - share * Math.min(thinnerMm, DISAGREE_SDS * sdMm);
  lining.believed = lining.believed.map((life) =>
    life.observations.includes(reading)
      ? {
          ...life,
          observations: life.observations.map((each) => (each === reading ? { ...each, mm } : each)),
        }
      : life,
  );
}
