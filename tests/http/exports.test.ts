import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  contractVehicle,
  contractVisit,
  fourPads,
  km,
  mm,
  vehicleBody,
  visitBody,
} from '../support/bodies.js';
import { correct, read, recordHistory, recordVehicle, recordVisit, setVoided } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';
import { exported, padRow, sendSheet, sendVehicles, sheetOf } from '../support/sheets.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

describe('an export of visits and vehicles', () => {
  it('an export imported into an empty database and exported again has the same bytes', async () => {
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

  it('a spreadsheet program cannot run anything in an export', async () => {
    const cells = (await exported(service, 'visits')).split(/[,\r\n]+/);
    expect(cells.filter((cell) => /^"?[=+@-]/.test(cell))).toEqual([]);
  });
});

describe('an export of drum brakes', () => {
  const rear = { axle: 'rear', side: 'left' };
  const shoe = { ...rear, kind: 'shoe-thickness', ...mm(3.4) };
  const drum = { ...rear, kind: 'drum-diameter', unit: 'mm', gauge: 'drum-gauge' };
  const drumVehicle = (): object => ({
    ...vehicleBody({ externalId: 'DR-1', vin: null }),
    axles: {
      rear: {
        brake: 'drum',
        shoe: { new: mm(5), limit: mm(1.6) },
        drum: { new: mm(254), maximum: { value: 10.06, unit: 'in' }, machineTo: mm(255) },
      },
    },
  });
  const visits = [
    visitBody('2025-06-01', 30_000, [
      { ...shoe, shoe: 'leading', at: 'centre' },
      { ...shoe, shoe: 'trailing', value: 3.1 },
      { ...shoe, side: 'right' },
      { ...drum, point: 1, value: 254.6 },
      { ...drum, point: 2, value: 254.8 },
    ]),
    visitBody('2026-03-01', 52_000, [{ ...shoe, value: 2.2 }], {
      notMeasured: [{ axle: 'rear', part: 'drum', why: 'not taken off' }],
      conditions: [{ ...rear, part: 'shoe', pad: 'trailing', state: 'contaminated' }],
      work: [
        { kind: 'shoes-replaced', axle: 'rear', new: mm(5), limit: { value: 2, unit: 'in/32' } },
        { kind: 'drum-replaced', ...rear, new: mm(254), maximum: mm(255.5), machineTo: mm(255) },
        { kind: 'drum-machined', axle: 'rear', side: 'right' },
      ],
    }),
  ];

  it('an export of drum brakes round-trips byte for byte, with the shoe in the column of the pad', async () => {
    const [here, there] = [await startService(), await startService()];
    try {
      const { id } = await recordHistory(here, { ...drumVehicle() }, visits);
      const asDisc = { axles: { rear: { brake: 'disc', shoe: null, drum: null } } };
      const changed = await here
        .as('technician', 'patch', `/v1/vehicles/${id}`)
        .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
        .send(JSON.stringify(asDisc));
      expect(changed.status, 'or its rows could not be imported').toBe(422);
      const sheet = await exported(here, 'visits');
      const [header, first] = sheet.split('\r\n').map((line) => line.split(','));
      const cell = (name: string): string => first![header!.indexOf(name)]!;
      expect(['entry', 'pad', 'at', 'value'].map(cell)).toEqual([
        'shoe-thickness',
        'leading',
        'centre',
        '3.4',
      ]);
      await sendVehicles(there, await exported(here, 'vehicles'));
      expect((await sendSheet(there, sheet)).body).toMatchObject({ state: 'done', visitsAdded: 2 });
      expect(await exported(there, 'visits')).toBe(sheet);
      expect(await exported(there, 'vehicles')).toBe(await exported(here, 'vehicles'));
      expect((await sendSheet(here, sheet)).body).toMatchObject({ rowsAdded: 0, rowsSkipped: 11 });
      const other = (await read<{ items: { id: string }[] }>(there, '/v1/vehicles')).items[0]!;
      const wear = await read<object>(here, `/v1/vehicles/${id}/wear`);
      expect({ ...(await read<object>(there, `/v1/vehicles/${other.id}/wear`)), vehicleId: id }).toEqual(
        wear,
      );
    } finally {
      await Promise.all([here.close(), there.close()]);
    }
  });

  it('a disc brake refuses the shoe, and the error names the pad column', async () => {
    const rows = [
      { vehicle: 'DR-2', date: '2026-03-01', entry: 'shoe-thickness', axle: 'front', side: 'left', value: 3 },
      { vehicle: 'DR-3', date: '2026-03-01', entry: 'shoe-thickness', axle: 'rear', side: 'left', value: 3 },
    ].map((row) => ({ ...row, unit: 'mm', pad: row.axle === 'rear' ? 'inner' : 'leading' }));
    await recordVehicle(service, vehicleBody({ externalId: 'DR-2' }));
    await recordVehicle(service, { ...drumVehicle(), externalId: 'DR-3' });
    const { body } = await sendSheet(service, sheetOf(rows));
    expect(body.errors).toEqual([
      expect.objectContaining({
        line: 2,
        column: 'entry',
        detail: expect.stringContaining('drum') as string,
      }),
      expect.objectContaining({ line: 3, column: 'pad', code: 'invalid' }),
    ]);
  });
});

describe('an export of corrected, voided and merged records', () => {
  it('the export holds the current state and round-trips byte for byte', async () => {
    const [here, there] = [await startService(), await startService()];
    try {
      const { id } = await recordVehicle(here, vehicleBody({ externalId: 'C-1' }));
      const visit = (date: string, odometerKm: number, workOrder: string, more = {}) =>
        recordVisit(here, id, visitBody(date, odometerKm, fourPads([8, 8, 8, 8]), { workOrder, ...more }));
      await visit('2025-01-10', 50_000, 'WO-1');
      const corrected = await visit('2025-07-10', 60_000, 'WO-2');
      const voided = await visit('2025-09-01', 62_000, 'WO-3', { notes: 'of another van' });
      await setVoided(here, voided.id, true);
      await visit('2025-09-01', 63_000, 'WO-3', { notes: 'WO-3 anew' });
      // Only the later record of a new odometer explains the corrected reading.
      await visit('2025-04-01', 10, 'WO-4', { odometerReplaced: { oldFinal: km(54_000), newStart: km(0) } });
      const changes = { odometer: km(3_000), readings: fourPads([7, 6.5, 7, 7]) };
      const answer = await correct(here, corrected.id, { reason: 'misread', changes });
      expect(answer.status).toBe(200);
      const other = await recordVehicle(here, vehicleBody({ externalId: 'C-2' }));
      await recordVisit(here, other.id, visitBody('2025-11-01', 70_000, [], { notes: 'of the twin' }));
      const merged = await here
        .as('owner', 'post', `/v1/vehicles/${id}/merge`)
        .set('If-Match', '*')
        .send({ from: other.id, reason: 'recorded twice' });
      expect(merged.status).toBe(200);

      const [vehicles, sheet] = [await exported(here, 'vehicles'), await exported(here, 'visits')];
      expect(vehicles).not.toContain('C-2');
      expect(sheet).not.toContain('of another van');
      expect(sheet).toContain('of the twin');
      expect((await sendVehicles(there, vehicles)).body).toMatchObject({ state: 'done', rowsAdded: 1 });
      expect((await sendSheet(there, sheet)).body).toMatchObject({ errors: [], visitsAdded: 5 });
      expect(await exported(there, 'visits')).toBe(sheet);
      expect((await sendSheet(here, sheet)).body).toMatchObject({ rowsAdded: 0, visitsAdded: 0 });
      const [twin] = (await read<{ items: { id: string }[] }>(there, '/v1/vehicles')).items;
      const wear = await read<object>(here, `/v1/vehicles/${id}/wear`);
      const wearThere = await read<object>(there, `/v1/vehicles/${twin!.id}/wear`);
      expect({ ...wearThere, vehicleId: id }).toEqual(wear);
      const known = await sendSheet(here, sheetOf([padRow({ vehicle: 'C-2' })]));
      expect(known.body.errors).toEqual([expect.objectContaining({ line: 2, code: 'unknown-vehicle' })]);
    } finally {
      await Promise.all([here.close(), there.close()]);
    }
  });
});

interface Report {
  items: { vehicleId: string }[];
}
const withoutIds = ({ items }: Report) => items.map(({ vehicleId: _id, ...item }) => item);

describe('an import of vehicles', () => {
  const line = (changes: object): string => JSON.stringify(vehicleBody({ vin: null, ...changes }));

  it('an import of vehicles is refused as a whole, with every error by line and field', async () => {
    const before = (await service.rowCounts()).vehicles;
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
    expect((await service.rowCounts()).vehicles).toBe(before);
  });

  it('a dry run adds nothing, and an import adds only what is new', async () => {
    const text = [line({ externalId: 'N-1', registration: 'N 1' }), line({ externalId: 'N-2' })].join('\r\n');
    const before = (await service.rowCounts()).vehicles!;
    const dry = await sendVehicles(service, text, '?dryRun=true');
    expect(dry.status).toBe(200);
    expect(dry.body).toMatchObject({ rowsAdded: 2 });
    expect((await service.rowCounts()).vehicles).toBe(before);
    const [first] = text.split('\r\n');
    expect((await sendVehicles(service, first!)).status).toBe(201);
    const response = await sendVehicles(service, text);
    expect(response.status).toBe(201);
    expect(response.body).toMatchObject({ rowsAdded: 1, rowsSkipped: 1 });
    expect((await service.rowCounts()).vehicles).toBe(before + 2);
    const wear = await service.as('owner', 'get', `/v1/vehicles?externalId=N-1`);
    const { id } = wear.body.items[0];
    expect((await service.as('owner', 'get', `/v1/vehicles/${id}/wear`)).status).toBe(200);
  });
});
