import { randomBytes } from 'node:crypto';
import type { Endpoint, EndpointBody, EndpointWithSecret } from '../../core/vocabulary/events.js';
import type { EndpointRow } from '../engine/contract/events.js';

const SECRET_BYTES = 32;

export const newSecret = () => ({ secret: `whsec_${randomBytes(SECRET_BYTES).toString('base64')}` });

export const columnsOf = ({ url, eventTypes, fleets, enabled }: EndpointBody) => ({
  url,
  eventTypes: eventTypes ?? null,
  fleets: fleets ?? null,
  enabled,
});

export const bodyOf = ({ url, eventTypes, fleets, enabled }: EndpointRow): EndpointBody => ({
  url,
  eventTypes,
  fleets,
  enabled,
});

export function toEndpoint(row: EndpointRow, now: string): Endpoint {
  const { id, version, disabledBecause, previousSecretUntil, createdAt, updatedAt } = row;
  return {
    id,
    version,
    ...columnsOf(bodyOf(row)),
    disabledBecause,
    previousSecretUntil:
      previousSecretUntil !== null && previousSecretUntil > now ? previousSecretUntil : null,
    createdAt,
    updatedAt,
  };
}

export const withSecret = (row: EndpointRow, now: string): EndpointWithSecret => ({
  ...toEndpoint(row, now),
  secret: row.secret,
});
