import { toDay } from '../../core/calendar.js';
import type {
  AxlePicture,
  Fan,
  LimitLine,
  Panel,
  PartEvent,
  PicturedReading,
} from '../../core/assessment/pictureShape.js';
import { inWords } from '../../core/rounding.js';
import type { LengthUnit } from '../../core/vocabulary/terms.js';
import { capital, precisionOf, shortDate, sourceInWords, workInWords } from '../../core/words.js';
import { isLining, type Layout } from './frame.js';

/** The texts of a chart: the rows under the limit and the labels of its lines. */

/** Narrow charts and those in print use shorter words. */
export const isBrief = ({ name }: Layout): boolean => name !== 'wide';

/** The result of the forecast and its two intervals; rows without content are omitted. */
export interface Outcome {
  date: string;
  fiftyPercent: string | null;
  eightyPercent: string | null;
}

export function outcomeOf(picture: AxlePicture, panel: Panel, layout: Layout): Outcome | null {
  const failed = failureOf(picture, panel);
  if (failed) return { date: failed, fiftyPercent: null, eightyPercent: null };
  return panel.fan && forecastInWords(picture, panel, panel.fan, layout);
}

/** If a reading fails its limit, there is nothing to forecast. */
function failureOf({ wear }: AxlePicture, panel: Panel): string | null {
  if (isLining(panel)) {
    const failing = wear.pads.flatMap(({ limits, latest }) => {
      const limit = limits.find(({ governs, fails }) => governs && fails);
      return limit && latest ? [{ ...latest, over: latest.valueMm - limit.limitMm }] : [];
    });
    const worst = failing.sort((a, b) => a.over - b.over)[0];
    return worst
      ? `${worst.over < 0 ? 'Under' : 'At'} ${failing.length > 1 ? 'the' : 'its'} limit on ${shortDate(toDay(worst.date))}`
      : null;
  }
  const failing = [...wear.rotors, ...wear.drums].filter(
    ({ conformity }) => conformity === 'does-not-conform',
  );
  const date = failing[0]?.latestDate;
  if (!date) return null;
  return `${panel.part === 'drums' ? 'Over its maximum' : 'Under discard'} on ${shortDate(toDay(date))}`;
}

function forecastInWords({ today }: AxlePicture, panel: Panel, { rays }: Fan, layout: Layout): Outcome {
  const { early, lowerQuartile, median, upperQuartile, late } = rays;
  if (early.day === null)
    return { date: 'Not expected within 30 years', fiftyPercent: null, eightyPercent: null };
  const precision = precisionOf({ early: early.day, late: late.day });
  const say = (day: number): string => shortDate(day, precision);
  const between = (from: number | null, to: number | null): string => {
    if (from === null) return 'beyond 30 years';
    return to === null ? `${say(from)} to beyond 30 years` : `${say(from)} – ${say(to)}`;
  };
  return {
    date: startInWords({ early: early.day, median: median.day, today }, panel, layout, say),
    fiftyPercent: `50 % ${between(lowerQuartile.day, upperQuartile.day)}`,
    eightyPercent: `80 % ${between(early.day, late.day)}`,
  };
}

function startInWords(
  { early, median, today }: { early: number; median: number | null; today: number },
  { part }: Panel,
  layout: Layout,
  say: (day: number) => string,
): string {
  const [at, before, briefly] = PLACES[part];
  if (median !== null && median < today)
    return isBrief(layout) ? `since about ${say(median)}` : `probably ${at} since ${say(median)}`;
  if (early <= today)
    return isBrief(layout) ? `perhaps since ${say(early)}` : `perhaps ${at} since ${say(early)}`;
  return `${isBrief(layout) ? briefly : before} ${say(early)}`;
}

const PLACES: Record<Panel['part'], readonly [at: string, before: string, briefly: string]> = {
  pads: ['at its limit', 'fit before', 'fit before'],
  shoes: ['at its limit', 'fit before', 'fit before'],
  rotors: ['at discard', 'at discard from', 'discard from'],
  drums: ['at its maximum', 'at maximum from', 'maximum from'],
};

const DECIMALS: Record<Panel['part'], number> = { pads: 1, shoes: 1, rotors: 2, drums: 2 };

/** A reading in mm, as precise as measurements of its part. */
export const mmOf = (mm: number, part: Panel['part']): string => mm.toFixed(DECIMALS[part]);

const MM_IN: Record<Exclude<LengthUnit, 'mm'>, number> = { in: 25.4, 'in/32': 25.4 / 32 };

/** `0.145 in` or `5/32 in`: a reading in its original unit; null if that was mm. */
export function asRead({ mm, unit }: Pick<PicturedReading, 'mm' | 'unit'>): string | null {
  if (unit === 'mm') return null;
  const value = mm / MM_IN[unit];
  return unit === 'in' ? `${inWords(value, 4)} in` : `${inWords(value, 1)}/32 in`;
}

export function limitLabel({ kind, mm, source, governs, positions }: LimitLine, brief: boolean): string {
  const whose = positions.length > 0 && !brief ? ` (${positions.join(', ')})` : '';
  const figure = `${inWords(mm, 3)} mm`;
  if (kind === 'machine-to') return `machine to ${brief ? inWords(mm, 3) : figure}${whose}`;
  if (kind === 'discard') return `Discard${brief ? '' : ' at'} ${figure}${whose}`;
  if (kind === 'maximum') return `${brief ? 'Max.' : 'Maximum'} ${figure}${whose}`;
  const from = sourceInWords(source!, brief ? 'short' : 'full');
  if (governs) return brief ? `Limit ${figure}` : `Limit ${figure}, ${from}${whose}`;
  return brief ? `${figure} ${from}` : `${figure}, ${from}${whose}`;
}

export const eventWords = ({ kind, side }: PartEvent): string =>
  capital([workInWords(kind), side].filter(Boolean).join(', '));

/** What was done, and when: one label on one row or two. */
export const eventRows = (event: PartEvent, layout: Layout): [words: string, date: string] => [
  eventWords(event),
  shortDate(event.day, isBrief(layout) ? 'month' : 'day'),
];
