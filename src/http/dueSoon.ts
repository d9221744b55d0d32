import { z } from 'zod';
import { toDay, toFullDate } from '../core/calendar.js';
import { axleOfVehicle, liningForecast } from '../core/vocabulary/dueAxle.js';
import { AXLES } from '../core/vocabulary/terms.js';
import { dueSoonCalendar } from '../render/calendar.js';
import type { DueSoonQuery } from '../store/contract/reports.js';
import type { Store } from '../store/contract/store.js';
import { exampleDue } from './examples.js';
import { axleQuery, chanceQuery, fleetQuery, numberQuery, wholeNumberText } from './schemas.js';

/** Shared by the reports on axles: query parameters, item members and formats. */

const { vehicleId, externalId, ...rest } = axleOfVehicle;
export const reportedAxle = { vehicleId, externalId, registration: z.string().nullable(), ...rest };

/** A cursor's position in a report sorted by early date, vehicle and axle. */
export const AxlePosition = z.tuple([z.string(), z.int(), z.enum(AXLES)]);

export const forecastAxle = { ...reportedAxle, ...liningForecast };

/** Query parameters that select the axles that are due. */
export const dueSoonQuery = {
  withinDays: numberQuery(
    wholeNumberText(5, 'must be a whole number of days').refine(
      (days) => days <= 10_957,
      'must be at most 10957 days, thirty years',
    ),
    {
      type: 'integer',
      minimum: 0,
      maximum: 10_957,
      description: 'Days from today to the horizon. If missing, the policy’s value, which is 60 by default.',
      example: 60,
    },
  ),
  chance: chanceQuery('The minimum chance to list. If missing, the policy’s value, which is 0.1 by default.'),
  fleet: fleetQuery,
  axle: axleQuery,
};

/** Reads the query for a given day; the shop's policy supplies the missing parameters. */
export async function readDueSoonQuery(
  store: Store,
  given: Partial<Record<'withinDays' | 'chance', number | null> & Pick<DueSoonQuery, 'fleet' | 'axle'>>,
  today: string,
): Promise<DueSoonQuery> {
  const { dueSoon } = (await store.settings.policy()).body;
  const horizon = toFullDate(toDay(today) + (given.withinDays ?? dueSoon.withinDays));
  const { fleet = null, axle = null } = given;
  return { today, horizon, chance: given.chance ?? dueSoon.chance, fleet, axle };
}

export const CALENDAR = 'text/calendar; charset=utf-8';
export const calendarContent = {
  'text/calendar': {
    schema: z.string().meta({
      description:
        'iCalendar (RFC 5545), with one all-day event for each axle on its early date, or on today if that is past. UIDs stay the same. SEQUENCE increases whenever the outlook changes.',
    }),
    example: dueSoonCalendar([exampleDue], {
      name: 'Brakes due soon, north-depot',
      today: '2026-03-05',
      horizon: '2026-05-04',
      now: new Date('2026-03-05T06:00:00Z'),
    }),
  },
};
export const calendarName = ({ fleet }: Pick<DueSoonQuery, 'fleet'>): string =>
  `Brakes due soon${fleet === null ? '' : `, ${fleet}`}`;
