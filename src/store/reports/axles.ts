import { itemAt, required } from '../../core/items.js';
import { dueFirst, partsDue, type PartDue } from '../../core/assessment/dueParts.js';
import { chanceBy } from '../../core/assessment/forecastDates.js';
import type { LiningNames } from '../../core/vocabulary/terms.js';
import type { DueAxle, DueSoonQuery, StoppedAxle } from '../contract/reports.js';
import { NO_EARLY_DATE, type ForecastRow } from '../engine/contract/reports.js';

/** Converts forecast rows to the reports' axles. */

export type Horizon = Pick<DueSoonQuery, 'today' | 'horizon'>;

/** An axle and its position in a list. */
export interface Keyed<Item> {
  key: (string | number)[];
  item: Item;
}

const groupOf = ({ outlook, model }: ForecastRow, { groupBy }: DueSoonQuery): string | null =>
  groupBy ? { fleet: outlook.fleet, model }[groupBy] : null;

const isOverdue = ({ outlook: { overdueFrom } }: ForecastRow, { today }: Horizon): boolean =>
  overdueFrom !== null && overdueFrom <= today;

const partsOfRow = new WeakMap<ForecastRow, readonly PartDue[]>();

/**
 * The parts of an axle that have a forecast, soonest first. Cached by row, as an engine returns an unchanged row again.
 */
export function partsOf(row: ForecastRow): readonly PartDue[] {
  const known = partsOfRow.get(row);
  if (known) return known;
  const { governingSide: side, governingPad: pad } = row.outlook;
  const linings = liningNamesOf(row.outlook);
  const parts = partsDue({ ...row.outlook, linings, governingPad: pad && { side, pad } });
  partsOfRow.set(row, parts);
  return parts;
}

/** Rows written before the column existed lack the name; their position tells pads from shoes. */
const liningNamesOf = ({ linings, governingPad: pad }: ForecastRow['outlook']): LiningNames =>
  linings ?? (pad === null || pad === 'inner' || pad === 'outer' ? 'pads' : 'shoes');

/** The part of an axle that is due by a horizon with a chance; null if none. */
export const partOf = (row: ForecastRow, query: DueSoonQuery): PartDue | null =>
  dueFirst(partsOf(row), row.outlook.asAtDate!, query);

/** For an axle whose linings have a forecast. */
export const liningsOf = (row: ForecastRow): PartDue =>
  required(
    partsOf(row).find(({ part }) => part === 'pads'),
    'forecast of the linings',
  );

export const keyOf = ({ outlook, seq }: ForecastRow, earlyDate: string | null): (string | number)[] => [
  earlyDate ?? NO_EARLY_DATE,
  seq,
  outlook.axle,
];

/** Compares keys like the database: text by its UTF-8 bytes. */
export function compareKeys(a: readonly (string | number)[], b: readonly (string | number)[]): number {
  for (const [index, one] of a.entries()) {
    const other = b[index]!;
    const order =
      typeof one === 'number'
        ? one - Number(other)
        : Buffer.compare(Buffer.from(one), Buffer.from(String(other)));
    if (order !== 0) return order;
  }
  return 0;
}

/** The axle and its vehicle, as every report names them. */
const axleOf = ({ vehicleId, externalId, registration, model, outlook: { fleet, axle } }: ForecastRow) => ({
  vehicleId,
  externalId,
  registration,
  fleet,
  model,
  axle,
});

export function toForecastAxle(
  row: ForecastRow,
  { horizon }: Horizon,
  { part, crossing, dates, governingPad, linings, limitMm, limitSource, lastReadingDate }: PartDue,
): Omit<DueAxle, 'overdue' | 'changedAt'> {
  return {
    ...axleOf(row),
    chance: chanceBy(crossing, row.outlook.asAtDate!, horizon),
    earlyDate: dates.early,
    medianDate: dates.median,
    lateDate: dates.late,
    governingPad,
    linings,
    limitMm,
    limitSource,
    lastReadingDate,
    part,
  };
}

export function toStopped(row: ForecastRow): StoppedAxle {
  const { earlyDate, lastReadingDate, stops } = row.outlook;
  return { ...axleOf(row), earlyDate, lastReadingDate, stops: stops! };
}

/** @param earlyDate the date that orders the list */
export function toDueAxle(
  row: ForecastRow,
  query: DueSoonQuery,
  due: PartDue,
  earlyDate = due.dates.early,
): Keyed<DueAxle> {
  const item = toForecastAxle(row, query, due);
  const group = groupOf(row, query);
  return {
    key: [...(query.groupBy ? [Number(group === null), group ?? ''] : []), ...keyOf(row, earlyDate)],
    item: { ...item, overdue: isOverdue(row, query), changedAt: row.outlook.changedAt },
  };
}

interface Listed {
  key: string;
  keyed: Keyed<DueAxle>;
}

const listedRows = new WeakMap<ForecastRow, Listed>();

/** {@link toDueAxle} for a list by early date. Cached by row, because callers request such lists repeatedly. */
export function toDueByEarly(row: ForecastRow, query: DueSoonQuery): Keyed<DueAxle> {
  const { today, horizon, groupBy } = query;
  const key = [today, horizon, groupBy].join();
  const known = listedRows.get(row);
  if (known?.key === key) return known.keyed;
  const keyed = toDueAxle(row, query, itemAt(partsOf(row), 0), row.outlook.earlyDate);
  listedRows.set(row, { key, keyed });
  return keyed;
}
