import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { noVehicleNamed } from '../../src/core/spreadsheet/naming.js';
import type { Import } from '../../src/core/vocabulary/import.js';
import { contractVehicle, fourPads, visitBody, type Body } from '../support/bodies.js';
import { read, recordVehicle, type Recorded } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';
import { padRow, sendSheet, sendVehicles, sheetOf, type Cells } from '../support/sheets.js';
import { createEndpoint, deliveries, startReceiver, workerOf } from '../support/webhooks.js';

/** What `erase` finds of a vehicle in stored answers, import reports and deliveries, and what it leaves of others. */

let service: Service;
beforeEach(async () => {
  service = await startService({ webhookAllowPrivate: true });
});
afterEach(() => service.close());

const run = promisify(execFile);
/** Runs the command as an operator does, while the service runs. */
const erase = async (id: string): Promise<string> =>
  (
    await run(process.execPath, ['dist/src/commands/erase.js', '--vehicle', id], {
      env: { ...process.env, ...service.environment },
    })
  ).stdout;

const record = (names: Body): Promise<Recorded> =>
  recordVehicle(service, { ...contractVehicle(), externalId: null, registration: null, ...names });
const post = (path: string, key: string, body: Body) =>
  service.as('technician', 'post', path).set('Idempotency-Key', key).send(body);
const visit = (more: Body = {}) => visitBody('2026-03-02', 61_240, fourPads([7, 7, 7, 7]), more);
const counts = async () => {
  const { vehicles, visits } = await service.rowCounts();
  return { vehicles, visits };
};

/** The report of a file whose rows name these vehicles, the first on line 2. */
async function importNaming(...names: string[]): Promise<string> {
  const refused = await sendSheet(service, sheetOf(names.map((vehicle) => padRow({ vehicle }))));
  expect(refused.status).toBe(422);
  return refused.body.importId as string;
}
const errorsOf = async (id: string) => (await read<Import>(service, `/v1/imports/${id}`)).errors;
const detailsOf = async (id: string) => (await errorsOf(id)).map(({ detail }) => detail);
const unknown = (name: string): string => noVehicleNamed(name);

describe('answers kept for repeated requests', () => {
  it('a short externalId erases no answer about another vehicle, whose retry is still answered as the first time', async () => {
    const short = await record({ externalId: '12' });
    const create = () =>
      post('/v1/vehicles', 'van', { ...contractVehicle(), externalId: '4120', registration: 'QX 1212' });
    const created = await create();
    const send = () => post(`/v1/vehicles/${created.body.id}/visits`, 'visit-12', visit({ workOrder: '12' }));
    const first = await send();
    expect([created.status, first.status]).toEqual([201, 201]);
    const before = await counts();
    expect(await erase(short.id)).toContain('1 record, 0 visits, 0 stored answers');
    for (const [again, answered] of [
      [await create(), created],
      [await send(), first],
    ] as const) {
      expect([again.status, again.text]).toEqual([201, answered.text]);
      expect(again.headers['idempotent-replayed']).toBe('true');
    }
    expect(await counts()).toEqual(before);
  });

  it('an answer about the vehicle is erased, and a retry gets no data and is not carried out again', async () => {
    const create = () => post('/v1/vehicles', 'van', { ...contractVehicle(), externalId: '12' });
    const { body: vehicle } = await create();
    const send = () => post(`/v1/vehicles/${vehicle.id}/visits`, 'visit', visit());
    const { body: recorded } = await send();
    const add = () =>
      post(`/v1/visits/${recorded.id}/entries`, 'entry', { work: [{ kind: 'fluid-changed' }] });
    expect((await add()).status).toBe(201);
    const before = await counts();
    expect(await erase(vehicle.id as string)).toContain('1 record, 1 visit, 3 stored answers');
    for (const again of [await create(), await send(), await add()])
      expect([again.status, again.body.detail]).toEqual([
        404,
        'the personal data in this answer has been erased',
      ]);
    expect(await counts()).toEqual(before);
    expect(await service.occurrencesOf('KR 4471')).toBe(0);
  });

  it('a plate that has moved to another vehicle does not erase the answers about that vehicle', async () => {
    const former = await record({ externalId: 'A-1', registration: 'QX 7731' });
    await service
      .as('technician', 'patch', `/v1/vehicles/${former.id}`)
      .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
      .send({ registration: 'QX 7732' })
      .expect(200);
    const create = () =>
      post('/v1/vehicles', 'van', { ...contractVehicle(), externalId: 'B-1', registration: 'qx-7731' });
    const first = await create();
    expect(await erase(former.id)).toContain('0 stored answers');
    expect((await create()).text).toBe(first.text);
  });

  it('an answer at an address that names the vehicle is deleted with that address', async () => {
    const send = (name: string) => post(`/v1/vehicles/${encodeURIComponent(name)}/visits`, 'visit', visit());
    for (const name of ['qx 77-31', 'QX 77312']) expect((await send(name)).status).toBe(404);
    const { id } = await record({ registration: 'QX 7731' });
    expect(await erase(id)).toContain('1 stored answer');
    expect(await service.occurrencesOf('qx%2077-31')).toBe(0);
    expect(await service.occurrencesOf('QX%2077312')).toBeGreaterThan(0);
    expect([(await send('qx 77-31')).status, (await counts()).visits]).toEqual([404, 0]);
  });

  it('an externalId that is a word of an address, or another vehicle’s id, erases no answer', async () => {
    const { id } = await record({ externalId: 'A-1' });
    const send = () => post(`/v1/vehicles/${id}/visits`, 'visit', visit());
    const first = await send();
    const before = await counts();
    for (const externalId of ['visits', 'vehicles', id]) await erase((await record({ externalId })).id);
    expect([(await send()).text, (await counts()).visits]).toEqual([first.text, before.visits]);
  });

  it('an import answer that names the vehicle in another spelling is erased, and others are not', async () => {
    const send = (vehicle: string) =>
      sendSheet(service, sheetOf([padRow({ vehicle })])).set('Idempotency-Key', vehicle.length.toString());
    await send('kr-4471');
    const other = await send('KR 44712');
    const { id } = await record({ registration: 'KR 4471' });
    await erase(id);
    expect((await send('kr-4471')).body.detail).toBe('the personal data in this answer has been erased');
    expect((await send('KR 44712')).text).toBe(other.text);
    expect(await service.occurrencesOf('kr-4471')).toBe(0);
  });
});

describe('import reports', () => {
  it('a short name erases only the errors whose cell is that name', async () => {
    const { id } = await record({ externalId: '12' });
    const importId = await importNaming('QX 12', '1200', '12a');
    await erase(id);
    expect(await detailsOf(importId)).toEqual(['QX 12', '1200', '12a'].map(unknown));
  });

  it('a plate or VIN in another case or spacing is erased, and only the text of its error', async () => {
    const vin = '1M8GDM9AXKP042788';
    const names = ['kr-4471', 'KR4471', 'ＫＲ 4471', vin.toLowerCase(), 'KR 44711', 'FD-9'];
    const importId = await importNaming(...names);
    const { version } = await read<Import>(service, `/v1/imports/${importId}`);
    const { id } = await record({ externalId: 'FD-9', registration: 'KR 4471', vin });
    await erase(id);
    expect(await errorsOf(importId)).toEqual(
      ['erased', 'erased', 'erased', 'erased', unknown('KR 44711'), 'erased'].map((detail, index) => ({
        line: index + 2,
        column: 'vehicle',
        code: 'unknown-vehicle',
        detail,
      })),
    );
    expect((await read<Import>(service, `/v1/imports/${importId}`)).version).toBeGreaterThan(version);
    for (const text of ['kr-4471', 'KR4471', vin.toLowerCase()])
      expect([text, await service.occurrencesOf(text)]).toEqual([text, 0]);
  });

  it('errors that quote the name from another cell, an ambiguous name or a visit of the vehicle are erased', async () => {
    const { id } = await record({ externalId: 'A-1', registration: 'QX 7731' });
    await record({ externalId: 'B-1', registration: 'QX 7731' });
    const sent = await post(`/v1/vehicles/${id}/visits`, 'visit', visit({ workOrder: 'of Zerzura' }));
    expect(sent.status).toBe(201);
    const rows: Cells[] = [
      { vehicle: 'qx7731' },
      { vehicle: 'A-1', value: 'QX-7731' },
      { vehicle: 'A-1', value: 'QX-77310' },
      { vehicle: 'A-1', workOrder: 'of Zerzura', value: 5 },
    ];
    const refused = await sendSheet(service, sheetOf(rows.map((row) => padRow(row))));
    const importId = refused.body.importId as string;
    const before = await detailsOf(importId);
    await erase(id);
    const after = await detailsOf(importId);
    expect(before.map((detail, index) => [detail, after[index] === 'erased'])).toEqual([
      [expect.stringContaining('2 vehicles are called qx7731'), true],
      [expect.stringContaining('“QX-7731” is not a number'), true],
      [expect.stringContaining('“QX-77310” is not a number'), false],
      [expect.stringContaining(`visit ${sent.body.id} has a different reading`), true],
    ]);
  });

  it.each([',', ';'])(
    'a file without headings leaves nothing of its first row in the report',
    async (mark) => {
      const row = ['kr 4471', '2026-03-02', 'driven by Zerzura'].join(mark);
      const refused = await sendSheet(service, `${row}\n`);
      expect(refused.text).toContain('Zerzura');
      const { id } = await record({ registration: 'KR 4471' });
      await erase(id);
      for (const text of ['kr 4471', 'Zerzura'])
        expect([text, await service.occurrencesOf(text)]).toEqual([text, 0]);
    },
  );

  it('a line that is not JSON and contains the plate is erased from the report', async () => {
    const refused = await sendVehicles(service, '{"registration": kr 4471}\n{"registration": kr 44712}\n');
    const { id } = await record({ registration: 'KR 4471' });
    const [, kept] = await detailsOf(refused.body.importId as string);
    await erase(id);
    expect(await detailsOf(refused.body.importId as string)).toEqual(['erased', kept]);
  });
});

describe('webhook deliveries', () => {
  it('what a receiver answered to an event of the vehicle is erased, and its other answers are not', async () => {
    const receiver = await startReceiver();
    const worker = workerOf(service);
    try {
      await createEndpoint(service, { url: receiver.url });
      // The receiver sends back what it was sent.
      receiver.answerWith(({ body }) => ({ status: 500, body }));
      const thin = visitBody('2026-03-02', 61_240, fourPads([1, 1, 1, 1]));
      const ids: string[] = [];
      for (const externalId of ['Zerzura', 'Farafra']) {
        const { id } = await record({ externalId });
        ids.push(id);
        await service.as('technician', 'post', `/v1/vehicles/${id}/visits`).send(thin).expect(201);
      }
      await worker.sendDue();
      expect((await deliveries(service)).every(({ attempts }) => attempts.length > 0)).toBe(true);
      await erase(ids[0]!);
      expect(await service.occurrencesOf('Zerzura')).toBe(0);
      for (const { event, attempts } of await deliveries(service)) {
        const isErased = 'vehicleId' in event.data && event.data.vehicleId === ids[0];
        expect(attempts[0]!.detail === 'erased').toBe(isErased);
      }
    } finally {
      await worker.stop();
      await receiver.close();
    }
  });
});

describe('a record merged into another', () => {
  it('is not erased on its own; the command names the record to erase', async () => {
    const into = await record({ externalId: 'A-1' });
    const from = await record({ registration: 'QX 7731' });
    await service
      .as('owner', 'post', `/v1/vehicles/${into.id}/merge`)
      .set('If-Match', '*')
      .send({ from: from.id, reason: 'one van' })
      .expect(200);
    await expect(erase(from.id)).rejects.toMatchObject({
      code: 1,
      stderr: expect.stringContaining(`merged into vehicle ${into.id}; use that id`),
    });
    expect(await erase(into.id)).toContain('2 records');
    expect(await service.occurrencesOf('QX 7731')).toBe(0);
  });
});
