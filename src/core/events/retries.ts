/**
 * When to retry a webhook: the example schedule of the Standard Webhooks scheme 1.0.0, under 'Deliverability and
 * reliability'.
 */

const SECOND = 1000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;

/** Delay of each attempt after the previous one. */
export const RETRY_DELAYS_MS: readonly number[] = [
  0,
  5 * SECOND,
  5 * MINUTE,
  30 * MINUTE,
  2 * HOUR,
  5 * HOUR,
  10 * HOUR,
  14 * HOUR,
  20 * HOUR,
  24 * HOUR,
];
/** Lengthens a delay by up to this share, so that deliveries that failed together are not retried together. */
const JITTER = 0.1;
/** Maximum delay, whatever Retry-After says. */
const MAX_WAIT_MS = 24 * HOUR;

/** A receiver's answer; a null status means that none arrived. */
export interface Answer {
  status: number | null;
  retryAfterMs: number | null;
}

/** The consequence of one attempt. A `gone` receiver wants no more events. */
export type Verdict =
  | { kind: 'delivered' }
  | { kind: 'gone' }
  | { kind: 'given-up' }
  | { kind: 'again'; inMs: number; pauseMs: number | null };

/**
 * @param tries attempts made, including this one
 * @param chance from 0 to 1: the jitter of the next attempt
 */
export function verdictOf({ status, retryAfterMs }: Answer, tries: number, chance: number): Verdict {
  if (status !== null && status >= 200 && status < 300) return { kind: 'delivered' };
  if (status === 410) return { kind: 'gone' };
  const delay = RETRY_DELAYS_MS[tries];
  if (delay === undefined) return { kind: 'given-up' };
  const asked = isThrottling(status) && retryAfterMs !== null ? Math.min(retryAfterMs, MAX_WAIT_MS) : null;
  const inMs = Math.max(Math.round(delay * (1 + JITTER * chance)), asked ?? 0);
  return { kind: 'again', inMs, pauseMs: asked };
}

/** Statuses that ask for fewer requests, RFC 6585 section 4 and RFC 9110 section 15.6.4. */
const isThrottling = (status: number | null): boolean => status === 429 || status === 503;

/** A Retry-After header, RFC 9110 section 10.2.3, as milliseconds from now; null if missing or malformed. */
export function retryAfterMs(header: string | undefined, now: Date): number | null {
  if (header === undefined) return null;
  if (/^\d{1,10}$/.test(header.trim())) return Number(header) * SECOND;
  // An HTTP date ends in GMT; Date.parse accepts many other texts.
  const at = /GMT\s*$/.test(header) ? Date.parse(header) : NaN;
  return Number.isNaN(at) ? null : Math.max(0, at - now.getTime());
}
