import type { Panel } from '../../core/assessment/pictureShape.js';
import { hatch, line, lines, text, type XY } from './draw.js';
import { measuredPoints, ROW, type Frame } from './frame.js';
import type { PlacedEntry } from './labels.js';
import { widthOf } from './letters.js';
import { eventLabel, limitLabel } from './outcome.js';

/** What belongs to a limit: its lines, labels and hatching; and the replacements and machining along the way. */

/** Hatching beyond the limit, and the lines and labels of every limit except the governing line itself. */
export function limits(panel: Panel, placed: readonly PlacedEntry[], frame: Frame): string {
  const { past, limitY, top, bottom, way, y, labels } = frame;
  if (limitY === null) return '';
  const from = way > 0 ? limitY : top;
  const governing = panel.limits.filter(({ governs }) => governs);
  const others = panel.limits.filter(({ governs }) => !governs);
  const words = (at: number, label: string, bold: boolean, size = 12): string =>
    text([past.x0 + 3, at], label, { bold, size, colour: bold ? 'ink' : 'soft', halo: true });
  const machineTo = others.filter(({ kind }) => kind === 'machine-to');
  const beyond = others.filter(
    ({ kind, mm }) => kind !== 'machine-to' && way * (y(mm) - limitY) > 1 && y(mm) < bottom,
  );
  const main = governing.find(({ mm }) => Math.abs(y(mm) - limitY) < 1) ?? governing[0];
  const apart = governing.filter((each) => each !== main && Math.abs(y(each.mm) - limitY) > 1);
  const rowAt = (row: number): number => (way > 0 ? limitY + 13 + row * ROW : limitY - 5 - row * ROW);
  const labelOfOther = (mm: number, index: number): number => {
    if (way * (y(mm) - limitY) < 0) return y(mm) - 4;
    const under = Math.max(way > 0 ? y(mm) + 13 : 0, rowAt(index + 1));
    return under > bottom - 3 ? y(mm) - 4 : under;
  };
  const under = [...apart, ...beyond].sort((a, b) => way * (y(a.mm) - y(b.mm)));
  return [
    hatch(past.x0, from, past.x1 - past.x0, way > 0 ? bottom - limitY : limitY - top),
    lines(
      [...under].map(({ mm }): XY[] => [
        [past.x0, y(mm)],
        [past.x1, y(mm)],
      ]),
      { colour: 'ink' },
    ),
    main ? words(rowAt(0), limitLabel(main, frame.layout), true) : '',
    ...under.map((limit, index) =>
      words(labelOfOther(limit.mm, index), limitLabel(limit, frame.layout), false),
    ),
    ...machineTo.map(({ mm }) =>
      line(
        [
          [past.x0, y(mm)],
          [labels.x0, y(mm)],
        ],
        { colour: 'ink', dash: '6 4' },
      ),
    ),
    ...machineTo.map((limit) => {
      const label = limitLabel(limit, frame.layout);
      // Too long at full size for half a narrow chart.
      const size = frame.layout.name === 'wide' ? 12 : 11;
      const end = past.x0 + 3 + widthOf(label, { size });
      const [near, far] = way > 0 ? [-5, 14] : [14, -5];
      const isTaken = (at: number): boolean =>
        placed.some((entry) => end > labels.x0 && Math.abs(entry.at - (at - 4)) < 14) ||
        measuredPoints(panel).some(({ day, mm }) => past.x(day) < end && Math.abs(y(mm) - (at - 4)) < 9);
      const base = y(limit.mm);
      return words(
        isTaken(base + near) && !isTaken(base + far) ? base + far : base + near,
        label,
        false,
        size,
      );
    }),
  ].join('');
}

/** The governing limit from end to end, on top of everything drawn before. */
export const limitLine = ({ past, ahead: forward, labels, limitY }: Frame): string =>
  limitY === null
    ? ''
    : line(
        [
          [past.x0, limitY],
          [forward?.x1 ?? labels.x1, limitY],
        ],
        { colour: 'ink', width: 2 },
      );

/** Dotted lines at replacements and machining, labelled on the side away from the limit. */
export function events({ events: happened }: Panel, frame: Frame): string {
  const { past, top, bottom, way, layout } = frame;
  return happened
    .map((event, index) => {
      const x = past.x(event.day);
      const label = eventLabel(event, layout);
      const width = widthOf(label);
      const right = x + 5 + width <= past.x1 + 40;
      const left = right ? x + 5 : Math.max(past.x0 + 2, x - 5 - width);
      const row = Math.min(1, happened.length - 1 - index);
      const at = way > 0 ? top + 13 + row * ROW : bottom - 6 - row * ROW;
      return (
        line(
          [
            [x, top],
            [x, bottom],
          ],
          { colour: 'ink', dash: '2 2' },
        ) + text([left, at], label, { halo: true })
      );
    })
    .join('');
}
