import { describe, expect, it } from 'vitest';
import { filterComponent, type Track } from '../../src/core/forecast/wear.js';
import { textbookWear } from '../support/parameters.js';

/**
 * A worked example of the wear model with all three of its variances: wear w = b·x + σw·B(x) + e, with b normal over
 * the vehicles, B a Wiener process and e the reading error, starting without wear. The exact answers come from the
 * joint normal distribution of the three readings, without a filter (generalised least squares with Cov(w_i, w_j) =
 * τ²·x_i·x_j + σw²·min(x_i, x_j) + σe²·[i = j]), computed in R 4.2.2. The model: G. A. Whitmore, "Estimating
 * degradation by a Wiener diffusion process subject to measurement error", Lifetime Data Analysis 1 (1995) 307–319
 * (from memory).
 */
const DISTANCES = [12, 25, 41]; // 1000 km
const WEAR = [1.1, 3.4, 4.6]; // mm
const RATE_MEAN = 0.12; // mm per 1000 km
const RATE_SD = 0.04;
const WANDER = 0.05; // mm per √(1000 km)
const READING_SD = 0.2; // mm
const EXACT = {
  wear: 4.74701987935167,
  rate: 0.115935856196221,
  varWear: 0.0315539041407148,
  covWearRate: 0.0007413545759933,
  varRate: 7.61551735916194e-5,
};

const NEW_MM = 11;

function filtered(now: number | null, distances = DISTANCES, wear = WEAR) {
  const track: Track = {
    startAt: 0,
    startMm: NEW_MM,
    at: Float64Array.from(distances),
    atSd: new Float64Array(distances.length),
    mm: Float64Array.from(wear, (worn) => NEW_MM - worn),
    gaugeVariance: new Float64Array(distances.length).fill(READING_SD ** 2),
  };
  const state = new Float64Array(6);
  const logLikelihood = filterComponent(
    track,
    textbookWear({ wander: WANDER }),
    RATE_MEAN,
    RATE_SD,
    now,
    state,
    0,
  );
  const [, mm, rate, varMm, cov, varRate] = state as unknown as number[];
  return {
    logLikelihood,
    wear: NEW_MM - mm!,
    rate: rate!,
    varWear: varMm!,
    covWearRate: -cov!,
    varRate: varRate!,
  };
}

describe('the wear filter and the joint normal distribution of its readings', () => {
  it('the filter agrees with the joint distribution on the posterior of wear and rate at the last reading', () => {
    const posterior = filtered(null);
    expect(posterior.wear).toBeCloseTo(EXACT.wear, 12);
    expect(posterior.rate).toBeCloseTo(EXACT.rate, 13);
    expect(posterior.varWear).toBeCloseTo(EXACT.varWear, 13);
    expect(posterior.covWearRate).toBeCloseTo(EXACT.covWearRate, 14);
    expect(posterior.varRate).toBeCloseTo(EXACT.varRate, 15);
  });

  it('the filter agrees with the joint distribution on future wear: its mean, and its variance with the wander on the way', () => {
    const ahead = 10;
    const later = filtered(DISTANCES.at(-1)! + ahead);
    expect(later.wear).toBeCloseTo(EXACT.wear + ahead * EXACT.rate, 12);
    const varWear =
      EXACT.varWear + 2 * ahead * EXACT.covWearRate + ahead ** 2 * EXACT.varRate + WANDER ** 2 * ahead;
    expect(later.varWear).toBeCloseTo(varWear, 12);
    expect(later.covWearRate).toBeCloseTo(EXACT.covWearRate + ahead * EXACT.varRate, 14);
    expect(later.varRate).toBeCloseTo(EXACT.varRate, 15);
  });

  it('the filter agrees with the joint distribution on the likelihood of the readings', () => {
    expect(filtered(null).logLikelihood).toBeCloseTo(jointLogDensity(), 10);
  });

  // With no reading error only the last reading matters: the posterior of the rate has a closed form.
  it('the filter agrees with the closed form of a rate that only the last reading determines, without reading error', () => {
    const [x, w] = [DISTANCES.at(-1)!, WEAR.at(-1)!];
    const precision = 1 / RATE_SD ** 2 + x / WANDER ** 2;
    const mean = (RATE_MEAN / RATE_SD ** 2 + w / WANDER ** 2) / precision;
    const track: Track = {
      startAt: 0,
      startMm: NEW_MM,
      at: Float64Array.from(DISTANCES),
      atSd: new Float64Array(3),
      mm: Float64Array.from(WEAR, (worn) => NEW_MM - worn),
      gaugeVariance: new Float64Array(3),
    };
    const state = new Float64Array(6);
    filterComponent(track, textbookWear({ wander: WANDER }), RATE_MEAN, RATE_SD, null, state, 0);
    expect(state[2]).toBeCloseTo(mean, 12);
    expect(state[5]).toBeCloseTo(1 / precision, 14);
  });
});

/** log of the joint normal density of the three readings, by Cholesky's decomposition of their covariance. */
function jointLogDensity(): number {
  const factor: number[][] = [];
  let logDensity = 0;
  const scaled: number[] = [];
  DISTANCES.forEach((x, i) => {
    factor[i] = [];
    for (let j = 0; j <= i; j++) {
      const other = DISTANCES[j]!;
      let entry =
        RATE_SD ** 2 * x * other + WANDER ** 2 * Math.min(x, other) + (i === j ? READING_SD ** 2 : 0);
      for (let k = 0; k < j; k++) entry -= factor[i]![k]! * factor[j]![k]!;
      factor[i]![j] = i === j ? Math.sqrt(entry) : entry / factor[j]![j]!;
    }
    let residual = WEAR[i]! - RATE_MEAN * x;
    for (let k = 0; k < i; k++) residual -= factor[i]![k]! * scaled[k]!;
    scaled[i] = residual / factor[i]![i]!;
    logDensity -= 0.5 * Math.log(2 * Math.PI) + Math.log(factor[i]![i]!) + 0.5 * scaled[i]! ** 2;
  });
  return logDensity;
}
