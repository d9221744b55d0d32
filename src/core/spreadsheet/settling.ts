import { group } from 'd3-array';
import { itemAt } from '../items.js';
import { placeOf } from '../visitRules.js';
import { VISIT_PARTS, type VisitPart } from '../vocabulary/terms.js';
import type { EntryBody } from '../vocabulary/visit.js';
import { type ReadingBody } from '../vocabulary/visit.js';
import type { Column } from './columns.js';
import { essence, type KnownVisit, type Settled, type Refuse, type Parsed } from './sheetVisits.js';

/**
 * Keeps the new items. A visit has at most one reading per place; it may have several other items alike, so those of
 * the file are matched one by one with the known ones.
 *
 * @param visit the visit the items belong to; null if it is new
 */
export function settle(
  { body, rows }: Parsed<EntryBody>,
  visit: KnownVisit | null,
  refuse: Refuse,
): Record<VisitPart, Settled[]> {
  const settled = VISIT_PARTS.map((part): [VisitPart, Settled[]] => {
    const items = (body[part] ?? []).map((item, index) => ({ item, row: itemAt(rows[part], index) }));
    const isReading = part === 'readings';
    return [
      part,
      isReading ? settleReadings(items, visit, refuse) : settleOthers(part, items, visit, refuse),
    ];
  });
  return Object.fromEntries(settled) as Record<VisitPart, Settled[]>;
}

function settleReadings(items: readonly Settled[], visit: KnownVisit | null, refuse: Refuse): Settled[] {
  const seen = new Map<string, { reading: ReadingBody; where: string }>();
  for (const reading of visit?.readings ?? []) {
    seen.set(placeOf(reading), { reading, where: `visit ${visit!.id}` });
  }
  return items.filter(({ item, row }) => {
    const reading = item as ReadingBody;
    const place = placeOf(reading);
    const before = seen.get(place);
    if (!before) {
      seen.set(place, { reading, where: `line ${row.line}` });
      return true;
    }
    if (!sameAtPlace(before.reading, reading)) {
      refuse(row.line, 'value', 'conflict', `${before.where} has a different reading of this place`);
    }
    return false;
  });
}

/** Whether two readings of one place are the same in everything else. */
const sameAtPlace = (a: ReadingBody, b: ReadingBody): boolean =>
  a.value === b.value && a.unit === b.unit && (a.gauge ?? null) === (b.gauge ?? null);

/** The members that identify the place of an item other than a reading. */
const PLACE_MEMBERS: Record<Exclude<VisitPart, 'readings'>, readonly string[]> = {
  notMeasured: ['axle', 'side', 'part', 'pad'],
  conditions: ['part', 'axle', 'side', 'pad', 'state'],
  work: ['kind', 'axle', 'side'],
  torques: ['fastener', 'axle', 'side', 'position'],
};

/** The column to name in a conflict of such items. */
const TELLING_COLUMNS: Record<Exclude<VisitPart, 'readings'>, Column> = {
  notMeasured: 'why',
  conditions: 'state',
  work: 'entry',
  torques: 'value',
};

function settleOthers(
  part: Exclude<VisitPart, 'readings'>,
  items: readonly Settled[],
  visit: KnownVisit | null,
  refuse: Refuse,
): Settled[] {
  if (!visit || visit[part].length === 0) return [...items];
  const known: readonly object[] = visit[part];
  const unmatched = group(known, essence);
  const fresh = items.filter(({ item }) => unmatched.get(essence(item))?.pop() === undefined);
  const placeOfItem = (item: object): string =>
    JSON.stringify(PLACE_MEMBERS[part].map((member) => (item as Record<string, unknown>)[member] ?? null));
  const taken = new Set([...unmatched.values()].flat().map(placeOfItem));
  return fresh.filter(({ item, row }) => {
    if (!taken.has(placeOfItem(item))) return true;
    refuse(
      row.line,
      TELLING_COLUMNS[part],
      'conflict',
      `visit ${visit.id} has a different entry for this place`,
    );
    return false;
  });
}

export const itemsOf = (kept: Record<VisitPart, Settled[]>): Partial<Record<VisitPart, never>> =>
  Object.fromEntries(
    VISIT_PARTS.filter((part) => kept[part].length > 0).map((part) => [
      part,
      kept[part].map(({ item }) => item),
    ]),
  );

export const countOf = (kept: Record<VisitPart, Settled[]>): number =>
  VISIT_PARTS.reduce((count, part) => count + kept[part].length, 0);
