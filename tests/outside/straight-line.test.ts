import { describe, expect, it } from 'vitest';
import { filterComponent, type Track } from '../../src/core/forecast/wear.js';
import { textbookWear } from '../support/parameters.js';

/**
 * With flat priors, no wander and no misreadings, the wear filter is ordinary least squares. It must reproduce the
 * lines of certified regressions, with their standard deviations and correlation.
 */

interface Pairs {
  x: readonly number[];
  y: readonly number[];
}

/** An answer of the filter at one x: the line's height and its slope, with standard deviations and correlation. */
interface LineAt {
  height: number;
  heightSd: number;
  slope: number;
  slopeSd: number;
  correlation: number;
}

/** Makes the starting height free, if there is a start. */
const FLAT_START_SD = 1e4;
/** The prior of the rate is this many times as wide as the slope of the data. */
const FLATNESS = 1e4;

function steepness({ x, y }: Pairs): number {
  return (Math.max(...y) - Math.min(...y)) / (Math.max(...x) - Math.min(...x));
}

function inOrderOfDistance({ x, y }: Pairs): [number, number][] {
  return x.map((at, index): [number, number] => [at, y[index]!]).sort((a, b) => a[0] - b[0]);
}

function trackOf(pairs: Pairs, variance: number, startsAtZero: boolean): Track {
  const points = inOrderOfDistance(pairs);
  return {
    startAt: startsAtZero ? 0 : null,
    startMm: startsAtZero ? 0 : null,
    at: Float64Array.from(points, ([x]) => x),
    atSd: new Float64Array(points.length),
    mm: Float64Array.from(points, ([, y]) => y),
    gaugeVariance: new Float64Array(points.length).fill(variance),
  };
}

/** The filter's line at `x`. Its rate is wear, so the slope is minus the rate. */
function lineAt(x: number, pairs: Pairs, variance: number, startsAtZero = false): LineAt {
  const state = new Float64Array(6);
  const track = trackOf(pairs, variance, startsAtZero);
  const flatSd = FLATNESS * steepness(pairs);
  filterComponent(track, textbookWear({ startSd: FLAT_START_SD }), 0, flatSd, x, state, 0);
  const [, height, rate, heightVariance, covariance, rateVariance] = state;
  const heightSd = Math.sqrt(heightVariance!);
  const slopeSd = Math.sqrt(rateVariance!);
  return {
    height: height!,
    heightSd,
    slope: -rate!,
    slopeSd,
    correlation: -covariance! / (heightSd * slopeSd),
  };
}

/** Sum of squared residuals about the filter's line; its place does not depend on the variance of the readings. */
function residualSumOfSquares(pairs: Pairs, startsAtZero = false): number {
  const { height, slope } = lineAt(0, pairs, 1, startsAtZero);
  return pairs.x.reduce((sum, x, index) => sum + (pairs.y[index]! - height - slope * x) ** 2, 0);
}

function residualVariance(pairs: Pairs, startsAtZero = false): number {
  return residualSumOfSquares(pairs, startsAtZero) / (pairs.x.length - 2);
}

function expectRelative(actual: number, expected: number, tolerance: number): void {
  expect(Math.abs(actual / expected - 1)).toBeLessThan(tolerance);
}

/**
 * NIST Statistical Reference Datasets, linear least squares, "Norris" (Norris, J., calibration of ozone monitors),
 * 36 observations, y = B0 + B1·x + e, certified values to 15 digits.
 * https://www.itl.nist.gov/div898/strd/lls/data/Norris.shtml
 */
// prettier-ignore
const NORRIS: Pairs = {
  x: [0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5, 11.6,
    556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5],
  y: [0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8,
    557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2],
};
const NORRIS_CERTIFIED = {
  b0: -0.262323073774029,
  b0Sd: 0.232818234301152,
  b1: 1.00211681802045,
  b1Sd: 0.429796848199937e-3,
  residualSd: 0.884796396144373,
  residualSumOfSquares: 26.6173985294224,
};
/** Relative. The certified values have 15 digits; coming from a flat prior, the filter keeps at least 8. */
const NORRIS_TOLERANCE = 1e-8;

describe.each([
  ['from the first reading', false],
  ['from a start at zero of unknown height', true],
])('NIST StRD Norris, %s', (_name, startsAtZero) => {
  const variance = residualVariance(NORRIS, startsAtZero);
  const line = lineAt(0, NORRIS, variance, startsAtZero);

  it('the filter finds the certified intercept and slope', () => {
    expectRelative(line.height, NORRIS_CERTIFIED.b0, NORRIS_TOLERANCE);
    expectRelative(line.slope, NORRIS_CERTIFIED.b1, NORRIS_TOLERANCE);
  });

  it('the filter finds their certified standard deviations', () => {
    expectRelative(line.heightSd, NORRIS_CERTIFIED.b0Sd, NORRIS_TOLERANCE);
    expectRelative(line.slopeSd, NORRIS_CERTIFIED.b1Sd, NORRIS_TOLERANCE);
  });

  it('the filter leaves the certified residuals', () => {
    expectRelative(variance * 34, NORRIS_CERTIFIED.residualSumOfSquares, NORRIS_TOLERANCE);
    expectRelative(Math.sqrt(variance), NORRIS_CERTIFIED.residualSd, NORRIS_TOLERANCE);
  });

  // cov(B0, B1) as GNU Octave computes it from the same data, printed in the tests of the GNU Scientific Library.
  it('the filter finds the covariance of intercept and slope', () => {
    expectRelative(line.correlation * line.heightSd * line.slopeSd, -7.7432753633957e-5, NORRIS_TOLERANCE);
  });
});

it('the axes are the right way round: the regression of x on y has another slope', () => {
  const swapped = lineAt(0, { x: NORRIS.y, y: NORRIS.x }, 1).slope;
  expect(swapped).toBeCloseTo(0.99788, 5);
});

/**
 * JCGM 100:2008, "Evaluation of measurement data: Guide to the expression of uncertainty in measurement" (GUM), annex
 * H.3 "Calibration of a thermometer": b(t) = y1 + y2·(t − t0), t0 = 20 °C, 11 pairs, unweighted least squares. The
 * figures beyond the printed digits are computed from table H.6.
 * https://www.bipm.org/documents/20126/2071204/JCGM_100_2008_E.pdf
 */
const T0 = 20;
const THERMOMETER: Pairs = {
  x: [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511].map(
    (t) => t - T0,
  ),
  y: [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16],
};
/** Relative. The computed figures have 12 digits or more; the filter keeps at least 8. */
const GUM_TOLERANCE = 1e-8;

describe('GUM annex H.3, calibration of a thermometer', () => {
  const variance = residualVariance(THERMOMETER);
  const line = lineAt(0, THERMOMETER, variance);

  it('the filter finds y1 = −0.1712 °C, u = 0.0029 °C', () => {
    expect(line.height.toFixed(4)).toBe('-0.1712');
    expect(line.heightSd.toFixed(4)).toBe('0.0029');
    expectRelative(line.height, -0.17120379013135, GUM_TOLERANCE);
    expectRelative(line.heightSd, 0.00287759783516, GUM_TOLERANCE);
  });

  it('the filter finds y2 = 0.00218, u = 0.00067', () => {
    expect(line.slope.toFixed(5)).toBe('0.00218');
    expect(line.slopeSd.toFixed(5)).toBe('0.00067');
    expectRelative(line.slope, 0.00218269773988728, GUM_TOLERANCE);
    expectRelative(line.slopeSd, 0.000667938773227832, GUM_TOLERANCE);
  });

  it('the filter finds their correlation, −0.930', () => {
    expect(line.correlation.toFixed(3)).toBe('-0.930');
    expectRelative(line.correlation, -0.930429603093446, GUM_TOLERANCE);
  });

  // s = 0.0035 as printed in the GUM is from memory; the sum of squares is computed from the table.
  it('the filter finds the residual standard deviation, 0.0035 °C with 9 degrees of freedom', () => {
    expect(Math.sqrt(variance).toFixed(4)).toBe('0.0035');
    expectRelative(variance * 9, 0.000110096583109297, GUM_TOLERANCE);
  });

  it('the filter predicts b(30 °C) = −0.1494 °C with u = 0.0041 °C, including their covariance', () => {
    const at30 = lineAt(30 - T0, THERMOMETER, variance);
    expect(at30.height.toFixed(4)).toBe('-0.1494');
    expect(at30.heightSd.toFixed(4)).toBe('0.0041');
    expectRelative(at30.height, -0.149376812732477, GUM_TOLERANCE);
    expectRelative(at30.heightSd, 0.00413859575285495, GUM_TOLERANCE);
    // The result without the covariance: the well-known mistake in this example.
    expect(Math.hypot(line.heightSd, 10 * line.slopeSd)).toBeCloseTo(0.00727, 5);
  });

  it('height and slope are uncorrelated at the mean temperature', () => {
    const mean = THERMOMETER.x.reduce((sum, x) => sum + x, 0) / THERMOMETER.x.length;
    const centred = lineAt(mean, THERMOMETER, variance);
    // GUM H.3.5 prints −0.1625 °C and 0.0011 °C (from memory); the mean of the b, and s/√n.
    expect(centred.height.toFixed(4)).toBe('-0.1625');
    expect(centred.heightSd.toFixed(4)).toBe('0.0011');
    expectRelative(centred.height, -1.787 / 11, GUM_TOLERANCE);
    expectRelative(centred.heightSd, Math.sqrt(variance / 11), GUM_TOLERANCE);
    expect(centred.correlation).toBeCloseTo(0, 6);
    expectRelative(centred.slope, line.slope, GUM_TOLERANCE);
  });
});
