import BetterSqlite from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { toDay } from '../../src/core/calendar.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { dateInWords, firstSentence, shortDate } from '../../src/core/words.js';
import { PAGES } from '../../src/http/pages/pages.js';
import { sha256 } from '../../src/digest.js';
import { fourPads, rotorReading, vehicleBody, visitBody } from '../support/bodies.js';
import { cookieOf, getPage, OWN_FORM, postForm, readPage, signIn } from '../support/pages.js';
import { read, recordHistory, recordVehicle } from '../support/recording.js';
import { FLEET, startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const VISITS = [
  visitBody('2024-03-04', 20_000, fourPads([8.5, 9, 8.7, 9.1])),
  visitBody('2026-03-02', 61_000, [...fourPads([3.4, 5.2, 4.6, 5.3]), rotorReading('left', 27.1)]),
];

describe('the web pages', () => {
  it('the pages are those of the list, and none is in the OpenAPI document', () => {
    for (const [url, methods] of PAGES)
      for (const method of methods)
        expect(service.app.hasRoute({ method: method as 'GET', url }), url).toBe(true);
    const known = Object.keys(service.contract.document.paths);
    const forPrograms = /^\/(v1|health|calendars)\//;
    expect(known.filter((path) => !forPrograms.test(path))).toEqual([]);
  });

  it('pages run no script and use only the one stylesheet', async () => {
    const { id } = await recordHistory(service, vehicleBody(), VISITS);
    const cookie = await signIn(service, service.keys.technician);
    for (const path of ['/', '/?q=FD', `/vehicles/${id}`, '/due-soon', '/sign-in']) {
      const { headers, text } = await getPage(service, cookie, path);
      expect(headers['content-security-policy']).toContain("default-src 'none'; style-src 'self'");
      expect(headers['cache-control']).toBe('private, no-store');
      expect(text).not.toMatch(/<script|<style|\sstyle=|\son[a-z]+=|https?:\/\/(?!www\.w3\.org)/i);
      expect(text).not.toMatch(/undefined|NaN|\[object/);
    }
    const css = await service.unchecked.get('/pages.css');
    expect(css.headers['content-type']).toBe('text/css; charset=utf-8');
    expect(css.text).not.toMatch(/url\(|@import/);
    const again = await service.unchecked.get('/pages.css').set('If-None-Match', css.headers.etag!);
    expect(again.status).toBe(304);
  });

  it('errors are answered as a page', async () => {
    const cookie = await signIn(service, service.keys.technician);
    const missing = await getPage(service, cookie, '/vehicles/none');
    expect([missing.status, missing.type]).toEqual([404, 'text/html']);
    expect(missing.text).toContain('No such vehicle');
    const mistyped = await getPage(service, cookie, '/due-son').set('Accept', 'text/html,*/*;q=0.8');
    expect([mistyped.status, mistyped.type]).toEqual([404, 'text/html']);
    expect(mistyped.text).toContain('This address does not exist.');
    const bad = await getPage(service, cookie, '/due-soon?withinDays=soon');
    expect([bad.status, bad.type]).toEqual([400, 'text/html']);
    expect(bad.text).toContain('Check: Must be a whole number of days.');
    expect(bad.text).toContain('value="soon"');
    const other = await service.unchecked.delete('/due-soon').set('Cookie', cookie);
    expect([other.status, other.headers.allow]).toEqual([405, 'GET, HEAD']);
  });
});

describe('signing in', () => {
  it('every page asks the user to sign in first, then leads back to where the user was going', async () => {
    const asked = await service.unchecked.get('/due-soon?axle=front').redirects(0);
    expect([asked.status, asked.headers.location]).toEqual([303, '/sign-in?next=%2Fdue-soon%3Faxle%3Dfront']);
    const page = await service.unchecked.get(asked.headers.location!);
    expect(page.text).toContain('value="/due-soon?axle&#61;front"');
    const done = await postForm(service, '/sign-in', {
      key: ` ${service.keys.owner} `,
      next: '/due-soon?axle=front',
    });
    expect([done.status, done.headers.location]).toEqual([303, '/due-soon?axle=front']);
  });

  it.each([
    '//elsewhere.example',
    '/\\elsewhere.example',
    'https://elsewhere.example',
    '/\t/elsewhere.example',
    '',
  ])('the way back never leads to another site: %j', async (next) => {
    const done = await postForm(service, '/sign-in', { key: service.keys.owner, next });
    expect(done.headers.location).toBe('/');
  });

  it('the cookie holds a random token that no script or other site can read; the store holds its digest', async () => {
    const done = await postForm(service, '/sign-in', { key: service.keys.technician });
    const [set] = done.headers['set-cookie'] as unknown as string[];
    expect(set).toMatch(/; Max-Age=43200; Path=\/; HttpOnly; SameSite=Strict$/);
    const token = cookieOf(done.headers).split('=')[1]!;
    expect(token).toMatch(/^[\w-]{43}$/);
    expect(token).not.toContain(service.keys.technician);
    const database = new BetterSqlite(service.file, { readonly: true });
    const stored = database.prepare('select * from sessions').all() as { digest: string }[];
    database.close();
    expect(stored.map(({ digest }) => digest)).toContain(sha256(token));
    expect(JSON.stringify(stored)).not.toContain(token);
    expect(JSON.stringify(stored)).not.toContain(service.keys.technician);
  });

  it('a wrong key is refused without further details', async () => {
    const refused = await postForm(service, '/sign-in', { key: 'bws_wrong' });
    expect([refused.status, refused.headers['set-cookie']]).toEqual([401, undefined]);
    expect(refused.text).toContain('That key is not valid');
  });

  it('signing out ends the session for every copy of the cookie', async () => {
    const cookie = await signIn(service, service.keys.technician);
    expect((await getPage(service, cookie, '/')).status).toBe(200);
    const out = await postForm(service, '/sign-out', {}, { ...OWN_FORM, Cookie: cookie });
    expect([out.status, out.headers.location]).toEqual([303, '/sign-in']);
    expect(String(out.headers['set-cookie'])).toContain('Expires=Thu, 01 Jan 1970');
    expect((await getPage(service, cookie, '/')).status).toBe(303);
  });

  it('a session ends at once when its key is revoked, and after twelve hours', async () => {
    const cookie = await signIn(service, await service.makeKey('technician', 'bay-9'));
    await service.store.keys.revoke('bay-9');
    expect((await getPage(service, cookie, '/')).headers.location).toMatch(/^\/sign-in/);
    const other = await signIn(service, service.keys.owner);
    service.setClock('2026-03-10T23:59:00Z');
    expect((await getPage(service, other, '/')).status).toBe(200);
    service.setClock('2026-03-11T00:00:01Z');
    expect((await getPage(service, other, '/')).status).toBe(303);
    service.setClock('2026-03-10T12:00:00Z');
  });

  it('a form is accepted only from the service’s own pages', async () => {
    const cookie = await signIn(service, service.keys.technician);
    const fields = { key: service.keys.technician };
    const host = new URL(service.unchecked.get('/').url).host;
    const foreign: Record<string, string>[] = [
      { 'Sec-Fetch-Site': 'cross-site' },
      { 'Sec-Fetch-Site': 'same-site', Origin: `http://${host}` },
      { Origin: 'https://elsewhere.example' },
      { Origin: 'null' },
      {},
    ];
    for (const headers of foreign) {
      expect((await postForm(service, '/sign-in', fields, headers)).status, JSON.stringify(headers)).toBe(
        403,
      );
      expect((await postForm(service, '/sign-out', {}, { ...headers, Cookie: cookie })).status).toBe(403);
    }
    expect((await getPage(service, cookie, '/')).status).toBe(200);
  });

  it('a form is accepted from a browser that sends only the origin', async () => {
    const request = service.unchecked.post('/sign-in').type('form').redirects(0);
    const { host } = new URL(request.url);
    const done = await request.set('Origin', `http://${host}`).send({ key: service.keys.technician });
    expect(done.status).toBe(303);
  });

  it('signing in leaves a line in the audit', async () => {
    await signIn(service, service.keys['front-desk']);
    const { items } = (await service.as('owner', 'get', '/v1/audit?limit=200')).body as { items: object[] };
    expect(items).toContainEqual(
      expect.objectContaining({
        key: 'front-desk',
        action: 'signed-in',
        resource: 'session',
        resourceId: 'front-desk',
      }),
    );
  });

  it('one address may fail twenty times in ten minutes, and a valid key always signs in', async () => {
    const own = await startService();
    try {
      let tries = 0;
      const fail = () => postForm(own, '/sign-in', { key: `bws_${String(++tries).padStart(8, '0')}-guess` });
      for (let attempt = 1; attempt <= 20; attempt++) expect((await fail()).status).toBe(401);
      const refused = await fail();
      expect([refused.status, refused.type]).toEqual([429, 'text/html']);
      expect(refused.headers['retry-after']).toBe('600');
      for (let attempt = 1; attempt <= 25; attempt++) await signIn(own, own.keys.owner);
      own.setClock('2026-03-10T12:10:00Z');
      expect((await fail()).status).toBe(401);
    } finally {
      await own.close();
    }
  });

  it('one beginning of a key may fail twenty times, from any number of addresses', async () => {
    const own = await startService({ trustProxy: ['127.0.0.1'] });
    try {
      const guess = (address: string, key: string) =>
        postForm(own, '/sign-in', { key }, { ...OWN_FORM, 'X-Forwarded-For': address });
      const beginning = own.keys.owner.slice(0, 12);
      for (let at = 1; at <= 20; at++)
        expect((await guess(`192.0.2.${at}`, `${beginning}guess-${at}`)).status).toBe(401);
      expect((await guess('192.0.2.99', `${beginning}guess`)).status).toBe(429);
      expect((await guess('192.0.2.99', 'bws_another-key')).status).toBe(401);
      expect((await guess('192.0.2.99', own.keys.owner)).status).toBe(303);
      expect((await guess('unknown', 'bws_no-address')).status).toBe(401);
      // The addresses of one IPv6 network count as one.
      for (let at = 1; at <= 20; at++)
        expect((await guess(`2001:db8:0:7::${at}`, `bws_${at}-another-beginning`)).status).toBe(401);
      expect((await guess('2001:db8:0:7:ffff::1', 'bws_21-another-beginning')).status).toBe(429);
      expect((await guess('2001:db8:0:8::1', 'bws_22-another-beginning')).status).toBe(401);
    } finally {
      await own.close();
    }
  });

  it('signing in again ends the browser’s earlier session', async () => {
    const first = await signIn(service, service.keys.technician);
    const again = await postForm(
      service,
      '/sign-in',
      { key: service.keys['front-desk'] },
      { ...OWN_FORM, Cookie: first },
    );
    expect((await getPage(service, first, '/')).status).toBe(303);
    expect((await getPage(service, cookieOf(again.headers), '/')).status).toBe(200);
  });
});

describe('a vehicle’s sheet', () => {
  it('a search finds it by registration, VIN or number, with any spacing', async () => {
    const { id } = await recordVehicle(
      service,
      vehicleBody({ externalId: 'SEEK-1', registration: 'QX 77-31', vin: '1M8GDM9AXKP042788' }),
    );
    const cookie = await signIn(service, service.keys.technician);
    for (const asked of ['qx7731', 'QX 77-31', 'seek1', '1m8gdm9axkp042788']) {
      const { status, headers } = await getPage(service, cookie, `/?q=${encodeURIComponent(asked)}`);
      expect([asked, status, headers.location]).toEqual([asked, 303, `/vehicles/${id}`]);
    }
    for (const asked of ['%', '_', 'nowhere'])
      expect((await getPage(service, cookie, `/?q=${encodeURIComponent(asked)}`)).text).toContain(
        'No vehicle that you may see',
      );
  });

  it('a vehicle’s sheet starts with the advice, says what it is based on, and has every finding and caution', async () => {
    const { id } = await recordHistory(service, vehicleBody(), VISITS);
    const wear = await read<Wear>(service, `/v1/vehicles/${id}/wear`);
    const text = unescaped(await readPage(service, 'technician', `/vehicles/${id}`));
    const [front] = wear.axles;
    const { advice, findings, rotors, replacement } = front!;
    const inWords = (said: string): string => said.replace(/\d{4}-\d{2}-\d{2}/g, (date) => dateInWords(date));
    for (const said of [
      advice.words,
      advice.status,
      advice.why.split('.')[0]!,
      ...findings.map(({ check }) => inWords(firstSentence(check))),
      ...rotors.map(({ decision }) => decision),
      ...wear.cautions.flatMap(({ message, source }) => [message, source]),
      `fit before ${shortDate(toDay(replacement.date!.early!))}`,
      '2 Mar 2026',
      'caliper bracket bolt',
      '120 ± 10 N·m',
    ])
      expect(text).toContain(said);
    expect(text.indexOf(advice.words)).toBeLessThan(text.indexOf('<svg'));
    // The two charts, each in three widths.
    expect(text.match(/<svg xmlns/g)).toHaveLength(6);
    expect(text).not.toMatch(/\b(is|be|as|fully) safe\b|\bgreen\b|\bamber\b|\bred\b/i);
    expect(text.replace(/<svg[^]*?<\/svg>|<[^>]*>/g, '')).not.toMatch(/\d{4}-\d{2}-\d{2}/);
  });

  it('a vehicle’s sheet shows each check once, with the places it applies to and the stops first', async () => {
    const { id } = await recordHistory(service, vehicleBody(), [
      ...VISITS.slice(0, 1),
      visitBody('2026-03-02', 61_000, fourPads([3, 3, 3, 3])),
    ]);
    const text = unescaped(await readPage(service, 'technician', `/vehicles/${id}`));
    const items = [...text.matchAll(/<li class="(stop|check|note)">/g)].map(([, severity]) => severity);
    expect(items[0]).toBe('stop');
    expect(items.filter((severity) => severity === 'stop')).toHaveLength(1);
    expect(text).toContain(
      'Left inner, left outer, right inner and right outer: pad read 3 mm on 2 Mar 2026',
    );
    expect(text).toContain('Fit front pads now');
  });

  it('a vehicle’s sheet has boxes for new readings on paper alone, in the order in which they are taken', async () => {
    const { id } = await recordHistory(service, vehicleBody(), VISITS);
    const text = await readPage(service, 'technician', `/vehicles/${id}`);
    const rows = [...text.matchAll(/<tr[^>]*>\s*<th scope="row">([^<]*)<\/th>[^]*?<\/tr>/g)]
      .filter(([row]) => row.includes('class="box" hidden'))
      .map(([, name]) => name);
    expect(rows).toEqual([
      'Left inner',
      'Left outer',
      'Right inner',
      'Right outer',
      'Left',
      'Right',
      'caliper bracket bolt',
    ]);
    for (const [table] of text.matchAll(/<table class="[^"]*on-paper-table[^>]*>/g))
      expect(table).toContain('hidden');
  });

  it('a vehicle without any data has a sheet too', async () => {
    const { id } = await recordVehicle(
      service,
      vehicleBody({ inService: null, axles: { rear: { brake: 'drum' } } }),
    );
    const text = await readPage(service, 'technician', `/vehicles/${id}`);
    expect(text).toContain('No visit recorded yet');
    expect(text).toContain('Measure the rear shoes');
    expect(text).toContain('No chart and no forecast: none of these shoes has been measured.');
    expect(text).toContain('Left leading');
    expect(text).not.toMatch(/undefined|NaN|null/);
  });

  it('only users who may record see the links to record, change and correct; a fleet manager reads', async () => {
    const { id } = await recordHistory(service, vehicleBody({ fleet: FLEET }), VISITS);
    for (const role of ['front-desk', 'technician', 'owner'] as const) {
      const text = await readPage(service, role, `/vehicles/${id}`);
      expect(text).toContain(`href="/vehicles/${id}/record"`);
      expect(text).toContain(`href="/vehicles/${id}/change"`);
      expect(text.match(/href="\/visits\/[^"]+\/correct"/g)).toHaveLength(VISITS.length);
    }
    const read = await readPage(service, 'fleet-manager', `/vehicles/${id}`);
    expect(read).not.toMatch(/\/(?:record|change|correct)"/);
  });

  it('the former address of a sheet redirects to it', async () => {
    const { id } = await recordVehicle(service, vehicleBody());
    const cookie = await signIn(service, service.keys.technician);
    const { status, headers } = await getPage(service, cookie, `/sheets/${id}`);
    expect([status, headers.location]).toEqual([308, `/vehicles/${id}`]);
  });

  it('a merged record redirects to the vehicle it was merged into', async () => {
    const kept = await recordVehicle(service, vehicleBody({ vin: null }));
    const merged = await recordVehicle(service, vehicleBody({ vin: null }));
    const done = await service
      .as('owner', 'post', `/v1/vehicles/${kept.id}/merge`)
      .set('If-Match', '*')
      .send({ from: merged.id, reason: 'recorded twice' });
    expect(done.status).toBe(200);
    const cookie = await signIn(service, service.keys.technician);
    const { status, headers } = await getPage(service, cookie, `/vehicles/${merged.id}`);
    expect([status, headers.location]).toEqual([303, `/vehicles/${kept.id}`]);
  });

  it('text that people typed is escaped', async () => {
    const evil = `<img src=x on="1">'&`;
    const { id } = await recordHistory(
      service,
      vehicleBody({ registration: evil, description: evil }),
      VISITS,
    );
    for (const path of [`/vehicles/${id}`, '/due-soon?withinDays=3000', `/?q=${encodeURIComponent('<img')}x`])
      expect(await readPage(service, 'technician', path)).not.toContain('<img');
  });
});

describe('what a fleet manager sees', () => {
  it('a fleet manager sees only the key’s own fleets', async () => {
    const own = await recordHistory(service, vehicleBody({ registration: 'OWN 1', fleet: FLEET }), VISITS);
    const other = await recordHistory(
      service,
      vehicleBody({ registration: 'ALIEN 1', fleet: 'south-depot' }),
      VISITS,
    );
    const cookie = await signIn(service, service.keys['fleet-manager']);
    const get = (path: string) => getPage(service, cookie, path);
    expect((await get(`/vehicles/${own.id}`)).status).toBe(200);
    expect((await get(`/vehicles/${other.id}`)).status).toBe(404);
    expect((await get('/?q=ALIEN')).text).toContain('No vehicle that you may see');
    const due = (await get('/due-soon?withinDays=3000')).text;
    expect(due).toContain('OWN 1');
    expect(due).not.toContain('ALIEN 1');
    expect((await get('/due-soon?withinDays=3000&fleet=south-depot')).text).not.toContain('ALIEN 1');
  });
});

describe('the due-soon page', () => {
  it('the due-soon page lists what the report lists, with the same filters; an empty field filters nothing', async () => {
    await recordHistory(service, vehicleBody({ registration: 'DUE 1' }), VISITS);
    const query = 'withinDays=900&chance=0.5&axle=front';
    const report = (await service.as('technician', 'get', `/v1/reports/due-soon?${query}&limit=200`))
      .body as {
      total: number;
      horizon: string;
      items: { vehicleId: string; earlyDate: string; lateDate: string }[];
    };
    expect(report.total).toBeGreaterThan(0);
    const text = await readPage(service, 'technician', `/due-soon?${query}&fleet=`);
    expect([...text.matchAll(/href="\/vehicles\/([0-9a-f-]{36})"/g)].map(([, id]) => id)).toEqual(
      report.items.map(({ vehicleId }) => vehicleId),
    );
    for (const { earlyDate, lateDate } of report.items) {
      expect(unescaped(text)).toContain(`between ${dateInWords(earlyDate)} and ${dateInWords(lateDate)}`);
    }
    expect(unescaped(text)).toContain(`by ${dateInWords(report.horizon)}`);
  });

  it('a signed-in user gets the list as a spreadsheet and as a calendar', async () => {
    await recordHistory(service, vehicleBody({ registration: 'DUE 2', fleet: FLEET }), VISITS);
    await recordHistory(service, vehicleBody({ registration: 'DUE 3', fleet: 'elsewhere' }), VISITS);
    const cookie = await signIn(service, service.keys['fleet-manager']);
    const csv = await getPage(service, cookie, '/due-soon.csv?withinDays=900');
    expect([csv.status, csv.headers['content-type']]).toEqual([200, expect.stringContaining('text/csv')]);
    expect(csv.text).toContain('DUE 2');
    expect(csv.text).not.toContain('DUE 3');
    const calendar = await getPage(service, cookie, '/due-soon.ics?withinDays=900');
    expect(calendar.headers['content-type']).toContain('text/calendar');
    const foreign = await service.unchecked.get('/due-soon.csv').redirects(0);
    expect(foreign.status).toBe(303);
  });
});

describe('the measure-first page', () => {
  it('the measure-first page lists axles without a forecast with the reason, and links to recording', async () => {
    const { id } = await recordHistory(service, vehicleBody({ registration: 'NEVER 1' }), []);
    const text = unescaped(await readPage(service, 'technician', '/measure-first'));
    expect(text).toContain('Never measured');
    expect(text).toContain(`href="/vehicles/${id}/record"`);
    const limitless = { front: { brake: 'disc', pad: { new: { value: 11, unit: 'mm' } } } };
    const { id: other } = await recordHistory(service, vehicleBody({ axles: limitless }), VISITS.slice(0, 1));
    const withLimitless = await readPage(service, 'technician', '/measure-first');
    expect(withLimitless).toContain(`<a href="/vehicles/${other}/change">enter the limit`);
    const manager = unescaped(await readPage(service, 'fleet-manager', '/measure-first'));
    expect(manager).not.toContain('/record"');
  });
});

describe('the home page', () => {
  it('the home page shows what is due now and what was seen recently, and finds vehicles by part of a plate', async () => {
    const { id } = await recordHistory(service, vehicleBody({ registration: 'HOME 7' }), VISITS);
    const text = unescaped(await readPage(service, 'technician', '/'));
    expect(text).toContain('Recently seen');
    expect(text).toContain('HOME 7');
    const found = await getPage(service, await signIn(service, service.keys.technician), '/?q=home-7');
    expect([found.status, found.headers.location]).toEqual([303, `/vehicles/${id}`]);
  });

  it('the home page of an empty shop says how to begin', async () => {
    const empty = await startService();
    const text = unescaped(await readPage(empty, 'owner', '/'));
    await empty.close();
    expect(text).toContain('Your first day');
    expect(text).toContain('href="/vehicles/new"');
  });
});

/** The text as a person reads it. */
const unescaped = (html: string): string =>
  html
    .replace(/&#(\d+);/g, (_, code: string) => String.fromCharCode(Number(code)))
    .replace(/&quot;/g, '"')
    .replace(/&amp;/g, '&')
    .replaceAll('\u00a0', ' ')
    .replace(/\s+/g, ' ');
