import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fourPads, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { textOf, type Operation } from '../support/openapi.js';
import { correct, recordHistory, recordVisit, setVoided, type Recorded } from '../support/recording.js';
import { FLEET, startService, type Method, type Service } from '../support/service.js';

/**
 * Checks every operation of the served document, object by object and member by member: to a fleet manager another
 * fleet's data do not exist, and no caller sets what only the service sets.
 */

let service: Service;
interface Things {
  vehicleId: string;
  visitId: string;
  voidedId: string;
  /** A record that was merged into the vehicle. */
  mergedId: string;
  names: string[];
}
let own: Things;
let others: Things[];

beforeAll(async () => {
  service = await startService();
  own = await record(FLEET, 'NQX 70011');
  others = [await record('south-depot', 'SQX 70012'), await record(null, 'OQX 70013')];
});
afterAll(() => service.close());

async function record(fleet: string | null, registration: string): Promise<Things> {
  const externalId = `unit-${registration}`;
  const vehicle = await recordHistory(service, vehicleBody({ fleet, registration, externalId, vin: null }), [
    visitBody('2025-09-01', 50_000, fourPads([6, 6, 6, 6])),
    visitBody('2026-03-02', 61_240, fourPads([2, 2, 2, 2])),
  ]);
  const visit = await recordVisit(service, vehicle.id, { date: '2026-03-05', notes: `seen ${registration}` });
  await correct(service, visit.id, { reason: 'typed wrong', changes: { complaint: 'squeals' } });
  const voided = await recordVisit(service, vehicle.id, { date: '2026-03-06' });
  await setVoided(service, voided.id, true);
  const old = await recordHistory(service, vehicleBody({ fleet, registration: `${registration} old` }), []);
  const merge = await service
    .as('owner', 'post', `/v1/vehicles/${vehicle.id}/merge`)
    .set('If-Match', '*')
    .send({ from: old.id, reason: 'recorded twice' });
  expect(merge.status).toBe(200);
  return {
    vehicleId: vehicle.id,
    visitId: visit.id,
    voidedId: voided.id,
    mergedId: old.id,
    names: [registration, externalId, `${registration} old`],
  };
}

const NOBODY = '00000000-0000-7000-8000-000000000000';

interface Known {
  method: Method;
  path: string;
  operation: Operation;
}
const operations = (): Known[] =>
  Object.entries(service.contract.document.paths)
    .filter(([path]) => path.startsWith('/v1/'))
    .flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, operation]) => ({ method: method as Method, path, operation })),
    );

/** The parameters that name one vehicle or visit. */
const objectParameters = ({ operation }: Known) =>
  (operation.parameters ?? []).filter(({ name }) => name === 'vehicleId' || name === 'visitId');

function addressOf({ path, operation }: Known, id: string): string {
  const address = path.replace(/\{(vehicleId|visitId)\}/g, id);
  const query = (operation.parameters ?? []).filter(
    ({ in: place, name, required }) => place === 'query' && (name === 'vehicleId' || required),
  );
  const given = query.map(({ name, example, schema }) => {
    const { enum: choices } = schema as { enum?: string[] };
    return `${name}=${name === 'vehicleId' ? id : encodeURIComponent(String(example ?? choices?.[0] ?? 'front'))}`;
  });
  return given.length > 0 ? `${address}?${given.join('&')}` : address;
}

describe('an operation on one vehicle or visit', () => {
  const reading = () =>
    operations().filter((known) => known.method === 'get' && objectParameters(known).length > 0);

  it('a fleet manager of another fleet gets the answer for a missing vehicle or visit, down to the last header', async () => {
    expect(reading().length).toBeGreaterThanOrEqual(8);
    for (const known of reading()) {
      const { name } = objectParameters(known)[0]!;
      const answerFor = async (id: string) => {
        const response = await service.as('fleet-manager', 'get', addressOf(known, id));
        const { date: _date, 'request-id': requestId, ...headers } = response.headers;
        return { status: response.status, headers, text: textOf(response).replaceAll(requestId!, '') };
      };
      const none = await answerFor(NOBODY);
      expect([known.path, none.status]).toEqual([known.path, 404]);
      for (const theirs of others) {
        const ids =
          name === 'vehicleId' ? [theirs.vehicleId, theirs.mergedId] : [theirs.visitId, theirs.voidedId];
        for (const id of ids) expect([known.path, await answerFor(id)]).toEqual([known.path, none]);
      }
      const mine = name === 'vehicleId' ? own.vehicleId : own.visitId;
      expect([known.path, (await answerFor(mine)).status]).toEqual([known.path, 200]);
    }
  });

  it('a fleet manager may write to no vehicle or visit, in their own fleet or not', async () => {
    const writing = operations().filter(
      (known) => known.method !== 'get' && objectParameters(known).length > 0,
    );
    expect(writing.length).toBeGreaterThanOrEqual(5);
    for (const known of writing) {
      for (const id of [own.vehicleId, others[0]!.vehicleId, NOBODY]) {
        const { status, body } = await service
          .as('fleet-manager', known.method, addressOf(known, id))
          .send('{}');
        expect([known.path, status, body.code]).toEqual([known.path, 403, 'role-not-allowed']);
      }
    }
  });
});

describe('a list, a report or a total', () => {
  it('a list or report holds nothing of another fleet, in any of its formats', async () => {
    const found: string[] = [];
    const lists = operations().filter((known) => known.method === 'get' && !known.path.includes('{'));
    for (const known of lists) {
      const { schema } = (known.operation.parameters ?? []).find(({ name }) => name === 'format') ?? {};
      const formats = (schema as { enum?: string[] } | undefined)?.enum ?? [null];
      for (const format of formats) {
        for (const query of ['', ...filtersOf(known)]) {
          const asked = [format === null ? '' : `format=${format}`, query].filter(Boolean).join('&');
          const response = await service.as('fleet-manager', 'get', `${known.path}?${asked}`);
          if (response.status === 200 && textOf(response).includes(own.vehicleId)) found.push(known.path);
          for (const theirs of others) {
            for (const secret of [theirs.vehicleId, theirs.visitId, theirs.mergedId, ...theirs.names]) {
              expect([known.path, asked, textOf(response).includes(secret)]).toEqual([
                known.path,
                asked,
                false,
              ]);
            }
          }
        }
      }
    }
    // The answers are not simply empty.
    expect(new Set(found).size).toBeGreaterThanOrEqual(2);
  });

  /** Filters that try to reach another fleet's vehicles. */
  const filtersOf = ({ operation }: Known): string[] => {
    const names = new Set((operation.parameters ?? []).map(({ name }) => name));
    const wanted: Record<string, string> = {
      fleet: 'south-depot',
      registration: 'SQX 70012',
      externalId: 'unit-SQX 70012',
      withinDays: '10000',
      limit: '200',
      includeOutOfService: 'true',
    };
    return Object.entries(wanted)
      .filter(([name]) => names.has(name))
      .map(([name, value]) => `${name}=${encodeURIComponent(value)}`);
  };

  it('a fleet manager’s total equals the owner’s total for that fleet', async () => {
    const reports = operations().filter(
      ({ method, operation }) =>
        method === 'get' && (operation.parameters ?? []).some(({ name }) => name === 'fleet'),
    );
    expect(reports.length).toBeGreaterThanOrEqual(4);
    for (const { path } of reports) {
      const mine = await service.as('fleet-manager', 'get', path);
      const asked = await service.as('owner', 'get', `${path}?fleet=${FLEET}`);
      // A cursor is bound to its query; everything else must be equal.
      const withoutCursor = (body: Body) => ({ ...body, nextCursor: undefined });
      expect([path, withoutCursor(mine.body)]).toEqual([path, withoutCursor(asked.body)]);
    }
  });
});

describe('members that only the service sets', () => {
  const SET_BY_THE_SERVICE = [
    'id',
    'version',
    'createdAt',
    'updatedAt',
    'updatedBy',
    'by',
    'role',
    'fleets',
    'mergedInto',
    'erasedAt',
    'voided',
    'warnings',
    'vehicleId',
  ];

  it('every body refuses members that only the service sets, as unknown fields', async () => {
    const writing = operations().filter(
      ({ operation }) => operation.requestBody?.content['application/json'],
    );
    expect(writing.length).toBeGreaterThanOrEqual(7);
    const before = await service.rowCounts();
    for (const known of writing) {
      const [example] = service.contract.examplesOf(
        known.operation.requestBody!.content['application/json']!,
      );
      const address = addressOf(known, known.path.includes('visitId') ? own.visitId : own.vehicleId);
      for (const name of SET_BY_THE_SERVICE) {
        const { status, body } = await service
          .as('owner', known.method, address.replace('{name}', 'depth-gauge-2'))
          .set('If-Match', '*')
          .send({ ...(example as Body), [name]: 'x' });
        const pointers = (body.errors as { pointer: string }[] | undefined)?.map(({ pointer }) => pointer);
        expect([known.path, name, status, pointers]).toEqual([known.path, name, 422, [`#/${name}`]]);
      }
    }
    expect(await service.rowCounts()).toEqual(before);
  });

  it('no merge patch changes members that only the service sets', async () => {
    const path = `/v1/vehicles/${own.vehicleId}`;
    const before = (await service.as('owner', 'get', path)).body as Recorded;
    for (const name of SET_BY_THE_SERVICE) {
      const { status } = await service
        .as('owner', 'patch', path)
        .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
        .send(JSON.stringify({ [name]: 'x' }));
      expect([name, status]).toEqual([name, 422]);
      const { status: corrected } = await correct(service, own.visitId, {
        reason: 'x',
        changes: { [name]: 'x' },
      });
      expect([name, corrected]).toEqual([name, 422]);
    }
    expect((await service.as('owner', 'get', path)).body).toEqual(before);
  });
});
