import assert from 'node:assert/strict';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Delivery } from '../../src/core/vocabulary/events.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';
import type { DueAxle } from '../../src/store/contract/reports.js';
import { fourPads, rotorReading, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { correct, read, recordVehicle, recordVisit, setVoided } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';
import { changeEndpoint, createEndpoint, deliveries } from '../support/webhooks.js';

/** Which events are raised; nothing is sent. Today is 2026-03-10, and the pads’ governing limit is 3 mm. */

const URL = 'https://desk.example.com/hooks';
const THIN: [number, number, number, number] = [3.6, 4, 4, 4];
const FAILING: [number, number, number, number] = [2, 5, 5, 5];

let service: Service;
let seen: Set<string>;
beforeEach(async () => {
  service = await startService();
  seen = new Set();
});
afterEach(() => service.close());

/** The events raised since the last call, in words. */
async function newDeliveries(): Promise<Delivery[]> {
  const all = await deliveries(service);
  const fresh = all.filter(({ id }) => !seen.has(id));
  fresh.forEach(({ id }) => seen.add(id));
  return fresh;
}
const types = async (): Promise<string[]> => (await newDeliveries()).map(({ type }) => type).sort();

const van = async (changes: Body = {}) => (await recordVehicle(service, vehicleBody(changes))).id;
const visit = (
  id: string,
  date: string,
  km: number,
  values: Parameters<typeof fourPads>[0],
  more: Body = {},
) => recordVisit(service, id, visitBody(date, km, fourPads(values), more));
/** A vehicle whose readings show clearly that its pads are the original ones, due in some years. */
async function wornSlowly(): Promise<string> {
  const id = await van();
  await visit(id, '2025-03-03', 20_000, [10, 10, 10, 10]);
  await visit(id, '2025-09-01', 40_000, [9, 9, 9, 9]);
  await visit(id, '2026-03-02', 61_000, [8, 8, 8, 8]);
  return id;
}
const replaced = { work: [{ kind: 'pads-replaced', axle: 'front', new: { value: 11, unit: 'mm' } }] };

async function putPolicy(policy: Body): Promise<void> {
  const response = await service.as('owner', 'put', '/v1/policy').set('If-Match', '*').send(policy);
  assert.equal(response.status, 200, response.text);
}

describe('an axle that becomes due', () => {
  it('an axle that becomes due raises one event with the figures of the due-soon report until it stops being due', async () => {
    await createEndpoint(service, { url: URL, eventTypes: ['axle.due'] });
    const id = await van();
    await visit(id, '2025-06-02', 31_000, [7, 7, 7, 7]);
    expect(await types()).toEqual([]);
    await visit(id, '2026-03-02', 61_000, THIN);
    const [delivery, ...others] = await newDeliveries();
    expect([delivery?.type, others]).toEqual(['axle.due', []]);
    const report = await read<{ items: DueAxle[]; horizon: string }>(service, '/v1/reports/due-soon');
    const { registration: _plate, changedAt: _changed, ...item } = report.items[0]!;
    const { message, caution, ...data } = delivery!.event.data as Body;
    expect(data).toEqual({ ...item, horizon: report.horizon });
    expect(message).toMatch(item.overdue ? /^Fit front pads now\./ : /^Fit front pads before /);
    expect(caution).toContain('Look at the brakes');

    await visit(id, '2026-03-05', 61_200, THIN);
    await recordVisit(service, id, { date: '2026-03-06', work: [{ kind: 'fluid-changed' }] });
    expect(await types()).toEqual([]);
    await visit(id, '2026-03-08', 61_400, THIN, replaced);
    expect(await types()).toEqual([]);
    service.setClock('2026-09-10T12:00:00Z');
    await visit(id, '2026-09-09', 110_000, THIN);
    expect(await types()).toEqual(['axle.due']);
  });

  it('an axle that becomes due raises an event when its date enters the horizon without any write', async () => {
    await createEndpoint(service, { url: URL });
    const id = await wornSlowly();
    expect(await types()).toEqual([]);
    await service.store.outbox.raiseDateEvents();
    expect(await types()).toEqual([]);
    const { axles } = await read<{ axles: { replacement: { date: { early: string } } }[] }>(
      service,
      `/v1/vehicles/${id}/wear`,
    );
    const early = Date.parse(axles[0]!.replacement.date.early);
    const daysBefore = async (days: number) => {
      service.setClock(new Date(early - days * 86_400_000 + 3_600_000).toISOString());
      await service.store.outbox.raiseDateEvents();
      return types();
    };
    expect(await daysBefore(61)).toEqual([]);
    expect(await daysBefore(60)).toEqual(['axle.due']);
    expect(await daysBefore(30)).toEqual([]);
  });

  it('a vehicle out of service raises no event', async () => {
    await createEndpoint(service, { url: URL });
    const id = await van({ outOfService: { date: '2026-03-01', reason: 'sold' } });
    await visit(id, '2026-02-27', 61_000, THIN);
    await service.store.outbox.raiseDateEvents();
    expect(await types()).toEqual([]);
  });

  it('a new policy raises an event, and a fit that leaves an axle due raises no second one', async () => {
    await createEndpoint(service, { url: URL });
    await wornSlowly();
    expect(await types()).toEqual([]);
    await putPolicy({ dueSoon: { withinDays: 2000, chance: 0.1 } });
    expect(await types()).toEqual(['axle.due']);
    await service.store.experience.refit();
    await service.store.outbox.raiseDateEvents();
    expect(await types()).toEqual([]);
  });
});

describe('an axle near the threshold', () => {
  it('an axle near the threshold raises another event only after its chance has been well below the policy’s', async () => {
    await createEndpoint(service, { url: URL });
    const id = await van();
    await visit(id, '2025-09-01', 40_000, [6.5, 7, 7, 7]);
    await visit(id, '2026-03-02', 61_000, [4.2, 5, 5, 5]);
    const [delivery] = await newDeliveries();
    assert.equal(delivery!.event.type, 'axle.due');
    const { chance } = delivery!.event.data;
    expect(chance).toBeLessThan(0.4);
    const dueFrom = async (min: number) => {
      await putPolicy({ dueSoon: { withinDays: 60, chance: min } });
      await service.store.outbox.raiseDateEvents();
      return types();
    };
    expect(await dueFrom(1.5 * chance)).toEqual([]);
    expect(await dueFrom(0.1)).toEqual([]);
    expect(await dueFrom(2.5 * chance)).toEqual([]);
    expect(await dueFrom(0.1)).toEqual(['axle.due']);
  });
});

describe('a limit that a reading passes', () => {
  beforeEach(() => createEndpoint(service, { url: URL, eventTypes: ['limit.passed'] }));

  it('a limit that a reading passes raises one event per state, and another when the next set of pads passes it', async () => {
    const id = await van();
    await visit(id, '2026-03-02', 61_000, FAILING);
    const [delivery, ...others] = await newDeliveries();
    expect(others).toEqual([]);
    expect(delivery!.event).toMatchObject({
      type: 'limit.passed',
      timestamp: '2026-03-10T12:00:00.000Z',
      data: {
        vehicleId: id,
        axle: 'front',
        readingDate: '2026-03-02',
        tooCloseToTell: false,
        finding: {
          code: 'pad-at-limit',
          side: 'left',
          pad: 'inner',
          severity: 'stop',
          numbers: { readingMm: 2, limitMm: 3 },
        },
      },
    });
    await visit(id, '2026-03-04', 61_100, FAILING);
    await visit(id, '2026-03-05', 61_200, FAILING, replaced);
    expect(await types()).toEqual([]);
    service.setClock('2026-09-10T12:00:00Z');
    await visit(id, '2026-09-09', 80_000, FAILING);
    expect(await types()).toEqual(['limit.passed']);
  });

  it('a reading too close to tell raises an event, and settling it raises one more', async () => {
    const id = await van();
    const settled = (date: string, value: number, gauge: string) =>
      recordVisit(service, id, visitBody(date, null, fourPads([value, 6, 6, 6], { gauge })));
    await settled('2026-03-02', 3.2, 'pad-gauge');
    const [open] = await newDeliveries();
    expect(open!.event.data).toMatchObject({
      tooCloseToTell: true,
      finding: { code: 'pad-too-close-to-limit' },
    });
    await settled('2026-03-03', 2.9, 'depth-gauge');
    const [passed] = await newDeliveries();
    expect(passed!.event.data).toMatchObject({ tooCloseToTell: false, finding: { code: 'pad-at-limit' } });
  });

  it('a rotor raises an event with the date of its reading', async () => {
    const id = await van();
    await recordVisit(service, id, visitBody('2026-03-01', 61_000, [rotorReading('right', 25.9)]));
    const [delivery] = await newDeliveries();
    expect(delivery!.event.data).toMatchObject({
      readingDate: '2026-03-01',
      finding: { code: 'rotor-under-discard', side: 'right', pad: null },
    });
  });

  it('a correction or a new policy can raise the event too', async () => {
    const id = await van();
    const recorded = await visit(id, '2026-03-02', 61_000, [4, 6, 6, 6]);
    expect(await types()).toEqual([]);
    await correct(service, recorded.id, { reason: 'misread', changes: { readings: fourPads(FAILING) } });
    expect(await types()).toEqual(['limit.passed']);
    await setVoided(service, recorded.id, true);
    expect(await types()).toEqual([]);

    const other = await van();
    await visit(other, '2025-11-02', 61_000, [4, 6, 6, 6]);
    await putPolicy({ padMinimum: { value: 5, unit: 'mm' } });
    expect((await newDeliveries()).map(({ event }) => (event.data as Body).vehicleId)).toEqual([other]);
  });
});

describe('a reading that contradicts its forecast', () => {
  /** Steady wear of 1 mm a half-year, then pads that have lost 3.5 mm since. */
  async function contradicted(): Promise<{ id: string; visitId: string }> {
    const id = await van();
    await visit(id, '2025-03-01', 20_000, [10, 10, 10, 10]);
    await visit(id, '2025-09-01', 30_000, [9, 9, 9, 9]);
    const last = await visit(id, '2026-03-02', 40_000, [4.5, 8, 8, 8]);
    return { id, visitId: last.id };
  }

  it('a reading that contradicts its forecast raises one event, however often its visit is recomputed', async () => {
    await createEndpoint(service, { url: URL, eventTypes: ['reading.off_forecast'] });
    const { id, visitId } = await contradicted();
    const [delivery, ...others] = await newDeliveries();
    expect(others).toEqual([]);
    expect(delivery!.event.data).toMatchObject({
      vehicleId: id,
      readingDate: '2026-03-02',
      finding: {
        code: 'reading-off-forecast',
        side: 'left',
        pad: 'inner',
        numbers: { readingMm: 4.5 },
      },
    });
    await correct(service, visitId, { reason: 'x', changes: { notes: 'looked at once more' } });
    await service.store.experience.refit();
    await setVoided(service, visitId, true);
    await setVoided(service, visitId, false);
    expect(await types()).toEqual([]);
  });

  it('the event contains no notes and no plate, and stays small', async () => {
    await createEndpoint(service, { url: URL });
    const wide = 'x'.repeat(100);
    const id = await van({
      registration: 'PLATE 1',
      externalId: wide,
      fleet: wide,
      model: wide,
      description: 'SECRET',
    });
    const notes = { notes: 'SECRET', complaint: 'SECRET', technician: 'SECRET', workOrder: 'SECRET' };
    await visit(id, '2026-03-02', 61_000, [1, 1, 1, 1], notes);
    const raised = await newDeliveries();
    expect(raised.map(({ type }) => type).sort()).toEqual(['axle.due', ...Array(4).fill('limit.passed')]);
    for (const { event } of raised) {
      const text = JSON.stringify(event);
      expect(text).not.toMatch(/SECRET|PLATE/);
      expect(Buffer.byteLength(text)).toBeLessThan(20_000);
    }
  });
});

describe('old visits that are entered late', () => {
  const YEARS = ['2021-03-01', '2022-03-01', '2023-03-01', '2024-03-01'];

  it('old visits recorded one by one raise nothing at once; the next check raises their final state', async () => {
    await createEndpoint(service, { url: URL });
    const id = await van({ inService: null });
    for (const [index, date] of YEARS.entries()) {
      await visit(id, date, 20_000 * (index + 1), FAILING, replaced);
      await visit(id, date.replace('-03-', '-09-'), 20_000 * (index + 1) + 10_000, [4, 8, 8, 8]);
    }
    expect(await types()).toEqual([]);
    await service.store.outbox.raiseDateEvents();
    expect(await types()).toEqual(['axle.due']);
  });

  it('an old history that ends past a limit raises one event, at the next check or with the next visit', async () => {
    await createEndpoint(service, { url: URL, eventTypes: ['limit.passed'] });
    const rotor = (id: string, date: string, value: number) =>
      recordVisit(service, id, visitBody(date, null, [rotorReading('left', value)]));
    const ids = [await van({ inService: null }), await van({ inService: null })];
    for (const id of ids) {
      await rotor(id, '2024-03-01', 26.8);
      await rotor(id, '2025-03-01', 25.8);
    }
    await service.store.experience.refit();
    expect(await types()).toEqual([]);
    const [looked, visited] = ids;
    await visit(visited!, '2026-03-09', 80_000, [8, 8, 8, 8]);
    const vehiclesTold = async () =>
      (await newDeliveries()).map(({ event }) => (event.data as Body).vehicleId);
    expect(await vehiclesTold()).toEqual([visited]);
    await service.store.outbox.raiseDateEvents();
    expect(await vehiclesTold()).toEqual([looked]);
    await service.store.outbox.raiseDateEvents();
    await visit(looked!, '2026-03-09', 80_000, [8, 8, 8, 8]);
    expect(await types()).toEqual([]);
  });

  it('an imported file raises one event for the state at its end', async () => {
    await createEndpoint(service, { url: URL });
    for (const name of ['now', 'then']) await van({ externalId: name, inService: null });
    const row = (name: string, date: string, km: number, side: string, pad: string, value: number) =>
      `${name},${date},${km},km,pad-thickness,front,${side},${pad},${value},mm`;
    const visits = (name: string, date: string, km: number, value: number) =>
      ['left', 'right'].flatMap((side) =>
        ['inner', 'outer'].map((pad) => row(name, date, km, side, pad, value)),
      );
    const file = [
      'vehicle,date,odometer,odometerUnit,entry,axle,side,pad,value,unit',
      ...visits('now', '2023-03-01', 20_000, 9),
      ...visits('now', '2024-03-01', 40_000, 2),
      'now,2024-03-02,40010,km,pads-replaced,front,,,,',
      ...visits('now', '2025-03-01', 60_000, 8),
      ...visits('now', '2026-03-01', 80_000, 2.5),
      ...visits('then', '2023-03-01', 20_000, 9),
      ...visits('then', '2024-03-01', 40_000, 2),
    ].join('\n');
    const send = () =>
      service.as('front-desk', 'post', '/v1/imports/visits').set('Content-Type', 'text/csv').send(file);
    const response = await send();
    expect([response.status, response.text.slice(0, 300)]).toEqual([201, expect.anything()]);
    const raised = await newDeliveries();
    expect(raised.map(({ type }) => type).sort()).toEqual(['axle.due', ...Array(4).fill('limit.passed')]);
    expect(new Set(raised.map(({ event }) => (event.data as Body).externalId))).toEqual(new Set(['now']));
    expect((await send()).status).toBe(200);
    expect(await types()).toEqual([]);
    await service.store.outbox.raiseDateEvents();
    const later = await newDeliveries();
    expect(later.map(({ type }) => type).sort()).toEqual(['axle.due', ...Array(4).fill('limit.passed')]);
    expect(new Set(later.map(({ event }) => (event.data as Body).externalId))).toEqual(new Set(['then']));
  });
});

describe('who gets an event', () => {
  it('no event is stored while no endpoint listens', async () => {
    const id = await van();
    await visit(id, '2026-03-02', 61_000, FAILING);
    await service.store.outbox.raiseDateEvents();
    const { events, due_axles, webhook_deliveries } = await service.rowCounts();
    expect({ events, due_axles, webhook_deliveries }).toEqual({
      events: 0,
      due_axles: 0,
      webhook_deliveries: 0,
    });
  });

  it('a new endpoint gets nothing about what was already so, now or later', async () => {
    const id = await van();
    await visit(id, '2026-03-02', 61_000, FAILING);
    const { id: endpointId } = await createEndpoint(service, { url: URL });
    await visit(id, '2026-03-05', 61_100, FAILING);
    await service.store.outbox.raiseDateEvents();
    expect(await types()).toEqual([]);
    await changeEndpoint(service, endpointId, { enabled: false });
    const other = await van();
    await visit(other, '2026-03-02', 61_000, FAILING);
    await changeEndpoint(service, endpointId, { enabled: true });
    await visit(other, '2026-03-06', 61_100, FAILING);
    await service.store.outbox.raiseDateEvents();
    expect(await types()).toEqual([]);
  });

  it('an endpoint gets the event types and fleets it asked for', async () => {
    const ends = {
      all: { url: URL },
      north: { url: URL, fleets: ['north-depot'] },
      south: { url: URL, fleets: ['south-depot', 'yard'] },
      limits: { url: URL, eventTypes: ['limit.passed'] },
    };
    const names = new Map<string, string>();
    for (const [name, body] of Object.entries(ends))
      names.set((await createEndpoint(service, body)).id, name);
    const delivered = async () =>
      (await newDeliveries()).map(({ endpointId, type }) => `${names.get(endpointId)} ${type}`).sort();
    await visit(await van(), '2026-03-02', 61_000, FAILING);
    expect(await delivered()).toEqual([
      'all axle.due',
      'all limit.passed',
      'limits limit.passed',
      'north axle.due',
      'north limit.passed',
    ]);
    await visit(await van({ fleet: 'yard' }), '2026-03-02', 61_000, THIN);
    expect(await delivered()).toEqual(['all axle.due', 'south axle.due']);
    await visit(await van({ fleet: null }), '2026-03-02', 61_000, THIN);
    expect(await delivered()).toEqual(['all axle.due']);
  });
});

describe('the outbox', () => {
  it('a failed write leaves no event, even one already raised', async () => {
    await createEndpoint(service, { url: URL });
    const id = await van();
    const before = await service.rowCounts();
    const refused = await service
      .as('technician', 'post', `/v1/vehicles/${id}/visits`)
      .send(visitBody('2026-03-02', 61_000, fourPads([99, 5, 5, 5])));
    expect(refused.status).toBe(422);
    const keep = {
      write: { keyName: 'x', target: 'x', key: 'x', fingerprint: 'x' },
      outcome: () => assert.fail('the answer cannot be made'),
    };
    const body = VisitBody.parse(visitBody('2026-03-02', 61_000, fourPads(FAILING)));
    const caller = { fleets: null, role: 'technician' as const, keyName: 'technician' };
    await expect(service.store.visits.record(caller, id, body, keep)).rejects.toThrow('cannot be made');
    expect(await service.rowCounts()).toEqual(before);
    await service.store.visits.record(caller, id, body, null);
    expect(await types()).toEqual(['axle.due', 'limit.passed']);
  });

  it('a visit sent twice raises the same event once', async () => {
    await createEndpoint(service, { url: URL });
    const id = await van();
    const send = (more: Body) =>
      service
        .as('technician', 'post', `/v1/vehicles/${id}/visits`)
        .set('Idempotency-Key', 'once')
        .send(visitBody('2026-03-02', 61_000, fourPads(FAILING), more));
    await send({ workOrder: 'WO-1' });
    await send({ workOrder: 'WO-1' });
    await service
      .as('technician', 'post', `/v1/vehicles/${id}/visits`)
      .send(visitBody('2026-03-02', 61_000, fourPads(FAILING), { workOrder: 'WO-1' }));
    expect(await types()).toEqual(['axle.due', 'limit.passed']);
  });
});
