import { max, mean } from 'd3-array';
import { itemAt } from '../items.js';
import {
  chanceOf,
  draggingChance,
  partMixture,
  type Assumptions,
  type WearPosterior,
} from '../forecast/wear.js';
import { MIN_REPEATED } from '../forecast/newHypotheses.js';
import { mixtureQuantiles } from '../forecast/normal.js';
import type { History } from '../history.js';
import type { Life, Observation } from '../lives.js';
import type { Road } from '../odometer.js';
import { inWords, round, roundChance } from '../rounding.js';
import { toMm } from '../units.js';
import type { PadSpec } from '../vocabulary/vehicle.js';
import type { Axle, Side } from '../vocabulary/terms.js';
import type { Finding } from '../vocabulary/wear.js';
import { liningAtStart } from './limitFindings.js';
import type { PadPosition } from './padPosition.js';
import type { Foretold } from './foretold.js';

/** Findings from readings that do not fit the records: another set, other new parts, or a dragging part. */
export function setFindings(
  axle: Axle,
  pads: readonly PadPosition[],
  posterior: WearPosterior,
  foretold: readonly (Foretold | null)[],
  { history, road }: { history: History; road: Road },
): Finding[] {
  const repeated = readingsRepeated(axle, pads, posterior, foretold);
  const replaced = replacedFinding(axle, pads, posterior, history, road, repeated.length > 0);
  const other = otherNewFinding(axle, pads, posterior);
  const isExplained = replaced.length + other.length + repeated.length > 0;
  return [
    ...repeated,
    ...replaced,
    ...other,
    ...pads.flatMap((position, part) => draggingFinding(axle, position, posterior, part)),
    ...(isExplained ? [] : axleOffForecast(axle, pads, foretold)),
  ];
}

const LIKELY = 0.5;

/** A replacement that the readings show but no record has. */
export interface UnseenReplacement {
  /** Null if it concerns the whole axle. */
  side: Side | null;
  /** `between 2024-01-10 and 2024-09-10`. */
  when: string;
  numbers: { chance: number; fromKm: number; toKm: number };
}

/** The latest unrecorded replacement if it is likely. */
export function unseenReplacement(
  parts: readonly { side: Side | null }[],
  posterior: WearPosterior,
  { visits }: Pick<History, 'visits'>,
  { places }: Road,
): UnseenReplacement | null {
  const chance = chanceOf(posterior, ({ unseen }) => unseen !== null);
  const unseen = posterior.hypotheses.find(({ told }) => told.unseen)?.told.unseen;
  if (chance < LIKELY || !unseen) return null;
  const dateAt = (at: number): string | null => {
    const index = places.findLastIndex(({ km }) => km / 1000 <= at + 1e-6);
    return visits[index]?.date ?? null;
  };
  const sides = new Set(unseen.parts.map((part) => itemAt(parts, part).side));
  const [side = null] = sides.size === 1 && parts.some((part) => !sides.has(part.side)) ? sides : [];
  const from = dateAt(unseen.from);
  const to = dateAt(unseen.to);
  return {
    side,
    when: from === null ? `before ${to}` : `between ${from} and ${to}`,
    numbers: {
      chance: roundChance(chance),
      fromKm: Math.round(1000 * unseen.from),
      toKm: Math.round(1000 * unseen.to),
    },
  };
}

function replacedFinding(
  axle: Axle,
  pads: readonly PadPosition[],
  posterior: WearPosterior,
  history: History,
  road: Road,
  isRepeated: boolean,
): Finding[] {
  const unseen = unseenReplacement(pads, posterior, history, road);
  if (!unseen) return [];
  const { side, when, numbers } = unseen;
  const linings = `${itemAt(pads, 0).lining}s`;
  const where = side === null ? '' : ` on the ${side}`;
  // Readings copied from the visit before say nothing of new linings.
  const opening = isRepeated ? 'If the readings stand,' : 'The readings say that';
  return [
    {
      code: 'replaced-without-record',
      axle,
      side,
      pad: null,
      severity: 'check',
      message: `${opening} new ${linings} were fitted${where} ${when}, but no replacement is recorded. The forecast counts from new ${linings}.`,
      check: `Were these ${linings} replaced ${when}? If so, record it. If not, measure again, and check that the front and rear axles were not mixed up.`,
      numbers,
    },
  ];
}

/** New parts whose thickness or diameter differs from the specification, mm. */
export interface OtherNew {
  specifiedMm: number;
  /** Median of the parts' first readings. */
  readMm: number;
  numbers: { chance: number; specifiedMm: number; readMm: number };
}

/** Parts whose first readings probably contradict the specification of new ones. */
export function otherNewOf(
  parts: readonly { present: Life<Pick<PadSpec, 'new'>> }[],
  posterior: WearPosterior,
): OtherNew | null {
  const chance = chanceOf(posterior, ({ otherNew }: Assumptions) => otherNew);
  const specified = parts.find(({ present }) => present.spec.new)?.present.spec.new;
  if (chance < LIKELY || !specified) return null;
  const specifiedMm = toMm(specified);
  const firsts = parts.flatMap(({ present }) => present.observations.slice(0, 1).map(({ mm }) => mm));
  const readMm = firsts.sort((a, b) => a - b)[firsts.length >> 1] ?? specifiedMm;
  return { specifiedMm, readMm, numbers: { chance: roundChance(chance), specifiedMm, readMm } };
}

function otherNewFinding(axle: Axle, pads: readonly PadPosition[], posterior: WearPosterior): Finding[] {
  const other = otherNewOf(pads, posterior);
  if (!other) return [];
  const { readMm, specifiedMm, numbers } = other;
  const linings = `${itemAt(pads, 0).lining}s`;
  return [
    {
      code: 'new-thickness-doubtful',
      axle,
      side: null,
      pad: null,
      severity: 'check',
      message: `The ${linings} first read about ${inWords(readMm)} mm, which does not fit the ${inWords(specifiedMm)} mm specified for new ones. The forecast goes by the readings.`,
      check: `Which ${linings} are fitted, and how thick are they when new? Correct the specification or the replacement.`,
      numbers,
    },
  ];
}

/** Minimum chance of dragging that gives a finding. */
const MIN_DRAGGING_CHANCE = 0.3;

function draggingFinding(
  axle: Axle,
  { side, pad, lining }: PadPosition,
  posterior: WearPosterior,
  part: number,
): Finding[] {
  const chance = draggingChance(posterior, part);
  // The thinnest of the axle may be another lining at each visit, so its wear is not compared with the others.
  if (side === null || chance < MIN_DRAGGING_CHANCE) return [];
  const rate = itemAt(mixtureQuantiles(partMixture(posterior, part, 'rate'), [0.5]), 0);
  return [
    {
      code: 'dragging',
      axle,
      side,
      pad,
      severity: 'check',
      message: `${liningAtStart({ side, pad, lining })} has begun to wear much faster than the others, now about ${inWords(rate, 2)} mm per 1,000 km. It may be dragging.`,
      check:
        'Check that slides and pistons move freely, that the wheel turns freely, and that it stays cool on a drive.',
      numbers: { chanceDragging: roundChance(chance), ratePer1000KmMm: round(rate, 3) },
    },
  ];
}

/**
 * How far all pads of an axle must be off their forecasts in one direction to give a finding: in mm on average, and in
 * standard deviations for each pad.
 */
const AXLE_OFF_MM = 0.8;
const AXLE_OFF_SDS = 1.5;
const MIN_PADS = 2;

interface ReadAndForetold {
  latest: Observation;
  expected: Foretold;
}

const readAndForetold = (
  pads: readonly PadPosition[],
  foretold: readonly (Foretold | null)[],
): ReadAndForetold[] =>
  pads.flatMap(({ latest }, part) => {
    const expected = foretold[part];
    return latest && expected ? [{ latest, expected }] : [];
  });

/** Mean of the latest readings minus their forecasts, mm; a negative forecast counts as 0. */
const meanOffMm = (read: readonly ReadAndForetold[]): number =>
  mean(read, ({ latest, expected }) => latest.mm - Math.max(0, expected.medianMm())) ?? 0;

/** The latest readings of an axle, if every one equals the previous one. */
export function repeatedReadings(
  pads: readonly PadPosition[],
): { count: number; date: string; at: number | null; earlierDate: string } | null {
  const date = max(pads, ({ latest }) => latest?.visit.date);
  const read = pads.filter(({ latest }) => latest?.visit.date === date);
  const before = read.map(({ present, latest }) =>
    present.observations.findLast(({ visit }) => visit.id !== latest?.visit.id),
  );
  const isRepeated = read.every(({ latest }, index) => latest?.mm === before[index]?.mm);
  const [earlier] = before;
  if (!date || !earlier || read.length < MIN_REPEATED || !isRepeated) return null;
  const place = itemAt(read, 0).latest?.place;
  return { count: read.length, date, at: place ? place.km / 1000 : null, earlierDate: earlier.visit.date };
}

/** Every reading equals the previous one, although the linings should have worn: perhaps nobody measured. */
function readingsRepeated(
  axle: Axle,
  pads: readonly PadPosition[],
  posterior: WearPosterior,
  foretold: readonly (Foretold | null)[],
): Finding[] {
  const repeated = repeatedReadings(pads);
  if (!repeated) return [];
  const { count, date, at, earlierDate } = repeated;
  const expectedMm = meanOffMm(readAndForetold(pads, foretold));
  if (expectedMm < AXLE_OFF_MM) return [];
  const chanceCopied = chanceOf(posterior, ({ copiedAt }) => copiedAt !== null && copiedAt === at);
  const basis = chanceCopied >= LIKELY ? ' The forecast goes by the earlier readings.' : '';
  return [
    {
      code: 'readings-repeated',
      axle,
      side: null,
      pad: null,
      severity: 'check',
      message: `All ${count} readings of this axle on ${date} are the same as those of ${earlierDate}, although about ${inWords(expectedMm, 1)} mm of wear was expected.${basis}`,
      check:
        'Were the linings measured, or were the previous readings copied? Measure again, and correct this visit if they were copied.',
      numbers: {
        readings: count,
        expectedWearMm: round(expectedMm, 2),
        chanceCopied: roundChance(chanceCopied),
      },
    },
  ];
}

function axleOffForecast(
  axle: Axle,
  pads: readonly PadPosition[],
  foretold: readonly (Foretold | null)[],
): Finding[] {
  const off = readAndForetold(pads, foretold);
  const isOneWay = [1, -1].some((sign) => off.every(({ expected }) => sign * expected.z > AXLE_OFF_SDS));
  if (off.length < MIN_PADS || !isOneWay) return [];
  const meanMm = meanOffMm(off);
  if (Math.abs(meanMm) < AXLE_OFF_MM) return [];
  const direction = meanMm < 0 ? 'thinner' : 'thicker';
  return [
    {
      code: 'axle-off-forecast',
      axle,
      side: null,
      pad: null,
      severity: 'check',
      message: `All ${off.length} readings of this axle are ${direction} than forecast, by ${inWords(Math.abs(meanMm))} mm on average.`,
      check:
        'Check that the front and rear axles were not mixed up and that the gauge was set to zero. If the readings stand, ask what changed: driver, route or load.',
      numbers: { readings: off.length, meanDifferenceMm: round(meanMm, 2) },
    },
  ];
}
