import { describe, expect, it } from 'vitest';
import { forecastOfPads } from '../../src/core/assessment/padForecast.js';
import { foretellLatest } from '../../src/core/assessment/foretold.js';
import { liningContext } from '../../src/core/assessment/outlook.js';
import { liningTracks } from '../../src/core/assessment/tracks.js';
import { toFullDate } from '../../src/core/calendar.js';
import { condensed } from '../../src/core/forecast/condense.js';
import { startingExperience, type WearParameters } from '../../src/core/forecast/experience.js';
import { stopsOf } from '../../src/core/forecast/events.js';
import { filterModel, PART, type PartTracks } from '../../src/core/forecast/filter.js';
import { followOn, startFollowing } from '../../src/core/forecast/follow.js';
import { partMixture, thicknessMoments, wearPosterior } from '../../src/core/forecast/wear.js';
import { fourPads, historyOf, km, POLICY } from '../support/coreHistories.js';
import { onlyDraw, textbookWear } from '../support/parameters.js';

const GAUGE_VARIANCE = 0.5 ** 2 / 12;

/** A pad of 12 mm that loses `rate` mm over 1000 km, read every 200 km to 0.1 mm, each reading off by up to 0.3 mm. */
function longLife(readings: number, rate: number, ratioShare = 0.5): PartTracks {
  const at = Float64Array.from({ length: readings }, (_, index) => 0.2 * (index + 1));
  const off = (index: number): number => 0.3 * Math.sin(7.3 * index + ratioShare);
  const life = {
    startAt: 0,
    startMm: 12,
    at,
    atSd: new Float64Array(readings),
    mm: at.map((distance, index) => Number((12 - rate * distance + off(index)).toFixed(1))),
    gaugeVariance: new Float64Array(readings).fill(GAUGE_VARIANCE),
  };
  return { ratioShare, lives: [life] };
}

const wear = (more: Partial<WearParameters> = {}): WearParameters =>
  textbookWear({ startSd: 0.1, placementSd: 0.2, partSpread: 0.1, wander: 0.01, logRateSd: 0.5, ...more });

const sum = (values: Iterable<number>): number =>
  Array.from(values).reduce((total, value) => total + value, 0);

describe('a life with very many readings', () => {
  it('a life with very many readings is unchanged below the ordinary number of readings', () => {
    const part = longLife(40, 0.1);
    expect(condensed(part)).toBe(part);
  });

  it('a life with very many readings keeps the first and the latest readings, and counts all of them', () => {
    const [all] = longLife(200, 0.1).lives;
    const [short] = condensed(longLife(200, 0.1)).lives;
    expect(short!.at.length).toBeLessThan(60);
    expect(sum(short!.counts!)).toBe(200);
    expect(short!.mm[0]).toBe(all!.mm[0]);
    expect(Array.from(short!.mm.slice(-12))).toEqual(Array.from(all!.mm.slice(-12)));
    expect(Array.from(short!.counts!.slice(-12))).toEqual(new Array(12).fill(1));
  });

  it('a life with very many readings keeps a single reading that differs from the others', () => {
    const part = longLife(200, 0.1);
    part.lives[0]!.mm[90] = 4;
    const [short] = condensed(part).lives;
    expect(short!.counts![short!.mm.indexOf(4)]).toBe(1);
  });

  it('a life without wear has the same likelihood and final state when condensed', () => {
    const parameters = wear({ partSpread: 0, wander: 0, startSd: 1 });
    const still = Float64Array.of(Math.log(1e-12));
    const filtered = [longLife(200, 0), condensed(longLife(200, 0))].map((part) => {
      const following = startFollowing([part], filterModel(parameters), still, Float64Array.of(1));
      followOn(following, stopsOf([part]));
      return { log: following.logLikelihood, states: following.hypotheses[0]!.states };
    });
    const [all, short] = filtered;
    expect(short!.log).toBeCloseTo(all!.log, 6);
    expect(short!.states.length).toBe(PART);
    short!.states.forEach((value, index) => expect(value).toBeCloseTo(all!.states[index]!, 8));
  });

  it.each([
    ['does not change', wear()],
    ['may change', wear({ jumpPerMm: 0.1, jumpSd: 0.5 })],
    ['does not change and readings may be wrong', wear({ misreadChance: 0.0075 })],
  ])('a life with very many readings gives the same rate if the rate %s', (_, parameters) => {
    const parts = [0.5, -0.5, 0.5, -0.5].map((share) => longLife(200, 0.12, share));
    const moments = (of: PartTracks[]): { mean: number; sd: number } => {
      const { weights, means, sds } = partMixture(wearPosterior(of, onlyDraw(parameters), 40), 0, 'rate');
      const mean = sum(weights.map((weight, index) => weight * means[index]!));
      const square = sum(weights.map((w, index) => w * ((means[index]! - mean) ** 2 + sds[index]! ** 2)));
      return { mean, sd: Math.sqrt(square) };
    };
    const all = moments(parts);
    const short = moments(parts.map(condensed));
    expect(Math.abs(short.mean - all.mean)).toBeLessThan(0.1 * all.sd);
    expect(Math.abs(short.sd / all.sd - 1)).toBeLessThan(0.05);
  });
});

describe('a part that was replaced many times', () => {
  const SETS = 8;
  const READINGS = 10;
  const life = (set: number, share: number) => {
    const from = 60 * set;
    const at = Float64Array.from({ length: READINGS }, (_, index) => from + 6 * (index + 1));
    return {
      startAt: from,
      startMm: 12,
      at,
      atSd: new Float64Array(READINGS),
      mm: at.map((distance, index) =>
        Number((12 - 0.12 * (distance - from) + 0.2 * Math.sin(7.3 * (index + set) + share)).toFixed(1)),
      ),
      gaugeVariance: new Float64Array(READINGS).fill(GAUGE_VARIANCE),
    };
  };
  const parts = [0.5, -0.5, 0.5, -0.5].map((ratioShare): PartTracks => ({
    ratioShare,
    lives: Array.from({ length: SETS }, (_, set) => life(set, ratioShare)),
  }));

  it('a part that was replaced many times keeps the last two readings of all sets but the latest three', () => {
    const short = condensed(parts[0]!).lives;
    expect(short.map(({ at }) => at.length)).toEqual([2, 2, 2, 2, 2, 10, 10, 10]);
    expect(Array.from(short[0]!.mm)).toEqual(Array.from(parts[0]!.lives[0]!.mm.slice(-2)));
  });

  it('a part that was replaced many times has the same rate within a third of its uncertainty', () => {
    const moments = (of: PartTracks[]): { mean: number; sd: number } => {
      const { weights, means, sds } = partMixture(wearPosterior(of, onlyDraw(wear()), 480), 0, 'rate');
      const mean = sum(weights.map((weight, index) => weight * means[index]!));
      const square = sum(weights.map((w, index) => w * ((means[index]! - mean) ** 2 + sds[index]! ** 2)));
      return { mean, sd: Math.sqrt(square) };
    };
    const all = moments(parts);
    const short = moments(parts.map(condensed));
    expect(Math.abs(short.mean - all.mean)).toBeLessThan(all.sd / 3);
    expect(Math.abs(short.sd / all.sd - 1)).toBeLessThan(0.1);
  });
});

describe('a vehicle that is measured very often', () => {
  const VISITS = 80;
  const history = historyOf(
    {},
    Array.from({ length: VISITS }, (_, index) => ({
      date: toFullDate(20_000 + 7 * index),
      odometer: km(10_000 + 400 * index),
      readings: fourPads(Math.round(2 * (11 - 0.08 * index)) / 2, { gauge: 'pad-gauge' }),
    })),
  );
  const experience = startingExperience({ steeredOrFront: true, regenerative: false });
  const context = liningContext(history, () => experience, POLICY);
  const { pads, followed } = forecastOfPads(context, 'front', experience);

  it('the latest readings of a vehicle measured very often are predicted from all earlier ones', () => {
    const foretold = foretellLatest(followed, pads);
    const before = pads.map(({ lives, pad, side }) =>
      liningTracks(
        lives.map((life) => ({ ...life, observations: life.observations.slice(0, -1) })),
        { pad, side },
        'front',
        history,
        context.road,
      ),
    );
    const exact = wearPosterior(before, experience.pads, context.road.places.at(-1)!.km / 1000);
    foretold.forEach((each, part) => {
      expect(Math.abs(each!.mean - thicknessMoments(exact, part).mean)).toBeLessThan(0.02);
    });
  });
});
