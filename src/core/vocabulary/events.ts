import { z } from 'zod';
import { axleOfVehicle, duePart, liningForecast } from './dueAxle.js';
import { identifier, text, date, instant } from './quantities.js';
import { DELIVERY_STATES, EVENT_TYPES, NEWS_TYPES } from './terms.js';
import { Finding } from './wear.js';

/** Webhook events, endpoints and deliveries. */

const caution = z
  .string()
  .meta({ description: 'The limits of the event: what it does not tell the receiver.' });

const timestamp = instant.meta({
  description: 'When the event happened. Every delivery attempt sends the same value.',
});

export const AxleDueEvent = z
  .strictObject({
    type: z.literal('axle.due'),
    timestamp,
    data: z.strictObject({
      ...axleOfVehicle,
      overdue: z.boolean(),
      horizon: date,
      ...liningForecast,
      part: duePart,
      message: z.string(),
      caution,
    }),
  })
  .meta({ id: 'AxleDueEvent' });

const readingData = { ...axleOfVehicle, readingDate: date.nullable(), finding: Finding, caution };

export const LimitPassedEvent = z
  .strictObject({
    type: z.literal('limit.passed'),
    timestamp,
    data: z.strictObject({
      ...readingData,
      tooCloseToTell: z.boolean().meta({
        description:
          'True if the reading is so near the limit that the gauge cannot tell which side it is on. The part counts as at its limit until it is measured again.',
      }),
    }),
  })
  .meta({ id: 'LimitPassedEvent' });

export const OffForecastEvent = z
  .strictObject({
    type: z.literal('reading.off_forecast'),
    timestamp,
    data: z.strictObject(readingData),
  })
  .meta({ id: 'OffForecastEvent' });

export const TestEvent = z
  .strictObject({
    type: z.literal('webhook.test'),
    timestamp,
    data: z.strictObject({ endpointId: z.string(), message: z.string() }),
  })
  .meta({ id: 'TestEvent' });

export const WebhookEvent = z
  .discriminatedUnion('type', [AxleDueEvent, LimitPassedEvent, OffForecastEvent, TestEvent])
  .meta({ id: 'WebhookEvent', description: 'The body of a webhook.' });
export type WebhookEvent = z.infer<typeof WebhookEvent>;

const MAX_OVERLAP_HOURS = 168;

/** An endpoint as sent. */
export const EndpointBody = z
  .strictObject({
    url: text(2000).meta({
      description:
        'The address to which the server posts events. It must be https and public, without a user name or password, unless the server’s settings allow private addresses.',
    }),
    eventTypes: z
      .array(z.enum(NEWS_TYPES))
      .min(1)
      .max(NEWS_TYPES.length)
      .nullish()
      .default(null)
      .meta({ description: 'The event types to send. Null sends all.' }),
    fleets: z.array(identifier(100)).min(1).max(200).nullish().default(null).meta({
      description: 'Send only events of vehicles in these fleets. Null sends events of every vehicle.',
    }),
    enabled: z.boolean().default(true).meta({
      description: 'If false, the server raises no events for this endpoint, and pending deliveries wait.',
    }),
  })
  .meta({
    id: 'WebhookEndpointBody',
    examples: [
      {
        url: 'https://desk.example.com/hooks/brakes',
        eventTypes: ['axle.due', 'limit.passed'],
        fleets: ['north-depot'],
      },
    ],
  });
export type EndpointBody = z.infer<typeof EndpointBody>;

const endpointFields = {
  id: z.string(),
  version: z.number().meta({ type: 'integer' }),
  url: z.string(),
  eventTypes: z.array(z.enum(NEWS_TYPES)).nullable(),
  fleets: z.array(z.string()).nullable(),
  enabled: z.boolean(),
  disabledBecause: z
    .string()
    .nullable()
    .meta({ description: 'Why the server disabled the endpoint. Null if it did not.' }),
  previousSecretUntil: instant.nullable().meta({
    description: 'The server also signs with the previous secret until then. Null if it does not.',
  }),
  createdAt: instant,
  updatedAt: instant,
};

/** An endpoint as answered; only the answer that creates it contains its secret. */
export const Endpoint = z.strictObject(endpointFields).meta({ id: 'WebhookEndpoint' });
export type Endpoint = z.infer<typeof Endpoint>;

export const EndpointWithSecret = z
  .strictObject({
    ...endpointFields,
    secret: z
      .string()
      .meta({ description: '`whsec_` and the key in base64. It is shown only in this answer.' }),
  })
  .meta({ id: 'WebhookEndpointWithSecret' });
export type EndpointWithSecret = z.infer<typeof EndpointWithSecret>;

export const RotationBody = z
  .strictObject({
    overlapHours: z
      .int()
      .min(0)
      .max(MAX_OVERLAP_HOURS)
      .default(24)
      .meta({ description: 'How long the server also signs with the previous secret. 0 ends it at once.' }),
  })
  .meta({ id: 'SecretRotationBody', examples: [{ overlapHours: 24 }] });

const Attempt = z
  .strictObject({
    at: instant,
    status: z.int().nullable().meta({ description: 'The HTTP status. Null if no answer came.' }),
    detail: z
      .string()
      .meta({ description: 'The failure, or the first characters of the receiver’s answer.' }),
  })
  .meta({ id: 'DeliveryAttempt' });
export type Attempt = z.infer<typeof Attempt>;

export const Delivery = z
  .strictObject({
    id: z.string(),
    version: z.number().meta({ type: 'integer' }),
    endpointId: z.string(),
    webhookId: z
      .string()
      .meta({ description: 'The `webhook-id` header: one per event, the same at every attempt and replay.' }),
    type: z.enum(EVENT_TYPES),
    status: z.enum(DELIVERY_STATES),
    attempts: z.array(Attempt).meta({ description: 'The latest 20 attempts, earliest first.' }),
    nextAttemptAt: instant.nullable(),
    deliveredAt: instant.nullable(),
    createdAt: instant,
    event: WebhookEvent,
  })
  .meta({ id: 'WebhookDelivery' });
export type Delivery = z.infer<typeof Delivery>;
