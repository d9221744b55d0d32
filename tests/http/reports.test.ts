import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import type {
  DueAxle,
  DueTotals,
  MeasureFirstAxle,
  StoppedAxle,
  UnassessedAxle,
} from '../../src/store/contract/reports.js';
import { axleWith, fourPads, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { read, recordHistory, recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

interface Page<Item> {
  items: Item[];
  nextCursor: string | null;
  total: number;
}
type DuePage = Page<DueAxle> &
  DueTotals & {
    today: string;
    horizon: string;
    chance: number;
    unassessedCount: number;
    measureFirstCount: number;
    stopCount: number;
    groups?: (DueTotals & { fleet?: string | null; model?: string | null })[];
  };
type UnassessedPage = Page<UnassessedAxle>;

/** Two-axle vehicles in two fleets, with pads from new to worn out; most of them measured. */
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
    // In another order than the front's, so that the two axles are due at different times.
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
const measureFirst = (query = '') =>
  read<Page<MeasureFirstAxle>>(service, `/v1/reports/measure-first?${query}`);
const stops = (query = '') => read<Page<StoppedAxle>>(service, `/v1/reports/stops?${query}`);
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

describe('the due-soon report', () => {
  it('the due-soon report by default looks 60 days ahead for a chance of 0.1', async () => {
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
    'the due-soon report lists exactly the axles whose chance within %i days is %f or more',
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
            date: {
              early: replacement.date!.early,
              median: replacement.date!.median,
              late: replacement.date!.late,
            },
          });
        }
      }
      expect(items.map(nameOf).sort()).toEqual([...expected.keys()].sort());
      expect(total).toBe(expected.size);
      for (const item of items) {
        const { earlyDate: early, medianDate: median, lateDate: late } = item;
        // The report has no quartiles.
        expect(expected.get(nameOf(item))).toMatchObject({
          chance: item.chance,
          overdue: item.overdue,
          date: { early, median, late },
        });
      }
    },
  );

  it('the due-soon report has the soonest early date first', async () => {
    for (const query of ['limit=200&withinDays=3650', 'limit=200&withinDays=3650&chance=0.5']) {
      const dates = (await due(query)).items.map(({ earlyDate }) => earlyDate!);
      expect(dates).toEqual([...dates].sort());
      expect(new Set(dates).size).toBeGreaterThan(5);
    }
  });

  it('the due-soon report includes overdue axles', async () => {
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
  ])('the pages of the due-soon report add up to the total, each axle once: %s', async (query) => {
    const whole = await due(`${query}&limit=200`);
    for (const limit of [1, 7]) {
      const pages = await everyPage(due, query, limit);
      expect(pages.slice(0, -1).every((page) => page.length === limit)).toBe(true);
      expect(pages.flat()).toEqual(whole.items);
      expect(pages.flat()).toHaveLength(whole.total);
    }
    expect(whole.total).toBeGreaterThan(7);
  });

  it('a cursor works only with the filters it came from', async () => {
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
    // The page size is not a filter.
    expect((await due(`withinDays=3650&limit=5&cursor=${nextCursor}`)).items).toHaveLength(5);
  });

  it('the due-soon report can be limited to a fleet and to an axle', async () => {
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

  it('the due-soon report counts the axles without a forecast', async () => {
    expect((await due()).unassessedCount).toBe(2 * unmeasured);
    expect((await due('axle=front')).unassessedCount).toBe(unmeasured);
    expect((await due('fleet=south-depot')).unassessedCount).toBe(
      (await unassessed('fleet=south-depot')).total,
    );
  });

  it('the due-soon report reflects a change of the vehicle and a new visit at once', async () => {
    const { id } = await recordHistory(service, vehicleBody({ fleet: 'moving', axles }), [
      visitBody('2026-03-01', 40_000, fourPads([2.5, 2.5, 2.5, 2.5])),
    ]);
    const seen = async (fleet: string) => (await due(`fleet=${fleet}&axle=front`)).items.map(nameOf);
    expect(await seen('moving')).toEqual([`${id} front`]);
    await service
      .as('technician', 'patch', `/v1/vehicles/${id}`)
      .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
      .send({ fleet: 'moved', model: 'rebuilt' });
    expect([await seen('moving'), await seen('moved')]).toEqual([[], [`${id} front`]]);
    expect((await due('fleet=moved&axle=front&groupBy=model')).groups).toMatchObject([{ model: 'rebuilt' }]);
    await service
      .as('technician', 'post', `/v1/vehicles/${id}/visits`)
      .send(visitBody('2026-03-02', 40_010, [], { work: [{ kind: 'pads-replaced', axle: 'front' }] }));
    expect(await seen('moved')).toEqual([]);
  });
});

/** The totals of some items, counted by hand. */
function countByHand(items: readonly DueAxle[]): DueTotals {
  const count = (of: readonly DueAxle[]) => ({
    total: of.length,
    overdueCount: of.filter(({ overdue }) => overdue).length,
  });
  const named = (['front', 'rear'] as const).map((axle) => ({
    axle,
    ...count(items.filter((item) => item.axle === axle)),
  }));
  return { ...count(items), byAxle: named.filter(({ total }) => total > 0) };
}

describe('the totals and groups of due-soon', () => {
  const QUERIES = ['withinDays=365', 'withinDays=365&chance=0.3', 'withinDays=365&axle=rear'];

  beforeAll(async () => {
    const nobodys = vehicleBody({ fleet: null, model: null, axles: { rear: axleWith(11, 2) } });
    await recordHistory(service, nobodys, [
      visitBody('2026-03-01', 40_000, fourPads([2.5, 2.5, 2.5, 2.5], { axle: 'rear' })),
    ]);
  });

  it.each(QUERIES)(
    'the totals and groups of due-soon count what is listed, by axle and by how many are overdue: %s',
    async (query) => {
      const { items, total, overdueCount, byAxle, groups } = await due(`${query}&limit=200`);
      expect({ total, overdueCount, byAxle }).toEqual(countByHand(items));
      expect(overdueCount).toBeGreaterThan(0);
      expect(groups).toBeUndefined();
      // Over all pages, not for one page.
      expect(await due(`${query}&limit=1`)).toMatchObject({ total, overdueCount, byAxle });
    },
  );

  it.each(QUERIES.flatMap((query) => (['fleet', 'model'] as const).map((by) => [by, query] as const)))(
    'the totals and groups of due-soon are ordered by %s like the items, with missing values last: %s',
    async (by, query) => {
      const plain = await due(`${query}&limit=200`);
      const { items, groups, ...page } = await due(`${query}&limit=200&groupBy=${by}`);
      const names = groups!.map((group) => group[by]!);
      expect(names.slice(0, -1)).toEqual(names.slice(0, -1).sort());
      expect(names.length).toBeGreaterThan(2);
      expect(names.at(-1)).toBeNull();
      expect(items).toEqual(names.flatMap((name) => plain.items.filter((item) => item[by] === name)));
      const { total, overdueCount, byAxle } = plain;
      expect(page).toMatchObject({ total, overdueCount, byAxle });
      for (const group of groups!) {
        const { [by]: name, ...totals } = group;
        expect(totals).toEqual(countByHand(items.filter((item) => item[by] === name)));
      }
    },
  );

  it.each(['withinDays=365&groupBy=fleet', 'withinDays=365&chance=0.3&groupBy=model'])(
    'the totals and groups of due-soon are paged with cursors of their own: %s',
    async (query) => {
      const whole = await due(`${query}&limit=200`);
      const pages = await everyPage(due, query, 4);
      expect(pages.flat()).toEqual(whole.items);
      const { nextCursor } = await due(`${query}&limit=4`);
      for (const other of [
        query.replace(/&groupBy=.*/, ''),
        query.replace(/groupBy=.*/, 'groupBy=fleet&axle=front'),
      ]) {
        const path = `/v1/reports/due-soon?${other}&cursor=${nextCursor}`;
        expect((await service.as('technician', 'get', path)).status).toBe(400);
      }
    },
  );

  it('the totals and groups of due-soon order the CSV too, whose columns stay the same', async () => {
    const { items } = await due('withinDays=365&limit=200&groupBy=fleet');
    const [header, ...rows] = await csv('due-soon', 'withinDays=365&groupBy=fleet');
    expect([header!.length, header!.at(-1)]).toEqual([16, 'part']);
    expect(rows.map((row) => `${row[0]} ${row[5]}`)).toEqual(items.map(nameOf));
  });

  it('the totals and groups of due-soon accept only fleet and model to group by', async () => {
    const { status, body } = await service.as('technician', 'get', '/v1/reports/due-soon?groupBy=shop');
    expect([status, body.errors[0].parameter]).toEqual([400, 'groupBy']);
  });
});

describe('an axle found worn at a visit dated tomorrow', () => {
  // Possible at UTC+14 while the shop still has today's date.
  it.each(['0.1', '0.05', '0.4'])(
    'an axle found worn tomorrow is due today already, for a chance of %s',
    async (chance) => {
      const fleet = `tomorrow-${chance}`;
      const { id } = await recordHistory(service, vehicleBody({ fleet, axles: { front: axleWith(11, 2) } }), [
        visitBody('2026-03-11', 40_000, fourPads([1.8, 2, 2, 2])),
      ]);
      const { items, total, overdueCount, measureFirstCount } = await due(
        `withinDays=0&fleet=${fleet}&chance=${chance}`,
      );
      expect(items.map(nameOf)).toEqual([`${id} front`]);
      expect([total, overdueCount, measureFirstCount]).toEqual([1, 1, 0]);
    },
  );

  it('an axle without a finding is not due', async () => {
    const fleet = 'tomorrow-sound';
    await recordHistory(service, vehicleBody({ fleet, axles: { front: axleWith(11, 2) } }), [
      visitBody('2026-03-11', 40_000, fourPads([9, 9, 9, 9])),
    ]);
    expect(await due(`withinDays=0&fleet=${fleet}`)).toMatchObject({ total: 0, items: [] });
  });
});

describe('the stops report', () => {
  const fleet = 'fleet=stopped';
  /** Vehicles with thick pads, some of which had a cracked rotor, and one that was never measured. */
  beforeAll(async () => {
    const cracked = [{ part: 'rotor', axle: 'front', side: 'left', state: 'cracked' }];
    const vehicle = () => vehicleBody({ fleet: 'stopped', axles: { front: axleWith(12, 2) } });
    for (let index = 0; index < 6; index++) {
      await recordHistory(service, vehicle(), [
        visitBody(
          '2026-03-01',
          5_000,
          fourPads([11.8, 11.8, 11.8, 11.8]),
          index % 2 === 1 ? { conditions: cracked } : {},
        ),
      ]);
    }
    await recordHistory(service, vehicle(), [visitBody('2026-03-01', 5_000, [], { conditions: cracked })]);
    await recordHistory(service, vehicle(), [visitBody('2026-03-01', 40_000, fourPads([1.5, 6, 6, 6]))]);
  });

  it('the stops report has the axles that no date makes due but a finding stops', async () => {
    const { items, total } = await stops(fleet);
    const page = await due(fleet);
    expect([total, items.length, page.stopCount, page.total]).toEqual([4, 4, 4, 1]);
    for (const item of items) {
      expect(page.items.map(nameOf)).not.toContain(nameOf(item));
      expect(item.stops).toEqual([{ code: 'rotor-cracked', side: 'left', pad: null }]);
    }
    expect(items.filter(({ earlyDate }) => earlyDate === null)).toHaveLength(1);
  });

  it.each(['chance=0.02', 'chance=0.5', 'chance=1'])(
    'the stops report and due-soon together hold every axle with a stop finding, at %s',
    async (query) => {
      const listed = [
        ...(await stops(`${query}&${fleet}&limit=200`)).items,
        ...(await due(`${query}&${fleet}&limit=200`)).items,
      ].map(nameOf);
      expect(new Set(listed).size).toBe(listed.length);
      expect(listed.length).toBeGreaterThanOrEqual(5);
    },
  );

  it('the stops report is paged, and the CSV has the same rows', async () => {
    const whole = (await stops(`${fleet}&limit=200`)).items;
    expect((await everyPage(stops, fleet, 3)).flat()).toEqual(whole);
    const [header, ...rows] = await csv('stops', fleet);
    expect(header).toEqual(
      'vehicleId externalId registration fleet model axle earlyDate lastReadingDate stops'.split(' '),
    );
    expect(rows.map((row) => row.at(-1))).toEqual(whole.map(() => 'rotor-cracked left'));
  });

  it('the stops report drops findings on parts that have been replaced', async () => {
    const [item] = (await stops(fleet)).items;
    const work = [{ kind: 'rotor-replaced', axle: 'front', new: { value: 28, unit: 'mm' } }];
    await recordVisit(service, item!.vehicleId, visitBody('2026-03-03', 5_100, [], { work }));
    expect((await stops(fleet)).items.map(nameOf)).not.toContain(nameOf(item!));
  });
});

describe('the measure-first report', () => {
  /** The policy's days between visits, for vehicles that were here once. */
  const BETWEEN_VISITS = 182;
  const apart = ({ earlyDate, lateDate }: Pick<DueAxle, 'earlyDate' | 'lateDate'>): number =>
    (Date.parse(lateDate!) - Date.parse(earlyDate!)) / 86_400_000;
  /** One coarse reading of a vehicle that seldom comes: the year is uncertain. */
  const vague = (date: string, mm: number) => [
    visitBody(date, 40_000, fourPads([mm, mm, mm, mm], { gauge: 'visual' })),
  ];

  beforeAll(async () => {
    for (let index = 0; index < 28; index++) {
      const fleet = index % 2 === 0 ? 'vague-east' : 'vague-west';
      const vehicle = vehicleBody({ fleet, axles: { front: axleWith(12, 2) } });
      await recordHistory(service, vehicle, vague('2026-03-01', 4 + index * 0.25));
    }
    const unread = vehicleBody({ fleet: 'unread', axles: { front: axleWith(12, 2), rear: axleWith(12, 2) } });
    await recordHistory(service, unread, [
      visitBody('2025-03-09', 20_000, [
        ...fourPads([11, 11, 11, 11]),
        ...fourPads([11.5, 11.5, 11.5, 11.5], { axle: 'rear' }),
      ]),
      visitBody('2026-03-01', 21_000, fourPads([10.8, 10.8, 10.8, 10.8])),
    ]);
  });

  it('the measure-first report has the axles that are not due and whose dates are too far apart to plan by, with the reason', async () => {
    let listed = 0;
    for (const withinDays of [90, 180, 270, 365]) {
      const query = `withinDays=${withinDays}&fleet=vague-east&limit=200`;
      const { items, total } = await measureFirst(query);
      const page = await due(query);
      expect([total, page.measureFirstCount]).toEqual([items.length, items.length]);
      const dueOnes = page.items.map(nameOf);
      for (const item of items) {
        expect(dueOnes).not.toContain(nameOf(item));
        expect(item.chance).toBeGreaterThanOrEqual(0.05);
        expect(item.chance).toBeLessThan(0.1);
        expect(apart(item)).toBeGreaterThan(BETWEEN_VISITS);
        expect(item.reasons.map(({ code }) => code)).toEqual(['dates-too-far-apart']);
        expect(item.reasons[0]!.detail).toContain(`reached by ${page.horizon} is`);
      }
      listed += total;
    }
    expect(listed).toBeGreaterThan(0);
  });

  it.each(['withinDays=150&chance=0.1', 'withinDays=150&chance=0.3', 'withinDays=100&chance=0.08'])(
    'the measure-first report omits no axle that its rule selects: %s',
    async (query) => {
      const chance = Number(/chance=(.*)/.exec(query)![1]);
      const fleet = 'fleet=vague-west';
      const { items } = await measureFirst(`${query}&${fleet}&limit=200`);
      // All horizons are before the next visit, 182 days after the first.
      const likely = await due(`${query.replace(/chance=.*/, 'chance=0.05')}&${fleet}&limit=200`);
      const expected = likely.items.filter((item) => item.chance < chance && apart(item) > BETWEEN_VISITS);
      expect(items.map(nameOf)).toEqual(expected.map(nameOf));
    },
  );

  it('a vehicle expected in time is omitted, one that missed a visit is listed', async () => {
    const fleet = 'fleet=vague-west';
    // A horizon in the year after the visit expected on 2026-08-30.
    const asked = async (days: number) => {
      const query = `withinDays=${days}&${fleet}&limit=200`;
      const wanted = (await due(`${query}&chance=0.05`)).items.filter(
        (item) => item.chance < 0.1 && apart(item) > BETWEEN_VISITS,
      );
      return { listed: (await measureFirst(query)).items.map(nameOf), wanted: wanted.map(nameOf) };
    };
    service.setClock('2026-08-30T12:00:00Z');
    const before = await asked(16);
    service.setClock('2026-08-31T12:00:00Z');
    const after = await asked(15);
    service.setClock('2026-03-10T12:00:00Z');
    expect(after.wanted.length).toBeGreaterThan(0);
    expect(after.listed).toEqual(after.wanted);
    expect(before.wanted).toEqual(after.wanted);
    expect(before.listed.length).toBeLessThan(after.listed.length);
  });

  it('the measure-first report has the axles not measured for longer than the policy allows', async () => {
    const asked = async () => (await measureFirst('withinDays=0&fleet=unread')).items;
    // 366 days after the rear's last reading; the policy allows 365.
    const [rear, ...others] = await asked();
    expect(others).toEqual([]);
    expect([rear!.axle, rear!.lastReadingDate]).toEqual(['rear', '2025-03-09']);
    expect(rear!.reasons).toEqual([
      {
        code: 'reading-overdue',
        detail:
          'Last measured on 2025-03-09, 366 days ago; the shop measures at least every 365 days. Measure all linings of this axle before you rely on its dates.',
      },
    ]);
    expect((await due('withinDays=0&fleet=unread')).measureFirstCount).toBe(1);
    service.setClock('2026-03-09T12:00:00Z');
    expect(await asked()).toEqual([]);
    service.setClock('2026-03-10T12:00:00Z');
  });

  it('the measure-first report can be limited to an axle, is paged, and gives all rows as CSV', async () => {
    const query = 'withinDays=365&chance=1';
    const whole = await measureFirst(`${query}&limit=200`);
    expect(whole.total).toBeGreaterThan(3);
    expect(whole.items).toHaveLength(whole.total);
    for (const each of [query, 'withinDays=180']) {
      const { items } = await measureFirst(`${each}&limit=200`);
      expect((await everyPage(measureFirst, each, 3)).flat()).toEqual(items);
    }
    const rear = await measureFirst(`${query}&axle=rear&limit=200`);
    expect(rear.items).toEqual(whole.items.filter(({ axle }) => axle === 'rear'));
    const [header, ...rows] = await csv('measure-first', `${query}&limit=1`);
    const column = (name: string) => rows.map((row) => row[header!.indexOf(name)]);
    expect(column('vehicleId')).toEqual(whole.items.map(({ vehicleId }) => vehicleId));
    expect(column('reasons')).toEqual(
      whole.items.map(({ reasons }) => reasons.map(({ detail }) => detail).join(' ')),
    );
    expect(column('reasonCodes')).toEqual(
      whole.items.map(({ reasons }) => reasons.map(({ code }) => code).join(' ')),
    );
  });

  it('the measure-first report shares no axle with due-soon and unassessed', async () => {
    for (const query of ['withinDays=180', 'withinDays=365&chance=0.5']) {
      const first = (await measureFirst(`${query}&limit=200`)).items.map(nameOf);
      const others = [...(await due(`${query}&limit=200`)).items, ...(await unassessed('limit=200')).items];
      const names = others.map(nameOf);
      expect(first.filter((name) => names.includes(name))).toEqual([]);
    }
  });
});

describe('the changedAt of a due axle', () => {
  it('the changedAt of a due axle is when the outlook last changed, and a change of the vehicle alone leaves it', async () => {
    const { id } = await recordHistory(service, vehicleBody({ fleet: 'changing', axles }), [
      visitBody('2026-03-01', 40_000, fourPads([3, 3, 3, 3])),
    ]);
    const at = async () => (await due('withinDays=3650&fleet=changing&axle=front')).items[0]!.changedAt;
    expect(await at()).toBe('2026-03-10T12:00:00.000Z');
    service.setClock('2026-03-10T13:00:00Z');
    await service
      .as('technician', 'patch', `/v1/vehicles/${id}`)
      .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
      .send({ description: 'white' });
    expect(await at()).toBe('2026-03-10T12:00:00.000Z');
    await service
      .as('technician', 'post', `/v1/vehicles/${id}/visits`)
      .send(visitBody('2026-03-02', 40_100, fourPads([2.9, 3, 3, 3])));
    expect(await at()).toBe('2026-03-10T13:00:00.000Z');
    service.setClock('2026-03-10T12:00:00Z');
  });
});

describe('the unassessed report', () => {
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

  it('the unassessed report lists the axles never measured, and its pages add up', async () => {
    const whole = await unassessed('limit=200&fleet=north-depot');
    expect(whole.items.every(({ reason }) => reason.code === 'no-readings' && reason.detail !== '')).toBe(
      true,
    );
    expect((await everyPage(unassessed, 'fleet=north-depot', 2)).flat()).toEqual(whole.items);
    expect(whole.total).toBe(whole.items.length);
    expect(whole.total + (await unassessed('fleet=south-depot')).total).toBe(2 * unmeasured);
  });

  it('the unassessed report gives the reason for each axle', async () => {
    const pads = fourPads([7, 7, 7, 7]);
    expect(await why({}, [])).toEqual([['front', 'no-readings', null]]);
    expect(await why({}, [visitBody('2026-03-01', 40_000)])).toEqual([['front', 'no-readings', null]]);
    expect(
      await why({ axles: { front: axleWith(11, null) } }, [visitBody('2026-03-01', 40_000, pads)]),
    ).toEqual([['front', 'no-limit', '2026-03-01']]);
    // Without an odometer there are still dates.
    expect(await why({ inService: null }, [visitBody('2026-03-01', null, pads)])).toEqual([]);
    expect(await why({ axles: { rear: { brake: 'drum' } } }, [])).toEqual([['rear', 'no-readings', null]]);
    expect(await why({}, [visitBody('2026-03-01', 40_000, pads)])).toEqual([]);
  });

  it('the unassessed report shares no axle with due-soon, whatever the horizon', async () => {
    const open = (await unassessed('limit=200')).items.map(nameOf);
    const listed = (await due('withinDays=10957&chance=0.01&limit=200')).items.map(nameOf);
    expect(open.filter((name) => listed.includes(name))).toEqual([]);
    const ours = [...open, ...listed].filter((name) => ids.some((id) => name.startsWith(id)));
    expect(ours).toHaveLength(2 * VEHICLES);
  });
});

describe('the reports as CSV', () => {
  it('the due-soon CSV has exactly the columns of the contract, and a row for every item', async () => {
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
      'part',
    ]);
    expect(rows).toHaveLength(total);
    expect(rows).toEqual(
      items.map((item) => [
        item.vehicleId,
        item.externalId,
        item.registration,
        item.fleet ?? '',
        item.model ?? '',
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
        item.part,
      ]),
    );
  });

  it('the unassessed CSV has a row for every item, with the reason', async () => {
    const { items } = await unassessed('limit=200');
    const [header, ...rows] = await csv('unassessed', 'limit=1');
    const column = (name: string) => rows.map((row) => row[header!.indexOf(name)]);
    expect(column('vehicleId')).toEqual(items.map(({ vehicleId }) => vehicleId));
    expect(column('axle')).toEqual(items.map(({ axle }) => axle));
    expect(column('reasonCode')).toEqual(items.map(({ reason }) => reason.code));
    expect(column('reason')).toEqual(items.map(({ reason }) => reason.detail));
  });

  it('a CSV report without items is only the heading row', async () => {
    expect(await csv('due-soon', 'fleet=nowhere')).toHaveLength(1);
    expect(await csv('unassessed', 'fleet=nowhere')).toHaveLength(1);
  });

  it('a spreadsheet program can run no cell of a CSV report, and no text is lost', async () => {
    const texts = [
      '=1+1',
      '+1',
      '-1+2',
      '@SUM(A1)',
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

describe('the text cells of CSV', () => {
  it('a line break stays inside its cell, and what follows it is escaped', async () => {
    const texts = ['a\n=1+1', 'b\r=1+1', 'c\r\n=1+1', 'd\r\ne'];
    const { id } = await recordVehicle(service, vehicleBody({ fleet: 'breaks', externalId: 'BREAKS' }));
    for (const notes of texts) await recordVisit(service, id, { ...visitBody('2026-03-01', null), notes });
    const { text } = await service.as('owner', 'get', '/v1/exports/visits');
    const rows = parse(text, { record_delimiter: '\r\n', columns: true }) as Record<string, string>[];
    const cells = rows.filter(({ vehicle }) => vehicle === 'BREAKS').map(({ notes }) => notes!);
    expect(cells).toEqual(["a\n'=1+1", "b\r'=1+1", "c\r\n'=1+1", 'd\r\ne']);
    // RFC 4180: fields with line breaks are quoted.
    for (const cell of cells) expect(text).toContain(`"${cell}"`);
  });

  it('a name has no line break, because none can be recorded with one', async () => {
    const body = vehicleBody({ registration: 'a\n=1+1' });
    expect((await service.as('technician', 'post', '/v1/vehicles').send(body)).status).toBe(422);
  });
});
