import { desc, eq, max, sql } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import { recordOf } from '../../core/assessment/record.js';
import { groupOf, STARTING, type CurrentExperience } from '../../core/assessment/whichExperience.js';
import {
  fitExperience,
  fitExperienceBy,
  type CarryOutFits,
  type VehicleRecord,
} from '../../core/forecast/fit.js';
import type { Database } from '../engine/sqlite/connection.js';
import type { StoreParts } from '../parts.js';
import { learningSample } from './sample.js';
import { programDigest } from '../outlooks/program.js';
import { OPERATOR } from '../contract/caller.js';
import { experiences, vehicles, visits } from '../engine/sqlite/schema.js';
import { latestFitReader } from '../engine/sqlite/statements.js';
import type { ExperienceStore, ExperienceVersion } from '../contract/experience.js';

/** Reads the experience in force; checks each time, since another process may have fitted. */
export function experienceReader(database: Database): () => CurrentExperience {
  const latest = latestFitReader(database);
  const select = database
    .select()
    .from(experiences)
    .where(eq(experiences.version, sql.placeholder('version')))
    .prepare();
  let known = STARTING;
  return () => {
    const version = latest();
    if (version !== known.version) {
      known = version === 0 ? STARTING : { version, fitted: select.get({ version })!.fitted };
    }
    return known;
  };
}

/** Vehicles read before yielding to other work. */
const BATCH = 100;

export function experienceStore(parts: StoreParts): ExperienceStore {
  const { database, clock, write, history, versions, settings, refreshOutlooks } = parts;
  const lastVisit = database
    .select({ seq: max(visits.seq) })
    .from(visits)
    .prepare();
  const bySeq = database
    .select({ id: vehicles.id, body: vehicles.body })
    .from(vehicles)
    .where(eq(vehicles.seq, sql.placeholder('seq')))
    .prepare();

  async function fit(carryOut?: CarryOutFits): Promise<number> {
    const lastVisitSeq = lastVisit.get()?.seq ?? 0;
    const { gauges } = settings();
    const records: VehicleRecord[] = [];
    let learnedTo: string | null = null;
    for (const [index, seq] of learningSample(database).entries()) {
      const { id, body } = bySeq.get({ seq })!;
      const visits = history.visitsOf(seq, id);
      const latest = visits.at(-1)?.date ?? null;
      if (latest !== null && (learnedTo === null || latest > learnedTo)) learnedTo = latest;
      records.push(recordOf({ vehicle: body, visits, gauges }, groupOf(body)));
      if (index % BATCH === 0) await setImmediate();
    }
    const fitted = carryOut ? await fitExperienceBy(records, carryOut) : fitExperience(records);
    return write(() => {
      const row = database
        .insert(experiences)
        .values({
          fitted,
          lastVisitSeq,
          learnedTo,
          createdAt: clock().toISOString(),
          program: programDigest(),
        })
        .returning({ version: experiences.version })
        .get();
      const resourceId = String(row.version);
      versions.note(OPERATOR, { action: 'fitted', resource: 'experience', resourceId });
      return row.version;
    });
  }

  return {
    fit,

    async refit() {
      const version = await fit();
      await refreshOutlooks();
      return version;
    },

    async newVisits() {
      const latest = database.select().from(experiences).orderBy(desc(experiences.version)).limit(1).get();
      // Ignore another program's fit, since the model may have changed.
      const known = latest?.program === programDigest() ? latest.lastVisitSeq : 0;
      return { known, since: (lastVisit.get()?.seq ?? 0) - known };
    },

    async list(): Promise<ExperienceVersion[]> {
      return database
        .select()
        .from(experiences)
        .orderBy(desc(experiences.version))
        .limit(20)
        .all()
        .map(({ version, fitted, createdAt }) => ({ version, fitted, createdAt }));
    },
  };
}
