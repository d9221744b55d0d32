import { compileErrors, validate } from '@readme/openapi-parser';
import spectral from '@stoplight/spectral-core';
import { oas } from '@stoplight/spectral-rulesets';
import { createConfig, lintFromString } from '@redocly/openapi-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { placeIn, type MediaType, type OpenApiDocument } from '../support/openapi.js';
import { startService, type Service } from '../support/service.js';

let service: Service;
let document: OpenApiDocument;

beforeAll(async () => {
  service = await startService();
  document = service.contract.document;
});
afterAll(() => service.close());

const operations = () =>
  Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
  );

/** The media types of an operation, with the place of their schemas and their own examples. */
function mediaTypes(): { place: string; schema: unknown; examples: unknown[] }[] {
  return operations().flatMap(({ path, method, operation }) => {
    const from = (content: Record<string, MediaType> | undefined, ...at: string[]) =>
      Object.entries(content ?? {}).map(([type, media]) => ({
        place: placeIn('paths', path, method, ...at, 'content', type, 'schema'),
        schema: media.schema,
        examples: service.contract.examplesOf(media),
      }));
    return [
      ...from(operation.requestBody?.content, 'requestBody'),
      ...Object.entries(operation.responses).flatMap(([status, { content }]) =>
        from(content, 'responses', status),
      ),
    ];
  });
}

describe('the OpenAPI document', () => {
  it('the OpenAPI document is a valid OpenAPI 3.1 document', async () => {
    expect(document.openapi).toMatch(/^3\.1\./);
    const result = await validate(structuredClone(document) as never);
    expect(result.valid ? '' : compileErrors(result)).toBe('');
    expect(result.warnings).toEqual([]);
  });

  it('the OpenAPI document passes the strict set of a public linter', async () => {
    const config = await createConfig({
      extends: ['recommended-strict'],
      rules: {
        // Not in the set: it leaves these to the author.
        'operation-description': 'error',
        'operation-tag-defined': 'error',
        'parameter-description': 'error',
        'no-http-verbs-in-paths': 'error',
        'path-params-defined': 'error',
      },
    });
    const problems = await lintFromString({ source: JSON.stringify(document), config });
    const lines = problems.map(
      ({ ruleId, message, location: [at] }) => `${ruleId} ${at?.pointer}: ${message}`,
    );
    expect(lines).toEqual([]);
  });

  it('the OpenAPI document passes the recommended set of a second public linter', async () => {
    const linter = new spectral.Spectral();
    linter.setRuleset({ extends: [[oas, 'recommended']] } as never);
    const problems = await linter.run(structuredClone(document) as never);
    expect(problems.map(({ code, message, path }) => `${code} ${path.join('/')}: ${message}`)).toEqual([]);
  }, 60_000);

  it('every operation is named by one of the allowed verbs and a noun', () => {
    const VERBS =
      /^(get|list|record|add|correct|change|merge|set|import|export|remove|revoke|rotate|test|replay)[A-Z][A-Za-z]+$/;
    const odd = operations()
      .map(({ operation }) => operation.operationId!)
      .filter((id) => !VERBS.test(id));
    expect(odd).toEqual([]);
    const lists = operations().filter(({ operation }) =>
      operation.parameters?.some(({ name }) => name === 'cursor'),
    );
    expect(
      lists
        .map(({ operation }) => operation.operationId)
        .filter((id) => !/^list|^getForecastAccuracy$/.test(id!)),
    ).toEqual([]);
  });

  it('the OpenAPI document has the operations that the contract promises', () => {
    const known = operations().map(({ method, path }) => `${method.toUpperCase()} ${path}`);
    const promised = [
      'POST /v1/vehicles',
      'GET /v1/vehicles',
      'GET /v1/vehicles/{vehicleId}',
      'PATCH /v1/vehicles/{vehicleId}',
      'POST /v1/vehicles/{vehicleId}/visits',
      'GET /v1/vehicles/{vehicleId}/visits',
      'GET /v1/visits/{visitId}',
      'POST /v1/visits/{visitId}/entries',
      'POST /v1/visits/{visitId}/corrections',
      'GET /v1/visits/{visitId}/history',
      'GET /v1/vehicles/{vehicleId}/history',
      'POST /v1/vehicles/{vehicleId}/merge',
      'GET /v1/audit',
      'GET /v1/vehicles/{vehicleId}/wear',
      'GET /v1/reports/due-soon',
      'GET /v1/reports/unassessed',
      'GET /v1/reports/measure-first',
      'GET /v1/reports/stops',
      'POST /v1/calendar-subscriptions',
      'GET /v1/calendar-subscriptions',
      'DELETE /v1/calendar-subscriptions/{subscriptionId}',
      'GET /calendars/{token}.ics',
      'GET /v1/reports/parts-demand',
      'GET /v1/vehicles/{vehicleId}/replacement-plan',
      'GET /v1/gauges',
      'GET /v1/limits',
      'GET /health/live',
      'GET /health/ready',
    ];
    expect(known).toEqual(expect.arrayContaining(promised));
  });

  it('every operation has its own id, a summary, a description and a tag', () => {
    const ids = operations().map(({ operation }) => operation.operationId);
    expect(new Set(ids).size).toBe(ids.length);
    const bare = operations().filter(
      ({ operation }) =>
        !operation.operationId || !operation.summary || !operation.description || !operation.tags?.length,
    );
    expect(bare.map(({ method, path }) => `${method} ${path}`)).toEqual([]);
  });

  it('every answer has a description, and every error is a Problem', () => {
    const wrong = operations().flatMap(({ method, path, operation }) =>
      Object.entries(operation.responses).flatMap(([status, response]) => {
        const name = `${method} ${path} ${status}`;
        if (!response.description) return [`${name}: no description`];
        if (Number(status) < 400) return [];
        const isProblem =
          JSON.stringify(response.content) ===
          JSON.stringify({
            'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } },
          });
        return isProblem ? [] : [`${name}: not a Problem`];
      }),
    );
    expect(wrong).toEqual([]);
  });

  it('every operation under /v1 declares the answers to a missing key, a wrong role and too many requests', () => {
    const lacking = operations()
      .filter(({ path }) => path.startsWith('/v1/'))
      .flatMap(({ method, path, operation }) =>
        ['401', '403', '429', '503']
          .filter((status) => !operation.responses[status])
          .map((status) => `${method} ${path} ${status}`),
      );
    expect(lacking).toEqual([]);
  });

  it('every operation under /v1 asks for a key, and no other does', () => {
    for (const { path, operation } of operations()) {
      if (path.startsWith('/v1/')) expect(operation.security).toBeUndefined();
      else expect(operation.security).toEqual([]);
    }
  });

  it('every operation has at least one example', () => {
    const without = operations().filter(({ operation }) => {
      const { requestBody, responses, parameters = [] } = operation;
      const contents = [requestBody?.content, ...Object.values(responses).map(({ content }) => content)];
      const given = contents.flatMap((content) =>
        Object.values(content ?? {}).flatMap((media) => service.contract.examplesOf(media)),
      );
      return given.length === 0 && !JSON.stringify(parameters).includes('"example');
    });
    expect(without.map(({ method, path }) => `${method} ${path}`)).toEqual([]);
  });

  it('every example matches its schema', () => {
    const wrong = mediaTypes().flatMap(({ place, examples }) =>
      examples.flatMap((example) =>
        service.contract.complaints(place, example).map((text) => `${place}: ${text}`),
      ),
    );
    expect(wrong).toEqual([]);
  });

  it('no object is left open, so an undeclared member of an answer is detected', () => {
    // A merge patch may contain any member; the merged result is validated as a whole.
    const components = Object.entries(document.components.schemas).filter(([name]) => !name.endsWith('Body'));
    const answers = operations().map(({ method, path, operation }): [string, unknown] => [
      `${method} ${path}`,
      Object.values(operation.responses).map(({ content = {} }) =>
        Object.values(content).map(({ schema }) => schema),
      ),
    ]);
    expect([...components, ...answers].flatMap(([name, schema]) => openObjects(schema, name))).toEqual([]);
  });

  it('every text, list and map in a body, a path or a query has a maximum size', () => {
    const unbounded = operations().flatMap(({ method, path, operation }) => {
      const parameters = (operation.parameters ?? []).filter(({ in: place }) => place !== 'header');
      const bodies = Object.entries(operation.requestBody?.content ?? {}).filter(([type]) =>
        /[/+]json$/.test(type),
      );
      return [...parameters, ...bodies.map(([, media]) => media)].flatMap(({ schema }) =>
        unboundedIn(schema as Bounded, `${method} ${path}`),
      );
    });
    expect([...new Set(unbounded)]).toEqual([]);
  });
});

interface Bounded {
  $ref?: string;
  type?: string | string[];
  anyOf?: Bounded[];
  oneOf?: Bounded[];
  properties?: Record<string, Bounded>;
  additionalProperties?: boolean | Bounded;
  propertyNames?: Bounded;
  items?: Bounded;
  [bound: string]: unknown;
}

/** Places where a schema sets no maximum. Merge patches are limited by the body they produce and by the body size. */
function unboundedIn(schema: Bounded, at: string): string[] {
  const inside = (other: Bounded | undefined, step: string) =>
    other ? unboundedIn(other, `${at}/${step}`) : [];
  if (schema.$ref) {
    const name = schema.$ref.split('/').at(-1)!;
    return unboundedIn(document.components.schemas[name] as Bounded, name);
  }
  const has = (...bounds: string[]) => bounds.some((bound) => schema[bound] !== undefined);
  const types = [schema.type ?? []].flat();
  const { additionalProperties: further } = schema;
  const isMap = typeof further === 'object' && Object.keys(further).length > 0;
  return [
    ...(types.includes('string') && !has('maxLength', 'enum', 'const', 'pattern', 'format')
      ? [`${at}: text`]
      : []),
    ...(types.includes('array') && !has('maxItems') ? [`${at}: list`] : []),
    ...(isMap && !has('maxProperties') && !schema.propertyNames?.enum ? [`${at}: map`] : []),
    ...[...(schema.anyOf ?? []), ...(schema.oneOf ?? [])].flatMap((choice) => unboundedIn(choice, at)),
    ...Object.entries(schema.properties ?? {}).flatMap(([name, member]) => inside(member, name)),
    ...inside(schema.items, 'items'),
    ...(isMap ? [...inside(further, '*'), ...inside(schema.propertyNames, 'names')] : []),
  ];
}

function openObjects(schema: unknown, name: string): string[] {
  if (typeof schema !== 'object' || schema === null) return [];
  const inner = Object.entries(schema).flatMap(([key, value]) => openObjects(value, `${name}/${key}`));
  const object = schema as { type?: unknown; additionalProperties?: unknown };
  const { additionalProperties: further } = object;
  const isOpen = further === undefined || further === true || (further && Object.keys(further).length === 0);
  return object.type === 'object' && isOpen ? [name, ...inner] : inner;
}
