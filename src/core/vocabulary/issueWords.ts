import { z } from 'zod';
import { itemAt } from '../items.js';
import { inWords } from '../rounding.js';

/**
 * Default messages for schema errors. They follow the field's name, as in `value must be a number, but is text`.
 */

type RawIssue = z.core.$ZodRawIssue;
type Raw<Code extends RawIssue['code']> = Extract<RawIssue, { code: Code }>;

const EXPECTED: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  object: 'an object',
  record: 'an object',
  array: 'a list',
  null: 'null',
};

/** Names the type of what was sent; never quotes the value, which may be long or secret. */
function sentInWords(input: unknown): string {
  if (input === null) return 'null';
  if (Array.isArray(input)) return 'a list';
  if (typeof input === 'number') return Number.isFinite(input) ? 'a number' : 'too large a number';
  if (typeof input === 'boolean') return String(input);
  return typeof input === 'string' ? 'text' : 'an object';
}

function typeInWords({ expected, input }: Raw<'invalid_type'>): string {
  if (input === undefined) return 'is missing';
  const wanted = EXPECTED[expected] ?? expected;
  return typeof input === 'number' && Number.isFinite(input) && expected === 'int'
    ? `must be ${wanted}`
    : `must be ${wanted}, but is ${sentInWords(input)}`;
}

function choiceInWords(values: readonly unknown[], input: unknown): string {
  const wanted = values.length === 1 ? String(values[0]) : `one of ${values.map(String).join(', ')}`;
  if (input === undefined) return `is missing; it must be ${wanted}`;
  return typeof input === 'string' ? `must be ${wanted}` : `must be ${wanted}, but is ${sentInWords(input)}`;
}

const UNITS: Readonly<Record<string, readonly [one: string, many: string]>> = {
  string: ['character', 'characters'],
  array: ['item', 'items'],
};

/** @param bound such as `at most` */
function sizeInWords(origin: string, bound: string, size: number | bigint): string {
  const figure = inWords(Number(size), 12);
  const units = UNITS[origin];
  return units
    ? `must have ${bound} ${figure} ${Number(size) === 1 ? units[0] : units[1]}`
    : `must be ${bound} ${figure}`;
}

function tooSmallInWords({ origin, minimum, inclusive, exact }: Raw<'too_small'>): string {
  if (origin in UNITS && Number(minimum) === 1) return 'must not be empty';
  return sizeInWords(origin, exact ? 'exactly' : inclusive ? 'at least' : 'more than', minimum);
}

function tooBigInWords({ origin, maximum, inclusive, exact }: Raw<'too_big'>): string {
  return sizeInWords(origin, exact ? 'exactly' : inclusive ? 'at most' : 'less than', maximum);
}

const FORMATS: Readonly<Record<string, string>> = {
  date: 'must be a date, written YYYY-MM-DD',
  datetime: 'must be an instant, written like 2026-03-02T08:10:00Z',
  url: 'must be a web address',
};

function unionInWords(issue: Raw<'invalid_union'>): string {
  const { discriminator, options, input } = issue as {
    discriminator?: string;
    options?: unknown[];
    input?: object;
  };
  if (discriminator === undefined || !options) return 'has none of the accepted forms';
  return choiceInWords(options, (input as Record<string, unknown>)[discriminator]);
}

export const UNKNOWN_FIELD = 'unknown field';

/** If the allowed names are an enum, such as the axles, the message lists them. */
function unknownInWords({ inst }: Raw<'unrecognized_keys'>): string {
  const names =
    inst instanceof z.ZodRecord && inst.keyType instanceof z.ZodEnum ? inst.keyType.options : null;
  return names ? `unknown name; it must be one of ${names.join(', ')}` : UNKNOWN_FIELD;
}

function issueInWords(issue: RawIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return typeInWords(issue);
    case 'invalid_value':
      return choiceInWords(issue.values, issue.input);
    case 'too_small':
      return tooSmallInWords(issue);
    case 'too_big':
      return tooBigInWords(issue);
    case 'invalid_format':
      return FORMATS[issue.format] ?? 'is not written in the accepted form';
    case 'not_multiple_of':
      return `must be a multiple of ${inWords(issue.divisor, 12)}`;
    case 'unrecognized_keys':
      return unknownInWords(issue);
    case 'invalid_key':
      return `this name ${itemAt(issue.issues, 0).message}`;
    case 'invalid_union':
      return unionInWords(issue);
    default:
      return 'is not valid';
  }
}

/** Installs these as the default for every schema; a schema's own message takes precedence. */
z.config({ localeError: issueInWords });
