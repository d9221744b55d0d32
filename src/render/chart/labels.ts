import type { Panel, Position } from '../../core/assessment/pictureShape.js';
import { itemAt } from '../../core/items.js';
import { capital, positionInWords } from '../../core/words.js';
import { line, mark, text, type Colour, type XY } from './draw.js';
import type { Frame, Layout } from './frame.js';
import { spread, widthOf } from './letters.js';
import { asRead, mmOf } from './outcome.js';
import type { Box } from './placing.js';
import { markStyle } from './readings.js';

/** Names and latest readings, between the measurements and the forecast. */

interface Entry {
  position: Position;
  name: string;
  value: string;
  governs: boolean;
  isBeyond: boolean;
}

const LEADER = 20;
const MARK_ROOM = 12;

export function labelEntries(panel: Panel, layout: Layout): Entry[] {
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

/** Gap between the names and another label in their column, px. */
export const APART = 16;

export const labelsWidth = (entries: readonly Entry[]): number =>
  LEADER +
  MARK_ROOM +
  Math.max(40, ...entries.map(({ name, governs }) => widthOf(name, { bold: governs }))) +
  10 +
  Math.max(16, ...entries.map(({ value, governs }) => widthOf(value, { bold: governs }))) +
  10;

export interface PlacedEntry {
  entry: Entry;
  at: number;
}

/** Positions labels by height, 16 px apart; only labels of readings beyond the limit go beyond it. */
export function placeEntries(
  entries: readonly Entry[],
  { y, limitY, top, bottom, way }: Frame,
): PlacedEntry[] {
  const wantedY = ({ position }: Entry): number => y(position.latest!.mm);
  const within = entries.filter(({ isBeyond }) => !isBeyond).sort((a, b) => wantedY(a) - wantedY(b));
  const beyond = entries.filter(({ isBeyond }) => isBeyond).sort((a, b) => wantedY(a) - wantedY(b));
  const bounds: [number, number] =
    limitY === null ? [top + 8, bottom - 8] : way > 0 ? [top + 8, limitY - 9] : [limitY + 11, bottom - 8];
  const boundsBeyond: [number, number] =
    limitY === null ? bounds : way > 0 ? [limitY + 28, bottom - 8] : [top + 8, limitY - 28];
  return [
    ...within.map((entry, index, all) => ({
      entry,
      at: itemAt(spread(all.map(wantedY), 16, bounds), index),
    })),
    ...beyond.map((entry, index, all) => ({
      entry,
      at: itemAt(spread(all.map(wantedY), 16, boundsBeyond), index),
    })),
  ];
}

/** The box of a label: the whole width of the column, with a margin around it. */
export const boxOfEntry = ({ at }: PlacedEntry, { labels: { x0, x1 } }: Frame, around = 0): Box => ({
  left: x0,
  right: x1,
  top: at - 7 - around,
  bottom: at + 7 + around,
});

/** The line from a position's latest reading to its name. */
export function leaderOf({ entry: { position }, at }: PlacedEntry, { past, labels: column, y }: Frame): XY[] {
  const latest = position.latest!;
  const from: XY = [past.x(latest.day) + 5, y(latest.mm)];
  return [from, [column.x0 + 4, from[1]], [column.x0 + 13, at], [column.x0 + LEADER - 5, at]];
}

/** Leaders, marks, names and latest readings. */
export function labels(placed: readonly PlacedEntry[], frame: Frame): string {
  const { labels: column } = frame;
  const markX = column.x0 + LEADER;
  return placed
    .map((each) => {
      const {
        entry: { position, name, value, governs },
        at,
      } = each;
      const colour: Colour = governs ? 'ink' : 'soft';
      return [
        line(leaderOf(each, frame), { colour: 'rule' }),
        mark([markX, at], { ...markStyle(position), colour, radius: 3.3 }),
        text([markX + MARK_ROOM - 4, at + 4], name, { bold: governs, halo: true }),
        text([column.x1 - 8, at + 4], value, { bold: governs, anchor: 'end', halo: true }),
      ].join('');
    })
    .join('');
}
