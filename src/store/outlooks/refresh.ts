import { setImmediate } from 'node:timers/promises';
import type { Cause } from '../../core/events/news.js';
import type { OutlookSource, Share } from '../engine/contract/outlooks.js';
import type { StoreParts } from '../parts.js';
import { computeOutlook } from './outlooks.js';
import { programDigest } from './program.js';

/** Outlooks computed before they are written together. */
const BATCH = 50;

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
  async function findStale() {
    const { version } = await reading.experience();
    const { revision } = await reading.settings();
    return reading.rows.outlooks.stale({ version, revision, program: programDigest() }, share, BATCH);
  }

  async function recompute({ vehicleSeq: seq, ...former }: Awaited<ReturnType<typeof findStale>>[number]) {
    const { row, fingerprint, visits } = await reading.stateOf(seq);
    const worked = computeOutlook(
      { vehicle: row.body, visits: await visits() },
      await reading.experience(),
      await reading.settings(),
    );
    await setImmediate();
    return { seq, vehicle: row.body, fingerprint, worked, cause: causeOf(former, worked.settingsRevision) };
  }

  async function refresh(): Promise<void> {
    for (let stale = await findStale(); stale.length > 0; stale = await findStale()) {
      const batch: Awaited<ReturnType<typeof recompute>>[] = [];
      for (const one of stale) batch.push(await recompute(one));
      await write(async (own) => {
        for (const { seq, vehicle, fingerprint, worked, cause } of batch) {
          if ((await own.stateOf(seq)).fingerprint === fingerprint)
            await own.recordOutlook(seq, vehicle, worked, cause);
        }
      });
    }
  }

  let running: Promise<void> = Promise.resolve();
  return () => {
    running = running
      .catch(() => undefined)
      .then(() => alone(`outlooks ${share.index} of ${share.of}`, refresh));
    return running;
  };
}

/** Why an outlook from an earlier program or settings revision is recomputed. */
function causeOf(
  { settingsRevision, program }: Omit<OutlookSource, 'experienceVersion'>,
  revision: number,
): Cause {
  if (settingsRevision < 0 || program !== programDigest()) return 'program';
  return settingsRevision < revision ? 'settings' : 'experience';
}
