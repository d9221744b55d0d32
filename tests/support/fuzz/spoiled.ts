import fc from 'fast-check';
import { members, replaced, type Json, type Path } from '../spoiling.js';
import { HOSTILE_TEXTS } from './values.js';

/** A body with one wrong value, as JSON or as text. A validator decides whether it still matches the schema. */

const REPLACEMENTS: Json[] = [
  null,
  true,
  0,
  -1,
  1e300,
  2 ** 53,
  '',
  '7',
  [],
  {},
  [[[[[[]]]]]],
  { hostile: true },
  Array.from({ length: 1001 }, () => ({})),
  ...HOSTILE_TEXTS,
];
const FURTHER_NAMES = [
  'id',
  'version',
  'role',
  'fleets',
  'createdAt',
  'constructor',
  'toString',
  'x'.repeat(200),
];

/** One member left out, added, or replaced by another. */
export function spoiledOnce(body: unknown): fc.Arbitrary<unknown> {
  const all = members(body as Json);
  const holders = all.filter(
    ({ value }) => typeof value === 'object' && value !== null && !Array.isArray(value),
  );
  const place = fc.constantFrom(...all.map(({ path }) => path));
  const other = fc
    .tuple(place, fc.constantFrom(...REPLACEMENTS))
    .map(([path, value]) => replaced(body as Json, path, value));
  if (holders.length === 0) return other;
  const left = fc
    .constantFrom(...all.map(({ path }) => path).filter((path) => path.length > 0), [] as Path)
    .map((path) => (path.length === 0 ? {} : replaced(body as Json, path, undefined)));
  const added = fc
    .tuple(fc.constantFrom(...holders), fc.constantFrom(...FURTHER_NAMES), fc.jsonValue({ maxDepth: 1 }))
    .map(([{ path, value }, name, more]) =>
      replaced(body as Json, path, { ...(value as { [name: string]: Json }), [name]: more as Json }),
    );
  return fc.oneof(left, added, other);
}

/** JSON of a value that preserves -0. */
export function jsonOf(value: unknown): string {
  return JSON.stringify(value, (_name, member: unknown) =>
    Object.is(member, -0) ? MINUS_ZERO : member,
  ).replaceAll(`"${MINUS_ZERO}"`, '-0');
}
const MINUS_ZERO = 'minus zero';

/** Text that must not be accepted as JSON, and JSON that no correct program writes. */
export function brokenTexts(json: string): { malformed: string[]; odd: string[] } {
  const tampered = [
    '',
    json.slice(0, -1),
    `${json}]`,
    json.replace('"', "'"),
    json.replace(/:\s*[0-9.]+/, ':NaN'),
    `${json.slice(0, -1)},}`,
  ];
  return {
    malformed: [
      ...tampered.filter((text) => !isJson(text)),
      `{"__proto__":{"polluted":true},"x":${json}}`,
      `{"x":1,"x":${json}}`,
      `{"x":${json},"\\u0078":1}`,
      '{"a":'.repeat(100_000) + '1' + '}'.repeat(100_000),
      '['.repeat(40) + ']'.repeat(40),
    ],
    odd: [
      json.replace(/:\s*[0-9.]+/, ':1e400'),
      json.replace(/:\s*[0-9.]+/, `:${'1'.repeat(400)}`),
      json.replace(/:"[^"]*"/, ':"\\ud800"'),
      json.replace(/:"[^"]*"/, ':"\\u0000"'),
      `\ufeff${json}`,
      `\n\t ${json} \r\n`,
    ],
  };
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
