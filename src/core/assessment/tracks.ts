import { condensed } from '../forecast/condense.js';
import type { PartTracks, Track } from '../forecast/wear.js';
import type { Life, Observation } from '../lives.js';
import type { LiningPosition } from '../vocabulary/terms.js';

/** Inner pads and leading shoes share in the group's ratio the one way, the others the other way. */
export const ratioShareOf = (pad: LiningPosition): number =>
  pad === 'outer' || pad === 'trailing' ? -0.5 : 0.5;

/** The lives of a part as the filter takes them; distances in 1000 km. */
export function toTracks(lives: readonly Life<object>[], ratioShare: number): PartTracks {
  return { ratioShare, lives: lives.map((life) => toTrack(life, life.observations)) };
}

/** The same for a forecast: long lives shortened. */
export const toShortTracks = (lives: readonly Life<object>[], ratioShare: number): PartTracks =>
  condensed(toTracks(lives, ratioShare));

/**
 * The last reading of a part by itself, at distance 0: all that can be said of it where no odometer was ever read.
 * A part that has none since it was fitted has its thickness at fitting.
 */
export function toStandingTracks(lives: readonly Life<object>[], ratioShare: number): PartTracks {
  const present = lives.at(-1)!;
  const latest = present.observations.slice(-1);
  const untouched = present.origin === 'replaced' && latest.length === 0;
  const track = toTrack({ ...present, start: null, startMm: null }, latest, 0);
  return { ratioShare, lives: [untouched ? { ...track, startAt: 0, startMm: present.startMm } : track] };
}

/** The tracks of a part of whose lives some were changed, in what their latest observations are or whether they have it. */
export function withChanged(
  tracks: PartTracks,
  lives: readonly Life<object>[],
  changed: readonly Life<object>[],
): PartTracks {
  const trackOf = ({ observations }: Life<object>, index: number): Track => {
    const before = lives[index]!.observations;
    const track = tracks.lives[index]!;
    return observations === before
      ? track
      : withEnd(track, observations, before.length - observations.length);
  };
  return { ...tracks, lives: changed.map(trackOf) };
}

/** A track without so many readings at its end, the last of those that are left with its thickness of now. */
function withEnd(track: Track, observations: readonly Observation[], fewer: number): Track {
  const { startAt, startMm, at, atSd, gaugeVariance, counts, scatter } = track;
  const left = at.length - fewer;
  const mm = track.mm.slice(0, left);
  if (left > 0) mm[left - 1] = observations.at(-1)!.mm;
  return {
    startAt,
    startMm,
    at: at.subarray(0, left),
    atSd: atSd.subarray(0, left),
    mm,
    gaugeVariance: gaugeVariance.subarray(0, left),
    ...(counts && { counts, scatter }),
  };
}

function toTrack(life: Life<object>, observations: readonly Observation[], at?: number): Track {
  const start = life.start?.place ?? null;
  // What a place is unsure of before the life began moves its start as well, and cancels out.
  const slipKm2 = (start?.sdKm ?? 0) ** 2;
  const track = {
    startAt: start ? start.km / 1000 : null,
    startMm: life.startMm,
    at: new Float64Array(observations.length),
    atSd: new Float64Array(observations.length),
    mm: new Float64Array(observations.length),
    gaugeVariance: new Float64Array(observations.length),
  };
  observations.forEach(({ place, mm, standardUncertaintyMm }, index) => {
    track.at[index] = at ?? place!.km / 1000;
    track.atSd[index] = at === undefined ? Math.sqrt(Math.abs(place!.sdKm ** 2 - slipKm2)) / 1000 : 0;
    track.mm[index] = mm;
    track.gaugeVariance[index] = standardUncertaintyMm ** 2;
  });
  return track;
}
