/** Checks on results before anybody relies on them: JSON would silently turn NaN into null. */

/** Where a value holds its first number that is not finite, such as `axles / 0 / crossing / already is NaN`; or null. */
export function findNotFinite(value: unknown): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : `is ${value}`;
  if (typeof value !== 'object' || value === null) return null;
  // Much faster than Object.entries, and every outlook passes through here.
  for (const name in value) {
    const found = findNotFinite((value as Record<string, unknown>)[name]);
    if (found !== null) return found.startsWith('is ') ? `${name} ${found}` : `${name} / ${found}`;
  }
  return null;
}
