import type { Experience } from '../forecast/experience.js';
import { mixtureQuantiles } from '../forecast/normal.js';
import {
  followTo,
  partMixture,
  posteriorOf,
  thicknessMoments,
  type Followed,
  type PartTracks,
  type WearPosterior,
} from '../forecast/wear.js';
import type { History } from '../history.js';
import { itemAt } from '../items.js';
import type { Life } from '../lives.js';
import type { Road } from '../odometer.js';
import type { PadPosition } from './padPosition.js';
import { withChanged } from './tracks.js';

/** The prediction of a pad's latest reading from all earlier ones, mm, and the error in standard deviations. */
export interface Foretold {
  mean: number;
  spread: number;
  z: number;
  /**
   * Computes the median, mm. Findings quote it because a small chance that the set is near its end pulls the mean far
   * down.
   */
  medianMm: () => number;
}

/** The visit at which an axle was last measured, and its position, 1000 km. */
interface Latest {
  visitId: string;
  at: number;
}

/** An axle's pads, filtered up to the visit at which they were last measured. */
export interface FollowedPads {
  followed: Followed;
  /** Null if never measured, or if the visit has no position on the road. */
  latest: Latest | null;
  /** Position at which the history ends, 1000 km. */
  now: number;
}

export function followPads(
  history: History,
  road: Road,
  pads: readonly PadPosition[],
  experience: Experience,
): FollowedPads {
  const now = (road.places.at(-1)?.km ?? 0) / 1000;
  const latest = latestOf(history, road, pads);
  const followed = followTo(latest?.at ?? now, tracksOf(pads), experience.pads);
  return { followed, latest, now };
}

function latestOf({ visits }: History, road: Road, pads: readonly PadPosition[]): Latest | null {
  const visit = visits.findLast(({ id }) => pads.some(({ latest }) => latest?.visit.id === id));
  const place = visit ? (road.places[visits.indexOf(visit)] ?? null) : null;
  return visit && place ? { visitId: visit.id, at: place.km / 1000 } : null;
}

export const tracksOf = (pads: readonly PadPosition[]): PartTracks[] => pads.map(({ tracks }) => tracks);

/** The pads' tracks without some pads' readings at the latest visit. */
function tracksWithout(
  pads: readonly PadPosition[],
  { visitId }: Latest,
  isLeftOut: (part: number) => boolean,
): PartTracks[] {
  return pads.map(({ tracks, lives }, part) =>
    isLeftOut(part)
      ? withChanged(
          tracks,
          lives,
          lives.map((life) => before(life, visitId)),
        )
      : tracks,
  );
}

/** The posterior at the latest visit without some pads' readings at it. */
function posteriorWithout(
  { followed }: FollowedPads,
  pads: readonly PadPosition[],
  latest: Latest,
  isLeftOut: (part: number) => boolean,
): WearPosterior {
  const tracks = tracksWithout(pads, latest, isLeftOut);
  return posteriorOf(followed, tracks, latest.at);
}

/**
 * Predicts each pad's reading at the latest measuring visit from earlier visits. Null if the pad was not measured then
 * or cannot be predicted.
 */
export function foretellLatest(followed: FollowedPads, pads: readonly PadPosition[]): (Foretold | null)[] {
  const { latest } = followed;
  if (!latest) return pads.map(() => null);
  const posterior = posteriorWithout(followed, pads, latest, () => true);
  return pads.map((position, part) => foretell(position, posterior, part, latest, followed.followed));
}

/** A pad thinner than the axle's others by this much is also compared with them, mm. */
const THINNER_MM = 0.4;

/**
 * Predicts the pads that are thinner than the axle's others from everything except their own latest reading, including
 * the other pads at that visit. Null for pads that are not thinner.
 */
export function foretellByOthers(followed: FollowedPads, pads: readonly PadPosition[]): (Foretold | null)[] {
  const { latest } = followed;
  if (!latest) return pads.map(() => null);
  const read = pads.map(({ latest: reading }) => (reading?.visit.id === latest.visitId ? reading.mm : NaN));
  const sorted = read.filter((mm) => !Number.isNaN(mm)).sort((a, b) => b - a);
  const thick = sorted[Math.floor((sorted.length - 1) / 2)] ?? NaN;
  return pads.map((position, part) => {
    if (!(read[part]! <= thick - THINNER_MM)) return null;
    const posterior = posteriorWithout(followed, pads, latest, (other) => other === part);
    return foretell(position, posterior, part, latest, followed.followed);
  });
}

function foretell(
  { latest, present }: PadPosition,
  posterior: WearPosterior,
  part: number,
  { visitId }: Latest,
  { parameters: { placementSd, visitSd } }: Followed,
): Foretold | null {
  if (latest?.visit.id !== visitId || !isForetold(present, visitId)) return null;
  const { mean, sd } = thicknessMoments(posterior, part);
  const spread = Math.hypot(sd, latest.standardUncertaintyMm, placementSd, visitSd);
  return {
    mean,
    spread,
    z: (latest.mm - mean) / spread,
    medianMm: () => itemAt(mixtureQuantiles(partMixture(posterior, part, 'thickness'), [0.5]), 0),
  };
}

function before<Spec>(life: Life<Spec>, visitId: string): Life<Spec> {
  const observations = life.observations.filter(({ visit }) => visit.id !== visitId);
  return observations.length < life.observations.length ? { ...life, observations } : life;
}

/** Whether a pad can be predicted: its fitting is known, or it was measured at an earlier visit. */
function isForetold(life: Life<object>, visitId: string): boolean {
  return (
    life.observations.some(({ visit }) => visit.id !== visitId) ||
    (life.startMm !== null && life.start?.place != null)
  );
}
