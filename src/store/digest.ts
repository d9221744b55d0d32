import { createHash } from 'node:crypto';

/** SHA-256, hex, of a JSON value: the same whatever the order of its members, a null member the same as a missing one. */
export function digestOf(value: unknown): string {
  return createHash('sha256')
    .update(JSON.stringify(canonical(value)))
    .digest('hex');
}

function canonical(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(canonical);
  if (typeof value !== 'object' || value === null) return value;
  const members = Object.entries(value).filter(([, member]) => member !== null && member !== undefined);
  return Object.fromEntries(
    members.sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, member]) => [name, canonical(member)]),
  );
}

export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');
