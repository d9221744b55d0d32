import { stale } from '../../core/refusal.js';

/** The versions that a caller is prepared to change; `*` means any. */
export type Expected = readonly number[] | '*';

/**
 * @param version the current one; null if there is none
 * @throws Refusal of kind stale if the change was meant for another version
 */
export function refuseStale(expected: Expected, version: number | null): void {
  if (version === null || (expected !== '*' && !expected.includes(version))) throw stale();
}
