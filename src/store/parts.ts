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
  /** {@link write} that uses the disk space kept in reserve where there is no other left. */
  writeFromReserve: Write;
  /** Who holds the key of a row, or null where it is revoked or expired; notes that it was used. */
  keyCaller: (row: KeyRow) => KeyCaller | null;
  findVehicle: VehicleFinder;
  /** What a caller sees of a vehicle's records. */
  sightOf: SightReader;
  history: HistoryReader;
  versions: VersionKeeper;
  recordOutlook: OutlookRecorder;
  writeOutlook: OutlookWriter;
  events: EventLog;
  experience: () => CurrentExperience;
  whileUnchanged: WhileUnchanged;
  /** Works an outlook out together with whoever the process has for it. */
  shareWork: SharedWork;
  refreshOutlooks: () => Promise<void>;
  outcomes: OutcomeKeeper;
}
