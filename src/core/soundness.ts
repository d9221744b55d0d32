/** Checks a result before it is stored or answered: JSON would silently turn NaN into null. */

/** Names the first number in a value that is not finite: `axles / 0 / crossing / already is NaN`; null if none. */
export function findNotFinite(value: unknown): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : `is ${value}`;
  if (typeof value !== 'object' || value === null) return null;
  // Every outlook passes through here, and this is much faster than Object.entries.
  for (const name in value) {
    const found = findNotFinite((value as Record<string, unknown>)[name]);
    if (found !== null) return found.startsWith('is ') ? `${name} ${found}` : `${name} / ${found}`;
  }
  return null;
}
