import {
  positionName,
  type AxlePicture,
  type Band,
  type Panel,
  type Point,
} from '../core/assessment/picture.js';
import { toFullDate } from '../core/calendar.js';
import { LONGEST_DAYS } from '../core/forecast/crossing.js';
import { inWords } from '../core/rounding.js';
import { niceTicks, placeLabels, spread, widthOf, wrapped, type Label } from './labels.js';
import { capital } from './names.js';
import {
  axleInWords,
  counterpartCaption,
  DISCLAIMER,
  eventInWords,
  limitInWords,
  liningCaption,
  MEASURES,
  positionCode,
} from './wearWords.js';

/**
 * The picture of an axle laid out as a Vega specification: plain data, without a function in it. Everything is black or
 * grey; what tells positions apart is shape, dash and letters.
 */

export const WIDTH = 600;
const LEFT = 46;
const RIGHT = WIDTH - 26;
const PLOT = RIGHT - LEFT;
const LINE = 14;
/** Rows of words beyond the limit, and on the other side. */
const LIMIT_ROWS = 4;
const EVENT_ROWS = 3;
/** Pixels for what was read, between the two. */
const DATA = 190;
const PLOT_HEIGHT = DATA + (LIMIT_ROWS + EVENT_ROWS) * LINE;
const LETTERS = 96;
/** Pixels by which the marks of one visit stand apart. */
const APART = 5;
const MS_PER_DAY = 86_400_000;

const SHAPES = ['circle', 'square', 'triangle-up', 'diamond', 'cross', 'triangle-down'];
const DASHES = [[], [7, 3], [2, 2], [8, 3, 2, 3], [12, 4], [4, 2, 1, 2]];

type Encoded = Record<string, unknown>;
interface Specification extends Encoded {
  width: number;
  height: number;
}

/** Linear scales of one panel, in pixels of its plot. */
export interface Scales {
  days: [number, number];
  mm: [number, number];
  height: number;
}

/** Where words beyond everything drawn begin: under it, or over it where parts grow. */
const edgeOf = (part: Panel['part']): number =>
  part === 'drums' ? LIMIT_ROWS * LINE : PLOT_HEIGHT - LIMIT_ROWS * LINE;

const xOf = ({ days }: Scales, day: number): number => ((day - days[0]) / (days[1] - days[0])) * PLOT;
const yOf = ({ mm, height }: Scales, value: number): number =>
  height - ((value - mm[0]) / (mm[1] - mm[0])) * height;

export function wearSpecification(picture: AxlePicture): Specification {
  const days = daysShown(picture);
  const marks: Mark[] = [];
  const plots: Encoded[] = [];
  let y = 0;
  for (const panel of picture.panels) {
    const drawn = drawPanel(picture, panel, days, y);
    marks.push(...drawn.marks);
    plots.push(...drawn.plots);
    y += drawn.height;
  }
  const closing = wrapped(`${EXPLANATION} ${DISCLAIMER}`, LETTERS);
  marks.push(words(closing, y + LINE));
  const around = named(marks);
  return {
    $schema: 'https://vega.github.io/schema/vega/v6.json',
    width: WIDTH,
    height: y + closing.length * LINE + 8,
    padding: 0,
    autosize: 'none',
    background: 'white',
    data: around.data,
    marks: [...plots, ...around.marks],
  };
}

const EXPLANATION =
  'Marks: readings with the gauge’s 95 % interval, those of one visit side by side. Lines: wear by distance. Grey: where 8 of 10 forecasts should lie.';

/** From the first thing known to the late date, with room for words behind the latest visit. */
function daysShown({ panels, today, asAt, road }: AxlePicture): [number, number] {
  const past = panels.flatMap(({ positions, events }) => [
    ...positions.flatMap(({ readings, trends }) => [...readings, ...trends.flat()]),
    ...events,
  ]);
  const ends = panels.flatMap(({ band }) =>
    [band?.low, band?.median, band?.high].flatMap((end) => end ?? []),
  );
  const first = Math.min(
    today,
    asAt ?? today,
    ...past.map(({ day }) => day),
    ...road.marks.map(({ day }) => day),
  );
  const isOpen = panels.some(({ band }) => band && !(band.low && band.median && band.high));
  const last = Math.max(today, ...ends.map(({ day }) => day)) + (isOpen ? 365 : 0);
  const span = Math.max(60, last - first);
  const behind = Math.max(today, asAt ?? today) + 0.12 * span;
  return [first - 0.02 * span, Math.max(last + 0.03 * span, behind)];
}

interface Drawn {
  marks: Mark[];
  plots: Encoded[];
  height: number;
}

function drawPanel(picture: AxlePicture, panel: Panel, days: [number, number], top: number): Drawn {
  const { wear, axle } = picture;
  const isLining = panel.part === 'pads' || panel.part === 'shoes';
  const title = `${axleInWords(axle)} ${panel.part}: ${MEASURES[panel.part]}`;
  const caption = isLining ? liningCaption(wear) : counterpartCaption(wear);
  const said = caption.join(' ');
  const notes = panel.missing.filter((note) => !said.includes(note)).map((note) => `${capital(note)}.`);
  const lines = [...caption, ...notes].flatMap((line) => wrapped(line, LETTERS));
  const marks = [heading(title, top + 18), words(lines, top + 18 + LINE + 2)];
  const below = top + 18 + lines.length * LINE + 6;
  const hasData = panel.positions.some(({ readings, trends }) => readings.length + trends.length > 0);
  if (!hasData) return { marks, plots: [], height: below + 14 - top };
  const key = keyOf(panel, below + LINE + 4);
  const plotTop = below + LINE + 4 + 44;
  const scales = scalesOf(panel, days);
  return {
    marks: [...marks, ...key],
    plots: [plotOf(picture, panel, scales, plotTop)],
    height: plotTop + PLOT_HEIGHT + 34 - top,
  };
}

/** What of a panel bounds its scale: everything drawn but the words. */
function scalesOf({ positions, limits, band, part }: Panel, days: [number, number]): Scales {
  const values = [
    ...positions.flatMap(({ readings, trends }) => [
      ...readings.flatMap(({ mm, reachMm }) => [mm - reachMm, mm + reachMm]),
      ...trends.flat().map(({ mm }) => mm),
    ]),
    ...limits.map(({ mm }) => mm),
    ...(band ? [band.start.low, band.start.high] : []),
    ...[band?.low, band?.median, band?.high].flatMap((end) => (end ? [end.mm] : [])),
  ];
  const low = Math.min(...values);
  const high = Math.max(...values, low + 0.1);
  const perPixel = (high - low) / DATA;
  const below = part === 'drums' ? EVENT_ROWS : LIMIT_ROWS;
  const above = part === 'drums' ? LIMIT_ROWS : EVENT_ROWS;
  return {
    days,
    mm: [low - below * LINE * perPixel, high + above * LINE * perPixel],
    height: PLOT_HEIGHT,
  };
}

function plotOf(picture: AxlePicture, panel: Panel, scales: Scales, top: number): Encoded {
  const { part } = panel;
  const [low, high] = scales.mm;
  const values = niceTicks(Math.max(0, low), high, 8);
  const axis = { domainColor: '#555', tickColor: '#555', labelColor: '#000', labelFontSize: 10, aria: false };
  return {
    type: 'group',
    name: `plot-${part}`,
    ...unread,
    encode: {
      enter: {
        x: { value: LEFT },
        y: { value: top },
        width: { value: PLOT },
        height: { value: PLOT_HEIGHT },
        stroke: { value: '#555' },
      },
    },
    scales: [
      { name: 'x', type: 'utc', domain: scales.days.map((day) => day * MS_PER_DAY), range: [0, PLOT] },
      { name: 'y', type: 'linear', zero: false, nice: false, domain: scales.mm, range: [PLOT_HEIGHT, 0] },
    ],
    axes: [
      { ...axis, scale: 'y', orient: 'left', values, grid: true, gridScale: 'x', gridColor: '#e4e4e4' },
      {
        ...axis,
        scale: 'x',
        orient: 'bottom',
        format: '%Y-%m-%d',
        formatType: 'utc',
        tickCount: 6,
        labelOverlap: 'parity',
        labelBound: WIDTH - RIGHT,
        labelSeparation: 8,
      },
    ],
    ...named([
      ...distanceAxis(picture, scales),
      ...bandMarks(panel, scales),
      ...trendMarks(panel, scales),
      ...limitMarks(panel, scales),
      ...eventMarks(panel, scales),
      ...aheadMarks(picture, panel, scales),
      ...readingMarks(panel, scales),
      ...codeMarks(panel, scales),
    ]),
  };
}

/** Ticks of the second horizontal axis: round distances where the vehicle had driven them, or will have at its pace. */
function distanceAxis({ road }: AxlePicture, scales: Scales): Mark[] {
  const { marks, kmPerDay, replacedOn } = road;
  const last = marks.at(-1);
  if (!last) return [words(['no odometer reading is known: no distances'], -8, 0)];
  const ahead = kmPerDay
    ? [{ day: scales.days[1], km: last.km + kmPerDay * (scales.days[1] - last.day) }]
    : [];
  const line = [...marks, ...ahead];
  const from = line[0]!.km;
  const to = line.at(-1)!.km;
  const ticks: { x: number; text: string }[] = [];
  for (const km of to > from ? niceTicks(from, to, 8) : []) {
    const index = line.findIndex((mark) => mark.km >= km);
    const next = line[index]!;
    const before = line[index - 1] ?? next;
    const share = next.km > before.km ? (km - before.km) / (next.km - before.km) : 0;
    const x = xOf(scales, before.day + share * (next.day - before.day));
    const text = km.toLocaleString('en');
    const previous = ticks.at(-1);
    if (x + widthOf(text) / 2 > PLOT + WIDTH - RIGHT) continue;
    if (previous && x - previous.x < (widthOf(previous.text) + widthOf(text)) / 2 + 4) continue;
    ticks.push({ x, text });
  }
  const what =
    replacedOn.length > 0
      ? `km driven since the first odometer reading (replaced ${replacedOn.map(toFullDate).join(', ')})`
      : 'km by the odometer';
  const pace = kmPerDay ? `, ahead at ${inWords(kmPerDay, 1)} km a day` : '';
  return [
    ruleMark(
      'distance-ticks',
      ticks.map(({ x }) => ({ x, x2: x, y: 0, y2: -5 })),
      { stroke: '#555' },
    ),
    textMark(
      'distance-labels',
      ticks.map(({ x, text }) => ({ x, y: -8, text })),
      { align: 'center', fontSize: 10 },
    ),
    words([what + pace], -22, 0),
  ];
}

/** A null end lies farther than any date given; its line is drawn towards the end of those. */
const endOf = (end: Point | null, { start, limitMm }: Band): Point =>
  end ?? { day: start.day + LONGEST_DAYS, mm: limitMm };

/** The height of a bent line on a day; on a day it has twice, the later one. */
function heightOn(line: readonly Point[], day: number): number {
  const after = line.findLastIndex((point) => point.day <= day);
  const from = line[after]!;
  const to = line[after + 1];
  if (!to) return from.mm;
  return from.mm + ((day - from.day) / (to.day - from.day)) * (to.mm - from.mm);
}

function bandMarks({ band, part }: Panel, scales: Scales): Mark[] {
  if (!band) return [];
  const { start } = band;
  const [low, median, high] = (['low', 'median', 'high'] as const).map((name) => [
    { day: start.day, mm: start[name] },
    endOf(band[name], band),
  ]) as [Point[], Point[], Point[]];
  const last = Math.min(scales.days[1], high[1]!.day);
  const cut = (line: Point[]): Point[] => {
    const day = Math.min(last, line[1]!.day);
    return [line[0]!, { day, mm: heightOn(line, day) }];
  };
  const corners = [start.day, ...[low, high].map(([, end]) => Math.min(last, end!.day))];
  const area = [...new Set(corners)]
    .sort((a, b) => a - b)
    .map((day) => ({
      x: xOf(scales, day),
      y: yOf(scales, heightOn(high, day)),
      y2: yOf(scales, heightOn(low, day)),
    }));
  const toPixels = (line: Point[]) =>
    cut(line).map((point) => ({ x: xOf(scales, point.day), y: yOf(scales, point.mm) }));
  return [
    mark('area', `band-${part}`, area, ['x', 'y', 'y2'], { fill: '#dcdcdc' }),
    lineMark(`band-low-${part}`, toPixels(low), { strokeWidth: 1, strokeDash: [3, 3] }),
    lineMark(`band-high-${part}`, toPixels(high), { strokeWidth: 1, strokeDash: [3, 3] }),
    lineMark(`band-median-${part}`, toPixels(median), { strokeWidth: 2 }),
  ];
}

interface DrawnLimit {
  x: number;
  y: number;
  text: string;
  dashed: boolean;
}

const drawnLimits = ({ limits }: Panel, scales: Scales): DrawnLimit[] =>
  limits.map((limit) => ({
    x: Math.max(0, limit.from === null ? 0 : xOf(scales, limit.from)),
    y: yOf(scales, limit.mm),
    text: limitInWords(limit),
    dashed: limit.kind === 'machine-to',
  }));

/** Whether a limit is the last thing drawn, so that its words find room beyond it. */
const isAtEdge = ({ y }: DrawnLimit, part: Panel['part']): boolean => Math.abs(y - edgeOf(part)) < 1;

/** Limits as heavy lines; those with others or readings beyond them are labelled along themselves. */
function limitMarks(panel: Panel, scales: Scales): Mark[] {
  const { part } = panel;
  const drawn = drawnLimits(panel, scales);
  const labels: { x: number; y: number; text: string }[] = [];
  for (const line of drawn.filter((each) => !isAtEdge(each, part)).sort((a, b) => a.y - b.y)) {
    const y = line.y + (part === 'drums' ? 12 : -4);
    const last = labels.at(-1);
    const beside = last && y - last.y < LINE ? last.x + widthOf(last.text) + 8 : line.x + 3;
    labels.push({ x: Math.min(beside, PLOT - widthOf(line.text)), y, text: line.text });
  }
  return [
    ruleMark(
      `limits-${part}`,
      drawn.map(({ x, y, dashed }) => ({ x, x2: PLOT, y, y2: y, strokeDash: dashed ? [6, 4] : [] })),
      { strokeWidth: 2, stroke: '#000' },
      'strokeDash',
    ),
    ...backed(`limit-labels-${part}`, labels),
  ];
}

function eventMarks({ events, part }: Panel, scales: Scales): Mark[] {
  const labels = events.map((event): Label => {
    const text = `${eventInWords(event)} ${toFullDate(event.day)}`;
    return { x: xOf(scales, event.day), text, prefers: 'before' };
  });
  const placed = placeLabels([...labels].reverse(), EVENT_ROWS, [2, PLOT - 2]);
  const yOfRow = (row: number): number => (part === 'drums' ? PLOT_HEIGHT - 5 - row * LINE : 11 + row * LINE);
  return [
    ruleMark(
      `replacements-${part}`,
      labels.map(({ x }) => ({ x, x2: x, y: 0, y2: PLOT_HEIGHT })),
      { stroke: '#555', strokeDash: [1, 3] },
    ),
    ...backed(
      `replacement-labels-${part}`,
      placed.map(({ left, row, text }) => ({ x: left, y: yOfRow(row), text })),
    ),
  ];
}

/** Words beyond everything drawn: the limit's own, today, and what the forecast comes to. */
function aheadMarks({ today, asAt }: AxlePicture, panel: Panel, scales: Scales): Mark[] {
  const { part } = panel;
  const ends = endsInWords(panel).map((end) => ({ ...end, x: xOf(scales, end.day) }));
  const labels: Label[] = [
    ...drawnLimits(panel, scales)
      .filter((limit) => isAtEdge(limit, part))
      .map(({ x, text }) => ({ x, text, prefers: 'after' as const })),
    ...ends,
    ...(today === asAt ? [] : [{ x: xOf(scales, today), text: 'today', prefers: 'after' as const }]),
  ];
  const placed = placeLabels(labels, LIMIT_ROWS, [2, PLOT - 2]);
  const edge = edgeOf(part);
  const way = part === 'drums' ? -1 : 1;
  const rowOf = (x: number): number => placed.find((label) => label.x === x)?.row ?? 0;
  return [
    ruleMark(`today-${part}`, [{ x: xOf(scales, today), x2: xOf(scales, today), y: 0, y2: PLOT_HEIGHT }], {
      stroke: '#555',
      strokeDash: [6, 2, 1, 2],
    }),
    ruleMark(
      `dates-${part}`,
      ends.map(({ x, mm }) => ({ x, x2: x, y: yOf(scales, mm), y2: edge + way * (rowOf(x) + 1) * LINE })),
      { stroke: '#000' },
    ),
    ...backed(
      `date-labels-${part}`,
      placed.map(({ left, row, text }) => ({
        x: left,
        y: edge + (way > 0 ? 12 : -4) + way * row * LINE,
        text,
      })),
    ),
  ];
}

type End = Point & Pick<Label, 'text' | 'prefers'>;

/** Where the forecast ends and what is said there; dates that are the same are said once. */
function endsInWords({ band, part }: Panel): End[] {
  if (!band) return [];
  if (part === 'rotors' || part === 'drums') {
    return band.median ? [{ ...band.median, text: leftInWords(band, part), prefers: 'before' }] : [];
  }
  const dates = new Map<number, string[]>();
  const named = { early: band.low, median: band.median, late: band.high };
  for (const [name, end] of Object.entries(named)) {
    if (end) dates.set(end.day, [...(dates.get(end.day) ?? []), name]);
  }
  return [...dates].map(([day, names], index) => ({
    day,
    mm: band.limitMm,
    text: `${names.join(', ')} ${toFullDate(day)}`,
    prefers: index === 0 ? 'before' : 'after',
  }));
}

/** What is left of a rotor or drum when the linings are used up. */
function leftInWords({ of, median, limitMm }: Band, part: 'rotors' | 'drums'): string {
  const [linings, limit, within, beyond] =
    part === 'drums' ? ['shoes', 'maximum', 'below', 'over'] : ['pads', 'discard', 'above', 'under'];
  const margin = (median!.mm - limitMm) * (part === 'drums' ? -1 : 1);
  const where = `${inWords(Math.abs(margin))} mm ${margin < 0 ? beyond : within} ${limit}`;
  return `${of} ${part === 'drums' ? 'drum' : 'rotor'}: ${where} when the ${linings} are used up`;
}

const trendMarks = ({ positions, part }: Panel, scales: Scales): Mark[] =>
  positions.flatMap(({ trends }, index) =>
    trends.map((line, life) =>
      lineMark(
        `trend-${part}-${index}-${life}`,
        line.map(({ day, mm }) => ({ x: xOf(scales, day), y: yOf(scales, mm) })),
        { strokeWidth: 1.2, strokeDash: DASHES[index] },
      ),
    ),
  );

/** Readings over their gauges' intervals, those of one visit side by side. */
function readingMarks({ positions, part }: Panel, scales: Scales): Mark[] {
  const readings = positions.flatMap(({ readings: read }, index) =>
    read.map(({ day, mm, reachMm }) => ({
      x: xOf(scales, day) + (index - (positions.length - 1) / 2) * APART,
      y: yOf(scales, mm),
      low: yOf(scales, mm - reachMm),
      high: yOf(scales, mm + reachMm),
      ...symbolOf(index),
    })),
  );
  return [
    ruleMark(
      `gauge-intervals-${part}`,
      readings.map(({ x, low, high }) => ({ x, x2: x, y: low, y2: high })),
      { stroke: '#555' },
    ),
    symbolMark(`readings-${part}`, readings),
  ];
}

/** The shape of a position's marks, by its place in the measuring order: full, hollow, full, hollow. */
const symbolOf = (index: number) => ({ shape: SHAPES[index]!, fill: index % 2 === 0 ? '#000' : '#fff' });

/** Letters where each position stands, moved apart. */
function codeMarks({ positions, part }: Panel, scales: Scales): Mark[] {
  const ends = positions.flatMap((position) =>
    position.stands ? [{ ...position.stands, code: positionCode(position) }] : [],
  );
  const way = part === 'drums' ? 1 : -1;
  const ys = spread(
    ends.map(({ mm }) => yOf(scales, mm) + 4),
    12,
    way,
    edgeOf(part) + (way > 0 ? 13 : -4),
  );
  const reach = ((positions.length - 1) / 2) * APART + 7;
  return backed(
    `codes-${part}`,
    ends.map(({ day, code }, index) => ({ x: xOf(scales, day) + reach, y: ys[index]!, text: code })),
    { fontWeight: 'bold' },
  );
}

/** The key above a plot: for each position its mark, its dash, its letters and its latest reading. */
function keyOf({ positions, part }: Panel, y: number): Mark[] {
  const step = (RIGHT - 8) / positions.length;
  const at = (index: number): number => 8 + index * step;
  return [
    ...positions.map((_, index) =>
      lineMark(
        `key-line-${part}-${index}`,
        [
          { x: at(index), y: y - 4 },
          { x: at(index) + 24, y: y - 4 },
        ],
        {
          strokeWidth: 1.2,
          strokeDash: DASHES[index],
        },
      ),
    ),
    symbolMark(
      `key-${part}`,
      positions.map((_, index) => ({
        x: at(index) + 12,
        y: y - 4,
        ...symbolOf(index),
      })),
    ),
    textMark(
      `key-text-${part}`,
      positions.map((position, index) => ({
        x: at(index) + 29,
        y,
        text: `${positionCode(position)} ${positionName(position)}${position.latest ? ` ${inWords(position.latest.mm)}` : ''}`,
      })),
    ),
  ];
}

/** Marks are not read out one by one: the picture's own words are. */
const unread = { aria: false, interactive: false };

/** A mark and the rows it is drawn from. */
interface Mark {
  rows: readonly object[];
  drawn: Encoded;
}

/**
 * @param name unique on the picture; undefined for words that nothing refers to
 * @param style constants; of each row what `fields` names is read
 */
function mark(
  type: string,
  name: string | undefined,
  rows: readonly object[],
  fields: readonly string[],
  style: Encoded,
): Mark {
  const constants = Object.entries(style).map(([key, value]) => [key, { value }]);
  const read = fields.map((field) => [field, { field }]);
  const encode = { enter: Object.fromEntries([...constants, ...read]) };
  return { rows, drawn: { type, name, ...unread, encode } };
}

/** Marks with their rows under names, as Vega takes them. */
const named = (marks: readonly Mark[]): { data: object[]; marks: Encoded[] } => ({
  data: marks.map(({ rows: values }, index) => ({ name: `rows-${index}`, values })),
  marks: marks.map(({ drawn }, index) => ({ ...drawn, from: { data: `rows-${index}` } })),
});

const ruleMark = (name: string, rows: readonly object[], style: Encoded = {}, ...further: string[]): Mark =>
  mark('rule', name, rows, ['x', 'x2', 'y', 'y2', ...further], style);

const lineMark = (name: string, points: readonly object[], style: Encoded): Mark =>
  mark('line', name, points, ['x', 'y'], { stroke: '#000', ...style });

const symbolMark = (name: string, rows: readonly object[]): Mark =>
  mark('symbol', name, rows, ['x', 'y', 'shape', 'fill'], { size: 34, stroke: '#000', strokeWidth: 1 });

const textMark = (name: string | undefined, rows: readonly object[], style: Encoded = {}): Mark =>
  mark('text', name, rows, ['x', 'y', 'text'], { fontSize: 11, font: 'sans-serif', fill: '#000', ...style });

/** Words over lines and areas, on white. */
function backed(
  name: string,
  rows: readonly { x: number; y: number; text: string }[],
  style: Encoded = {},
): Mark[] {
  const backs = rows.map(({ x, y, text }) => ({ x: x - 1, y: y - 10, width: widthOf(text) + 2, height: 13 }));
  return [
    mark('rect', `${name}-backs`, backs, ['x', 'y', 'width', 'height'], { fill: '#fff', fillOpacity: 0.85 }),
    textMark(name, rows, style),
  ];
}

const heading = (text: string, y: number): Mark =>
  textMark(undefined, [{ x: 8, y, text }], { fontSize: 13, fontWeight: 'bold' });

/** Lines of words from a height on down. */
const words = (lines: readonly string[], y: number, x = 8): Mark =>
  textMark(
    undefined,
    lines.map((text, index) => ({ x, y: y + index * LINE, text })),
  );
