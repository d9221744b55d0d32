import { setImmediate } from 'node:timers/promises';
import { recordOf } from '../../core/assessment/record.js';
import { groupOf } from '../../core/assessment/whichExperience.js';
import { fitExperience } from '../../core/forecast/fit.js';
import type { History } from '../../core/history.js';
import { itemAt, required } from '../../core/items.js';
import type { ReadingRules, StoreParts } from '../parts.js';
import { learningSample } from './sample.js';
import { Turn } from './turn.js';

/**
 * Fits what would have been known at the ends of past half-years that have no fit, for example after a shop imports its
 * history. A new fit makes every score stale.
 */
export async function fitPast({ reading, clock, write }: StoreParts): Promise<void> {
  const dates = await missingFits(reading);
  if (dates.length === 0) return;
  const histories = await historiesToLearnFrom(reading);
  for (const learnedTo of dates) {
    const records = histories.map(({ vehicle, visits, gauges }) =>
      recordOf({ vehicle, gauges, visits: visits.filter(({ date }) => date <= learnedTo) }, groupOf(vehicle)),
    );
    const fitted = fitExperience(records);
    const createdAt = clock().toISOString();
    await write((own) => own.rows.experiences.insertPast({ learnedTo, fitted, createdAt }));
    await setImmediate();
  }
}

/** Loads the histories to learn from; each fit uses a part of each. */
async function historiesToLearnFrom({ rows, history, settings }: ReadingRules): Promise<History[]> {
  const turn = new Turn();
  const { gauges } = await settings();
  const all: History[] = [];
  for (const seq of await learningSample(rows)) {
    const { id, body } = required(await rows.vehicles.bySeq(seq), 'vehicle');
    all.push({ vehicle: body, visits: await history.visitsOf(seq, id), gauges });
    await turn.over();
  }
  return all;
}

/** Ends of half-years with enough data to learn from but without a fit. */
async function missingFits({ rows }: ReadingRules): Promise<string[]> {
  const days = await rows.lessons.visitDays();
  if (days.length === 0) return [];
  const fits = await rows.experiences.learnedTo();
  const missing: string[] = [];
  let known = 0;
  for (const { from, to } of halfYears(itemAt(days, 0).date, itemAt(days, -1).date)) {
    const visitsBy = days.reduce((sum, day) => sum + (day.date <= to ? day.visits : 0), 0);
    if (visitsBy < Math.max(MIN_VISITS, GROWTH * known)) continue;
    known = visitsBy;
    if (!fits.some((learnedTo) => learnedTo > from && learnedTo <= to)) missing.push(to);
  }
  return missing;
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
