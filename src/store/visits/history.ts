import { group } from 'd3-array';
import { inOrder } from '../../core/history.js';
import { withConversions } from '../../core/units.js';
import type { Visit } from '../../core/vocabulary/visit.js';
import type { ReadingComponents } from '../engine/contract/engine.js';
import type { NumberedPart, ReadingRow, VisitItems, VisitRow, WorkRow } from '../engine/contract/visits.js';

export type StoredVisit = Visit & { arrival: number };

/** Reads complete visits: a vehicle's whole history, or one visit. */
export function historyReader({ visits }: Pick<ReadingComponents, 'visits'>) {
  return {
    /** All visits of a vehicle that are not voided, in chronological order. */
    async visitsOf(vehicleSeq: number, vehicleId: string): Promise<StoredVisit[]> {
      const { visits: rows, items } = await visits.historyOf(vehicleSeq);
      const contents = contentsOf(items);
      return inOrder(rows.map((row) => toVisit(row, vehicleId, contents)));
    },
    async visit(row: VisitRow, vehicleId: string): Promise<StoredVisit> {
      return toVisit(row, vehicleId, contentsOf(await visits.itemsOf([row])));
    },
    /** Some visits of one vehicle. */
    async visits(rows: readonly VisitRow[], vehicleId: string): Promise<StoredVisit[]> {
      const contents = contentsOf(await visits.itemsOf(rows));
      return rows.map((row) => toVisit(row, vehicleId, contents));
    },
  };
}

export type HistoryReader = ReturnType<typeof historyReader>;

/** Items by visit. */
type Contents = { [Part in keyof VisitItems]: Map<number, VisitItems[Part]> };

const byVisit = <Row extends { visitSeq: number }>(rows: Row[]): Map<number, Row[]> =>
  group(rows, ({ visitSeq }) => visitSeq);

const contentsOf = ({ readings, notMeasured, conditions, work, torques }: VisitItems): Contents => ({
  readings: byVisit(readings),
  notMeasured: byVisit(notMeasured),
  conditions: byVisit(conditions),
  work: byVisit(work),
  torques: byVisit(torques),
});

/** Builds a visit's answer: as sent, with conversions, and an id for every item. */
function toVisit(row: VisitRow, vehicleId: string, contents: Contents): StoredVisit {
  const items = <Row>(part: Map<number, Row[]>): Row[] => part.get(row.seq) ?? [];
  const idOf = (part: NumberedPart, { number }: { number: number }): string =>
    `${row.id}-${part[0]}${row.itemNumbers?.[part].numbers[number - 1] ?? number}`;
  const odometer = row.odometerValue === null ? null : { value: row.odometerValue, unit: row.odometerUnit! };
  return {
    id: row.id,
    version: row.version,
    vehicleId,
    date: row.date,
    time: row.time,
    odometer: withConversions(odometer) as Visit['odometer'],
    odometerReplaced: withConversions(row.odometerReplaced) as Visit['odometerReplaced'],
    workOrder: row.workOrder,
    shop: row.shop,
    technician: row.technician,
    complaint: row.complaint,
    notes: row.notes,
    readings: items(contents.readings).map((item) => toReading(item, idOf('readings', item))),
    notMeasured: items(contents.notMeasured).map(({ axle, side, part, pad, why }) => ({
      axle,
      side,
      part,
      pad,
      why,
    })),
    conditions: items(contents.conditions).map(({ part, axle, side, pad, state, notes }) => ({
      part,
      axle,
      side,
      pad,
      state,
      notes,
    })),
    work: items(contents.work).map((item) => toWorkItem(item, idOf('work', item))),
    torques: items(contents.torques).map((item) => {
      const { fastener, axle, side, position, value, unit } = item;
      return withConversions({ id: idOf('torques', item), fastener, axle, side, position, value, unit });
    }) as Visit['torques'],
    roadTest: row.roadTest ?? null,
    voided: row.voided ?? null,
    createdAt: row.createdAt,
    updatedAt: row.updatedAt,
    arrival: row.seq,
  };
}

/** The lining, end or point at which a reading was taken, under the member names of its kind. */
function whereOf({ kind, pad, at, point }: ReadingRow): object {
  if (kind === 'pad-thickness') return { pad, at };
  if (kind === 'shoe-thickness') return { shoe: pad, at };
  return kind === 'rotor-runout' ? {} : { point };
}

function toReading(row: ReadingRow, id: string): Visit['readings'][number] {
  const { kind, axle, side, repeat, value, unit, taken, gauge } = row;
  const where = whereOf(row);
  const reading = {
    id,
    kind,
    axle,
    side,
    ...where,
    repeat,
    value,
    unit,
    taken,
    gauge,
  };
  return withConversions(reading) as Visit['readings'][number];
}

function toWorkItem(row: WorkRow, id: string): Visit['work'][number] {
  const { axle, side } = row;
  return withConversions({ id, ...row.body, axle, side }) as Visit['work'][number];
}
