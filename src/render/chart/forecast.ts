import {
  QUANTILES,
  type AxlePicture,
  type Fan,
  type Panel,
  type Quantile,
  type Ray,
} from '../../core/assessment/pictureShape.js';
import { dayAndMonth } from '../../core/words.js';
import { area, box, clipped, line, lines, mark, text, type XY } from './draw.js';
import { isLining, ROW, type Frame, type Half } from './frame.js';
import { widthOf } from './letters.js';
import { mmOf, outcomeOf } from './outcome.js';

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

/** Fans, the median, the other positions, and the lines of today and the next visit. */
export function ahead(picture: AxlePicture, panel: Panel, frame: Frame): string {
  const { ahead: forward, y } = frame;
  if (!forward) return '';
  const { x, x0, x1, days } = forward;
  const strokes = panel.positions.flatMap(({ ahead: course }): XY[][] =>
    course
      ? [
          [
            [x(course.from.day), y(course.from.mm)],
            [x(days[1]), y(course.from.mm + course.mmPerDay * (days[1] - course.from.day))],
          ],
        ]
      : [],
  );
  const fan = panel.fan ? fanOf(panel.fan, frame, forward) : null;
  const dashed = lines(strokes, { colour: 'accent', dash: '4 3' });
  const due = dueLabel(panel, frame, forward);
  const [from, to] = withinLimit(frame);
  const inside = [
    fan?.areas ?? '',
    dashed,
    fan ? line(fan.median, { colour: 'accent', width: 2.2 }) : '',
  ].join('');
  return [
    clipped(x0, from, x1 - x0, to - from, inside),
    marksOfTime(picture, panel, frame, due),
    due ? whenDue(due, frame) : '',
  ].join('');
}

const withinLimit = ({ limitY, way, top, bottom }: Frame): [number, number] =>
  limitY === null ? [top, bottom] : way > 0 ? [top, limitY] : [limitY, bottom];

function fanOf(fan: Fan, { y, way }: Frame, { x, days }: Half): { areas: string; median: XY[] } {
  const at = (day: number, mm: number): XY => [x(day), y(mm)];
  const ray = (quantile: Quantile): XY[] => {
    const { mm } = fan.rays[quantile];
    const end = endOf(fan.rays[quantile], fan, days[1], way);
    return [at(fan.start, mm), at(end.day, end.mm)];
  };
  const between = (first: Quantile, last: Quantile): XY[] => {
    const corner =
      fan.rays[first].day !== null && fan.rays[last].day === null ? [at(days[1], fan.limitMm)] : [];
    return [...ray(last), ...corner, ...ray(first).reverse()];
  };
  return {
    areas:
      area(between('early', 'late'), 'fan-80') + area(between('lowerQuartile', 'upperQuartile'), 'fan-50'),
    median: ray('median'),
  };
}

interface Moment {
  day: number;
  words: string;
  isForecast: boolean;
}

/** Today, and the next visit if it is within the frame. */
function marksOfTime(
  { today, nextVisit }: AxlePicture,
  panel: Panel,
  frame: Frame,
  due: DueLabel | null,
): string {
  const { top, bottom, limitY, way, layout } = frame;
  const { x, x0, x1, days } = frame.ahead!;
  const moments: Moment[] = [{ day: today, words: 'today', isForecast: false }];
  if (isLining(panel) && nextVisit.day > today && nextVisit.day < days[1]) {
    const about = nextVisit.source === 'until' ? '' : '≈ ';
    const date = layout.name === 'wide' ? ` ${about}${dayAndMonth(nextVisit.day)}` : '';
    moments.push({ day: nextVisit.day, words: `next visit${date}`, isForecast: true });
  }
  const [from, to] = withinLimit(frame);
  const far = way > 0 ? top : bottom;
  const near = limitY ?? (way > 0 ? bottom : top);
  let taken: { x0: number; x1: number; row: number }[] = [];
  const shown = moments.map(({ day, words, isForecast }) => {
    const at = x(day);
    const width = widthOf(words);
    // A label wider than the space ahead ends at the chart's edge.
    const left = at + 4 + width <= x1 ? at + 4 : Math.min(Math.max(x0 + 2, at - 4 - width), x1 - width);
    const row = taken.some((other) => other.row === 0 && left < other.x1 + 6 && other.x0 < left + width + 6)
      ? 1
      : 0;
    taken = [...taken, { x0: left, x1: left + width, row }];
    const onFarSide = way > 0 ? far + 13 + row * ROW : far - 6 - row * ROW;
    const atLimit = way > 0 ? near - 6 - row * ROW : near + 14 + row * ROW;
    const meetsForecast = forecastHeights(panel, frame, [left, left + width]).some(
      (height) => Math.abs(height - far) < (row + 1) * ROW + 6,
    );
    const meetsDue =
      due !== null && left < due.right && due.left < left + width && Math.abs(due.y - onFarSide) < ROW;
    const base = meetsForecast || meetsDue ? atLimit : onFarSide;
    return {
      at,
      isForecast,
      label: text([left, base], words, { colour: isForecast ? 'accent' : 'ink', halo: true }),
    };
  });
  return [
    ...shown.map(({ at, isForecast }) =>
      line(
        [
          [at, from],
          [at, to],
        ],
        { colour: isForecast ? 'accent' : 'ink', dash: isForecast ? '2 3' : undefined },
      ),
    ),
    ...shown.map(({ label }) => label),
  ].join('');
}

/** Heights of the forecast between two x positions, so that labels can avoid it. */
function forecastHeights(
  { fan, positions }: Panel,
  { ahead: forward, y, way }: Frame,
  [from, to]: readonly [number, number],
): number[] {
  const { x, days } = forward!;
  const courses: [XY, XY][] = [
    ...(fan
      ? QUANTILES.map((quantile): [XY, XY] => {
          const end = endOf(fan.rays[quantile], fan, days[1], way);
          return [
            [x(fan.start), y(fan.rays[quantile].mm)],
            [x(end.day), y(end.mm)],
          ];
        })
      : []),
    ...positions.flatMap(({ ahead: course }): [XY, XY][] =>
      course
        ? [
            [
              [x(course.from.day), y(course.from.mm)],
              [x(days[1]), y(course.from.mm + course.mmPerDay * (days[1] - course.from.day))],
            ],
          ]
        : [],
    ),
  ];
  return courses.flatMap(([start, end]) =>
    [from, (from + to) / 2, to]
      .filter((at) => at >= start[0] && at <= end[0])
      .map((at) => start[1] + ((at - start[0]) / (end[0] - start[0] || 1)) * (end[1] - start[1])),
  );
}

interface DueLabel {
  dot: XY;
  words: string;
  left: number;
  right: number;
  y: number;
}

/** The expected margin of a rotor or drum on the day the linings are due: position and label. */
function dueLabel({ whenLiningsAreDue: due, part }: Panel, frame: Frame, half: Half): DueLabel | null {
  if (!due || due.day > half.days[1]) return null;
  const { x, x0, x1 } = half;
  const { y, layout, way } = frame;
  const [from, to] = withinLimit(frame);
  const dot: XY = [x(due.day), y(due.mm)];
  if (dot[1] < from || dot[1] > to) return null;
  const linings = part === 'drums' ? 'shoes' : 'pads';
  const words =
    layout.name === 'wide' ? `${linings} due: ${mmOf(due.marginMm, part)} mm left` : `${linings} due`;
  const width = widthOf(words);
  if (dot[0] + 8 + width <= x1)
    return { dot, words, left: dot[0] + 8, right: dot[0] + 8 + width, y: dot[1] + (way > 0 ? -2 : 14) };
  if (dot[0] - 8 - width >= x0)
    return { dot, words, left: dot[0] - 8 - width, right: dot[0] - 8, y: dot[1] + 16 };
  return { dot, words, left: x1 - width, right: x1, y: dot[1] + (way > 0 ? -8 : 18) };
}

function whenDue(label: DueLabel, frame: Frame): string {
  const [from, to] = withinLimit(frame);
  const { dot, words, left, y } = label;
  return [
    line(
      [
        [dot[0], from],
        [dot[0], to],
      ],
      { colour: 'accent', dash: '2 3' },
    ),
    mark(dot, { shape: 'round', isFilled: true, colour: 'accent', radius: 3.4 }),
    text([left, y], words, { colour: 'accent', halo: true }),
  ].join('');
}

/** The intervals of the date, drawn on the limit, and three rows of text for them. */
export function outcome(picture: AxlePicture, panel: Panel, frame: Frame): string {
  const said = outcomeOf(picture, panel, frame.layout);
  const { limitY, way, ahead: forward, labels } = frame;
  if (!said || limitY === null) return '';
  const end = forward?.x1 ?? labels.x1;
  const isCounted = said.half !== null;
  const rows = [said.date, said.half, said.most].filter((row) => row !== null);
  const baseline = (row: number): number =>
    way > 0 ? limitY + 19 + row * ROW : limitY - 10 - (rows.length - 1 - row) * ROW;
  const marks = [
    (x: number, y: number) => box(x - 8, y - 9, 3, 11, 'accent'),
    (x: number, y: number) => box(x - 12, y - 7, 12, 5, 'accent'),
    (x: number, y: number) => box(x - 12, y - 5.5, 12, 2, 'accent'),
  ];
  return [
    panel.fan && isCounted && forward ? barOf(panel.fan, frame, forward) : '',
    ...rows.map((row, index) =>
      text([isCounted ? end - 18 : end, baseline(index)], row, {
        colour: 'accent',
        bold: index === 0,
        anchor: 'end',
        halo: true,
      }),
    ),
    ...(isCounted ? rows.map((_, index) => marks[index]!(end, baseline(index))) : []),
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
