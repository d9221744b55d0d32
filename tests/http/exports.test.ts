import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { contractVehicle, contractVisit, vehicleBody } from '../support/bodies.js';
import { recordHistory, recordVehicle, recordVisit, read } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';
import { exported, sendSheet, sendVehicles } from '../support/sheets.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

describe('what is exported', () => {
  it('comes back byte for byte after an import into an empty database', async () => {
    const twin = { externalId: null, registration: 'TW 1' };
    await recordHistory(service, contractVehicle(), [
      contractVisit(),
      { date: '2026-03-05', notes: '=1+1', complaint: "'=2", technician: '@me', shop: ' a "b", c ' },
      { date: '2026-03-05', odometer: { value: 61250.125, unit: 'km' }, roadTest: {} },
      {
        date: '2026-03-06',
        odometer: { value: 12.125, unit: 'mi' },
        odometerReplaced: { oldFinal: { value: 39000, unit: 'mi' }, newStart: { value: 10, unit: 'km' } },
        work: [
          {
            kind: 'pads-replaced',
            axle: 'front',
            side: 'left',
            new: { value: 14, unit: 'in/32' },
            limit: { value: 2, unit: 'mm' },
            wearIndicator: { value: 3, unit: 'mm', type: 'electric' },
            notes: 'two\r\nlines',
          },
          { kind: 'fluid-changed' },
          { kind: 'fluid-changed' },
        ],
        torques: [
          { fastener: '-bolt', axle: 'front', value: 1e-7, unit: 'Nm' },
          { fastener: '-bolt', axle: 'front', value: 2, unit: 'Nm' },
        ],
      },
      { date: '2026-03-07', odometerReplaced: {} },
    ]);
    const older = await recordVehicle(service, vehicleBody(twin));
    const younger = await recordVehicle(service, vehicleBody(twin));
    const byVin = await recordVehicle(service, {
      vin: '1M8GDM9AXKP042788',
      axles: { rear: { brake: 'drum' } },
    });
    await recordVisit(service, younger.id, { date: '2026-03-02', notes: 'the younger' });
    await recordVisit(service, older.id, { date: '2026-03-02', notes: 'the older' });
    await recordVisit(service, byVin.id, { date: '2026-03-02', conditions: [], readings: [] });
    const visit = await recordVisit(service, older.id, { date: '2026-03-01', workOrder: '007' });
    const entry = { readings: contractVisit().readings, roadTest: { pulls: 'left' } };
    const added = await service.as('technician', 'post', `/v1/visits/${visit.id}/entries`).send(entry);
    expect(added.status).toBe(201);

    const [vehicles, visits] = [await exported(service, 'vehicles'), await exported(service, 'visits')];
    const empty = await startService();
    try {
      expect((await sendVehicles(empty, vehicles)).body).toMatchObject({ state: 'done', rowsAdded: 4 });
      const taken = await sendSheet(empty, visits);
      expect(taken.body).toMatchObject({ state: 'done', visitsAdded: 9, rowsSkipped: 0 });
      expect(await exported(empty, 'vehicles')).toBe(vehicles);
      expect(await exported(empty, 'visits')).toBe(visits);
      expect((await sendVehicles(empty, vehicles)).body).toMatchObject({ rowsAdded: 0, rowsSkipped: 4 });
      const again = await sendSheet(empty, visits);
      expect(again.body).toMatchObject({ rowsAdded: 0, visitsAdded: 0, visitsExtended: 0 });
      const due = '/v1/reports/due-soon?withinDays=3650&chance=0';
      const [here, there] = [await read<Report>(service, due), await read<Report>(empty, due)];
      expect(withoutIds(there)).toEqual(withoutIds(here));
    } finally {
      await empty.close();
    }
  });

  it('cannot be run by a spreadsheet', async () => {
    const cells = (await exported(service, 'visits')).split(/[,\r\n]+/);
    expect(cells.filter((cell) => /^"?[=+@-]/.test(cell))).toEqual([]);
  });
});

interface Report {
  items: { vehicleId: string }[];
}
const withoutIds = ({ items }: Report) => items.map(({ vehicleId: _id, ...item }) => item);

describe('a list of vehicles', () => {
  const line = (changes: object): string => JSON.stringify(vehicleBody({ vin: null, ...changes }));

  it('is refused whole, every bad line by line and field', async () => {
    const before = service.rowCounts().vehicles;
    const text = [
      line({ externalId: 'L-1' }),
      '{"externalId": "L-2"',
      line({ externalId: 'L-3', axles: {} }),
      '',
      line({ externalId: 'FD-1007' }),
      line({ externalId: 'L-1', model: 'another' }),
      line({ externalId: 'L-6', colour: 'blue' }),
    ].join('\n');
    const response = await sendVehicles(service, text);
    expect(response.status).toBe(422);
    expect(response.body.errors).toEqual([
      expect.objectContaining({ line: 2, column: null, code: 'not-json' }),
      expect.objectContaining({ line: 3, column: 'axles', code: 'invalid' }),
      expect.objectContaining({ line: 5, column: 'externalId', code: 'conflict' }),
      expect.objectContaining({ line: 6, column: 'externalId', code: 'conflict' }),
      expect.objectContaining({ line: 7, column: 'colour', code: 'invalid' }),
    ]);
    expect(service.rowCounts().vehicles).toBe(before);
  });

  it('adds nothing on a dry run, and only what is new otherwise', async () => {
    const text = [line({ externalId: 'N-1', registration: 'N 1' }), line({ externalId: 'N-2' })].join('\r\n');
    const before = service.rowCounts().vehicles!;
    const dry = await sendVehicles(service, text, '?dryRun=true');
    expect(dry.status).toBe(200);
    expect(dry.body).toMatchObject({ rowsAdded: 2 });
    expect(service.rowCounts().vehicles).toBe(before);
    const [first] = text.split('\r\n');
    expect((await sendVehicles(service, first!)).status).toBe(201);
    const response = await sendVehicles(service, text);
    expect(response.status).toBe(201);
    expect(response.body).toMatchObject({ rowsAdded: 1, rowsSkipped: 1 });
    expect(service.rowCounts().vehicles).toBe(before + 2);
    const wear = await service.as('owner', 'get', `/v1/vehicles?externalId=N-1`);
    const { id } = wear.body.items[0];
    expect((await service.as('owner', 'get', `/v1/vehicles/${id}/wear`)).status).toBe(200);
  });
});
