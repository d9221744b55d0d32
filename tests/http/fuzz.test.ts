import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contractFrom, type Answer } from '../support/openapi.js';
import { fuzz, judge, refuseLeaks, type Answered, type Asked } from '../support/fuzz/run.js';
import { operationsOf } from '../support/fuzz/requests.js';
import { inDepth } from '../support/thorough.js';

const SEED = 20_260_310;
const REQUESTS = inDepth(1200, 4000);

describe('random requests, valid and not', () => {
  it('every operation answers every caller as the document says', async () => {
    const tallies = await fuzz({ requests: REQUESTS, seed: SEED });
    expect(tallies.flatMap(({ failures }) => failures)).toEqual([]);
    expect(tallies.reduce((sum, { requests }) => sum + requests, 0)).toBe(REQUESTS);
    for (const { operation, requests } of tallies) {
      expect([operation, requests >= REQUESTS / tallies.length - 1]).toEqual([operation, true]);
    }
    // If the service refused every request, this test would find nothing.
    const reading = tallies.filter(({ operation }) => operation.startsWith('GET '));
    const read = reading.filter(({ statuses }) => statuses.has(200));
    expect(read.length).toBeGreaterThanOrEqual(0.9 * reading.length);
    const taken = tallies
      .filter(({ operation }) => !operation.startsWith('GET '))
      .filter(({ statuses }) => statuses.has(200) || statuses.has(201));
    expect(taken.length).toBeGreaterThanOrEqual(5);
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
    expect(Object.keys(Object.prototype)).toEqual([]);
  }, 240_000);
});

/** A document with one operation, in which everything is declared. */
const document = {
  openapi: '3.1.0',
  paths: {
    '/v1/things/{thingId}': {
      post: {
        parameters: [
          { name: 'thingId', in: 'path', required: true, schema: { type: 'string', maxLength: 40 } },
        ],
        requestBody: {
          content: {
            'application/json': {
              schema: { $ref: '#/components/schemas/ThingInput' },
            },
          },
        },
        responses: {
          200: {
            content: {
              'application/json': { schema: { $ref: '#/components/schemas/Thing' } },
              'text/plain': { schema: { type: 'string' } },
            },
          },
          400: {
            content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
          },
        },
      },
    },
  },
  components: {
    schemas: {
      ThingInput: {
        type: 'object',
        properties: { size: { type: 'integer', minimum: 0, maximum: 9 } },
        required: ['size'],
        additionalProperties: false,
        examples: [{ size: 3 }],
      },
      Thing: {
        type: 'object',
        properties: { id: { type: 'string' } },
        required: ['id'],
        additionalProperties: false,
      },
      Problem: {
        type: 'object',
        properties: { status: { type: 'integer' }, code: { type: 'string' }, detail: { type: 'string' } },
        required: ['status', 'code'],
        additionalProperties: false,
      },
    },
  },
};
const contract = contractFrom(JSON.stringify(document));
const [operation] = operationsOf(contract);

const SOUND: Answer = {
  method: 'POST',
  path: '/v1/things/7',
  status: 200,
  type: 'application/json',
  text: '{"id":"7"}',
};
const PROBLEM = {
  status: 400,
  type: 'application/problem+json',
  text: '{"status":400,"code":"no","detail":"x"}',
};

describe('the checker of answers', () => {
  it('the checker of answers accepts a valid answer', () => {
    expect(() => contract.checkAnswer(SOUND)).not.toThrow();
    expect(() => contract.checkAnswer({ ...SOUND, ...PROBLEM })).not.toThrow();
    expect(() => contract.checkAnswer({ ...SOUND, type: 'text/plain', text: 'seven' })).not.toThrow();
  });

  it.each<[string, Partial<Answer>]>([
    ['an undeclared status', { status: 201 }],
    ['an undeclared content type', { type: 'text/html' }],
    ['an undeclared member', { text: '{"id":"7","secret":1}' }],
    ['a missing member', { text: '{}' }],
    ['a member of the wrong type', { text: '{"id":7}' }],
    ['an error that is not a problem', { status: 400, text: '{"id":"7"}' }],
    ['a problem with a different status', { ...PROBLEM, text: '{"status":404,"code":"no"}' }],
    ['a stack trace', { ...PROBLEM, text: '{"status":400,"code":"no","detail":"at run (/srv/app.js:7:1)"}' }],
    ['SQL', { ...PROBLEM, text: '{"status":400,"code":"no","detail":"SELECT * from things"}' }],
  ])('the checker of answers finds %s', (_what, wrong) => {
    expect(() => contract.checkAnswer({ ...SOUND, ...wrong })).toThrow();
  });

  const about = {
    parametersFit: true,
    bodyFits: null,
    bodyMalformed: false,
    typeWrong: false,
    addressBroken: false,
  };
  const judged = (caller: Asked['caller'], facts: object, answer: Partial<Answered>): void => {
    const plan = {
      params: {},
      query: [],
      headers: {},
      body: null,
      number: 0,
      about: { ...about, ...facts },
    };
    const asked = {
      caller,
      method: 'POST',
      template: '',
      target: '/v1/things/7',
      headers: {},
      body: null,
      plan,
    };
    const headers = { 'x-content-type-options': 'nosniff', 'www-authenticate': 'Bearer', ...answer.headers };
    judge(asked, { ...SOUND, ...answer, headers }, operation!);
  };
  const problem = { ...PROBLEM, text: '{"status":400,"code":"no","errors":[{"pointer":"#/size"}]}' };

  it('the checker of answers accepts correct answers to random requests', () => {
    expect(() => judged('owner', { bodyFits: true }, {})).not.toThrow();
    expect(() => judged('no key', {}, { ...PROBLEM, status: 401 })).not.toThrow();
    expect(() => judged('owner', { bodyFits: false }, PROBLEM)).not.toThrow();
  });

  it.each<[string, Asked['caller'], object, Partial<Answered>]>([
    ['a fault', 'owner', {}, { ...PROBLEM, status: 500 }],
    ['a call that succeeded without a key', 'no key', {}, {}],
    ['a revoked key that was accepted', 'revoked key', {}, {}],
    ['a bad body that was accepted', 'owner', { bodyFits: false }, {}],
    ['a bad parameter that was accepted', 'owner', { parametersFit: false }, {}],
    ['a good body that was refused as a bad request', 'owner', { bodyFits: true }, problem],
    ['broken JSON that was accepted', 'owner', { bodyMalformed: true }, {}],
    ['a wrong content type that was accepted', 'owner', { typeWrong: true }, {}],
    ['an empty answer', 'owner', {}, { text: '' }],
    ['a missing header', 'owner', {}, { headers: { 'x-content-type-options': undefined } as never }],
    ['another origin let in', 'owner', {}, { headers: { 'access-control-allow-origin': '*' } }],
  ])('the checker of answers finds %s', (_what, caller, facts, answer) => {
    expect(() => judged(caller, facts, answer)).toThrow();
  });

  it('the checker finds data of another fleet, in JSON and in text', () => {
    const hidden = { ids: ['0197a2f0-6c1e'], names: new Set(['SQX 90871']) };
    const answered = (type: string, text: string) => () => refuseLeaks({ ...SOUND, type, text }, hidden);
    expect(answered('application/json', '{"items":[{"registration":"NQX 1","id":"0197"}]}')).not.toThrow();
    expect(answered('application/json', '{"items":[{"registration":"SQX 90871"}]}')).toThrow();
    expect(answered('application/json', '{"detail":"see 0197a2f0-6c1e"}')).toThrow();
    expect(answered('text/csv', 'vehicleId,registration\r\n1,SQX 90871\r\n')).toThrow();
    expect(answered('text/calendar', 'UID:0197a2f0-6c1e-front')).toThrow();
  });
});

describe('the sender of random requests', () => {
  it('the same seed gives the same requests', () => {
    const sample = () => fc.sample(operation!.plans, { numRuns: 50, seed: SEED });
    expect(sample()).toEqual(sample());
  });

  it('the sender of random requests makes bodies of every kind, and says which the schema accepts', () => {
    const plans = fc.sample(operation!.plans, { numRuns: 400, seed: SEED });
    const count = (test: (about: (typeof plans)[number]['about']) => boolean) =>
      plans.filter((plan) => test(plan.about)).length;
    expect(count(({ bodyFits }) => bodyFits === true)).toBeGreaterThan(100);
    expect(count(({ bodyFits }) => bodyFits === false)).toBeGreaterThan(80);
    expect(count(({ bodyMalformed }) => bodyMalformed)).toBeGreaterThan(5);
    expect(count(({ typeWrong }) => typeWrong)).toBeGreaterThan(5);
    expect(count(({ parametersFit }) => !parametersFit)).toBeGreaterThan(20);
    for (const { body, about } of plans) {
      if (about.bodyFits === null || about.typeWrong) continue;
      const fits = /^\{"size":(-0|[0-9])\}$/.test(body!.text);
      expect([body!.text, about.bodyFits]).toEqual([body!.text, fits]);
    }
  });
});
