import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { toDay } from '../../src/core/calendar.js';
import { lastDayOf, monthsFrom } from '../../src/core/planning/demand.js';
import type { PartsDemand } from '../../src/core/vocabulary/planning.js';
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
import { read, recordHistory, recordVisit } from '../support/recording.js';
import { FLEET, startService, type Service } from '../support/service.js';

const TODAY = '2026-03-10';
let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const demand = (query = '') => read<PartsDemand>(service, `/v1/reports/parts-demand?${query}`);
const sumOf = (items: readonly { item: string; expected: number }[], item: string): number =>
  items.reduce((sum, each) => sum + (each.item === item ? each.expected : 0), 0);

const disc = (discardMm: number | null): Body => ({
  brake: 'disc',
  pad: { new: mm(11), limit: mm(2) },
  ...(discardMm === null ? {} : { rotor: { new: mm(28), discard: mm(discardMm) } }),
});

/** A van measured twice, the second time at a date and thickness that the test chooses. */
async function van(front: Body, readings: Body[], changes: Body = {}): Promise<string> {
  const body = vehicleBody({
    inService: { date: '2024-03-01', odometer: km(0) },
    axles: { front },
    ...changes,
  });
  const visits = [visitBody('2026-02-20', 50_000, readings)];
  return (await recordHistory(service, body, visits)).id;
}

const evenly = (value: number) => fourPads([value, value, value, value]);
const rotors = (value: number) =>
  (['left', 'right'] as const).flatMap((side) =>
    [1, 2, 3, 4].map((point) => rotorReading(side, value, { point })),
  );

describe('the expected demand for parts', () => {
  it('the expected demand for linings is the sum of the chances that each axle reaches its limit in the month', async () => {
    for (const [index, thickness] of [9, 7.5, 6, 5, 4.2, 3.4, 2.9].entries()) {
      await van(disc(null), evenly(thickness), { fleet: 'sums', model: `m-${index % 2}` });
    }
    const { totals, items, axles, rotorsUnknownCount } = await demand('fleet=sums&months=24');
    // Even the thickest pad may begin to drag, and reach its limit within two years.
    expect([axles, rotorsUnknownCount]).toEqual([7, 7]);
    let soFar = 0;
    for (const month of monthsFrom(TODAY, 24)) {
      soFar += sumOf(
        totals.filter((total) => total.month === month),
        'pad-set',
      );
      const withinDays = toDay(lastDayOf(month)) - toDay(TODAY);
      const path = `/v1/reports/due-soon?fleet=sums&chance=0&withinDays=${withinDays}`;
      const due = await read<{ items: DueAxle[] }>(service, path);
      const chances = due.items.reduce((sum, { chance }) => sum + chance, 0);
      // Both figures are rounded, by month or by axle.
      expect(Math.abs(soFar - chances)).toBeLessThan(0.015);
    }
    expect(sumOf(items, 'pad-set')).toBeCloseTo(sumOf(totals, 'pad-set'), 1);
    expect(sumOf(items, 'rotor-pair')).toBe(0);
    expect(new Set(items.map(({ model }) => model))).toEqual(new Set(['m-0', 'm-1']));
  });

  it('a month’s figures do not depend on how many months are requested', async () => {
    for (const [index, thickness] of [8.6, 7.1, 5.4, 3.7].entries()) {
      await van(disc(25), [...evenly(thickness), ...rotors(25.2 + index)], { fleet: 'months' });
    }
    const { totals, items } = await demand('fleet=months&months=24');
    for (const months of [1, 2, 5, 11]) {
      const asked = new Set(monthsFrom(TODAY, months));
      const some = await demand(`fleet=months&months=${months}`);
      expect(some.totals).toEqual(totals.filter(({ month }) => asked.has(month)));
      expect(some.items).toEqual(items.filter(({ month }) => asked.has(month)));
    }
  });

  it('rotors that reach discard before their pads are worn count on their own date', async () => {
    await van(disc(25), [...evenly(10), ...rotors(25.02)], { fleet: 'first' });
    const { totals } = await demand('fleet=first&months=6');
    expect(sumOf(totals, 'rotor-pair')).toBeGreaterThan(0.9);
    expect(sumOf(totals, 'pad-set')).toBeLessThan(0.2);
  });

  it('a failing reading counts as certain in the first month', async () => {
    await van(disc(null), evenly(1.5), { fleet: 'failing' });
    const { totals } = await demand('fleet=failing');
    expect(totals).toEqual([{ month: '2026-03', item: 'pad-set', expected: 1, low: 1, high: 1 }]);
  });

  it('rotors count with the linings, by the chance that they would not last the next set', async () => {
    // No third set wears 2 mm off a rotor; 0.35 mm may just last one set.
    await van(disc(25), [...evenly(3), ...rotors(27.4)], { fleet: 'plenty' });
    await van(disc(25), [...evenly(3), ...rotors(25.35)], { fleet: 'scant' });
    const [plenty, scant] = [await demand('fleet=plenty&months=24'), await demand('fleet=scant&months=24')];
    const share = ({ totals }: PartsDemand) => sumOf(totals, 'rotor-pair') / sumOf(totals, 'pad-set');
    expect(sumOf(plenty.totals, 'pad-set')).toBeGreaterThan(0.9);
    expect(share(plenty)).toBeLessThan(0.1);
    expect(share(scant)).toBeGreaterThan(0.6);
    expect(plenty.rotorsUnknownCount + scant.rotorsUnknownCount).toBe(0);
  });

  it('rotors under their discard thickness count in the first month, however thick the pads', async () => {
    await van(disc(25), [...evenly(10), ...rotors(24.5)], { fleet: 'thin' });
    const { totals, axles } = await demand('fleet=thin&months=2');
    expect(axles).toBe(1);
    expect(totals.filter(({ item }) => item === 'rotor-pair')).toEqual([
      { month: '2026-03', item: 'rotor-pair', expected: 1, low: 1, high: 1 },
    ]);
    expect(sumOf(totals, 'pad-set')).toBeLessThan(0.2);
  });

  it('a drum brake needs shoes and drums', async () => {
    const front = {
      brake: 'drum',
      shoe: { new: mm(5), limit: mm(1.5) },
      drum: { new: mm(228), maximum: mm(229) },
    };
    const shoe = (side: string) => ({ kind: 'shoe-thickness', axle: 'front', side, value: 1.2, unit: 'mm' });
    await van(front, ['left', 'right'].map(shoe), { fleet: 'drums' });
    const { items } = await demand('fleet=drums&months=1');
    expect(items.map(({ item, expected }) => [item, expected])).toEqual([['shoe-set', 1]]);
  });

  it('new pads end the earlier demand', async () => {
    const id = await van(disc(null), evenly(1.5), { fleet: 'renewed' });
    await recordVisit(
      service,
      id,
      visitBody('2026-03-09', 51_000, [], { work: [{ kind: 'pads-replaced', axle: 'front', new: mm(11) }] }),
    );
    expect((await demand('fleet=renewed&months=1')).items).toEqual([]);
  });

  it('a vehicle out of service does not count, and axles without a forecast are counted beside', async () => {
    await van(disc(null), evenly(1.5), { fleet: 'gone', outOfService: { date: '2026-03-01' } });
    await van({ brake: 'disc' }, [], { fleet: 'gone' });
    const { items, totals, axles, unassessedCount, words } = await demand('fleet=gone');
    expect([items, totals, axles, unassessedCount]).toEqual([[], [], 0, 1]);
    expect(words).toContain('no parts are expected to be needed');
    expect(words).toContain('1 axle without a forecast');
  });

  it('a fleet manager sees only the demand of the own fleets', async () => {
    await van(disc(null), evenly(1.5), { fleet: FLEET });
    const ask = async (query: string): Promise<PartsDemand> =>
      (await service.as('fleet-manager', 'get', `/v1/reports/parts-demand?${query}`)).body;
    const own = await ask('months=1');
    expect(own.items.map(({ fleet, expected }) => [fleet, expected])).toEqual([[FLEET, 1]]);
    expect(own.totals).toHaveLength(1);
    const other = await ask('fleet=sums');
    expect([other.items, other.totals, other.axles, other.unassessedCount]).toEqual([[], [], 0, 0]);
  });

  it('the expected demand for parts starts with the current month in the shop’s time zone', async () => {
    const late = await startService({ now: '2026-03-31T23:30:00Z', timeZone: 'Europe/Berlin' });
    try {
      const body = vehicleBody({ axles: { front: axleWith(11, 2) } });
      await recordHistory(late, body, [visitBody('2026-02-20', 50_000, evenly(1.5))]);
      const { totals } = await read<PartsDemand>(late, '/v1/reports/parts-demand?months=1');
      expect(totals.map(({ month }) => month)).toEqual(['2026-04']);
    } finally {
      await late.close();
    }
  });

  it('the CSV of the expected demand has the promised columns in order', async () => {
    const response = await service.as('technician', 'get', '/v1/reports/parts-demand?format=csv&months=24');
    expect(response.headers['content-type']).toMatch(/^text\/csv; charset=utf-8/);
    const [header, ...rows] = parse(response.text, { record_delimiter: '\r\n' }) as string[][];
    expect(header).toEqual(['month', 'fleet', 'model', 'axle', 'item', 'expected', 'low', 'high']);
    const { items } = await demand('months=24');
    expect(rows).toEqual(
      items.map(({ month, fleet, model, axle, item, expected, low, high }) =>
        [month, fleet, model, axle, item, expected, low, high].map((cell) => String(cell ?? '')),
      ),
    );
    const keys = rows.map((row) => row.slice(0, 5).join('|'));
    expect(keys).toEqual([...keys].sort());
  });

  it.each(['months=0', 'months=25', 'months=1.5', 'months=', 'format=ics', 'limit=5'])(
    'the query %s is refused',
    async (query) => {
      const response = await service.as('technician', 'get', `/v1/reports/parts-demand?${query}`);
      expect([response.status, response.body.code]).toEqual([400, 'bad-parameter']);
    },
  );
});
