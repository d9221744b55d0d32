import { stale } from '../../core/refusal.js';
import type { Expected } from './store.js';

/** @throws Refusal of kind stale when a change is meant for another version than stands */
export function refuseStale(expected: Expected, version: number): void {
  if (expected !== '*' && !expected.includes(version)) throw stale();
}
