import type { CurrentExperience } from '../core/assessment/whichExperience.js';
import type { KeyCaller } from './contract/caller.js';
import type { KeyRow } from './engine/contract/access.js';
import type { Components, Engine, ReadingComponents } from './engine/contract/engine.js';
import type { EventLog, EventReader } from './events/events.js';
import type { ExperienceKnownOn } from './experience/knownExperience.js';
import type { OutcomeKeeper } from './operation/outcomes.js';
import type { OutlookRecorder, OutlookWriter, SharedWork } from './outlooks/outlooks.js';
import type { Fingerprinter, VehicleStateReader } from './outlooks/vehicleState.js';
import type { Settings } from './settings/inForce.js';
import type { SightReader } from './vehicles/beforeTransfer.js';
import type { VehicleFinder } from './vehicles/findVehicle.js';
import type { VehicleRecorder } from './vehicles/recording.js';
import type { VersionKeeper, VersionReader } from './vehicles/versions.js';
import type { VisitFinder } from './visits/findVisit.js';
import type { HistoryReader } from './visits/history.js';
import type { VisitRecorder } from './visits/recording.js';

/** What operations use to read one view of the data: committed data, a snapshot, or a transaction's own view. */
export interface ReadingRules {
  rows: ReadingComponents;
  clock: () => Date;
  /** Today's date in the shop's time zone. */
  today: () => string;
  settings: () => Promise<Settings>;
  experience: () => Promise<CurrentExperience>;
  experienceKnownOn: ExperienceKnownOn;
  findVehicle: VehicleFinder;
  findVisit: VisitFinder;
  /** What a caller may see of a vehicle's records. */
  sightOf: SightReader;
  history: HistoryReader;
  fingerprintOf: Fingerprinter;
  stateOf: VehicleStateReader;
  versions: VersionReader;
  events: EventReader;
}

/** What operations use to write. Within a transaction, they also read through it. */
export interface Rules extends ReadingRules {
  rows: Components;
  versions: VersionKeeper;
  recordVehicle: VehicleRecorder;
  recordVisit: VisitRecorder;
  recordOutlook: OutlookRecorder;
  writeOutlook: OutlookWriter;
  events: EventLog;
  outcomes: OutcomeKeeper;
}

/** Runs a function on one view of the data. */
export type OnView<View> = <Result>(work: (own: View) => Promise<Result>) => Promise<Result>;

/** What the operations of the store share. */
export interface StoreParts extends Pick<Engine, 'whileUnchanged' | 'openStage' | 'rewrite' | 'tryHold'> {
  clock: () => Date;
  today: () => string;
  /** Reads committed data. */
  reading: ReadingRules;
  /** See {@link Engine} for this and the next three. */
  consistently: OnView<ReadingRules>;
  write: OnView<Rules>;
  writeFromReserve: OnView<Rules>;
  changeHistory: OnView<Rules>;
  /** The owner of a row's key, or null if it is revoked or expired; records its use. */
  keyCaller: (row: KeyRow) => KeyCaller | null;
  /** Runs a function unless a process on this database, on any machine, is already running one with that name. */
  alone: (name: string, work: () => Promise<void>) => Promise<void>;
  /** Computes an outlook, together with the worker thread if there is one. */
  shareWork: SharedWork;
  refreshOutlooks: () => Promise<void>;
}
