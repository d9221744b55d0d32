import type { ClaimedDelivery, OutboxStore } from '../store/contract/webhooks.js';
import type { Send } from './sending.js';

/**
 * Sends queued webhooks while the server answers requests. Limits apply per endpoint and in total, so that a receiver
 * that hangs delays no other. Deliveries in flight when a process ends are sent again by the next one: at least once,
 * with the same webhook-id.
 */

const ROOM = { perEndpoint: 2, inAll: 10 };
/** How often to poll the outbox. */
const POLL_INTERVAL_MS = 1_000;
/** How long a shutdown waits for deliveries in flight. */
const STOP_WAIT_MS = 4_000;

export interface DelivererOptions {
  outbox: OutboxStore;
  send: Send;
  clock?: () => Date;
  /** Today's date in the shop's time zone; on a new day, events that depend on the date are raised. */
  today: () => string;
  /** A random number from 0 to 1 that sets the jitter of the next attempt. */
  chance?: () => number;
  onFault: (fault: unknown) => void;
  /** Called when a delivery will not be retried, with the result of its last attempt. */
  onAbandoned?: (delivery: ClaimedDelivery, last: { status: number | null; detail: string | null }) => void;
}

export interface Deliverer {
  /** Sends everything that is due; resolves when nothing due is left. */
  sendDue(): Promise<void>;
  /** Starts polling the outbox. */
  start(): void;
  /** Takes no new deliveries. Waits for those in flight, and leaves unfinished ones to the next start. */
  stop(): Promise<void>;
}

export function deliverer(options: DelivererOptions): Deliverer {
  const { outbox, send, clock = () => new Date(), today, chance = Math.random, onFault } = options;
  const { onAbandoned = () => undefined } = options;
  const underWay = new Map<number, { endpointSeq: number; done: Promise<void> }>();
  const stopping = new AbortController();
  let stopped = false;
  let lastDailyRun: string | null = null;
  let timer: NodeJS.Timeout | null = null;
  let filling: Promise<number> | null = null;

  const idle = () => Promise.all([...underWay.values()].map(({ done }) => done));

  function busy(): Map<number, number> {
    const counts = new Map<number, number>();
    for (const { endpointSeq } of underWay.values())
      counts.set(endpointSeq, (counts.get(endpointSeq) ?? 0) + 1);
    return counts;
  }

  async function attempt(delivery: ClaimedDelivery): Promise<void> {
    const now = clock();
    const { detail, ...answer } = await send(delivery, now, stopping.signal);
    // An aborted attempt says nothing about its receiver.
    if (stopping.signal.aborted && answer.status === null) return;
    const made = { at: now.toISOString(), status: answer.status, detail };
    const { isAbandoned } = await outbox.settle(delivery, made, answer, chance());
    if (isAbandoned) onAbandoned(delivery, made);
  }

  function begin(delivery: ClaimedDelivery): void {
    const done = attempt(delivery)
      .catch(onFault)
      .finally(() => {
        underWay.delete(delivery.seq);
        fill().catch(onFault);
      });
    underWay.set(delivery.seq, { endpointSeq: delivery.endpointSeq, done });
  }

  async function claimDue(): Promise<number> {
    if (stopped) return 0;
    const claimed = await outbox.claim(ROOM, busy());
    claimed.forEach(begin);
    return claimed.length;
  }

  /**
   * Starts as many deliveries as the limits allow. Calls do not overlap, since they would count the same free slots.
   */
  function fill(): Promise<number> {
    filling ??= claimDue().finally(() => (filling = null));
    return filling;
  }

  async function raiseOncePerDay(): Promise<void> {
    const date = today();
    if (date === lastDailyRun) return;
    await outbox.raiseDateEvents();
    lastDailyRun = date;
  }

  async function poll(): Promise<void> {
    await fill();
    await raiseOncePerDay();
  }

  function schedulePoll(): void {
    timer = setTimeout(() => {
      poll()
        .catch(onFault)
        .finally(() => {
          if (!stopped) schedulePoll();
        });
    }, POLL_INTERVAL_MS).unref();
  }

  return {
    async sendDue() {
      await raiseOncePerDay();
      do await idle();
      while ((await fill()) > 0 || underWay.size > 0);
    },

    start: schedulePoll,

    async stop() {
      stopped = true;
      if (timer) clearTimeout(timer);
      const patience = setTimeout(() => stopping.abort(), STOP_WAIT_MS);
      await filling?.catch(() => undefined);
      await idle();
      clearTimeout(patience);
    },
  };
}
