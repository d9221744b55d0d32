import BetterSqlite from 'better-sqlite3';
import type { SheetRow } from '../../core/spreadsheet/cells.js';
import type { VehiclePlan } from '../../core/spreadsheet/plan.js';
import type { RowError } from '../../core/vocabulary/import.js';
import type { VehicleLine } from '../contract/imports.js';
import type { Stage, StagedPlan } from './contract/stage.js';

/** Maximum errors reported per file. */
const MAX_ERRORS = 1000;
/** Maximum characters of rows buffered so that rows of one vehicle are staged together. */
const MAX_WAITING = 2 ** 20;

/**
 * A stage in a private temporary database on disk, whatever engine the store has. It disappears when it is closed or
 * the process ends.
 */
export function openStage<Outlook>(): Stage<Outlook> {
  const connection = new BetterSqlite('');
  connection.pragma('journal_mode = off');
  connection.pragma('synchronous = off');
  connection.pragma('cache_size = -16384');
  connection.exec(`
    create table rows (vehicle_seq integer, some text);
    create index rows_of_vehicle on rows (vehicle_seq);
    create table plans (vehicle_seq integer primary key, state text, plan text, worked text);
    create table vehicles (line integer primary key, body text, worked text);
    create table names (name text, line integer, digest text, primary key (name, line)) without rowid;
    create table errors (line integer, "column" text, detail text, code text);
  `);
  // One transaction that never ends: nothing here needs to be durable.
  connection.exec('begin');
  const insertRows = connection.prepare('insert into rows values (?, ?)');
  const nextVehicle = connection.prepare('select min(vehicle_seq) from rows where vehicle_seq > ?').pluck();
  const rowsOf = connection.prepare('select some from rows where vehicle_seq = ? order by rowid').pluck();
  const insertError = connection.prepare('insert into errors values (:line, :column, :detail, :code)');
  const insertPlan = connection.prepare('insert into plans values (?, ?, ?, null)');
  const updatePlan = connection.prepare('update plans set worked = ? where vehicle_seq = ?');
  const nextPlan = connection.prepare('select min(vehicle_seq) from plans where vehicle_seq > ?').pluck();
  const planOf = connection.prepare('select state, plan, worked from plans where vehicle_seq = ?');
  const insertVehicle = connection.prepare('insert into vehicles values (?, ?, null)');
  const updateVehicle = connection.prepare('update vehicles set worked = ? where line = ?');
  const insertName = connection.prepare('insert into names values (?, ?, ?)');
  const namedBefore = connection.prepare('select line, digest from names where name = ? order by line');
  const nextLine = connection.prepare('select * from vehicles where line > ? order by line limit 1');

  function* counted(next: BetterSqlite.Statement): Generator<number> {
    for (let seq = next.get(0) as number | null; seq !== null; seq = next.get(seq) as number | null)
      yield seq;
  }

  /** Buffered rows, as JSON. */
  const waiting = new Map<number, string[]>();
  let waitingLength = 0;

  /** Also call this after the last row. */
  function stageWaiting(): void {
    for (const [vehicleSeq, rows] of waiting) insertRows.run(vehicleSeq, rows.join(','));
    waiting.clear();
    waitingLength = 0;
  }

  return {
    addRow(vehicleSeq: number, row: SheetRow): void {
      const text = JSON.stringify(row);
      const others = waiting.get(vehicleSeq);
      if (others) others.push(text);
      else waiting.set(vehicleSeq, [text]);
      waitingLength += text.length;
      if (waitingLength >= MAX_WAITING) stageWaiting();
    },
    stageWaiting,
    vehicles: () => counted(nextVehicle),
    vehicleCount: (): number =>
      connection.prepare('select count(distinct vehicle_seq) from rows').pluck().get() as number,
    rowsOf: (vehicleSeq: number): SheetRow[] =>
      JSON.parse(`[${(rowsOf.all(vehicleSeq) as string[]).join(',')}]`) as SheetRow[],

    addPlan(vehicleSeq: number, state: string, plan: VehiclePlan): void {
      insertPlan.run(vehicleSeq, state, JSON.stringify(plan));
    },
    plans: () => counted(nextPlan),
    plan(vehicleSeq: number): StagedPlan<Outlook> {
      const { state, plan, worked } = planOf.get(vehicleSeq) as {
        state: string;
        plan: string;
        worked: string | null;
      };
      return {
        state,
        plan: JSON.parse(plan) as VehiclePlan,
        worked: worked === null ? null : (JSON.parse(worked) as Outlook),
      };
    },
    addOutlook(vehicleSeq: number, worked: Outlook): void {
      updatePlan.run(JSON.stringify(worked), vehicleSeq);
    },

    addVehicle({ line, body }: VehicleLine): void {
      insertVehicle.run(line, JSON.stringify(body));
    },
    addVehicleOutlook(line: number, worked: Outlook): void {
      updateVehicle.run(JSON.stringify(worked), line);
    },
    *newVehicles(): Generator<VehicleLine & { worked: Outlook | null }> {
      type Row = { line: number; body: string; worked: string | null } | undefined;
      for (let row = nextLine.get(0) as Row; row; row = nextLine.get(row.line) as Row) {
        const { line, body, worked } = row;
        yield {
          line,
          body: JSON.parse(body) as VehicleLine['body'],
          worked: worked === null ? null : (JSON.parse(worked) as Outlook),
        };
      }
    },
    /** Records a vehicle of the file, new or not, under a name that identifies it. */
    addName: (name: string, line: number, digest: string): void => void insertName.run(name, line, digest),
    named: (name: string) => namedBefore.all(name) as { line: number; digest: string }[],

    addError: (error: RowError): void => void insertError.run(error),
    errorsTotal: (): number => connection.prepare('select count(*) from errors').pluck().get() as number,
    firstErrors: (): RowError[] =>
      connection
        .prepare('select line, "column", detail, code from errors order by line, rowid limit ?')
        .all(MAX_ERRORS) as RowError[],
    close: (): void => void connection.close(),
  };
}
