import { group } from 'd3-array';
import { inOrder } from '../../core/history.js';
import { withConversions } from '../../core/units.js';
import type { Visit } from '../../core/vocabulary/visit.js';
import type { Database } from '../engine/sqlite/connection.js';
import type { NumberedPart } from './itemNumbers.js';
import { selector } from '../engine/sqlite/selects.js';
import { conditions, notMeasured, readings, torques, visits, workItems } from '../engine/sqlite/schema.js';

export type VisitRow = typeof visits.$inferSelect;
export type StoredVisit = Visit & { arrival: number };

/** Reads complete visits: a vehicle's whole history, or one visit. */
export function historyReader(database: Database) {
  const ofVehicle = selectParts('vehicle_seq = ?');
  const ofVisit = selectParts('vehicle_seq = ? and visit_seq = ?');
  const standing = 'vehicle_seq = ? and voided is null order by date, seq';
  const visitsOfVehicle = selector(database, visits, standing);

  function selectParts(condition: string) {
    return {
      readings: selector(database, readings, condition),
      notMeasured: selector(database, notMeasured, condition),
      conditions: selector(database, conditions, condition),
      work: selector(database, workItems, condition),
      torques: selector(database, torques, condition),
    };
  }

  function assemble(
    rows: VisitRow[],
    vehicleId: string,
    from: typeof ofVehicle,
    ...of: number[]
  ): StoredVisit[] {
    const contents = {
      readings: byVisit(from.readings(...of)),
      notMeasured: byVisit(from.notMeasured(...of)),
      conditions: byVisit(from.conditions(...of)),
      work: byVisit(from.work(...of)),
      torques: byVisit(from.torques(...of)),
    };
    return rows.map((row) => toVisit(row, vehicleId, contents));
  }

  return {
    /** All visits of a vehicle that are not voided, in chronological order. */
    visitsOf(vehicleSeq: number, vehicleId: string): StoredVisit[] {
      const rows = visitsOfVehicle(vehicleSeq);
      return inOrder(rows.length > 0 ? assemble(rows, vehicleId, ofVehicle, vehicleSeq) : []);
    },
    visit(row: VisitRow, vehicleId: string): StoredVisit {
      return assemble([row], vehicleId, ofVisit, row.vehicleSeq, row.seq)[0]!;
    },
  };
}

export type HistoryReader = ReturnType<typeof historyReader>;

interface ItemRow {
  visitSeq: number;
  number: number;
}

const byVisit = <Row extends ItemRow>(rows: Row[]): Map<number, Row[]> =>
  group(rows, ({ visitSeq }) => visitSeq);

interface Contents {
  readings: Map<number, (typeof readings.$inferSelect)[]>;
  notMeasured: Map<number, (typeof notMeasured.$inferSelect)[]>;
  conditions: Map<number, (typeof conditions.$inferSelect)[]>;
  work: Map<number, (typeof workItems.$inferSelect)[]>;
  torques: Map<number, (typeof torques.$inferSelect)[]>;
}

/** Builds a visit's answer: as sent, with conversions, and an id for every item. */
function toVisit(row: VisitRow, vehicleId: string, contents: Contents): StoredVisit {
  const items = <Row>(part: Map<number, Row[]>): Row[] => part.get(row.seq) ?? [];
  const idOf = (part: NumberedPart, { number }: ItemRow): string =>
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
function whereOf({ kind, pad, at, point }: typeof readings.$inferSelect): object {
  if (kind === 'pad-thickness') return { pad, at };
  if (kind === 'shoe-thickness') return { shoe: pad, at };
  return kind === 'rotor-runout' ? {} : { point };
}

function toReading(row: typeof readings.$inferSelect, id: string): Visit['readings'][number] {
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

function toWorkItem(row: typeof workItems.$inferSelect, id: string): Visit['work'][number] {
  const { axle, side } = row;
  return withConversions({ id, ...row.body, axle, side }) as Visit['work'][number];
}
