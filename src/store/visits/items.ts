import type { VisitPart } from '../../core/vocabulary/terms.js';
import type { EntryBody } from '../../core/vocabulary/visit.js';
import type { NewVisitItems, VisitRow } from '../engine/contract/visits.js';

export type Contents = Pick<EntryBody, VisitPart>;

export const NONE_YET = { readings: 0, notMeasured: 0, conditions: 0, work: 0, torques: 0 };

/** The items of a visit, to be stored as rows. */
export interface VisitContents {
  visit: Pick<VisitRow, 'vehicleSeq' | 'seq'>;
  contents: Contents;
  /** How many items of each part the visit already has. */
  already: Record<keyof Contents, number>;
}

/** The items of visits as rows, numbered after those that each visit already has. */
export function itemsOf(visits: readonly VisitContents[]): NewVisitItems {
  const rowsOf = <Part extends keyof Contents, Columns>(
    part: Part,
    columnsOf: (item: NonNullable<Contents[Part]>[number]) => Columns,
  ) =>
    visits.flatMap(({ visit, contents, already }) =>
      (contents[part] ?? []).map((item, index) => ({
        ...columnsOf(item),
        vehicleSeq: visit.vehicleSeq,
        visitSeq: visit.seq,
        number: already[part] + index + 1,
      })),
    );
  return {
    readings: rowsOf('readings', (item) => ('shoe' in item ? { ...item, pad: item.shoe } : item)),
    notMeasured: rowsOf('notMeasured', (item) => item),
    conditions: rowsOf('conditions', (item) => item),
    work: rowsOf('work', (item) => ({ ...item, body: item })),
    torques: rowsOf('torques', (item) => item),
  };
}
