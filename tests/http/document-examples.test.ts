import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { placeIn, type Operation } from '../support/openapi.js';
import { startService, type Method, type Service } from '../support/service.js';

/** Sends the examples of the document and expects the service to accept them. */

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

interface Example {
  path: string;
  method: Method;
  operation: Operation;
  type: string;
  body: unknown;
}

function requestExamples({ contract: { document } }: Service): Example[] {
  return Object.entries(document.paths).flatMap(([path, operations]) =>
    Object.entries(operations).flatMap(([method, operation]) =>
      Object.entries(operation.requestBody?.content ?? {}).flatMap(([type, media]) =>
        bodiesOf(media).map((body) => ({ path, method: method as Method, operation, type, body })),
      ),
    ),
  );

  function bodiesOf({ example, examples, schema }: NonNullable<Operation['requestBody']>['content'][string]) {
    const name = /#\/components\/schemas\/(.+)$/.exec((schema as { $ref?: string }).$ref ?? '')?.[1];
    const referred = name === undefined ? schema : document.components.schemas[name];
    const own = [example, ...Object.values(examples ?? {}).map(({ value }) => value)];
    return [...own, ...((referred as { examples?: unknown[] }).examples ?? [])].filter(
      (body) => body !== undefined,
    );
  }
}

/** The ids to put into a path, on a service that has the example vehicles and visit. */
async function setUp(fresh: Service, examples: readonly Example[]): Promise<Record<string, string>> {
  const bodyOf = (id: string) =>
    examples.find(({ operation }) => operation.operationId === id)!.body as object;
  const record = async (path: string, body: object): Promise<string> => {
    const recorded = await fresh.as('owner', 'post', path).send(body).expect(201);
    return recorded.body.id as string;
  };
  const vehicle = bodyOf('recordVehicle');
  const vehicleId = await record('/v1/vehicles', vehicle);
  const other = await record('/v1/vehicles', { ...vehicle, externalId: 'FD-1008', registration: null });
  const visit = bodyOf('recordVisit');
  const visitId = await record(`/v1/vehicles/${vehicleId}/visits`, {
    ...visit,
    workOrder: null,
    roadTest: null,
  });
  const endpointId = await record('/v1/webhook-endpoints', bodyOf('addWebhookEndpoint'));
  const queued = await fresh.as('owner', 'post', `/v1/webhook-endpoints/${endpointId}/test`).expect(202);
  const deliveryId = queued.body.id as string;
  return { vehicleId, visitId, other, endpointId, deliveryId, importId: 'none', name: 'depot-gauge-1' };
}

const addressOf = (path: string, ids: Record<string, string>): string =>
  path.replace(/\{(\w+)\}/g, (_, name: string) => ids[name]!);

describe('the examples of the document', () => {
  it('every body has an example, except bodies that callers cannot send', () => {
    const without = Object.entries(service.contract.document.paths).flatMap(([path, operations]) =>
      Object.entries(operations)
        .filter(([, { requestBody }]) => requestBody)
        .map(([method]) => `${method} ${path}`),
    );
    const shown = requestExamples(service).map(({ method, path }) => `${method} ${path}`);
    expect(new Set(shown)).toEqual(new Set(without));
  });

  it('a fresh service accepts every example of a body', async () => {
    const refused: string[] = [];
    for (const { path, method, operation, type, body } of requestExamples(service)) {
      const fresh = await startService();
      try {
        const examples = requestExamples(fresh);
        // On an empty service, each record is the first of its kind.
        const ids = /^\/v1\/(vehicles|imports\/vehicles)$/.test(path) ? {} : await setUp(fresh, examples);
        const sent =
          operation.operationId === 'mergeVehicles' ? { ...(body as object), from: ids.other } : body;
        const needsMatch = operation.parameters?.some(
          ({ name, required }) => name === 'If-Match' && required,
        );
        const response = await fresh
          .as('owner', method, addressOf(path, ids))
          .set(needsMatch ? { 'If-Match': '*' } : {})
          .set('Content-Type', type)
          .send(typeof sent === 'string' ? sent : JSON.stringify(sent));
        if (response.status >= 300)
          refused.push(`${operation.operationId}: ${response.status} ${response.text}`);
      } finally {
        await fresh.close();
      }
    }
    expect(refused).toEqual([]);
  }, 120_000);

  it('a fresh service accepts the examples of parameters, all at once', async () => {
    const ids = await setUp(service, requestExamples(service));
    const refused: string[] = [];
    for (const [path, { get }] of Object.entries(service.contract.document.paths)) {
      if (!get || !path.startsWith('/v1/') || path.includes('{importId}')) continue;
      const query = (get.parameters ?? []).flatMap(
        ({ name, in: place, schema, example }): [string, string][] => {
          const shown = example ?? (schema as { example?: unknown })?.example;
          return place === 'query' && shown !== undefined ? [[name, String(shown)]] : [];
        },
      );
      const address = addressOf(path, { ...ids, name: 'depth-gauge' });
      const response = await service.as('owner', 'get', `${address}?${new URLSearchParams(query)}`);
      if (response.status !== 200) refused.push(`${path}: ${response.status} ${response.text}`);
    }
    expect(refused).toEqual([]);
  });

  it('examples of parameters match their declared types', () => {
    const wrong = Object.entries(service.contract.document.paths).flatMap(([path, operations]) =>
      Object.entries(operations).flatMap(([method, { parameters = [] }]) =>
        parameters.flatMap(({ name, example, schema }, index) => {
          const shown = example ?? (schema as { example?: unknown })?.example;
          if (shown === undefined) return [];
          const place = placeIn('paths', path, method, 'parameters', String(index), 'schema');
          return service.contract.complaints(place, shown).map((text) => `${path} ${name}: ${text}`);
        }),
      ),
    );
    expect(wrong).toEqual([]);
  });
});
