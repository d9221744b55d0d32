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
  name: text(100).nullish().meta({ description: 'What it is for, to tell it from others in the list.' }),
  withinDays: z.int().min(0).max(10_957).nullish().meta({
    description: 'Days from today to the horizon; the policy’s, whatever it is then, where it is missing.',
  }),
  chance: z
    .number()
    .min(0)
    .max(1)
    .nullish()
    .meta({ description: 'The policy’s, whatever it is then, where it is missing.' }),
  fleet: identifier(100).nullish().meta({ description: 'All that its key may see where it is missing.' }),
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
    createdBy: z
      .string()
      .meta({ description: 'The name of the key that made it; once that is revoked, it reads no more.' }),
    createdAt: instant,
  })
  .meta({ id: 'CalendarSubscription' });
export type CalendarSubscription = z.infer<typeof CalendarSubscription>;

/** The answer to creating a subscription, the only one that contains its address. */
export const NewCalendarSubscription = CalendarSubscription.extend({
  path: z.string().meta({
    description: 'The address on this service, secret: whoever has it reads the calendar. Shown this once.',
  }),
  url: z
    .string()
    .nullable()
    .meta({ description: 'The same with the public address; null where PUBLIC_URL is not set.' }),
}).meta({ id: 'NewCalendarSubscription' });
export type NewCalendarSubscription = z.infer<typeof NewCalendarSubscription>;
