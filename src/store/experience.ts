import { desc, eq, max, sql } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import { isRegenerative } from '../core/assessment/cautions.js';
import type { ExperienceFor } from '../core/assessment/outlook.js';
import { recordOf } from '../core/assessment/record.js';
import { startingExperience, type Group } from '../core/forecast/experience.js';
import {
  experienceFrom,
  fitExperience,
  fitExperienceBy,
  type CarryOutFits,
  type FittedExperience,
  type VehicleRecord,
} from '../core/forecast/fit.js';
import type { VehicleBody } from '../core/vocabulary/vehicle.js';
import type { Axle } from '../core/vocabulary/terms.js';
import type { Database } from './database.js';
import type { StoreParts } from './parts.js';
import { learningSample } from './sample.js';
import { experiences, vehicles, visits } from './schema.js';
import type { ExperienceStore, ExperienceVersion } from './store.js';

/** An experience as a forecast names it: by its number, or, made in hindsight, by the date it knew the shop up to. */
export interface KnownExperience<Version extends number | string = number | string> {
  version: Version;
  fitted: FittedExperience | null;
}

/** The experience in force: the latest fit, or the starting values as version 0. */
export type CurrentExperience = KnownExperience<number>;

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

export function groupOf(vehicle: VehicleBody): (axle: Axle) => Group {
  const regenerative = isRegenerative(vehicle);
  return (axle) => ({
    steeredOrFront: vehicle.axles[axle]?.steered ?? (axle === 'front' || axle === 'axle-1'),
    regenerative,
  });
}

/** The experience that each axle of a vehicle draws on. */
export function experienceOf(vehicle: VehicleBody, { version, fitted }: KnownExperience): ExperienceFor {
  const classOf = groupOf(vehicle);
  return (axle) => {
    const starting = startingExperience(classOf(axle));
    if (!fitted) return starting;
    const own = experienceFrom(fitted, { axleClass: classOf(axle), model: vehicle.model ?? null, version });
    // Fits learn from disc brakes; of a drum's vehicle they know the use.
    return vehicle.axles[axle]?.brake === 'drum' ? { ...starting, usage: own.usage } : own;
  };
}

/** Vehicles read before others have their turn. */
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
        .values({ fitted, lastVisitSeq, learnedTo, createdAt: clock().toISOString() })
        .returning({ version: experiences.version })
        .get();
      const resourceId = String(row.version);
      versions.note(
        { keyName: null },
        { method: null, action: 'fitted', resource: 'experience', resourceId },
      );
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
