import { describe, expect, it } from 'vitest';
import { chanceOfAtMost, countAt, noneOf, takeIn, type Count } from '../../src/core/planning/counts.js';

const countOf = (chances: readonly number[]): Count => {
  const count = noneOf();
  for (const chance of chances) takeIn(count, chance);
  return count;
};

/** The chance of every number of events, by enumerating all outcomes. */
function enumerated(chances: readonly number[]): number[] {
  const sums = new Array<number>(chances.length + 1).fill(0);
  for (let way = 0; way < 2 ** chances.length; way++) {
    let chance = 1;
    let events = 0;
    chances.forEach((p, index) => {
      const happens = (way >> index) % 2 === 1;
      chance *= happens ? p : 1 - p;
      events += Number(happens);
    });
    sums[events]! += chance;
  }
  return sums;
}

/** The same distribution by adding one event after another, without truncation. */
function convolved(chances: readonly number[]): number[] {
  const sums = [1];
  for (const p of chances) {
    sums.push(0);
    for (let index = sums.length - 1; index > 0; index--) {
      sums[index] = sums[index]! * (1 - p) + sums[index - 1]! * p;
    }
    sums[0]! *= 1 - p;
  }
  return sums;
}

const cumulated = (chances: readonly number[]): number[] => {
  let sum = 0;
  return chances.map((chance) => (sum += chance));
};

describe('the number of independent events', () => {
  it('the distribution equals an enumeration of all outcomes of ten events', () => {
    const chances = [0.02, 0.9, 0.5, 0.31, 1, 0.0004, 0.77, 0.12, 0.5, 0.08];
    const count = countOf(chances);
    cumulated(enumerated(chances)).forEach((below, events) =>
      expect(chanceOfAtMost(count, events)).toBeCloseTo(below, 12),
    );
    expect(count.mean).toBeCloseTo(
      chances.reduce((sum, p) => sum + p, 0),
      12,
    );
  });

  it('the number of independent events is binomial where the chances are equal', () => {
    const count = countOf(new Array<number>(60).fill(0.17));
    // Sums of binomial terms in exact fractions.
    const below = [
      [0, 1.3953576655424632e-5],
      [3, 0.0053243065445151795],
      [7, 0.1778325275135372],
      [10, 0.5559507791320555],
      [15, 0.9602324643883818],
      [30, 0.9999999991217968],
    ] as const;
    for (const [events, chance] of below) expect(chanceOfAtMost(count, events)).toBeCloseTo(chance, 13);
    expect(countAt(count, 0.1)).toBe(7);
    expect(countAt(count, 0.9)).toBe(14);
  });

  it('the number of independent events is right without events, and for impossible and certain ones', () => {
    expect([countAt(noneOf(), 0.1), countAt(noneOf(), 0.9)]).toEqual([0, 0]);
    const certain = countOf([0, 1, 1, 0]);
    expect([certain.mean, countAt(certain, 0.1), countAt(certain, 0.9)]).toEqual([2, 2, 2]);
  });

  it('the approximation for many events is within 5e-4, and its percentiles are exact', () => {
    let state = 1;
    const random = (): number => (state = (state * 16_807) % 2_147_483_647) / 2_147_483_647;
    const mixes: [number, () => number][] = [
      [12_000, () => 0.009],
      [4_300, () => 0.05 * random()],
      [410, () => 0.5],
      [640, random],
      [3_300, () => (random() < 0.5 ? 0.04 * random() : 1 - 0.1 * random())],
    ];
    for (const [events, chance] of mixes) {
      const chances = Array.from({ length: events }, chance);
      const count = countOf(chances);
      expect(count.exact).toBeNull();
      const exact = cumulated(convolved(chances));
      const farthest = Math.max(
        ...exact.map((below, number) => Math.abs(below - chanceOfAtMost(count, number))),
      );
      expect(farthest).toBeLessThan(5e-4);
      for (const point of [0.1, 0.9]) {
        expect(countAt(count, point)).toBe(exact.findIndex((below) => below >= point));
      }
    }
  });
});
