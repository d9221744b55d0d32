import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { contractVehicle } from '../support/bodies.js';
import { read, recordVehicle, type Recorded } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

/** Spreadsheets as shops have them, saved by other programs, with various dates, separators and encodings. */

let service: Service;
let vehicle: Recorded;
let count = 0;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());
beforeEach(async () => {
  count += 1;
  const registration = `Ü${count} ab`;
  vehicle = await recordVehicle(service, { ...contractVehicle(), externalId: `F-${count}`, registration });
});

const send = (text: string | Buffer, query = '') =>
  service
    .as('front-desk', 'post', `/v1/imports/visits${query}`)
    .set('Content-Type', 'text/csv')
    .send(text as string);

const HEADINGS = 'vehicle,date,odometer,odometerUnit,entry,axle,side,pad,value,unit,gauge';
const row = (cells: Partial<Record<string, string>> = {}): string =>
  Object.values({
    vehicle: `F-${count}`,
    date: '2026-03-02',
    odometer: '61240',
    odometerUnit: 'km',
    entry: 'pad-thickness',
    axle: 'front',
    side: 'left',
    pad: 'inner',
    value: '6.5',
    unit: 'mm',
    gauge: 'pad-gauge',
    ...cells,
  }).join(',');
const sheet = (...rows: string[]): string => [HEADINGS, ...rows, ''].join('\r\n');
const semicolons = (text: string): string => text.replaceAll(',', ';');

const visits = async () =>
  (await read<{ items: Record<string, unknown>[] }>(service, `/v1/vehicles/${vehicle.id}/visits`)).items;

/** The one visit that every spreadsheet here contains. */
async function expectRecorded(text: string | Buffer, query = ''): Promise<void> {
  const response = await send(text, query);
  expect(response.body).toMatchObject({ state: 'done', errors: [], rowsAdded: 1 });
  expect(await visits()).toEqual([
    expect.objectContaining({
      date: '2026-03-02',
      odometer: { value: 61240, unit: 'km', km: 61240 },
      readings: [
        expect.objectContaining({
          kind: 'pad-thickness',
          side: 'left',
          pad: 'inner',
          value: 6.5,
          unit: 'mm',
        }),
      ],
    }),
  ]);
}

describe('a spreadsheet of visits is accepted', () => {
  it.each<[string, () => string | Buffer, string?]>([
    ['with headings in any case', () => sheet(row()).replace(HEADINGS, HEADINGS.toUpperCase())],
    [
      'with terms in any case',
      () =>
        sheet(
          row({
            entry: 'Pad-Thickness',
            axle: 'FRONT',
            side: 'Left',
            pad: 'Inner',
            unit: 'MM',
            odometerUnit: 'KM',
          }),
        ),
    ],
    ['with empty columns at the end', () => sheet(row()).replaceAll('\r\n', ',,\r\n')],
    ['with a line that names the separator', () => `sep=;\r\n${semicolons(sheet(row()))}`],
    ['with the plate typed another way', () => sheet(row({ vehicle: `ü${count}-AB` }))],
    ['with thousands separated by spaces', () => sheet(row({ odometer: '61 240' }))],
    ['with thousands separated by no-break spaces', () => sheet(row({ odometer: '61\u00a0240' }))],
    ['with thousands separated by narrow no-break spaces', () => sheet(row({ odometer: '61\u202f240' }))],
    ['with decimal commas', () => semicolons(sheet(row())).replace('6.5', '6,5')],
    ['in Windows-1252', () => Buffer.from(sheet(row({ vehicle: `Ü${count} AB` })), 'latin1')],
    ['in UTF-8 with a byte order mark', () => `\ufeff${sheet(row({ vehicle: `Ü${count} AB` }))}`],
    ['in UTF-16', () => Buffer.from(`\ufeff${sheet(row({ vehicle: `Ü${count} AB` }))}`, 'utf16le')],
    ['in UTF-16 of the other byte order', () => Buffer.from(`\ufeff${sheet(row())}`, 'utf16le').swap16()],
    ['in UTF-16 without a byte order mark', () => Buffer.from(sheet(row()), 'utf16le')],
    ['with the dates of a German clerk', () => sheet(row({ date: '2.3.2026' })), '?dates=DD.MM.YYYY'],
    ['with the day first', () => sheet(row({ date: '02/03/2026' })), '?dates=DD/MM/YYYY'],
    ['with the month first', () => sheet(row({ date: '03/02/2026' })), '?dates=MM/DD/YYYY'],
  ])('a spreadsheet of visits is accepted %s', async (_name, text, query) => {
    await expectRecorded(text(), query);
  });

  it('a spreadsheet of visits is accepted with times of day in the forms that spreadsheets write', async () => {
    const text = sheet(row()).replace('odometer,', 'time,odometer,').replace('61240', '8:10:00,61240');
    expect((await send(text)).status).toBe(201);
    expect(await visits()).toEqual([expect.objectContaining({ time: '08:10' })]);
  });
});

describe('a spreadsheet of visits that cannot be understood', () => {
  const refusal = async (text: string, query = '') => {
    const { status, body } = await send(text, query);
    expect(status).toBe(422);
    expect(await visits()).toEqual([]);
    return body.errors[0];
  };

  it('a spreadsheet is refused by line and column if its dates are in a form that the request does not name', async () => {
    expect(await refusal(sheet(row(), row({ date: '02/03/2026', pad: 'outer' })))).toMatchObject({
      line: 3,
      column: 'date',
      code: 'not-a-date',
      detail: expect.stringMatching(/YYYY-MM-DD.*DD\/MM\/YYYY or MM\/DD\/YYYY/),
    });
  });

  it('a spreadsheet is refused by line and column if a date does not exist in the form that the request names', async () => {
    const error = await refusal(sheet(row({ date: '03/31/2026' })), '?dates=DD/MM/YYYY');
    expect(error).toMatchObject({ line: 2, column: 'date', detail: expect.stringContaining('DD/MM/YYYY') });
  });

  it('a spreadsheet is refused by line and column if an entry is unknown, counting lines from the separator line on', async () => {
    const error = await refusal(`sep=,\r\n${sheet(row({ entry: 'pads' }))}`);
    expect(error).toMatchObject({
      line: 3,
      column: 'entry',
      detail: expect.stringContaining('pad-thickness'),
    });
  });

  it('a spreadsheet is refused by line and column if a number can be read in two ways', async () => {
    const error = await refusal(sheet(row({ odometer: '"61,240"' })));
    expect(error).toMatchObject({ line: 2, column: 'odometer', code: 'ambiguous-number' });
  });

  it('a spreadsheet is refused if the form of its dates is unknown', async () => {
    const { status, body } = await send(sheet(row()), '?dates=YY-MM-DD');
    expect([status, body.errors[0].parameter]).toEqual([400, 'dates']);
  });
});
