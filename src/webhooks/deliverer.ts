import type { ClaimedDelivery, OutboxStore } from '../store/contract/webhooks.js';
import type { Send } from './sending.js';

/**
 * Sends what waits in the outbox, beside the answering of requests: a few at a time, fewer still to one endpoint, so
 * that a receiver that hangs keeps nobody else waiting. What a process was sending when it ended is sent again by the
 * next: at least once, under the same webhook-id.
 */

const ROOM = { perEndpoint: 2, inAll: 10 };
/** How often the outbox is looked at. */
const LOOK_EVERY_MS = 1_000;
/** How long what is under way may take when the service closes. */
const PATIENCE_MS = 4_000;

export interface DelivererOptions {
  outbox: OutboxStore;
  send: Send;
  clock?: () => Date;
  /** Today's date in the shop's time zone: a new one is a reason to look at the calendar. */
  today: () => string;
  /** From 0 to 1; where within the jitter a next attempt falls. */
  chance?: () => number;
  onFault: (fault: unknown) => void;
  /** Told of a delivery that will not be tried again, and of what its last attempt came to. */
  onAbandoned?: (delivery: ClaimedDelivery, last: { status: number | null; detail: string | null }) => void;
}

export interface Deliverer {
  /** Sends all that is due, and resolves when nothing is left that is. */
  sendDue(): Promise<void>;
  /** Looks at the outbox from now on. */
  start(): void;
  /** Takes no more, and lets what is under way end, or leaves it to the next start. */
  stop(): Promise<void>;
}

export function deliverer(options: DelivererOptions): Deliverer {
  const { outbox, send, clock = () => new Date(), today, chance = Math.random, onFault } = options;
  const { onAbandoned = () => undefined } = options;
  const underWay = new Map<number, { endpointSeq: number; done: Promise<void> }>();
  const stopping = new AbortController();
  let stopped = false;
  let lookedOn: string | null = null;
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
    // An attempt that was cut short says nothing of its receiver.
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

  async function takeWhatFits(): Promise<number> {
    if (stopped) return 0;
    const claimed = await outbox.claim(ROOM, busy());
    claimed.forEach(begin);
    return claimed.length;
  }

  /** Begins as many as there is room for; never twice at once, since both would fill the same room. */
  function fill(): Promise<number> {
    filling ??= takeWhatFits().finally(() => (filling = null));
    return filling;
  }

  async function lookAtCalendar(): Promise<void> {
    const date = today();
    if (date === lookedOn) return;
    await outbox.lookAtCalendar();
    lookedOn = date;
  }

  async function look(): Promise<void> {
    await fill();
    await lookAtCalendar();
  }

  function lookAgain(): void {
    timer = setTimeout(() => {
      look()
        .catch(onFault)
        .finally(() => {
          if (!stopped) lookAgain();
        });
    }, LOOK_EVERY_MS).unref();
  }

  return {
    async sendDue() {
      await lookAtCalendar();
      do await idle();
      while ((await fill()) > 0 || underWay.size > 0);
    },

    start: lookAgain,

    async stop() {
      stopped = true;
      if (timer) clearTimeout(timer);
      const patience = setTimeout(() => stopping.abort(), PATIENCE_MS);
      await filling?.catch(() => undefined);
      await idle();
      clearTimeout(patience);
    },
  };
}
