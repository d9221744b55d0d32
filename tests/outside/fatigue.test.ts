import { describe, expect, it } from 'vitest';
import { fitPads, type AxleHistory } from '../../src/core/forecast/fitWear.js';
import { padBeliefs, type Belief, type WearBeliefs } from '../../src/core/forecast/starting.js';
import { textbookWear } from '../support/parameters.js';
import { grouped, referenceRows } from '../support/referenceData.js';

/**
 * The service's fit on measured wear of another kind: Alloy-A fatigue cracks (see data/README.md). By Paris's law with
 * exponent 3.73 (its mean over the specimens, W. Q. Meeker and L. A. Escobar, Statistical Methods for Reliability Data,
 * 1998, from memory) the crack's relative length ℓ grows so that w = 10·(1 − ℓ^(1 − 3.73/2)) is a straight line through
 * zero in cycles. Each specimen has its own rate and counts as an axle with one pad, w as mm and thousands of cycles as
 * thousands of kilometres. With log-normal rates and one reading error, quadrature gives the exact marginal likelihood.
 */
const EXPONENT = 1 - 3.73 / 2;
const NEW_MM = 11;
const MODEL = 'alloy-a';

interface Specimen {
  at: number[];
  worn: number[];
}

const SPECIMENS: Specimen[] = [...grouped(referenceRows('fatigue.csv'), 'Path').values()].map((rows) => {
  const later = rows.filter((row) => Number(row['cycles']) > 0);
  return {
    at: later.map((row) => 1000 * Number(row['cycles'])),
    worn: later.map((row) => 10 * (1 - Number(row['relLength']) ** EXPONENT)),
  };
});

function historyOf({ at, worn }: Specimen): AxleHistory {
  const life = {
    startAt: 0,
    startMm: NEW_MM,
    at: Float64Array.from(at),
    atSd: new Float64Array(at.length),
    mm: Float64Array.from(worn, (mm) => NEW_MM - mm),
    gaugeVariance: new Float64Array(at.length),
  };
  return { model: MODEL, parts: [{ ratioShare: 0, lives: [life] }] };
}

const known = (value: number): Belief => ({ value, sd: 0, scale: 'log' });
const vague = (value: number): Belief => ({ value, sd: 1, scale: 'log' });

/** Only the rates' mean and spread and the reading error are learned, from very wide priors. */
const BELIEFS: WearBeliefs = {
  learned: {
    ...padBeliefs({ steeredOrFront: true, regenerative: false }).learned,
    logRateMean: { value: Math.log(0.04), sd: 1, scale: 'plain' },
    logRateSd: vague(0.3),
    placementSd: vague(0.1),
    modelSd: known(1e-3),
    partSpread: known(0),
    wander: known(0),
    logInnerOuter: known(0),
    fastChance: known(0),
    fastFactor: known(1),
    // Only an axle with several parts can separate these from the rest.
    visitSd: known(0),
    dragsPer1000Km: known(0),
    replacedWornChance: known(0),
    jumpPerMm: known(0),
  },
  // Without misreadings, a rate far off would give a reading zero density, which no filter can handle.
  given: textbookWear({ logRateSd: 0.3, placementSd: 0.1, misreadChance: 1e-9 }),
};

/** scipy 1.17.1, with standard errors: mean and log spread of the log rates, and log reading error. */
const EXACT = {
  logRateMean: [-3.49486147, 0.04592757],
  logRateSd: [-1.55946854, 0.15455024],
  placementSd: [-2.34161738, 0.04762545],
} as const;
/** The minimiser stops where it expects to gain 0.02 in log posterior: within 0.2 standard errors of the mode. */
const NEAR = 0.2;

describe('the fit of 21 specimens of Alloy-A', () => {
  const fit = fitPads(SPECIMENS.map(historyOf), BELIEFS)!;
  // The draws are symmetric about the mode.
  const modeOf = (value: (draw: (typeof fit.draws)[0]) => number) =>
    fit.draws.reduce((sum, draw) => sum + value(draw), 0) / fit.draws.length;

  it('the fit uses every reading', () => {
    expect(fit).toMatchObject({ axles: 21, readings: 241 });
  });

  it('the fit finds the exact mode', () => {
    const found = {
      logRateMean: modeOf(({ parameters }) => parameters.logRateMean),
      logRateSd: modeOf(({ parameters }) => Math.log(parameters.logRateSd)),
      placementSd: modeOf(({ parameters }) => Math.log(parameters.placementSd)),
    };
    for (const name of Object.keys(EXACT) as (keyof typeof EXACT)[]) {
      const [mode, standardError] = EXACT[name];
      expect(Math.abs(found[name] - mode) / standardError, name).toBeLessThan(NEAR);
    }
  });

  it('the fit finds no change of rate, because there is none', () => {
    expect(fit.draws.every(({ parameters }) => parameters.jumpPerMm === 0)).toBe(true);
  });
});
