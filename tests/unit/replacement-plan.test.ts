import { describe, expect, it } from 'vitest';
import { outlookFor } from '../../src/core/assessment/outlook.js';
import { startingExperience } from '../../src/core/forecast/experience.js';
import { replacementPlan, type PlanQuestion } from '../../src/core/planning/replacementPlan.js';
import { costOf, pick } from '../../src/core/planning/planRule.js';
import { chanceInWords } from '../../src/core/words.js';
import {
  fourPads,
  historyOf,
  km,
  mm,
  POLICY,
  rotorReadings,
  type VehicleDraft,
  type VisitDraft,
} from '../support/coreHistories.js';
import { dateInWords } from '../../src/core/words.js';

const TODAY = '2026-03-10';
const QUESTION: PlanQuestion = { today: TODAY, dates: null, costs: null, greatestChance: 0.1 };

function planOf(vehicle: VehicleDraft, visits: VisitDraft[], question: Partial<PlanQuestion> = {}) {
  const experience = startingExperience({ steeredOrFront: true, regenerative: false });
  const history = historyOf(vehicle, visits);
  const outlook = outlookFor(history, () => experience, POLICY);
  const plan = replacementPlan('v-1', history, outlook, () => experience, POLICY, {
    ...QUESTION,
    ...question,
  });
  return { plan, outlook, axle: plan.axles[0]! };
}

const visit = (date: string, odometerKm: number | null, thickness: number | null): VisitDraft => ({
  date,
  odometer: odometerKm === null ? null : km(odometerKm),
  readings: thickness === null ? [] : fourPads(thickness),
});
/** A pad that loses 1.5 mm in half a year, with 2.5 mm left in March. */
const WORN = [
  visit('2025-03-05', 20_000, 7.5),
  visit('2025-09-05', 30_000, 6),
  visit('2026-03-05', 40_000, 4.5),
];

describe('the visits of a replacement plan', () => {
  it('the visits of a replacement plan are the next six at the vehicle’s usual interval', () => {
    const { plan, axle } = planOf({}, WORN);
    expect(plan.dateSource).toBe('rhythm');
    expect(axle.visits.map(({ date }) => date).slice(0, 2)).toEqual(['2026-09-04', '2027-03-06']);
    expect(axle.visits).toHaveLength(6);
  });

  it('the visits follow the policy’s interval if there is no usual one, and one that is late is today', () => {
    const { plan, axle } = planOf({}, WORN.slice(0, 1), { today: '2026-03-10' });
    expect(plan.dateSource).toBe('policy');
    expect(axle.visits.map(({ date }) => date).slice(0, 2)).toEqual(['2026-03-10', '2026-09-08']);
  });

  it('the visits of a replacement plan are the requested dates, in order and once each', () => {
    const dates = ['2027-04-10', '2026-12-01', '2027-04-10'];
    const { plan, axle } = planOf({}, WORN, { dates });
    expect(plan.dateSource).toBe('dates');
    expect(axle.visits.map(({ date }) => date)).toEqual(['2026-12-01', '2027-04-10']);
  });
});

describe('a visit in a replacement plan', () => {
  it('a visit in a replacement plan starts from the present thickness and chance', () => {
    const { axle, outlook } = planOf({}, WORN, { today: '2026-03-05', dates: ['2026-03-05'] });
    const [now] = axle.visits;
    const thinnest = Math.min(...outlook.axles[0]!.pads.map(({ remainingMm }) => remainingMm!.median));
    // The thinnest of four pads has a little less than each of them.
    expect(now!.wastedMm.median).toBeLessThan(thinnest + 0.02);
    expect(now!.wastedMm.median).toBeGreaterThan(thinnest - 0.3);
    expect(now!.chanceTooLate).toBeLessThan(0.001);
    expect(axle.usableMm).toBe(9);
    expect(now!.wastedShare!.expected).toBeCloseTo(now!.wastedMm.expected / 9, 3);
  });

  it('the wear continues as in the history: 1.5 mm in half a year', () => {
    const { axle } = planOf({}, WORN, { dates: ['2026-03-12', '2026-09-10'] });
    const [first, second] = axle.visits;
    expect(first!.wastedMm.median - second!.wastedMm.median).toBeGreaterThan(1.2);
    expect(first!.wastedMm.median - second!.wastedMm.median).toBeLessThan(1.9);
  });

  it('a plan recommends no coming visit if a reading fails, because nothing is left', () => {
    const { axle } = planOf({}, [...WORN, visit('2026-03-09', 40_100, 1.6)], {
      costs: { tooLate: 0, perMmWasted: 9 },
    });
    expect(axle.overdue).toBe(true);
    expect(axle.visits.map(({ wastedMm }) => wastedMm.high)).toEqual([0, 0, 0, 0, 0, 0]);
    expect(axle.recommended).toBeNull();
    expect(axle.reasons).toContainEqual(expect.objectContaining({ field: 'recommended', code: 'due-now' }));
    expect(axle.words).toBe(
      'Fit front pads now; do not wait for a visit. A reading of the front pads fails its limit.',
    );
  });

  it('a plan recommends no coming visit if the limit has more likely than not been reached', () => {
    const costs = { tooLate: 0, perMmWasted: 9 };
    const { axle } = planOf({}, WORN, { today: '2027-06-01', dates: ['2027-06-01', '2027-09-01'], costs });
    expect(axle.visits[0]!.chanceTooLate).toBeGreaterThan(0.5);
    expect([axle.overdue, axle.recommended]).toEqual([true, null]);
    expect(axle.words).toMatch(
      /^Fit front pads now; do not wait for a visit\. The front pads have more likely than not reached their limit\.$/,
    );
  });

  it('a plan without a forecast is null with a reason', () => {
    const unmeasured = planOf({ axles: { front: { brake: 'disc' } } }, [
      visit('2026-03-05', 40_000, null),
    ]).axle;
    expect(unmeasured.reasons[0]).toMatchObject({ field: 'visits', code: 'no-readings' });
    const noNew = planOf({ axles: { front: { pad: { limit: mm(2) } } } }, WORN).axle;
    expect([noNew.usableMm, noNew.visits[0]!.wastedShare]).toEqual([null, null]);
    expect(noNew.reasons.map(({ code }) => code)).toContain('no-new-thickness');
    const unseen = planOf({}, []).plan;
    expect([unseen.axles, unseen.reasons[0]!.code]).toEqual([[], 'no-visits']);
  });

  it('a visit in a replacement plan needs no odometer', () => {
    const { visits } = planOf({}, [visit('2026-03-05', null, 4.5)]).axle;
    expect(visits.length).toBeGreaterThan(0);
    const chances = visits.map(({ chanceTooLate }) => chanceTooLate);
    expect(chances).toEqual([...chances].sort((a, b) => a - b));
  });

  it('a visit in a replacement plan says whether rotors must be replaced too', () => {
    const rotors = (value: number) => [
      ...rotorReadings('left', [value, value, value, value]),
      ...rotorReadings('right', [value, value, value, value]),
    ];
    // A history from new, so that the rotors' loss shows how fast they wear.
    const inService = { date: '2024-09-05', odometer: km(0) };
    const withRotors = (value: number) => {
      const worn = 28 - value;
      return planOf({ inService }, [
        { ...WORN[0]!, readings: [...WORN[0]!.readings!, ...rotors(28 - worn / 3)] },
        { ...WORN[1]!, readings: [...WORN[1]!.readings!, ...rotors(28 - (2 * worn) / 3)] },
        { ...WORN[2]!, readings: [...fourPads(4.5), ...rotors(value)] },
      ]);
    };
    const chanceAt = (value: number): number | null => withRotors(value).axle.chanceRotorsToo;
    expect(chanceAt(27.9)).toBeLessThan(0.05);
    expect(chanceAt(26.1)).toBeGreaterThan(0.6);
    expect(chanceAt(25.5)).toBe(1);
    // Either of two rotors is a little more likely to go than a single one, whose margin has percentiles at 10 % and 50
    // %.
    for (const value of [26.8, 27, 27.2]) {
      const { low, median } = withRotors(value).outlook.axles[0]!.rotors[0]!.marginAfterNextPadSetMm!;
      if (low < 0) expect(chanceAt(value)).toBeGreaterThan(0.1);
      if (median > 0) expect(chanceAt(value)).toBeLessThan(0.65);
    }
    expect(planOf({}, WORN).axle.chanceRotorsToo).toBeNull();
  });
});

describe('the rule of a replacement plan', () => {
  const visits = [
    { chanceTooLate: 0.01, expectedCost: 30 },
    { chanceTooLate: 0.08, expectedCost: 25 },
    { chanceTooLate: 0.4, expectedCost: 25 },
    { chanceTooLate: 0.9, expectedCost: 80 },
  ];

  it('the rule by chance takes the last visit with a small enough chance, or none', () => {
    const by = (greatestChance: number) => pick(visits, { kind: 'greatest-chance', greatestChance });
    expect([by(0.1), by(0.08), by(0.95), by(0.005)]).toEqual([visits[1], visits[1], visits[3], null]);
  });

  it('the rule by cost takes the lowest cost, and the earlier of two equal ones', () => {
    expect(pick(visits, { kind: 'least-expected-cost', greatestChance: null })).toBe(visits[1]);
    expect(costOf({ costTooLate: 500, costPerMmWasted: 12 }, 0.0322, { expected: 1.95 })).toBe(39.5);
    expect(costOf({ costTooLate: null, costPerMmWasted: null }, 0.0322, { expected: 1.95 })).toBeNull();
  });

  it('the recommended visit is the earlier the more it costs to be late, whatever the currency', () => {
    const at = (tooLate: number, perMmWasted: number) =>
      planOf({}, WORN, { dates: MONTHS, costs: { tooLate, perMmWasted } }).axle.recommended!;
    const MONTHS = Array.from({ length: 12 }, (_, month) =>
      new Date(Date.UTC(2026, 3 + month, 1)).toISOString().slice(0, 10),
    );
    const [reckless, middling, anxious] = [at(0, 1), at(20, 1), at(5000, 1)];
    expect(reckless).toBe(MONTHS.at(-1));
    expect(anxious).toBe(MONTHS[0]);
    expect(middling > anxious && middling < reckless).toBe(true);
    expect(at(2000, 100)).toBe(middling);
  });

  it('a visit that is likely too late is mentioned first, and the figures do not change', () => {
    const costs = { tooLate: 1, perMmWasted: 9 };
    const { axle } = planOf({}, WORN, { dates: ['2026-06-01', '2027-06-01'], costs });
    expect(axle.recommended).toBe('2027-06-01');
    // At this pace the 2.5 mm left in March 2026 are gone in January 2027: by hand, five months too late.
    const { chanceTooLate } = axle.visits[1]!;
    expect(chanceTooLate).toBeGreaterThan(0.9);
    expect(axle.words).toMatch(
      /^Likely too late: by 1 June 2027, .* the chance that the front pads have reached their limit is (over )?\d+ %\. Fit them before \d+ \w+ 2026\.$/,
    );
    expect(axle.words).toContain(` is ${chanceInWords(chanceTooLate)}.`);
    expect(axle.reasons).toContainEqual(
      expect.objectContaining({ field: 'recommended', code: 'likely-too-late' }),
    );
  });

  it('rotors that reach their limit before the visit are mentioned first', () => {
    const rotors = (value: number) =>
      (['left', 'right'] as const).flatMap((side) =>
        [1, 2, 3, 4].map((point) => ({
          kind: 'rotor-thickness' as const,
          axle: 'front' as const,
          side,
          point,
          ...mm(value),
          gauge: 'micrometer',
        })),
      );
    const last = WORN.at(-1)!;
    const worn = [...WORN.slice(0, -1), { ...last, readings: [...last.readings!, ...rotors(26.01)] }];
    expect(planOf({}, worn).axle.words).toMatch(
      /^Replace the rotors (at the first chance|before .*): .* Fit front pads at /,
    );
  });

  it('the rule by chance is described in words, with a visit and without one', () => {
    const { axle, plan } = planOf({}, WORN);
    const { words, recommended, visits: planned } = axle;
    const chosen = planned.find(({ date }) => date === recommended)!;
    expect(words).toContain(`Fit front pads at the visit of ${dateInWords(recommended!)}. `);
    expect(words).toContain(`${Math.round(100 * chosen.chanceTooLate)} %`);
    expect(plan.rule.words).toContain('at most 10 %');
    const none = planOf({}, WORN, { dates: ['2027-12-01'] }).axle;
    expect(none.recommended).toBeNull();
    expect(none.words).toMatch(
      /^None of these visits is in time\. By the first, 1 December 2027, the chance .* Fit them before \d+ \w+ 202\d\.$/,
    );
    expect(none.reasons[0]).toMatchObject({ field: 'recommended', code: 'no-visit-in-time' });
  });
});
