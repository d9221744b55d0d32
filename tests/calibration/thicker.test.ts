import { describe, expect, it } from 'vitest';
import { simulateShop } from '../../bench/shopHistory.js';
import { axlesOf, outlookInParts } from '../../src/core/assessment/outlook.js';
import { DEFAULT_POLICY } from '../../src/core/assessment/policy.js';
import { experienceOf, STARTING } from '../../src/core/assessment/whichExperience.js';
import { daysAt } from '../../src/core/forecast/crossing.js';
import type { History } from '../../src/core/history.js';
import { inDepth } from '../support/thorough.js';

/**
 * Readings that are a little thicker must not bring the early date forward. Far thicker ones may: they can mean that
 * another set is fitted than assumed, whose wear is not yet known. No rule forbids this, so the test measures how often
 * it happens.
 */
const VEHICLES = inDepth(30, 60);
/** An early date that moves forward by a smaller share of the time to it counts as unchanged. */
const MOVED = 0.05;

function earlyDays(history: History): number {
  const experience = experienceOf(history.vehicle, STARTING);
  const { crossing } = outlookInParts(history, experience, DEFAULT_POLICY).axle(axlesOf(history)[0]!);
  return (crossing && daysAt(crossing, 0.1)) ?? Infinity;
}

function withThickerEnd({ vehicle, visits }: History, by: number): History {
  const latest = visits.at(-1)!;
  const readings = latest.readings.map((reading) => ({
    ...reading,
    mm: reading.mm + by,
    value: reading.value + by,
  }));
  return { vehicle, visits: [...visits.slice(0, -1), { ...latest, readings }] };
}

describe('readings of a visit that are all thicker', { timeout: 120_000 }, () => {
  const histories = simulateShop(VEHICLES, 20_261).flatMap(({ history: { vehicle, visits } }) =>
    visits.flatMap(({ readings, work }, index): History[] =>
      readings.length > 1 && work.length === 0 && index % 3 === 0
        ? [{ vehicle, visits: visits.slice(0, index + 1) }]
        : [],
    ),
  );
  const before = histories.map(earlyDays);

  /** Share of the histories whose early date moves forward. */
  function movedBy(thicker: number): number {
    const moved = histories.filter(
      (history, index) => earlyDays(withThickerEnd(history, thicker)) < (1 - MOVED) * before[index]!,
    );
    return moved.length / histories.length;
  }

  it.each([
    [0.1, 0],
    [0.3, 0.01],
    [1, 0.12],
  ])(
    'readings that are all %d mm thicker move the early date forward in at most a share of %d of the histories',
    (thicker, share) => {
      expect(movedBy(thicker)).toBeLessThanOrEqual(share);
    },
  );
});
