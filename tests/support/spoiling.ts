/** Ways to make one value of a valid body wrong; no member of a body may accept the result. */

export type Path = readonly (string | number)[];

export interface Spoiled {
  /** The place that was changed. */
  path: Path;
  how: string;
  body: unknown;
}

export type Json = null | boolean | number | string | Json[] | { [name: string]: Json };

/** Longer than the maximum of any text. */
const TOO_LONG = 'x'.repeat(5000);

/** Replacements for a member, by its present value. */
function replacements(value: Json): Record<string, Json> {
  const object = { hostile: true };
  if (typeof value === 'number') {
    return {
      'a number as text': String(value),
      'a flag for a number': true,
      'an object for a number': object,
      'text for a number': "1' or '1'='1",
      'a number below nothing': -1,
      'a number far too great': 1e300,
    };
  }
  if (typeof value === 'string') {
    return {
      'a number for text': 7,
      'a list for text': [value],
      'an object for text': object,
      'text with a control character': `${value}\u0000`,
      'text far too long': TOO_LONG,
      'empty text': '',
    };
  }
  if (typeof value === 'boolean') {
    return {
      'text for a flag': String(value),
      'a number for a flag': 1,
      'an object for a flag': object,
    };
  }
  if (Array.isArray(value)) {
    return {
      'an object for a list': { ...value },
      'text for a list': 'x',
      'null in a list': [...value, null],
      'text in a list': [...value, 'x'],
      'a list far too long': Array.from({ length: 1001 }, () => value[0] ?? {}),
    };
  }
  return {
    'a list for an object': [value],
    'text for an object': 'x',
    'a number for an object': 1,
  };
}

function isObject(value: Json): value is { [name: string]: Json } {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Every member of a body with its path, including the body itself. */
export function members(value: Json, path: Path = []): { path: Path; value: Json }[] {
  const inner = Array.isArray(value) ? [...value.entries()] : isObject(value) ? Object.entries(value) : [];
  return [{ path, value }, ...inner.flatMap(([step, member]) => members(member, [...path, step]))];
}

/** A copy of a body with the member at a path replaced, or removed if the new value is undefined. */
export function replaced(body: Json, path: Path, value: Json | undefined): Json {
  const [step, ...rest] = path;
  if (step === undefined) return value as Json;
  if (Array.isArray(body))
    return body.map((member, index) => (index === step ? replaced(member, rest, value) : member));
  const object = body as { [name: string]: Json };
  if (rest.length > 0) return { ...object, [step]: replaced(object[step]!, rest, value) };
  if (value !== undefined) return { ...object, [step]: value };
  return Object.fromEntries(Object.entries(object).filter(([name]) => name !== step));
}

/** Names that no object of a body has; every JavaScript object has the second. */
const UNKNOWN_NAMES = ['unknownField', 'constructor'];

/** @param required names of members that may be neither missing nor null, wherever they are */
export function spoil(valid: unknown, required: readonly string[]): Spoiled[] {
  const body = valid as Json;
  return members(body).flatMap(({ path, value }) => {
    const made: Spoiled[] = [];
    if (path.length > 0 && value !== null) {
      for (const [how, other] of Object.entries(replacements(value)))
        made.push({ path, how, body: replaced(body, path, other) });
      if (required.includes(String(path.at(-1)))) {
        made.push({ path, how: 'null where something is needed', body: replaced(body, path, null) });
        made.push({ path, how: 'nothing where something is needed', body: replaced(body, path, undefined) });
      }
    }
    if (isObject(value)) {
      for (const name of UNKNOWN_NAMES) {
        const inner = [...path, name];
        made.push({
          path: inner,
          how: 'an unknown field',
          body: replaced(body, path, { ...value, [name]: 1 }),
        });
      }
    }
    return made;
  });
}
