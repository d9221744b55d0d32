import type { AxlePicture } from '../../core/assessment/pictureShape.js';
import { lines, text, type Colour, type XY } from './draw.js';
import { dateTicks, kmTicks, type Frame, type Half } from './frame.js';

/** The frame of a chart: axes, ticks and hairlines. */

/** Both time axes, with dates below and km above, the thickness axis, and hairlines at its ticks. */
export function axes(picture: AxlePicture, frame: Frame): string {
  const { past, ahead: forward, top, bottom, y, mmTicks, labels, stretch } = frame;
  const halves = [past, ...(forward ? [forward] : [])];
  const across = (at: number): XY[][] =>
    halves.map(({ x0, x1 }) => [
      [x0, at],
      [x1, at],
    ]);
  const ends = (half: Half, isAhead: boolean): string => {
    const colour: Colour = isAhead ? 'accent' : 'ink';
    const km = kmTicks(half, picture, isAhead);
    const dates = dateTicks(half, frame.layout.width);
    return [
      lines(
        km.map(({ x }): XY[] => [
          [x, top],
          [x, top - 4],
        ]),
        { colour: 'rule' },
      ),
      lines(
        dates.map(({ x }): XY[] => [
          [x, bottom],
          [x, bottom + 4],
        ]),
        { colour: 'rule' },
      ),
      ...km.map(({ x, label }) =>
        text([x, top - 9], label, { colour: isAhead ? 'accent' : 'soft', anchor: 'middle' }),
      ),
      ...dates.map(({ x, label }) => text([x, bottom + 17], label, { colour, anchor: 'middle' })),
    ].join('');
  };
  return [
    lines(
      mmTicks.flatMap(({ mm }) => across(y(mm))),
      { colour: 'hair' },
    ),
    lines([...across(top), ...across(bottom)], { colour: 'rule' }),
    ...mmTicks.map(({ mm, label }) =>
      text([past.x0 - 6, y(mm) + 4], label, { anchor: 'end', colour: 'soft' }),
    ),
    ends(past, false),
    forward ? ends(forward, true) : '',
    picture.road.marks.length > 0 ? text([labels.x0 + 6, top - 9], 'km', { colour: 'soft' }) : '',
    forward
      ? text([(labels.x0 + labels.x1) / 2, bottom + 17], stretchWords(stretch), {
          colour: 'soft',
          anchor: 'middle',
        })
      : '',
  ].join('');
}

/** Says how much wider or narrower a future day is drawn than a past one, if the difference is at least half. */
function stretchWords(stretch: number): string {
  const factor = stretch >= 1 ? stretch : 1 / stretch;
  if (factor < 1.5) return '';
  const figure = factor < 1.95 ? factor.toFixed(1) : String(Math.round(factor));
  return `time ${stretch > 1 ? '×' : '÷'} ${figure}`;
}
