import { z } from 'zod';
import { toDay, toFullDate } from '../core/calendar.js';
import { AXLES, LINING_POSITIONS, SIDES } from '../core/vocabulary/terms.js';
import { dueSoonCalendar } from '../render/calendar.js';
import type { DueAxle, DueSoonQuery } from '../store/contract/reports.js';
import type { Store } from '../store/contract/store.js';
import { axleQuery, chanceQuery, fleetQuery, numberQuery, wholeNumberText } from './schemas.js';

/** Shared by the reports on axles: query parameters, item members and formats. */

export const date = z.string().meta({ format: 'date' });

export const reportedAxle = {
  vehicleId: z.string(),
  externalId: z.string().nullable(),
  registration: z.string().nullable(),
  fleet: z.string().nullable(),
  model: z.string().nullable(),
  axle: z.enum(AXLES),
};

export const forecastAxle = {
  ...reportedAxle,
  chance: z.number().meta({ description: 'That the governing limit has been reached by the horizon.' }),
  earlyDate: date.nullable(),
  medianDate: date.nullable(),
  lateDate: date.nullable(),
  governingPad: z.strictObject({ side: z.enum(SIDES), pad: z.enum(LINING_POSITIONS) }).nullable(),
  limitMm: z.number().nullable(),
  limitSource: z.string().nullable(),
  lastReadingDate: date.nullable(),
};

export const exampleDue: DueAxle = {
  vehicleId: '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001',
  externalId: 'FD-1007',
  registration: 'KR 4471',
  fleet: 'north-depot',
  model: 'parcel-van-3t5',
  axle: 'front',
  overdue: false,
  chance: 0.31,
  earlyDate: '2026-04-11',
  medianDate: '2026-05-23',
  lateDate: '2026-07-19',
  governingPad: { side: 'left', pad: 'inner' },
  limitMm: 3,
  limitSource: 'wear-indicator',
  lastReadingDate: '2026-03-02',
  part: 'pads',
  changedAt: '2026-03-02T09:15:00.000Z',
};

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
      description: 'Days from today to the horizon; the policy’s where it is missing, 60 by default.',
      example: 60,
    },
  ),
  chance: chanceQuery('The least chance that is listed; the policy’s where it is missing, 0.1 by default.'),
  fleet: fleetQuery,
  axle: axleQuery,
};

/** Reads the query for a given day; the shop's policy supplies the missing parameters. */
export async function readDueSoonQuery(
  store: Store,
  asked: Partial<Record<'withinDays' | 'chance', number | null> & Pick<DueSoonQuery, 'fleet' | 'axle'>>,
  today: string,
): Promise<DueSoonQuery> {
  const { dueSoon } = (await store.settings.policy()).body;
  const horizon = toFullDate(toDay(today) + (asked.withinDays ?? dueSoon.withinDays));
  const { fleet = null, axle = null } = asked;
  return { today, horizon, chance: asked.chance ?? dueSoon.chance, fleet, axle };
}

export const CALENDAR = 'text/calendar; charset=utf-8';
export const calendarContent = {
  'text/calendar': {
    schema: z.string().meta({
      description:
        'RFC 5545: for every axle an all-day event on its early date, or today where that is past. UIDs stay the same; SEQUENCE rises with every change of the outlook.',
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
