import { hash } from 'node:crypto';

/** SHA-256, hex, of a JSON value: the same whatever the order of its members, a null member the same as a missing one. */
export const digestOf = (value: unknown): string => sha256(JSON.stringify(canonical(value, isSaid)));

/** The same where a null member says something, as it does in a merge patch and in a body that is not checked yet. */
export const exactDigestOf = (value: unknown): string => sha256(JSON.stringify(canonical(value, isThere)));

const isSaid = (member: unknown): boolean => member !== null && member !== undefined;
const isThere = (member: unknown): boolean => member !== undefined;

function canonical(value: unknown, counts: (member: unknown) => boolean): unknown {
  if (Array.isArray(value)) return value.map((item) => canonical(item, counts));
  if (typeof value !== 'object' || value === null) return value;
  const members = value as Record<string, unknown>;
  const sorted: Record<string, unknown> = {};
  for (const name of Object.keys(members).sort()) {
    if (counts(members[name])) sorted[name] = canonical(members[name], counts);
  }
  return sorted;
}

export const sha256 = (text: string): string => hash('sha256', text);
