import { setTimeout } from 'node:timers/promises';
import type { FastifyBaseLogger } from 'fastify';
import type { Store } from '../store/contract/store.js';
import { IF_MATCH_PROBLEMS, writeProblems } from './problems.js';

/** What the routes share that change the shop's settings: its policy and its gauges. */

export const settingProblems = writeProblems(...IF_MATCH_PROBLEMS, 'invalid');

/** How long the answer to a change of settings waits for outlooks to be worked out anew; the rest follows behind it. */
const PATIENCE_MS = 5_000;

/** Works the outlooks out under changed settings, waiting for the whole of it only where the shop is small. */
export async function refreshOutlooks(store: Store, log: FastifyBaseLogger): Promise<void> {
  const patience = new AbortController();
  await Promise.race([
    store.outlooks.refresh().catch((error: unknown) => log.error({ err: error }, 'outlooks not refreshed')),
    setTimeout(PATIENCE_MS, undefined, { signal: patience.signal }).catch(() => undefined),
  ]);
  patience.abort();
}
