import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { faultInJson } from '../../src/http/json.js';

describe('a duplicate name in a JSON object', () => {
  it.each([
    ['{"a":1,"a":1}', 'a'],
    ['{"a":1,"b":{"c":[{"d":1,"d":2}]}}', 'd'],
    ['[{"a":1},{"b":1,"b":1}]', 'b'],
    ['{"a":1,"\\u0061":2}', 'a'],
    ['{ "a" : 1 , "a"\n:\t2 }', 'a'],
    ['{"":1,"":2}', ''],
    ['{"a\\"b":1,"a\\"b":2}', 'a"b'],
    ['{"a":{"x":1},"a":{"x":1}}', 'a'],
  ])('a duplicate name in a JSON object is found: %s', (text, name) => {
    expect(faultInJson(text)).toBe(`the name ${JSON.stringify(name)} occurs twice in one object`);
  });

  it.each([
    '{"a":1,"b":1}',
    '{"a":"a","b":["a","a"]}',
    '{"a":{"a":{"a":1}}}',
    '[{"a":1},{"a":1}]',
    '{"a":"b\\":1,\\"a"}',
    '{"a":"\\\\","b":"{\\"b\\":1,\\"b\\":2}"}',
    '"text"',
    '7',
    '[]',
  ])('an object without a duplicate name has no fault: %s', (text) => {
    expect(faultInJson(text)).toBeNull();
  });

  it.each(['{"__proto__":1}', '{"a":[{"\\u005f_proto__":{"x":1}}]}'])(
    'a name that changes an object’s prototype is a fault too: %s',
    (text) => {
      expect(faultInJson(text)).toMatch(/__proto__/);
    },
  );

  it('serialized values have no duplicate name, and every copy with a doubled member has one', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.string(), (value, name) => {
        const json = JSON.stringify(value);
        expect(faultInJson(json)).toBeNull();
        const quoted = JSON.stringify(name);
        const doubled = `{${quoted}:${json},"another":0,${quoted}:${json}}`;
        expect(faultInJson(doubled)).toMatch(/occurs twice|__proto__/);
      }),
      { seed: 20_260_310 },
    );
  });
});

describe('the check of a body before any schema', () => {
  const members = (count: number) => `{${Array.from({ length: count }, (_, at) => `"m${at}":1`).join(',')}}`;
  const items = (count: number) => `[${Array.from({ length: count }, () => '1').join(',')}]`;
  const nested = (depth: number) => `${'{"a":['.repeat(depth / 2)}${']}'.repeat(depth / 2)}`;

  it.each([
    [members(501), 'an object has more than 500 members'],
    [`{"a":[${members(501)}]}`, 'an object has more than 500 members'],
    [`{"readings":${items(10_001)}}`, 'a list has more than 10,000 items'],
    [nested(34), 'the body is nested more than 32 deep'],
    ['{"a\\ud800":1}', 'the name "a\\ud800" has half of a surrogate pair'],
  ])('a body with too many members or items, too deep or with an invalid name is refused', (text, fault) => {
    expect(faultInJson(text)).toBe(fault);
  });

  it.each(['{"a":1', '{"a', '{"a\\', '[1,2', '}]', '{"\\x":1,"\\x":2}', '"', '{:}', ','])(
    'text that is not JSON is left to the parser: %j',
    (text) => {
      expect(faultInJson(text)).toBeNull();
    },
  );

  it.each([members(500), items(10_000), nested(32), '{"a":"\\ud800","\\ud83d\\ude9a":1}'])(
    'a body at the limit is accepted',
    (text) => {
      expect(faultInJson(text)).toBeNull();
    },
  );
});
