import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Role } from '../../src/core/vocabulary/terms.js';
import { contractVehicle, fourPads, vehicleBody, visitBody } from '../support/bodies.js';
import { getPage, OWN_FORM, signIn } from '../support/pages.js';
import { read, recordHistory, recordVehicle, type Recorded } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

/** What the forms record, refuse and remember, sent as a browser without script would send them. */

let service: Service;
let cookies: Record<Role, string>;
let vehicle: Recorded;
beforeAll(async () => {
  service = await startService();
  const roles = ['front-desk', 'technician', 'fleet-manager', 'owner'] as const;
  const signedIn = await Promise.all(roles.map((role) => signIn(service, service.keys[role])));
  cookies = Object.fromEntries(roles.map((role, index) => [role, signedIn[index]!])) as typeof cookies;
});
afterAll(() => service.close());
beforeEach(async () => {
  vehicle = await recordVehicle(service, { ...contractVehicle(), externalId: `FORM-${Math.random()}` });
});

const page = (path: string, role: Role = 'technician') => getPage(service, cookies[role], path);
const post = (path: string, fields: Record<string, string>, role: Role = 'technician') =>
  service.unchecked
    .post(path)
    .type('form')
    .set(OWN_FORM)
    .set('Cookie', cookies[role])
    .send(fields)
    .redirects(0);

/** The form of a page as a browser would send it unchanged. */
async function formOf(path: string, role: Role = 'technician'): Promise<Record<string, string>> {
  const { text, status } = await page(path, role);
  expect(status).toBe(200);
  const fields: Record<string, string> = {};
  const form = text.slice(text.indexOf('<form class="narrow"'));
  for (const [, tag] of form.slice(0, form.indexOf('</form>')).matchAll(/<(?:input)\s([^>]*)>/g)) {
    const name = /name="([^"]*)"/.exec(tag!)?.[1];
    const isOff = /type="(?:checkbox|radio)"/.test(tag!) && !/\schecked/.test(tag!);
    if (name && !isOff) fields[name] = /value="([^"]*)"/.exec(tag!)?.[1] ?? '';
  }
  return fields;
}

const visits = (id = vehicle.id) =>
  read<{ items: Record<string, unknown>[] }>(service, `/v1/vehicles/${id}/visits`).then(({ items }) => items);

const recordPath = () => `/vehicles/${vehicle.id}/record`;
const PADS = { 'front.linings.found.left.inner': '6,5', 'front.linings.found.left.outer': '7' };

describe('the visit form', () => {
  it('the visit form records the visit and leads to the sheet, which says what changed', async () => {
    const fields = { ...(await formOf(recordPath())), odometer: '39,120', ...PADS };
    const saved = await post(recordPath(), fields);
    expect(saved.status).toBe(303);
    expect(saved.headers.location).toMatch(new RegExp(`^/vehicles/${vehicle.id}\\?saved=`));
    expect(await visits()).toEqual([
      expect.objectContaining({
        odometer: { value: 39120, unit: 'km', km: 39120 },
        readings: [
          expect.objectContaining({ value: 6.5, unit: 'mm' }),
          expect.objectContaining({ value: 7 }),
        ],
      }),
    ]);
    const sheet = await page(saved.headers.location!);
    expect(sheet.text).toMatch(/The visit of \d+\sMarch is saved\./);
    expect(sheet.text).toContain('Front axle:');
  });

  it('the visit form records the visit once, however often it is sent', async () => {
    const fields = { ...(await formOf(recordPath())), odometer: '39120', ...PADS };
    const [first, second] = await Promise.all([post(recordPath(), fields), post(recordPath(), fields)]);
    const third = await post(recordPath(), fields);
    expect([first.status, second.status, third.status]).toEqual([303, 303, 303]);
    expect(new Set([first, second, third].map(({ headers }) => headers.location)).size).toBe(1);
    expect(await visits()).toHaveLength(1);
  });

  it('the visit form sent again with other content after the back button records nothing and keeps what was typed', async () => {
    const fields = { ...(await formOf(recordPath())), odometer: '39120', ...PADS };
    await post(recordPath(), fields);
    const again = await post(recordPath(), { ...fields, 'front.linings.found.left.inner': '5.5' });
    expect(again.status).toBe(409);
    expect(again.text).toContain('saved before you changed it');
    expect(again.text).toContain('value="5.5"');
    expect(await visits()).toHaveLength(1);
  });

  it('a refused visit form names the error beside each field and keeps what was typed', async () => {
    await recordHistory(service, vehicleBody(), []);
    await post(recordPath(), {
      ...(await formOf(recordPath())),
      date: '2026-02-01',
      odometer: '39120',
      ...PADS,
    });
    const fields = {
      ...(await formOf(recordPath())),
      odometer: '3.912',
      technician: 'T<5>',
      'front.linings.found.left.inner': '62',
      'front.linings.found.left.outer': 'thin',
    };
    const { status, text } = await post(recordPath(), fields);
    expect(status).toBe(422);
    expect(text).toContain('Not saved: 2 entries to check.');
    expect(text).toContain('62 mm cannot be a pad. Was it 6.2?');
    expect(text).toContain('“thin” is not a number');
    for (const typed of ['3.912', 'T&#60;5&#62;', '62', 'thin']) expect(text).toContain(`value="${typed}"`);
    expect(await visits()).toHaveLength(1);
    const odometer = await post(recordPath(), { ...fields, ...PADS });
    expect(odometer.text).toContain('is less than on 1 February. Is a digit missing?');
    expect(odometer.text).toMatch(/<a href="\/visits\/[^"]+\/correct">correct that visit<\/a>/);
    expect(await visits()).toHaveLength(1);
  });

  it('the summary of a refusal follows the page and links to each field, where the error is', async () => {
    const { status, text } = await post(recordPath(), {
      ...(await formOf(recordPath())),
      'front.torque.0.left.2': 'tight',
      'front.work.pads-replaced.new': 'eleven',
      'front.linings.found.right.outer': 'thin',
      'front.linings.found.left.inner': '62',
      'front.condition.2.state': 'cracked',
      odometer: '3,1,2',
    });
    expect(status).toBe(422);
    const summary = text.slice(text.indexOf('id="refused"'), text.indexOf('<form class="narrow"'));
    const links = [...summary.matchAll(/<a href="#([^"]+)">([^<]+)</g)];
    expect(links.map(([, , words]) => words)).toEqual([
      'Odometer',
      'Front axle left inner pad',
      'Front axle right outer pad',
      'Front axle: what was found, row 2',
      'Front axle: new pads',
      'Front axle: new pads, thickness',
      'Front axle: caliper bracket bolt, left 2',
    ]);
    const places = links.map(([, id]) => text.indexOf(` id="${id}"`));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    for (const [, id] of links) expect(text).toContain(`<p class="error" id="${id}-error">Check: `);
  });

  it('an empty visit form is refused, and a reloaded form records once', async () => {
    const empty = await post(recordPath(), { ...(await formOf(recordPath())), technician: 'T5' });
    expect([empty.status, empty.text]).toEqual([422, expect.stringContaining('Nothing is entered yet.')]);
    const fields = { odometer: '39120', ...PADS };
    await post(recordPath(), { ...(await formOf(recordPath())), ...fields });
    const anew = await post(recordPath(), { ...(await formOf(recordPath())), ...fields });
    expect([anew.status, anew.headers.location]).toEqual([303, `/vehicles/${vehicle.id}?already=1`]);
    expect(await visits()).toHaveLength(1);
  });

  it('the visit form remembers the gauge and shows the last reading, never the expected one', async () => {
    const fields = {
      ...(await formOf(recordPath())),
      odometer: '39120',
      ...PADS,
      'front.linings.gauge': 'caliper',
    };
    const saved = await post(recordPath(), fields);
    const remembered = (saved.headers['set-cookie'] as unknown as string[])[0]!.split(';')[0]!;
    const next = await service.unchecked
      .get(recordPath())
      .set('Cookie', `${cookies.technician}; ${remembered}`);
    expect(next.text).toMatch(/<option value="caliper" selected/);
    expect(next.text).toContain('last 6.5 mm');
    expect(next.text).toMatch(/It was 39,120 km/);
  });

  it('the visit form comes back after the session has expired, with everything typed, ready to send again', async () => {
    const fields = { ...(await formOf(recordPath())), odometer: '39120', ...PADS };
    const ended = await service.unchecked
      .post(recordPath())
      .type('form')
      .set(OWN_FORM)
      .send(fields)
      .redirects(0);
    expect(ended.status).toBe(401);
    expect(ended.text).toContain('Your session has expired');
    expect(ended.text).toContain('name="front.linings.found.left.inner" value="6,5"');
    expect(await visits()).toEqual([]);
  });

  it('a visit form from another site is refused', async () => {
    const fields = { ...(await formOf(recordPath())), odometer: '39120', ...PADS };
    const foreign = await service.unchecked
      .post(recordPath())
      .type('form')
      .set({ 'Sec-Fetch-Site': 'cross-site', Cookie: cookies.technician })
      .send(fields);
    expect(foreign.status).toBe(403);
    expect(await visits()).toEqual([]);
  });

  it.each(['/vehicles/new', '/import'])('a fleet manager gets no form: %s', async (path) => {
    expect((await page(path, 'fleet-manager')).status).toBe(403);
  });

  it('a fleet manager gets 404 for another fleet’s vehicle', async () => {
    const other = await recordVehicle(service, vehicleBody({ fleet: 'elsewhere' }));
    expect((await page(`/vehicles/${other.id}`, 'fleet-manager')).status).toBe(404);
  });
});

describe('a recorded visit', () => {
  const recorded = async () => {
    const body = visitBody('2026-03-02', 39_120, fourPads([6, 6.5, 6.2, 6.8]), { workOrder: 'WO-9' });
    await service.as('technician', 'post', `/v1/vehicles/${vehicle.id}/visits`).send(body).expect(201);
    return (await visits())[0]!;
  };

  it('a technician adds entries in the afternoon', async () => {
    const { id } = await recorded();
    const path = `/visits/${String(id)}/add`;
    const fields = { ...(await formOf(path)), 'front.work.slides-serviced': 'on', 'roadTest.pulls': 'none' };
    expect((await post(path, fields)).status).toBe(303);
    expect(await visits()).toEqual([
      expect.objectContaining({
        id,
        version: 2,
        work: [expect.objectContaining({ kind: 'slides-serviced' })],
      }),
    ]);
  });

  it('a correction stores its reason in the history', async () => {
    const { id } = await recorded();
    const path = `/visits/${String(id)}/correct`;
    const form = await formOf(path);
    expect(form).toMatchObject({
      odometer: '39120',
      workOrder: 'WO-9',
      'front.linings.found.left.inner': '6',
    });
    const without = await post(path, { ...form, odometer: '39210' });
    expect([without.status, without.text]).toEqual([422, expect.stringContaining('Say what was wrong')]);
    const fixed = await post(path, { ...form, odometer: '39210', reason: 'digits swapped' });
    expect(fixed.status).toBe(303);
    const [visit] = await visits();
    expect(visit).toMatchObject({ version: 2, odometer: { value: 39210 } });
    expect(visit!.readings).toHaveLength(4);
    const stale = await post(path, { ...form, once: `${form.once}-2`, odometer: '39220', reason: 'again' });
    expect([stale.status, stale.text]).toEqual([
      412,
      expect.stringContaining('Somebody else has changed this visit'),
    ]);
  });

  it('a correction shows the odometer readings around the visit, and no later reading as the last', async () => {
    const visit = (date: string, odometer: number, thickness: number) =>
      visitBody(date, odometer, fourPads([thickness, thickness, thickness, thickness]));
    const body = { ...contractVehicle(), externalId: `FORM-${Math.random()}`, registration: 'CO 1' };
    const { id } = await recordHistory(service, body, [
      visit('2025-01-10', 20_000, 9),
      visit('2025-06-10', 30_000, 8),
      visit('2026-01-10', 40_000, 6.5),
    ]);
    const middle = (await visits(id)).find(({ date }) => date === '2025-06-10')!;
    const { text } = await page(`/visits/${String(middle.id)}/correct`);
    expect(text).toContain('Before: 20,000 km on 10 January 2025. After: 40,000 km on 10 January.');
    expect(text).not.toMatch(/Expect [\d,]+ to|last [\d.]+ mm/);
  });

  it('only an owner can void a visit', async () => {
    const { id, version } = await recorded();
    const path = `/visits/${String(id)}/void`;
    const fields = { once: 'void-token-0123456789', version: String(version), voidReason: 'wrong vehicle' };
    expect((await post(path, fields)).status).toBe(403);
    expect((await post(path, fields, 'owner')).status).toBe(303);
    expect(await visits()).toEqual([]);
  });
});

describe('the vehicle form', () => {
  const NEW = '/vehicles/new';

  it('the vehicle form records a vehicle once', async () => {
    const fields = {
      ...(await formOf(NEW)),
      registration: 'NV 1',
      'front.brake': 'disc',
      'front.pad.new': '11',
      'front.pad.limit': '2 mm',
    };
    const [first, again] = [await post(NEW, fields), await post(NEW, fields)];
    expect([first.status, again.status]).toEqual([303, 303]);
    expect(again.headers.location).toBe(first.headers.location);
    const { items } = await read<{ items: Recorded[] }>(service, '/v1/vehicles?registration=nv1');
    expect(items).toEqual([
      expect.objectContaining({
        axles: {
          front: expect.objectContaining({
            pad: expect.objectContaining({ new: { value: 11, unit: 'mm', mm: 11 } }),
          }),
        },
      }),
    ]);
  });

  it('a new vehicle can have its drums described', async () => {
    const fields = {
      ...(await formOf(NEW)),
      registration: 'NV 2',
      'front.brake': 'disc',
      'rear.brake': 'drum',
    };
    expect(fields).toHaveProperty(['rear.shoe.new']);
    const saved = await post(NEW, { ...fields, 'rear.shoe.new': '5', 'rear.drum.maximum': '255' });
    expect(saved.status).toBe(303);
    const { items } = await read<{ items: Recorded[] }>(service, '/v1/vehicles?registration=nv2');
    expect(items[0]!.axles).toMatchObject({
      rear: { brake: 'drum', shoe: { new: { value: 5 } }, drum: { maximum: { value: 255 } } },
    });
  });

  it('the vehicle form says what is missing and what is recorded already', async () => {
    const fields = { ...(await formOf(NEW)), 'front.brake': 'disc' };
    const nameless = await post(NEW, fields);
    expect([nameless.status, nameless.text]).toEqual([422, expect.stringContaining('Type a registration')]);
    const known = await post(NEW, { ...fields, externalId: String(vehicle.externalId) });
    expect([known.status, known.text]).toEqual([
      422,
      expect.stringContaining('Another vehicle has this already'),
    ]);
  });

  it('a field with two errors is listed once', async () => {
    const { text } = await post(NEW, {
      ...(await formOf(NEW)),
      registration: 'NV 3',
      'front.brake': 'disc',
      'front.torque.1.fastener': 'wheel bolt',
      'front.torque.1.value': 'tight',
    });
    expect(text).toContain('Not saved: 1 entry to check.');
    expect(text.match(/<a href="#f-front-torque-1-value">Front axle: torque 1<\/a>/g)).toHaveLength(1);
  });

  it('the forms of a vehicle lead back to its sheet', async () => {
    for (const path of [recordPath(), `/vehicles/${vehicle.id}/change`])
      expect((await page(path)).text).toMatch(
        new RegExp(`<a href="/vehicles/${vehicle.id}">Back to [^<]+ without saving</a>`),
      );
    expect((await page(NEW)).text).not.toContain('without saving');
  });

  it('the vehicle form changes a vehicle and leaves members that it does not show', async () => {
    const path = `/vehicles/${vehicle.id}/change`;
    const fields = { ...(await formOf(path)), 'front.brake': 'disc', registration: 'CH 2' };
    const both = await post(path, { ...fields, vin: 'short', 'front.pad.limit': 'thin' });
    expect(both.text).toContain('Not saved: 2 entries to check.');
    expect((await post(path, fields)).status).toBe(303);
    const changed = await read<Recorded>(service, `/v1/vehicles/${vehicle.id}`);
    expect(changed.registration).toBe('CH 2');
    expect(changed.version).toBe(2);
  });
});

describe('the import page', () => {
  const upload = (text: string, dates = 'YYYY-MM-DD', filename = 'visits.csv') =>
    service.unchecked
      .post('/import')
      .set(OWN_FORM)
      .set('Cookie', cookies['front-desk'])
      .field('dates', dates)
      .attach('file', Buffer.from(text), { filename, contentType: 'text/csv' });
  const sheet = (date: string) =>
    `vehicle,date,odometer,odometerUnit,entry,axle,side,pad,value,unit\r\n${String(vehicle.externalId)},${date},39120,km,pad-thickness,front,left,inner,6.5,mm\r\n`;

  it('the import page checks a file, records nothing until the file is accepted, and then records it once', async () => {
    const checked = await upload(sheet('02.03.2026'), 'DD.MM.YYYY');
    expect(checked.status).toBe(200);
    expect(await visits()).toEqual([]);
    const once = /name="once" value="([^"]+)"/.exec(checked.text)![1]!;
    const [first, second] = [
      await post('/import/accept', { once }, 'front-desk'),
      await post('/import/accept', { once }, 'front-desk'),
    ];
    expect(first.status).toBe(303);
    await expect.poll(async () => (await visits()).length, { timeout: 10_000 }).toBe(1);
    expect([303, 404]).toContain(second.status);
    expect((await post('/import/accept', { once }, 'front-desk')).headers.location).toBe(
      first.headers.location,
    );
    expect((await page(first.headers.location!, 'front-desk')).text).toContain('1 row recorded');
  });

  it('the import page names each error by line and column', async () => {
    const { status, text } = await upload(sheet('02.03.2026'));
    expect(status).toBe(422);
    expect(text).toMatch(/Nothing was recorded: 1 entry to correct/);
    expect(text).toContain('is not a date as YYYY-MM-DD');
    expect(text).not.toContain('name="once"');
  });

  it('the import page says when a file has nothing new', async () => {
    const checked = await upload(sheet('2026-03-02'));
    const once = /name="once" value="([^"]+)"/.exec(checked.text)![1]!;
    await post('/import/accept', { once }, 'front-desk');
    await expect.poll(async () => (await visits()).length, { timeout: 10_000 }).toBe(1);
    const again = await upload(sheet('2026-03-02'));
    expect(again.text).toContain('The file has nothing new');
    expect(again.text).toContain('1 row of 1 vehicle, and all of them are already recorded.');
    expect(again.text).not.toContain('can be imported');
    const empty = await upload(`${sheet('2026-03-02').split('\r\n')[0]!}\r\n`);
    expect(empty.text).toContain('visits.csv has no rows below its headings.');
  });

  it('the import page asks for CSV in place of a workbook, and keeps the way dates are written', async () => {
    const { status, text } = await upload('PK', 'DD.MM.YYYY', 'visits.XLSX');
    expect([status, text]).toEqual([422, expect.stringContaining('Save its sheet as CSV')]);
    expect(text).toMatch(/<option value="DD\.MM\.YYYY" selected/);
  });

  it('after the session has expired, a file is not read, and the page leads to the sign-in and back', async () => {
    const { status, text } = await service.unchecked
      .post('/import')
      .set(OWN_FORM)
      .attach('file', Buffer.from('vehicle'), { filename: 'visits.csv', contentType: 'text/csv' });
    expect(status).toBe(401);
    expect(text).toContain('Your session has expired');
    expect(text).toContain('href="/sign-in?next=%2Fimport"');
  });

  it('another key cannot accept the checked file', async () => {
    const checked = await upload(sheet('2026-03-02'));
    const once = /name="once" value="([^"]+)"/.exec(checked.text)![1]!;
    expect((await post('/import/accept', { once }, 'owner')).status).toBe(404);
    expect(await visits()).toEqual([]);
  });
});
