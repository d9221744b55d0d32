import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { toDay } from '../../src/core/calendar.js';
import type { AxleWear, Wear } from '../../src/core/vocabulary/wear.js';
import { fourPads, mm, padReading, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { getPage, OWN_FORM, signIn } from '../support/pages.js';
import { correct, read, recordHistory, recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';
import { exported, padRow, sendSheet, sheetOf } from '../support/sheets.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const discVehicle = (changes: Body = {}): Body =>
  vehicleBody({
    vin: null,
    axles: { front: { brake: 'disc', pad: { new: mm(12), limit: mm(2) } } },
    inService: { date: '2023-03-02', odometer: { value: 0, unit: 'km' } },
    ...changes,
  });

/** One figure for the axle: `front 4 mm`. */
const thinnest = (value: number, more: Body = {}): Body => ({
  kind: 'pad-thickness',
  axle: 'front',
  pad: 'thinnest',
  gauge: 'depth-gauge',
  ...mm(value),
  ...more,
});

const front = async (id: string): Promise<AxleWear> =>
  (await read<Wear>(service, `/v1/vehicles/${id}/wear`)).axles[0]!;
const codes = ({ findings }: AxleWear): string[] => findings.map(({ code }) => code);

const VISITS: [date: string, odometerKm: number, thicknessMm: number][] = [
  ['2024-03-02', 20_000, 10],
  ['2025-03-02', 40_000, 8],
  ['2026-03-02', 60_000, 6],
];

describe('the thinnest pad of an axle', () => {
  it('one figure per visit for the thinnest pad gives a date close to that of the same figure for all four pads', async () => {
    const one = await recordHistory(
      service,
      discVehicle(),
      VISITS.map(([date, odometer, value]) => visitBody(date, odometer, [thinnest(value)])),
    );
    const four = await recordHistory(
      service,
      discVehicle(),
      VISITS.map(([date, odometer, value]) =>
        visitBody(date, odometer, fourPads([value, value, value, value])),
      ),
    );
    const [alone, named] = await Promise.all([front(one.id), front(four.id)]);
    expect(alone.pads).toMatchObject([
      { side: null, pad: 'thinnest', readings: 3, latest: { valueMm: 6, date: '2026-03-02' } },
    ]);
    expect(alone.pads[0]!.ratePer1000KmMm!.median).toBeCloseTo(0.1, 2);
    expect(alone.replacement.governingPad).toEqual({ side: null, pad: 'thinnest' });
    const days = ({ replacement: { date } }: AxleWear, point: 'early' | 'median' | 'late'): number =>
      toDay(date![point]!) - toDay('2026-03-02');
    // With four equal pads any of them may be first, so the later dates from the one figure are farther away.
    expect(days(alone, 'early') / days(named, 'early')).toBeCloseTo(1, 1);
    expect(days(alone, 'median')).toBeGreaterThanOrEqual(days(named, 'median'));
    expect(days(alone, 'median')).toBeLessThan(1.2 * days(named, 'median'));
    expect(days(alone, 'late')).toBeLessThan(1.3 * days(named, 'late'));
    expect(codes(alone).filter((code) => /measured|uneven|dragging|thicker/.test(code))).toEqual([]);
    expect(alone.replacement.reasons.map(({ code }) => code)).not.toContain('governing-pad-not-measured');
  });

  it('the answer repeats the reading of the thinnest pad without a side', async () => {
    const { id } = await recordVehicle(service, discVehicle());
    const visit = await recordVisit(service, id, visitBody('2026-03-02', 60_000, [thinnest(6)]));
    expect(visit.readings).toMatchObject([{ kind: 'pad-thickness', side: null, pad: 'thinnest', mm: 6 }]);
    expect(await read(service, `/v1/visits/${visit.id}`)).toMatchObject({
      readings: [{ side: null, pad: 'thinnest', mm: 6 }],
    });
  });

  it('the thinnest pad under its limit stops the vehicle, in words without a side, and is first among what is due', async () => {
    const { id } = await recordHistory(service, discVehicle(), [
      visitBody('2026-03-02', 60_000, [thinnest(1.4)]),
    ]);
    const axle = await front(id);
    expect(axle.findings[0]).toMatchObject({
      code: 'pad-at-limit',
      side: null,
      pad: 'thinnest',
      severity: 'stop',
      message: 'Thinnest pad read 1.4 mm on 2026-03-02, under the maker’s limit of 2 mm.',
    });
    expect(axle.advice).toMatchObject({ action: 'fit-now', words: 'Fit front pads now.' });
    expect(axle.advice.why).toMatch(/^Thinnest pad read 1\.4 mm on 2 March( 2026)?; limit 2 mm\./);
    const { items } = await read<{ items: Body[] }>(service, '/v1/reports/due-soon?limit=200');
    expect(items.find(({ vehicleId }) => vehicleId === id)).toMatchObject({
      overdue: true,
      governingPad: { side: null, pad: 'thinnest' },
      linings: 'pads',
    });
    const calendar = await service.as('technician', 'get', '/v1/reports/due-soon?format=ics').buffer(true);
    expect(calendar.text).toContain('fit front pads now');
    expect(calendar.text).not.toContain('shoes');
  });

  it('the thinnest pad of one wheel is called that wheel’s pad', async () => {
    const { id } = await recordHistory(service, discVehicle(), [
      visitBody('2026-03-02', 60_000, [thinnest(1.4, { side: 'left' }), thinnest(5, { side: 'right' })]),
    ]);
    const axle = await front(id);
    expect(axle.pads.map(({ side, pad }) => [side, pad])).toEqual([
      ['left', 'thinnest'],
      ['right', 'thinnest'],
    ]);
    expect(axle.findings[0]!.message).toMatch(/^Left pad read 1\.4 mm/);
    expect(JSON.stringify(axle)).not.toContain('shoe');
  });

  it('the thinnest pad is tracked beside pads measured by name, and the thinner one governs', async () => {
    const { id } = await recordHistory(service, discVehicle(), [
      visitBody('2024-03-02', 20_000, fourPads([10, 10, 10, 10])),
      visitBody('2025-03-02', 40_000, fourPads([8, 8, 8, 8])),
      visitBody('2026-03-02', 60_000, [thinnest(4.5)]),
    ]);
    const axle = await front(id);
    expect(axle.pads).toHaveLength(5);
    expect(axle.pads[4]).toMatchObject({ side: null, pad: 'thinnest', latest: { valueMm: 4.5 } });
    expect(axle.replacement.governingPad).toEqual({ side: null, pad: 'thinnest' });
  });

  it('the thinnest pad read between readings by name represents all pads, and no pad counts twice', async () => {
    const visits = (last: Body[]): Body[] => [
      visitBody('2024-03-02', 40_000, [thinnest(7)]),
      visitBody('2025-03-02', 60_000, fourPads([5.5, 5.9, 6, 6.2])),
      visitBody('2026-03-02', 80_000, last),
    ];
    const wearOf = async (last: Body[]): Promise<AxleWear['replacement']> =>
      (await front((await recordHistory(service, discVehicle(), visits(last))).id)).replacement;
    const mixed = await wearOf([thinnest(4)]);
    const alone = await wearOf(fourPads([4, 4.4, 4.5, 4.7]));
    // By hand: 1.5 mm in 20,000 km, so the 2 mm above the limit last 26,700 km.
    expect(mixed.governingPad).toEqual({ side: null, pad: 'thinnest' });
    expect(mixed.distanceKm!.median).toBeGreaterThan(20_000);
    expect(mixed.distanceKm!.median).toBeLessThan(32_000);
    // Measured by name again, the pads govern themselves.
    expect(alone.governingPad).toEqual({ side: 'left', pad: 'inner' });
    const ratio = mixed.distanceKm!.median! / alone.distanceKm!.median!;
    expect(ratio).toBeGreaterThan(0.8);
    expect(ratio).toBeLessThan(1.25);
  });

  it('the thinnest pad read on one day with pads by name is one of them, also if it is added or corrected later', async () => {
    const pads = [6, 6.1, 6.2, 6.3] as const;
    const { id } = await recordHistory(service, discVehicle(), [
      visitBody('2025-03-02', 40_000, [thinnest(7)]),
    ]);
    const visit = await recordVisit(service, id, visitBody('2026-03-02', 60_000, fourPads([...pads])));
    const named = (await front(id)).replacement.distanceKm!.median!;
    const correctTo = async (value: number): Promise<AxleWear> => {
      const changes = { readings: [...fourPads([...pads]), thinnest(value)] };
      const { status } = await correct(service, visit.id, {
        reason: 'the card has one more figure',
        changes,
      });
      expect(status).toBe(200);
      return front(id);
    };
    const { status } = await service
      .as('technician', 'post', `/v1/visits/${visit.id}/entries`)
      .send({ readings: [thinnest(5.9)] });
    expect(status).toBe(201);
    const both = await front(id);
    expect(both.replacement.governingPad).toEqual({ side: 'left', pad: 'inner' });
    expect(both.replacement.distanceKm!.median! / named).toBeGreaterThan(0.9);
    expect(codes(both)).not.toContain('thinnest-disagrees');

    const doubtful = await correctTo(3);
    expect(doubtful.replacement.governingPad).toEqual({ side: null, pad: 'thinnest' });
    expect(doubtful.replacement.distanceKm!.median!).toBeLessThan(named / 2);
    expect(codes(doubtful)).toContain('thinnest-disagrees');
    const { items } = await read<{ items: Body[] }>(service, `/v1/visits/${visit.id}/open-points`);
    expect(items).toContainEqual(expect.objectContaining({ finding: 'thinnest-disagrees' }));

    const settled = await correctTo(5.9);
    expect(settled.replacement.distanceKm).toEqual(both.replacement.distanceKm);
    expect(codes(settled)).not.toContain('thinnest-disagrees');
  });

  it('the thinnest pad read in another visit of that day is one of the pads by name too', async () => {
    const history = (...visits: Body[]) => recordHistory(service, discVehicle(), visits);
    const readings = fourPads([6, 6.1, 6.2, 6.3]);
    const together = await history(visitBody('2026-03-02', 60_000, [...readings, thinnest(5.9)]));
    const apart = await history(
      visitBody('2026-03-02', 60_000, [thinnest(5.9)]),
      visitBody('2026-03-02', 60_000, readings),
    );
    const [one, two] = await Promise.all([front(together.id), front(apart.id)]);
    expect(two.replacement.distanceKm).toEqual(one.replacement.distanceKm);
    expect(two.replacement.governingPad).toEqual({ side: 'left', pad: 'inner' });
  });

  it('the thinnest pad begins a new life with new pads, but not with new pads on one side only', async () => {
    const replaced = (work: Body): Body[] => [
      visitBody('2024-03-02', 20_000, [thinnest(8)]),
      visitBody('2025-03-02', 40_000, [], { work: [{ kind: 'pads-replaced', axle: 'front', ...work }] }),
      visitBody('2026-03-02', 60_000, [thinnest(work.side ? 4 : 10)]),
    ];
    const both = await recordHistory(service, discVehicle(), replaced({}));
    const left = await recordHistory(service, discVehicle(), replaced({ side: 'left' }));
    expect((await front(both.id)).pads).toMatchObject([{ readings: 1, fitted: { date: '2025-03-02' } }]);
    expect((await front(left.id)).pads).toMatchObject([{ readings: 2, fitted: { date: '2023-03-02' } }]);
  });

  it('an axle worked on needs no pad measured beside the thinnest', async () => {
    const { id } = await recordVehicle(service, discVehicle());
    const visit = await recordVisit(
      service,
      id,
      visitBody('2026-03-02', 60_000, [thinnest(6)], { work: [{ kind: 'slides-serviced', axle: 'front' }] }),
    );
    const { items } = await read<{ items: { code: string }[] }>(
      service,
      `/v1/visits/${visit.id}/open-points`,
    );
    expect(items.map(({ code }) => code)).not.toContain('position-not-measured');
  });
});

describe('refusals', () => {
  it.each([
    [padReading('left', 'inner', 6, { side: undefined }), 'the inner pad needs a side'],
    [padReading('left', 'outer', 6, { side: null }), 'the outer pad needs a side'],
  ])('a pad with a name needs its side: %o', async (reading, detail) => {
    const { id } = await recordVehicle(service, discVehicle());
    const { status, body } = await service
      .as('technician', 'post', `/v1/vehicles/${id}/visits`)
      .send(visitBody('2026-03-02', 60_000, [reading]));
    expect(status).toBe(422);
    expect(body.errors).toMatchObject([{ pointer: '#/readings/0/side' }]);
    expect(body.errors[0].detail).toContain(detail);
  });

  it('the thinnest of an axle occurs once in a visit, also if it is added later', async () => {
    const { id } = await recordVehicle(service, discVehicle());
    const post = (path: string, body: Body) => service.as('technician', 'post', path).send(body);
    const twice = visitBody('2026-03-02', 60_000, [thinnest(6), thinnest(5, { side: null })]);
    const refused = await post(`/v1/vehicles/${id}/visits`, twice);
    expect(refused.status).toBe(422);
    expect(refused.body.errors).toMatchObject([{ pointer: '#/readings/1' }]);
    const visit = await recordVisit(service, id, visitBody('2026-03-02', 60_000, [thinnest(6)]));
    const later = await post(`/v1/visits/${visit.id}/entries`, { readings: [thinnest(5)] });
    expect(later.status).toBe(422);
    const repeated = await post(`/v1/visits/${visit.id}/entries`, { readings: [thinnest(5, { repeat: 2 })] });
    expect(repeated.status).toBe(201);
  });
});

describe('the thinnest shoe', () => {
  it('the thinnest shoe needs no side either, and is called a shoe', async () => {
    const { id } = await recordHistory(
      service,
      discVehicle({ axles: { rear: { brake: 'drum', shoe: { new: mm(5), limit: mm(1.6) } } } }),
      [
        visitBody('2026-03-02', 60_000, [
          { kind: 'shoe-thickness', axle: 'rear', gauge: 'depth-gauge', ...mm(1.2) },
        ]),
      ],
    );
    const [rear] = (await read<Wear>(service, `/v1/vehicles/${id}/wear`)).axles;
    expect(rear!.pads).toMatchObject([{ side: null, pad: 'thinnest', latest: { valueMm: 1.2 } }]);
    expect(rear!.findings[0]!.message).toMatch(/^Thinnest shoe read 1\.2 mm/);
    const { items } = await read<{ items: Body[] }>(service, '/v1/reports/due-soon?limit=200');
    expect(items.find(({ vehicleId }) => vehicleId === id)).toMatchObject({ linings: 'shoes' });
  });
});

describe('corrections and files', () => {
  it('a correction may turn the thinnest into a pad with a name, and back', async () => {
    const { id } = await recordVehicle(service, discVehicle());
    const visit = await recordVisit(service, id, visitBody('2026-03-02', 60_000, [thinnest(6)]));
    const named = await correct(service, visit.id, {
      reason: 'it was the left inner',
      changes: { readings: [padReading('left', 'inner', 6)] },
    });
    expect(named.body.readings).toMatchObject([{ side: 'left', pad: 'inner' }]);
    const back = await correct(service, visit.id, {
      reason: 'nobody knows which',
      changes: { readings: [thinnest(6)] },
    });
    expect(back.status).toBe(200);
    expect(back.body.readings).toMatchObject([{ side: null, pad: 'thinnest' }]);
    expect((await front(id)).pads).toHaveLength(1);
  });

  it('a spreadsheet has the thinnest with an empty side, and an export comes back unchanged', async () => {
    const { externalId, id } = await recordVehicle(service, discVehicle());
    const rows = [padRow({ vehicle: String(externalId), side: '', pad: 'thinnest', value: 4 })];
    const imported = await sendSheet(service, sheetOf(rows));
    expect(imported.body).toMatchObject({ state: 'done', errorsTotal: 0 });
    expect((await front(id)).pads).toMatchObject([{ side: null, pad: 'thinnest', latest: { valueMm: 4 } }]);
    const text = await exported(service, 'visits');
    const line = text.split('\r\n').find((each) => each.startsWith(`${String(externalId)},`))!;
    expect(line).toContain(',pad-thickness,front,,thinnest,');
    const again = await sendSheet(service, text);
    expect(again.body).toMatchObject({ state: 'done', errorsTotal: 0, visitsAdded: 0, rowsAdded: 0 });
  });
});

describe('the pages', () => {
  it('the form has a field for the thinnest, and the sheet and the chart name it', async () => {
    const { id } = await recordHistory(service, discVehicle(), [
      visitBody('2025-03-02', 40_000, [thinnest(8)]),
    ]);
    const cookie = await signIn(service, service.keys.technician);
    const form = await getPage(service, cookie, `/vehicles/${id}/record`);
    expect(form.text).toContain('Thinnest of the axle');
    expect(form.text).toContain('last 8 mm');
    const once = /name="once" value="([^"]*)"/.exec(form.text)![1]!;
    const saved = await service.unchecked
      .post(`/vehicles/${id}/record`)
      .type('form')
      .set(OWN_FORM)
      .set('Cookie', cookie)
      .send({ once, date: '2026-03-02', odometer: '60000', 'front.linings.found.axle.thinnest': '6' })
      .redirects(0);
    expect(saved.status).toBe(303);
    const { items } = await read<{ items: Body[] }>(service, `/v1/vehicles/${id}/visits`);
    expect(items.map(({ readings }) => readings)).toContainEqual([
      expect.objectContaining({ side: null, pad: 'thinnest', value: 6 }),
    ]);
    const sheet = await getPage(service, cookie, `/vehicles/${id}`);
    expect(sheet.text).toMatch(/<th scope="row">Thinnest<\/th>/);
    const chart = await service
      .as('technician', 'get', `/v1/vehicles/${id}/wear.svg?axle=front`)
      .buffer(true)
      .parse((response, done) => {
        const chunks: Buffer[] = [];
        response.on('data', (chunk: Buffer) => chunks.push(chunk));
        response.on('end', () => done(null, Buffer.concat(chunks).toString('utf8')));
      });
    expect(chart.body).toContain('Thinnest');
  });
});
