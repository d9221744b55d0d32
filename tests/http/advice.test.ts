import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PartsDemand } from '../../src/core/vocabulary/planning.js';
import type { AxleWear, Wear } from '../../src/core/vocabulary/wear.js';
import type { DueAxle } from '../../src/store/contract/reports.js';
import {
  axleWith,
  fourPads,
  km,
  mm,
  rotorReading,
  vehicleBody,
  visitBody,
  type Body,
} from '../support/bodies.js';
import { read, recordHistory } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const disc: Body = { ...axleWith(11, 2), rotor: { new: mm(28), discard: mm(26), machineTo: mm(26.4) } };
const evenly = (value: number) => fourPads([value, value, value, value]);
const rotors = (value: number) =>
  (['left', 'right'] as const).flatMap((side) =>
    [1, 2, 3, 4].map((point) => rotorReading(side, value, { point })),
  );

/** A van whose pads and rotors are read twice, half a year and 9,000 km apart. */
async function van(fleet: string, pads: [number, number], discs: [number, number] | null, more: Body = {}) {
  const body = vehicleBody({
    fleet,
    inService: { date: '2024-03-01', odometer: km(0) },
    axles: { front: disc },
  });
  const at = (date: string, distance: number, index: 0 | 1, extra: Body = {}) =>
    visitBody(date, distance, [...evenly(pads[index]), ...(discs ? rotors(discs[index]) : [])], extra);
  const visits = [at('2025-09-01', 31_000, 0), at('2026-03-02', 40_000, 1, more)];
  return (await recordHistory(service, body, visits)).id;
}
const frontOf = async (id: string): Promise<AxleWear> =>
  (await read<Wear>(service, `/v1/vehicles/${id}/wear`)).axles[0]!;
const dueOf = async (fleet: string, query = '') =>
  (await read<{ items: DueAxle[] }>(service, `/v1/reports/due-soon?fleet=${fleet}&${query}`)).items;

describe('the advice in the wear answer', () => {
  it.each<[string, [number, number], [number, number] | null, Body, RegExp, string]>([
    ['under the limit', [3, 1.5], null, {}, /^Fit front pads now\.$/, 'fit-now'],
    [
      'cracked',
      [9, 8.6],
      [27.8, 27.7],
      { conditions: [{ part: 'rotor', axle: 'front', side: 'left', state: 'cracked' }] },
      /^Replace both front rotors now: the left one is cracked\.$/,
      'stop',
    ],
    ['near the limit', [4.5, 3], [27.8, 27.7], {}, /^Fit front pads (before|at the first chance)/, ''],
    [
      'heat spotted',
      [9, 8.6],
      [27.8, 27.7],
      { conditions: [{ part: 'rotor', axle: 'front', side: 'left', state: 'heat-spotted' }] },
      /^Machine both front rotors\.$/,
      'machine',
    ],
    ['sound', [9, 8.6], [27.8, 27.77], {}, /^Nothing to fit on the front axle yet/, 'nothing-yet'],
  ])(
    'the advice in the wear answer follows the state of the axle: %s',
    async (_name, pads, discs, more, words, action) => {
      const { advice } = await frontOf(await van('advice', pads, discs, more));
      expect(advice.words).toMatch(words);
      if (action) expect(advice.action).toBe(action);
    },
  );

  it('the advice is that of the day of the request, and the answer to a visit has the same', async () => {
    const id = await van('days', [9, 8.6], [27.8, 27.77]);
    const then = await read<Wear>(service, `/v1/vehicles/${id}/wear?asOf=2025-09-01`);
    expect(then.axles[0]!.advice.why).toContain('9.0 mm on 1 September');
    const posted = await service
      .as('technician', 'post', `/v1/vehicles/${id}/visits`)
      .send(visitBody('2026-03-09', 40_200, evenly(8.5)));
    const outlook = (posted.body as { outlook: Record<string, AxleWear> }).outlook;
    expect(outlook.front!.advice).toEqual((await frontOf(id)).advice);
  });
});

describe('rotors that reach discard before their pads are worn', () => {
  it('rotors that reach discard before their pads lead the advice, due-soon, its CSV, the calendar and the demand for parts', async () => {
    const id = await van('rotors', [9, 8.6], [26.31, 26.01]);
    const front = await frontOf(id);
    expect(front.advice.words).toMatch(/^Replace both front rotors /);
    expect(front.rotors[0]).toMatchObject({ fails: false, untilNextVisit: { dateSource: 'policy' } });
    const [item, ...others] = await dueOf('rotors');
    expect(others).toEqual([]);
    expect(item).toMatchObject({ part: 'rotors', axle: 'front', limitMm: 26, governingPad: null });
    expect(item!.earlyDate! <= front.rotors[0]!.date!.early!).toBe(true);
    const text = (await service.as('technician', 'get', '/v1/reports/due-soon?fleet=rotors&format=csv')).text;
    expect(parse(text, { columns: true })).toMatchObject([{ part: 'rotors', limitMm: '26' }]);
    const calendar = (await service.as('technician', 'get', '/v1/reports/due-soon?fleet=rotors&format=ics'))
      .text;
    expect(calendar.replaceAll('\r\n ', '')).toMatch(/SUMMARY:.*: replace both front rotors/);
    const { totals } = await read<PartsDemand>(service, '/v1/reports/parts-demand?fleet=rotors&months=1');
    expect(totals).toMatchObject([{ item: 'rotor-pair' }]);
  });

  it('due-soon lists such rotors at any chance, in the order of their own early date', async () => {
    for (const [index, thin] of [26.05, 26.2, 26.4].entries()) {
      await van('orders', [9, 8.6 - index], [thin + 0.3, thin]);
      await van('orders', [5, 4 + index / 2], [27.8, 27.7]);
    }
    for (const chance of [0.0005, 0.1, 0.3, 0.9]) {
      const items = await dueOf('orders', `chance=${chance}&withinDays=900&limit=200`);
      expect(items.map(({ earlyDate }) => earlyDate)).toEqual(items.map(({ earlyDate }) => earlyDate).sort());
      for (const item of items) expect(item.chance).toBeGreaterThanOrEqual(chance);
      expect(new Set(items.map(({ part }) => part))).toEqual(new Set(['pads', 'rotors']));
      const paged: DueAxle[] = [];
      for (let cursor: string | null = ''; cursor !== null;) {
        const query = `fleet=orders&chance=${chance}&withinDays=900&limit=2${cursor && `&cursor=${cursor}`}`;
        const page: { items: DueAxle[]; nextCursor: string | null } = await read(
          service,
          `/v1/reports/due-soon?${query}`,
        );
        paged.push(...page.items);
        cursor = page.nextCursor;
      }
      expect(paged).toEqual(items);
    }
  });
});

describe('drums that reach their maximum before their shoes are worn', () => {
  it('drums that reach their maximum before their shoes have dates of growth, and are due as drums', async () => {
    const rear = {
      brake: 'drum',
      shoe: { new: mm(6), limit: mm(1.5) },
      drum: { new: mm(254), maximum: mm(255) },
    };
    const body = vehicleBody({
      fleet: 'drums',
      inService: { date: '2024-03-01', odometer: km(0) },
      axles: { rear },
    });
    const at = (date: string, distance: number, diameter: number) =>
      visitBody(
        date,
        distance,
        ['left', 'right'].flatMap((side) => [
          { kind: 'shoe-thickness', axle: 'rear', side, shoe: 'leading', ...mm(5.6), gauge: 'depth-gauge' },
          ...[1, 2, 3, 4].map((point) => ({
            kind: 'drum-diameter',
            axle: 'rear',
            side,
            point,
            ...mm(diameter),
            gauge: 'drum-gauge',
          })),
        ]),
      );
    const { id } = await recordHistory(service, body, [
      at('2025-09-01', 31_000, 254.6),
      at('2026-03-02', 40_000, 254.85),
    ]);
    const axle = await frontOf(id);
    const [left] = axle.drums;
    expect(left).toMatchObject({ fails: false, maximumMm: 255 });
    expect(left!.date!.early! < left!.date!.late!).toBe(true);
    expect(axle.advice.part).toBe('drums');
    expect((await dueOf('drums', 'withinDays=700')).map(({ part, limitMm }) => [part, limitMm])).toEqual([
      ['drums', 255],
    ]);
  });
});
