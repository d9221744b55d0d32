import type { LimitLine, Panel, PartEvent } from '../../core/assessment/pictureShape.js';
import { itemAt } from '../../core/items.js';
import { hatch, line, lines, text, type XY } from './draw.js';
import { ROW, type Frame, type Layout } from './frame.js';
import { boxOfEntry, leaderOf, type PlacedEntry } from './labels.js';
import { widthOf, type Face } from './letters.js';
import { eventRows, isBrief, limitLabel } from './outcome.js';
import { boxOf, clearest, overlap, type Box, type Label } from './placing.js';
import { courses, whiskers } from './readings.js';

/** Draws the limits (lines, labels and hatching), and the replacements and machining. */

/** Hatching beyond the limit, and the lines and labels of every limit except the governing line itself. */
export function limits(
  panel: Panel,
  placed: readonly PlacedEntry[],
  said: readonly Box[],
  frame: Frame,
): string {
  const { past, limitY, top, bottom, way } = frame;
  if (limitY === null) return '';
  const from = way > 0 ? limitY : top;
  return [
    hatch(past.x0, from, past.x1 - past.x0, way > 0 ? bottom - limitY : limitY - top),
    limitsBeyond(panel, placed, said, frame, limitY),
    ...panel.limits
      .filter(({ kind, governs }) => kind === 'machine-to' && !governs)
      .map((limit) => machineTo(limit, panel, placed, frame)),
  ].join('');
}

/** The label of the governing limit, and the lines beyond it; no line runs through another's label. */
function limitsBeyond(
  panel: Panel,
  placed: readonly PlacedEntry[],
  said: readonly Box[],
  frame: Frame,
  limitY: number,
): string {
  const { past, bottom, way, y } = frame;
  const governing = panel.limits.filter(({ governs }) => governs);
  const main = governing.find(({ mm }) => Math.abs(y(mm) - limitY) < 1) ?? governing[0];
  const beyond = panel.limits
    .filter((limit) => {
      if (limit === main) return false;
      if (limit.governs) return Math.abs(y(limit.mm) - limitY) > 1;
      return limit.kind !== 'machine-to' && way * (y(limit.mm) - limitY) > 1 && y(limit.mm) < bottom;
    })
    .sort((a, b) => way * (y(a.mm) - y(b.mm)));
  const rowAt = (row: number): number => (way > 0 ? limitY + 13 + row * ROW : limitY - 5 - row * ROW);
  const baselineOf = (mm: number, index: number): number => {
    if (way * (y(mm) - limitY) < 0) return y(mm) - 4;
    const under = Math.max(way > 0 ? y(mm) + 13 : 0, rowAt(index + 1));
    return under > bottom - 3 ? y(mm) - 4 : under;
  };
  const labelled = [
    ...(main ? [mainLabel(main, panel, placed, said, frame, baselineOfMain(frame, limitY, beyond[0]))] : []),
    ...beyond.map(({ mm, ...limit }, index): Label => {
      const words = limitLabel({ mm, ...limit }, isBrief(frame.layout));
      return clearest(atEitherEnd(words, {}, frame, baselineOf(mm, index)), {
        lines: readLines(panel, frame),
        boxes: [],
      });
    }),
  ];
  const boxes = labelled.map((label) => boxOf(label, { bold: main && label === labelled[0] }));
  const startOf = (at: number): number =>
    Math.max(
      past.x0,
      ...boxes.filter((box) => at > box.top && at < box.bottom - 3).map((box) => box.right + 4),
    );
  return [
    ...labelled.map(({ rows, left, baseline }, index) => {
      const isMain = main !== undefined && index === 0;
      const colour = isMain ? 'ink' : 'soft';
      return text([left, baseline], itemAt(rows, 0), { bold: isMain, colour, halo: true });
    }),
    lines(
      beyond.map(({ mm }): XY[] => [
        [Math.min(startOf(y(mm)), past.x1), y(mm)],
        [past.x1, y(mm)],
      ]),
      { colour: 'ink' },
    ),
  ].join('');
}

/** Under the limit, but above the next line if that leaves room. */
function baselineOfMain({ way, y }: Frame, limitY: number, next: LimitLine | undefined): number {
  if (way < 0) return limitY - 5;
  return next ? Math.max(limitY + 11, Math.min(limitY + 13, y(next.mm) - 2)) : limitY + 13;
}

/** Lines of readings and of their gauges' intervals. */
const readLines = (panel: Panel, frame: Frame): XY[][] => [
  ...courses(panel, frame),
  ...whiskers(panel, frame),
];

const atEitherEnd = (words: string, face: Face, { past }: Frame, baseline: number): Label[] =>
  [past.x0 + 3, Math.max(past.x0 + 3, past.x1 - 3 - widthOf(words, face))].map((left) => ({
    rows: [words],
    left,
    baseline,
  }));

/** Right of a leader to a name beyond the limit. */
const PAST_LEADER = 16;

/**
 * In full on the left; shorter, on the right or in the column of names if a reading beyond the limit or its interval is
 * there.
 */
function mainLabel(
  limit: LimitLine,
  panel: Panel,
  placed: readonly PlacedEntry[],
  said: readonly Box[],
  frame: Frame,
  baseline: number,
): Label {
  const face: Face = { bold: true };
  const { labels, layout } = frame;
  const words = [...new Set([limitLabel(limit, isBrief(layout)), limitLabel(limit, true)])];
  const lines = [...readLines(panel, frame), ...placed.map((entry) => leaderOf(entry, frame))];
  const taken = [...said, ...placed.map((entry) => boxOfEntry(entry, frame))];
  const places = words.flatMap((each) => atEitherEnd(each, face, frame, baseline));
  const inColumn = words
    .flatMap((each) => [4, PAST_LEADER].map((apart) => ({ rows: [each], left: labels.x0 + apart, baseline })))
    .filter((place) => taken.every((box) => !overlap(boxOf(place, face), box)));
  return clearest([...places, ...inColumn], { lines, boxes: [] }, face);
}

/** The dashed line to which a part may be machined, and its label above or below. */
function machineTo(limit: LimitLine, panel: Panel, placed: readonly PlacedEntry[], frame: Frame): string {
  const { past, labels, layout, way, y } = frame;
  const at = y(limit.mm);
  const label = limitLabel(limit, isBrief(layout));
  // Too long at full size for half a narrow chart.
  const face: Face = { size: layout.name === 'wide' ? 12 : 11 };
  const [near, far] = way > 0 ? [at - 5, at + 14] : [at + 14, at - 5];
  const places = [past.x0 + 3, labels.x0 - 3 - widthOf(label, face)].flatMap((left): Label[] =>
    [near, far].map((baseline) => ({ rows: [label], left, baseline })),
  );
  const { left, baseline } = clearest(
    places,
    {
      lines: [...courses(panel, frame), ...panel.events.map((event) => eventLine(event, panel, frame))],
      boxes: placed.map((entry) => boxOfEntry(entry, frame)),
    },
    face,
  );
  return [
    line(
      [
        [past.x0, at],
        [labels.x0, at],
      ],
      { colour: 'ink', dash: '6 4' },
    ),
    text([left, baseline], label, { size: face.size, colour: 'soft', halo: true }),
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

/** The labels of replacements and machining, on the side away from the limit. */
export function eventLabels(panel: Panel, placed: readonly PlacedEntry[], frame: Frame): Label[] {
  const lines = [...panel.events.map((event) => eventLine(event, panel, frame)), ...courses(panel, frame)];
  const names = placed.map((entry) => boxOfEntry(entry, frame));
  const labels: Label[] = [];
  panel.events.forEach((event, index) => {
    const places = placesOf(event, panel.events.length - 1 - index, frame);
    labels.push(clearest(places, { lines, boxes: [...names, ...labels.map((label) => boxOf(label))] }));
  });
  return labels;
}

/** Dotted lines at replacements and machining, and their labels. */
export const events = (panel: Panel, labels: readonly Label[], frame: Frame): string =>
  [
    ...panel.events.map((event) => line(eventLine(event, panel, frame), { colour: 'ink', dash: '2 2' })),
    ...labels.flatMap(({ rows, left, baseline }) =>
      rows.map((row, at) => text([left, baseline + at * ROW], row, { halo: true })),
    ),
  ].join('');

/** Gap between a dotted line and the last reading that it passes. */
const PAST_READING = 8;

/** From the edge away from the limit to the readings of that day, so that it crosses no label beyond them. */
function eventLine({ day }: PartEvent, { positions }: Panel, frame: Frame): XY[] {
  const { past, top, bottom, way, limitY, y } = frame;
  const heights = positions.flatMap(({ lives }) =>
    lives.flatMap(({ fitted, readings, begunBy, endedBy }) => {
      const known = fitted ? [fitted, ...readings] : readings;
      const at = endedBy === day ? known.at(-1) : begunBy === day ? known[0] : undefined;
      return at ? [way * y(at.mm)] : [];
    }),
  );
  const far = way > 0 ? top : bottom;
  const near = way * (limitY ?? (way > 0 ? bottom : top));
  const end = heights.length === 0 ? near : Math.max(...heights) + PAST_READING;
  return [
    [past.x(day), far],
    [past.x(day), way * Math.min(end, Math.max(near, ...heights))],
  ];
}

/** Rows for labels of events on charts of every width; narrow ones also break a label in two. */
export const rowsForEvents = ({ events: happened }: Panel, layout: Layout): number =>
  isBrief(layout) && happened.length > 1 ? 3 : Math.min(2, happened.length);

/** Candidate places for an event's label, best first: beside its line, on one row or on two. */
function placesOf(event: PartEvent, preferredRow: number, frame: Frame): Label[] {
  const { past, labels, top, bottom, way, layout } = frame;
  const x = past.x(event.day);
  const [words, date] = eventRows(event, layout);
  const shapes = layout.name === 'wide' ? [[`${words} ${date}`]] : [[`${words} ${date}`], [words, date]];
  const first = Math.min(1, preferredRow);
  const places = shapes.flatMap((rows) =>
    [first, 1 - first].flatMap((row): Label[] => {
      const baseline = way > 0 ? top + 13 + row * ROW : bottom - 6 - (row + rows.length - 1) * ROW;
      const width = Math.max(...rows.map((each) => widthOf(each)));
      return [x + 5, x - 5 - width]
        .filter((left) => left >= past.x0 + 2 && left + width <= labels.x1)
        .map((left) => ({ rows, left, baseline }));
    }),
  );
  const baseline = way > 0 ? top + 13 : bottom - 6;
  return places.length > 0 ? places : [{ rows: [`${words} ${date}`], left: past.x0 + 2, baseline }];
}
