import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { AuditEntry } from '../../src/core/vocabulary/records.js';
import { vehicleBody, type Body } from '../support/bodies.js';
import { correct, recordVehicle, recordVisit, setVoided } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const audit = (query = '') => service.as('owner', 'get', `/v1/audit${query}`);
const entries = async (query = ''): Promise<AuditEntry[]> => (await audit(query)).body.items;

describe('the audit log', () => {
  it('every write leaves a line with the name of its key, never the key', async () => {
    service.setClock('2026-03-10T14:00:00Z');
    const vehicle = await recordVehicle(service, vehicleBody());
    const visit = await recordVisit(service, vehicle.id, { date: '2026-03-02', workOrder: 'WO-1' });
    await service
      .as('technician', 'post', `/v1/visits/${visit.id}/entries`)
      .send({ work: [{ kind: 'fluid-changed' }] });
    await correct(service, visit.id, { reason: 'x', changes: { notes: 'y' } });
    await setVoided(service, visit.id, true);
    await setVoided(service, visit.id, false);
    await service
      .as('front-desk', 'patch', `/v1/vehicles/${vehicle.id}`)
      .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
      .send('{"fleet":"x"}');
    const response = await audit('?since=2026-03-10T15:00:00%2B01:00');
    const summaries = (response.body.items as AuditEntry[]).map(
      ({ key, method, action, resource, resourceId }) => [key, method, action, resource, resourceId],
    );
    expect(summaries).toEqual([
      ['technician', 'POST', 'recorded', 'vehicle', vehicle.id],
      ['technician', 'POST', 'recorded', 'visit', visit.id],
      ['technician', 'POST', 'entries-added', 'visit', visit.id],
      ['front-desk', 'POST', 'corrected', 'visit', visit.id],
      ['owner', 'POST', 'voided', 'visit', visit.id],
      ['owner', 'POST', 'restored', 'visit', visit.id],
      ['front-desk', 'PATCH', 'changed', 'vehicle', vehicle.id],
    ]);
    for (const key of Object.values(service.keys)) expect(response.text).not.toContain(key);
  });

  it('reads, refusals and replayed answers leave no line', async () => {
    const { id } = await recordVehicle(service, vehicleBody());
    const before = (await entries('?limit=200')).length;
    const visit: Body = { date: '2026-03-02', workOrder: 'WO-2' };
    const post = (body: Body) =>
      service.as('technician', 'post', `/v1/vehicles/${id}/visits`).set('Idempotency-Key', 'a').send(body);
    await post(visit);
    await post(visit);
    await service.as('technician', 'post', `/v1/vehicles/${id}/visits`).send(visit);
    await service.as('technician', 'post', `/v1/vehicles/${id}/visits`).send({ date: '2030-01-01' });
    await service.as('owner', 'get', `/v1/vehicles/${id}`);
    expect((await entries('?limit=200')).length).toBe(before + 1);
  });

  it('keys created and revoked on the command line leave lines', async () => {
    await service.makeKey('technician', 'bay-9');
    await service.store.keys.revoke('bay-9');
    const lines = (await entries('?limit=200')).filter(({ resourceId }) => resourceId === 'bay-9');
    expect(lines.map(({ key, method, action, resource }) => [key, method, action, resource])).toEqual([
      [null, null, 'created', 'key'],
      [null, null, 'revoked', 'key'],
    ]);
  });

  it('the audit log is paged, and a cursor is bound to its since parameter', async () => {
    const whole = await entries('?limit=200');
    const seen: AuditEntry[] = [];
    let cursor: string | null = null;
    do {
      const { body }: { body: { items: AuditEntry[]; nextCursor: string | null } } = await audit(
        `?limit=3${cursor === null ? '' : `&cursor=${cursor}`}`,
      );
      seen.push(...body.items);
      cursor = body.nextCursor;
    } while (cursor !== null);
    expect(seen).toEqual(whole);
    expect(whole.length).toBeGreaterThan(6);
    const { body } = await audit('?limit=3');
    expect((await audit(`?since=2026-01-01T00:00:00Z&cursor=${body.nextCursor}`)).status).toBe(400);
  });

  it.each(['2026-03-10', 'yesterday', ''])('a since of %j is refused', async (since) => {
    const response = await audit(`?since=${since}`);
    expect([response.status, response.body.errors[0].parameter]).toEqual([400, 'since']);
  });
});
