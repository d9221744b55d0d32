import { itemAt } from '../items.js';
import {
  crossingDays,
  crossingDistance,
  isSooner,
  survival,
  type Crossing,
  type LimitedPart,
  type Survival,
} from '../forecast/crossing.js';
import { experienceOn } from '../forecast/days.js';
import type { Experience } from '../forecast/experience.js';
import type { AskableForecast } from '../forecast/leftover.js';
import { link } from '../forecast/link.js';
import type { UsagePosterior } from '../forecast/usagePosterior.js';
import { chanceUnder, posteriorOf } from '../forecast/wear.js';
import type { Axle } from '../vocabulary/terms.js';
import { chanceAbove } from './conformity.js';
import { followPads, foretellByOthers, tracksOf, type FollowedPads } from './foretold.js';
import { covers } from './linings.js';
import { padPosition, type PadPosition, type LiningContext } from './padPosition.js';
import { isSameLining, livedLinings } from './sameDay.js';
import { withChanged } from './tracks.js';

/** Quantiles of a forecast. */
export const POINTS: readonly number[] = [0.1, 0.25, 0.5, 0.75, 0.9];

/** The forecast of an axle's pads; `known` holds the indexes in `pads` of the positions whose thickness is known. */
export interface PadForecast extends AskableForecast {
  known: number[];
  table: Survival | null;
  crossing: Crossing | null;
  /** Distances at {@link POINTS}, 1000 km; 0 if the limit has been reached already, null beyond the table. */
  distances: (number | null)[];
}

/** The linings of an axle, and their forecast at the latest visit. */
export function forecastOfPads(
  context: LiningContext,
  axle: Axle,
  known: Experience,
): { pads: PadPosition[]; followed: FollowedPads; forecast: PadForecast } {
  const { history, road, usage } = context;
  const experience = experienceOn(road, known);
  const placementSdMm = placementOf(experience);
  const pads = livedLinings(history, road, axle).map((lining) =>
    padPosition(context, axle, lining, placementSdMm),
  );
  const followed = followPads(history, road, pads, experience);
  return { pads, followed, forecast: cautiousForecast(followed, pads, experience, usage) };
}

/** The learned standard deviation of the gauge's placement on a lining, mm. */
const placementOf = ({ pads }: Experience): number =>
  pads.reduce((sum, { weight, parameters }) => sum + weight * parameters.placementSd, 0);

/**
 * Whether a part's thickness is known: it was measured, or fitted new in the workshop at a known thickness. False if
 * only the thinnest of its wheel or axle was measured, which then counts instead.
 */
function isKnown(position: PadPosition, pads: readonly PadPosition[], axleSeen: boolean): boolean {
  const { present } = position;
  if (present.observations.length > 0) return true;
  if (present.startMm === null || isCovered(position, pads)) return false;
  return present.origin === 'replaced' || (axleSeen && present.start?.place != null);
}

/** The day on which a lining was last measured since it was fitted; empty if it never was. */
const lastRead = ({ present }: PadPosition): string => present.observations.at(-1)?.visit.date ?? '';

/**
 * Whether other readings replace a lining's own: later readings of the thinnest of its wheel or axle; or, for the
 * thinnest itself, readings of its candidate linings on the same day or later. Counting both would count one lining
 * twice.
 */
function isSuperseded(position: PadPosition, pads: readonly PadPosition[]): boolean {
  if (isSameLining(position.sameDay) && !isFailing(position)) return true;
  const own = lastRead(position);
  if (pads.some((other) => covers(other, position) && lastRead(other) > own)) return true;
  const covered = pads.filter((other) => covers(position, other));
  const named = covered.filter(({ pad }) => pad !== 'thinnest');
  const its = named.length > 0 ? named : covered;
  return its.length > 0 && its.every((other) => lastRead(other) > own);
}

/** Whether the thinnest of a lining's wheel or axle was measured since it was fitted. */
export const isCovered = (position: PadPosition, pads: readonly PadPosition[]): boolean =>
  pads.some((other) => covers(other, position) && other.present.observations.length > 0);

/**
 * Standard deviations below the prediction around which a thin reading shortens the forecast the most; the forecast
 * increasingly doubts thinner ones.
 */
const DOUBTED_SDS = [1, 1.6, 2.2];

/**
 * Makes sure that a thinner reading never gives a later date. A reading far below its prediction may be a mistake and
 * gets less weight; but its date must not be later than that of a reading just credible enough to count.
 */
function cautiousForecast(
  followed: FollowedPads,
  pads: readonly PadPosition[],
  experience: Experience,
  usage: UsagePosterior,
): PadForecast {
  let forecast = forecastPads(followed, pads, experience, usage)!;
  if (!forecast.crossing) return forecast;
  const foretold = foretellByOthers(followed, pads);
  for (const sds of DOUBTED_SDS) {
    const believed = pads.map((position, part) => {
      const each = foretold[part];
      return each ? withLatestFrom(position, each.mean - sds * each.spread) : position;
    });
    if (believed.every((position, part) => position === pads[part])) continue;
    const other = forecastPads(followed, believed, experience, usage, forecast);
    if (!other?.crossing || !forecast.crossing) continue;
    const distances = forecast.distances.map((distance, index) =>
      earlier(distance, itemAt(other.distances, index)),
    );
    forecast = { ...forecast, crossing: earlierOf(forecast.crossing, other.crossing), distances };
  }
  return forecast;
}

/** The position with its latest reading raised to a thickness, if it is thinner. */
function withLatestFrom(position: PadPosition, mm: number): PadPosition {
  const { lives, latest } = position;
  if (!latest || latest.mm >= mm) return position;
  const present = itemAt(lives, -1);
  const observations = present.observations.map((observation) =>
    observation.visit.id === latest.visit.id
      ? { ...observation, mm: Math.max(mm, observation.mm) }
      : observation,
  );
  const changed = [...lives.slice(0, -1), { ...present, observations }];
  return { ...position, lives: changed, tracks: withChanged(position.tracks, lives, changed) };
}

const earlier = (a: number | null, b: number | null): number | null =>
  a === null || b === null ? (a ?? b) : Math.min(a, b);

function earlierOf(a: Crossing, b: Crossing): Crossing {
  return {
    already: Math.max(a.already, b.already),
    days: a.days.map((days, index) => earlier(days, itemAt(b.days, index))),
  };
}

/**
 * @param pads the filtered pads, with their latest readings possibly replaced
 * @param doubted if given, the result is null unless one of its dates is sooner than this forecast's
 */
function forecastPads(
  { followed, now }: FollowedPads,
  pads: readonly PadPosition[],
  experience: Experience,
  vehicleUsage: UsagePosterior,
  doubted: PadForecast | null = null,
): PadForecast | null {
  const axleSeen = pads.some(({ lives }) => lives.some((life) => life.observations.length > 0));
  const { posterior, usage, ratesByPace } = link(
    posteriorOf(followed, tracksOf(pads), now),
    vehicleUsage,
    experience,
  );
  const known = pads.flatMap((position, index) => (isKnown(position, pads, axleSeen) ? [index] : []));
  const limited = known.flatMap((part): LimitedPart[] => {
    const position = itemAt(pads, part);
    const limit = position.governing;
    return limit && !isSuperseded(position, pads) ? [{ part, limitMm: limit.limitMm }] : [];
  });
  const askable = { posterior, limited, usage, ratesByPace };
  if (limited.length === 0)
    return { ...askable, known, table: null, crossing: null, distances: POINTS.map(() => null) };
  if (doubted?.table && !isSooner(posterior, limited, doubted.table)) return null;
  const table = survival(posterior, limited, undefined, ratesByPace);
  const failed = Math.max(0, ...pads.map(chanceFailed));
  const crossing = crossingDays(table, usage, failed);
  const distances = POINTS.map((probability) =>
    failed >= probability ? 0 : crossingDistance(table, probability),
  );
  return { ...askable, known, table, crossing, distances };
}

/**
 * A failing reading counts until a later one overrules it, however unlikely it is given the history: a false alarm
 * costs another measurement, a missed failure may hurt someone.
 */
function chanceFailed(position: PadPosition): number {
  const { latest, governing } = position;
  if (!latest || !governing || !isFailing(position)) return 0;
  return Math.max(0.5, 1 - chanceAbove(latest.mm, governing.limitMm, latest.standardUncertaintyMm));
}

const isFailing = ({ governing, standing }: PadPosition): boolean =>
  governing?.fails === true || standing !== null;

/** The pad most likely to reach its limit first: the one with the highest chance at the median distance. */
export function governingPad(
  pads: readonly PadPosition[],
  { posterior, limited, table }: PadForecast,
): PadPosition | null {
  if (!table) return null;
  const ahead = crossingDistance(table, 0.5) ?? 0;
  let best: PadPosition | null = null;
  let bestChance = -1;
  for (const { part, limitMm } of limited) {
    const position = itemAt(pads, part);
    const reached = chanceUnder(posterior, part, limitMm, ahead) + Number(position.governing?.fails === true);
    if (reached > bestChance + 1e-9) {
      best = position;
      bestChance = reached;
    }
  }
  return best;
}
