import {
  QUANTILES,
  type AxlePicture,
  type Fan,
  type Panel,
  type Quantile,
  type Ray,
} from '../../core/assessment/pictureShape.js';
import { itemAt } from '../../core/items.js';
import { dayAndMonth } from '../../core/words.js';
import { area, box, clipped, line, lines, mark, text, type XY } from './draw.js';
import { isLining, ROW, type Frame, type Half } from './frame.js';
import { widthOf } from './letters.js';
import { mmOf, outcomeOf } from './outcome.js';
import { boxOf, clearest, type Box, type Label } from './placing.js';

/** The forecast of a chart: fans, today and the next visit, and the intervals on the limit. */

/** The end of a quantile's line: at the limit, or at the edge of the frame. */
function endOf(
  { mm, day, mmPerDay }: Ray,
  { start, limitMm }: Fan,
  end: number,
  way: 1 | -1,
): { day: number; mm: number } {
  if (day !== null) return { day, mm: limitMm };
  const there = mm + mmPerDay * (end - start);
  return { day: end, mm: way > 0 ? Math.max(there, limitMm) : Math.min(there, limitMm) };
}

/**
 * Fans, the median, the other positions, and the days that matter: today, the next visit, when the linings are due.
 *
 * @param taken the boxes of other labels
 */
export function ahead(picture: AxlePicture, panel: Panel, taken: readonly Box[], frame: Frame): string {
  const { ahead: forward } = frame;
  if (!forward) return '';
  const { x0, x1 } = forward;
  const fan = panel.fan ? fanOf(panel.fan, frame, forward) : null;
  const dashed = lines(otherCourses(panel, frame, forward), { colour: 'accent', dash: '4 3' });
  const [from, to] = withinLimit(frame);
  const inside = [
    fan?.areas ?? '',
    dashed,
    fan ? line(fan.median, { colour: 'accent', width: 2.2 }) : '',
  ].join('');
  return clipped(x0, from, x1 - x0, to - from, inside) + moments(picture, panel, taken, frame);
}

/** The median forecasts of the positions that do not govern. */
const otherCourses = ({ positions }: Panel, { y }: Frame, { x, days }: Half): [XY, XY][] =>
  positions.flatMap(({ ahead: course }): [XY, XY][] =>
    course
      ? [
          [
            [x(course.from.day), y(course.from.mm)],
            [x(days[1]), y(course.from.mm + course.mmPerDay * (days[1] - course.from.day))],
          ],
        ]
      : [],
  );

const withinLimit = ({ limitY, way, top, bottom }: Frame): [number, number] =>
  limitY === null ? [top, bottom] : way > 0 ? [top, limitY] : [limitY, bottom];

/** A quantile's line, as far as it is drawn. */
function rayOf(fan: Fan, quantile: Quantile, { y, way }: Frame, { x, days }: Half): XY[] {
  const { mm } = fan.rays[quantile];
  const end = endOf(fan.rays[quantile], fan, days[1], way);
  return [
    [x(fan.start), y(mm)],
    [x(end.day), y(end.mm)],
  ];
}

function fanOf(fan: Fan, frame: Frame, forward: Half): { areas: string; median: XY[] } {
  const ray = (quantile: Quantile): XY[] => rayOf(fan, quantile, frame, forward);
  const between = (first: Quantile, last: Quantile): XY[] => {
    const corner =
      fan.rays[first].day !== null && fan.rays[last].day === null
        ? [[forward.x(forward.days[1]), frame.y(fan.limitMm)] as const]
        : [];
    return [...ray(last), ...corner, ...ray(first).reverse()];
  };
  return {
    areas:
      area(between('early', 'late'), 'fan-80') + area(between('lowerQuartile', 'upperQuartile'), 'fan-50'),
    median: ray('median'),
  };
}

/** A day with a vertical line and a label beside it. */
interface Moment {
  x: number;
  /** The label: on one row, or on two if one row would touch something. */
  words: readonly [string, string];
  isForecast: boolean;
  /** The expected thickness on that day; null if it is not marked. */
  dot: XY | null;
}

/** The lines of the days that matter, their labels, and the mark of what is left when the linings are due. */
function moments(picture: AxlePicture, panel: Panel, taken: readonly Box[], frame: Frame): string {
  const forward = frame.ahead!;
  const [from, to] = withinLimit(frame);
  const due = whenDue(panel, frame, forward);
  const shown = [...(due ? [due] : []), ...visitMoments(picture, panel, frame, forward)];
  const upright = ({ x }: Moment): [XY, XY] => [
    [x, from],
    [x, to],
  ];
  const { fan } = panel;
  const median = fan ? [rayOf(fan, 'median', frame, forward)] : [];
  const inked = [...shown.map(upright), ...median, ...otherCourses(panel, frame, forward)];
  const edges = fan ? QUANTILES.map((quantile) => rayOf(fan, quantile, frame, forward)) : [];
  const xs = shown.map(({ x }) => x);
  const labels: Place[] = [];
  for (const moment of shown) {
    const boxes = [...taken, ...labels.map((label) => boxOf(label))];
    labels.push(clearest(placesOf(moment, xs, frame), { lines: inked, edges, boxes }));
  }
  return [
    ...shown.map((moment) =>
      line(upright(moment), {
        colour: moment.isForecast ? 'accent' : 'ink',
        dash: moment.isForecast ? '2 3' : undefined,
      }),
    ),
    ...shown.map(({ dot }) =>
      dot ? mark(dot, { shape: 'round', isFilled: true, colour: 'accent', radius: 3.4 }) : '',
    ),
    ...labels.flatMap(({ rows, left, baseline }, index) =>
      rows.map((row, at) =>
        text([left, baseline + at * ROW], row, {
          colour: itemAt(shown, index).isForecast ? 'accent' : 'ink',
          halo: true,
        }),
      ),
    ),
  ].join('');
}

/** Today, and the next visit if it is within the frame. */
function visitMoments(
  { today, nextVisit }: AxlePicture,
  panel: Panel,
  { layout }: Frame,
  { x, days }: Half,
): Moment[] {
  const shown: Moment[] = [{ x: x(today), words: ['today', ''], isForecast: false, dot: null }];
  if (isLining(panel) && nextVisit.day > today && nextVisit.day < days[1]) {
    const about = nextVisit.source === 'until' ? '' : '≈ ';
    const words: Moment['words'] =
      layout.name === 'wide' ? ['next visit', `${about}${dayAndMonth(nextVisit.day)}`] : ['next', 'visit'];
    shown.push({ x: x(nextVisit.day), words, isForecast: true, dot: null });
  }
  return shown;
}

/** The expected margin of a rotor or drum on the day the linings are due. */
function whenDue({ whenLiningsAreDue: due, part }: Panel, frame: Frame, { x, days }: Half): Moment | null {
  if (!due || due.day > days[1]) return null;
  const [from, to] = withinLimit(frame);
  const dot: XY = [x(due.day), frame.y(due.mm)];
  if (dot[1] < from || dot[1] > to) return null;
  const linings = part === 'drums' ? 'shoes' : 'pads';
  const words: Moment['words'] =
    frame.layout.name === 'wide'
      ? [`${linings} due:`, `${mmOf(due.marginMm, part)} mm left`]
      : [linings, 'due'];
  return { x: dot[0], words, isForecast: true, dot };
}

/** How many rows a label may be moved, counted from the far edge and from the limit. */
const ROWS_FAR = 5;
const ROWS_NEAR = 3;

/** Lines closer than this share the space beside them. */
const CLOSE = 48;

/** Penalty for a label in the column of names, and for one beyond another moment's line. */
const COST_OF_COLUMN = 2;
const COST_BEYOND = 3;

type Place = Label & { cost: number };

/**
 * Candidate places for a moment's label: on one row or on two; beside its line in the forecast's half, in the column of
 * names, or beyond the lines close to its own.
 *
 * @param xs the lines of all moments
 */
function placesOf({ x, words, dot }: Moment, xs: readonly number[], frame: Frame): Place[] {
  const { x0, x1 } = frame.ahead!;
  const apart = dot ? 8 : 4;
  const whole = words.join(' ').trim();
  const shapes = words[1] === '' ? [[whole]] : [[whole], [...words]];
  const [top, bottom] = withinLimit(frame);
  const close = xs.filter((other) => Math.abs(other - x) < CLOSE);
  const places = (start: number, leftsOf: (width: number) => number[], cost: number): Place[] =>
    shapes.flatMap((rows) =>
      baselines(frame, rows.length, dot).flatMap((baseline): Place[] => {
        const width = Math.max(...rows.map((row) => widthOf(row)));
        if (baseline < top + 11 || baseline + (rows.length - 1) * ROW > bottom - 5) return [];
        return leftsOf(width)
          .filter((left) => left >= start && left + width <= x1)
          .map((left) => ({ rows, left, baseline, cost }));
      }),
    );
  const beside = (width: number): number[] => [x + apart, x - apart - width];
  const beyond = (width: number): number[] => [
    Math.max(...close) + apart,
    Math.min(...close) - apart - width,
  ];
  const found = [
    ...places(x0 + 2, beside, 0),
    ...places(frame.labels.x0, beside, COST_OF_COLUMN),
    ...places(x0 + 2, beyond, COST_BEYOND),
  ];
  const edge = Math.max(x0 + 2, x1 - widthOf(whole));
  return found.length > 0 ? found : [{ rows: [whole], left: edge, baseline: top + 13, cost: 0 }];
}

/** Candidate baselines of a label's first row, best first. */
function baselines(frame: Frame, rows: number, dot: XY | null): number[] {
  const { way } = frame;
  const [top, bottom] = withinLimit(frame);
  const more = (rows - 1) * ROW;
  const fromTop = (row: number): number => top + 13 + row * ROW;
  const fromBottom = (row: number): number => bottom - 6 - more - row * ROW;
  const [far, near] = way > 0 ? [fromTop, fromBottom] : [fromBottom, fromTop];
  const beside = dot ? (way > 0 ? [-2, 16, -14] : [14, -4, 26]).map((offset) => dot[1] + offset) : [];
  return [
    ...beside,
    ...Array.from({ length: ROWS_FAR }, (_, row) => far(row)),
    ...Array.from({ length: ROWS_NEAR }, (_, row) => near(row)),
  ];
}

/** Rows of text below the limit, or above it on drums, that end at `end`. */
interface OutcomeRows {
  rows: { words: string; baseline: number; bold: boolean }[];
  end: number;
  /** Whether each row has a mark at the edge of the chart. */
  isCounted: boolean;
}

function outcomeRows(picture: AxlePicture, panel: Panel, frame: Frame): OutcomeRows | null {
  const said = outcomeOf(picture, panel, frame.layout);
  const { limitY, way, ahead: forward, labels } = frame;
  if (!said || limitY === null) return null;
  const edge = forward?.x1 ?? labels.x1;
  const isCounted = said.fiftyPercent !== null;
  const rows = [said.date, said.fiftyPercent, said.eightyPercent].filter((row) => row !== null);
  const baseline = (row: number): number =>
    way > 0 ? limitY + 19 + row * ROW : limitY - 10 - (rows.length - 1 - row) * ROW;
  return {
    rows: rows.map((words, row) => ({ words, baseline: baseline(row), bold: row === 0 })),
    end: isCounted ? edge - 18 : edge,
    isCounted,
  };
}

/** The boxes of the outcome's rows, for labels of the limit to keep clear of. */
export function outcomeBoxes(picture: AxlePicture, panel: Panel, frame: Frame): Box[] {
  const said = outcomeRows(picture, panel, frame);
  return (said?.rows ?? []).map(({ words, baseline, bold }) =>
    boxOf({ rows: [words], left: said!.end - widthOf(words, { bold }), baseline }, { bold }),
  );
}

/** The intervals of the date, drawn on the limit, and three rows of text for them. */
export function outcome(picture: AxlePicture, panel: Panel, frame: Frame): string {
  const { ahead: forward, labels } = frame;
  const said = outcomeRows(picture, panel, frame);
  if (!said) return '';
  const { rows, end, isCounted } = said;
  const edge = forward?.x1 ?? labels.x1;
  const marks = [
    (x: number, y: number) => box(x - 8, y - 9, 3, 11, 'accent'),
    (x: number, y: number) => box(x - 12, y - 7, 12, 5, 'accent'),
    (x: number, y: number) => box(x - 12, y - 5.5, 12, 2, 'accent'),
  ];
  return [
    panel.fan && isCounted && forward ? barOf(panel.fan, frame, forward) : '',
    ...rows.map(({ words, baseline, bold }) =>
      text([end, baseline], words, { colour: 'accent', bold, anchor: 'end', halo: true }),
    ),
    ...(isCounted ? rows.map(({ baseline }, index) => marks[index]!(edge, baseline)) : []),
  ].join('');
}

function barOf({ rays }: Fan, { limitY, way }: Frame, { x, x1 }: Half): string {
  const place = (day: number | null): number => Math.min(x1, day === null ? x1 : x(day));
  const at = limitY! + 4 * way;
  const [early, lower, upper, late] = (['early', 'lowerQuartile', 'upperQuartile', 'late'] as const).map(
    (quantile) => place(rays[quantile].day),
  ) as [number, number, number, number];
  return [
    box(early, at - 1, late - early, 2, 'accent'),
    box(lower, at - 2.5, upper - lower, 5, 'accent'),
    box(early - 1.5, at - 6, 3, 12, 'accent'),
  ].join('');
}
