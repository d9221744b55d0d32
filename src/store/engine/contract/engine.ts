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
 * What a database engine offers on one view of the data: what is committed, one snapshot of that, or what a transaction
 * sees. Every operation is asynchronous, because an engine may be a server. Rows are plain data; none of an engine's own
 * types appears here.
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

/** How the operations begin that write. */
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
  read: (...asked: Arguments) => Promise<Result>,
  max: number,
) => (...asked: Arguments) => Promise<Result>;

/**
 * A database engine. Nobody sees what a transaction has not committed, and whoever was told that a write is done reads
 * it.
 */
export interface Engine {
  /** Reads what is committed. */
  reading: ReadingComponents;
  /** Reads one state of the database, whatever is committed meanwhile. The work must wait for nothing else. */
  consistently: <Result>(work: Work<ReadingComponents, Result>) => Promise<Result>;
  /**
   * Runs a work in one transaction and resolves once that is durable; if the work throws, nothing is written. The work
   * reads and writes by way of its argument only, waits for everything that it starts, and asks for no other write.
   */
  write: <Result>(work: Work<Components, Result>) => Promise<Result>;
  /** {@link write} that uses the reserved disk space if the disk is full. */
  writeFromReserve: <Result>(work: Work<Components, Result>) => Promise<Result>;
  /** {@link write} that may also change rows which are otherwise only added, and leaves no trace of what it erases. */
  changeHistory: <Result>(work: Work<Components, Result>) => Promise<Result>;
  /** Rewrites the database, so that no deleted data remains in it. */
  rewrite: () => Promise<void>;
  /**
   * Caches what a reader of committed data answers until anyone has written anything. The answer must follow from the
   * arguments and the database alone; only the first argument may contain a line end. At most `max` answers are kept.
   */
  whileUnchanged: WhileUnchanged;
  /**
   * Takes a named lock that one process at a time holds, and that is free again when its holder dies.
   *
   * @returns releases it; null if it is held already, be it by this process
   */
  tryHold: (name: string) => Promise<Release | null>;
  /** Null if one server has the database to itself. */
  counts: SharedCounts | null;
  /** Opens a place for the rows of a file that is being imported. */
  openStage: <Outlook>() => Stage<Outlook>;
  /** Converts an error of the database to a fault of the store; any other error is returned unchanged. */
  asStoreFault: (error: unknown) => unknown;
  /** Resolves if the database can be read; otherwise rejects with the fault. */
  check: () => Promise<void>;
  close: () => Promise<void>;
}
