import { condensed } from '../forecast/condense.js';
import { zeros } from '../forecast/floats.js';
import type { PartTracks, SetFacts, Track } from '../forecast/wear.js';
import type { History } from '../history.js';
import { COUNTERPART_HABITS, LINING_HABITS } from '../forecast/renewal.js';
import { itemAt } from '../items.js';
import type { CounterpartSpec, Life, Observation, Wears } from '../lives.js';
import type { Road } from '../odometer.js';
import { toMm } from '../units.js';
import { SIDES, type Axle, type LiningPosition, type WorkKind, type Side } from '../vocabulary/terms.js';
import type { PadSpec } from '../vocabulary/vehicle.js';
import { ownLimit } from './limits.js';
import type { LiningAt } from './linings.js';

/**
 * The group's inner-outer ratio speeds up inner pads and leading shoes and slows down the others, or the reverse. The
 * thinnest may be either.
 */
export function ratioShareOf(pad: LiningPosition): number {
  if (pad === 'thinnest') return 0;
  return pad === 'outer' || pad === 'trailing' ? -0.5 : 0.5;
}

/** Work that frees a dragging part. */
const FREEING: ReadonlySet<WorkKind> = new Set(['slides-serviced', 'caliper-replaced']);

/**
 * Converts the lives of a lining to the filter's form, with what it needs to tell whether another set than the recorded
 * one is fitted, and whether work freed a dragging part.
 */
export function liningTracks(
  lives: readonly Life<PadSpec>[],
  { side, pad }: LiningAt,
  axle: Axle,
  { visits }: History,
  { places, perhapsInMiles }: Road,
): PartTracks {
  const freedAt = visits.flatMap(({ work }, index) => {
    const place = places[index];
    const isFreed = work.some(
      (item) => FREEING.has(item.kind) && item.axle === axle && (item.side == null || item.side === side),
    );
    return isFreed && place ? [place.km / 1000] : [];
  });
  return {
    ratioShare: ratioShareOf(pad),
    ...(side !== null && { wheel: SIDES.indexOf(side) }),
    freedAt,
    distanceDoubted: perhapsInMiles !== null,
    lives: lives.map((life) => ({ ...toTrack(life, life.observations), ...liningSetOf(life) })),
  };
}

/**
 * Assumed limit of a lining without its own, mm; the service assumes that linings are replaced above it (common
 * practice, no source).
 */
const USUAL_LIMIT_MM = 2;

function liningSetOf(life: Life<PadSpec>): { set?: SetFacts } {
  const { spec } = life;
  if (!spec.new) return {};
  return {
    set: {
      ...fittingOf(life),
      newMm: toMm(spec.new),
      limitMm: ownLimit(spec)?.limitMm ?? USUAL_LIMIT_MM,
      habits: LINING_HABITS,
    },
  };
}

/** Assumed usable wear of a rotor or drum without its own limit, mm (common practice, no source). */
const USUAL_COUNTERPART_MM = 2;

/** Assumes nothing about a machined part, whose record begins with a reading, not with a new part. */
function counterpartSetOf(life: Life<CounterpartSpec>, wears: Wears): { set?: SetFacts } {
  const { origin, spec } = life;
  if (!spec.new || origin === 'machined') return {};
  const newMm = inFilter(wears, toMm(spec.new));
  const limitMm = spec.limit ? inFilter(wears, toMm(spec.limit)) : newMm - USUAL_COUNTERPART_MM;
  return { set: { ...fittingOf(life), newMm, limitMm, habits: COUNTERPART_HABITS } };
}

/** What is known about the fitting of a life's part. */
function fittingOf({ origin, start, startMm }: Life<object>): Pick<SetFacts, 'origin' | 'startAtSd'> {
  const isRecorded =
    origin === 'replaced' || (origin === 'in-service' && start?.place != null && startMm !== null);
  return {
    origin: !isRecorded ? 'unknown' : origin === 'replaced' ? 'recorded' : 'in-service',
    startAtSd: (start?.place?.sdKm ?? 0) / 1000,
  };
}

/**
 * Converts a thickness or diameter to the filter's terms, and back. The filter models a thickness that shrinks with
 * wear and uses only differences, so the negative diameter of a drum serves as the thickness of its wall.
 */
export const inFilter = (wears: Wears, mm: number): number => (wears === 'thinner' ? mm : -mm);

/** Converts the lives of a rotor or drum to the filter's form. */
export function counterpartTracks(
  lives: readonly Life<CounterpartSpec>[],
  side: Side,
  wears: Wears,
  { perhapsInMiles }: Road,
): PartTracks {
  return {
    ratioShare: 0,
    wheel: SIDES.indexOf(side),
    distanceDoubted: perhapsInMiles !== null,
    lives: lives.map((life) => ({
      ...toTrack(life, life.observations, wears),
      ...counterpartSetOf(life, wears),
    })),
  };
}

/** {@link counterpartTracks} for a forecast, with long lives shortened. */
export const shortCounterpartTracks = (...of: Parameters<typeof counterpartTracks>): PartTracks =>
  condensed(counterpartTracks(...of));

/** {@link liningTracks} for a forecast, with long lives shortened. */
export const shortLiningTracks = (...of: Parameters<typeof liningTracks>): PartTracks =>
  condensed(liningTracks(...of));

/** A part's tracks with changed or fewer observations at the end of its lives. */
export function withChanged(
  tracks: PartTracks,
  lives: readonly Life<object>[],
  changed: readonly Life<object>[],
): PartTracks {
  const trackOf = ({ observations }: Life<object>, index: number): Track => {
    const before = itemAt(lives, index).observations;
    const track = itemAt(tracks.lives, index);
    return observations === before
      ? track
      : withEnd(track, observations, before.length - observations.length);
  };
  return { ...tracks, lives: changed.map(trackOf) };
}

/** Drops a number of readings from the end of a track; the last one left gets the last observation's thickness. */
function withEnd(track: Track, observations: readonly Observation[], dropped: number): Track {
  const { startAt, startMm, set, at, atSd, gaugeVariance, counts, scatter } = track;
  const left = at.length - dropped;
  const mm = track.mm.slice(0, left);
  if (left > 0) mm[left - 1] = itemAt(observations, -1).mm;
  return {
    startAt,
    startMm,
    ...(set && { set }),
    at: at.subarray(0, left),
    atSd: atSd.subarray(0, left),
    mm,
    gaugeVariance: gaugeVariance.subarray(0, left),
    ...(counts && { counts, scatter }),
  };
}

function toTrack(life: Life<object>, observations: readonly Observation[], wears: Wears = 'thinner'): Track {
  const start = life.start?.place ?? null;
  // The uncertainty of the position before the life began shifts the life's start as well, so it cancels out.
  const slipKm2 = (start?.sdKm ?? 0) ** 2;
  const track = {
    startAt: start ? start.km / 1000 : null,
    startMm: life.startMm === null ? null : inFilter(wears, life.startMm),
    at: zeros(observations.length),
    atSd: zeros(observations.length),
    mm: zeros(observations.length),
    gaugeVariance: zeros(observations.length),
  };
  observations.forEach(({ place, mm, standardUncertaintyMm }, index) => {
    track.at[index] = place!.km / 1000;
    track.atSd[index] = Math.sqrt(Math.max(0, place!.sdKm ** 2 - slipKm2)) / 1000;
    track.mm[index] = inFilter(wears, mm);
    track.gaugeVariance[index] = standardUncertaintyMm ** 2;
  });
  return track;
}
