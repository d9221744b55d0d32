import type { Panel, PicturedLife, Position } from '../../core/assessment/pictureShape.js';
import { entryOf, itemAt } from '../../core/items.js';
import { lines, mark, type Colour, type MarkStyle, type XY } from './draw.js';
import type { Frame } from './frame.js';

/** The measurements of a chart: lines, whiskers and marks. */

const APART = { full: 16, marked: 6 } as const;

/** What is drawn of the readings; the governing position last. */
interface Drawn {
  /** The gauges' intervals, drawn first, so that the labels of limits interrupt them. */
  whiskers: string;
  /** Lines through the readings of every life, and marks. */
  marks: string;
}

export function readings(panel: Panel, frame: Frame): Drawn {
  const { past, y, top, bottom } = frame;
  const within = (at: number): number => Math.min(bottom, Math.max(top, at));
  const days = [
    ...new Set(
      panel.positions.flatMap(({ lives }) => lives.flatMap((life) => life.readings.map(({ day }) => day))),
    ),
  ].sort((a, b) => a - b);
  const gaps = days
    .slice(1)
    .map((day, index) => past.x(day) - past.x(itemAt(days, index)))
    .sort((a, b) => a - b);
  const gap = gaps[Math.floor(gaps.length / 2)] ?? Infinity;
  const crowd = gap >= APART.full ? 'full' : gap >= APART.marked ? 'small' : 'dense';
  const governing = panel.fan?.position ?? null;
  const placed = placeMarks(panel, frame, days, crowd === 'full' ? 3.3 : 2.2);
  const order = panel.positions
    .map((_, index) => index)
    .sort((a, b) => Number(a === governing) - Number(b === governing));
  const drawn = order.map((index): Drawn => {
    const position = itemAt(panel.positions, index);
    const governs = index === governing;
    const colour: Colour = governs || governing === null ? 'ink' : 'soft';
    const isMarked = crowd !== 'dense' || governs || governing === null;
    const radius = crowd === 'full' ? (governs ? 3.8 : 3.3) : crowd === 'small' ? 2.4 : 1.6;
    const courses = position.lives.map((life) => courseOf(life, entryOf(placed, life), frame));
    const hasWhiskers = crowd === 'full' || governs;
    const whiskers = position.lives.flatMap((life) =>
      life.readings.flatMap(({ mm, reachMm }, at): XY[][] => {
        const [x] = itemAt(entryOf(placed, life), at);
        const [high, low] = [within(y(mm + reachMm)), within(y(mm - reachMm))];
        return Math.abs(low - high) / 2 > radius + 1
          ? [
              [
                [x, high],
                [x, low],
              ],
            ]
          : [];
      }),
    );
    return {
      whiskers: hasWhiskers
        ? lines(whiskers, { colour: crowd === 'dense' ? 'hair' : governs ? 'ink' : 'rule' })
        : '',
      marks: [
        lines(courses, { colour, width: governs ? 2.2 : 1 }),
        ...(isMarked
          ? position.lives.flatMap((life) =>
              entryOf(placed, life).map((xy) => mark(xy, { ...markStyle(position), colour, radius })),
            )
          : []),
      ].join(''),
    };
  });
  return {
    whiskers: drawn.map(({ whiskers }) => whiskers).join(''),
    marks: drawn.map(({ marks }) => marks).join(''),
  };
}

/** The lines through all readings, for labels to keep clear of. */
export const courses = ({ positions }: Panel, frame: Pick<Frame, 'past' | 'y'>): XY[][] =>
  positions.flatMap(({ lives }) =>
    lives.map((life) => {
      const marks = life.readings.map(({ day, mm }): XY => [frame.past.x(day), frame.y(mm)]);
      return courseOf(life, marks, frame);
    }),
  );

/** The whiskers of all readings. */
export const whiskers = ({ positions }: Panel, { past, y }: Pick<Frame, 'past' | 'y'>): XY[][] =>
  positions.flatMap(({ lives }) =>
    lives.flatMap(({ readings: read }) =>
      read.map(({ day, mm, reachMm }): XY[] => [
        [past.x(day), y(mm - reachMm)],
        [past.x(day), y(mm + reachMm)],
      ]),
    ),
  );

/** A life's line: from its fitting through its readings. */
function courseOf(
  { fitted }: PicturedLife,
  marks: readonly XY[],
  { past, y }: Pick<Frame, 'past' | 'y'>,
): XY[] {
  return fitted ? [[past.x(fitted.day), y(fitted.mm)], ...marks] : [...marks];
}

/**
 * Round for inner and leading, square for outer and trailing, a diamond for the thinnest; filled on the left, open on
 * the right.
 */
export const markStyle = ({ side, pad }: Position): Pick<MarkStyle, 'shape' | 'isFilled'> => ({
  shape: pad === 'thinnest' ? 'diamond' : pad === 'outer' || pad === 'trailing' ? 'square' : 'round',
  isFilled: side !== 'right',
});

/**
 * Positions the marks of each life's readings. Marks of one visit share a place and are shifted sideways only if they
 * touch; as-found readings stay left of that day's replacement, as-left ones right of it.
 */
function placeMarks({ positions }: Panel, { past, y }: Frame, days: readonly number[], radius: number) {
  const taken = new Map<number, XY[]>();
  const placed = new Map<PicturedLife, XY[]>();
  positions.forEach(({ lives }) => {
    for (const life of lives) {
      const marks = life.readings.map(({ day, mm }): XY => {
        const at = days.indexOf(day);
        const room = Math.min(
          past.x(day) - past.x(days[at - 1] ?? -Infinity),
          past.x(days[at + 1] ?? Infinity) - past.x(day),
        );
        const others = taken.get(day) ?? [];
        const height = y(mm);
        const touches = (x: number): boolean =>
          others.some(([otherX, otherY]) => Math.hypot(otherX - x, otherY - height) < 2 * radius + 0.6);
        const step = 2 * radius + 0.8;
        const offsets =
          day === life.endedBy
            ? [-radius - 2, -radius - 2 - step, -radius - 2 - 2 * step]
            : day === life.begunBy
              ? [radius + 2, radius + 2 + step, radius + 2 + 2 * step]
              : [0, step, -step, 2 * step, -2 * step];
        const free = offsets.filter((offset) => Math.abs(offset) < room / 2);
        const offset = free.find((each) => !touches(past.x(day) + each)) ?? free[0] ?? itemAt(offsets, 0);
        const xy: XY = [past.x(day) + offset, height];
        taken.set(day, [...others, xy]);
        return xy;
      });
      placed.set(life, marks);
    }
  });
  return placed;
}
