import type { AxlePicture, Panel } from '../../core/assessment/pictureShape.js';
import { toDay } from '../../core/calendar.js';
import { itemAt } from '../../core/items.js';
import { capital, onAxle, positionInWords, sentence, shortDate } from '../../core/words.js';
import { axes } from './axes.js';
import { group, text, type Drawing } from './draw.js';
import { ahead, outcome, outcomeBoxes } from './forecast.js';
import { FOOT, frameOf, isLining, pastDays, ROW, type Frame, type Layout, type Wanted } from './frame.js';
import { APART, boxOfEntry, labelEntries, labelsWidth, placeEntries, labels } from './labels.js';
import { widthOf, wrapped } from './letters.js';
import { eventLabels, events, limitLine, limits, rowsForEvents } from './limits.js';
import { boxOf } from './placing.js';
import { readings } from './readings.js';

/**
 * The chart of one kind of part of an axle: measurements on the left in ink, the forecast on the right in accent, and
 * between them the positions' names and latest readings. The limit runs through all three.
 */

/** Whether there is anything to draw; if not, `silence` says why. */
export const isDrawn = (panel: Panel): boolean =>
  panel.positions.some(({ lives }) => lives.some(({ readings }) => readings.length > 0));

export function drawPanel(picture: AxlePicture, panel: Panel, layout: Layout): Drawing {
  const entries = labelEntries(panel, layout);
  const wanted: Wanted = { labelsWidth: labelsWidth(entries), eventRows: rowsForEvents(panel, layout) };
  const frame = frameOf(picture, panel, layout, wanted);
  const placed = placeEntries(entries, frame);
  const happened = eventLabels(panel, placed, frame);
  const taken = [
    ...placed.map((entry) => boxOfEntry(entry, frame, APART)),
    ...happened.map((label) => boxOf(label)),
  ];
  const notes = notesOf(picture, panel).flatMap((note) => wrapped(note, layout.width));
  const { whiskers, marks } = readings(panel, frame);
  const inner = [
    heading(picture, panel, frame),
    group('axes', axes(picture, frame)),
    group('whiskers', whiskers),
    group('limits', limits(panel, placed, outcomeBoxes(picture, panel, frame), frame)),
    group('events', events(panel, happened, frame)),
    group('forecast', ahead(picture, panel, taken, frame)),
    group('readings', marks),
    group('labels', labels(placed, frame)),
    group('limit', limitLine(frame)),
    group('outcome', outcome(picture, panel, frame)),
    ...notes.map((note, index) =>
      text([0, frame.bottom + FOOT + 14 + index * ROW], note, { colour: 'soft' }),
    ),
  ];
  const height = frame.bottom + FOOT + (notes.length > 0 ? notes.length * ROW + 6 : 0);
  return { inner: inner.join(''), width: layout.width, height };
}

const PART_UNITS: Record<Panel['part'], string> = {
  pads: 'mm, friction material',
  shoes: 'mm, friction material',
  rotors: 'mm, thinnest point',
  drums: 'mm, largest diameter',
};

/** `Front pads`, `Rotors on axle 2`. */
export const panelName = ({ axle }: AxlePicture, { part }: Panel): string => capital(onAxle(part, axle));

function heading(
  picture: AxlePicture,
  panel: Panel,
  { layout, past, labels, ahead: forward }: Frame,
): string {
  const title = panelName(picture, panel);
  const unit = layout.name === 'wide' ? PART_UNITS[panel.part] : 'mm';
  const titleEnd = widthOf(title, { size: 13, bold: true });
  const unitX = titleEnd + 10;
  const dateX = Math.max(labels.x0 + 6, unitX + widthOf(unit) + 10);
  const date = shortDate(past.days[1]);
  const isRoomy = !forward || dateX + widthOf(date) + 10 < layout.width - widthOf('Forecast', { bold: true });
  return [
    text([0, 13], title, { bold: true, size: 13 }),
    text([unitX, 13], unit, { colour: 'soft' }),
    isRoomy ? text([dateX, 13], date, { colour: 'soft' }) : '',
    forward ? text([layout.width, 13], 'Forecast', { colour: 'accent', bold: true, anchor: 'end' }) : '',
  ].join('');
}

/** What the chart omits, and why. */
function notesOf(picture: AxlePicture, panel: Panel): string[] {
  const { road } = picture;
  const { fan, positions, earlierSets } = panel;
  const governing = fan && itemAt(positions, fan.position);
  const isJudged = governing && !governing.latest && positions.some(({ latest }) => latest);
  const span = pastDays(picture, panel);
  const replaced = road.replacedOn.filter((day) => day >= span[0]);
  const unread = positions.filter(({ latest }) => !latest).map((position) => positionInWords(position));
  const drawnFor =
    governing && isJudged
      ? [`The forecast is for the ${positionInWords(governing)}, estimated from the others.`]
      : [];
  return [
    ...(unread.length === positions.length
      ? ['Not measured since they were fitted.']
      : unread.length > 0
        ? [`Not measured since fitted: ${unread.join(', ')}.`]
        : []),
    ...drawnFor,
    ...panel.missing.map((words) => sentence(words)),
    ...(earlierSets > 0
      ? [`${earlierSets} earlier ${earlierSets === 1 ? 'set is' : 'sets are'} not drawn.`]
      : []),
    ...(replaced.length > 0
      ? [
          `km since the first odometer reading; the odometer was replaced on ${replaced.map((day) => shortDate(day)).join(', ')}.`,
        ]
      : []),
  ];
}

/** Why there is no chart. */
export function silence({ wear }: AxlePicture, { part, fan }: Panel): string {
  const parts = isLining({ part }) ? wear.pads : part === 'rotors' ? wear.rotors : wear.drums;
  const fitted = parts.map((each) => each.fitted?.date).find((date) => date != null);
  const since = fitted ? ` since they were fitted, ${shortDate(toDay(fitted), 'month')}` : '';
  return `No chart${fan ? '' : ' and no forecast'}: none of these ${part} has been measured${since}.`;
}
