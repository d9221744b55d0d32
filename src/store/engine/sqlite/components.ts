import { componentsFrom, type Makers } from '../components.js';
import type { Components } from '../contract/engine.js';
import type { Database } from './connection.js';
import type { CachedRows } from './cachedRows.js';
import { calendarRows, keyRows, sessionRows } from './rows/access.js';
import { deliveryRows, dueAxleRows, endpointRows, eventRows, untoldRows } from './rows/events.js';
import { experienceRows, lessonRows, scoreRows } from './rows/experience.js';
import { historyRows } from './rows/history.js';
import { importRows } from './rows/imports.js';
import { auditRows, outcomeRows, secretRows } from './rows/operation.js';
import { outlookRows } from './rows/outlooks.js';
import { reportRows } from './rows/reports.js';
import { settingsRows } from './rows/settings.js';
import { tableRows } from './rows/tables.js';
import { vehicleRows, vehicleVersionRows } from './rows/vehicles.js';
import { visitRows, visitVersionRows } from './rows/visits.js';

const MAKERS: Makers<Database> = {
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
  tables: tableRows,
  history: historyRows,
};

export const componentsOn = (database: Database): Components => componentsFrom(MAKERS, database);

/** The components on committed data; their reports reuse cached rows. */
export const componentsCaching = (database: Database, kept: CachedRows): Components =>
  componentsFrom({ ...MAKERS, reports: (own) => reportRows(own, kept) }, database);
