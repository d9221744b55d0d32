import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ReplacementPlan } from '../../src/core/vocabulary/planning.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { axleWith, fourPads, vehicleBody, visitBody } from '../support/bodies.js';
import { dateInWords } from '../../src/core/words.js';
import { read, recordHistory, recordVehicle } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

const TODAY = '2026-03-10';
let service: Service;
let vehicleId: string;
let address: string;

beforeAll(async () => {
  service = await startService({ now: `${TODAY}T12:00:00Z` });
  const axles = { front: axleWith(11, 2), rear: axleWith(10, 2) };
  const rear = { axle: 'rear' };
  ({ id: vehicleId } = await recordHistory(service, vehicleBody({ axles }), [
    visitBody('2025-03-05', 20_000, [...fourPads([8, 8, 8, 8]), ...fourPads([8, 8, 8, 8], rear)]),
    visitBody('2025-09-05', 30_000, [
      ...fourPads([6.5, 6.6, 6.5, 6.6]),
      ...fourPads([7.5, 7.5, 7.5, 7.5], rear),
    ]),
    visitBody('2026-03-05', 40_000, [...fourPads([5, 5.2, 5, 5.1]), ...fourPads([7, 7, 7, 7], rear)]),
  ]));
  address = `/v1/vehicles/${vehicleId}/replacement-plan`;
});
afterAll(() => service.close());

const planOf = (query = ''): Promise<ReplacementPlan> => read(service, `${address}?${query}`);

describe('a replacement plan', () => {
  it('a replacement plan has the chances of the wear answer for the same dates, and its cautions', async () => {
    const dates = ['2026-09-01', '2026-12-01', '2027-04-10'];
    const plan = await planOf(`dates=${dates.join(',')}`);
    for (const [index, date] of dates.entries()) {
      const wear = await read<Wear>(service, `/v1/vehicles/${vehicleId}/wear?until=${date}`);
      wear.axles.forEach(({ axle, replacement }, at) => {
        const visit = plan.axles[at]!.visits[index]!;
        expect([plan.axles[at]!.axle, visit.date, visit.chanceTooLate]).toEqual([
          axle,
          date,
          replacement.untilNextVisit.chanceLimitReached,
        ]);
      });
      expect(plan.cautions).toEqual(wear.cautions);
      expect(plan.asAt).toEqual(wear.asAt);
    }
  });

  it('a replacement plan recommends by the policy’s chance, or by the requested one', async () => {
    const byPolicy = await planOf();
    expect(byPolicy.rule).toMatchObject({ kind: 'greatest-chance', greatestChance: 0.1, costTooLate: null });
    expect(byPolicy.dateSource).toBe('rhythm');
    for (const { visits, recommended } of byPolicy.axles) {
      const inTime = visits.filter(({ chanceTooLate }) => chanceTooLate <= 0.1);
      expect(recommended).toBe(inTime.at(-1)!.date);
      expect(visits.every(({ expectedCost }) => expectedCost === null)).toBe(true);
    }
    const daring = await planOf('chance=0.9');
    expect(daring.rule.greatestChance).toBe(0.9);
    expect(daring.axles[0]!.recommended! > byPolicy.axles[0]!.recommended!).toBe(true);
    const body = { dueSoon: { withinDays: 60, chance: 0.9 } };
    const set = await service.as('owner', 'put', '/v1/policy').set('If-Match', '"v0"').send(body);
    expect(set.status).toBe(200);
    expect((await planOf()).axles).toEqual(daring.axles);
  });

  it('a replacement plan with costs recommends the lowest expected cost', async () => {
    const { rule, axles } = await planOf('costTooLate=500&costPerMmWasted=12');
    expect(rule).toMatchObject({ kind: 'least-expected-cost', costTooLate: 500, costPerMmWasted: 12 });
    for (const { visits, recommended, words } of axles) {
      for (const { expectedCost, chanceTooLate, wastedMm } of visits) {
        expect(expectedCost).toBeCloseTo(500 * chanceTooLate + 12 * wastedMm.expected, 3);
      }
      const lowest = Math.min(...visits.map(({ expectedCost }) => expectedCost!));
      expect(visits.find(({ date }) => date === recommended)!.expectedCost).toBe(lowest);
      expect(words).toContain(dateInWords(recommended!));
    }
    expect(axles[1]!.recommended! >= axles[0]!.recommended!).toBe(true);
  });

  it('a replacement plan accepts dates as repeated parameters or separated by commas', async () => {
    const together = await planOf('dates=2026-12-01,2027-04-10');
    expect(await planOf('dates=2026-12-01&dates=2027-04-10')).toEqual(together);
    expect(together.dateSource).toBe('dates');
  });

  it('a replacement plan for a vehicle that was never here says why it has no answer', async () => {
    const { id } = await recordVehicle(service, vehicleBody());
    const plan = await read<ReplacementPlan>(service, `/v1/vehicles/${id}/replacement-plan`);
    expect([plan.asAt, plan.axles, plan.reasons.map(({ code }) => code)]).toEqual([null, [], ['no-visits']]);
  });

  it.each([
    ['dates=2026-03-09', 'dates'],
    ['dates=2026-13-01', 'dates.0'],
    ['dates=', 'dates.0'],
    [
      `dates=${Array.from({ length: 25 }, (_, day) => `2027-01-${String(day + 1).padStart(2, '0')}`).join(',')}`,
      'dates',
    ],
    ['costTooLate=5', 'costPerMmWasted'],
    ['costPerMmWasted=5', 'costTooLate'],
    ['costTooLate=-1&costPerMmWasted=5', 'costTooLate'],
    ['costTooLate=1e9&costPerMmWasted=5', 'costTooLate'],
    ['chance=1.1', 'chance'],
  ])('the query %s is refused', async (query, parameter) => {
    const { status, body } = await service.as('technician', 'get', `${address}?${query}`);
    expect([status, body.code, body.errors[0].parameter]).toEqual([400, 'bad-parameter', parameter]);
  });

  it('a replacement plan accepts today, and never calls a vehicle safe', async () => {
    const plan = await planOf(`dates=${TODAY}`);
    expect(plan.axles[0]!.visits[0]!.date).toBe(TODAY);
    expect(JSON.stringify([plan.rule, plan.axles])).not.toMatch(/safe/i);
    expect(plan.rule.words).toContain('check the brakes at every visit');
  });
});
