import { and, asc, eq, not, sql, type SQL } from 'drizzle-orm';
import { scoreVehicle, type ExperienceBefore } from '../../core/accuracy/scores.js';
import { experienceOf } from '../../core/assessment/whichExperience.js';
import { toDay, toFullDate } from '../../core/calendar.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import { forecastScores, pastExperiences, vehicles } from '../engine/sqlite/schema.js';
import type { StoreParts } from '../parts.js';
import { experienceKnownOn } from './knownExperience.js';
import { Turn } from './turn.js';

/** A new fit of the past makes every score stale; rows are only ever added to its table. */
const pastFitsMade = sql<number>`(select count(*) from ${pastExperiences})`;
export const areCurrent = sql`(${forecastScores.scores} is not null and ${forecastScores.pastFits} = ${pastFitsMade})`;

/** Scores the past forecasts of vehicles whose history has changed. */
export function forecastScorer({ database, write, history, settings }: StoreParts) {
  const knownOn = experienceKnownOn(database);
  const stored = database
    .select({
      seq: vehicles.seq,
      id: vehicles.id,
      body: vehicles.body,
      revision: forecastScores.revision,
      pastFits: pastFitsMade,
    })
    .from(vehicles)
    .innerJoin(forecastScores, eq(forecastScores.vehicleSeq, vehicles.seq))
    .where(eq(vehicles.seq, sql.placeholder('seq')))
    .prepare();

  function pendingOnes(where: SQL | undefined): number[] {
    return database
      .select({ seq: vehicles.seq })
      .from(forecastScores)
      .innerJoin(vehicles, eq(vehicles.seq, forecastScores.vehicleSeq))
      .where(and(not(areCurrent), where))
      .orderBy(asc(vehicles.seq))
      .all()
      .map(({ seq }) => seq);
  }

  /** Scores one vehicle's past forecasts and stores them, unless its history has changed meanwhile. */
  async function score(seq: number, turn: Turn): Promise<void> {
    const { known, revision, pastFits } = database.transaction(() => {
      const { id, body, ...standing } = stored.get({ seq })!;
      const { gauges } = settings();
      return { known: { vehicle: body, visits: history.visitsOf(seq, id), gauges }, ...standing };
    });
    const scores = await turn.run(scoreVehicle(known, experienceBefore(known.vehicle)));
    await write(() =>
      database
        .update(forecastScores)
        .set({ scores, pastFits })
        .where(and(eq(forecastScores.vehicleSeq, seq), eq(forecastScores.revision, revision)))
        .run(),
    );
    await turn.over();
  }

  /** A forecast could not use what a fit learned on the same day: use the day before. */
  function experienceBefore(vehicle: VehicleBody): ExperienceBefore {
    const made = new Map<number | string, ReturnType<typeof experienceOf>>();
    return (date) => {
      const known = knownOn(toFullDate(toDay(date) - 1));
      const experienceFor = made.get(known.version) ?? experienceOf(vehicle, known);
      made.set(known.version, experienceFor);
      return experienceFor;
    };
  }

  let scoring = Promise.resolve();
  /** Scores pending vehicles until a deadline, one request after the other, so that none repeats another's work. */
  function scorePending(where: SQL | undefined, deadline: number): Promise<void> {
    const mine = scoring.then(async () => {
      const turn = new Turn();
      for (const seq of pendingOnes(where)) {
        if (performance.now() >= deadline) return;
        await score(seq, turn);
      }
    });
    scoring = mine.catch(() => undefined);
    return mine;
  }

  return { pendingOnes, scorePending };
}
