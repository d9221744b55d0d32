import BetterSqlite from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { VisitVersion } from '../../src/core/vocabulary/records.js';
import type { Visit } from '../../src/core/vocabulary/visit.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import {
  contractVehicle,
  contractVisit,
  fourPads,
  km,
  mm,
  padReading,
  vehicleBody,
  visitBody,
  type Body,
} from '../support/bodies.js';
import { correct, read, recordVehicle, recordVisit, setVoided, type Recorded } from '../support/recording.js';
import { FLEET, onSqlite, startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const newVehicle = async (changes: Body = {}) => (await recordVehicle(service, vehicleBody(changes))).id;
const wearOf = (vehicleId: string, query = '') =>
  read<Wear>(service, `/v1/vehicles/${vehicleId}/wear${query}`);
const visitOf = (visitId: string) => read<Visit>(service, `/v1/visits/${visitId}`);
const listOf = async (vehicleId: string, query = '') =>
  (await read<{ items: Visit[] }>(service, `/v1/vehicles/${vehicleId}/visits${query}`)).items;
const historyOf = async (visitId: string) =>
  (await read<{ items: VisitVersion[] }>(service, `/v1/visits/${visitId}/history`)).items;
const addTo = (visitId: string, entry: Body) =>
  service.as('technician', 'post', `/v1/visits/${visitId}/entries`).send(entry);
const send = (vehicleId: string, body: Body) =>
  service.as('technician', 'post', `/v1/vehicles/${vehicleId}/visits`).send(body);
const pointersOf = ({ body }: { body: { errors?: { pointer: string }[] } }) =>
  (body.errors ?? []).map(({ pointer }) => pointer);
const idsOf = (items: { id: string }[]) => items.map(({ id }) => id.slice(id.lastIndexOf('-') + 1));
const because = (changes: Body): Body => ({ reason: 'typed wrong', changes });

/** A vehicle with two measured visits, whose pads are soon due. */
async function measuredVehicle(): Promise<{ vehicleId: string; visits: Recorded[] }> {
  const vehicleId = await newVehicle();
  const visits = [
    await recordVisit(service, vehicleId, visitBody('2025-06-01', 30_000, fourPads([7, 7, 7, 7]))),
    await recordVisit(service, vehicleId, visitBody('2026-01-15', 55_000, fourPads([4, 4, 4, 4]))),
  ];
  return { vehicleId, visits };
}

describe('a correction', () => {
  it('a correction returns the corrected visit with a new version, ETag and outlook', async () => {
    const { vehicleId, visits } = await measuredVehicle();
    const before = await wearOf(vehicleId);
    const response = await correct(
      service,
      visits[1]!.id,
      because({ odometer: km(65_000), notes: 'read again' }),
    );
    expect([response.status, response.headers.etag]).toEqual([200, '"v2"']);
    const { findings, cautions, outlook, ...visit } = response.body;
    expect(visit).toMatchObject({ version: 2, odometer: { value: 65_000, km: 65_000 }, notes: 'read again' });
    expect(visit).toEqual(await visitOf(visits[1]!.id));
    const after = await wearOf(vehicleId);
    expect(outlook).toEqual({ front: after.axles[0] });
    expect(findings).toEqual(after.axles[0]!.findings);
    expect(cautions).toEqual(after.cautions);
    const rate = (wear: Wear) => wear.axles[0]!.pads[0]!.ratePer1000KmMm!.median;
    expect(rate(after)).toBeLessThan(rate(before));
  });

  it('a correction leaves unnamed members, removes null ones and replaces whole lists', async () => {
    const { id } = await recordVisit(service, await newVehicle(), contractVisit());
    const readings = [padReading('right', 'outer', 5)];
    const { body } = await correct(
      service,
      id,
      because({ complaint: null, roadTest: { noise: true }, readings }),
    );
    const { workOrder, torques, conditions, work } = contractVisit();
    expect(body).toMatchObject({ complaint: null, workOrder, torques, conditions, work, readings });
    expect(body.readings).toHaveLength(1);
    expect(body.roadTest).toEqual({ pulls: 'none', pulsation: false, noise: true, notes: 'quiet' });
  });

  it('a correction applies to the whole visit, later entries included', async () => {
    const { id } = await recordVisit(
      service,
      await newVehicle(),
      visitBody('2026-03-02', 1000, fourPads([7, 7, 7, 7])),
    );
    const work = [{ kind: 'pads-replaced', axle: 'front', new: mm(11) }];
    await addTo(id, { work, roadTest: { pulls: 'left' } });
    const { body } = await correct(service, id, because({ roadTest: { pulls: 'none' } }));
    expect(body).toMatchObject({ version: 3, work, roadTest: { pulls: 'none' } });
    const without = await correct(service, id, because({ work: null }));
    expect(without.body.work).toEqual([]);
    expect(without.body.outlook.front.pads[0].readings).toBe(1);
  });

  it('a correction keeps the ids of unchanged items, in the order sent, and uses none twice', async () => {
    const { id, ...visit } = await recordVisit(
      service,
      await newVehicle(),
      visitBody('2026-03-02', 1000, fourPads([7, 7.5, 8, 8.5]), {
        work: [{ kind: 'fluid-changed' }],
        torques: [{ fastener: 'wheel-nut', axle: 'front', value: 120, unit: 'Nm' }],
      }),
    );
    expect(idsOf(visit.readings as { id: string }[])).toEqual(['r1', 'r2', 'r3', 'r4']);
    const first = await correct(service, id, because({ readings: fourPads([7, 6.5, 8, 8.5]) }));
    expect(idsOf(first.body.readings)).toEqual(['r1', 'r5', 'r3', 'r4']);
    expect(idsOf([...first.body.work, ...first.body.torques])).toEqual(['w1', 't1']);
    const second = await correct(service, id, because({ readings: fourPads([7, 6.5, 8, 8.5]).slice(2) }));
    expect(idsOf(second.body.readings)).toEqual(['r3', 'r4']);
    const third = await correct(service, id, because({ readings: fourPads([7, 6.5, 8, 8.5]) }));
    expect(idsOf(third.body.readings)).toEqual(['r6', 'r7', 'r3', 'r4']);
    const added = await addTo(id, { readings: [padReading('left', 'inner', 10, { taken: 'as-left' })] });
    expect(idsOf(added.body.readings)).toEqual(['r6', 'r7', 'r3', 'r4', 'r8']);
    expect(await visitOf(id)).toMatchObject({ readings: added.body.readings });
  });

  it('a corrected odometer reading does not block the next visit', async () => {
    const vehicleId = await newVehicle();
    const mistyped = await recordVisit(service, vehicleId, visitBody('2026-01-15', 612_400));
    const next = visitBody('2026-03-02', 63_100, fourPads([6, 6, 6, 6]));
    expect((await send(vehicleId, next)).status).toBe(201);
    const doubted = async () =>
      (await wearOf(vehicleId)).axles[0]!.findings.some(({ code }) => code === 'odometer-doubted');
    expect(await doubted()).toBe(true);
    expect((await correct(service, mistyped.id, because({ odometer: km(61_240) }))).status).toBe(200);
    expect(await doubted()).toBe(false);
    expect((await wearOf(vehicleId)).asAt).toEqual({ date: '2026-03-02', odometerKm: 63_100 });
  });

  it('a correction can move a visit to another date', async () => {
    const { vehicleId, visits } = await measuredVehicle();
    expect((await correct(service, visits[0]!.id, because({ date: '2024-06-01' }))).status).toBe(200);
    expect((await listOf(vehicleId)).map(({ date }) => date)).toEqual(['2026-01-15', '2024-06-01']);
    const last = await correct(service, visits[0]!.id, because({ date: '2026-02-01' }));
    expect([last.status, last.body.visitId]).toEqual([422, visits[1]!.id]);
    expect(pointersOf(last)).toEqual(['#/changes/odometer']);
  });

  it.each<[string, Body, string[]]>([
    ['a wrong type', { date: 7 }, ['#/changes/date']],
    ['an unknown field', { colour: 'red' }, ['#/changes/colour']],
    [
      'a value beyond its bounds',
      { readings: [padReading('left', 'inner', 80)] },
      ['#/changes/readings/0/value'],
    ],
    [
      'the same place twice',
      { readings: [padReading('left', 'inner', 5), padReading('left', 'inner', 6)] },
      ['#/changes/readings/1'],
    ],
    [
      'an axle the vehicle lacks',
      { work: [{ kind: 'pads-replaced', axle: 'rear' }] },
      ['#/changes/work/0/axle'],
    ],
    ['an odometer below an earlier one', { odometer: km(29_999) }, ['#/changes/odometer']],
    ['a date in the future', { date: '2026-03-12' }, ['#/changes/date']],
    ['a date before in-service', { date: '2023-05-03' }, ['#/changes/date', '#/changes/odometer']],
    ['no date', { date: null }, ['#/changes/date']],
  ])('a correction is refused and changes nothing: %s', async (_name, changes, pointers) => {
    const { visits } = await measuredVehicle();
    const before = [await visitOf(visits[1]!.id), await service.rowCounts()];
    const response = await correct(service, visits[1]!.id, because(changes));
    expect([response.status, pointersOf(response)]).toEqual([422, pointers]);
    expect([await visitOf(visits[1]!.id), await service.rowCounts()]).toEqual(before);
  });

  it('a correction is refused if other visits would contradict each other', async () => {
    const vehicleId = await newVehicle();
    await recordVisit(service, vehicleId, visitBody('2024-03-01', 80_000));
    const swap = await recordVisit(
      service,
      vehicleId,
      visitBody('2025-03-01', 5, [], { odometerReplaced: {} }),
    );
    const later = await recordVisit(service, vehicleId, visitBody('2026-03-01', 12_000));
    const response = await correct(service, swap.id, because({ odometer: null, odometerReplaced: null }));
    expect([response.status, response.body.visitId]).toEqual([422, later.id]);
    expect(pointersOf(response)).toEqual(['#/changes']);
  });

  it('a correction is refused if another visit has the work order', async () => {
    const vehicleId = await newVehicle();
    const first = await recordVisit(service, vehicleId, { date: '2026-03-01', workOrder: 'WO-1' });
    const second = await recordVisit(service, vehicleId, { date: '2026-03-02', workOrder: 'WO-2' });
    const response = await correct(service, second.id, because({ workOrder: 'WO-1' }));
    expect([response.status, response.body.code, response.body.visitId]).toEqual([
      409,
      'work-order-known',
      first.id,
    ]);
    expect((await correct(service, second.id, because({ workOrder: 'WO-2', notes: 'x' }))).status).toBe(200);
  });

  it('a repeated work order is recognized by its first content and by the corrected one', async () => {
    const vehicleId = await newVehicle();
    const body = { date: '2026-03-02', workOrder: 'WO-1', notes: 'as sent first' };
    const { id } = await recordVisit(service, vehicleId, body);
    await correct(service, id, because({ notes: 'as it stands' }));
    for (const [notes, status] of [
      ['as sent first', 200],
      ['as it stands', 200],
      ['as nobody said', 409],
    ] as const) {
      const response = await send(vehicleId, { ...body, notes });
      expect([notes, response.status]).toEqual([notes, status]);
      if (status === 200) expect(response.body).toMatchObject({ id, version: 2, notes: 'as it stands' });
    }
  });

  it('a correction needs If-Match with the current version', async () => {
    const { visits } = await measuredVehicle();
    const path = `/v1/visits/${visits[0]!.id}/corrections`;
    const without = await service.as('front-desk', 'post', path).send(because({ notes: 'x' }));
    expect([without.status, without.body.code]).toEqual([428, 'precondition-needed']);
    expect((await correct(service, visits[0]!.id, because({ notes: 'x' }), { ifMatch: '"v1"' })).status).toBe(
      200,
    );
    for (const ifMatch of ['v2', '2', 'W/v2']) {
      const unquoted = await correct(service, visits[0]!.id, because({ notes: 'y' }), { ifMatch });
      expect([unquoted.status, unquoted.body.detail]).toEqual([
        412,
        expect.stringContaining('If-Match: "v2"'),
      ]);
    }
    const stale = await correct(service, visits[0]!.id, because({ notes: 'y' }), { ifMatch: '"v1"' });
    expect([stale.status, stale.body.code]).toEqual([412, 'stale-version']);
    expect((await visitOf(visits[0]!.id)).notes).toBe('x');
  });

  it('a correction is replayed with its Idempotency-Key', async () => {
    const { visits } = await measuredVehicle();
    const ask = () =>
      correct(service, visits[0]!.id, because({ notes: 'once' }), { ifMatch: '"v1"' }).set(
        'Idempotency-Key',
        'fix-1',
      );
    const [first, again] = [await ask(), await ask()];
    expect([first.status, again.status, again.headers['idempotent-replayed']]).toEqual([200, 200, 'true']);
    expect([again.text, again.headers.etag]).toEqual([first.text, '"v2"']);
    expect(await historyOf(visits[0]!.id)).toHaveLength(2);
  });

  it.each<[string, Body]>([
    ['no reason', { changes: { notes: 'x' } }],
    ['an empty reason', { reason: '', changes: { notes: 'x' } }],
    ['neither changes nor void', { reason: 'x' }],
    ['both', { reason: 'x', changes: { notes: 'x' }, void: true }],
    ['changes that are no object', { reason: 'x', changes: ['notes'] }],
    ['void as text', { reason: 'x', void: 'true' }],
  ])('a correction is refused with %s', async (_name, correction) => {
    const { visits } = await measuredVehicle();
    const response = await correct(service, visits[0]!.id, correction, { role: 'owner' });
    expect([response.status, response.body.code]).toEqual([422, 'invalid']);
  });
});

describe('who may correct', () => {
  it('staff may correct, and only the owner may void and restore', async () => {
    const { visits } = await measuredVehicle();
    for (const role of ['front-desk', 'technician', 'owner'] as const) {
      const corrected = await correct(service, visits[0]!.id, because({ notes: role }), { role });
      expect([role, corrected.status]).toEqual([role, 200]);
      for (const voided of [true, false]) {
        if (role === 'owner') continue;
        const refused = await correct(service, visits[0]!.id, { reason: 'x', void: voided }, { role });
        expect([role, refused.status, refused.body.code]).toEqual([role, 403, 'role-not-allowed']);
      }
    }
  });

  it('a fleet manager may not correct, and reads histories of the own fleets only', async () => {
    const own = await recordVisit(service, await newVehicle({ fleet: FLEET }), { date: '2026-03-02' });
    const other = await recordVisit(service, await newVehicle({ fleet: 'south' }), { date: '2026-03-02' });
    const refused = await correct(service, own.id, because({ notes: 'x' }), { role: 'fleet-manager' });
    expect(refused.status).toBe(403);
    const seen = (id: string) => service.as('fleet-manager', 'get', `/v1/visits/${id}/history`);
    expect([(await seen(own.id)).status, (await seen(other.id)).status]).toEqual([200, 404]);
    const vehicleHistory = `/v1/vehicles/${String(other.vehicleId)}/history`;
    expect((await service.as('fleet-manager', 'get', vehicleHistory)).status).toBe(404);
  });

  it('a correction of a visit that does not exist gets 404', async () => {
    expect((await correct(service, 'nothing', because({ notes: 'x' }))).status).toBe(404);
    expect((await service.as('owner', 'get', '/v1/visits/nothing/history')).status).toBe(404);
  });
});

describe('a voided visit', () => {
  it('a voided visit shows who voided it, when and why, and lists omit it unless asked for it', async () => {
    const { vehicleId, visits } = await measuredVehicle();
    service.setClock('2026-03-10T13:00:00Z');
    const voided = await setVoided(service, visits[1]!.id, true);
    service.setClock('2026-03-10T12:00:00Z');
    const mark = { at: '2026-03-10T13:00:00.000Z', by: 'owner', reason: 'recorded on the wrong van' };
    expect(voided).toMatchObject({ version: 2, voided: mark });
    expect((await visitOf(visits[1]!.id)).voided).toEqual(mark);
    expect((await visitOf(visits[0]!.id)).voided).toBeNull();
    expect((await listOf(vehicleId)).map(({ id }) => id)).toEqual([visits[0]!.id]);
    const all = (await listOf(vehicleId, '?includeVoided=true')).map(({ id }) => id);
    expect(all).toEqual([visits[1]!.id, visits[0]!.id]);
  });

  it('a voided visit does not count in wear, in answers as of a date or in reports', async () => {
    const { vehicleId, visits } = await measuredVehicle();
    const before = await wearOf(vehicleId);
    const spoilt = await recordVisit(
      service,
      vehicleId,
      visitBody('2026-02-15', 56_000, fourPads([1, 1, 1, 1])),
    );
    const due = async () =>
      (await read<{ items: Body[] }>(service, '/v1/reports/due-soon?withinDays=30&limit=200')).items.filter(
        (item) => item.vehicleId === vehicleId,
      );
    expect(await due()).toMatchObject([{ overdue: true, lastReadingDate: '2026-02-15' }]);
    const answer = await setVoided(service, spoilt.id, true);
    expect(answer.outlook).toEqual({ front: before.axles[0] });
    expect(await wearOf(vehicleId)).toEqual(before);
    expect(await due()).toMatchObject([{ lastReadingDate: '2026-01-15' }]);
    expect((await wearOf(vehicleId, '?asOf=2026-03-01')).asAt).toEqual(before.asAt);
    for (const { id } of visits) await setVoided(service, id, true);
    expect(await wearOf(vehicleId)).toMatchObject({ asAt: null });
    const unassessed = await read<{ items: Body[] }>(service, '/v1/reports/unassessed?limit=200');
    expect(unassessed.items.filter((item) => item.vehicleId === vehicleId)).toHaveLength(1);
  });

  it('a fit ignores a voided visit', async () => {
    // Without it, the fit has few vehicles.
    const own = await startService();
    try {
      const { id } = await recordVehicle(own, vehicleBody());
      await recordVisit(own, id, visitBody('2025-06-01', 30_000, fourPads([7, 7, 7, 7])));
      await recordVisit(own, id, visitBody('2026-01-15', 55_000, fourPads([4, 4, 4, 4])));
      const learned = async () => {
        await own.store.experience.fit();
        return (await own.store.experience.list())[0]!.fitted;
      };
      const before = await learned();
      const spoilt = await recordVisit(own, id, visitBody('2026-02-15', 56_000, fourPads([1, 1, 1, 1])));
      expect(await learned()).not.toEqual(before);
      await setVoided(own, spoilt.id, true);
      expect(await learned()).toEqual(before);
    } finally {
      await own.close();
    }
  });

  it('a voided visit frees its work order and its odometer reading', async () => {
    const vehicleId = await newVehicle();
    const body = { ...visitBody('2026-01-15', 612_400), workOrder: 'WO-7' };
    const { id } = await recordVisit(service, vehicleId, body);
    expect((await send(vehicleId, { ...body, odometer: km(61_240) })).status).toBe(409);
    await setVoided(service, id, true);
    const again = await send(vehicleId, { ...body, odometer: km(61_240) });
    expect([again.status, again.body.workOrder]).toEqual([201, 'WO-7']);
    const restored = await correct(service, id, { reason: 'x', void: false }, { role: 'owner' });
    expect([restored.status, restored.body.visitId]).toEqual([409, again.body.id]);
  });

  it('a voided visit accepts no entries, no corrections and no second voiding', async () => {
    const { visits } = await measuredVehicle();
    const { id } = visits[1]!;
    await setVoided(service, id, true);
    for (const response of [
      await addTo(id, { work: [{ kind: 'fluid-changed' }] }),
      await correct(service, id, because({ notes: 'x' })),
      await correct(service, id, { reason: 'x', void: true }, { role: 'owner' }),
    ]) {
      expect([response.status, response.body.code]).toEqual([409, 'visit-voided']);
    }
    expect(await historyOf(id)).toHaveLength(2);
  });

  it('a voided visit can be restored unchanged', async () => {
    const { vehicleId, visits } = await measuredVehicle();
    const before = [await wearOf(vehicleId), await listOf(vehicleId)] as const;
    await setVoided(service, visits[1]!.id, true);
    const restored = await setVoided(service, visits[1]!.id, false);
    expect(restored).toMatchObject({ version: 3, voided: null });
    expect(await wearOf(vehicleId)).toEqual(before[0]);
    const [latest] = await listOf(vehicleId);
    expect({ ...latest, version: 1, updatedAt: 0 }).toEqual({ ...before[1][0], version: 1, updatedAt: 0 });
    const twice = await correct(service, visits[1]!.id, { reason: 'x', void: false }, { role: 'owner' });
    expect([twice.status, twice.body.code]).toEqual([409, 'visit-not-voided']);
  });

  it('a voided visit can be restored only if it still fits', async () => {
    const { vehicleId, visits } = await measuredVehicle();
    await setVoided(service, visits[0]!.id, true);
    const low = await recordVisit(service, vehicleId, visitBody('2025-05-01', 31_000));
    const response = await correct(service, visits[0]!.id, { reason: 'x', void: false }, { role: 'owner' });
    expect([response.status, response.body.visitId, pointersOf(response)]).toEqual([422, low.id, ['#/void']]);
    expect(response.body.errors[0].detail).toMatch(/^odometer: 30,000 km is below the 31,000 km/);
  });

  it('a visit cannot be voided while later odometer readings count from it', async () => {
    const vehicleId = await newVehicle();
    await recordVisit(service, vehicleId, visitBody('2024-03-01', 80_000));
    const swap = await recordVisit(
      service,
      vehicleId,
      visitBody('2025-03-01', 5, [], { odometerReplaced: {} }),
    );
    const later = await recordVisit(service, vehicleId, visitBody('2026-03-01', 12_000));
    const refused = await correct(service, swap.id, { reason: 'x', void: true }, { role: 'owner' });
    expect([refused.status, refused.body.visitId]).toEqual([422, later.id]);
    await setVoided(service, later.id, true);
    await setVoided(service, swap.id, true);
    expect((await listOf(vehicleId)).map(({ date }) => date)).toEqual(['2024-03-01']);
  });

  it('a voided visit does not keep an axle in the vehicle’s record', async () => {
    const { vehicleId, visits } = await measuredVehicle();
    for (const { id } of visits) await setVoided(service, id, true);
    const { axles } = contractVehicle() as { axles: Body };
    const changed = await service
      .as('owner', 'patch', `/v1/vehicles/${vehicleId}`)
      .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
      .send(JSON.stringify({ axles: { front: null, rear: axles.front } }));
    expect(changed.status, changed.text).toBe(200);
    const response = await correct(service, visits[0]!.id, { reason: 'x', void: false }, { role: 'owner' });
    expect(response.status).toBe(422);
    expect(response.body.errors[0].detail).toMatch(/^readings\/0\/axle: the vehicle has no axle front/);
  });
});

describe('the history of a visit', () => {
  it('the history of a visit has every version with its content, who wrote it, when and why', async () => {
    const vehicleId = await newVehicle();
    const sent = visitBody('2026-03-02', 61_240, fourPads([6, 6, 6, 6]), { notes: 'morning' });
    const { id } = await recordVisit(service, vehicleId, sent);
    await addTo(id, { work: [{ kind: 'fluid-changed' }] });
    await correct(service, id, because({ notes: 'afternoon' }));
    await setVoided(service, id, true);
    await setVoided(service, id, false);
    const items = await historyOf(id);
    const versions = items.map(({ version, kind, by, reason }) => [version, kind, by, reason]);
    expect(versions).toEqual([
      [1, 'recorded', 'technician', null],
      [2, 'entries-added', 'technician', null],
      [3, 'corrected', 'front-desk', 'typed wrong'],
      [4, 'voided', 'owner', 'recorded on the wrong van'],
      [5, 'restored', 'owner', 'recorded on the wrong van'],
    ]);
    expect(
      items.every(({ at, vehicleId: of }) => at === '2026-03-10T12:00:00.000Z' && of === vehicleId),
    ).toBe(true);
    expect(items[0]!.body).toMatchObject(sent);
    expect(items[0]!.body.work).toBeUndefined();
    expect(items[1]!.body).toMatchObject({ ...sent, work: [{ kind: 'fluid-changed' }] });
    expect(items[2]!.body).toMatchObject({ notes: 'afternoon', work: [{ kind: 'fluid-changed' }] });
    expect(items[4]!.body).toEqual(items[2]!.body);
    // The body of a version can be sent again unchanged.
    const again = await send(await newVehicle(), items[2]!.body as Body);
    expect(again.status, again.text).toBe(201);
  });

  it('the history of a visit is paged', async () => {
    const { id } = await recordVisit(service, await newVehicle(), { date: '2026-03-02' });
    for (const notes of ['a', 'b', 'c', 'd']) await correct(service, id, because({ notes }));
    const versions: number[] = [];
    let cursor: string | null = '';
    while (cursor !== null) {
      const query: string = cursor === '' ? '' : `&cursor=${cursor}`;
      const page: { items: VisitVersion[]; nextCursor: string | null } = await read(
        service,
        `/v1/visits/${id}/history?limit=2${query}`,
      );
      versions.push(...page.items.map(({ version }) => version));
      cursor = page.nextCursor;
    }
    expect(versions).toEqual([1, 2, 3, 4, 5]);
    const strange = await service.as('owner', 'get', `/v1/visits/${id}/history?cursor=x`);
    expect(strange.status).toBe(400);
  });

  it.skipIf(!onSqlite)('the history of a visit cannot be changed, not even in the database', async () => {
    await recordVisit(service, await newVehicle(), { date: '2026-03-02' });
    const connection = new BetterSqlite(service.file);
    for (const table of ['visit_versions', 'vehicle_versions', 'audit']) {
      for (const statement of [
        `update ${table} set at = 'never'`,
        `delete from ${table}`,
        `insert or replace into ${table} select * from ${table}`,
      ]) {
        expect(() => connection.exec(statement), statement).toThrow(/only ever added to/);
      }
    }
    connection.close();
  });
});
