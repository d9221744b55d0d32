import type { Figures } from '../contract/figures.js';
import { programDigest } from '../outlooks/program.js';
import type { StoreParts } from '../parts.js';

/** A key unused for this long counts as unused. */
const UNUSED_MS = 90 * 86_400_000;

/** Counts figures for operators; an engine counts each in an index or a small table. */
export async function figuresOf({ reading, clock }: StoreParts): Promise<Figures> {
  const { rows } = reading;
  const { version } = await reading.experience();
  const { revision } = await reading.settings();
  const now = clock();
  return {
    staleOutlooks: await rows.outlooks.countStale({ version, revision, program: programDigest() }),
    lastFitAt: (await rows.experiences.byVersion(version))?.createdAt ?? null,
    webhooksPending: await rows.deliveries.count('pending'),
    webhooksAbandoned: await rows.deliveries.count('given-up'),
    unusedKeys: await rows.keys.countUnused(
      now.toISOString(),
      new Date(now.getTime() - UNUSED_MS).toISOString(),
    ),
  };
}
