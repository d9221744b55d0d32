import { setImmediate } from 'node:timers/promises';
import { verdictOf, type Answer, type Verdict } from '../../core/events/retries.js';
import type { Attempt } from '../../core/vocabulary/events.js';
import { OPERATOR } from '../contract/caller.js';
import type { ClaimedDelivery, OutboxStore } from '../contract/webhooks.js';
import type { EndpointRow } from '../engine/contract/events.js';
import type { ReadingRules, Rules, StoreParts } from '../parts.js';

/** How long a claimed delivery counts as in flight; longer than any attempt takes. */
const CLAIM_MS = 60_000;
/** Maximum attempts shown per delivery. */
const MAX_ATTEMPTS = 20;
/** How long deliveries can be looked up. */
const KEPT_MS = 90 * 86_400_000;
/** Vehicles checked per transaction. */
const BATCH = 10;

export const outboxStore = ({ reading, write, alone }: StoreParts): OutboxStore => ({
  async claim(room, busy) {
    // Check outside a transaction first, since usually there is nothing.
    if ((await candidates(reading, room, busy)).length === 0) return [];
    return write(async (own) => {
      const claimed = await candidates(own, room, busy);
      await own.rows.deliveries.defer(
        claimed.map(({ seq }) => seq),
        after(own, CLAIM_MS),
      );
      return claimed;
    });
  },

  settle: (delivery, attempt, answer, chance) =>
    write((own) => settleAttempt(own, delivery, attempt, answer, chance)),

  raiseDateEvents: () => alone('calendar of events', () => raiseDateEvents({ reading, write })),
});

/** Raises the events of axles that have become due because time has passed. */
async function raiseDateEvents({ reading, write }: Pick<StoreParts, 'reading' | 'write'>): Promise<void> {
  const vehicles = (await reading.events.isListening()) ? await reading.events.vehiclesToFollow() : [];
  for (let from = 0; from < vehicles.length; from += BATCH) {
    await write(async ({ events }) => {
      for (const seq of vehicles.slice(from, from + BATCH)) await events.follow(seq);
    });
    await setImmediate();
  }
  await write((own) => own.rows.deliveries.removeBefore(after(own, -KEPT_MS)));
}

const after = ({ clock }: ReadingRules, ms: number): string => new Date(clock().getTime() + ms).toISOString();

/** Deliveries that may be sent now, within the free slots. */
async function candidates(
  own: ReadingRules,
  { perEndpoint, inAll }: Parameters<OutboxStore['claim']>[0],
  busy: ReadonlyMap<number, number>,
): Promise<ClaimedDelivery[]> {
  const now = after(own, 0);
  const found: ClaimedDelivery[] = [];
  let room = inAll - [...busy.values()].reduce((sum, count) => sum + count, 0);
  for (const {
    seq: endpointSeq,
    id: endpointId,
    url,
    pausedUntil,
    ...secrets
  } of await own.rows.endpoints.enabled()) {
    const limit = Math.min(room, perEndpoint - (busy.get(endpointSeq) ?? 0));
    if (limit <= 0 || (pausedUntil !== null && pausedUntil > now)) continue;
    const rows = await own.rows.deliveries.waiting(endpointSeq, now, limit);
    room -= rows.length;
    found.push(
      ...rows.map((row) => ({ ...row, endpointSeq, endpointId, url, secrets: signing(secrets, now) })),
    );
  }
  return found;
}

async function settleAttempt(
  own: Rules,
  delivery: ClaimedDelivery,
  attempt: Attempt,
  answer: Answer,
  chance: number,
): Promise<{ isAbandoned: boolean }> {
  const { deliveries } = own.rows;
  const row = await deliveries.pending(delivery.seq, delivery.tries);
  // Deleted with its endpoint, or replayed meanwhile.
  if (!row) return { isAbandoned: false };
  const tries = row.tries + 1;
  const verdict = verdictOf(answer, tries, chance);
  const status = STATUS_AFTER[verdict.kind];
  await deliveries.update(row.seq, {
    tries,
    version: row.version + 1,
    attempts: [...row.attempts, attempt].slice(-MAX_ATTEMPTS),
    status,
    nextAttemptAt: verdict.kind === 'again' ? after(own, verdict.inMs) : null,
    deliveredAt: verdict.kind === 'delivered' ? after(own, 0) : null,
  });
  await applyToEndpoint(own, delivery, verdict);
  return { isAbandoned: status === 'given-up' };
}

const STATUS_AFTER = {
  delivered: 'delivered',
  again: 'pending',
  'given-up': 'given-up',
  gone: 'given-up',
} as const satisfies Record<Verdict['kind'], string>;

/** Applies an attempt's result to the whole endpoint: disables or pauses it. */
async function applyToEndpoint(own: Rules, delivery: ClaimedDelivery, verdict: Verdict): Promise<void> {
  const pauseMs = verdict.kind === 'again' ? verdict.pauseMs : null;
  if (verdict.kind === 'gone') {
    await disable(
      own,
      delivery,
      `the receiver answered 410 Gone at ${after(own, 0)}: it wants no more events`,
    );
  } else if (pauseMs !== null) {
    await own.rows.endpoints.update(delivery.endpointSeq, { pausedUntil: after(own, pauseMs) });
  }
}

async function disable(
  own: Rules,
  { endpointSeq, endpointId, url }: ClaimedDelivery,
  because: string,
): Promise<void> {
  const { endpoints, deliveries } = own.rows;
  const row = await endpoints.byId(endpointId);
  // The 410 came from the endpoint's previous address.
  if (row?.url !== url) return;
  await endpoints.update(endpointSeq, {
    enabled: false,
    disabledBecause: because,
    version: row.version + 1,
    updatedAt: after(own, 0),
  });
  await deliveries.giveUpAll(endpointSeq);
  const deed = { action: 'disabled', resource: 'webhook-endpoint', resourceId: endpointId };
  await own.versions.note(OPERATOR, deed);
}

/** The current secret, and the previous one during its overlap. */
function signing(
  {
    secret,
    previousSecret,
    previousSecretUntil,
  }: Pick<EndpointRow, 'secret' | 'previousSecret' | 'previousSecretUntil'>,
  now: string,
): string[] {
  return previousSecret !== null && previousSecretUntil! > now ? [secret, previousSecret] : [secret];
}
