import { setTimeout } from 'node:timers/promises';
import type { FastifyBaseLogger } from 'fastify';
import type { Store } from '../store/contract/store.js';
import { IF_MATCH_PROBLEMS, writeProblems } from './problems.js';

/** Shared by the routes that change the shop's settings: its policy and its gauges. */

export const settingProblems = writeProblems(...IF_MATCH_PROBLEMS, 'invalid');

/** How long a settings change waits for outlooks to be recomputed; the rest continues in the background. */
const MAX_WAIT_MS = 5_000;

/** Recomputes the outlooks after a settings change; in a large shop, returns before it has finished. */
export async function refreshOutlooks(store: Store, log: FastifyBaseLogger): Promise<void> {
  const patience = new AbortController();
  await Promise.race([
    store.outlooks
      .refresh()
      .catch((error: unknown) =>
        log.error({ err: error }, 'could not recompute the outlooks; will try again'),
      ),
    setTimeout(MAX_WAIT_MS, undefined, { signal: patience.signal }).catch(() => undefined),
  ]);
  patience.abort();
}
