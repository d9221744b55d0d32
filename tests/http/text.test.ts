import { describe, expect, it } from 'vitest';
import { vehicleBody, visitBody } from '../support/bodies.js';
import { service, serveOneVehicle, vehicle } from '../support/oneVehicle.js';

serveOneVehicle();

const post = (path: string, body: string | object) =>
  service.as('technician', 'post', path).type('json').send(body);
const sendBytes = (path: string, bytes: Buffer) =>
  service
    .as('technician', 'post', path)
    .type('json')
    .serialize((body) => body as never)
    .send(bytes);

describe('a body that is not valid text', () => {
  it.each([
    '{"axles":{"front":{}},"externalId":"x","\\ud800":1}',
    '{"axles":{"\\udfff":{}},"externalId":"x"}',
  ])('half of a surrogate pair in a member name gets 400: %s', async (text) => {
    const before = await service.rowCounts();
    const { status, body } = await post('/v1/vehicles', text);
    expect([status, body.code]).toEqual([400, 'malformed-request']);
    expect(await service.rowCounts()).toEqual(before);
  });

  it.each([
    ['Latin-1', Buffer.from('{"externalId":"caf\xe9","axles":{"front":{}}}', 'latin1')],
    ['UTF-16', Buffer.from('{"externalId":"caf\xe9","axles":{"front":{}}}', 'utf16le')],
    [
      'a surrogate encoded as UTF-8',
      Buffer.from('{"externalId":"\xed\xa0\x80","axles":{"front":{}}}', 'latin1'),
    ],
  ])('a body that is %s gets 400', async (_what, bytes) => {
    const before = await service.rowCounts();
    const { status, body } = await sendBytes('/v1/vehicles', bytes);
    expect([status, body.code, body.detail]).toEqual([400, 'malformed-request', 'the body is not UTF-8']);
    expect(await service.rowCounts()).toEqual(before);
  });

  it('a body with more members or items than any body may have gets 400', async () => {
    const members = Array.from({ length: 80_000 }, (_, at) => `"m${at}":1`).join(',');
    for (const [path, text] of [
      ['/v1/vehicles', `{${members}}`],
      ['/v1/vehicles', `{"externalId":"x","axles":{"front":{"torque":{${members}}}}}`],
      [`/v1/vehicles/${vehicle.id}/visits`, `{"date":"2026-03-01","readings":[${'1,'.repeat(80_000)}1]}`],
    ] as const) {
      const { status, body } = await post(path, text);
      expect([status, body.code]).toEqual([400, 'malformed-request']);
    }
  });
});

describe('text that callers send', () => {
  const decomposed = 'Mu\u0308nchen';
  const composed = 'M\u00fcnchen';

  it('text that callers send is stored trimmed and in NFC', async () => {
    const { body } = await post('/v1/vehicles', {
      ...vehicleBody(),
      description: `  ${decomposed} van\n`,
      fleet: ` ${decomposed}`,
    });
    expect([body.description, body.fleet]).toEqual([`${composed} van`, composed]);
    const visit = await post(`/v1/vehicles/${vehicle.id}/visits`, {
      ...visitBody('2026-03-02', null),
      notes: ` ${decomposed}\t`,
    });
    expect(visit.body.notes).toBe(composed);
  });

  it('invisible characters are removed from identifiers and kept in notes', async () => {
    const sent = {
      ...vehicleBody(),
      registration: 'KR\u200b 44\u00ad71\u2060',
      fleet: 'north\ufeff-depot\u200d',
    };
    const { body } = await post('/v1/vehicles', { ...sent, description: 'می\u200cخواهم' });
    expect(body).toMatchObject({
      registration: 'KR 4471',
      fleet: 'north-depot',
      description: 'می\u200cخواهم',
    });
  });

  it('text without visible characters is no identifier', async () => {
    const { status, body } = await post('/v1/vehicles', { ...vehicleBody(), externalId: ' \u200b\u00ad ' });
    expect([status, body.errors[0].pointer]).toEqual([422, '#/externalId']);
  });

  it.each(['a\tb', 'a\nb', 'a\r\nb'])('text with two lines or a tab is no identifier: %j', async (text) => {
    const { status, body } = await post('/v1/vehicles', { ...vehicleBody(), fleet: text });
    expect([status, body.errors[0].pointer]).toEqual([422, '#/fleet']);
  });

  it('text that looks the same names the same vehicle, work order and fleet', async () => {
    const first = await post('/v1/vehicles', {
      ...vehicleBody(),
      externalId: `${composed}-1`,
      fleet: composed,
    });
    const second = await post('/v1/vehicles', { ...vehicleBody(), externalId: ` ${decomposed}\u200b-1` });
    expect([second.status, second.body.vehicleId]).toEqual([409, first.body.id]);
    const path = `/v1/vehicles/${vehicle.id}/visits`;
    const visit = { date: '2026-03-03', workOrder: 'WO\u0301-1' };
    expect((await post(path, visit)).status).toBe(201);
    expect((await post(path, { ...visit, workOrder: ' W\u00d3\u200b-1 ' })).status).toBe(200);
    const found = await service
      .as('technician', 'get', '/v1/vehicles')
      .query({ fleet: ` ${decomposed}\u200b`, externalId: `${decomposed}-1` });
    expect(found.body.items).toHaveLength(1);
  });

  it('text that looks the same names the same vehicle in a spreadsheet', async () => {
    const named = await post('/v1/vehicles', { ...vehicleBody(), externalId: `${composed}-2` });
    const csv = `vehicle,date,entry,notes\n ${decomposed}\u200b-2 ,2026-03-04,," ${decomposed} "\n`;
    const report = await service
      .as('technician', 'post', '/v1/imports/visits')
      .set('Content-Type', 'text/csv')
      .send(csv);
    expect([report.status, report.body.errors]).toEqual([201, []]);
    const visits = await service.as('technician', 'get', `/v1/vehicles/${named.body.id}/visits`);
    expect(visits.body.items).toMatchObject([{ notes: composed }]);
  });
});
