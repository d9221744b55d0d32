import { describe, expect, it } from 'vitest';
import { stopsOf } from '../../src/core/forecast/events.js';
import type { WearParameters } from '../../src/core/forecast/experience.js';
import { filterModel, PART, STATE, WEIGHT } from '../../src/core/forecast/filter.js';
import { driveTo, followOn, startFollowing } from '../../src/core/forecast/follow.js';
import type { Following } from '../../src/core/forecast/following.js';
import { partMixture, wearPosterior, type PartTracks } from '../../src/core/forecast/wear.js';
import { onlyDraw, textbookWear } from '../support/parameters.js';

const NODES = Float64Array.from({ length: 21 }, (_, index) => Math.log(0.1) + (index - 10) * 0.05);

/** A pad of 12 mm at distance 0, with the given readings. */
function pad(ratioShare: number, ...readings: [at: number, mm: number][]): PartTracks {
  const life = {
    startAt: 0,
    startMm: 12,
    at: Float64Array.from(readings, ([at]) => at),
    atSd: new Float64Array(readings.length),
    mm: Float64Array.from(readings, ([, mm]) => mm),
    gaugeVariance: new Float64Array(readings.length).fill(0.02),
  };
  return { ratioShare, lives: [life] };
}

const parameters = (more: Partial<WearParameters>): WearParameters =>
  textbookWear({
    logRateSd: 0.5,
    partSpread: 0.1,
    wander: 0.02,
    startSd: 0.1,
    placementSd: 0.1,
    fastChance: 0.05,
    fastFactor: 1.5,
    misreadChance: 0.005,
    ...more,
  });

describe('an axle whose rate hardly ever changes', () => {
  const parts = [pad(0.5, [10, 10.9], [25, 9.2], [40, 8.1]), pad(-0.5, [10, 11.2], [40, 8.4])];
  const follow = (jumpPerMm: number): Following => {
    const model = filterModel(parameters({ jumpPerMm, jumpSd: 0.5, logInnerOuter: 0.1 }));
    const prior = new Float64Array(NODES.length).fill(1 / NODES.length);
    const following = startFollowing(parts, model, NODES, prior, true);
    followOn(following, stopsOf(parts));
    driveTo(following, 50);
    return following;
  };
  const rare = follow(1e-15);
  const steady = follow(0);

  it('an axle whose rate hardly ever changes has the likelihood of an axle whose rate never changes, whatever the rate', () => {
    expect(rare.logLikelihood).toBeCloseTo(steady.logLikelihood, 6);
    const { origins, weights } = rare.hypotheses[0]!;
    steady.hypotheses[0]!.weights.forEach((weight, node) => {
      expect(weights[node]!).toBeCloseTo(weight, 6);
      expect(origins![node * NODES.length + node]!).toBeCloseTo(weight, 6);
    });
  });

  it('an axle whose rate hardly ever changes ends in the same states', () => {
    const { states } = steady.hypotheses[0]!;
    rare.hypotheses[0]!.states.forEach((value, index) => {
      // An explanation without weight does not count, whatever its state.
      if (states[index - (index % STATE) + WEIGHT]! > 0) expect(value).toBeCloseTo(states[index]!, 6);
    });
  });
});

describe('an axle over a distance that no vehicle drives', () => {
  it('every part keeps its weight, however certain a change of rate is', () => {
    const parts = [pad(0.5, [10, 10.9]), pad(-0.5, [10, 11.2])];
    const model = filterModel(parameters({ jumpPerMm: 0.02, jumpSd: 0.4 }));
    const prior = new Float64Array(NODES.length).fill(1 / NODES.length);
    const following = startFollowing(parts, model, NODES, prior);
    followOn(following, stopsOf(parts));
    driveTo(following, 1e6);
    const { weights, states } = following.hypotheses[0]!;
    parts.forEach((_, part) =>
      weights.forEach((weight, node) => {
        const at = (part * weights.length + node) * PART;
        const components = [0, 1, 2].map((component) => states[at + component * STATE + WEIGHT]!);
        if (weight > 0) expect(components.reduce((sum, each) => sum + each, 0)).toBeCloseTo(1, 6);
      }),
    );
  });
});

describe('an axle that suddenly wears twice as fast', () => {
  const readings: [number, number][] = [
    [10, 11],
    [20, 10],
    [30, 8],
    [40, 6],
  ];
  const four = [0.5, -0.5, 0.5, -0.5].map((share) => pad(share, ...readings));
  const rateOf = (parts: PartTracks[], more: Partial<WearParameters>): number => {
    const posterior = wearPosterior(parts, onlyDraw(parameters(more)), 40);
    const { weights, means } = partMixture(posterior, 0, 'rate');
    return weights.reduce((sum, weight, index) => sum + weight * means[index]!, 0);
  };
  const changing = { jumpPerMm: 0.05, jumpSd: 0.5 };

  it('the filter follows the new rate where rates change, and half way where they do not', () => {
    expect(rateOf(four, {})).toBeLessThan(0.17);
    expect(rateOf(four, changing)).toBeGreaterThan(0.18);
    expect(rateOf(four, changing)).toBeLessThan(0.215);
  });

  it('the filter follows sooner if all pads show it', () => {
    const early = readings.slice(0, 3);
    const all = [0.5, -0.5, 0.5, -0.5].map((share) => pad(share, ...early));
    expect(rateOf(all, changing)).toBeGreaterThan(rateOf([pad(0.5, ...early)], changing) + 0.01);
  });
});

describe('the events on an axle, in order of distance', () => {
  const eventsOf = (parts: PartTracks[]): string[] =>
    stopsOf(parts).flatMap(({ at, begun, looks }) => [
      ...begun.map(({ part }) => `begin ${part} ${at}`),
      ...looks.map(({ part }) => `reading ${part} ${at}`),
    ]);

  it('a reading of the old pad comes before the fitting of the new one at the same visit', () => {
    const [old] = pad(0, [10, 4]).lives;
    const [fresh] = pad(0, [20, 11]).lives;
    const first = { ratioShare: 0, lives: [old!, { ...fresh!, startAt: 10 }] };
    expect(eventsOf([first, pad(0, [10, 9])])).toEqual([
      'begin 0 0',
      'begin 1 0',
      'reading 0 10',
      'reading 1 10',
      'begin 0 10',
      'reading 0 20',
    ]);
  });

  it('a life of unknown starting thickness begins with its first reading', () => {
    const [life] = pad(0, [10, 9], [20, 8]).lives;
    const unknown = { ratioShare: 0, lives: [{ ...life!, startMm: null }] };
    expect(eventsOf([unknown])).toEqual(['begin 0 10', 'reading 0 10', 'reading 0 20']);
  });
});
