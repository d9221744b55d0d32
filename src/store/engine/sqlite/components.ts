import type { Components } from '../contract/engine.js';
import type { Database } from './connection.js';
import { calendarRows, keyRows, sessionRows } from './rows/access.js';
import { deliveryRows, dueAxleRows, endpointRows, eventRows, untoldRows } from './rows/events.js';
import { experienceRows, lessonRows, scoreRows } from './rows/experience.js';
import { historyRows } from './rows/history.js';
import { importRows } from './rows/imports.js';
import { auditRows, outcomeRows, secretRows } from './rows/operation.js';
import { outlookRows } from './rows/outlooks.js';
import { reportRows } from './rows/reports.js';
import { settingsRows } from './rows/settings.js';
import { vehicleRows, vehicleVersionRows } from './rows/vehicles.js';
import { visitRows, visitVersionRows } from './rows/visits.js';

const MAKERS: { [Name in keyof Components]: (database: Database) => Components[Name] } = {
  keys: keyRows,
  sessions: sessionRows,
  calendars: calendarRows,
  settings: settingsRows,
  audit: auditRows,
  outcomes: outcomeRows,
  secrets: secretRows,
  vehicles: vehicleRows,
  vehicleVersions: vehicleVersionRows,
  visits: visitRows,
  visitVersions: visitVersionRows,
  outlooks: outlookRows,
  reports: reportRows,
  endpoints: endpointRows,
  events: eventRows,
  deliveries: deliveryRows,
  dueAxles: dueAxleRows,
  untold: untoldRows,
  imports: importRows,
  experiences: experienceRows,
  lessons: lessonRows,
  scores: scoreRows,
  history: historyRows,
};

/** The components on one connection; each prepares its statements when it is first used. */
export function componentsOn(database: Database): Components {
  const components = {} as Components;
  for (const name of Object.keys(MAKERS) as (keyof Components)[])
    defineOnUse(components, name, MAKERS[name] as (database: Database) => never, database);
  return components;
}

function defineOnUse<Name extends keyof Components>(
  components: Components,
  name: Name,
  make: (database: Database) => Components[Name],
  database: Database,
): void {
  Object.defineProperty(components, name, {
    configurable: true,
    enumerable: true,
    get() {
      const value = make(database);
      Object.defineProperty(components, name, { value, enumerable: true });
      return value;
    },
  });
}
