import type { HistoryVisit } from '../history.js';
import type { CounterpartSpec, Life } from '../lives.js';
import type { CounterpartPlace } from './counterpart.js';

/** Cracks and other damage recorded on a rotor or drum. */

/** The states recorded for a part at a visit, in the order of entry. */
const statesAt = ({ conditions }: HistoryVisit, { part, axle, side }: CounterpartPlace): string[] =>
  conditions
    .filter((entry) => entry.part === part && entry.axle === axle && (entry.side ?? side) === side)
    .map(({ state }) => state);

/** Damage that machining removes, recorded in the part's present life; `ok` clears earlier entries. */
export function damageOf(place: CounterpartPlace, { begunAt }: Life<CounterpartSpec>): string | null {
  const states = place.history.visits.slice(begunAt + 1).flatMap((visit) => statesAt(visit, place));
  const open = states.slice(states.lastIndexOf('ok') + 1);
  return open.find((state) => state === 'scored' || state === 'heat-spotted') ?? null;
}

/** When a crack was last found; only a replacement clears it, not machining or a later entry. */
export function crackOf(place: CounterpartPlace, lives: readonly Life<CounterpartSpec>[]): string | null {
  const { begunAt } = lives.findLast((life) => life.origin !== 'machined')!;
  const found = place.history.visits
    .slice(begunAt + 1)
    .findLast((visit) => statesAt(visit, place).includes('cracked'));
  return found?.date ?? null;
}

/**
 * The date of a visit that both found a part cracked and replaced it, without saying whether the old part or the new
 * one is cracked; null if none. A later `ok` settles that, and so does any later reading or condition of the part.
 */
export function crackedWhenReplaced(
  place: CounterpartPlace,
  { begunAt, origin, observations }: Life<CounterpartSpec>,
): string | null {
  const { visits } = place.history;
  const visit = origin === 'replaced' ? visits[begunAt] : undefined;
  if (!visit) return null;
  const states = statesAt(visit, place);
  const isOpen = states.lastIndexOf('cracked') > states.lastIndexOf('ok');
  const isChecked =
    observations.some((observation) => observation.visit.id !== visit.id) ||
    visits.slice(begunAt + 1).some((later) => statesAt(later, place).length > 0);
  return isOpen && !isChecked ? visit.date : null;
}
