import type { Components, ReadingComponents } from './engine/contract/engine.js';
import { eventLog, eventReader } from './events/events.js';
import type { experienceReader } from './experience/experience.js';
import { experienceKnownOn } from './experience/knownExperience.js';
import { outcomeKeeper } from './operation/outcomes.js';
import { outlookRecorder, outlookWriter } from './outlooks/outlooks.js';
import { fingerprinter, vehicleStateReader } from './outlooks/vehicleState.js';
import type { ReadingRules, Rules } from './parts.js';
import type { settingsReader } from './settings/inForce.js';
import { sightReader } from './vehicles/beforeTransfer.js';
import { vehicleFinder } from './vehicles/findVehicle.js';
import { vehicleRecorder } from './vehicles/recording.js';
import { versionKeeper, versionReader } from './vehicles/versions.js';
import { visitFinder } from './visits/findVisit.js';
import { historyReader } from './visits/history.js';
import { visitRecorder } from './visits/recording.js';

/** Shared by the rules of all views. */
export interface Shared extends Pick<Rules, 'clock' | 'today'> {
  settingsOn: ReturnType<typeof settingsReader>;
  experienceOn: ReturnType<typeof experienceReader>;
}

/** @param mayCache whether the view shows only what is committed, so that what it reads may be cached */
export function readingRules(
  rows: ReadingComponents,
  { clock, today, settingsOn, experienceOn }: Shared,
  mayCache = true,
): ReadingRules {
  const settings = settingsOn(rows, mayCache);
  const experience = experienceOn(rows, mayCache);
  const history = historyReader(rows);
  const fingerprintOf = fingerprinter(rows, experience, settings);
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
    versions: versionReader(rows),
    events: eventReader({ rows, today, settings }),
  };
}

/** The rules within a transaction, which may be rolled back. */
export function writingRules(rows: Components, shared: Shared): Rules {
  const reading = readingRules(rows, shared, false);
  const { clock, today, settings, experience } = reading;
  const versions = versionKeeper(rows, clock);
  const events = eventLog({ rows, clock, today, settings });
  const recordOutlook = outlookRecorder(rows, clock, events.listen);
  return {
    ...reading,
    rows,
    versions,
    events,
    recordVehicle: vehicleRecorder(rows, versions, clock),
    recordVisit: visitRecorder(rows, versions, clock),
    recordOutlook,
    writeOutlook: outlookWriter(recordOutlook, settings, experience),
    outcomes: outcomeKeeper(rows, clock),
  };
}
