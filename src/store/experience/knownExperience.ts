import { desc, eq, lte, sql } from 'drizzle-orm';
import { LRUCache } from 'lru-cache';
import { STARTING, type KnownExperience } from '../../core/assessment/whichExperience.js';
import type { Database } from '../engine/sqlite/connection.js';
import { experiences, pastExperiences } from '../engine/sqlite/schema.js';

/** Maximum fits cached; a report visits the past in any order. */
const KEPT = 40;

/**
 * The experience as of a date: the newest fit, made then or in hindsight, that used only visits up to that date;
 * otherwise the starting values.
 */
export function experienceKnownOn(database: Database): (date: string) => KnownExperience {
  const date = sql.placeholder('date');
  const made = database
    .select({ version: experiences.version, learnedTo: experiences.learnedTo })
    .from(experiences)
    .where(lte(experiences.learnedTo, date))
    .orderBy(desc(experiences.learnedTo), desc(experiences.version))
    .limit(1)
    .prepare();
  const inHindsight = database
    .select({ learnedTo: pastExperiences.learnedTo })
    .from(pastExperiences)
    .where(lte(pastExperiences.learnedTo, date))
    .orderBy(desc(pastExperiences.learnedTo))
    .limit(1)
    .prepare();
  const byVersion = database
    .select({ fitted: experiences.fitted })
    .from(experiences)
    .where(eq(experiences.version, sql.placeholder('version')))
    .prepare();
  const byDate = database
    .select({ fitted: pastExperiences.fitted })
    .from(pastExperiences)
    .where(eq(pastExperiences.learnedTo, date))
    .prepare();
  const kept = new LRUCache<number | string, KnownExperience>({ max: KEPT });

  function keep(version: number | string, read: () => KnownExperience['fitted']): KnownExperience {
    const known = kept.get(version);
    if (known) return known;
    const fresh = { version, fitted: read() };
    kept.set(version, fresh);
    return fresh;
  }

  return (day) => {
    const version = made.get({ date: day });
    const past = inHindsight.get({ date: day });
    if (past && (!version || past.learnedTo > version.learnedTo!)) {
      return keep(past.learnedTo, () => byDate.get({ date: past.learnedTo })!.fitted);
    }
    return version ? keep(version.version, () => byVersion.get(version)!.fitted) : STARTING;
  };
}
