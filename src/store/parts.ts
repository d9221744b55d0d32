import type { CurrentExperience } from '../core/assessment/whichExperience.js';
import type { Database } from './engine/sqlite/connection.js';
import type { VehicleFinder } from './vehicles/findVehicle.js';
import type { EventLog } from './events/events.js';
import type { HistoryReader } from './visits/history.js';
import type { OutlookRecorder, OutlookWriter, SharedWork } from './outlooks/outlooks.js';
import type { KeyRow } from './access/keyUses.js';
import type { SightReader } from './vehicles/beforeTransfer.js';
import type { Settings } from './settings/inForce.js';
import type { OutcomeKeeper } from './operation/outcomes.js';
import type { KeyCaller } from './contract/caller.js';
import type { VersionKeeper } from './vehicles/versions.js';
import type { Write } from './engine/sqlite/engine.js';
import type { WhileUnchanged } from './engine/sqlite/whileUnchanged.js';

/** What the parts of the store share. */
export interface StoreParts {
  database: Database;
  clock: () => Date;
  /** Today's date in the shop's time zone. */
  today: () => string;
  settings: () => Settings;
  write: Write;
  /** {@link write} that uses the reserved disk space if the disk is full. */
  writeFromReserve: Write;
  /** The owner of a row's key, or null if it is revoked or expired; records its use. */
  keyCaller: (row: KeyRow) => KeyCaller | null;
  findVehicle: VehicleFinder;
  /** What a caller may see of a vehicle's records. */
  sightOf: SightReader;
  history: HistoryReader;
  versions: VersionKeeper;
  recordOutlook: OutlookRecorder;
  writeOutlook: OutlookWriter;
  events: EventLog;
  experience: () => CurrentExperience;
  whileUnchanged: WhileUnchanged;
  /** Computes an outlook, together with the worker thread if there is one. */
  shareWork: SharedWork;
  refreshOutlooks: () => Promise<void>;
  outcomes: OutcomeKeeper;
}
