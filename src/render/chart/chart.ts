import {
  QUANTILES,
  type AxlePicture,
  type Fan,
  type Panel,
  type PicturedLife,
  type Position,
  type Quantile,
  type Ray,
} from '../../core/assessment/pictureShape.js';
import { toDay } from '../../core/calendar.js';
import { capital, dayAndMonth, onAxle, positionInWords, sentence, shortDate } from '../../core/words.js';
import {
  area,
  box,
  clipped,
  group,
  hatch,
  line,
  lines,
  mark,
  text,
  type Colour,
  type Drawing,
  type MarkStyle,
  type XY,
} from './draw.js';
import {
  dateTicks,
  FOOT,
  frameOf,
  kmTicks,
  isLining,
  measuredPoints,
  pastDays,
  ROW,
  type Frame,
  type Half,
  type Layout,
  type Wanted,
} from './frame.js';
import { spread, widthOf, wrapped } from './letters.js';
import { asRead, eventLabel, limitLabel, mmOf, outcomeOf } from './outcome.js';

/**
 * The chart of one kind of part of an axle: measurements on the left in ink, the forecast on the right in accent, and
 * between them the positions' names and latest readings. The limit runs through all three.
 */

/** Whether there is anything to draw; if not, `silence` says why. */
export const isDrawn = (panel: Panel): boolean =>
  panel.positions.some(({ lives }) => lives.some(({ readings }) => readings.length > 0));

export function drawPanel(picture: AxlePicture, panel: Panel, layout: Layout): Drawing {
  const entries = labelEntries(panel, layout);
  const wanted: Wanted = { labelsWidth: labelsWidth(entries), eventRows: Math.min(2, panel.events.length) };
  const frame = frameOf(picture, panel, layout, wanted);
  const placed = placeEntries(entries, frame);
  const notes = notesOf(picture, panel).flatMap((note) => wrapped(note, layout.width));
  const inner = [
    heading(picture, panel, frame),
    group('axes', axes(picture, frame)),
    group('limits', limits(panel, placed, frame)),
    group('events', events(panel, frame)),
    group('forecast', ahead(picture, panel, frame)),
    group('readings', readings(panel, frame)),
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

/** Both time axes, with dates below and km above, the thickness axis, and hairlines at its ticks. */
function axes(picture: AxlePicture, frame: Frame): string {
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

/** Hatching beyond the limit, and the lines and labels of every limit except the governing line itself. */
function limits(panel: Panel, placed: readonly PlacedEntry[], frame: Frame): string {
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
const limitLine = ({ past, ahead: forward, labels, limitY }: Frame): string =>
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
function events({ events: happened }: Panel, frame: Frame): string {
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

/* Measurements */

const APART = { full: 16, marked: 6 } as const;

/** Lines through the readings of every life, whiskers of the gauges, and marks; the governing position last. */
function readings(panel: Panel, frame: Frame): string {
  const { past, y, top, bottom } = frame;
  const within = (at: number): number => Math.min(bottom, Math.max(top, at));
  const days = [
    ...new Set(
      panel.positions.flatMap(({ lives }) => lives.flatMap((life) => life.readings.map(({ day }) => day))),
    ),
  ].sort((a, b) => a - b);
  const gaps = days
    .slice(1)
    .map((day, index) => past.x(day) - past.x(days[index]!))
    .sort((a, b) => a - b);
  const gap = gaps[Math.floor(gaps.length / 2)] ?? Infinity;
  const crowd = gap >= APART.full ? 'full' : gap >= APART.marked ? 'small' : 'dense';
  const governing = panel.fan?.position ?? null;
  const placed = placeMarks(panel, frame, days, crowd === 'full' ? 3.3 : 2.2);
  const order = panel.positions
    .map((_, index) => index)
    .sort((a, b) => Number(a === governing) - Number(b === governing));
  return order
    .map((index) => {
      const position = panel.positions[index]!;
      const governs = index === governing;
      const colour: Colour = governs || governing === null ? 'ink' : 'soft';
      const isMarked = crowd !== 'dense' || governs || governing === null;
      const radius = crowd === 'full' ? (governs ? 3.8 : 3.3) : crowd === 'small' ? 2.4 : 1.6;
      const courses = position.lives.map((life) => courseOf(life, placed.get(life)!, frame));
      const hasWhiskers = crowd === 'full' || governs;
      const whiskers = position.lives.flatMap((life) =>
        life.readings.flatMap(({ mm, reachMm }, at): XY[][] => {
          const [x] = placed.get(life)![at]!;
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
      return [
        hasWhiskers ? lines(whiskers, { colour: crowd === 'dense' ? 'hair' : governs ? 'ink' : 'rule' }) : '',
        lines(courses, { colour, width: governs ? 2.2 : 1 }),
        ...(isMarked
          ? position.lives.flatMap((life) =>
              placed.get(life)!.map((xy) => mark(xy, { ...markStyle(position), colour, radius })),
            )
          : []),
      ].join('');
    })
    .join('');
}

/** A life's line: from its fitting through its readings. */
function courseOf({ fitted }: PicturedLife, marks: readonly XY[], { past, y }: Frame): XY[] {
  return fitted ? [[past.x(fitted.day), y(fitted.mm)], ...marks] : [...marks];
}

/**
 * Round for inner and leading, square for outer and trailing, a diamond for the thinnest; filled on the left, open on
 * the right.
 */
const markStyle = ({ side, pad }: Position): Pick<MarkStyle, 'shape' | 'isFilled'> => ({
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
        const offset = free.find((each) => !touches(past.x(day) + each)) ?? free[0] ?? offsets[0]!;
        const xy: XY = [past.x(day) + offset, height];
        taken.set(day, [...others, xy]);
        return xy;
      });
      placed.set(life, marks);
    }
  });
  return placed;
}

/* Names and latest readings */

interface Entry {
  position: Position;
  name: string;
  value: string;
  governs: boolean;
  isBeyond: boolean;
}

const LEADER = 20;
const MARK_ROOM = 12;

function labelEntries(panel: Panel, layout: Layout): Entry[] {
  const entries = panel.positions.flatMap((position, index): Entry[] => {
    const { latest } = position;
    if (!latest) return [];
    const read = layout.name === 'wide' ? asRead(latest) : null;
    const mm = mmOf(latest.mm, panel.part);
    return [
      {
        position,
        name: capital(positionInWords(position)),
        value: read ? `${read} = ${mm}` : mm,
        governs: index === panel.fan?.position,
        isBeyond: isBeyondLimit(panel, latest.mm),
      },
    ];
  });
  const [first] = entries;
  const isSame = ({ position: { latest } }: Entry): boolean =>
    latest?.mm === first?.position.latest?.mm && latest?.day === first?.position.latest?.day;
  if (first && entries.length === 4 && entries.every(isSame)) {
    const shown = entries.find(({ governs }) => governs) ?? first;
    return [{ ...shown, name: 'All four', governs: true }];
  }
  return entries;
}

function isBeyondLimit({ part, limits: known, fan }: Panel, mm: number): boolean {
  const limit = fan?.limitMm ?? known.find(({ governs }) => governs)?.mm;
  return limit !== undefined && (part === 'drums' ? mm > limit : mm < limit);
}

const labelsWidth = (entries: readonly Entry[]): number =>
  LEADER +
  MARK_ROOM +
  Math.max(40, ...entries.map(({ name, governs }) => widthOf(name, { bold: governs }))) +
  10 +
  Math.max(16, ...entries.map(({ value, governs }) => widthOf(value, { bold: governs }))) +
  10;

interface PlacedEntry {
  entry: Entry;
  at: number;
}

/** Positions labels by height, 16 px apart; only labels of readings beyond the limit go beyond it. */
function placeEntries(entries: readonly Entry[], { y, limitY, top, bottom, way }: Frame): PlacedEntry[] {
  const wantedY = ({ position }: Entry): number => y(position.latest!.mm);
  const within = entries.filter(({ isBeyond }) => !isBeyond).sort((a, b) => wantedY(a) - wantedY(b));
  const beyond = entries.filter(({ isBeyond }) => isBeyond).sort((a, b) => wantedY(a) - wantedY(b));
  const bounds: [number, number] =
    limitY === null ? [top + 8, bottom - 8] : way > 0 ? [top + 8, limitY - 9] : [limitY + 11, bottom - 8];
  const boundsBeyond: [number, number] =
    limitY === null ? bounds : way > 0 ? [limitY + 28, bottom - 8] : [top + 8, limitY - 28];
  return [
    ...within.map((entry, index, all) => ({ entry, at: spread(all.map(wantedY), 16, bounds)[index]! })),
    ...beyond.map((entry, index, all) => ({ entry, at: spread(all.map(wantedY), 16, boundsBeyond)[index]! })),
  ];
}

/** Leaders, marks, names and latest readings. */
function labels(placed: readonly PlacedEntry[], { past, labels: column, y }: Frame): string {
  const markX = column.x0 + LEADER;
  return placed
    .map(({ entry: { position, name, value, governs }, at }) => {
      const latest = position.latest!;
      const from: XY = [past.x(latest.day) + 5, y(latest.mm)];
      const colour: Colour = governs ? 'ink' : 'soft';
      return [
        line([from, [column.x0 + 4, from[1]], [column.x0 + 13, at], [markX - 5, at]], { colour: 'rule' }),
        mark([markX, at], { ...markStyle(position), colour, radius: 3.3 }),
        text([markX + MARK_ROOM - 4, at + 4], name, { bold: governs, halo: true }),
        text([column.x1 - 8, at + 4], value, { bold: governs, anchor: 'end', halo: true }),
      ].join('');
    })
    .join('');
}

/* Forecast */

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
function ahead(picture: AxlePicture, panel: Panel, frame: Frame): string {
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
function outcome(picture: AxlePicture, panel: Panel, frame: Frame): string {
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

/** What the chart omits, and why. */
function notesOf(picture: AxlePicture, panel: Panel): string[] {
  const { road } = picture;
  const { fan, positions, earlierSets } = panel;
  const governing = fan && positions[fan.position]!;
  const isJudged = governing && !governing.latest && positions.some(({ latest }) => latest);
  const span = pastDays(picture, panel);
  const replaced = road.replacedOn.filter((day) => day >= span[0]);
  const unread = positions.filter(({ latest }) => !latest).map((position) => positionInWords(position));
  const drawnFor =
    governing && isJudged
      ? [`The forecast is for the ${positionInWords(governing)}, judged by the others.`]
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
