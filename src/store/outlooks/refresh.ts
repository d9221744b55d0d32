import { setImmediate } from 'node:timers/promises';
import type { Cause } from '../../core/events/news.js';
import type { OutlookSource, Share } from '../engine/contract/outlooks.js';
import type { StoreParts } from '../parts.js';
import { computeOutlook } from './outlooks.js';
import { programDigest } from './program.js';

/** Outlooks computed before they are written together. */
const BATCH = 50;

/** Vehicles whose outlook could not be computed, by their sequence number. */
type Failures = Map<number, { vehicleId: string; error: unknown }>;

/** Maximum vehicles named in one error. */
const MAX_NAMED = 5;

const ALONE: Share = { index: 0, of: 1 };

/**
 * Recomputes every stale outlook: one from another experience, other settings or another program. Other writes may run
 * during the computation. Results are written in short batches, except for vehicles that have changed meanwhile and are
 * therefore already current. A run requested during another starts when that one ends; none starts while another
 * process is recomputing.
 */
export function outlookRefresher(
  { reading, write, alone }: Pick<StoreParts, 'reading' | 'write' | 'alone'>,
  share: Share = ALONE,
): () => Promise<void> {
  async function findStale(failed: Failures) {
    const { version } = await reading.experience();
    const { revision } = await reading.settings();
    const inForce = { version, revision, program: programDigest() };
    const stale = await reading.rows.outlooks.stale(inForce, share, BATCH + failed.size);
    return stale.filter(({ vehicleSeq }) => !failed.has(vehicleSeq));
  }

  /** Null if the outlook cannot be computed. */
  async function recompute(
    { vehicleSeq: seq, ...former }: Awaited<ReturnType<typeof findStale>>[number],
    failed: Failures,
  ) {
    const { row, fingerprint, visits } = await reading.stateOf(seq);
    const history = { vehicle: row.body, visits: await visits() };
    const experience = await reading.experience();
    const settings = await reading.settings();
    await setImmediate();
    try {
      const worked = computeOutlook(history, experience, settings);
      return { seq, vehicle: row.body, fingerprint, worked, cause: causeOf(former, worked.settingsRevision) };
    } catch (error) {
      failed.set(seq, { vehicleId: row.id, error });
      return null;
    }
  }

  async function refresh(): Promise<void> {
    const failed: Failures = new Map();
    for (let stale = await findStale(failed); stale.length > 0; stale = await findStale(failed)) {
      const batch: NonNullable<Awaited<ReturnType<typeof recompute>>>[] = [];
      for (const one of stale) {
        const done = await recompute(one, failed);
        if (done) batch.push(done);
      }
      await write(async (own) => {
        for (const { seq, vehicle, fingerprint, worked, cause } of batch) {
          if ((await own.stateOf(seq)).fingerprint === fingerprint)
            await own.recordOutlook(seq, vehicle, worked, cause);
        }
      });
    }
    reportFailures(failed);
  }

  let running: Promise<void> = Promise.resolve();
  return () => {
    running = running
      .catch(() => undefined)
      .then(() => alone(`outlooks ${share.index} of ${share.of}`, refresh));
    return running;
  };
}

/** @throws Error that names the vehicles */
function reportFailures(failed: Failures): void {
  const [first] = failed.values();
  if (!first) return;
  const named = [...failed.values()].slice(0, MAX_NAMED).map(({ vehicleId }) => vehicleId);
  const more = failed.size > named.length ? ` and ${failed.size - named.length} more` : '';
  throw new Error(
    `the outlooks of all vehicles were recomputed except for ${named.join(', ')}${more}: reports still show the older ones`,
    { cause: first.error },
  );
}

/** Why an outlook from an earlier program or settings revision is recomputed. */
function causeOf(
  { settingsRevision, program }: Omit<OutlookSource, 'experienceVersion'>,
  revision: number,
): Cause {
  if (settingsRevision < 0 || program !== programDigest()) return 'program';
  return settingsRevision < revision ? 'settings' : 'experience';
}
