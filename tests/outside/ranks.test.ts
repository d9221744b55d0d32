import { describe, expect, it } from 'vitest';
import { drawClass, driveAxle, type ModelAxle } from '../../bench/modelAxles.js';
import { RANKED, ranksOf, type Ranks } from '../../bench/ranks.js';
import { chiSquareTest, kolmogorovTest } from '../../bench/uniform.js';
import { streams } from '../../seed/random.js';
import { startingExperience, type Draw, type WearParameters } from '../../src/core/forecast/experience.js';
import { padBeliefs } from '../../src/core/forecast/starting.js';
import type { PartTracks, Track } from '../../src/core/forecast/wear.js';

/**
 * Simulation-based calibration (S. Talts, M. Betancourt, D. Simpson, A. Vehtari and A. Gelman, arXiv:1804.06788,
 * 2018): parameters from the spread of the starting values, an axle and its readings from the model, and the rank of
 * each truth in the forecast from the readings alone. The ranks are uniform from 0 to 1 if the arithmetic
 * between them is right. `npm run bench:sbc` does the same with many more axles, and after a fit.
 */
const AXLES = 600;
/** The six tests below together would reject correct arithmetic for one seed in 300; this seed is fixed. */
const TOO_UNLIKELY = 1e-3 / 2;

const FRONT = { steeredOrFront: true, regenerative: false };
const BELIEFS = padBeliefs(FRONT);
/** The truths drawn here have no error shared by a visit's readings, no part that begins to drag and no unseen set. */
const WITHOUT_MESS = { visitSd: 0, dragsPer1000Km: 0, replacedWornChance: 0, jumpPerMm: 0 };
const DRAWS = startingExperience(FRONT).pads.map(({ weight, parameters }) => ({
  weight,
  parameters: { ...parameters, ...WITHOUT_MESS },
}));

interface Shown {
  draws: readonly Draw<WearParameters>[];
  axle: ModelAxle;
}

/** @param show what the forecast sees of an axle's truth */
function placesOf(show: (axle: ModelAxle) => Shown): Record<keyof Ranks, number[]> {
  const ranks = streams(1804_06788, AXLES).map((chance) => {
    const { draws, axle } = show(driveAxle(chance, drawClass(chance, BELIEFS).parameters));
    return ranksOf(axle, draws, chance);
  });
  return {
    reading: ranks.map(({ reading }) => reading),
    rate: ranks.map(({ rate }) => rate),
    crossing: ranks.map(({ crossing }) => crossing),
  };
}

/** An axle whose readings are assumed to be more exact than they are, by a factor. */
function surerBy(factor: number, { parts, now, truth }: ModelAxle): ModelAxle {
  const surer = withLives(parts, (life) => ({
    ...life,
    gaugeVariance: life.gaugeVariance.map((variance) => variance / factor ** 2),
  }));
  const gaugeVariance = truth.next.gaugeVariance / factor ** 2;
  return { parts: surer, now, truth: { ...truth, next: { ...truth.next, gaugeVariance } } };
}

/** An axle whose readings are all too thick. */
const thickerBy = (mm: number, axle: ModelAxle): ModelAxle => ({
  ...axle,
  parts: withLives(axle.parts, (life) => ({ ...life, mm: life.mm.map((read) => read + mm) })),
});

const withLives = (parts: readonly PartTracks[], change: (life: Track) => Track): PartTracks[] =>
  parts.map((part) => ({ ...part, lives: part.lives.map(change) }));

function drawsWith(change: (parameters: WearParameters) => Partial<WearParameters>) {
  return DRAWS.map(({ weight, parameters }) => ({
    weight,
    parameters: { ...parameters, ...change(parameters) },
  }));
}

describe('the rank of a truth within its forecast', { timeout: 120_000 }, () => {
  const places = placesOf((axle) => ({ draws: DRAWS, axle }));

  it.each(RANKED)('ranks are uniform: %s', (name) => {
    expect(chiSquareTest(places[name]).p).toBeGreaterThan(TOO_UNLIKELY);
    expect(kolmogorovTest(places[name]).p).toBeGreaterThan(TOO_UNLIKELY);
  });
});

describe('the rank tests', { timeout: 120_000 }, () => {
  it('the rank tests reject a forecast that assumes half of the true reading errors', () => {
    const surer = drawsWith(({ placementSd }) => ({ placementSd: placementSd / 2 }));
    const places = placesOf((axle) => ({ draws: surer, axle: surerBy(2, axle) }));
    expect(chiSquareTest(places.reading).p).toBeLessThan(1e-9);
  });

  it('the rank tests reject a forecast that assumes that all pads of an axle wear alike', () => {
    const alike = drawsWith(() => ({ partSpread: 0.01, fastChance: 0 }));
    const places = placesOf((axle) => ({ draws: alike, axle }));
    expect(chiSquareTest(places.rate).p).toBeLessThan(1e-9);
  });

  it('the rank tests reject a forecast from a gauge that reads 0.4 mm too thick', () => {
    const places = placesOf((axle) => ({ draws: DRAWS, axle: thickerBy(0.4, axle) }));
    expect(kolmogorovTest(places.crossing).p).toBeLessThan(1e-9);
  });
});

/** From other programs: R's chisq.test and the asymptotic Kolmogorov law (λ = 1.3581 at 5 %). */
describe('the test statistics', () => {
  const even = Array.from({ length: 1000 }, (_, index) => (index + 0.5) / 1000);

  it('the test statistics accept uniform numbers', () => {
    expect(chiSquareTest(even).p).toBeCloseTo(1, 12);
    expect(kolmogorovTest(even)).toMatchObject({ p: 1 });
  });

  it('the test statistics have the 5 % points of their distributions', () => {
    // Of two bins, one with 531 and one with 469 of 1000: 3.844, with the 5 % point at 3.841.
    const lopsided = even.map((_, index) => (index < 531 ? 0.25 : 0.75));
    expect(chiSquareTest(lopsided, 2).statistic).toBeCloseTo(3.844, 10);
    expect(chiSquareTest(lopsided, 2).p).toBeCloseTo(0.05, 3);
    const n = 10_000;
    const shift = 1.3581 / (Math.sqrt(n) + 0.12 + 0.11 / Math.sqrt(n));
    const shifted = Array.from({ length: n }, (_, index) => Math.max(0, (index + 1) / n - shift));
    expect(kolmogorovTest(shifted).p).toBeCloseTo(0.05, 4);
  });
});
