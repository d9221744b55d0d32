import type { Draw, WearParameters } from '../src/core/forecast/experience.js';
import { normalCdf, type NormalMixture } from '../src/core/forecast/normal.js';
import { partMixture, type WearPosterior } from '../src/core/forecast/wear.js';

export function mixtureCdf({ weights, means, sds }: NormalMixture, value: number): number {
  let below = 0;
  let total = 0;
  for (let i = 0; i < weights.length; i++) {
    if (weights[i] === 0) continue;
    below += weights[i]! * normalCdf((value - means[i]!) / sds[i]!);
    total += weights[i]!;
  }
  return below / total;
}

/** Gross misreadings of linings fall within this, mm. */
const MISREAD_RANGE_MM = 12;

/**
 * Distribution function of a part's reading after a further `ahead` 1000 km: its thickness, a possible sudden
 * loss, the error of gauge and placement, and a small share of gross misreadings.
 *
 * @param gaugeVariance mm²
 */
export function readingCdf(
  posterior: WearPosterior,
  draws: readonly Draw<WearParameters>[],
  { part, ahead, gaugeVariance }: { part: number; ahead: number; gaugeVariance: number },
): (mm: number) => number {
  const [{ parameters }] = draws as [Draw<WearParameters>];
  const { misreadChance, suddenChance, suddenMm, suddenSd } = parameters;
  const placementVariance = draws.reduce(
    (sum, draw) => sum + draw.weight * draw.parameters.placementSd ** 2,
    0,
  );
  const thickness = heavy(partMixture(posterior, part, 'thickness', [ahead]));
  const usual = widened(thickness, 0, gaugeVariance + placementVariance);
  const sudden = widened(thickness, -suddenMm, gaugeVariance + placementVariance + suddenSd ** 2);
  return (mm) =>
    (1 - misreadChance - suddenChance) * mixtureCdf(usual, mm) +
    suddenChance * mixtureCdf(sudden, mm) +
    misreadChance * Math.min(1, Math.max(0, mm / MISREAD_RANGE_MM));
}

const LIGHTEST = 1e-7;

function heavy({ weights, means, sds }: NormalMixture): NormalMixture {
  const keep = (_: number, index: number) => weights[index]! > LIGHTEST;
  return { weights: weights.filter(keep), means: means.filter(keep), sds: sds.filter(keep) };
}

function widened({ weights, means, sds }: NormalMixture, shift: number, variance: number): NormalMixture {
  return {
    weights,
    means: means.map((mean) => mean + shift),
    sds: sds.map((sd) => Math.sqrt(sd * sd + variance)),
  };
}
