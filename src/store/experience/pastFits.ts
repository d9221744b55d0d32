import { asc, count, eq, isNotNull, isNull, sql } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import { recordOf } from '../../core/assessment/record.js';
import { groupOf } from '../../core/assessment/whichExperience.js';
import { fitExperience } from '../../core/forecast/fit.js';
import type { History } from '../../core/history.js';
import { experiences, pastExperiences, vehicles, visits } from '../engine/sqlite/schema.js';
import type { StoreParts } from '../parts.js';
import { learningSample } from './sample.js';
import { Turn } from './turn.js';

/** Makes the missing fits of the past. */
export function pastFitter({ database, clock, write, history, settings }: StoreParts): () => Promise<void> {
  const bySeq = database
    .select({ id: vehicles.id, body: vehicles.body })
    .from(vehicles)
    .where(eq(vehicles.seq, sql.placeholder('seq')))
    .prepare();

  /** Loads the histories to learn from; each fit uses a part of each. */
  async function historiesToLearnFrom(): Promise<History[]> {
    const turn = new Turn();
    const { gauges } = settings();
    const all: History[] = [];
    for (const seq of learningSample(database)) {
      const { id, body } = bySeq.get({ seq })!;
      all.push({ vehicle: body, visits: history.visitsOf(seq, id), gauges });
      await turn.over();
    }
    return all;
  }

  /**
   * Fits what would have been known at the ends of past half-years without a fit of their own, for example after a shop
   * imports its history. A new fit makes every score stale.
   */
  async function fitPast(): Promise<void> {
    const dates = missingFits();
    if (dates.length === 0) return;
    const histories = await historiesToLearnFrom();
    for (const learnedTo of dates) {
      const records = histories.map(({ vehicle, visits, gauges }) =>
        recordOf(
          { vehicle, gauges, visits: visits.filter(({ date }) => date <= learnedTo) },
          groupOf(vehicle),
        ),
      );
      const fitted = fitExperience(records);
      await write(() =>
        database
          .insert(pastExperiences)
          .values({ learnedTo, fitted, createdAt: clock().toISOString() })
          .onConflictDoNothing()
          .run(),
      );
      await setImmediate();
    }
  }

  /** Ends of half-years with enough data to learn from but without a fit. */
  function missingFits(): string[] {
    const days = database
      .select({ date: visits.date, visits: count() })
      .from(visits)
      .where(isNull(visits.voided))
      .groupBy(visits.date)
      .orderBy(asc(visits.date))
      .all();
    if (days.length === 0) return [];
    const fits = [experiences, pastExperiences].flatMap((table) =>
      database.select({ learnedTo: table.learnedTo }).from(table).where(isNotNull(table.learnedTo)).all(),
    );
    const missing: string[] = [];
    let known = 0;
    for (const { from, to } of halfYears(days[0]!.date, days.at(-1)!.date)) {
      const visitsBy = days.reduce((sum, day) => sum + (day.date <= to ? day.visits : 0), 0);
      if (visitsBy < Math.max(MIN_VISITS, GROWTH * known)) continue;
      known = visitsBy;
      if (!fits.some(({ learnedTo }) => learnedTo! > from && learnedTo! <= to)) missing.push(to);
    }
    return missing;
  }

  return fitPast;
}

/** Minimum visits in the shop, and minimum growth since the last fit, for another fit. */
const MIN_VISITS = 20;
const GROWTH = 1.2;

/** The half-years between two dates; each is after `from` and up to `to`. */
function halfYears(first: string, last: string): { from: string; to: string }[] {
  const ends: string[] = [];
  for (let year = Number(first.slice(0, 4)); year <= Number(last.slice(0, 4)); year++) {
    ends.push(`${year}-06-30`, `${year}-12-31`);
  }
  return ends
    .map((to, index) => ({ from: ends[index - 1] ?? '', to }))
    .filter(({ to }) => to >= first && to < last);
}
