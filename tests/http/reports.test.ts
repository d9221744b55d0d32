import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import type { DueAxle, UnassessedAxle } from '../../src/store/store.js';
import { axleWith, fourPads, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { read, recordHistory } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

interface Page<Item> {
  items: Item[];
  nextCursor: string | null;
  total: number;
}
type DuePage = Page<DueAxle> & { today: string; horizon: string; chance: number; unassessedCount: number };
type UnassessedPage = Page<UnassessedAxle>;

/** Vehicles of two axles whose pads are from new to worn out, in two fleets; most of them measured. */
const VEHICLES = 27;
const axles = { front: axleWith(11, 2), rear: axleWith(10, 2) };

let service: Service;
const ids: string[] = [];
let unmeasured = 0;

beforeAll(async () => {
  service = await startService();
  for (let index = 0; index < VEHICLES; index++) {
    const fleet = index % 3 === 0 ? 'south-depot' : 'north-depot';
    const front = 10.5 - (9 * index) / VEHICLES;
    // Another order than the front's, so that the two axles are due at different times.
    const rear = 9.5 - (8 * ((index * 7) % VEHICLES)) / VEHICLES;
    const readings = [
      ...fourPads([front, front, front + 0.2, front]),
      ...fourPads([rear, rear, rear, rear + 0.2], { axle: 'rear' }),
    ];
    const isMeasured = index % 9 !== 8;
    if (!isMeasured) unmeasured += 1;
    const date = `2026-02-${String(1 + (index % 28)).padStart(2, '0')}`;
    const { id } = await recordHistory(service, vehicleBody({ fleet, axles, model: `m-${index % 2}` }), [
      visitBody(date, 40_000 + 500 * index, isMeasured ? readings : []),
    ]);
    ids.push(id);
  }
});
afterAll(() => service.close());

const due = (query = '') => read<DuePage>(service, `/v1/reports/due-soon?${query}`);
const unassessed = (query = '') => read<UnassessedPage>(service, `/v1/reports/unassessed?${query}`);
const csv = async (report: string, query = ''): Promise<string[][]> => {
  const response = await service.as('technician', 'get', `/v1/reports/${report}?format=csv&${query}`);
  expect(response.status).toBe(200);
  expect(response.headers['content-type']).toMatch(/^text\/csv; charset=utf-8/);
  return parse(response.text, { record_delimiter: '\r\n' }) as string[][];
};

async function everyPage<Item>(ask: (query: string) => Promise<Page<Item>>, query: string, limit: number) {
  const pages: Item[][] = [];
  let cursor: string | null = '';
  while (cursor !== null) {
    const page: Page<Item> = await ask(`${query}&limit=${limit}${cursor && `&cursor=${cursor}`}`);
    pages.push(page.items);
    cursor = page.nextCursor;
  }
  return pages;
}
const nameOf = ({ vehicleId, axle }: { vehicleId: string; axle: string }) => `${vehicleId} ${axle}`;

describe('due-soon', () => {
  it('looks 60 days ahead for a chance of 0.1 unless asked otherwise', async () => {
    const page = await due();
    expect(page).toMatchObject({ today: '2026-03-10', horizon: '2026-05-09', chance: 0.1 });
    expect(page).toEqual(await due('withinDays=60&chance=0.1'));
    expect(page.total).toBeGreaterThan(5);
    expect(page.total).toBeLessThan(2 * VEHICLES);
  });

  it.each([
    [60, 0.1],
    [60, 0.04],
    [60, 0.5],
    [0, 0.1],
    [365, 0.25],
    [3650, 0.9],
  ])(
    'lists exactly the axles that have the chance within %i days of %f or more',
    async (withinDays, chance) => {
      const { items, total, horizon } = await due(`withinDays=${withinDays}&chance=${chance}&limit=200`);
      const expected = new Map<string, { chance: number; overdue: boolean; date: unknown }>();
      for (const id of ids) {
        const wear = await read<Wear>(service, `/v1/vehicles/${id}/wear?until=${horizon}`);
        for (const { axle, replacement } of wear.axles) {
          const { chanceLimitReached } = replacement.untilNextVisit;
          if (chanceLimitReached === null || chanceLimitReached < chance) continue;
          expected.set(`${id} ${axle}`, {
            chance: chanceLimitReached,
            overdue: replacement.overdue,
            date: replacement.date,
          });
        }
      }
      expect(items.map(nameOf).sort()).toEqual([...expected.keys()].sort());
      expect(total).toBe(expected.size);
      for (const item of items) {
        const { earlyDate: early, medianDate: median, lateDate: late } = item;
        expect({ chance: item.chance, overdue: item.overdue, date: { early, median, late } }).toEqual(
          expected.get(nameOf(item)),
        );
      }
    },
  );

  it('gives the soonest early date first', async () => {
    for (const query of ['limit=200&withinDays=3650', 'limit=200&withinDays=3650&chance=0.5']) {
      const dates = (await due(query)).items.map(({ earlyDate }) => earlyDate!);
      expect(dates).toEqual([...dates].sort());
      expect(new Set(dates).size).toBeGreaterThan(5);
    }
  });

  it('includes the overdue ones', async () => {
    const { items } = await due('withinDays=0&limit=200');
    const overdue = items.filter((item) => item.overdue);
    expect(overdue.length).toBeGreaterThan(0);
    for (const { medianDate } of overdue) expect(medianDate! <= '2026-03-10').toBe(true);
  });

  it.each([
    'withinDays=3650',
    'withinDays=3650&chance=0.3',
    'withinDays=3650&chance=0.02',
    'withinDays=400&fleet=north-depot',
  ])('pages add up to the total, each axle once: %s', async (query) => {
    const whole = await due(`${query}&limit=200`);
    for (const limit of [1, 7]) {
      const pages = await everyPage(due, query, limit);
      expect(pages.slice(0, -1).every((page) => page.length === limit)).toBe(true);
      expect(pages.flat()).toEqual(whole.items);
      expect(pages.flat()).toHaveLength(whole.total);
    }
    expect(whole.total).toBeGreaterThan(7);
  });

  it('takes a cursor only with the filters it came from', async () => {
    const { nextCursor } = await due('withinDays=3650&limit=3');
    for (const other of [
      'withinDays=3649',
      'withinDays=3650&chance=0.2',
      'withinDays=3650&fleet=north-depot',
      'withinDays=3650&axle=front',
    ]) {
      const response = await service.as(
        'technician',
        'get',
        `/v1/reports/due-soon?${other}&limit=3&cursor=${nextCursor}`,
      );
      expect([other, response.status]).toEqual([other, 400]);
      expect(response.body.errors).toEqual([expect.objectContaining({ parameter: 'cursor' })]);
    }
    const elsewhere = await service.as('technician', 'get', `/v1/vehicles?cursor=${nextCursor}`);
    expect(elsewhere.status).toBe(400);
    // The size of the page is no filter.
    expect((await due(`withinDays=3650&limit=5&cursor=${nextCursor}`)).items).toHaveLength(5);
  });

  it('narrows to a fleet and to an axle', async () => {
    const all = await due('withinDays=3650&limit=200');
    const fleet = await due('withinDays=3650&limit=200&fleet=south-depot');
    const rear = await due('withinDays=3650&limit=200&axle=rear');
    expect(fleet.items).toEqual(all.items.filter((item) => item.fleet === 'south-depot'));
    expect(rear.items).toEqual(all.items.filter((item) => item.axle === 'rear'));
    expect(fleet.total + (await due('withinDays=3650&fleet=north-depot')).total).toBe(all.total);
    expect(rear.total + (await due('withinDays=3650&axle=front')).total).toBe(all.total);
    expect(await due('fleet=nowhere')).toMatchObject({
      total: 0,
      unassessedCount: 0,
      items: [],
      nextCursor: null,
    });
  });

  it('counts the axles that nobody can tell of', async () => {
    expect((await due()).unassessedCount).toBe(2 * unmeasured);
    expect((await due('axle=front')).unassessedCount).toBe(unmeasured);
    expect((await due('fleet=south-depot')).unassessedCount).toBe(
      (await unassessed('fleet=south-depot')).total,
    );
  });

  it('follows a change of the vehicle and a new visit at once', async () => {
    const { id } = await recordHistory(service, vehicleBody({ fleet: 'moving', axles }), [
      visitBody('2026-03-01', 40_000, fourPads([2.5, 2.5, 2.5, 2.5])),
    ]);
    const seen = async (fleet: string) => (await due(`fleet=${fleet}&axle=front`)).items.map(nameOf);
    expect(await seen('moving')).toEqual([`${id} front`]);
    await service
      .as('technician', 'patch', `/v1/vehicles/${id}`)
      .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
      .send({ fleet: 'moved' });
    expect([await seen('moving'), await seen('moved')]).toEqual([[], [`${id} front`]]);
    await service
      .as('technician', 'post', `/v1/vehicles/${id}/visits`)
      .send(visitBody('2026-03-02', 40_010, [], { work: [{ kind: 'pads-replaced', axle: 'front' }] }));
    expect(await seen('moved')).toEqual([]);
  });
});

describe('unassessed', () => {
  let asked = 0;
  const why = async (vehicle: Body, visits: Body[]) => {
    const fleet = `why-${++asked}`;
    await recordHistory(
      service,
      vehicleBody({ fleet, axles: { front: axleWith(11, 2) }, ...vehicle }),
      visits,
    );
    const { items } = await unassessed(`fleet=${fleet}`);
    return items.map(({ axle, reason, lastReadingDate }) => [axle, reason.code, lastReadingDate]);
  };

  it('lists the axles never measured, and pages add up', async () => {
    const whole = await unassessed('limit=200&fleet=north-depot');
    expect(whole.items.every(({ reason }) => reason.code === 'no-readings' && reason.detail !== '')).toBe(
      true,
    );
    expect((await everyPage(unassessed, 'fleet=north-depot', 2)).flat()).toEqual(whole.items);
    expect(whole.total).toBe(whole.items.length);
    expect(whole.total + (await unassessed('fleet=south-depot')).total).toBe(2 * unmeasured);
  });

  it('says why', async () => {
    const pads = fourPads([7, 7, 7, 7]);
    expect(await why({}, [])).toEqual([['front', 'no-readings', null]]);
    expect(await why({}, [visitBody('2026-03-01', 40_000)])).toEqual([['front', 'no-readings', null]]);
    expect(
      await why({ axles: { front: axleWith(11, null) } }, [visitBody('2026-03-01', 40_000, pads)]),
    ).toEqual([['front', 'no-limit', '2026-03-01']]);
    expect(await why({ inService: null }, [visitBody('2026-03-01', null, pads)])).toEqual([
      ['front', 'no-odometer', '2026-03-01'],
    ]);
    expect(await why({ axles: { rear: { brake: 'drum' } } }, [])).toEqual([['rear', 'no-readings', null]]);
    expect(await why({}, [visitBody('2026-03-01', 40_000, pads)])).toEqual([]);
  });

  it('and due-soon share no axle, whatever the horizon', async () => {
    const open = (await unassessed('limit=200')).items.map(nameOf);
    const listed = (await due('withinDays=10957&chance=0.01&limit=200')).items.map(nameOf);
    expect(open.filter((name) => listed.includes(name))).toEqual([]);
    const ours = [...open, ...listed].filter((name) => ids.some((id) => name.startsWith(id)));
    expect(ours).toHaveLength(2 * VEHICLES);
  });
});

describe('CSV', () => {
  it('of due-soon has exactly the columns of the contract, and a row for every item', async () => {
    const { items, total } = await due('withinDays=3650&limit=200');
    const [header, ...rows] = await csv('due-soon', 'withinDays=3650&limit=1');
    expect(header).toEqual([
      'vehicleId',
      'externalId',
      'registration',
      'fleet',
      'model',
      'axle',
      'overdue',
      'chance',
      'earlyDate',
      'medianDate',
      'lateDate',
      'governingPad',
      'limitMm',
      'limitSource',
      'lastReadingDate',
    ]);
    expect(rows).toHaveLength(total);
    expect(rows).toEqual(
      items.map((item) => [
        item.vehicleId,
        item.externalId,
        item.registration,
        item.fleet,
        item.model,
        item.axle,
        String(item.overdue),
        String(item.chance),
        item.earlyDate ?? '',
        item.medianDate ?? '',
        item.lateDate ?? '',
        item.governingPad ? `${item.governingPad.side} ${item.governingPad.pad}` : '',
        String(item.limitMm),
        item.limitSource,
        item.lastReadingDate,
      ]),
    );
  });

  it('of unassessed has a row for every item, with the reason', async () => {
    const { items } = await unassessed('limit=200');
    const [header, ...rows] = await csv('unassessed', 'limit=1');
    const column = (name: string) => rows.map((row) => row[header!.indexOf(name)]);
    expect(column('vehicleId')).toEqual(items.map(({ vehicleId }) => vehicleId));
    expect(column('axle')).toEqual(items.map(({ axle }) => axle));
    expect(column('reasonCode')).toEqual(items.map(({ reason }) => reason.code));
    expect(column('reason')).toEqual(items.map(({ reason }) => reason.detail));
  });

  it('is a header alone where there is nothing', async () => {
    expect(await csv('due-soon', 'fleet=nowhere')).toHaveLength(1);
    expect(await csv('unassessed', 'fleet=nowhere')).toHaveLength(1);
  });

  it('has no cell that a spreadsheet would run, and loses none of the text', async () => {
    const texts = [
      '=1+1',
      '+1',
      '-1+2',
      '@SUM(A1)',
      '\t=1',
      '=cmd|"/c calc"!A1',
      '=1,2',
      '"=1"',
      'a,b',
      'say "hi"',
      "'=1",
    ];
    for (const [index, text] of texts.entries()) {
      const named = { fleet: 'formulas', registration: text, externalId: `${text}${index}`, model: text };
      await recordHistory(service, vehicleBody({ ...named, axles: { front: axleWith(11, 2), rear: {} } }), [
        visitBody('2026-03-01', 40_000, fourPads([2, 2, 2, 2])),
      ]);
    }
    for (const report of ['due-soon', 'unassessed']) {
      const [header, ...rows] = await csv(report, 'fleet=formulas');
      expect(rows).toHaveLength(texts.length);
      rows.forEach((row, index) => {
        expect(row.filter((cell) => /^[=+\-@\t\r]/.test(cell))).toEqual([]);
        for (const name of ['registration', 'model', 'externalId'])
          expect(row[header!.indexOf(name)]).toContain(texts[index]);
      });
    }
  });
});

describe('CSV', () => {
  it('keeps a line break within its cell', async () => {
    const texts = ['a\n=1+1', 'b\r=1+1', 'c\r\n=1+1'];
    for (const [index, text] of texts.entries())
      await recordHistory(
        service,
        vehicleBody({ fleet: 'breaks', registration: text, externalId: `${text}${index}` }),
        [visitBody('2026-03-01', 40_000, fourPads([2, 2, 2, 2]))],
      );
    const { text } = await service.as('technician', 'get', '/v1/reports/due-soon?format=csv&fleet=breaks');
    // RFC 4180: fields with line breaks stand in quotes.
    for (const registration of texts) expect(text).toContain(`"${registration}"`);
    const rows = parse(text, { record_delimiter: '\r\n', columns: true }) as Record<string, string>[];
    expect(rows.map((row) => row.registration)).toEqual(texts);
  });
});
