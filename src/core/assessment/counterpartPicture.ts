import { toDay } from '../calendar.js';
import { itemAt } from '../items.js';
import { counterpartLives, leftUntil, type Wears } from '../lives.js';
import type { Reason } from '../vocabulary/quantities.js';
import type { WorkKind } from '../vocabulary/terms.js';
import type { DateInterval, DrumWear, RotorWear } from '../vocabulary/wear.js';
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
import type { Fan, LimitLine, Panel, Position } from './pictureShape.js';

/** The charts of an axle's rotors or drums. */

export function rotorPanel(context: PictureContext): Panel {
  const rotors = context.wear.rotors.map((rotor) => ({
    ...rotor,
    limitMm: rotor.discardMm,
    extremeMm: rotor.thinnestMm,
  }));
  const work: WorkKind[] = ['rotor-replaced', 'rotor-machined'];
  return counterpartPanel(context, rotors, { part: 'rotors', limit: 'discard', wears: 'thinner', work });
}

export function drumPanel(context: PictureContext): Panel {
  const drums = context.wear.drums.map((drum) => ({
    ...drum,
    limitMm: drum.maximumMm,
    extremeMm: drum.largestMm,
    marginAtPadReplacementMm: drum.marginAtShoeReplacementMm,
  }));
  const work: WorkKind[] = ['drum-replaced', 'drum-machined'];
  return counterpartPanel(context, drums, { part: 'drums', limit: 'maximum', wears: 'wider', work });
}

/** A rotor or drum under common names. */
type CounterpartWear = Pick<
  RotorWear & DrumWear,
  'side' | 'machineToMm' | 'latestDate' | 'reasons' | 'ratePer1000KmMm' | 'marginMm' | 'date'
> &
  Pick<RotorWear, 'marginAtPadReplacementMm'> & {
    limitMm: number | null;
    extremeMm: number | null;
  };

interface CounterpartKind {
  part: 'rotors' | 'drums';
  limit: 'discard' | 'maximum';
  wears: Wears;
  work: WorkKind[];
}

function counterpartPanel(
  context: PictureContext,
  parts: readonly CounterpartWear[],
  { part, limit, wears, work }: CounterpartKind,
): Panel {
  const { history, road, axle, kmPerDay } = context;
  const lived = parts.map(({ side }) => counterpartLives(history, road, axle, side));
  const governing = firstAtLimit(parts);
  const positions = parts.map((each, index): Position => {
    const { extremeMm, latestDate, ratePer1000KmMm: rate } = each;
    const isKnown = extremeMm !== null && latestDate !== null && rate && kmPerDay !== null;
    return {
      ...positionOf(itemAt(lived, index), { side: each.side, pad: null }),
      ahead:
        index !== governing && isKnown
          ? {
              from: { day: toDay(latestDate), mm: extremeMm },
              mmPerDay: perDay(rate, directionOf(wears) * kmPerDay).median,
            }
          : null,
    };
  });
  const lines = parts.flatMap(({ side, limitMm, machineToMm }): LimitLine[] => {
    const line = { source: null, positions: [side], governs: false };
    return [
      ...(limitMm === null ? [] : [{ ...line, kind: limit, mm: limitMm, governs: true }]),
      ...(machineToMm === null ? [] : [{ ...line, kind: 'machine-to' as const, mm: machineToMm }]),
    ];
  });
  const first = governing === null ? null : { index: governing, wear: itemAt(parts, governing) };
  const fan = first && counterpartFan(first.index, first.wear, context, wears);
  return {
    part,
    positions,
    limits: mergeLines(lines, parts.length),
    events: eventsOf(history, axle, work, positions),
    fan,
    whenLiningsAreDue: first && fan && whenDue(first.wear, fan, context.wear.replacement.date, wears),
    earlierSets: earlierSets(lived),
    missing: missingWords(parts, ['discardMm', 'maximumMm', 'ratePer1000KmMm']),
  };
}

/** The sign of the change with wear. */
const directionOf = (wears: Wears): 1 | -1 => (wears === 'wider' ? 1 : -1);

/** Index of the first rotor or drum to reach its limit; null if none has a date or a margin. */
function firstAtLimit(parts: readonly CounterpartWear[]): number | null {
  const known = parts.flatMap(({ date, marginMm }, index) =>
    marginMm === null ? [] : [{ index, marginMm, early: date?.early ?? '9999' }],
  );
  known.sort((a, b) => a.early.localeCompare(b.early) || a.marginMm - b.marginMm);
  return known[0]?.index ?? null;
}

function counterpartFan(
  position: number,
  { limitMm, extremeMm, latestDate, ratePer1000KmMm: rate, date }: CounterpartWear,
  { kmPerDay }: PictureContext,
  wears: Wears,
): Fan | null {
  if (limitMm === null || extremeMm === null || latestDate === null) return null;
  if (!rate || !date || kmPerDay === null || leftUntil(wears, extremeMm, limitMm) <= 0) return null;
  const { low, median, high } = rate;
  const slopes = quantilesOf(perDay({ low: high, median, high: low }, directionOf(wears) * kmPerDay));
  const rays = raysOf(date, (quantile) => ({ mm: extremeMm, mmPerDay: slopes[quantile] }));
  return { position, limitMm, start: toDay(latestDate), rays };
}

function whenDue(
  { marginAtPadReplacementMm: margin }: CounterpartWear,
  { start, limitMm }: Fan,
  liningDates: DateInterval | null,
  wears: Wears,
): Panel['whenLiningsAreDue'] {
  if (!margin || !liningDates?.median) return null;
  const day = toDay(liningDates.median);
  return day < start
    ? null
    : { day, mm: limitMm - directionOf(wears) * margin.median, marginMm: margin.median };
}

/** Why figures of rotors or drums are missing, each reason once. */
function missingWords(parts: readonly { reasons: readonly Reason[] }[], fields: readonly string[]): string[] {
  const details = parts.flatMap(({ reasons }) =>
    reasons.filter(({ field }) => fields.includes(field)).map(({ detail }) => detail),
  );
  return [...new Set(details)];
}
