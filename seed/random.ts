import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { RandomGenerator } from 'pure-rand/types/RandomGenerator';

/** A stream of random numbers. The same seed always gives the same stream. */
export class Chance {
  readonly #generator: RandomGenerator;

  constructor(generator: RandomGenerator) {
    this.#generator = generator;
  }

  /** Uniform from `low` (included) to `high` (excluded). */
  between(low: number, high: number): number {
    return low + (high - low) * uniformFloat64(this.#generator);
  }

  /** A whole number from `low` to `high`, both included. */
  whole(low: number, high: number): number {
    return Math.floor(this.between(low, high + 1));
  }

  happens(probability: number): boolean {
    return this.between(0, 1) < probability;
  }

  pick<T>(choices: readonly T[]): T {
    return choices[this.whole(0, choices.length - 1)]!;
  }

  normal(mean: number, sd: number): number {
    // Box–Muller; the first draw must not be 0, whose logarithm is not finite.
    const radius = Math.sqrt(-2 * Math.log(1 - this.between(0, 1)));
    return mean + sd * radius * Math.cos(2 * Math.PI * this.between(0, 1));
  }

  logNormal(median: number, sdOfLog: number): number {
    return median * Math.exp(this.normal(0, sdOfLog));
  }
}

/** Streams that never overlap, so that a change to one vehicle's story does not affect the others. */
export function streams(seed: number, count: number): Chance[] {
  const generator = xoroshiro128plus(seed);
  return Array.from({ length: count }, () => {
    generator.jump();
    return new Chance(generator.clone());
  });
}
