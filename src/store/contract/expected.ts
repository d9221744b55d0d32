import { stale } from '../../core/refusal.js';

/** The versions a caller is ready to change; `*` is any. */
export type Expected = readonly number[] | '*';

/**
 * @param version the one that stands; null where there is none
 * @throws Refusal of kind stale when a change is meant for another version than stands
 */
export function refuseStale(expected: Expected, version: number | null): void {
  if (version === null || (expected !== '*' && !expected.includes(version))) throw stale();
}
