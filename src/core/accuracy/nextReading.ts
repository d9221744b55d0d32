import type { Experience, WearParameters } from '../forecast/experience.js';
import { chanceBelow, normalCdf, type NormalMixture } from '../forecast/normal.js';
import { itemAt } from '../items.js';

/**
 * Predictive distribution of a reading, given the history up to the previous visit: the expected thickness at its
 * odometer reading, with gauge and placement error, and the chances of a sudden loss and of a gross misreading.
 */

/** A misreading is uniform over its range, approximated by this many normals side by side. */
const MISREAD_PARTS = 8;
/** Components with less weight than this are dropped. */
const MIN_WEIGHT = 1e-4;

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
  const kept = componentsOf(thickness).filter(({ weight }) => weight > MIN_WEIGHT);
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);
  const ordinary = kept.map(({ weight, mean, sd }) => ({
    weight: weight / total,
    mean,
    sd: Math.sqrt(sd ** 2 + errorVariance),
  }));
  const { mean, sd } = momentsOf(ordinary);
  const width = read.misreadRangeMm / MISREAD_PARTS;
  return mixtureOf([
    ...ordinary.map((each) => ({ ...each, weight: each.weight * (1 - misread - sudden) })),
    {
      weight: sudden,
      mean: mean - meanOf(({ suddenMm }) => suddenMm),
      sd: Math.hypot(
        sd,
        meanOf(({ suddenSd }) => suddenSd),
      ),
    },
    ...Array.from({ length: MISREAD_PARTS }, (_, part) => ({
      weight: misread / MISREAD_PARTS,
      mean: (part + 0.5) * width,
      sd: width / Math.sqrt(12),
    })),
  ]);
}

/** One normal of a mixture. */
interface Component {
  weight: number;
  mean: number;
  sd: number;
}

const componentsOf = ({ weights, means, sds }: NormalMixture): Component[] =>
  Array.from(weights, (weight, index) => ({ weight, mean: itemAt(means, index), sd: itemAt(sds, index) }));

const mixtureOf = (components: readonly Component[]): NormalMixture => ({
  weights: Float64Array.from(components, ({ weight }) => weight),
  means: Float64Array.from(components, ({ mean }) => mean),
  sds: Float64Array.from(components, ({ sd }) => sd),
});

function momentsOf(components: readonly Component[]): { mean: number; sd: number } {
  const mean = components.reduce((sum, each) => sum + each.weight * each.mean, 0);
  const variance = components.reduce(
    (sum, each) => sum + each.weight * (each.sd ** 2 + (each.mean - mean) ** 2),
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
export function crps(mixture: NormalMixture, value: number): number {
  const components = componentsOf(mixture);
  let near = 0;
  let apart = 0;
  for (const one of components) {
    near += one.weight * meanAbsolute(value - one.mean, one.sd);
    apart += one.weight ** 2 * meanAbsolute(0, one.sd * Math.SQRT2);
    for (const other of components) {
      if (other === one) break;
      apart +=
        2 * one.weight * other.weight * meanAbsolute(one.mean - other.mean, Math.hypot(one.sd, other.sd));
    }
  }
  return near - apart / 2;
}

/** Mean of |X| of a normal X. */
function meanAbsolute(mean: number, sd: number): number {
  const z = mean / sd;
  return mean * (2 * normalCdf(z) - 1) + sd * Math.sqrt(2 / Math.PI) * Math.exp(-0.5 * z * z);
}
