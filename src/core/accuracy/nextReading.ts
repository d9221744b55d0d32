import type { Experience, WearParameters } from '../forecast/experience.js';
import { chanceBelow, normalCdf, type NormalMixture } from '../forecast/normal.js';

/**
 * Predictive distribution of a reading, given the visit before: the expected thickness at its odometer, with gauge and
 * placement error, and the chances of a sudden loss and of a gross misreading.
 */

/** A misreading is uniform over its range, approximated by this many normals side by side. */
const MISREAD_PARTS = 8;
/** Components with less weight than this are dropped. */
const LIGHTEST = 1e-4;

/**
 * @param thickness the part's thickness at the odometer of the reading, mm
 * @param read how the part is read: the gauge's standard uncertainty, and the range of a gross misreading, mm
 */
export function readingForetold(
  thickness: NormalMixture,
  experience: Experience,
  read: { gaugeUncertaintyMm: number; misreadRangeMm: number },
): NormalMixture {
  const meanOf = (value: (parameters: WearParameters) => number) =>
    experience.pads.reduce((sum, { weight, parameters }) => sum + weight * value(parameters), 0);
  const errorVariance =
    read.gaugeUncertaintyMm ** 2 + meanOf(({ placementSd, visitSd }) => placementSd ** 2 + visitSd ** 2);
  const misread = meanOf(({ misreadChance }) => misreadChance);
  const sudden = meanOf(({ suddenChance }) => suddenChance);
  const kept = Array.from(thickness.weights.keys()).filter((index) => thickness.weights[index]! > LIGHTEST);
  const total = kept.reduce((sum, index) => sum + thickness.weights[index]!, 0);
  const weights = kept.map((index) => thickness.weights[index]! / total);
  const means = kept.map((index) => thickness.means[index]!);
  const sds = kept.map((index) => Math.sqrt(thickness.sds[index]! ** 2 + errorVariance));
  const { mean, sd } = momentsOf(weights, means, sds);
  const width = read.misreadRangeMm / MISREAD_PARTS;
  const parts = Array.from({ length: MISREAD_PARTS }, (_, part) => (part + 0.5) * width);
  return {
    weights: Float64Array.from([
      ...weights.map((weight) => weight * (1 - misread - sudden)),
      sudden,
      ...parts.map(() => misread / MISREAD_PARTS),
    ]),
    means: Float64Array.from([...means, mean - meanOf(({ suddenMm }) => suddenMm), ...parts]),
    sds: Float64Array.from([
      ...sds,
      Math.hypot(
        sd,
        meanOf(({ suddenSd }) => suddenSd),
      ),
      ...parts.map(() => width / Math.sqrt(12)),
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

/** How a predicted reading turned out. */
export interface ReadingScore {
  /** Probability integral transform: the predicted chance of a reading below this one. */
  chance: number;
  /** Reading minus the predicted median, mm. */
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
