import { STARTING, type KnownExperience } from '../../core/assessment/whichExperience.js';
import { required } from '../../core/items.js';
import type { ReadingComponents } from '../engine/contract/engine.js';
import { cached } from '../cached.js';

/** Maximum fits cached; a report visits the past in any order. */
const MAX_CACHED = 40;

export type ExperienceKnownOn = (date: string) => Promise<KnownExperience>;

/**
 * The experience as of a date: the newest fit, made then or in hindsight, that used only visits up to that date;
 * otherwise the starting values.
 */
export function experienceKnownOn({
  experiences,
}: Pick<ReadingComponents, 'experiences'>): ExperienceKnownOn {
  const made = cached(
    async (version: number) => ({
      version,
      fitted: required(await experiences.byVersion(version), 'experience').fitted,
    }),
    MAX_CACHED,
  );
  const inHindsight = cached(
    async (learnedTo: string) => ({
      version: learnedTo,
      fitted: required(await experiences.past(learnedTo), 'past experience').fitted,
    }),
    MAX_CACHED,
  );

  return async (date) => {
    const then = await experiences.madeBy(date);
    const past = await experiences.pastBy(date);
    if (past !== null && (!then || past > then.learnedTo)) return inHindsight(past);
    return then ? made(then.version) : STARTING;
  };
}
