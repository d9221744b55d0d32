import { scoreVehicle, type ExperienceBefore } from '../../core/accuracy/scores.js';
import { experienceOf } from '../../core/assessment/whichExperience.js';
import { toDay, toFullDate } from '../../core/calendar.js';
import type { History } from '../../core/history.js';
import { entryOf, required } from '../../core/items.js';
import type { ScoredSelection } from '../engine/contract/experience.js';
import type { ReadingRules, StoreParts } from '../parts.js';
import { Turn } from './turn.js';

/**
 * Scores the past forecasts of vehicles whose history has changed, until a deadline. One request runs after the other,
 * so that none repeats another's work.
 */
export function forecastScorer({ reading, consistently, write }: StoreParts) {
  /** Scores one vehicle's past forecasts and stores them, unless its history has changed meanwhile. */
  async function score(seq: number, turn: Turn): Promise<void> {
    const { known, state } = await consistently((own) => stateOf(own, seq));
    const scores = await turn.run(scoreVehicle(known, await experienceBefore(reading, known)));
    await write((own) => own.rows.scores.store(seq, state, scores));
    await turn.over();
  }

  let scoring = Promise.resolve();
  return (selection: ScoredSelection, deadline: number): Promise<void> => {
    const mine = scoring.then(async () => {
      const turn = new Turn();
      for (const seq of await reading.rows.scores.pending(selection)) {
        if (performance.now() >= deadline) return;
        await score(seq, turn);
      }
    });
    scoring = mine.catch(() => undefined);
    return mine;
  };
}

async function stateOf({ rows, history, settings }: ReadingRules, seq: number) {
  const { id, body } = required(await rows.vehicles.bySeq(seq), 'vehicle');
  const { gauges } = await settings();
  const known: History = { vehicle: body, visits: await history.visitsOf(seq, id), gauges };
  return { known, state: await rows.scores.stateOf(seq) };
}

/** A forecast could not use a fit that learned from visits of the same day, so use the day before. */
async function experienceBefore(
  { experienceKnownOn }: ReadingRules,
  { vehicle, visits }: History,
): Promise<ExperienceBefore> {
  const made = new Map<number | string, ReturnType<typeof experienceOf>>();
  const before = new Map<string, ReturnType<typeof experienceOf>>();
  for (const date of new Set(visits.map((visit) => visit.date))) {
    const known = await experienceKnownOn(toFullDate(toDay(date) - 1));
    const experienceFor = made.get(known.version) ?? experienceOf(vehicle, known);
    made.set(known.version, experienceFor);
    before.set(date, experienceFor);
  }
  return (date) => entryOf(before, date);
}
