import { toDay } from '../calendar.js';
import { itemAt } from '../items.js';
import { isDrumBrake, padLives } from '../lives.js';
import type { Range, Reason } from '../vocabulary/quantities.js';
import type { AxleWear, PadWear } from '../vocabulary/wear.js';
import { positionInWords } from '../words.js';
import {
  earlierSets,
  eventsOf,
  mergeLines,
  perDay,
  positionOf,
  quantilesOf,
  raysOf,
  type PictureContext,
} from './pictureParts.js';
import type { Fan, LimitLine, Panel, Point, Position } from './pictureShape.js';

/** The chart of an axle's linings. */
export function liningPanel(context: PictureContext): Panel {
  const { history, road, axle, wear } = context;
  const { pads, replacement } = wear;
  const governing = pads.findIndex(
    ({ side, pad }) => side === replacement.governingPad?.side && pad === replacement.governingPad.pad,
  );
  const lived = pads.map(({ side, pad }) => padLives(history, road, axle, side, pad));
  const positions = pads.map((pad, index): Position => {
    const ahead = liningAhead(pad, context);
    return {
      ...positionOf(itemAt(lived, index), { side: pad.side, pad: pad.pad }),
      ahead: index !== governing && ahead ? { from: ahead.from, mmPerDay: ahead.mmPerDay.median } : null,
    };
  });
  return {
    part: isDrumBrake(history, axle) ? 'shoes' : 'pads',
    positions,
    limits: liningLimits(pads),
    events: eventsOf(history, axle, ['pads-replaced', 'shoes-replaced'], positions),
    fan: governing < 0 ? null : liningFan(governing, context),
    whenLiningsAreDue: null,
    earlierSets: earlierSets(lived),
    missing: noForecast(replacement.reasons),
  };
}

const governingLimit = ({ limits }: PadWear) => limits.find(({ governs }) => governs) ?? null;

interface Ahead {
  from: Point;
  remainingMm: Range;
  mmPerDay: Range;
}

/** A lining's thickness at the latest visit and its rate of wear; null if either is unknown. */
function liningAhead(pad: PadWear, { asAt, kmPerDay, wear }: PictureContext): Ahead | null {
  const limit = governingLimit(pad);
  const { remainingMm, ratePer1000KmMm: rate } = pad;
  if (!limit || !remainingMm || asAt === null) return null;
  const mmPerDay =
    rate && kmPerDay !== null ? perDay(rate, -kmPerDay) : slopesByDate(pad, wear, asAt, remainingMm.median);
  if (!mmPerDay) return null;
  return { from: { day: asAt, mm: limit.limitMm + remainingMm.median }, remainingMm, mmPerDay };
}

/** Derives the slope from the governing pad's dates where no odometer gives a rate by distance. */
function slopesByDate(
  { side, pad }: PadWear,
  { replacement: { date, governingPad } }: AxleWear,
  asAt: number,
  remainingMm: number,
): Range | null {
  if (!date?.early || !date.median || !date.late) return null;
  if (governingPad?.side !== side || governingPad.pad !== pad) return null;
  if (remainingMm <= 0 || toDay(date.early) <= asAt) return null;
  const slopeTo = (day: string): number => -remainingMm / (toDay(day) - asAt);
  return { low: slopeTo(date.late), median: slopeTo(date.median), high: slopeTo(date.early) };
}

function liningLimits(pads: readonly PadWear[]): LimitLine[] {
  const lines = pads.flatMap((pad) =>
    pad.limits.map(({ limitMm: mm, source, governs }): LimitLine => {
      return { mm, kind: 'limit', source, governs, positions: [positionInWords(pad)] };
    }),
  );
  return mergeLines(lines, pads.length);
}

/** The fan of the governing lining. A ray whose quantile is already past the limit starts and ends at the limit. */
function liningFan(position: number, context: PictureContext): Fan | null {
  const { pads, replacement } = context.wear;
  const ahead = liningAhead(itemAt(pads, position), context);
  const { limitMm, date } = replacement;
  if (!ahead || limitMm === null || !date) return null;
  const remaining = quantilesOf(ahead.remainingMm);
  // The fastest wear reaches the limit first.
  const { low, median, high } = ahead.mmPerDay;
  const slopes = quantilesOf({ low: high, median, high: low });
  const rays = raysOf(date, (quantile) => ({
    mm: limitMm + Math.max(0, remaining[quantile]),
    mmPerDay: slopes[quantile],
  }));
  return { position, limitMm, start: ahead.from.day, rays };
}

/** Why there is no date; empty if there is one or if it is beyond the forecast's range. */
const noForecast = (reasons: readonly Reason[]): string[] =>
  reasons
    .filter(({ field, code }) => field === 'date' && !code.startsWith('beyond'))
    .map(({ detail }) => detail);
