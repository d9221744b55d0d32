import assert from 'node:assert/strict';
import { Agent, request, type IncomingHttpHeaders } from 'node:http';
import type { AddressInfo } from 'node:net';
import fc from 'fast-check';
import { fourPads, vehicleBody, visitBody, type Body } from '../bodies.js';
import type { Answer } from '../openapi.js';
import { correct, recordHistory, recordVisit, setVoided, type Recorded } from '../recording.js';
import { FLEET, startService, type Service } from '../service.js';
import { createEndpoint } from '../webhooks.js';
import { operationsOf, type FuzzedOperation, type Plan, type Value } from './requests.js';

/**
 * Calls every operation of the served document repeatedly, as every kind of caller, and checks every answer. Request
 * number i depends on the seed and i alone; only the ids of records differ between runs.
 */

/** The callers, in turn; roles with the most operations come more often. */
const CALLERS = [
  'owner',
  'no key',
  'front-desk',
  'fleet-manager',
  'owner',
  'bad key',
  'technician',
  'owner',
  'fleet-manager',
  'revoked key',
  'technician',
  'owner',
] as const;
type Caller = (typeof CALLERS)[number];
const UNKNOWN_CALLERS: readonly Caller[] = ['no key', 'bad key', 'revoked key'];

export interface Asked {
  caller: Caller;
  method: string;
  template: string;
  /** The path as sent, with the query. */
  target: string;
  headers: Record<string, string>;
  body: string | null;
  plan: Plan;
}
export interface Answered extends Answer {
  headers: IncomingHttpHeaders;
}

export interface Failure {
  number: number;
  what: string;
  asked: string;
}
export interface Tally {
  operation: string;
  requests: number;
  statuses: Map<number, number>;
  failures: Failure[];
  /** Refusals of bodies that match the schema, in words, and how often each occurred. */
  beyondSchema: Map<string, number>;
}

/**
 * @param onAnswer called after each answer, to show progress
 * @returns one line per operation
 */
export async function fuzz(
  { requests, seed }: { requests: number; seed: number },
  onAnswer: (number: number) => void = () => undefined,
): Promise<Tally[]> {
  const world = await makeWorld();
  try {
    const operations = operationsOf(world.service.contract);
    const tallies = operations.map(({ method, template }): Tally => ({
      operation: `${method} ${template}`,
      requests: 0,
      statuses: new Map(),
      failures: [],
      beyondSchema: new Map(),
    }));
    for (let number = 0; number < requests; number++) {
      const at = number % operations.length;
      const caller = CALLERS[Math.floor(number / operations.length) % CALLERS.length]!;
      await askOnce(world, operations[at]!, caller, { number, seed }, tallies[at]!);
      onAnswer(number);
    }
    return tallies;
  } finally {
    await world.close();
  }
}

async function askOnce(
  world: World,
  fuzzed: FuzzedOperation,
  caller: Caller,
  { number, seed }: { number: number; seed: number },
  tally: Tally,
): Promise<void> {
  const [plan] = fc.sample(fuzzed.plans, { numRuns: 1, seed: seed + number });
  const asked = world.fill(fuzzed, caller, plan!);
  const answered = await world.send(asked);
  tally.requests += 1;
  tally.statuses.set(answered.status, (tally.statuses.get(answered.status) ?? 0) + 1);
  world.learn(answered);
  for (const word of refusedBeyondSchema(asked, answered)) {
    tally.beyondSchema.set(word, (tally.beyondSchema.get(word) ?? 0) + 1);
  }
  try {
    world.service.contract.checkAnswer(answered);
    judge(asked, answered, fuzzed);
    if (caller === 'fleet-manager') refuseLeaks(answered, await world.hidden());
  } catch (fault) {
    const { message } = fault as Error;
    tally.failures.push({ number, what: message.slice(0, 1500), asked: describeAsked(asked) });
  }
}

/** What must hold for every answer, beyond what the document says. */
export function judge(
  asked: Asked,
  answered: Answered,
  { operation }: Pick<FuzzedOperation, 'operation'>,
): void {
  const { status, type, text, headers } = answered;
  const { about } = asked.plan;
  const name = `${asked.method} ${asked.target} as ${asked.caller} → ${status}`;
  const oneOf = (why: string, ...statuses: number[]): void =>
    assert.ok(statuses.includes(status), `${name}: ${why}; ${text.slice(0, 300)}`);

  assert.ok(status < 500, `${name}: a fault; ${text.slice(0, 300)}`);
  const declared = operation.responses[String(status)]?.content;
  if (status >= 200 && status < 300 && declared) assert.notEqual(text, '', `${name}: an empty answer`);
  if (status >= 400 && !declared?.['text/html']) assert.equal(type, 'application/problem+json', name);
  assert.equal(headers['x-content-type-options'], 'nosniff', name);
  assert.equal(headers['access-control-allow-origin'], undefined, name);
  if (status === 401) assert.match(String(headers['www-authenticate']), /^Bearer/, name);
  if (status === 405) assert.ok(headers.allow, `${name}: no Allow`);
  if (status === 429 || status === 503) assert.ok(headers['retry-after'], `${name}: no Retry-After`);

  const isOpen = operation.security?.length === 0;
  if (UNKNOWN_CALLERS.includes(asked.caller) && !isOpen) {
    assert.ok(status >= 300, `${name}: answered without a key in use`);
    if (operation.responses['401'] && !about.addressBroken) oneOf('asked without a key in use', 401);
    return;
  }
  if (about.addressBroken) return;
  if (about.typeWrong) return oneOf('asked with another content type', 415, 403);
  if (about.bodyMalformed) return oneOf('asked with what is no JSON', 400, 403);
  if (!about.parametersFit) assert.ok(status >= 400, `${name}: a parameter is not as its schema says`);
  if (about.bodyFits === false) assert.ok(status >= 400, `${name}: the body is not as its schema says`);
  if (about.bodyFits === true && status === 400) {
    const { errors = [] } = JSON.parse(text) as { errors?: { parameter?: string; header?: string }[] };
    const elsewhere = errors.length > 0 && errors.every((error) => error.parameter ?? error.header);
    assert.ok(elsewhere, `${name}: a body as its schema says is no bad request; ${text.slice(0, 300)}`);
  }
}

/** What no answer to a fleet manager may contain. */
export interface Hidden {
  /** Searched for everywhere. */
  ids: readonly string[];
  /** Compared with whole texts, because short ones occur in others by chance. */
  names: ReadonlySet<string>;
}

export function refuseLeaks({ method, path, status, type, text }: Answer, { ids, names }: Hidden): void {
  const name = `${method} ${path} → ${status}`;
  for (const id of ids) assert.ok(!text.includes(id), `${name}: holds ${id}, of another fleet`);
  const said = /[/+]json$/.test(type) && text !== '' ? texts(JSON.parse(text)) : text.split(/[\r\n,;"<>]+/);
  for (const one of said) assert.ok(!names.has(one), `${name}: holds ${one}, of another fleet`);
}

function texts(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(texts) : [];
}

function refusedBeyondSchema({ plan }: Asked, { status, text }: Answered): string[] {
  if (status !== 422 || plan.about.bodyFits !== true) return [];
  const { errors = [] } = JSON.parse(text) as { errors?: { detail: string; pointer?: string }[] };
  return errors.map(({ detail, pointer = '' }) => `${pointer.replace(/\d+/g, '*')} ${detail}`);
}

const describeAsked = ({ caller, method, target, headers, body }: Asked): string =>
  `as ${caller}: ${method} ${target} ${JSON.stringify({ ...headers, authorization: undefined })} ${body?.slice(0, 4000) ?? ''}`;

type World = Awaited<ReturnType<typeof makeWorld>>;
const MAX_KNOWN = 60;
/** Names of records that examples refer to. */
const AN_ID = /[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g;

/** The service with vehicles in the fleet manager's fleet, in another and in none, and its callers. */
async function makeWorld() {
  const service = await startService();
  const known = new Map<string, string[]>();
  const remember = (parameter: string, id: string): void => {
    const ids = known.get(parameter) ?? known.set(parameter, []).get(parameter)!;
    if (ids.length < MAX_KNOWN && !ids.includes(id)) ids.push(id);
  };
  await record(service, remember);
  const revoked = await service.makeKey('owner', 'revoked');
  await service.store.keys.revoke('revoked');
  const keys: Record<Caller, string | null> = {
    ...service.keys,
    'no key': null,
    'bad key': `bws_${'A'.repeat(43)}`,
    'revoked key': revoked,
  };
  const agent = new Agent({ keepAlive: true, maxSockets: 1 });
  const { port } = service.app.server.address() as AddressInfo;

  const textOf = (name: string, value: Value, encode: (text: string) => string): string => {
    if ('text' in value) return encode(value.text);
    const ids = known.get(name) ?? ['none'];
    return ids[value.known % ids.length]!;
  };
  return {
    service,
    hidden: () => hiddenFrom(service, FLEET),
    fill({ method, template }: FuzzedOperation, caller: Caller, plan: Plan): Asked {
      const path = template.replace(/\{([^}]+)\}/g, (_whole, name: string) =>
        textOf(name, plan.params[name]!, (text) => text),
      );
      const query = plan.query.map(
        ([name, value]) => `${encodeURIComponent(name)}=${textOf(name, value, encodeURIComponent)}`,
      );
      const key = keys[caller];
      return {
        caller,
        method,
        template,
        target: query.length > 0 ? `${path}?${query.join('&')}` : path,
        headers: {
          ...plan.headers,
          ...(key === null ? {} : { authorization: `Bearer ${key}` }),
          ...(plan.body ? { 'content-type': plan.body.type } : {}),
        },
        body:
          plan.body &&
          plan.body.text.replace(AN_ID, () => textOf('vehicleId', { known: plan.number }, String)),
        plan,
      };
    },
    send({ method, target, headers, body: text }: Asked): Promise<Answered> {
      const body = Buffer.from(text ?? '');
      const length = text === null ? {} : { 'content-length': body.length };
      return new Promise((resolve, reject) => {
        const sent = request(
          { port, method, path: target, headers: { ...headers, ...length }, agent },
          (response) => {
            const chunks: Buffer[] = [];
            response.on('data', (chunk: Buffer) => chunks.push(chunk));
            response.on('end', () =>
              resolve({
                method,
                path: target.split('?')[0]!,
                status: response.statusCode!,
                type: (response.headers['content-type'] ?? '').split(';')[0]!.trim(),
                text: Buffer.concat(chunks).toString('utf8'),
                headers: response.headers,
              }),
            );
          },
        );
        sent.on('error', reject);
        sent.end(body);
      });
    },
    /** Later requests use the ids of new records, found by their place in the answer. */
    learn({ headers }: Answered): void {
      const { location = '' } = headers;
      const place = service.contract.templateOf(location);
      if (!place) return;
      for (const [name, id] of Object.entries(place.params)) remember(name, id);
    },
    async close(): Promise<void> {
      agent.destroy();
      await service.close();
    },
  };
}

async function record(service: Service, remember: (parameter: string, id: string) => void): Promise<void> {
  const fleets: [string | null, string][] = [
    [FLEET, 'N'],
    [FLEET, 'M'],
    ['south-depot', 'S'],
    ['south-depot', 'T'],
    [null, 'O'],
  ];
  const recorded: Recorded[] = [];
  for (const [fleet, letter] of fleets) {
    const body = vehicleBody({
      fleet,
      externalId: `${letter}-fuzzed-7001`,
      registration: `${letter}QX 90871`,
    });
    const vehicle = await recordHistory(service, body, visitsOf());
    recorded.push(vehicle);
    remember('vehicleId', vehicle.id);
    const { body: list } = await service.as('owner', 'get', `/v1/vehicles/${vehicle.id}/visits`);
    for (const { id } of list.items as Recorded[]) remember('visitId', id);
    const last = await recordVisit(service, vehicle.id, { date: '2026-03-08', workOrder: 'WO-void' });
    remember('visitId', last.id);
    await correct(service, last.id, { reason: 'typed wrong', changes: { notes: 'put right' } });
    await setVoided(service, last.id, true);
  }
  const { id: endpointId } = await createEndpoint(service, { url: 'https://desk.example.com/hooks' });
  remember('endpointId', endpointId);
  const queued = await service.as('owner', 'post', `/v1/webhook-endpoints/${endpointId}/test`);
  remember('deliveryId', (queued.body as Recorded).id);
  const imported = await service
    .as('owner', 'post', '/v1/imports/vehicles')
    .set('Content-Type', 'application/x-ndjson')
    .send(JSON.stringify(vehicleBody({ fleet: FLEET, externalId: 'N-fuzzed-7002' })));
  remember('importId', (imported.body as Recorded).id);
  const { body: gauges } = await service.as('owner', 'get', '/v1/gauges');
  for (const { id } of gauges.items as Recorded[]) remember('name', id);
}

const visitsOf = (): Body[] => [
  visitBody('2025-03-03', 39_120, fourPads([8, 8.5, 8, 8.5]), { workOrder: 'WO-1' }),
  visitBody('2025-09-01', 50_120, fourPads([6, 6.5, 6, 6.5]), { workOrder: 'WO-2' }),
  visitBody('2026-03-02', 61_240, fourPads([3.5, 4, 4, 4.5]), { workOrder: 'WO-3' }),
];

// A caller who sees a vehicle also sees a record merged into it.
const EVERY_VEHICLE = `
  with recursive standing(seq, at) as (
    select seq, seq from vehicles where merged_into is null
    union all select vehicles.seq, standing.at from vehicles join standing
      on vehicles.merged_into = (select id from vehicles of_it where of_it.seq = standing.seq))
  select vehicles.id, vehicles.external_id, vehicles.registration, vehicles.vin, visits.id as visit, stands.fleet
  from vehicles join standing on standing.seq = vehicles.seq join vehicles stands on stands.seq = standing.at
    left join visits on visits.vehicle_seq = vehicles.seq`;

type Listed = Record<'id' | 'external_id' | 'registration' | 'vin' | 'visit' | 'fleet', string | null>;

/** Reads the data that belong to no fleet's vehicle. */
async function hiddenFrom(service: Service, fleet: string): Promise<Hidden> {
  const all = (await service.query(EVERY_VEHICLE)) as Listed[];
  const namesOf = ({ external_id, registration, vin }: Listed) => [external_id, registration, vin];
  const others = all.filter((row) => row.fleet !== fleet);
  const shown = new Set(all.filter((row) => row.fleet === fleet).flatMap(namesOf));
  const names = others
    .flatMap(namesOf)
    .filter((name) => name !== null && name.length >= 6 && !shown.has(name));
  const ids = new Set(others.flatMap(({ id, visit }) => [id, visit]).filter((id) => id !== null));
  return { ids: [...ids], names: new Set(names as string[]) };
}
