import { z } from 'zod';
import { identifier, text, instant } from './quantities.js';
import { AXLES } from './terms.js';

/** An address at which calendar programs read the due-soon report. */

export const EXAMPLE_CALENDAR_SUBSCRIPTION = {
  name: 'calendar of the north depot',
  withinDays: 90,
  fleet: 'north-depot',
} as const;

const fields = {
  name: text(100).nullish().meta({ description: 'A name to recognize this calendar by in the list.' }),
  withinDays: z.int().min(0).max(10_957).nullish().meta({
    description:
      'Days from today to the horizon. If missing, the policy’s value whenever the calendar is fetched.',
  }),
  chance: z.number().min(0).max(1).nullish().meta({
    description:
      'The minimum chance of being due for an axle to be listed. If missing, the policy’s value whenever the calendar is fetched.',
  }),
  fleet: identifier(100)
    .nullish()
    .meta({ description: 'Only vehicles of this fleet. If missing, every vehicle that the key may see.' }),
  axle: z.enum(AXLES).nullish(),
};

/** What the calendar should contain, as sent. */
export const CalendarSubscriptionBody = z
  .strictObject(fields)
  .meta({ id: 'CalendarSubscriptionBody', examples: [EXAMPLE_CALENDAR_SUBSCRIPTION] });
export type CalendarSubscriptionBody = z.infer<typeof CalendarSubscriptionBody>;

export const CalendarSubscription = z
  .strictObject({
    id: z.string(),
    version: z.literal(1),
    name: z.string().nullable(),
    withinDays: z.number().meta({ type: 'integer' }).nullable(),
    chance: z.number().nullable(),
    fleet: z.string().nullable(),
    axle: z.enum(AXLES).nullable(),
    createdBy: z.string().meta({
      description: 'The name of the key that created it. Revoking that key also closes the calendar.',
    }),
    createdAt: instant,
  })
  .meta({ id: 'CalendarSubscription' });
export type CalendarSubscription = z.infer<typeof CalendarSubscription>;

/** The answer to creating a subscription, the only one that contains its address. */
export const NewCalendarSubscription = CalendarSubscription.extend({
  path: z.string().meta({
    description:
      'The secret path on this server. Anyone who has it can read the calendar. It is shown only in this answer.',
  }),
  url: z
    .string()
    .nullable()
    .meta({ description: 'The full address, starting with PUBLIC_URL. Null if PUBLIC_URL is not set.' }),
}).meta({ id: 'NewCalendarSubscription' });
export type NewCalendarSubscription = z.infer<typeof NewCalendarSubscription>;
