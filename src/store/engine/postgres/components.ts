import type { Components } from '../contract/engine.js';
import type { Database } from './connections.js';
import { calendarRows, keyRows, sessionRows } from './rows/access.js';
import { auditRows } from './rows/audit.js';
import { deliveryRows, dueAxleRows, endpointRows, eventRows, untoldRows } from './rows/events.js';
import { experienceRows, lessonRows, scoreRows } from './rows/experience.js';
import { historyRows } from './rows/history.js';
import { importRows } from './rows/imports.js';
import { outcomeRows, secretRows } from './rows/operation.js';
import { outlookRows } from './rows/outlooks.js';
import { reportRows } from './rows/reports.js';
import { settingsRows } from './rows/settings.js';
import { vehicleRows, vehicleVersionRows } from './rows/vehicles.js';
import { visitRows, visitVersionRows } from './rows/visits.js';

export const componentsOn = (database: Database): Components => ({
  keys: keyRows(database),
  sessions: sessionRows(database),
  calendars: calendarRows(database),
  settings: settingsRows(database),
  audit: auditRows(database),
  outcomes: outcomeRows(database),
  secrets: secretRows(database),
  vehicles: vehicleRows(database),
  vehicleVersions: vehicleVersionRows(database),
  visits: visitRows(database),
  visitVersions: visitVersionRows(database),
  outlooks: outlookRows(database),
  reports: reportRows(database),
  endpoints: endpointRows(database),
  events: eventRows(database),
  deliveries: deliveryRows(database),
  dueAxles: dueAxleRows(database),
  untold: untoldRows(database),
  imports: importRows(database),
  experiences: experienceRows(database),
  lessons: lessonRows(database),
  scores: scoreRows(database),
  history: historyRows(database),
});
