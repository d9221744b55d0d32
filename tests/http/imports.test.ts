import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { contractVehicle, contractVisit, vehicleBody } from '../support/bodies.js';
import { correct, read, recordVehicle, recordVisit, setVoided, type Recorded } from '../support/recording.js';
import { onSqlite, startService, type Service } from '../support/service.js';
import { exported, padRow, sendSheet, sendVehicles, sheetOf, type Cells } from '../support/sheets.js';

let service: Service;
let vehicle: Recorded;
beforeEach(async () => {
  service = await startService();
  vehicle = await recordVehicle(service, contractVehicle());
});
afterEach(() => service.close());

interface StoredVisit {
  id: string;
  version: number;
  readings: Record<string, unknown>[];
  work: unknown[];
  torques: unknown[];
  odometer: unknown;
}
const visitsOf = async (id = vehicle.id): Promise<StoredVisit[]> =>
  (await read<{ items: StoredVisit[] }>(service, `/v1/vehicles/${id}/visits`)).items;

/** The rows that a file would change: everything but the record of the import itself. */
async function contents(): Promise<Record<string, number>> {
  const { imports: _imports, ...rest } = await service.rowCounts();
  return rest;
}

async function expectTaken(text: string | Buffer, expected: object): Promise<void> {
  const response = await sendSheet(service, text);
  expect(response.body).toMatchObject({ state: 'done', errorsTotal: 0, errors: [], ...expected });
  expect(response.status).toBe(201);
  expect(response.headers.location).toBe(`/v1/imports/${response.body.id}`);
}

async function expectRefused(text: string | Buffer, errors: object[]): Promise<void> {
  const before = await contents();
  const response = await sendSheet(service, text);
  expect(response.status).toBe(422);
  expect(response.body.code).toBe('import-refused');
  expect(response.body.errors).toEqual(errors.map((error) => expect.objectContaining(error)));
  expect(response.body.errorsTotal).toBe(errors.length);
  expect(await contents()).toEqual(before);
}

describe('a spreadsheet of visits', () => {
  it('the rows of a spreadsheet become the visits that POST would record', async () => {
    const rows = [
      padRow(),
      padRow({ pad: 'outer', value: 7 }),
      padRow({ entry: 'rotor-thickness', pad: '', point: 1, value: 27.9, gauge: 'micrometer' }),
      padRow({ entry: 'pads-replaced', side: '', pad: '', value: '', new: 11, part: 'PS-11' }),
      padRow({ entry: 'torque', pad: '', value: 88, unit: 'ft-lbf', fastener: 'bolt', position: 1 }),
    ];
    await expectTaken(sheetOf(rows), { rows: 5, rowsAdded: 5, rowsSkipped: 0, visitsAdded: 1, vehicles: 1 });
    const [visit] = await visitsOf();
    expect(visit).toMatchObject({
      odometer: { value: 61240, unit: 'km', km: 61240 },
      workOrder: 'WO-1',
      readings: [
        { kind: 'pad-thickness', pad: 'inner', at: 'thinnest', taken: 'as-found', repeat: 1, mm: 6.5 },
        { kind: 'pad-thickness', pad: 'outer', mm: 7 },
        { kind: 'rotor-thickness', point: 1, mm: 27.9, gauge: 'micrometer' },
      ],
      work: [{ kind: 'pads-replaced', new: { value: 11, unit: 'mm', mm: 11 }, part: 'PS-11' }],
      torques: [{ fastener: 'bolt', position: 1, value: 88, unit: 'ft-lbf' }],
    });
  });

  it('a spreadsheet of visits changes the outlook as the same posted visit does', async () => {
    const twin = await recordVehicle(service, {
      ...contractVehicle(),
      externalId: 'TWIN',
      registration: 'TW 1',
    });
    const pads = [
      ['left', 'inner', 6.5],
      ['right', 'outer', 7],
    ] as const;
    const readings = pads.map(([side, pad, value]) => ({
      kind: 'pad-thickness',
      axle: 'front',
      side,
      pad,
      value,
      unit: 'mm',
    }));
    await recordVisit(service, twin.id, {
      date: '2026-03-02',
      odometer: { value: 61240, unit: 'km' },
      workOrder: 'WO-1',
      readings,
    });
    await expectTaken(sheetOf(pads.map(([side, pad, value]) => padRow({ side, pad, value }))), {});
    const [imported, posted] = await Promise.all(
      [vehicle.id, twin.id].map((id) => read<{ axles: unknown }>(service, `/v1/vehicles/${id}/wear`)),
    );
    expect(imported!.axles).toEqual(posted!.axles);
    const due = await read<{ unassessedCount: number; total: number }>(
      service,
      '/v1/reports/due-soon?withinDays=10000&chance=0',
    );
    expect(due.total + due.unassessedCount).toBe(2);
  });

  it('a spreadsheet of visits collects the rows of a visit from anywhere in the file', async () => {
    const other = await recordVehicle(service, vehicleBody({ externalId: 'OTHER' }));
    const rows = [
      padRow(),
      padRow({ vehicle: 'OTHER', workOrder: 'WO-9' }),
      padRow({ workOrder: 'WO-2', date: '2026-03-03' }),
      padRow({ pad: 'outer' }),
      padRow({ vehicle: 'OTHER', workOrder: 'WO-9', pad: 'outer' }),
    ];
    await expectTaken(sheetOf(rows), { rowsAdded: 5, visitsAdded: 3, vehicles: 2 });
    expect((await visitsOf()).map(({ readings }) => readings.length)).toEqual([1, 2]);
    expect((await visitsOf(other.id)).map(({ readings }) => readings.length)).toEqual([2]);
  });

  it.each([
    ['a byte order mark', (rows: Cells[]) => `\ufeff${sheetOf(rows)}`],
    ['semicolons and decimal commas', (rows: Cells[]) => commas(sheetOf(rows, { separator: ';' }))],
    ['tabs and decimal commas', (rows: Cells[]) => commas(sheetOf(rows, { separator: '\t' }))],
    ['quoted decimal commas', (rows: Cells[]) => sheetOf(rows.map((row) => ({ ...row, value: '6,5' })))],
    ['bare line feeds', (rows: Cells[]) => sheetOf(rows, { newline: '\n' })],
    ['no line end after the last row', (rows: Cells[]) => sheetOf(rows).trimEnd()],
    [
      'blank rows in between',
      (rows: Cells[]) => sheetOf([rows[0]!]).replace('\r\nFD', '\r\n\r\n,,,,,,,,,,\r\nFD'),
    ],
  ])('a spreadsheet of visits is accepted with %s', async (_name, write) => {
    await expectTaken(write([padRow()]), { rows: 1, rowsAdded: 1 });
    expect((await visitsOf())[0]!.readings[0]).toMatchObject({ value: 6.5, mm: 6.5 });
  });
  const commas = (text: string) => text.replace('6.5', '6,5');

  it('a spreadsheet sent a second time adds nothing', async () => {
    const rows = [
      padRow(),
      padRow({ entry: 'torque', pad: '', fastener: 'bolt', value: 88, unit: 'Nm' }),
      padRow({ entry: 'torque', pad: '', fastener: 'bolt', value: 88, unit: 'Nm' }),
      padRow({ entry: 'condition', pad: '', value: '', unit: '', part: 'rotor', state: 'scored' }),
      padRow({
        workOrder: 'WO-2',
        date: '2026-03-03',
        entry: '',
        axle: '',
        side: '',
        pad: '',
        value: '',
        unit: '',
      }),
    ];
    await expectTaken(sheetOf(rows), { rowsAdded: 5, visitsAdded: 2 });
    const before = await contents();
    const again = await sendSheet(service, sheetOf(rows));
    expect(again.status).toBe(200);
    expect(again.body).toMatchObject({ rowsAdded: 0, rowsSkipped: 5, visitsAdded: 0, visitsExtended: 0 });
    expect(await contents()).toEqual(before);
    expect((await visitsOf()).map(({ version }) => version)).toEqual([1, 1]);
  });

  it('a spreadsheet of visits skips known entries and adds the rest to the existing visit', async () => {
    await recordVisit(service, vehicle.id, contractVisit());
    const known = { workOrder: 'WO-20817', gauge: 'pad-gauge' };
    const rows = [padRow(known), padRow({ ...known, pad: 'outer', value: 7 })];
    await expectTaken(sheetOf(rows), { rowsAdded: 1, rowsSkipped: 1, visitsAdded: 0, visitsExtended: 1 });
    const [visit] = await visitsOf();
    expect(visit).toMatchObject({ version: 2 });
    expect(visit!.readings.map(({ kind, pad }) => pad ?? kind)).toEqual([
      'inner',
      'rotor-thickness',
      'rotor-runout',
      'outer',
    ]);
  });

  it('a dry run checks the spreadsheet and stores nothing', async () => {
    const before = await contents();
    const fine = await sendSheet(service, sheetOf([padRow()]), '?dryRun=true');
    expect(fine.status).toBe(200);
    expect(fine.body).toMatchObject({ dryRun: true, state: 'done', rowsAdded: 1, visitsAdded: 1 });
    const wrong = await sendSheet(service, sheetOf([padRow({ value: 'x' })]), '?dryRun=true');
    expect(wrong.status).toBe(200);
    expect(wrong.body).toMatchObject({ dryRun: true, state: 'refused', errorsTotal: 1 });
    expect(wrong.body.errors).toEqual([expect.objectContaining({ line: 2, column: 'value' })]);
    expect(await contents()).toEqual(before);
  });

  it('a spreadsheet of visits tells several visits of one day apart by number', async () => {
    const rows = [padRow({ workOrder: '', visit: 1 }), padRow({ workOrder: '', visit: 2, value: 6.4 })];
    await expectTaken(sheetOf(rows), { visitsAdded: 2 });
    const again = await sendSheet(service, sheetOf(rows));
    expect(again.body).toMatchObject({ rowsSkipped: 2, rowsAdded: 0 });
    await expectRefused(sheetOf([padRow({ workOrder: '' })]), [{ column: 'visit', code: 'ambiguous-visit' }]);
    for (const visit of [0, 1.5, 4])
      await expectRefused(sheetOf([padRow({ workOrder: '', visit })]), [
        { column: 'visit', code: 'visit-number' },
      ]);
  });
});

describe('a spreadsheet with errors', () => {
  it('a spreadsheet with errors is refused as a whole, with every bad row by line and column', async () => {
    const rows = [
      padRow({ notes: 'two\nlines' }),
      padRow({ pad: 'outer', value: '6.x' }),
      padRow({ side: 'right', value: 99 }),
      padRow({ side: 'middle', pad: 'outer' }),
      padRow({ vehicle: 'nobody' }),
      padRow({ entry: 'paint' }),
      padRow({ vehicle: '' }),
      padRow({ entry: 'torque', pad: 'inner', fastener: 'bolt', unit: 'Nm' }),
    ];
    await expectRefused(sheetOf(rows), [
      { line: 4, column: 'value', code: 'not-a-number' },
      { line: 5, column: 'value', code: 'invalid' },
      { line: 6, column: 'side', code: 'invalid' },
      { line: 7, column: 'vehicle', code: 'unknown-vehicle' },
      { line: 8, column: 'entry', code: 'unknown-entry' },
      { line: 9, column: 'vehicle', code: 'missing' },
      { line: 10, column: 'pad', code: 'invalid' },
    ]);
    expect(await visitsOf()).toEqual([]);
  });

  it.each<[string, Cells[], object]>([
    ['an axle the vehicle lacks', [padRow({ axle: 'rear' })], { line: 2, column: 'axle' }],
    ['an unknown gauge', [padRow({ gauge: 'ruler-x' })], { line: 2, column: 'gauge' }],
    ['a date in the future', [padRow({ date: '2031-01-01' })], { line: 2, column: 'date' }],
    ['a missing date', [padRow({ date: '2.3.2026' })], { line: 2, column: 'date' }],
    [
      'an invalid time of day',
      [padRow(), padRow({ pad: 'outer', time: '25:00' })],
      { line: 3, column: 'time' },
    ],
    ['a number without a unit', [padRow({ unit: '' })], { line: 2, column: 'unit' }],
    ['an odometer without a unit', [padRow({ odometerUnit: '' })], { line: 2, column: 'odometerUnit' }],
    [
      'an odometer that runs backwards in the file',
      [padRow(), padRow({ date: '2026-03-05', workOrder: 'WO-2', odometer: 60000 })],
      { line: 3, column: 'odometer', detail: expect.stringContaining('of line 2') },
    ],
    [
      'one place with two values',
      [padRow(), padRow({ value: 6 })],
      { line: 3, column: 'value', code: 'conflict' },
    ],
    [
      'two odometers for one visit',
      [padRow(), padRow({ pad: 'outer', odometer: 61241 })],
      { line: 3, column: 'odometer', code: 'conflict' },
    ],
    [
      'a work order on two days',
      [padRow(), padRow({ date: '2026-03-05', odometer: 62000 })],
      { line: 3, column: 'workOrder', code: 'work-order-known' },
    ],
    [
      'decimal points and commas',
      [padRow(), padRow({ pad: 'outer', value: '6,25' })],
      { line: 3, column: 'value', code: 'mixed-decimal-marks' },
    ],
    [
      'a possible thousands separator',
      [padRow({ odometer: '61,240', value: 6 })],
      { line: 2, column: 'odometer', code: 'ambiguous-number' },
    ],
    ['an entry without its kind', [padRow({ entry: '' })], { line: 2, column: 'entry', code: 'missing' }],
    [
      'a specification without a unit',
      [padRow({ entry: 'pads-replaced', pad: '', value: '', unit: '', new: 11 })],
      { line: 2, column: 'unit' },
    ],
  ])('the error of a spreadsheet names %s', async (_name, rows, error) => {
    await expectRefused(sheetOf(rows), [error]);
  });

  it('the error names a value that contradicts the existing visit', async () => {
    await recordVisit(service, vehicle.id, contractVisit());
    const known = { workOrder: 'WO-20817', gauge: 'pad-gauge' };
    const rows = [
      padRow({ ...known, value: 6 }),
      padRow({ ...known, pad: 'outer', odometer: 61250 }),
      padRow({
        ...known,
        entry: 'torque',
        pad: '',
        fastener: 'caliper-bracket-bolt',
        position: 1,
        gauge: '',
        unit: 'ft-lbf',
        value: 90,
      }),
    ];
    await expectRefused(sheetOf([rows[0]!]), [{ line: 2, column: 'value', code: 'conflict' }]);
    await expectRefused(sheetOf([rows[1]!]), [{ line: 2, column: 'odometer', code: 'conflict' }]);
    await expectRefused(sheetOf([{ ...rows[2]! }]), [{ line: 2, column: 'value', code: 'conflict' }]);
  });

  it('the error names a registration that two vehicles have, unless the number is given', async () => {
    const twin = { externalId: null, registration: 'TW 1' };
    await recordVehicle(service, vehicleBody(twin));
    const second = await recordVehicle(service, vehicleBody(twin));
    await expectRefused(sheetOf([padRow({ vehicle: 'TW 1' })]), [
      { line: 2, column: 'vehicle', code: 'ambiguous-vehicle' },
    ]);
    await expectTaken(sheetOf([padRow({ vehicle: 'TW 1', vehicleNumber: 2 })]), { visitsAdded: 1 });
    expect(await visitsOf(second.id)).toHaveLength(1);
  });

  it('the answer has the first thousand errors and the total', async () => {
    const rows = Array.from({ length: 1234 }, (_, index) => padRow({ repeat: index + 1, value: 'thin' }));
    const response = await sendSheet(service, sheetOf(rows));
    expect(response.status).toBe(422);
    expect(response.body).toMatchObject({ errorsTotal: 1234, rows: 1234 });
    const lines = response.body.errors.map(({ line }: { line: number }) => line);
    expect(lines).toEqual(Array.from({ length: 1000 }, (_, index) => index + 2));
  });

  it.each<[string, string | Buffer, object]>([
    [
      'an unknown column',
      'vehicle,date,entry,colour\r\n',
      { line: 1, column: 'colour', code: 'unknown-column' },
    ],
    ['a column twice', 'vehicle,date,entry,date\r\n', { line: 1, column: 'date', code: 'column-twice' }],
    ['a missing required column', 'vehicle,date\r\n', { line: 1, column: 'entry', code: 'missing-column' }],
    [
      'too many cells',
      'vehicle,date,entry\r\nFD-1007,2026-03-02,,,x\r\n',
      { line: 2, column: null, code: 'cell-count' },
    ],
    [
      'a quote that is never closed',
      'vehicle,date,entry\r\n"FD-1007,2026-03-02,\r\n',
      { line: 2, code: 'not-csv' },
    ],
    ['a quote out of place', 'vehicle,date,entry\r\nFD-1007,"a"b,\r\n', { line: 2, code: 'not-csv' }],
    [
      'UTF-8 that ends inside a character',
      Buffer.concat([Buffer.from('vehicle,date,entry\r\nMüller,2026-03-02,\r\n'), Buffer.from([0xc3])]),
      { code: 'not-utf-8' },
    ],
    ['nothing', '\n', { line: 1, column: '', code: 'unknown-column' }],
  ])('the file is refused for %s', async (_name, text, error) => {
    const response = await sendSheet(service, text);
    expect(response.status).toBe(422);
    expect(response.body.errors[0]).toEqual(expect.objectContaining(error));
  });

  it('another encoding or content that is not CSV is refused at once', async () => {
    const post = () => service.as('owner', 'post', '/v1/imports/visits');
    const latin = await post().set('Content-Type', 'text/csv; charset=iso-8859-1').send('x');
    expect(latin.status).toBe(415);
    const json = await post().send({});
    expect(json.status).toBe(415);
    expect(json.headers.accept).toBe('text/csv');
    const utf8 = await post()
      .set('Content-Type', 'text/csv; charset=UTF-8; header=present')
      .send(sheetOf([padRow()]));
    expect(utf8.status).toBe(201);
  });
});

describe('an import job', () => {
  const waitFor = async (path: string) => {
    for (;;) {
      const report = await read<{ state: string; finishedAt: string | null }>(service, path);
      if (report.finishedAt !== null) return report;
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
  };

  it('an import job can run in the background and be looked up', async () => {
    const response = await sendSheet(service, sheetOf([padRow()])).set('Prefer', 'respond-async');
    expect(response.status).toBe(202);
    expect(response.headers['preference-applied']).toBe('respond-async');
    expect(response.headers.location).toBe(`/v1/imports/${response.body.id}`);
    const report = await waitFor(response.headers.location!);
    expect(report).toMatchObject({ state: 'done', rowsAdded: 1, by: 'front-desk' });
    expect(await visitsOf()).toHaveLength(1);
    const refused = await sendSheet(service, sheetOf([padRow({ value: 'x' })])).set(
      'Prefer',
      'respond-async',
    );
    expect(await waitFor(refused.headers.location!)).toMatchObject({ state: 'refused', errorsTotal: 1 });
    const list = await read<{ items: { state: string }[] }>(service, '/v1/imports');
    expect(list.items.map(({ state }) => state)).toEqual(['refused', 'done']);
  });

  it('an import job repeated under its Idempotency-Key gets the same bytes', async () => {
    const send = (text: string) => sendSheet(service, text).set('Idempotency-Key', 'file-1');
    const first = await send(sheetOf([padRow()]));
    expect(first.status).toBe(201);
    const again = await send(sheetOf([padRow()]));
    expect(again.status).toBe(201);
    expect(again.headers['idempotent-replayed']).toBe('true');
    expect(again.text).toBe(first.text);
    expect(again.headers.location).toBe(first.headers.location);
    const other = await send(sheetOf([padRow({ value: 6 })]));
    expect(other.status).toBe(422);
    expect(other.body.code).toBe('idempotency-key-reused');
    expect((await read<{ items: unknown[] }>(service, '/v1/imports')).items).toHaveLength(1);
  });

  it('an import job that failed after its 202 is accepted again under its Idempotency-Key', async () => {
    const { imports } = service.store;
    const { visits } = imports;
    // Interrupted as if the service closed just after the 202.
    imports.visits = (...asked) => {
      const ended = visits(...asked);
      void imports.stop();
      return ended;
    };
    const send = (text = sheetOf([padRow()])) =>
      sendSheet(service, text).set({ Prefer: 'respond-async', 'Idempotency-Key': 'broken-off' });
    const first = await send();
    expect(first.status).toBe(202);
    expect((await waitFor(first.headers.location!)).state).toBe('failed');
    imports.visits = visits;
    const second = await send();
    expect([second.status, second.headers['idempotent-replayed']]).toEqual([202, undefined]);
    expect(second.body.id).not.toBe(first.body.id);
    expect((await waitFor(second.headers.location!)).state).toBe('done');
    const third = await send();
    expect([third.headers['idempotent-replayed'], third.text]).toEqual(['true', second.text]);
    expect((await send(sheetOf([padRow({ value: 6 })]))).body.code).toBe('idempotency-key-reused');
  });

  it('an import job that a process left unfinished is marked as failed at the next start', async () => {
    const dying = await service.openAnother();
    const begun = await dying.imports.begin(
      { keyName: 'front-desk', role: 'front-desk', fleets: null },
      'visits',
      { dryRun: false },
    );
    await dying.close();
    expect((await read<{ state: string }>(service, `/v1/imports/${begun.id}`)).state).toBe('receiving');
    // A server notices a moment later that a process has ended.
    await expect
      .poll(async () => {
        await service.store.imports.recover();
        return (await read<{ state: string }>(service, `/v1/imports/${begun.id}`)).state;
      })
      .toBe('failed');
    const report = await read<{ state: string; detail: string }>(service, `/v1/imports/${begun.id}`);
    expect(report.detail).toContain('nothing was imported');
  });

  it.skipIf(onSqlite)('an import job that another process is running is left alone', async () => {
    const other = await service.openAnother();
    const begun = await other.imports.begin(
      { keyName: 'front-desk', role: 'front-desk', fleets: null },
      'visits',
      { dryRun: false },
    );
    await service.store.imports.recover();
    expect((await read<{ state: string }>(service, `/v1/imports/${begun.id}`)).state).toBe('receiving');
    await other.close();
  });

  it('an import job interrupted by shutdown stores nothing', async () => {
    const before = await contents();
    const rows = Array.from({ length: 6000 }, (_, index) =>
      padRow({
        workOrder: `WO-${index}`,
        date: `20${24 + (index % 2)}-01-0${1 + (index % 9)}`,
        odometer: '',
      }),
    );
    const waiting = sendSheet(service, sheetOf(rows)).then((response) => response);
    while ((await service.store.imports.list({ limit: 1, after: null })).items[0]?.state !== 'checking')
      await new Promise((resolve) => setTimeout(resolve, 1));
    await service.store.imports.stop();
    const response = await waiting;
    expect(response.status).toBe(503);
    expect(response.body.detail).toContain('nothing was imported');
    expect((await read<{ state: string }>(service, response.headers.location!)).state).toBe('failed');
    expect(await contents()).toEqual(before);
    await expectTaken(sheetOf([padRow()]), { rowsAdded: 1 });
  });

  it('an import job writes versions and audit lines under the name of the key that sent it', async () => {
    const known = await recordVisit(service, vehicle.id, { date: '2026-03-01', workOrder: 'WO-0' });
    const rows = [
      padRow({ date: '2026-03-01', workOrder: 'WO-0', odometer: '', odometerUnit: '' }),
      padRow(),
    ];
    await expectTaken(sheetOf(rows), { visitsAdded: 1, visitsExtended: 1 });
    await sendVehicles(service, `${JSON.stringify(vehicleBody({ externalId: 'IM-1' }))}\n`, '', 'owner');

    const [latest] = await visitsOf();
    interface Listed {
      items: { kind: string; by: string; body: Record<string, unknown>; version: number }[];
    }
    const historyOf = async (id: string) => (await read<Listed>(service, `/v1/visits/${id}/history`)).items;
    expect(await historyOf(latest!.id)).toMatchObject([
      {
        version: 1,
        kind: 'recorded',
        by: 'front-desk',
        body: { workOrder: 'WO-1', readings: [{ value: 6.5 }] },
      },
    ]);
    expect(await historyOf(known.id)).toMatchObject([
      { version: 1, kind: 'recorded', by: 'technician' },
      { version: 2, kind: 'entries-added', by: 'front-desk', body: { readings: [{ value: 6.5 }] } },
    ]);
    const audit = await service.as('owner', 'get', '/v1/audit?limit=200');
    const lines = (audit.body.items as Record<string, string | null>[])
      .filter(({ resource }) => resource !== 'key')
      .map(({ key, action, resource, detail }) => [key, action, resource, detail].filter(Boolean).join(' '));
    expect(lines).toEqual([
      'technician recorded vehicle',
      'technician recorded visit',
      'front-desk entries-added visit',
      'front-desk recorded visit',
      'front-desk imported import 1 visits recorded, 1 added to, with 2 rows; 0 rows already known',
      'owner recorded vehicle',
      'owner imported import 1 vehicles recorded, 0 already known',
    ]);
    await sendSheet(service, sheetOf(rows));
    await sendSheet(service, sheetOf([padRow({ value: 6, pad: 'outer' })]), '?dryRun=true');
    expect((await service.as('owner', 'get', '/v1/audit?limit=200')).body.items).toEqual(audit.body.items);
  });

  it('the visits of an import job can be corrected later, and each item keeps its id', async () => {
    await expectTaken(sheetOf([padRow(), padRow({ pad: 'outer', value: 7 })]), { visitsAdded: 1 });
    const [visit] = await visitsOf();
    const notes = await correct(service, visit!.id, { reason: 'added', changes: { notes: 'seen' } });
    expect(notes.status).toBe(200);
    await expectTaken(sheetOf([padRow({ side: 'right' })]), { visitsExtended: 1, rowsAdded: 1 });
    const [after] = await visitsOf();
    expect(after).toMatchObject({ version: 3, readings: [...visit!.readings, { side: 'right' }] });
    const ids = after!.readings.map(({ id }) => id);
    expect(new Set(ids).size).toBe(3);
  });

  it('an import job ignores voided visits, whose work orders are free', async () => {
    await expectTaken(sheetOf([padRow()]), { visitsAdded: 1 });
    const [visit] = await visitsOf();
    await setVoided(service, visit!.id, true);
    await expectTaken(sheetOf([padRow({ value: 5 })]), { visitsAdded: 1, rowsAdded: 1, rowsSkipped: 0 });
    expect(await visitsOf()).toMatchObject([{ readings: [{ value: 5 }] }]);
  });

  it('an import job may name a shop’s own gauge', async () => {
    const gauge = { kind: 'depth-gauge', resolution: { value: 0.1, unit: 'mm' } };
    const rows = sheetOf([padRow({ gauge: 'depth-gauge-2' })]);
    await expectRefused(rows, [{ line: 2, column: 'gauge' }]);
    expect((await service.as('owner', 'put', '/v1/gauges/depth-gauge-2').send(gauge)).status).toBe(201);
    await expectTaken(rows, { visitsAdded: 1 });
  });

  it('the visits of an import job are accepted in any order that is consistent', async () => {
    const visit = (workOrder: string, cells: Cells) => padRow({ workOrder, ...cells });
    const rows = [
      visit('WO-1', { date: '2025-01-10', odometer: 50_000 }),
      visit('WO-2', { date: '2025-07-10', odometer: 3_000 }),
      visit('WO-3', { date: '2025-04-01', odometer: 10, odometerReplaced: 'true' }),
    ];
    await expectRefused(sheetOf(rows.slice(0, 2)), [{ line: 3, column: 'odometer' }]);
    await expectTaken(sheetOf(rows), { visitsAdded: 3 });
    await expectTaken(sheetOf([visit('WO-4', { date: '2025-08-10', odometer: 4_000 })]), { visitsAdded: 1 });
  });

  it('an import job waits for its turn, and takes into account visits posted in the meantime', async () => {
    const rows = Array.from({ length: 18 }, (_, index) => padRow({ repeat: index + 1 }));
    const [first, second, posted] = await Promise.all([
      sendSheet(service, sheetOf(rows)),
      sendSheet(service, sheetOf(rows)),
      service
        .as('technician', 'post', `/v1/vehicles/${vehicle.id}/visits`)
        .send({ date: '2026-03-01', odometer: { value: 61000, unit: 'km' }, workOrder: 'WO-0' }),
    ]);
    expect([first.status, second.status].sort()).toEqual([200, 201]);
    expect(posted.status).toBe(201);
    expect((await visitsOf()).map(({ readings }) => readings.length)).toEqual([18, 0]);
  });

  it('staff may import, and only the owner may export', async () => {
    const sent = await sendSheet(service, sheetOf([padRow()]), '', 'fleet-manager');
    expect(sent.status).toBe(403);
    for (const kind of ['visits', 'vehicles']) {
      for (const role of ['front-desk', 'technician', 'fleet-manager'] as const) {
        expect((await service.as(role, 'get', `/v1/exports/${kind}`)).status).toBe(403);
      }
    }
    expect(await exported(service, 'visits')).toMatch(/^vehicle,date,time,odometer,/);
  });

  it('an import job accepts no query parameter but dryRun', async () => {
    const response = await sendSheet(service, sheetOf([padRow()]), '?dryrun=true');
    expect(response.status).toBe(400);
    expect(await visitsOf()).toEqual([]);
  });
});
