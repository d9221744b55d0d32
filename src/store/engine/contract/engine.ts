import type { SharedCounts } from '../../contract/counts.js';
import type { CalendarRows, KeyRows, SessionRows } from './access.js';
import type { AuditRows } from './audit.js';
import type { DeliveryRows, DueAxleRows, EndpointRows, EventRows, UntoldRows } from './events.js';
import type { ExperienceRows, LessonRows, ScoreRows } from './experience.js';
import type { ImportRows } from './imports.js';
import type { HistoryRows, OutcomeRows, SecretRows } from './operation.js';
import type { OutlookRows } from './outlooks.js';
import type { ReportRows } from './reports.js';
import type { SettingsRows } from './settings.js';
import type { Stage } from './stage.js';
import type { TableRows } from './tables.js';
import type { VehicleRows, VehicleVersionRows } from './vehicles.js';
import type { VisitRows, VisitVersionRows } from './visits.js';

/**
 * The operations of a database engine on one view of the data: committed data, a snapshot of it, or a transaction's own
 * view. Every operation is asynchronous, because an engine may be a server. Rows are plain data; no type of an engine's
 * own appears here.
 */
export interface Components {
  keys: KeyRows;
  sessions: SessionRows;
  calendars: CalendarRows;
  settings: SettingsRows;
  audit: AuditRows;
  outcomes: OutcomeRows;
  secrets: SecretRows;
  vehicles: VehicleRows;
  vehicleVersions: VehicleVersionRows;
  visits: VisitRows;
  visitVersions: VisitVersionRows;
  outlooks: OutlookRows;
  reports: ReportRows;
  endpoints: EndpointRows;
  events: EventRows;
  deliveries: DeliveryRows;
  dueAxles: DueAxleRows;
  untold: UntoldRows;
  imports: ImportRows;
  experiences: ExperienceRows;
  lessons: LessonRows;
  scores: ScoreRows;
  tables: TableRows;
  /** Only within `changeHistory`. */
  history: HistoryRows;
}

export type Release = () => Promise<void>;

/** The first words of the operations that write. */
type Writing =
  `${'insert' | 'update' | 'put' | 'remove' | 'clear' | 'move' | 'defer' | 'giveUp' | 'store' | 'begin' | 'end'}${string}`;

/** The components without the operations that write. */
export type ReadingComponents = {
  [Name in Exclude<keyof Components, 'history'>]: {
    [
      Operation in keyof Components[Name] as Operation extends Writing ? never : Operation
    ]: Components[Name][Operation];
  };
};

export type Work<Rows, Result> = (rows: Rows) => Promise<Result>;

/** Caches a reader's results until the database is next written to. */
export type WhileUnchanged = <Arguments extends (string | null)[], Result extends object | null>(
  read: (...args: Arguments) => Promise<Result>,
  max: number,
) => (...args: Arguments) => Promise<Result>;

/**
 * A database engine. Uncommitted writes are visible only within their transaction. Once a write has resolved, every
 * later read sees it.
 */
export interface Engine {
  /** Reads committed data. */
  reading: ReadingComponents;
  /**
   * Reads one snapshot of the database, whatever others commit meanwhile. The work must wait for nothing but the
   * database.
   */
  consistently: <Result>(work: Work<ReadingComponents, Result>) => Promise<Result>;
  /**
   * Runs the work in one transaction and resolves once that is durable; if the work throws, nothing is written. The
   * work must read and write only through its argument, await everything that it starts, and begin no other write.
   */
  write: <Result>(work: Work<Components, Result>) => Promise<Result>;
  /** {@link write} that uses the reserved disk space if the disk is full. */
  writeFromReserve: <Result>(work: Work<Components, Result>) => Promise<Result>;
  /** {@link write} that may also change append-only rows, and that leaves no trace of what it erases. */
  changeHistory: <Result>(work: Work<Components, Result>) => Promise<Result>;
  /** Rewrites the database, so that no deleted data remains in it. */
  rewrite: () => Promise<void>;
  /**
   * Caches the results of a reader of committed data until anyone writes anything. A result must depend only on the
   * arguments and the database; only the first argument may contain a line break. At most `max` results are cached.
   */
  whileUnchanged: WhileUnchanged;
  /**
   * Takes a named lock. One process at a time can hold it; the lock is freed if that process dies.
   *
   * @returns a function that releases it; null if the lock is already held, even by this process
   */
  tryHold: (name: string) => Promise<Release | null>;
  /** Null if one server has the database to itself. */
  counts: SharedCounts | null;
  /** Opens a staging area for the rows of a file that is being imported. */
  openStage: <Outlook>() => Stage<Outlook>;
  /** Converts an error of the database to a fault of the store; any other error is returned unchanged. */
  asStoreFault: (error: unknown) => unknown;
  /** Resolves if the database can be read; otherwise rejects with the fault. */
  check: () => Promise<void>;
  close: () => Promise<void>;
}
