import { scaleLinear, scaleUtc } from 'd3-scale';
import type { AxlePicture, Panel, Point } from '../../core/assessment/pictureShape.js';
import { itemAt } from '../../core/items.js';
import { inWords } from '../../core/rounding.js';
import { dayAndMonth, monthOnly, shortDate } from '../../core/words.js';
import { widthOf } from './letters.js';

/** Layout of a chart, in pixels, and its scales. */

export interface Layout {
  name: 'wide' | 'narrow' | 'print';
  width: number;
  /** Pixels between the limit and the thickest reading, of linings and of rotors or drums. */
  readings: { linings: number; counterparts: number };
}

export const LAYOUTS: readonly Layout[] = [
  { name: 'wide', width: 720, readings: { linings: 184, counterparts: 112 } },
  { name: 'narrow', width: 344, readings: { linings: 152, counterparts: 92 } },
  { name: 'print', width: 352, readings: { linings: 96, counterparts: 96 } },
];

export const isLining = ({ part }: Pick<Panel, 'part'>): boolean => part === 'pads' || part === 'shoes';

/** Space for the heading and the km, beyond the limit, and for the dates below. */
export const HEAD = 44;
const BEYOND = 64;
export const FOOT = 22;
/** Maximum pixels for readings beyond the limit. */
const MAX_BEYOND = 100;
export const ROW = 15;

/** Limits within which both halves share one time scale. */
const MIN_PAST = 0.4;
const MIN_INTERVAL = 40;
const MIN_AHEAD = 0.22;

export interface Half {
  x0: number;
  x1: number;
  /** First and last day. */
  days: readonly [number, number];
  x: (day: number) => number;
}

export interface Frame {
  layout: Layout;
  past: Half;
  labels: { x0: number; x1: number };
  /** Null if there is no forecast to draw. */
  ahead: Half | null;
  /** Ratio of a day's width ahead to its width in the past. */
  stretch: number;
  top: number;
  bottom: number;
  /** The limit's position; null if unknown. */
  limitY: number | null;
  /** 1 if the limit is below the readings, −1 if the part grows towards it. */
  way: 1 | -1;
  y: (mm: number) => number;
  mmTicks: { mm: number; label: string }[];
}

/** Additional things to draw that affect the frame. */
export interface Wanted {
  labelsWidth: number;
  eventRows: number;
}

export function frameOf(picture: AxlePicture, panel: Panel, layout: Layout, wanted: Wanted): Frame {
  const heights = heightsOf(panel, layout, wanted.eventRows);
  const axisWidth = Math.max(22, ...heights.mmTicks.map(({ label }) => widthOf(label) + 8));
  return { layout, ...heights, ...halvesOf(picture, panel, layout, { ...wanted, axisWidth }) };
}

/** All measured points that are drawn. */
export const measuredPoints = ({ positions }: Panel): Point[] =>
  positions.flatMap(({ lives }) =>
    lives.flatMap(({ fitted, readings }) => (fitted ? [fitted, ...readings] : readings)),
  );

/** The past half's days: from the first measured point to the latest visit. */
export function pastDays({ asAt }: AxlePicture, panel: Panel): [number, number] {
  const days = measuredPoints(panel).map(({ day }) => day);
  const last = Math.max(asAt ?? -Infinity, ...days);
  return [Math.min(last - 30, ...days), last];
}

const MAX_DAYS = 30 * 365.25;

/** The days ahead: from the latest visit to the end of the forecast; null without a forecast. */
function daysAhead({ today, asAt, nextVisit }: AxlePicture, panel: Panel): [number, number] | null {
  const { fan, positions, whenLiningsAreDue } = panel;
  if (asAt === null || (!fan && positions.every(({ ahead }) => !ahead))) return null;
  const late = fan?.rays.late.day;
  const ends = [today, asAt + 60, whenLiningsAreDue?.day ?? asAt];
  if (fan) ends.push(late ?? fan.start + MAX_DAYS);
  const end = Math.max(...ends);
  const withVisit = nextVisit.day - asAt < 1.25 * (end - asAt) ? Math.max(end, nextVisit.day) : end;
  return [asAt, withVisit + 0.05 * (withVisit - asAt)];
}

function halvesOf(
  picture: AxlePicture,
  panel: Panel,
  { width }: Layout,
  { labelsWidth, axisWidth }: { labelsWidth: number; axisWidth: number },
): Pick<Frame, 'past' | 'labels' | 'ahead' | 'stretch'> {
  const behind = pastDays(picture, panel);
  const forward = daysAhead(picture, panel);
  const total = width - axisWidth - labelsWidth;
  if (!forward) {
    const past = half(axisWidth, axisWidth + total, behind, 8);
    return { past, labels: { x0: past.x1, x1: width }, ahead: null, stretch: 1 };
  }
  const [spanBehind, spanForward] = [behind[1] - behind[0], forward[1] - forward[0]];
  const perDay = total / (spanBehind + spanForward);
  const { early, late } = panel.fan?.rays ?? {};
  const interval = early?.day != null && late?.day != null ? late.day - early.day : null;
  const isOneScale =
    perDay * spanBehind >= MIN_PAST * total &&
    perDay * spanForward >= MIN_AHEAD * total &&
    (interval === null || perDay * interval >= MIN_INTERVAL);
  const pastWidth = isOneScale ? perDay * spanBehind : total / 2;
  const past = half(axisWidth, axisWidth + pastWidth, behind, isOneScale ? 0 : 6);
  const ahead = half(past.x1 + labelsWidth, width, forward, 0);
  const dayWidth = ({ x, days }: Half): number => x(days[0] + 1) - x(days[0]);
  return {
    past,
    labels: { x0: past.x1, x1: ahead.x0 },
    ahead,
    stretch: isOneScale ? 1 : dayWidth(ahead) / dayWidth(past),
  };
}

/** @param inset pixels kept free at both ends, for marks */
function half(x0: number, x1: number, days: readonly [number, number], inset: number): Half {
  const x = scaleLinear(days, [x0 + inset, x1 - inset]);
  return { x0, x1, days, x };
}

function heightsOf(
  panel: Panel,
  { readings: room }: Layout,
  eventRows: number,
): Pick<Frame, 'top' | 'bottom' | 'limitY' | 'way' | 'y' | 'mmTicks'> {
  const way = panel.part === 'drums' ? -1 : 1;
  const limit = panel.fan?.limitMm ?? panel.limits.find(({ governs }) => governs)?.mm ?? null;
  const values = [
    ...measuredPoints(panel).map(({ mm }) => mm),
    ...(panel.fan ? Object.values(panel.fan.rays).map(({ mm }) => mm) : []),
    ...panel.positions.flatMap(({ ahead }) => (ahead ? [ahead.from.mm] : [])),
    ...panel.limits.filter(({ kind }) => kind === 'machine-to').map(({ mm }) => mm),
  ];
  const data = isLining(panel) ? room.linings : room.counterparts;
  const far = way * Math.max(...values.map((mm) => way * mm));
  const deepest = way * Math.min(...values.map((mm) => way * mm));
  const headroom = 8 + eventRows * ROW;
  const top = HEAD;
  if (limit === null) {
    const bottom = top + headroom + data + 8;
    const reach = Math.max(0.1, Math.abs(far - deepest)) * way;
    const y = scaleLinear([far, far - reach], [top + headroom, bottom - 8]);
    return { top, bottom, limitY: null, way, y, mmTicks: mmTicks(y, [far - reach, far], [top, bottom]) };
  }
  const within = Math.max(0.1, way * (far - limit));
  const beyond = Math.max(0, way * (limit - deepest));
  const perMm = Math.min(data / within, beyond > 0 ? MAX_BEYOND / beyond : Infinity);
  const zone = Math.max(BEYOND, perMm * beyond + 14);
  const height = headroom + data + zone;
  const bottom = top + height;
  const limitY = way > 0 ? bottom - zone : top + zone;
  const y = (mm: number): number => limitY + (limit - mm) * perMm;
  const lowest = way > 0 ? limit - zone / perMm : far - headroom / perMm;
  const highest = way > 0 ? far + headroom / perMm : limit + zone / perMm;
  return { top, bottom, limitY, way, y, mmTicks: mmTicks(y, [lowest, highest], [top, bottom]) };
}

const MM_TICKS_APART = 42;

/** Round thicknesses that keep clear of both ends. */
function mmTicks(
  y: (mm: number) => number,
  values: readonly [number, number],
  [top, bottom]: readonly [number, number],
): Frame['mmTicks'] {
  const [from, to] = [Math.max(0, Math.min(...values)), Math.max(...values)];
  const round = scaleLinear([from, to], [0, 1]).ticks(Math.round((bottom - top) / MM_TICKS_APART));
  const shown = round.filter((mm) => y(mm) > top + 4 && y(mm) < bottom - 4);
  const decimals = Math.max(0, ...shown.map((mm) => (String(mm).split('.')[1] ?? '').length));
  return shown.map((mm) => ({ mm, label: mm.toFixed(decimals) }));
}

export interface Tick {
  x: number;
  label: string;
}

const MS_PER_DAY = 86_400_000;
const TICK_GAP = 8;

/** Round dates along a half: years, months or days, with the year at its start and at the first tick. */
export function dateTicks({ x0, x1, days, x }: Half, width: number): Tick[] {
  const dates = scaleUtc(
    days.map((day) => day * MS_PER_DAY),
    [0, 1],
  ).ticks(Math.max(2, Math.round((x1 - x0) / 70)));
  const at = dates.map((date) => date.getTime() / MS_PER_DAY).filter(Number.isInteger);
  const step = at.length > 1 ? itemAt(at, 1) - itemAt(at, 0) : days[1] - days[0];
  const labelled: Tick[] = [];
  let year = '';
  for (const day of at) {
    const isNewYear = shortDate(day, 'year') !== year;
    const label = labelOf(day, step, isNewYear);
    const half = widthOf(label) / 2;
    const last = labelled.at(-1);
    const isFree = !last || x(day) - half > last.x + widthOf(last.label) / 2 + TICK_GAP;
    if (!isFree || x(day) + half > Math.min(width, x1 + TICK_GAP) || x(day) - half < x0 - 2 * TICK_GAP)
      continue;
    year = shortDate(day, 'year');
    labelled.push({ x: x(day), label });
  }
  return labelled;
}

function labelOf(day: number, step: number, withYear: boolean): string {
  if (step > 300) return shortDate(day, 'year');
  if (step > 27) return withYear ? shortDate(day, 'month') : monthOnly(day);
  return withYear ? shortDate(day) : dayAndMonth(day);
}

/** Round distances along a half, as driven or as expected at the vehicle's pace. */
export function kmTicks(half: Half, { road }: AxlePicture, isAhead: boolean): Tick[] {
  const last = road.marks.at(-1);
  if (!last || (isAhead && !road.kmPerDay)) return [];
  const beyond = { day: half.days[1], km: last.km + (road.kmPerDay ?? 0) * (half.days[1] - last.day) };
  const course = isAhead ? [last, beyond] : road.marks;
  const kmOn = scaleLinear(
    course.map(({ day }) => day),
    course.map(({ km }) => km),
  ).clamp(true);
  const dayAt = scaleLinear(
    course.map(({ km }) => km),
    course.map(({ day }) => day),
  ).clamp(true);
  const span = [kmOn(half.days[0]), kmOn(half.days[1])] as const;
  if (!(span[1] > span[0])) return [];
  const ticked: Tick[] = [];
  for (const km of scaleLinear(span, [0, 1]).ticks(Math.max(2, Math.round((half.x1 - half.x0) / 76)))) {
    const at = half.x(dayAt(km));
    const label = `${isAhead ? '≈ ' : ''}${inWords(km)}`;
    const reach = widthOf(label) / 2;
    const before = ticked.at(-1);
    if (at - reach < half.x0 - TICK_GAP || at + reach > half.x1) continue;
    if (before && at - reach < before.x + widthOf(before.label) / 2 + TICK_GAP) continue;
    ticked.push({ x: at, label });
  }
  return ticked;
}
