import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { policyFrom } from '../../src/core/assessment/policy.js';
import { PolicyBody } from '../../src/core/vocabulary/settings.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { contractVehicle, contractVisit, fourPads, visitBody, type Body } from '../support/bodies.js';
import { correct, read, recordVehicle, recordVisit } from '../support/recording.js';
import { onSqlite, startService, type Service } from '../support/service.js';
import { withConnection } from '../support/shopFile.js';

let service: Service;
beforeEach(async () => {
  service = await startService();
});
afterEach(() => service.close());

/** A word in every text of one customer and nowhere else; plates and VINs do not contain it. */
const WORD = 'Zerzura';
const PLATE = 'QX 7731';
const VIN = '1M8GDM9AXKP042788';
const LATER_VIN = '11111111111111111';

/** A customer's vehicle with that word in every text that can be sent, and everything else that stores texts. */
async function recordCustomer(): Promise<{ id: string; visitIds: string[]; replay: () => Promise<Body> }> {
  const named = { registration: PLATE, description: `van of ${WORD}`, fleet: `${WORD} & Sons`, vin: VIN };
  await service
    .as('owner', 'post', '/v1/webhook-endpoints')
    .send({ url: 'https://desk.example.com/hooks' })
    .expect(201);
  const { id } = await recordVehicle(service, { ...contractVehicle(), externalId: `${WORD}-1`, ...named });
  const visits = `/v1/vehicles/${id}/visits`;
  const full = {
    ...contractVisit(),
    shop: `${WORD} street`,
    technician: WORD,
    complaint: `${WORD} hears it squeal`,
    notes: `ring ${WORD}`,
    workOrder: `${WORD}-77`,
    notMeasured: [{ axle: 'front', side: 'right', pad: 'inner', why: `${WORD} could not wait` }],
    conditions: [{ part: 'rotor', axle: 'front', side: 'left', state: 'cracked', notes: `shown to ${WORD}` }],
    work: [{ kind: 'slides-serviced', axle: 'front', notes: `as ${WORD} asked` }],
    roadTest: { pulls: 'none', notes: `with ${WORD}` },
  };
  const send = () => service.as('technician', 'post', visits).set('Idempotency-Key', 'customer').send(full);
  const first = (await send().expect(201)).body as { id: string };
  const early = await recordVisit(service, id, visitBody('2025-03-02', 39_000, fourPads([9, 9, 9, 9])));
  await service
    .as('technician', 'post', `/v1/visits/${first.id}/entries`)
    .send({ conditions: [{ part: 'hose', axle: 'front', state: 'leaking', notes: `${WORD} was told` }] })
    .expect(201);
  const corrected = await correct(service, first.id, {
    reason: `${WORD} rang`,
    changes: { notes: `${WORD} again` },
  });
  expect(corrected.status).toBe(200);
  const wrong = await recordVisit(service, id, visitBody('2025-06-02', 45_000, [], { notes: WORD }));
  const voided = await correct(service, wrong.id, { reason: `not ${WORD}’s`, void: true }, { role: 'owner' });
  expect(voided.status).toBe(200);
  await service
    .as('technician', 'patch', `/v1/vehicles/${id}`)
    .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
    .send({ description: `sold by ${WORD}`, vin: LATER_VIN })
    .expect(200);
  const other = await recordVehicle(service, {
    ...contractVehicle(),
    externalId: `${WORD}-2`,
    registration: 'QX 7732',
  });
  await service
    .as('owner', 'post', `/v1/vehicles/${id}/merge`)
    .set('If-Match', '*')
    .send({ from: other.id, reason: `${WORD} has one van` })
    .expect(200);
  const sheet = `vehicle,date,odometer,odometerUnit,entry,axle,side,pad,value,unit\n${PLATE},2020-01-01,1,km,pad-thickness,front,left,inner,9,mm\n`;
  await service.as('technician', 'post', '/v1/imports/visits').set('Content-Type', 'text/csv').send(sheet);
  return {
    id,
    visitIds: [first.id, early.id, wrong.id],
    replay: async () => (await send()).body as Body,
  };
}

const triggers = (): unknown =>
  withConnection(service.file, (connection) =>
    connection
      .prepare("select name, tbl_name, sql from sqlite_master where type = 'trigger' order by name")
      .all(),
  );

describe('erasing a vehicle’s personal data', () => {
  it('no name, note, plate or VIN remains anywhere in the database file', async () => {
    const { id } = await recordCustomer();
    for (const text of [WORD, PLATE, VIN, LATER_VIN])
      expect([text, (await service.occurrencesOf(text)) > 0]).toEqual([text, true]);
    await service.store.retention.erase(id);
    await service.store.retention.vacuum();
    for (const text of [WORD, 'QX 773', 'QX773', VIN, LATER_VIN])
      expect([text, await service.occurrencesOf(text)]).toEqual([text, 0]);
  });

  it('readings, dates and odometer stay, so wear and experience do not change', async () => {
    const { id, visitIds } = await recordCustomer();
    const wearBefore = await read<Wear>(service, `/v1/vehicles/${id}/wear`);
    const before = await service.rowCounts();
    expect(await service.store.retention.erase(id)).toMatchObject({ records: 2, visits: 3 });
    const wear = await read<Wear>(service, `/v1/vehicles/${id}/wear`);
    expect(wear.axles[0]!.pads).toEqual(wearBefore.axles[0]!.pads);
    const after = await service.rowCounts();
    for (const table of ['vehicles', 'visits', 'readings', 'work_items', 'conditions', 'torques'])
      expect([table, after[table]]).toEqual([table, before[table]]);
    const vehicle = await read<Body>(service, `/v1/vehicles/${id}`);
    expect(vehicle).toMatchObject({
      externalId: `erased-${id}`,
      registration: null,
      vin: null,
      model: 'parcel-van-3t5',
      outOfService: { reason: 'erased' },
    });
    for (const visitId of visitIds) {
      await read(service, `/v1/visits/${visitId}`);
      await read(service, `/v1/visits/${visitId}/history`);
    }
    await read(service, `/v1/vehicles/${id}/history`);
  });

  it('an erased vehicle accepts no further record, and every refusal says why', async () => {
    const { id, visitIds } = await recordCustomer();
    const other = await recordVehicle(service, { ...contractVehicle(), externalId: 'FD-2' });
    await service.store.retention.erase(id);
    const before = await read<Body>(service, `/v1/vehicles/${id}`);
    expect(before.erasedAt).toBe(service.clock().toISOString());
    const visit = visitBody('2026-03-09', 70_000, fourPads([5, 5, 5, 5]));
    const post = (path: string, body: Body) =>
      service.as('owner', 'post', path).set('If-Match', '*').send(body);
    const writes = [
      post(`/v1/vehicles/${id}/visits`, visit),
      post(`/v1/visits/${visitIds[0]}/entries`, { work: [{ kind: 'fluid-changed' }] }),
      post(`/v1/visits/${visitIds[0]}/corrections`, { reason: 'a name', changes: { notes: 'a name' } }),
      post(`/v1/visits/${visitIds[0]}/corrections`, { reason: 'a name', void: true }),
      post(`/v1/vehicles/${id}/merge`, { from: other.id, reason: 'a name' }),
      service
        .as('owner', 'patch', `/v1/vehicles/${id}`)
        .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
        .send({ registration: PLATE, outOfService: null }),
    ];
    for (const { status, body } of await Promise.all(writes)) {
      expect([status, body.code, body.vehicleId]).toEqual([409, 'vehicle-erased', id]);
      expect(body.detail).toMatch(/ was erased on \d{4}-\d\d-\d\d, .* record it as a new vehicle$/);
    }
    const into = await post(`/v1/vehicles/${other.id}/merge`, { from: id, reason: 'a name' });
    expect([into.status, into.body.errors[0].detail]).toEqual([
      422,
      expect.stringContaining('was erased on'),
    ]);

    const importing = (date: string) =>
      service
        .as('owner', 'post', '/v1/imports/visits')
        .set('Content-Type', 'text/csv')
        .send(
          `vehicle,date,odometer,odometerUnit,entry,axle,side,pad,value,unit\nerased-${id},${date},70000,km,pad-thickness,front,left,inner,5,mm\n`,
        );
    const imported = await importing('2026-03-09');
    expect([imported.status, imported.body.errors]).toEqual([
      422,
      [expect.objectContaining({ line: 2, column: 'vehicle', code: 'vehicle-erased' })],
    ]);
    // Existing entries are still recognized, so that an export can be imported again.
    const { text } = await service.as('owner', 'get', '/v1/exports/visits');
    const back = await service
      .as('owner', 'post', '/v1/imports/visits')
      .set('Content-Type', 'text/csv')
      .send(text);
    expect([back.status, back.body.rowsAdded]).toEqual([200, 0]);
    expect(await read<Body>(service, `/v1/vehicles/${id}`)).toEqual(before);
    expect(
      (await service.as('owner', 'post', '/v1/vehicles').send({ ...contractVehicle(), registration: PLATE }))
        .status,
    ).toBe(201);
  });

  it.skipIf(!onSqlite)('the audit says who erased the data, and the history stays append-only', async () => {
    const { id } = await recordCustomer();
    const before = triggers();
    await service.store.retention.erase(id);
    expect(triggers()).toEqual(before);
    withConnection(service.file, (connection) => {
      const line = connection
        .prepare("select key_name, action, resource, resource_id from audit where action = 'erased'")
        .get();
      expect(line).toEqual({ key_name: null, action: 'erased', resource: 'vehicle', resource_id: id });
      for (const table of ['audit', 'visit_versions', 'vehicle_versions'])
        expect(() => connection.exec(`delete from ${table}`)).toThrow('only ever added to');
    });
  });

  it('a repeated erasure gets the answer without the data and is not recorded again', async () => {
    const { id, replay } = await recordCustomer();
    await service.store.retention.erase(id);
    const { visits } = await service.rowCounts();
    expect(await replay()).toMatchObject({ code: 'not-found' });
    expect((await service.rowCounts()).visits).toBe(visits);
  });

  it('other vehicles are unaffected by an erasure, and a failure undoes all of it', async () => {
    const { id } = await recordCustomer();
    const neighbour = await recordVehicle(service, {
      ...contractVehicle(),
      externalId: 'N-1',
      registration: 'NB 1',
    });
    const standing = await read<Body>(service, `/v1/vehicles/${neighbour.id}`);
    await expect(service.store.retention.erase('nobody')).rejects.toThrow('no such vehicle');
    await service.store.retention.erase(id);
    expect(await read<Body>(service, `/v1/vehicles/${neighbour.id}`)).toEqual(standing);
  });
});

describe('pruning old history', () => {
  it('pruning old history removes audit entries and superseded versions from before an instant, and nothing current', async () => {
    const { id, visitIds } = await recordCustomer();
    service.setClock('2030-06-01T12:00:00Z');
    await correct(service, visitIds[1]!, { reason: 'later', changes: { notes: 'later' } });
    const before = await service.rowCounts();
    const pruned = await service.store.retention.prune('2029-01-01T00:00:00.000Z');
    const after = await service.rowCounts();
    expect(pruned.audit).toBeGreaterThan(5);
    expect(after.audit).toBe(before.audit! - pruned.audit + 1);
    expect(after.visit_versions).toBe(before.visit_versions! - pruned.visitVersions);
    expect(after.vehicle_versions).toBe(before.vehicle_versions! - pruned.vehicleVersions);
    // One version of each remains, which still reads the same for any date.
    expect([after.visit_versions, after.vehicle_versions]).toEqual([after.visits, after.vehicles]);
    const corrected = await correct(service, visitIds[0]!, { reason: 'still', changes: { notes: 'works' } });
    expect(corrected.status).toBe(200);
    await read(service, `/v1/vehicles/${id}/wear?asOf=2025-12-01`);
  });

  it('a shop keeps all history for good unless the policy says otherwise', () => {
    expect(PolicyBody.parse({}).retentionYears).toBeNull();
    expect(PolicyBody.safeParse({ retentionYears: 0 }).success).toBe(false);
    // The years of retention affect no brake.
    expect(policyFrom(PolicyBody.parse({ retentionYears: 3 }))).toEqual(policyFrom(PolicyBody.parse({})));
  });
});
