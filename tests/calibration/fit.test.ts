import { describe, expect, it } from 'vitest';
import { startingExperience, type Draw, type Experience } from '../../src/core/forecast/experience.js';
import {
  carryOutFitTask,
  experienceFrom,
  fitExperience,
  fitExperienceBy,
  type CarryOutFits,
  type FittedExperience,
} from '../../src/core/forecast/fit.js';
import { FRONT, SHOP, shopOf } from '../support/shop.js';

/** Maximum changes of rate per mm that a fit may find in histories without any: they cannot exclude rarer ones. */
const RARE_PER_MM = 0.02;
const SLOW = { timeout: 120_000 };

const askFor = (fitted: FittedExperience, model: string | null): Experience =>
  experienceFrom(fitted, { axleClass: FRONT, model, version: 3 });

function meanOf<Parameters>(draws: Draw<Parameters>[], value: (parameters: Parameters) => number): number {
  return draws.reduce((sum, { weight, parameters }) => sum + weight * value(parameters), 0);
}

describe('a shop of 60 vehicles of one model', SLOW, () => {
  const shop = shopOf();
  const fitted = fitExperience(shop);
  const { pads, usage, name, words } = askFor(fitted, 'van');

  it('the fit learns the rates of its pads', () => {
    expect(meanOf(pads, (draw) => draw.logRateMean)).toBeCloseTo(SHOP.logRateMean, 0.7);
    const spread = meanOf(pads, (draw) => draw.logRateSd);
    expect(spread).toBeGreaterThan(SHOP.logRateSd * 0.75);
    expect(spread).toBeLessThan(SHOP.logRateSd * 1.35);
    expect(meanOf(pads, (draw) => draw.logInnerOuter)).toBeCloseTo(Math.log(SHOP.innerOuter), 1);
  });

  it('the fit separates differences between pads, random wander and gauge bias', () => {
    for (const [parameter, truth] of [
      ['partSpread', SHOP.partSpread],
      ['placementSd', SHOP.placementSd],
      ['wander', SHOP.wander],
    ] as const) {
      const learned = meanOf(pads, (draw) => draw[parameter]);
      expect(learned / truth, parameter).toBeGreaterThan(0.7);
      expect(learned / truth, parameter).toBeLessThan(1.4);
    }
  });

  it('the fit learns how its vehicles are used', () => {
    expect(Math.abs(meanOf(usage, (draw) => draw.logPaceMean) - SHOP.logPaceMean)).toBeLessThan(0.15);
    const spread = meanOf(usage, (draw) => draw.logPaceSd);
    expect(spread / SHOP.logPaceSd).toBeGreaterThan(0.75);
    expect(spread / SHOP.logPaceSd).toBeLessThan(1.35);
  });

  it('the fit finds no change of rate and almost no correlation if there is none', () => {
    expect(meanOf(pads, ({ jumpPerMm }) => jumpPerMm)).toBeLessThan(RARE_PER_MM);
    expect(Math.abs(askFor(fitted, 'van').correlation)).toBeLessThan(0.3);
  });

  it('the weights sum to one', () => {
    for (const draws of [pads, usage]) {
      expect(draws.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    }
  });

  it('the experience names its version, axle class and model', () => {
    expect(name).toBe('v3 front friction van');
    expect(words).toBe('60 vehicles of this model');
  });

  it('the experience counts what it was learned from', () => {
    expect(fitted.vehicles).toBe(60);
    expect(fitted.usage?.vehicles).toBe(60);
    expect(fitted.classes['front friction']?.pads).toMatchObject({ axles: 60, readings: 60 * 4 * 5 });
  });

  it('the experience survives storage as JSON', () => {
    const stored = JSON.parse(JSON.stringify(fitted)) as FittedExperience;
    expect(askFor(stored, 'van')).toEqual(askFor(fitted, 'van'));
  });
});

describe('the same histories fitted twice', SLOW, () => {
  it('the same histories fitted twice give the same numbers wherever and in whatever order the pieces are fitted', async () => {
    const shop = shopOf({ vehicles: 12, models: ['van', null] }, 5);
    const elsewhere = structuredClone(fitExperience(shop));
    const backwards: CarryOutFits = async (tasks) =>
      [...structuredClone(tasks)].reverse().map(carryOutFitTask).reverse();
    expect(await fitExperienceBy(shop, backwards)).toEqual(elsewhere);
  });
});

describe('a model with few vehicles', SLOW, () => {
  const FASTER = 0.8;
  const models = ['car', 'car', 'car', 'car', 'car', 'car', 'van', 'lorry'];
  const fitted = fitExperience(
    shopOf({ vehicles: 32, models, modelShift: (model) => (model === 'van' ? FASTER : 0) }, 2),
  );
  const rateOf = (model: string | null) => meanOf(askFor(fitted, model).pads, (draw) => draw.logRateMean);
  const spreadOf = (model: string | null) => meanOf(askFor(fitted, model).pads, (draw) => draw.logRateSd);

  it('a model with few vehicles is pulled towards its class', () => {
    const alone = SHOP.logRateMean + FASTER;
    expect(rateOf('van')).toBeGreaterThan(rateOf('car') + 0.2);
    expect(rateOf('van')).toBeLessThan(alone);
  });

  it('the mean of a model with few vehicles is less certain than that of a large model, and an unseen model’s even less', () => {
    expect(spreadOf('van')).toBeGreaterThan(spreadOf('car'));
    expect(spreadOf('bus')).toBeGreaterThan(spreadOf('van'));
  });

  it('the experience names the vehicles it was learned from and the class it was pulled towards', () => {
    expect(askFor(fitted, 'van').words).toBe(
      '4 vehicles of this model and 28 other front axles of this shop',
    );
    expect(askFor(fitted, 'bus')).toMatchObject({
      name: 'v3 front friction',
      words: '32 front axles of this shop',
    });
    expect(askFor(fitted, null).words).toBe('32 front axles of this shop');
  });
});

describe('a shop with almost no data', SLOW, () => {
  it('the starting values hold without a vehicle', () => {
    const fitted = fitExperience([]);
    expect(fitted).toEqual({ vehicles: 0, classes: {}, usage: null });
    expect(askFor(fitted, 'van')).toBe(startingExperience(FRONT));
  });

  it('an axle class that was never measured has the starting values, beside the known use', () => {
    const fitted = fitExperience(shopOf({ vehicles: 3 }));
    const rear = { steeredOrFront: false, regenerative: true };
    const experience = experienceFrom(fitted, { axleClass: rear, model: 'van', version: 1 });
    expect(experience.pads).toEqual(startingExperience(rear).pads);
    expect(experience.usage).not.toEqual(startingExperience(rear).usage);
    expect(experience.words).toContain('starting values');
  });

  it('a vehicle with one visit narrows the starting values a little', () => {
    const { pads } = askFor(fitExperience(shopOf({ vehicles: 1, visits: 1, models: [null] })), null);
    const before = meanOf(startingExperience(FRONT).pads, (draw) => draw.logRateSd);
    const after = meanOf(pads, (draw) => draw.logRateSd);
    expect(after).toBeLessThan(before);
    expect(after).toBeGreaterThan(SHOP.logRateSd);
  });

  it('a vehicle without a reading adds no experience of wear', () => {
    const [{ model, stretches, axles }] = shopOf({ vehicles: 1, visits: 1 }) as [
      ReturnType<typeof shopOf>[0],
    ];
    const pads = axles[0]!.pads.map((part) => ({ ...part, lives: [] }));
    const fitted = fitExperience([{ model, stretches, axles: [{ ...axles[0]!, pads }] }]);
    expect(askFor(fitted, 'van').pads).toEqual(startingExperience(FRONT).pads);
  });
});

describe('a shop whose vehicles all change their rate half way', SLOW, () => {
  it('the fit learns that rates change, and by about how much', () => {
    const { pads } = askFor(fitExperience(shopOf({ vehicles: 16, changeSd: 0.6, visits: 6 }, 3)), 'van');
    const perMm = meanOf(pads, (draw) => draw.jumpPerMm);
    const size = meanOf(pads, (draw) => draw.jumpSd);
    expect(perMm).toBeGreaterThan(0.02);
    expect(size).toBeGreaterThan(0.3);
    expect(size).toBeLessThan(1.1);
  });
});

describe('a shop whose vehicles wear faster the less they drive', SLOW, () => {
  it('the fit learns the correlation, shrunk towards zero', () => {
    const { correlation } = askFor(fitExperience(shopOf({ vehicles: 40, correlation: -0.8 }, 4)), 'van');
    expect(correlation).toBeLessThan(-0.35);
    expect(correlation).toBeGreaterThan(-0.9);
  });
});
