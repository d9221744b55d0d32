import fc from 'fast-check';
import { placeIn, type Contract, type Operation } from '../openapi.js';
import { brokenTexts, jsonOf, spoiledOnce } from './spoiled.js';
import { HOSTILE_TEXTS, valuesOf, type Schema } from './values.js';

/**
 * Requests made from the served document alone, valid and invalid. This file names no operation; ids of existing
 * records are inserted when a request is sent.
 */

/** The value of a parameter: literal, or the id of an existing record, chosen by number. */
export type Value = { text: string } | { known: number };

export interface Plan {
  /** In the path, already encoded if it is text. */
  params: Record<string, Value>;
  query: [name: string, value: Value][];
  headers: Record<string, string>;
  body: { type: string; text: string } | null;
  /** Selects which record an id in the body refers to. */
  number: number;
  /** What the answer must or must not be. */
  about: {
    /** Whether every parameter in the path and query matches its schema. */
    parametersFit: boolean;
    /** Whether the body is JSON and matches its schema; null if unknown. */
    bodyFits: boolean | null;
    bodyMalformed: boolean;
    typeWrong: boolean;
    /** Whether the address can be parsed. */
    addressBroken: boolean;
  };
}

export interface FuzzedOperation {
  method: string;
  template: string;
  operation: Operation;
  plans: fc.Arbitrary<Plan>;
}

const WRONG_TYPES = [
  'text/plain',
  'application/xml',
  'application/json; charset=latin1',
  'multipart/form-data',
  ';',
];
/** Values for a header: the intended kind, and others. */
const HEADER_VALUES: Record<string, { sound: string[]; odd: string[] }> = {
  'if-match': {
    sound: ['*', '"v1"', '"v1", "v2"', '"v9999"'],
    odd: ['W/"v1"', 'v1', '""', '"v-1"', 'x'.repeat(3000)],
  },
  'if-none-match': { sound: ['*', '"v1"', 'W/"v1"', '"v9999"'], odd: ['"', 'x'.repeat(3000)] },
  'idempotency-key': {
    sound: ['again-1', '"again-2"', 'again-3'],
    odd: ['a b', '', 'x'.repeat(200), 'ü', '..'],
  },
  prefer: { sound: ['respond-async', 'respond-async, wait=1'], odd: ['nothing'] },
};
const headerValue = (name: string): fc.Arbitrary<string> => {
  const { sound, odd } = HEADER_VALUES[name] ?? { sound: ['x'], odd: ['', 'x'.repeat(3000)] };
  return fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom(...sound) },
    { weight: 1, arbitrary: fc.constantFrom(...odd) },
  );
};
/** Put into a path without encoding, so that the path itself is malformed as well. */
const HOSTILE_SEGMENTS = [
  '%00',
  '%E0%A4%A',
  '%',
  '..%2f..%2fetc',
  '%2e%2e',
  '.',
  '',
  'x'.repeat(101),
  'x'.repeat(900),
];
const BROKEN_SEGMENTS = ['%E0%A4%A', '%', '.', ''];

/** Without half a surrogate pair, which an address cannot hold. */
const isWellFormed = (text: string): boolean => !/\p{Cs}/u.test(text);

export function operationsOf(contract: Contract): FuzzedOperation[] {
  return Object.entries(contract.document.paths).flatMap(([template, methods]) =>
    Object.entries(methods).map(([verb, operation]) => ({
      method: verb.toUpperCase(),
      template,
      operation,
      plans: plansOf(contract, template, verb, operation),
    })),
  );
}

function plansOf(
  contract: Contract,
  template: string,
  verb: string,
  operation: Operation,
): fc.Arbitrary<Plan> {
  const { parameters = [], requestBody } = operation;
  const fits = (index: number, value: string): boolean => {
    const place = placeIn('paths', template, verb, 'parameters', String(index), 'schema');
    return contract.complaints(place, readAs(parameters[index]!.schema as Schema, value)).length === 0;
  };
  const of = (place: string) =>
    parameters
      .map((parameter, index) => ({ ...parameter, index }))
      .filter((parameter) => parameter.in === place);

  const params = fc.tuple(
    ...of('path').map(({ name, index, schema }) => segment(name, schema as Schema, (v) => fits(index, v))),
  );
  const query = fc.tuple(
    ...of('query').map(({ name, index, schema }) =>
      queryValue(contract, name, schema as Schema, (v) => fits(index, v)),
    ),
  );
  const oddQuery = rarely(
    15,
    fc.constantFrom<[string, string]>(
      ['unknown', '1'],
      ['__proto__', 'x'],
      ['constructor', 'x'],
      ['limit', '7'],
    ),
  );
  const twice = rarely(15, fc.constant(true));
  const headers = fc.record(Object.fromEntries(of('header').map(({ name }) => [name, headerValue(name)])), {
    requiredKeys: [],
  });
  const body = bodies(contract, template, verb, requestBody?.content ?? {});
  return fc
    .record({ params, query, oddQuery, twice, headers, body, number: fc.nat(1000) })
    .map((made): Plan => {
      const given = made.query.filter((value) => value !== null);
      const asked = given.map(({ name, value }): [string, Value] => [name, value]);
      const declared = new Set(of('query').map(({ name }) => name));
      const odd = made.oddQuery ? [made.oddQuery] : [];
      const repeated = made.twice && asked.length > 0 ? [asked[0]!] : [];
      const mayRepeat = (name: string): boolean =>
        of('query').some(
          (parameter) => parameter.name === name && (parameter.schema as Schema).type === 'array',
        );
      return {
        params: Object.fromEntries(made.params.map(({ name, value }) => [name, value])),
        query: [...asked, ...repeated, ...odd.map(([name, text]): [string, Value] => [name, { text }])],
        headers: made.headers as Record<string, string>,
        body: made.body && { type: made.body.type, text: made.body.text },
        number: made.number,
        about: {
          parametersFit:
            [...made.params, ...given].every((value) => value.fits) &&
            repeated.every(([name]) => mayRepeat(name)) &&
            odd.every(([name]) => declared.has(name) && !given.some((value) => value.name === name)),
          bodyFits: made.body?.fits ?? null,
          bodyMalformed: made.body?.malformed ?? false,
          typeWrong: made.body?.typeWrong ?? false,
          addressBroken: made.params.some(
            ({ value }) => 'text' in value && BROKEN_SEGMENTS.includes(value.text),
          ),
        },
      };
    });
}

/** Parameters arrive as text; a number, a flag or a list follows from the text. */
function readAs({ type }: Schema, text: string): unknown {
  const types = [type ?? []].flat();
  const isNumber = types.includes('integer') || types.includes('number');
  if (isNumber && /^-?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text)) return Number(text);
  if (types.includes('boolean') && /^(true|false)$/.test(text)) return text === 'true';
  return types.includes('array') ? text.split(',') : text;
}

/** Null, except once in a given number. */
const rarely = <Value>(times: number, value: fc.Arbitrary<Value>): fc.Arbitrary<Value | null> =>
  fc.oneof({ weight: times - 1, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: value });

interface Chosen {
  name: string;
  value: Value;
  fits: boolean;
}

function segment(name: string, schema: Schema, fits: (value: string) => boolean): fc.Arbitrary<Chosen> {
  const known = fc.nat(1000).map((number): Chosen => ({ name, value: { known: number }, fits: true }));
  const texts = fc.oneof(
    fc.constant('00000000-0000-7000-8000-000000000000'),
    fc.string({ unit: 'grapheme', minLength: 1, maxLength: 20 }),
    fc.constantFrom(...HOSTILE_TEXTS).filter((text) => isWellFormed(text) && text.length < 1000),
    fc.stringMatching(new RegExp(schema.pattern ?? '^[a-z]{1,9}$')),
  );
  const encoded = texts
    .filter((text) => text !== '.' && text !== '..')
    .map((text): Chosen => ({ name, value: { text: encodeURIComponent(text) }, fits: fits(text) }));
  const raw = fc
    .constantFrom(...HOSTILE_SEGMENTS)
    .map((text): Chosen => ({ name, value: { text }, fits: false }));
  return fc.oneof(
    { weight: 8, arbitrary: known },
    { weight: 3, arbitrary: encoded },
    { weight: 1, arbitrary: raw },
  );
}

function queryValue(
  contract: Contract,
  name: string,
  schema: Schema,
  fits: (value: string) => boolean,
): fc.Arbitrary<Chosen | null> {
  const texts = fc.oneof(
    { weight: 4, arbitrary: valuesOf(schema, contract.document).map(String) },
    { weight: 1, arbitrary: fc.constantFrom(...HOSTILE_TEXTS) },
  );
  const text = texts
    .filter((value) => isWellFormed(value) && value.length < 2000)
    .map((value): Chosen => ({ name, value: { text: value }, fits: fits(value) }));
  const known = fc.nat(1000).map((number): Chosen => ({ name, value: { known: number }, fits: true }));
  const given = /Id$/.test(name) ? fc.oneof(known, text) : text;
  return rarely(4, given);
}

interface MadeBody {
  type: string;
  text: string;
  fits: boolean | null;
  malformed: boolean;
  typeWrong: boolean;
}

function bodies(
  contract: Contract,
  template: string,
  verb: string,
  content: Record<string, { schema?: unknown; example?: unknown }>,
): fc.Arbitrary<MadeBody | null> {
  const [first] = Object.entries(content);
  if (!first) return fc.constant(null);
  const [type, media] = first;
  const made = (text: string, more: Partial<MadeBody> = {}): MadeBody => ({
    type,
    text,
    fits: null,
    malformed: false,
    typeWrong: false,
    ...more,
  });
  const examples = contract.examplesOf(media);
  if (!/[/+]json$/.test(type)) {
    return files(examples.map(asText)).map((text) => made(text));
  }

  const place = placeIn('paths', template, verb, 'requestBody', 'content', type, 'schema');
  const labelled = (value: unknown): MadeBody => {
    const text = jsonOf(value);
    return made(text, { fits: contract.complaints(place, JSON.parse(text)).length === 0 });
  };
  const generated = valuesOf(media.schema as Schema, contract.document);
  const likely = likelyBodies(generated, examples);
  const spoiled = fc.oneof(likely, generated).chain(spoiledOnce);
  const json = fc.oneof(
    { weight: 5, arbitrary: likely.map(labelled) },
    { weight: 2, arbitrary: generated.map(labelled) },
    { weight: 5, arbitrary: spoiled.map(labelled) },
    { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 4 }).map(labelled) },
  );
  const broken = fc.tuple(likely.map(jsonOf), fc.nat(99), fc.boolean()).map(([text, number, malformed]) => {
    const texts = brokenTexts(text)[malformed ? 'malformed' : 'odd'];
    return made(texts[number % texts.length]!, { malformed });
  });
  const wrongType = fc
    .tuple(json, fc.constantFrom(...WRONG_TYPES))
    .map(([body, wrong]) => ({ ...body, type: wrong, typeWrong: true }));
  return fc.oneof(
    { weight: 12, arbitrary: json },
    { weight: 2, arbitrary: broken },
    { weight: 1, arbitrary: wrongType },
  );
}

/** Examples of the document with some members replaced by generated ones, so that many are accepted. */
function likelyBodies(generated: fc.Arbitrary<unknown>, examples: unknown[]): fc.Arbitrary<unknown> {
  const whole = examples.filter((example) => typeof example === 'object' && example !== null);
  if (whole.length === 0) return generated;
  const overlaid = fc
    .tuple(fc.constantFrom(...whole), generated, fc.array(fc.nat(20), { maxLength: 3 }))
    .map(([example, other, picks]) => {
      const members = Object.entries(other as object);
      const chosen = members.filter((_member, index) =>
        picks.some((pick) => pick % members.length === index),
      );
      return { ...(example as object), ...Object.fromEntries(chosen) };
    });
  return fc.oneof(overlaid, fc.constantFrom(...whole));
}

/** An example that is not text is a form. */
const asText = (example: unknown): string =>
  typeof example === 'string' ? example : new URLSearchParams(example as Record<string, string>).toString();

/** Text files: the example, with lines lost, doubled or changed. */
function files(examples: string[]): fc.Arbitrary<string> {
  const lines = (text: string): string[] => text.split(/(?<=\n)/);
  const base = fc.constantFrom(...(examples.length > 0 ? examples : ['x']));
  const changed = fc
    .tuple(
      base,
      fc.nat(50),
      fc.nat(400),
      fc.constantFrom(...HOSTILE_TEXTS, '', '"', '\t', ';', ',,,', '\n\n'),
    )
    .map(([text, line, column, hostile]) => {
      const all = lines(text);
      const at = line % all.length;
      const one = all[at]!;
      const place = column % (one.length + 1);
      return [
        ...all.slice(0, at),
        one.slice(0, place) + hostile + one.slice(place),
        ...all.slice(at + 1),
      ].join('');
    });
  const doubled = base.map((text) => text + (lines(text).at(-1) ?? ''));
  return fc.oneof(base, changed, doubled, fc.constantFrom('', '\ufeff', '\n', '{}', 'null', '"'));
}
