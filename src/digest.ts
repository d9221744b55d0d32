import { hash } from 'node:crypto';

/** SHA-256, hex, of a JSON value, ignoring the order of members; null members count as missing. */
export const digestOf = (value: unknown): string => sha256(JSON.stringify(canonical(value, isNotNull)));

/** Like {@link digestOf}, but null members count: they have a meaning in merge patches and unchecked bodies. */
export const exactDigestOf = (value: unknown): string => sha256(JSON.stringify(canonical(value, isDefined)));

const isNotNull = (member: unknown): boolean => member !== null && member !== undefined;
const isDefined = (member: unknown): boolean => member !== undefined;

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
