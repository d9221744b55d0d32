import { describe, expect, it } from 'vitest';
import { minimise } from '../../src/core/forecast/laplace.js';
import { poolGroup, type Members } from '../../src/core/forecast/pooling.js';
import { filterComponent, type Track } from '../../src/core/forecast/wear.js';
import { textbookWear } from '../support/parameters.js';
import { grouped, referenceRows } from '../support/referenceData.js';

/**
 * The service's fit, part by part, on linear mixed models whose answers are exact or published (see data/README.md): y
 * = β0 + b0 + (β1 + b1)·x + e, (b0, b1) ~ N(0, D), e ~ N(0, σ²) for each subject.
 *
 * The service itself never fits this model: its rates are log-normal, and its starting thickness is independent of the
 * rate. But the filter accepts a normal rate. At x = −d01/d11, where Cov(b0 + b1·x, b1) is zero, a life starts at a
 * level independent of its slope, and from there the filter expresses the model exactly. So the filter gives the
 * likelihood and the best linear unbiased predictions, pooling integrates out the fixed effects, which makes the
 * likelihood restricted (REML), and the minimiser finds the variances.
 */

interface Subject {
  name: string;
  x: number[];
  y: number[];
}

interface Fixed {
  intercept: number;
  slope: number;
}

interface Variances {
  d00: number;
  d01: number;
  d11: number;
  residual: number;
}

interface Posterior {
  logLikelihood: number;
  intercept: number;
  slope: number;
  var00: number;
  var01: number;
  var11: number;
}

/** The filter's result for one subject, carried to x = 0. Its rate is wear, so the slope is its negative. */
function filtered({ x, y }: Subject, fixed: Fixed, { d00, d01, d11, residual }: Variances): Posterior {
  const startAt = -d01 / d11;
  const track: Track = {
    startAt,
    startMm: fixed.intercept + fixed.slope * startAt,
    at: Float64Array.from(x),
    atSd: new Float64Array(x.length),
    mm: Float64Array.from(y),
    gaugeVariance: new Float64Array(x.length).fill(residual),
  };
  const parameters = textbookWear({ startSd: Math.sqrt(d00 - d01 ** 2 / d11) });
  const state = new Float64Array(6);
  const logLikelihood = filterComponent(track, parameters, -fixed.slope, Math.sqrt(d11), 0, state, 0);
  const [, level, rate, var00, cov, var11] = state as unknown as number[];
  return {
    logLikelihood,
    intercept: level!,
    slope: -rate!,
    var00: var00!,
    var01: -cov!,
    var11: var11!,
  };
}

const logLikelihoodOf = (subjects: readonly Subject[], fixed: Fixed, variances: Variances): number =>
  subjects.reduce((sum, subject) => sum + filtered(subject, fixed, variances).logLikelihood, 0);

/** The fixed effects have an almost flat prior: this many times as wide as their own size. */
const FLATNESS = 1e5;

interface Pooling {
  logLikelihood: number;
  estimate: number;
  standardError: number;
}

/** The log restricted likelihood, with the estimate of one fixed effect; the other is integrated out. */
function restricted(
  subjects: readonly Subject[],
  variances: Variances,
  near: Fixed,
  outer: keyof Fixed,
): Pooling {
  const inner = outer === 'slope' ? 'intercept' : 'slope';
  return integrated(near[outer], (value) => {
    const within = (other: number) =>
      logLikelihoodOf(subjects, { [outer]: value, [inner]: other } as unknown as Fixed, variances);
    return integrated(near[inner], within).logLikelihood;
  });
}

/** Integrates out a fixed effect in which the log likelihood is quadratic; second differences determine it exactly. */
function integrated(near: number, log: (value: number) => number): Pooling {
  const step = Math.abs(near);
  const members: Members = {
    log,
    curve: (value) => {
      const [here, up, down] = [log(value), log(value + step), log(value - step)];
      return {
        log: here,
        slope: (up - down) / (2 * step),
        curvature: (up + down - 2 * here) / step ** 2,
      };
    },
  };
  const sd = FLATNESS * Math.abs(near);
  const pooled = poolGroup(members, { mean: near, sd });
  return {
    logLikelihood: pooled.log + Math.log(sd * Math.sqrt(2 * Math.PI)),
    estimate: pooled.mean,
    standardError: Math.sqrt(pooled.variance),
  };
}

/** Step units of the minimiser, in decreasing order, because it takes slopes from steps of a hundredth of a unit. */
const UNITS = [0.3, 0.02, 0.001];

/** The variances, and any fixed effects, that minimise a criterion; all are searched on the scale of their size. */
function argMin(criterion: (values: Float64Array) => number, start: readonly number[]): Float64Array {
  let at: Float64Array = Float64Array.from(start);
  for (const unit of UNITS) {
    const from = at;
    const moved = (steps: Float64Array) => from.map((value, index) => value + unit * steps[index]!);
    const level = criterion(from);
    // Scaled up as the units get small, because the minimiser expects curvatures of about one.
    const magnified = (steps: Float64Array) => (criterion(moved(steps)) - level) / unit ** 2;
    at = moved(minimise(magnified, new Float64Array(start.length), 1e-4).x);
  }
  return at;
}

/** From logs of standard deviations, and the place where level and slope are independent, in units of the data's x. */
function variancesAt(level: number, slope: number, place: number, residual: number): Variances {
  const d11 = Math.exp(2 * slope);
  return {
    d00: Math.exp(2 * level) + place ** 2 * d11,
    d01: -place * d11,
    d11,
    residual: Math.exp(2 * residual),
  };
}

function expectRelative(actual: number, expected: number, tolerance: number): void {
  expect(Math.abs(actual / expected - 1), `${actual} for ${expected}`).toBeLessThan(tolerance);
}

function subjectsOf(file: string, x: string, y: string): Subject[] {
  return [...grouped(referenceRows(file), 'Subject')].map(([name, rows]) => ({
    name,
    x: rows.map((row) => Number(row[x])),
    y: rows.map((row) => Number(row[y])),
  }));
}

const SLEEP = {
  subjects: subjectsOf('sleepstudy.csv', 'Days', 'Reaction'),
  subjectsCount: 18,
  blups: 'sleepstudy_blup_reml.csv',
  fixed: { intercept: 251.4051048485, slope: 10.4672859596 },
  standardErrors: { intercept: 6.82455653207, slope: 1.54578889629 },
  variances: { d00: 612.08993866253, d01: 9.60433331674, d11: 35.07166049832, residual: 654.941027072 },
  restrictedLogLikelihood: -1743.628272 / 2,
  near: { intercept: 250, slope: 10 },
  start: [3, 2, 0.5, 3],
};

const ORTHODONT = {
  subjects: subjectsOf('orthodont.csv', 'age', 'distance'),
  subjectsCount: 27,
  blups: 'orthodont_blup_reml.csv',
  fixed: { intercept: 16.761111111111, slope: 0.660185185185 },
  standardErrors: { intercept: 0.775246185204, slope: 0.0712532707709 },
  variances: {
    d00: 5.415096153846,
    d01: -0.3210612535613,
    d11: 0.0512695868946,
    residual: 1.7162037037,
  },
  restrictedLogLikelihood: -221.318343,
  near: { intercept: 16, slope: 0.7 },
  start: [0.5, -1, 5, 0],
};

describe.each([
  ['sleepstudy', SLEEP],
  ['Orthodont', ORTHODONT],
])('%s', (_, { subjects, subjectsCount, blups, fixed, standardErrors, variances, ...expected }) => {
  it('the data contain all their subjects', () => {
    expect(subjects).toHaveLength(subjectsCount);
    expect(new Set(subjects.map(({ x }) => x.length)).size).toBe(1);
  });

  it.each(['intercept', 'slope'] as const)(
    'the fit has the exact %s and standard error, its fixed effects pooled over the subjects',
    (effect) => {
      const pooled = restricted(subjects, variances, expected.near, effect);
      expectRelative(pooled.estimate, fixed[effect], 1e-8);
      expectRelative(pooled.standardError, standardErrors[effect], 1e-6);
      expectRelative(pooled.logLikelihood, expected.restrictedLogLikelihood, 1e-8);
    },
  );

  it('the fit has the exact predictions and their covariances for every subject', () => {
    const rows = referenceRows(blups);
    expect(rows).toHaveLength(subjectsCount);
    for (const row of rows) {
      const subject = subjects.find(({ name }) => name === row['Subject'])!;
      const { intercept, slope, var00, var01, var11 } = filtered(subject, fixed, variances);
      const scale = { b0: Math.sqrt(variances.d00), b1: Math.sqrt(variances.d11) };
      expect(Math.abs(intercept - fixed.intercept - Number(row['b0'])) / scale.b0).toBeLessThan(1e-9);
      expect(Math.abs(slope - fixed.slope - Number(row['b1'])) / scale.b1).toBeLessThan(1e-9);
      expectRelative(var00, Number(row['var00']), 1e-8);
      expectRelative(var01, Number(row['var01']), 1e-8);
      expectRelative(var11, Number(row['var11']), 1e-8);
    }
  });

  it('the minimiser finds the exact REML variances at the maximum restricted likelihood', () => {
    const criterion = ([level, slope, place, residual]: Float64Array) =>
      -restricted(subjects, variancesAt(level!, slope!, place!, residual!), expected.near, 'slope')
        .logLikelihood;
    const [level, slope, place, residual] = argMin(criterion, expected.start);
    const found = variancesAt(level!, slope!, place!, residual!);
    expectRelative(found.d00, variances.d00, 1e-4);
    expectRelative(found.d11, variances.d11, 1e-4);
    expectRelative(found.residual, variances.residual, 1e-4);
    const scale = Math.sqrt(variances.d00 * variances.d11);
    expect(Math.abs(found.d01 - variances.d01) / scale).toBeLessThan(1e-4);
  });
});

describe('published figures, to the printed digits', () => {
  const correlationOf = ({ d00, d01, d11 }: Variances) => d01 / Math.sqrt(d00 * d11);

  it('the fit agrees with sleepstudy by lme4: lmer(Reaction ~ Days + (Days | Subject))', () => {
    const pooled = restricted(SLEEP.subjects, SLEEP.variances, SLEEP.near, 'slope');
    expect((-2 * pooled.logLikelihood).toFixed(3)).toBe('1743.628');
    expect(pooled.estimate.toFixed(3)).toBe('10.467');
    expect(pooled.standardError.toFixed(3)).toBe('1.546');
    // lme4 prints where its optimiser stopped: 612.10 for an exact 612.090.
    expectRelative(SLEEP.variances.d00, 612.1, 1e-4);
    expect(SLEEP.variances.d11.toFixed(2)).toBe('35.07');
    expect(SLEEP.variances.residual.toFixed(2)).toBe('654.94');
    expect(correlationOf(SLEEP.variances).toFixed(3)).toBe('0.066');
  });

  it('the fit agrees with Orthodont by nlme: lme(distance ~ age, random = ~ age | Subject)', () => {
    const pooled = restricted(ORTHODONT.subjects, ORTHODONT.variances, ORTHODONT.near, 'slope');
    expect(pooled.logLikelihood.toFixed(3)).toBe('-221.318');
    expect(pooled.estimate.toFixed(6)).toBe('0.660185');
    expect(Math.sqrt(ORTHODONT.variances.d00)).toBeCloseTo(2.327034, 4);
    expect(Math.sqrt(ORTHODONT.variances.d11)).toBeCloseTo(0.226428, 5);
    expect(Math.sqrt(ORTHODONT.variances.residual)).toBeCloseTo(1.31004, 5);
    expect(correlationOf(ORTHODONT.variances).toFixed(3)).toBe('-0.609');
  });
});

/** By plain maximum likelihood; the reference was found by iteration, to 1e-4. */
describe('sleepstudy by maximum likelihood', () => {
  const variances = { d00: 565.47697, d01: 11.05512, d11: 32.68179, residual: 654.94571 };

  it('the deviance is −2·log likelihood = 1751.939344', () => {
    expectRelative(-2 * logLikelihoodOf(SLEEP.subjects, SLEEP.fixed, variances), 1751.939344, 1e-9);
  });

  it('the minimiser finds the maximum, fixed effects and variances at once', () => {
    const criterion = ([intercept, slope, ...logs]: Float64Array) =>
      -logLikelihoodOf(
        SLEEP.subjects,
        { intercept: 250 + 10 * intercept!, slope: 10 + slope! },
        variancesAt(...(logs as unknown as [number, number, number, number])),
      );
    const [intercept, slope, ...logs] = argMin(criterion, [0, 0, ...SLEEP.start]) as unknown as number[];
    const found = variancesAt(...(logs as [number, number, number, number]));
    expectRelative(250 + 10 * intercept!, SLEEP.fixed.intercept, 1e-4);
    expectRelative(10 + slope!, SLEEP.fixed.slope, 1e-4);
    expectRelative(found.d00, variances.d00, 2e-4);
    expectRelative(found.d11, variances.d11, 2e-4);
    expectRelative(found.residual, variances.residual, 1e-4);
  });

  it('the predictions of every subject agree', () => {
    const rows = referenceRows('sleepstudy_blup_ml.csv');
    expect(rows).toHaveLength(18);
    for (const row of rows) {
      const subject = SLEEP.subjects.find(({ name }) => name === row['Subject'])!;
      const { intercept, slope, var00 } = filtered(subject, SLEEP.fixed, variances);
      expect(Math.abs(intercept - SLEEP.fixed.intercept - Number(row['b0']))).toBeLessThan(1e-4);
      expect(Math.abs(slope - SLEEP.fixed.slope - Number(row['b1']))).toBeLessThan(1e-4);
      expectRelative(var00, Number(row['var00']), 1e-4);
    }
  });
});
