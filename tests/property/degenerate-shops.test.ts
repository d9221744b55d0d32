import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { outlookFor } from '../../src/core/assessment/outlook.js';
import type { Draw, Experience } from '../../src/core/forecast/experience.js';
import {
  experienceFrom,
  fitExperience,
  UnsoundFit,
  fitExperienceBy,
  carryOutFitTask,
  type VehicleRecord,
} from '../../src/core/forecast/fit.js';
import { fourPads, historyOf, km, POLICY, type VisitDraft } from '../support/coreHistories.js';
import { copiesOf, FRONT, retold, shopOf } from '../support/shop.js';
import { inDepth, isThorough } from '../support/thorough.js';

/**
 * Shops that the model was not made for: the result must be valid, and no more certain than it can be. No known fault
 * needs more copies of a vehicle than the usual number.
 */

const SLOW = { timeout: 240_000 };
const SEED = 20_261_127;

const learnedFrom = (shop: readonly VehicleRecord[]): Experience =>
  experienceFrom(fitExperience(shop), { axleClass: FRONT, model: 'van', version: 1 });

function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

const meanOf = <Parameters>(draws: readonly Draw<Parameters>[], of: (parameters: Parameters) => number) =>
  draws.reduce((sum, { weight, parameters }) => sum + weight * of(parameters), 0);

/** Standard deviation of a new vehicle's log rate or daily distance, including the uncertainty of the parameters. */
function spreadOf<Parameters>(
  draws: readonly Draw<Parameters>[],
  mean: (parameters: Parameters) => number,
  sd: (parameters: Parameters) => number,
): number {
  const middle = meanOf(draws, mean);
  return Math.sqrt(meanOf(draws, (draw) => sd(draw) ** 2 + (mean(draw) - middle) ** 2));
}

function expectSound(experience: Experience): void {
  expect(numbersIn(experience).every(Number.isFinite)).toBe(true);
  for (const draws of [experience.pads, experience.usage]) {
    // With one or two draws, uncertain parameters would seem certain.
    expect(draws.length).toBeGreaterThanOrEqual(3);
    expect(meanOf<unknown>(draws, () => 1)).toBeCloseTo(1, 12);
  }
  expect(experience.pads.every(({ parameters }) => parameters.logRateSd > 0)).toBe(true);
  expect(experience.usage.every(({ parameters }) => parameters.logPaceSd > 0)).toBe(true);
}

const IN_SERVICE = { date: '2025-01-01', odometer: km(0) };

/** The answer for a vehicle with new pads and these visits after a year in service. */
function replacementOf(experience: Experience, visits: VisitDraft[]) {
  const history = historyOf({ inService: IN_SERVICE }, [
    { date: '2025-12-01', odometer: km(20_000), work: [{ kind: 'pads-replaced', axle: 'front' }] },
    ...visits,
  ]);
  const outlook = outlookFor(history, () => experience, POLICY);
  expect(numbersIn(outlook).every(Number.isFinite)).toBe(true);
  return outlook.axles[0]!;
}

/** Forecasts are no more certain than the experience behind them, with a small tolerance for its shape. */
function expectHonest(experience: Experience): void {
  const spread = spreadOf(
    experience.pads,
    (draw) => draw.logRateMean,
    (draw) => draw.logRateSd,
  );
  const { low, high } = replacementOf(experience, []).pads[0]!.ratePer1000KmMm!;
  // A rate that may be zero has no logarithm, and is completely uncertain.
  // The vehicle's known daily distance informs its rate as far as the two are correlated.
  const left = spread * Math.sqrt(1 - experience.correlation ** 2);
  if (low > 0) expect(Math.log(high / low)).toBeGreaterThan(0.7 * 2 * 1.2816 * left);
  else expect(high).toBeGreaterThan(low);
  replacementOf(experience, [{ date: '2026-03-01', odometer: km(30_000), readings: fourPads(9) }]);
}

/** Millimetres per 1000 km between the pads' first and last reading, as a shop would calculate it. */
function plainRate(shop: readonly VehicleRecord[]): number {
  const rates = shop.flatMap(({ axles }) =>
    axles.flatMap(({ pads }) =>
      pads.flatMap(({ lives }) => lives.map(({ at, mm }) => (mm[0]! - mm.at(-1)!) / (at.at(-1)! - at[0]!))),
    ),
  );
  return rates.reduce((sum, rate) => sum + rate, 0) / rates.length;
}

describe('a shop whose vehicles have identical histories', SLOW, () => {
  for (const [seed, vehicles] of [[1, 40], ...(isThorough ? [[2, 300] as const] : [])] as const) {
    it(`the fit learns their rate and pace from ${vehicles} of them, and stays appropriately uncertain`, () => {
      const [record] = shopOf({ vehicles: 1 }, seed) as [VehicleRecord];
      const experience = learnedFrom(copiesOf([record], vehicles));
      expectSound(experience);
      expectHonest(experience);
      const rate = Math.exp(meanOf(experience.pads, (draw) => draw.logRateMean));
      expect(Math.abs(Math.log(rate / plainRate([record])))).toBeLessThan(0.25);
      const pace = Math.exp(meanOf(experience.usage, (draw) => draw.logPaceMean));
      const plainPace = record.stretches.reduce((sum, stretch) => sum + stretch.km, 0) / (5 * 150);
      expect(Math.abs(Math.log(pace / plainPace))).toBeLessThan(0.15);
    });
  }

  it('the fit separates two groups within one model', () => {
    const shop = copiesOf(shopOf({ vehicles: 2, logRateSd: 0.8 }, 2), inDepth(24, 40));
    const spread = meanOf(learnedFrom(shop).pads, (draw) => draw.logRateSd);
    const one = meanOf(
      learnedFrom(copiesOf(shop.slice(0, 1), inDepth(24, 40))).pads,
      (draw) => draw.logRateSd,
    );
    expect(spread).toBeGreaterThan(2 * one);
  });

  it('the fit learns the rates of two models of identical vehicles that wear very differently', () => {
    const models = ['van', 'lorry'];
    const modelShift = (model: string | null) => (model === 'van' ? 1.2 : 0);
    const [van, lorry] = shopOf({ vehicles: 2, models, modelShift, logRateSd: 0.01 }, 6) as [
      VehicleRecord,
      VehicleRecord,
    ];
    const fitted = fitExperience(copiesOf([van, lorry], inDepth(20, 40)));
    for (const record of [van, lorry]) {
      const { pads } = experienceFrom(fitted, { axleClass: FRONT, model: record.model, version: 1 });
      const rate = Math.exp(meanOf(pads, (draw) => draw.logRateMean));
      expect(Math.abs(Math.log(rate / plainRate([record])))).toBeLessThan(0.25);
    }
  });
});

const level = (mm: number) => (record: VehicleRecord) =>
  retold(record, (life) => ({ ...life, mm: life.mm.map(() => mm) }));

const KINDS: Record<string, (record: VehicleRecord) => VehicleRecord> = {
  'as they are': (record) => record,
  'every reading equal': level(8),
  'no wear at all': level(12),
  'whole millimetres': (record) =>
    retold(record, (life) => ({ ...life, mm: life.mm.map((mm) => Math.max(1, Math.round(mm))) })),
  'of no model': (record) => ({ ...record, model: null }),
  'driven at a perfectly even pace': (record) => ({
    ...record,
    stretches: record.stretches.map((stretch) => ({ ...stretch, km: 9000 })),
  }),
  'always at the same odometer reading': (record) => ({
    ...retold(record, (life) => ({ ...life, at: new Float64Array(life.at.length) })),
    stretches: record.stretches.map((stretch) => ({ ...stretch, km: 0 })),
  }),
  'of unknown start': (record) => retold(record, (life) => ({ ...life, startAt: null, startMm: null })),
};

/** Identical vehicles, as many as a kind needs to show its effect on a fit, if more than a few. */
const ENOUGH: Record<string, number> = { 'no wear at all': 40 };

describe('any degenerate shop', SLOW, () => {
  for (const [kind, change] of Object.entries(KINDS)) {
    it(`the fit gives valid experience and calibrated forecasts: ${kind}`, () => {
      fc.assert(
        fc.property(
          fc.integer({ min: 1, max: 1e6 }),
          fc.integer({ min: 1, max: 3 }),
          fc.constantFrom(1, inDepth(3, 7), inDepth(8, 20)),
          fc.constantFrom(1, 2, 5),
          (seed, different, vehicles, visits) => {
            const records = shopOf({ vehicles: different, visits }, seed).map(change);
            const experience = learnedFrom(copiesOf(records, vehicles));
            expectSound(experience);
            expectHonest(experience);
          },
        ),
        { seed: SEED, numRuns: inDepth(2, 4), examples: [[5, 1, ENOUGH[kind] ?? inDepth(16, 40), 5]] },
      );
    });
  }
});

describe('histories that cannot be fitted', () => {
  it('the fit refuses histories that cannot be fitted and names the place of the error', async () => {
    const broken = fitExperienceBy(shopOf({ vehicles: 2 }), async (tasks) =>
      tasks.map((task) => {
        const done = carryOutFitTask(task);
        if (done && task.part === 'pads') for (const draw of done.draws) draw.weight = NaN;
        return done;
      }),
    );
    await expect(broken).rejects.toThrow(UnsoundFit);
    await expect(broken).rejects.toThrow('front friction pads / draws / 0 / weight is NaN');
  });
});
