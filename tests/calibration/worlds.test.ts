import { describe, expect, it } from 'vitest';
import { experienceOf, type ExperienceName, type Lives } from '../../bench/experiences.js';
import { dateScore, forecastAll, serviceForecaster, type Case } from '../../bench/scores.js';
import { simulate, WORLDS, type World } from '../../bench/worlds.js';
import type { Experience } from '../../src/core/forecast/experience.js';
import { isThorough } from '../support/thorough.js';

/**
 * Small runs of `npm run bench:calibration`: worlds that follow the model, forecast at every visit. So few vehicles
 * need wide bounds.
 */
const SLOW = { timeout: 120_000 };

const worldNamed = (name: string): World => WORLDS.find((world) => world.name === name)!;

function forecasts(world: World, experience: Experience, vehicles: number): Case[] {
  const fleet = simulate(world, vehicles, 500);
  return forecastAll(fleet, serviceForecaster(experience), { experience, shop: 0, from: 0 });
}

/** The changes of rate per mm worn in an experience. */
const changesPerMm = ({ pads }: Experience): number =>
  pads.reduce((sum, { weight, parameters }) => sum + weight * parameters.jumpPerMm, 0);

const learned = (world: string, name: ExperienceName, lives: Lives, seed: number): Experience =>
  experienceOf(worldNamed(world), name, lives, seed);

describe('forecasts without experience', SLOW, () => {
  const cases = WORLDS.filter(({ bar }) => bar).flatMap((world) =>
    forecasts(world, experienceOf(world, 'starting', 'complete', 0), 12),
  );
  const score = dateScore(cases);

  it('the intervals cover no less often than they claim', () => {
    expect(score.covered80).toBeGreaterThan(0.7);
  });

  // A known miss: allowing for unrecorded events makes intervals too wide for tidy records (docs/calibration.md).
  it.fails('the intervals cover no more often than 93 %', () => {
    expect(score.covered80).toBeLessThan(0.93);
  });

  it('dates are closer than those of the two rules of thumb', () => {
    expect(score.againstTwoPoint).toBeLessThan(0.85);
    expect(score.againstLine).toBeLessThan(0.95);
  });
});

/** Maximum changes of rate per mm that a fit may find in histories without any: they cannot exclude rarer ones. */
const RARE_PER_MM = 0.02;

describe('experience from 100 unfinished lives whose rates never change', SLOW, () => {
  // With this seed a fit once found four changes per mm, and forecasts were no better than the two-point rule.
  const experience = learned('coarse', '100', 'under-way', 3003);

  it('the fit finds no changes of rate', () => {
    expect(changesPerMm(experience)).toBeLessThan(RARE_PER_MM);
  });

  it('forecasts beat the two-point rule, and their intervals cover as often as they claim', () => {
    const score = dateScore(forecasts(worldNamed('coarse'), experience, 40));
    expect(score.covered80).toBeGreaterThan(0.7);
    expect(score.covered80).toBeLessThan(0.9);
    expect(score.againstTwoPoint).toBeLessThan(0.8);
  });
});

// In every run, fit.test.ts has a shop whose vehicles all change their rate.
describe.runIf(isThorough)('experience from vehicles half of which change their rate', SLOW, () => {
  it('the fit finds changes of rate', () => {
    expect(changesPerMm(learned('changing', '30', 'complete', 3001))).toBeGreaterThan(0.02);
  });
});
