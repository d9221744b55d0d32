import { setImmediate } from 'node:timers/promises';
import { recordOf } from '../../core/assessment/record.js';
import { groupOf, STARTING, type CurrentExperience } from '../../core/assessment/whichExperience.js';
import {
  fitExperience,
  fitExperienceBy,
  type CarryOutFits,
  type VehicleRecord,
} from '../../core/forecast/fit.js';
import { required } from '../../core/items.js';
import { OPERATOR } from '../contract/caller.js';
import type { ExperienceStore } from '../contract/experience.js';
import type { ReadingComponents } from '../engine/contract/engine.js';
import { programDigest } from '../outlooks/program.js';
import type { StoreParts } from '../parts.js';
import { learningSample } from './sample.js';

/**
 * Reads the experience in force. Checks its version each time, since another process may have fitted a new one. The
 * cache serves all views of the data.
 */
export function experienceReader() {
  let known = STARTING;

  /** @param mayCache false within a transaction: what it has written may be rolled back */
  return (
    { experiences }: Pick<ReadingComponents, 'experiences'>,
    mayCache: boolean,
  ): (() => Promise<CurrentExperience>) =>
    async () => {
      const version = await experiences.latestVersion();
      if (version === known.version) return known;
      const fresh =
        version === 0
          ? STARTING
          : { version, fitted: required(await experiences.byVersion(version), 'experience').fitted };
      if (mayCache) known = fresh;
      return fresh;
    };
}

/** Vehicles read before yielding to other work. */
const BATCH = 100;
/** Maximum fits listed. */
const LISTED = 20;

export function experienceStore({
  reading,
  clock,
  write,
  refreshOutlooks,
  tryHold,
}: StoreParts): ExperienceStore {
  const { rows } = reading;

  /** The records to learn from, and the latest date among them. */
  async function readRecords() {
    const { gauges } = await reading.settings();
    const records: VehicleRecord[] = [];
    let learnedTo: string | null = null;
    for (const [index, seq] of (await learningSample(rows)).entries()) {
      const { id, body } = required(await rows.vehicles.bySeq(seq), 'vehicle');
      const visits = await reading.history.visitsOf(seq, id);
      const latest = visits.at(-1)?.date ?? null;
      if (latest !== null && (learnedTo === null || latest > learnedTo)) learnedTo = latest;
      records.push(recordOf({ vehicle: body, visits, gauges }, groupOf(body)));
      if (index % BATCH === 0) await setImmediate();
    }
    return { records, learnedTo };
  }

  async function fit(carryOut?: CarryOutFits): Promise<number> {
    const lastVisitSeq = await rows.lessons.lastVisitSeq();
    const { records, learnedTo } = await readRecords();
    const fitted = carryOut ? await fitExperienceBy(records, carryOut) : fitExperience(records);
    return write(async (own) => {
      const version = await own.rows.experiences.insert({
        fitted,
        lastVisitSeq,
        learnedTo,
        createdAt: clock().toISOString(),
        program: programDigest(),
      });
      const resourceId = String(version);
      await own.versions.note(OPERATOR, { action: 'fitted', resource: 'experience', resourceId });
      return version;
    });
  }

  async function fitAlone(carryOut?: CarryOutFits): Promise<number | null> {
    const release = await tryHold('fit');
    if (!release) return null;
    try {
      return await fit(carryOut);
    } finally {
      await release();
    }
  }

  return {
    fit: fitAlone,

    async refit() {
      const version = await fitAlone();
      await refreshOutlooks();
      return version;
    },

    async newVisits() {
      const [latest] = await rows.experiences.latest(1);
      // Ignore another program's fit, since the model may have changed.
      const known = latest?.program === programDigest() ? latest.lastVisitSeq : 0;
      return { known, since: (await rows.lessons.lastVisitSeq()) - known };
    },

    async list() {
      const latest = await rows.experiences.latest(LISTED);
      return latest.map(({ version, fitted, createdAt }) => ({ version, fitted, createdAt }));
    },
  };
}
