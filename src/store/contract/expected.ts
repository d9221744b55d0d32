import { stale } from '../../core/refusal.js';

/** The versions a caller is ready to change; `*` is any. */
export type Expected = readonly number[] | '*';

/** @throws Refusal of kind stale when a change is meant for another version than stands */
export function refuseStale(expected: Expected, version: number): void {
  if (expected !== '*' && !expected.includes(version)) throw stale();
}
