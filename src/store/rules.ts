import type { Components } from './engine/contract/engine.js';
import { eventLog } from './events/events.js';
import type { experienceReader } from './experience/experience.js';
import { experienceKnownOn } from './experience/knownExperience.js';
import { outcomeKeeper } from './operation/outcomes.js';
import { outlookRecorder, outlookWriter } from './outlooks/outlooks.js';
import { fingerprinter, vehicleStateReader } from './outlooks/vehicleState.js';
import type { Rules } from './parts.js';
import type { settingsReader } from './settings/inForce.js';
import { sightReader } from './vehicles/beforeTransfer.js';
import { vehicleFinder } from './vehicles/findVehicle.js';
import { vehicleRecorder } from './vehicles/recording.js';
import { versionKeeper } from './vehicles/versions.js';
import { visitFinder } from './visits/findVisit.js';
import { historyReader } from './visits/history.js';
import { visitRecorder } from './visits/recording.js';

export interface Shared extends Pick<Rules, 'clock' | 'today'> {
  settingsOn: ReturnType<typeof settingsReader>;
  experienceOn: ReturnType<typeof experienceReader>;
}

/**
 * Builds the rules on one view of the data.
 *
 * @param isWriting whether the view is a transaction's, which may be rolled back
 */
export function rulesOn(
  rows: Components,
  { clock, today, settingsOn, experienceOn }: Shared,
  isWriting: boolean,
): Rules {
  const settings = settingsOn(rows, !isWriting);
  const experience = experienceOn(rows, !isWriting);
  const history = historyReader(rows);
  const fingerprintOf = fingerprinter(rows, experience, settings);
  const versions = versionKeeper(rows, clock);
  const events = eventLog({ rows, clock, today, settings });
  const recordOutlook = outlookRecorder(rows, clock, events.listen);
  return {
    rows,
    clock,
    today,
    settings,
    experience,
    experienceKnownOn: experienceKnownOn(rows),
    findVehicle: vehicleFinder(rows),
    findVisit: visitFinder(rows),
    sightOf: sightReader(rows, settings),
    history,
    fingerprintOf,
    stateOf: vehicleStateReader(rows, fingerprintOf, history),
    versions,
    recordVehicle: vehicleRecorder(rows, versions, clock),
    recordVisit: visitRecorder(rows, versions, clock),
    recordOutlook,
    writeOutlook: outlookWriter(recordOutlook, settings, experience),
    events,
    outcomes: outcomeKeeper(rows, clock),
  };
}
