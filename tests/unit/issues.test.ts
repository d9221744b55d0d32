import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { schemaIssues } from '../../src/core/vocabulary/issues.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';

const detailsOf = (schema: z.ZodType, sent: unknown): string[] =>
  schemaIssues(schema.safeParse(sent).error?.issues ?? []).map(({ detail }) => detail);

const kinds = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('disc') }),
  z.strictObject({ kind: z.enum(['drum', 'none']) }),
]);

describe('the words of a schema’s errors', () => {
  it.each<[string, z.ZodType, unknown, string]>([
    ['a text for a number', z.number(), '7', 'must be a number, but is text'],
    ['null for a text', z.string(), null, 'must be text, but is null'],
    ['a list for an object', z.strictObject({}), [], 'must be an object, but is a list'],
    ['an object for a list', z.array(z.string()), {}, 'must be a list, but is an object'],
    ['a number for true or false', z.boolean(), 0, 'must be true or false, but is a number'],
    ['true for a number', z.number(), true, 'must be a number, but is true'],
    ['a number that JSON cannot hold', z.number(), Infinity, 'must be a number, but is too large a number'],
    ['a fraction for a whole number', z.int(), 1.5, 'must be a whole number'],
    ['a missing text', z.string(), undefined, 'is missing'],
    ['a missing term', z.enum(['left', 'right']), undefined, 'is missing; it must be one of left, right'],
    ['an unknown term', z.enum(['left', 'right']), 'up', 'must be one of left, right'],
    ['a number for a term', z.enum(['left', 'right']), 1, 'must be one of left, right, but is a number'],
    ['another constant', z.literal('disc'), 'drum', 'must be disc'],
    ['an unknown kind', kinds, { kind: 'belt' }, 'must be one of disc, drum, none'],
    ['a missing kind', kinds, {}, 'is missing; it must be one of disc, drum, none'],
    ['no form of several', z.union([z.number(), z.boolean()]), 'x', 'must be a number, but is text'],
    ['an empty text', z.string().min(1), '', 'must not be empty'],
    ['too short a text', z.string().min(2), 'x', 'must have at least 2 characters'],
    ['too long a text', z.string().max(1000), 'x'.repeat(1001), 'must have at most 1,000 characters'],
    ['an empty list', z.array(z.number()).min(1), [], 'must not be empty'],
    ['too long a list', z.array(z.number()).max(1), [1, 2], 'must have at most 1 item'],
    ['a list of another length', z.array(z.number()).length(3), [1], 'must have exactly 3 items'],
    ['too small a number', z.number().min(0.5), 0, 'must be at least 0.5'],
    ['zero for a positive number', z.number().positive(), 0, 'must be more than 0'],
    ['too large a number', z.number().max(20_000), 20_001, 'must be at most 20,000'],
    ['the end of an open range', z.number().lt(1), 1, 'must be less than 1'],
    ['a number between the steps', z.number().multipleOf(0.5), 0.7, 'must be a multiple of 0.5'],
    ['a date in another order', z.iso.date(), '02.03.2026', 'must be a date, written YYYY-MM-DD'],
    ['no instant', z.iso.datetime(), 'noon', 'must be an instant, written like 2026-03-02T08:10:00Z'],
    ['no address', z.url(), 'here', 'must be a web address'],
    ['another pattern', z.string().regex(/^a$/), 'b', 'is not written in the accepted form'],
    ['an unknown field', z.strictObject({}), { colour: 'red' }, 'unknown field'],
    [
      'a bad name',
      z.record(z.string().min(2), z.number()),
      { a: 1 },
      'this name must have at least 2 characters',
    ],
    ['a rule without words', z.string().refine(() => false), 'x', 'is not valid'],
    ['a rule with its own words', z.number({ error: 'must be the odometer' }), 'x', 'must be the odometer'],
  ])('the words are plain for %s', (_, schema, sent, detail) => {
    expect(detailsOf(schema, sent)).toEqual([detail]);
  });

  it('an unknown axle names the known ones', () => {
    expect(detailsOf(VehicleBody, { externalId: 'A', axles: { front: {}, middle: {} } })).toEqual([
      expect.stringMatching(/^unknown name; it must be one of front, rear, axle-1, /),
    ]);
  });

  it('an error groups the thousands of a bound, and calls a missing date missing', () => {
    const odometer = { value: 6_000_000, unit: 'km' };
    expect(detailsOf(VisitBody, { date: '2026-03-02', odometer })).toEqual([
      'must be from 0 to 5,000,000 km',
    ]);
    expect(detailsOf(VisitBody, { odometer: null })).toEqual(['is missing']);
  });
});
