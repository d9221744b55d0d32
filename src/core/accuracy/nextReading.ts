import type { Experience, WearParameters } from '../forecast/experience.js';
import { chanceBelow, normalCdf, type NormalMixture } from '../forecast/normal.js';

/**
 * A reading as it is foretold at the visit before: the thickness that is expected at its odometer, with the error of
 * the gauge and of where it is put, and the chances of a sudden loss and of a gross misreading.
 */

/** Gross misreadings of linings fall within this, mm (common practice, no source). */
const MISREAD_RANGE_MM = 12;
/** Components lighter than this are left out. */
const LIGHTEST = 1e-4;

/** @param thickness the part's thickness at the place of the reading, mm */
export function readingForetold(
  thickness: NormalMixture,
  experience: Experience,
  gaugeUncertaintyMm: number,
): NormalMixture {
  const meanOf = (value: (parameters: WearParameters) => number) =>
    experience.pads.reduce((sum, { weight, parameters }) => sum + weight * value(parameters), 0);
  const errorVariance = gaugeUncertaintyMm ** 2 + meanOf(({ placementSd }) => placementSd ** 2);
  const misread = meanOf(({ misreadChance }) => misreadChance);
  const sudden = meanOf(({ suddenChance }) => suddenChance);
  const range = MISREAD_RANGE_MM;
  const kept = Array.from(thickness.weights.keys()).filter((index) => thickness.weights[index]! > LIGHTEST);
  const total = kept.reduce((sum, index) => sum + thickness.weights[index]!, 0);
  const weights = kept.map((index) => thickness.weights[index]! / total);
  const means = kept.map((index) => thickness.means[index]!);
  const sds = kept.map((index) => Math.sqrt(thickness.sds[index]! ** 2 + errorVariance));
  const { mean, sd } = momentsOf(weights, means, sds);
  return {
    weights: Float64Array.from([
      ...weights.map((weight) => weight * (1 - misread - sudden)),
      sudden,
      misread,
    ]),
    means: Float64Array.from([...means, mean - meanOf(({ suddenMm }) => suddenMm), range / 2]),
    sds: Float64Array.from([
      ...sds,
      Math.hypot(
        sd,
        meanOf(({ suddenSd }) => suddenSd),
      ),
      // A misreading falls anywhere in its range: a normal of the same standard deviation stands for it.
      range / Math.sqrt(12),
    ]),
  };
}

function momentsOf(
  weights: readonly number[],
  means: readonly number[],
  sds: readonly number[],
): { mean: number; sd: number } {
  const mean = weights.reduce((sum, weight, index) => sum + weight * means[index]!, 0);
  const variance = weights.reduce(
    (sum, weight, index) => sum + weight * (sds[index]! ** 2 + (means[index]! - mean) ** 2),
    0,
  );
  return { mean, sd: Math.sqrt(variance) };
}

/** What came of a reading that was foretold. */
export interface ReadingScore {
  /** Probability integral transform: the chance the forecast gave to a reading under this one. */
  chance: number;
  /** Reading less the median foretold, mm. */
  offMm: number;
  /** Continuous ranked probability score, mm. */
  crpsMm: number;
}

export function scoreReading(foretold: NormalMixture, medianMm: number, mm: number): ReadingScore {
  return { chance: chanceBelow(foretold, mm), offMm: mm - medianMm, crpsMm: crps(foretold, mm) };
}

/**
 * Continuous ranked probability score of a mixture of normals, in closed form: E|X − y| − ½·E|X − X′|
 * (Gneiting and Raftery 2007, equation 21, with the mean absolute value of a normal; from memory).
 */
export function crps({ weights, means, sds }: NormalMixture, value: number): number {
  let near = 0;
  let apart = 0;
  for (let i = 0; i < weights.length; i++) {
    near += weights[i]! * meanAbsolute(value - means[i]!, sds[i]!);
    apart += weights[i]! ** 2 * meanAbsolute(0, sds[i]! * Math.SQRT2);
    for (let j = 0; j < i; j++) {
      apart +=
        2 * weights[i]! * weights[j]! * meanAbsolute(means[i]! - means[j]!, Math.hypot(sds[i]!, sds[j]!));
    }
  }
  return near - apart / 2;
}

/** Mean of |X| of a normal X. */
function meanAbsolute(mean: number, sd: number): number {
  const z = mean / sd;
  return mean * (2 * normalCdf(z) - 1) + sd * Math.sqrt(2 / Math.PI) * Math.exp(-0.5 * z * z);
}
