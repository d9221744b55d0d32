import { dateIn, toDay, toFullDate } from '../src/core/calendar.js';
import type { Call } from './load.js';

/** The calls that the speed benches send to the service and to its floor. */

export const TODAY = dateIn(new Date(), 'UTC');
export const DUE_SOON = '/v1/reports/due-soon?withinDays=60';
export const FLOOR_DUE = `/due-soon?horizon=${toFullDate(toDay(TODAY) + 60)}`;
/** Pages of due-soon read with a visit before each. */
export const DUE_AFTER_WRITE = 10;
/** Vehicles whose answers are read in turn. */
export const READ = 100;

/** The floor gets the same calls at its own address. */
export const atFloor = (calls: readonly Call[]): Call[] =>
  calls.map((call) => ({ ...call, path: call.path.replace('/v1', '') }));

export const repeated = (path: string, times: number): Call[] =>
  Array.from({ length: times }, () => ({ method: 'GET', path }));

export const wearOf = (id: string): string => `/v1/vehicles/${id}/wear`;
