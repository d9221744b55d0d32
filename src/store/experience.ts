import { desc, eq, max, ne, sql } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import { isRegenerative } from '../core/assessment/cautions.js';
import type { ExperienceFor } from '../core/assessment/outlook.js';
import { recordOf } from '../core/assessment/record.js';
import { startingExperience, type Group } from '../core/forecast/experience.js';
import { experienceFrom, fitExperience, type FittedExperience } from '../core/forecast/fit.js';
import type { VehicleBody } from '../core/vocabulary/vehicle.js';
import type { Axle } from '../core/vocabulary/terms.js';
import type { Database } from './database.js';
import type { StoreParts } from './parts.js';
import { experiences, outlooks, vehicles, visits } from './schema.js';
import type { ExperienceStore, ExperienceVersion } from './store.js';

/** The experience in force: the latest fit, or the starting values as version 0. */
export interface CurrentExperience {
  version: number;
  fitted: FittedExperience | null;
}

export const STARTING: CurrentExperience = { version: 0, fitted: null };

/** Reads the experience in force; another process may have fitted since the last time. */
export function experienceReader(database: Database): () => CurrentExperience {
  const latest = database
    .select({ version: max(experiences.version) })
    .from(experiences)
    .prepare();
  const select = database
    .select()
    .from(experiences)
    .where(eq(experiences.version, sql.placeholder('version')))
    .prepare();
  let known = STARTING;
  return () => {
    const version = latest.get()?.version ?? 0;
    if (version !== known.version) {
      known = version === 0 ? STARTING : { version, fitted: select.get({ version })!.fitted };
    }
    return known;
  };
}

function groupOf(vehicle: VehicleBody): (axle: Axle) => Group {
  const regenerative = isRegenerative(vehicle);
  return (axle) => ({
    steeredOrFront: vehicle.axles[axle]?.steered ?? (axle === 'front' || axle === 'axle-1'),
    regenerative,
  });
}

/** The experience that each axle of a vehicle draws on. */
export function experienceOf(vehicle: VehicleBody, { version, fitted }: CurrentExperience): ExperienceFor {
  const classOf = groupOf(vehicle);
  return (axle) =>
    fitted
      ? experienceFrom(fitted, { axleClass: classOf(axle), model: vehicle.model ?? null, version })
      : startingExperience(classOf(axle));
}

/** Vehicles read at a time by a fit, and outlooks looked up at a time for working out anew. */
const BATCH = 100;
/** No batch of outlooks holds the writer for longer than about this. */
const BATCH_MS = 25;

export function experienceStore(parts: StoreParts): ExperienceStore {
  const { database, clock, write, history, writeOutlook } = parts;
  const lastVisit = database
    .select({ seq: max(visits.seq) })
    .from(visits)
    .prepare();
  const page = database
    .select()
    .from(vehicles)
    .where(sql`${vehicles.seq} > ${sql.placeholder('after')}`)
    .orderBy(vehicles.seq)
    .limit(BATCH)
    .prepare();
  const staleOnes = database
    .select({ seq: vehicles.seq, id: vehicles.id })
    .from(outlooks)
    .innerJoin(vehicles, eq(vehicles.seq, outlooks.vehicleSeq))
    .where(ne(outlooks.experienceVersion, sql.placeholder('version')))
    .limit(BATCH)
    .prepare();
  const bySeq = database
    .select()
    .from(vehicles)
    .where(eq(vehicles.seq, sql.placeholder('seq')))
    .prepare();

  async function fit(): Promise<number> {
    const lastVisitSeq = lastVisit.get()?.seq ?? 0;
    const records = [];
    for (let rows = page.all({ after: 0 }); rows.length > 0; rows = page.all({ after: rows.at(-1)!.seq })) {
      for (const { seq, id, body } of rows) {
        records.push(recordOf({ vehicle: body, visits: history.visitsOf(seq, id) }, groupOf(body)));
      }
      await setImmediate();
    }
    const fitted = fitExperience(records);
    return write(() => {
      const row = database
        .insert(experiences)
        .values({ fitted, lastVisitSeq, createdAt: clock().toISOString() })
        .returning({ version: experiences.version })
        .get();
      return row.version;
    });
  }

  /** Works out every outlook that another experience stands behind, in short batches. */
  async function refreshOutlooks(version: number): Promise<void> {
    for (let stale = staleOnes.all({ version }); stale.length > 0; stale = staleOnes.all({ version })) {
      while (stale.length > 0) {
        await write(() => {
          const began = performance.now();
          do {
            const { seq, id } = stale.pop()!;
            writeOutlook(seq, { vehicle: bySeq.get({ seq })!.body, visits: history.visitsOf(seq, id) });
          } while (stale.length > 0 && performance.now() - began < BATCH_MS);
        });
        await setImmediate();
      }
    }
  }

  return {
    async refit() {
      const version = await fit();
      await refreshOutlooks(version);
      return version;
    },

    async newVisits() {
      const latest = database.select().from(experiences).orderBy(desc(experiences.version)).limit(1).get();
      const known = latest?.lastVisitSeq ?? 0;
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
