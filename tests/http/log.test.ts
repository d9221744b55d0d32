import { Writable } from 'node:stream';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import request from 'supertest';
import { buildApp } from '../../src/app.js';
import { logging } from '../../src/http/logging.js';
import { startService, type Service } from '../support/service.js';

interface Line {
  level: number;
  msg: string;
  key?: string;
  remoteAddress?: string;
  req?: { method: string; url: string; remoteAddress: string };
}

/** Starts the service and collects its log. */
let service: Service;
let app: Awaited<ReturnType<typeof buildApp>>;
const lines: Line[] = [];
beforeAll(async () => {
  service = await startService();
  const stream = new Writable({
    write: (chunk: Buffer, _encoding, done) => {
      lines.push(
        ...chunk
          .toString('utf8')
          .trim()
          .split('\n')
          .map((line) => JSON.parse(line) as Line),
      );
      done();
    },
  });
  app = await buildApp({
    store: service.store,
    config: { timeZone: 'UTC', rateLimitPerMinute: 0 },
    logger: { ...logging('info'), stream },
    clock: service.clock,
  });
  await app.ready();
});
afterAll(async () => {
  await app.close();
  await service.close();
});

/** The log lines of one request. */
async function logOf(path: string, key?: string): Promise<Line[]> {
  lines.length = 0;
  const asked = request(app.server).get(path).redirects(0);
  if (key) asked.set('Authorization', `Bearer ${key}`);
  await asked;
  return lines;
}

const VIN = '1M8GDM9AXKP042788';

describe('the log line of a request', () => {
  it('the log line of a request has the name of the key, and no key', async () => {
    const [line] = await logOf('/v1/vehicles?limit=5', service.keys.technician);
    expect(line).toMatchObject({ key: 'technician', req: { method: 'GET', url: '/v1/vehicles?limit=5' } });
    expect(JSON.stringify(line)).not.toContain(service.keys.technician.slice(4));
    const [anonymous] = await logOf('/health/live');
    expect(anonymous!.key).toBeUndefined();
  });

  it.each([
    ['/v1/vehicles?registration=KR%204471&limit=5', '/v1/vehicles?registration=[Redacted]&limit=5'],
    [`/v1/vehicles?vin=${VIN}`, '/v1/vehicles?vin=[Redacted]'],
    ['/v1/vehicles?externalId=KR4471', '/v1/vehicles?externalId=[Redacted]'],
    ['/v1/vehicles?find=4471', '/v1/vehicles?find=[Redacted]'],
    ['/v1/vehicles?KR4471%20x=1', '/v1/vehicles?[Redacted]=[Redacted]'],
    [`/v1/vehicles/${VIN}`, '/v1/vehicles/[Redacted]'],
    ['/v1/vehicles/KR%204471/wear?asOf=2026-03-01', '/v1/vehicles/[Redacted]/wear?asOf=2026-03-01'],
    [`/v1/%76ehicles/%31${VIN.slice(1)}`, '/v1/vehicles/[Redacted]'],
    ['/?q=KR%204471', '/?q=[Redacted]'],
    ['/sign-in?next=%2F%3Fq%3DKR4471', '/sign-in?next=[Redacted]'],
    ['/KR4471', '/[Redacted]'],
  ])('the log line hides registration and VIN in the address: %s', async (path, url) => {
    const logged = await logOf(path, service.keys.owner);
    expect(logged.at(-1)!.req!.url).toBe(url);
    // Figures of the run may contain the same digits by chance.
    const lines = logged.map((line) => ({ ...line, time: 0, pid: 0, reqId: '', responseTime: 0 }));
    expect(JSON.stringify(lines)).not.toMatch(/4471|042788/);
  });

  it('the log line of a request keeps ids, so that an operator can follow a vehicle', async () => {
    const id = '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de004';
    const [line] = await logOf(`/v1/vehicles/${id}/visits`, service.keys.owner);
    expect(line!.req!.url).toBe(`/v1/vehicles/${id}/visits`);
  });
});

describe('a failed sign-in', () => {
  it('a failed sign-in has its own line with the address, without what was typed', async () => {
    lines.length = 0;
    await request(app.server)
      .post('/sign-in')
      .type('form')
      .set('Sec-Fetch-Site', 'same-origin')
      .send({ key: 'bws_not-a-key-of-this-shop' });
    expect(lines).toContainEqual(
      expect.objectContaining({
        level: 40,
        msg: 'sign-in failed',
        remoteAddress: expect.stringContaining('127.0.0.1'),
      }),
    );
    expect(JSON.stringify(lines)).not.toContain('not-a-key');
  });
});
