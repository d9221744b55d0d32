import { group } from 'd3-array';
import { itemAt } from '../items.js';
import { placeOf } from '../visitRules.js';
import { VISIT_PARTS, type VisitPart } from '../vocabulary/terms.js';
import type { EntryBody } from '../vocabulary/visit.js';
import { type ReadingBody } from '../vocabulary/visit.js';
import type { Column } from './columns.js';
import { canonicalText, type KnownVisit, type RowItem, type Refuse, type Parsed } from './sheetVisits.js';

/**
 * Selects the new items. A visit has at most one reading per place. It may have several identical items of other kinds,
 * so those of the file are matched one by one with the known ones.
 *
 * @param visit the visit the items belong to; null if it is new
 */
export function selectNew(
  { body, rows }: Parsed<EntryBody>,
  visit: KnownVisit | null,
  refuse: Refuse,
): Record<VisitPart, RowItem[]> {
  const selected = VISIT_PARTS.map((part): [VisitPart, RowItem[]] => {
    const items = (body[part] ?? []).map((item, index) => ({ item, row: itemAt(rows[part], index) }));
    const isReading = part === 'readings';
    return [
      part,
      isReading ? selectNewReadings(items, visit, refuse) : selectNewOthers(part, items, visit, refuse),
    ];
  });
  return Object.fromEntries(selected) as Record<VisitPart, RowItem[]>;
}

function selectNewReadings(items: readonly RowItem[], visit: KnownVisit | null, refuse: Refuse): RowItem[] {
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
    if (!isSameReading(before.reading, reading)) {
      refuse(row.line, 'value', 'conflict', `${before.where} has a different reading of this place`);
    }
    return false;
  });
}

/** Whether two readings of one place have the same value, unit and gauge. */
const isSameReading = (a: ReadingBody, b: ReadingBody): boolean =>
  a.value === b.value && a.unit === b.unit && (a.gauge ?? null) === (b.gauge ?? null);

/** The members that identify the place of an item other than a reading. */
const PLACE_MEMBERS: Record<Exclude<VisitPart, 'readings'>, readonly string[]> = {
  notMeasured: ['axle', 'side', 'part', 'pad'],
  conditions: ['part', 'axle', 'side', 'pad', 'state'],
  work: ['kind', 'axle', 'side'],
  torques: ['fastener', 'axle', 'side', 'position'],
};

/** The column that the error names if such an item conflicts with a known one. */
const CONFLICT_COLUMNS: Record<Exclude<VisitPart, 'readings'>, Column> = {
  notMeasured: 'why',
  conditions: 'state',
  work: 'entry',
  torques: 'value',
};

function selectNewOthers(
  part: Exclude<VisitPart, 'readings'>,
  items: readonly RowItem[],
  visit: KnownVisit | null,
  refuse: Refuse,
): RowItem[] {
  if (!visit || visit[part].length === 0) return [...items];
  const known: readonly object[] = visit[part];
  const unmatched = group(known, canonicalText);
  const fresh = items.filter(({ item }) => unmatched.get(canonicalText(item))?.pop() === undefined);
  const placeOfItem = (item: object): string =>
    JSON.stringify(PLACE_MEMBERS[part].map((member) => (item as Record<string, unknown>)[member] ?? null));
  const taken = new Set([...unmatched.values()].flat().map(placeOfItem));
  return fresh.filter(({ item, row }) => {
    if (!taken.has(placeOfItem(item))) return true;
    refuse(
      row.line,
      CONFLICT_COLUMNS[part],
      'conflict',
      `visit ${visit.id} has a different entry for this place`,
    );
    return false;
  });
}

export const itemsOf = (rowItems: Record<VisitPart, RowItem[]>): Partial<Record<VisitPart, never>> =>
  Object.fromEntries(
    VISIT_PARTS.filter((part) => rowItems[part].length > 0).map((part) => [
      part,
      rowItems[part].map(({ item }) => item),
    ]),
  );

export const countOf = (rowItems: Record<VisitPart, RowItem[]>): number =>
  VISIT_PARTS.reduce((count, part) => count + rowItems[part].length, 0);
