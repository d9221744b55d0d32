import fc from 'fast-check';
import type { OpenApiDocument } from '../openapi.js';

/**
 * Values for a schema of the served document, for the part of JSON Schema 2020-12 that the document uses. Nearly all
 * are valid; a validator decides.
 */

export interface Schema {
  $ref?: string;
  type?: string | string[];
  enum?: unknown[];
  const?: unknown;
  anyOf?: Schema[];
  oneOf?: Schema[];
  properties?: Record<string, Schema>;
  required?: string[];
  additionalProperties?: boolean | Schema;
  propertyNames?: Schema;
  items?: Schema;
  minItems?: number;
  maxItems?: number;
  minLength?: number;
  maxLength?: number;
  pattern?: string;
  format?: string;
  minimum?: number;
  maximum?: number;
  exclusiveMinimum?: number;
  exclusiveMaximum?: number;
  examples?: unknown[];
}
type Values = fc.Arbitrary<unknown>;

/** Texts that have broken programs before; each is just text. */
export const HOSTILE_TEXTS = [
  "' or 1=1 --",
  '"; drop table vehicles; --',
  '../../etc/passwd',
  '=1+1',
  '<script>alert(1)</script>',
  '${7*7}{{7*7}}%s%n',
  '__proto__',
  'constructor',
  'toString',
  'null',
  '-1',
  '1e309',
  ' ',
  '\u0000',
  '\u202e\u200b\ufeff',
  '\ud800',
  'e\u0301\u0323 ß İ ﷺ',
  '🚚🛞🏳️‍🌈',
  'x'.repeat(5000),
];
const NUMBERS = [0, -0, 1, -1, 0.1, 6.5, 26, 61_240, 5e-324, 1e-7, 2 ** 31, 2 ** 53, 1e21, 1e300, -1e300];
const MAX_ITEMS = 4;

/** The schema that a reference names. */
const componentOf = ({ components }: OpenApiDocument, reference: string): Schema =>
  components.schemas[decodeURIComponent(reference.slice(reference.lastIndexOf('/') + 1))] as Schema;

export function valuesOf(schema: Schema, document: OpenApiDocument): Values {
  const inner = (other: Schema): Values => valuesOf(other, document);
  if (schema.$ref !== undefined) return inner(componentOf(document, schema.$ref));
  if ('const' in schema) return fc.constant(schema.const);
  if (schema.enum) return fc.constantFrom(...schema.enum);
  const choices = schema.anyOf ?? schema.oneOf;
  if (choices) return fc.oneof(...choices.map(inner));
  const types = [schema.type ?? []].flat();
  if (types.length === 0) return anyValue(document);
  return fc.oneof(...types.map((type) => ofType(type, schema, document)));
}

function ofType(type: string, schema: Schema, document: OpenApiDocument): Values {
  switch (type) {
    case 'null':
      return fc.constant(null);
    case 'boolean':
      return fc.boolean();
    case 'string':
      return texts(schema);
    case 'integer':
      return fc.integer({
        min: schema.minimum ?? -(2 ** 31),
        max: Math.min(schema.maximum ?? 2 ** 31, 2 ** 53 - 1),
      });
    case 'number':
      return numbers(schema);
    case 'array':
      return fc.array(valuesOf(schema.items ?? {}, document), {
        minLength: schema.minItems ?? 0,
        maxLength: Math.min(schema.maxItems ?? MAX_ITEMS, MAX_ITEMS),
      });
    case 'object':
      return objects(schema, document);
    default:
      throw new Error(`a schema of type ${type}`);
  }
}

function objects(schema: Schema, document: OpenApiDocument): Values {
  const { properties = {}, required = [], additionalProperties, propertyNames } = schema;
  const members = Object.entries(properties).map(([name, member]) => [name, valuesOf(member, document)]);
  const named = fc.record(Object.fromEntries(members) as Record<string, Values>, { requiredKeys: required });
  if (typeof additionalProperties !== 'object') return named;
  if (Object.keys(additionalProperties).length === 0) return partsOfBodies(document);
  const names = valuesOf(propertyNames ?? { type: 'string' }, document) as fc.Arbitrary<string>;
  const further = fc.dictionary(names, valuesOf(additionalProperties, document), { maxKeys: 3 });
  return fc.tuple(named, further).map(([own, more]) => ({ ...more, ...own }));
}

/** For a place where anything is allowed, as in a merge patch: some members of an accepted body, or any value. */
function partsOfBodies(document: OpenApiDocument): Values {
  const members = Object.entries(document.components.schemas)
    .filter(([name, schema]) => name.endsWith('Body') && (schema as Schema).properties)
    .flatMap(([, schema]) => Object.entries((schema as Schema).properties!));
  const whatever = fc.dictionary(fc.string(), fc.jsonValue({ maxDepth: 3 }), { maxKeys: 3 });
  if (members.length === 0) return whatever;
  const part = fc
    .constantFrom(...members)
    .filter(([, member]) => !isOpen(member))
    .chain(([name, member]) =>
      fc.oneof(valuesOf(member, document), fc.constant(null)).map((value) => [name, value] as const),
    );
  const parts = fc.array(part, { minLength: 1, maxLength: 3 }).map((list) => Object.fromEntries(list));
  return fc.oneof({ weight: 4, arbitrary: parts }, { weight: 1, arbitrary: whatever });
}

const isOpen = ({ additionalProperties }: Schema): boolean =>
  typeof additionalProperties === 'object' && Object.keys(additionalProperties).length === 0;

const anyValue = (document: OpenApiDocument): Values =>
  fc.oneof(fc.jsonValue({ maxDepth: 3 }), partsOfBodies(document));

function numbers({ minimum, maximum, exclusiveMinimum, exclusiveMaximum }: Schema): Values {
  const min = minimum ?? exclusiveMinimum ?? -1e9;
  const max = maximum ?? exclusiveMaximum ?? 1e9;
  const known = NUMBERS.filter((number) => number >= min && number <= max);
  const within = fc.oneof(
    fc.double({ min, max, noNaN: true }),
    fc.integer({ min: Math.ceil(min), max: Math.floor(max) }),
  );
  // Figures that a brake may have; otherwise few bodies would be accepted.
  const likely = fc.integer({ min: 0, max: 400 }).map((tenths) => tenths / 10);
  return fc.oneof(within, likely, ...(known.length > 0 ? [fc.constantFrom(...known)] : []));
}

function texts({ format, pattern, minLength = 0, maxLength = 60 }: Schema): Values {
  if (format === 'date') return dates.map((date) => date.toISOString().slice(0, 10));
  if (format === 'date-time') return dates.map((date) => date.toISOString());
  // Excluded ranges of characters cannot be used to make text.
  if (pattern && !pattern.startsWith('^[^')) return fc.stringMatching(new RegExp(pattern));
  const max = Math.min(maxLength, 60);
  const plain = fc.string({ unit: 'grapheme-ascii', minLength, maxLength: max });
  const unicode = fc.string({ unit: 'grapheme', minLength, maxLength: max });
  const hostile = fc.constantFrom(...HOSTILE_TEXTS).filter((text) => [...text].length <= maxLength);
  const longest = fc.constantFrom('x', '🛞', 'é').map((one) => one.repeat(Math.min(maxLength, 4000)));
  return fc.oneof({ weight: 4, arbitrary: plain }, unicode, hostile, longest);
}

const dates = fc.oneof(
  fc.date({ min: new Date('2025-01-01'), max: new Date('2026-03-10'), noInvalidDate: true }),
  fc.date({ min: new Date('0001-01-01'), max: new Date('9999-12-31'), noInvalidDate: true }),
);
