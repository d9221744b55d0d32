import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { faultInNames } from '../../src/http/json.js';

describe('a name that stands twice in one object', () => {
  it.each([
    ['{"a":1,"a":1}', 'a'],
    ['{"a":1,"b":{"c":[{"d":1,"d":2}]}}', 'd'],
    ['[{"a":1},{"b":1,"b":1}]', 'b'],
    ['{"a":1,"\\u0061":2}', 'a'],
    ['{ "a" : 1 , "a"\n:\t2 }', 'a'],
    ['{"":1,"":2}', ''],
    ['{"a\\"b":1,"a\\"b":2}', 'a"b'],
    ['{"a":{"x":1},"a":{"x":1}}', 'a'],
  ])('is found: %s', (text, name) => {
    expect(faultInNames(text)).toBe(`the name ${JSON.stringify(name)} stands twice in one object`);
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
  ])('is not seen where there is none: %s', (text) => {
    expect(faultInNames(text)).toBeNull();
  });

  it.each(['{"__proto__":1}', '{"a":[{"\\u005f_proto__":{"x":1}}]}'])('is not the only fault: %s', (text) => {
    expect(faultInNames(text)).toMatch(/__proto__/);
  });

  it('is found in no JSON that a value was written as, and in each that has a member doubled', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.string(), (value, name) => {
        const json = JSON.stringify(value);
        expect(faultInNames(json)).toBeNull();
        const quoted = JSON.stringify(name);
        const doubled = `{${quoted}:${json},"another":0,${quoted}:${json}}`;
        expect(faultInNames(doubled)).toMatch(/stands twice|__proto__/);
      }),
      { seed: 20_260_310 },
    );
  });
});
