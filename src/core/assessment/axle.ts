import { toFullDate } from '../calendar.js';
import {
  crossingDays,
  crossingDistance,
  daysAt,
  isSooner,
  survival,
  type Crossing,
  type LimitedPart,
  type Survival,
} from '../forecast/crossing.js';
import { experienceOn } from '../forecast/days.js';
import type { Experience } from '../forecast/experience.js';
import type { AskableForecast } from '../forecast/leftover.js';
import { mixtureQuantiles, type NormalMixture } from '../forecast/normal.js';
import { link } from '../forecast/link.js';
import type { UsagePosterior } from '../forecast/usage.js';
import { chanceOf, chanceUnder, partMixture, posteriorOf, type PartTracks } from '../forecast/wear.js';
import type { History } from '../history.js';
import { isDrumBrake, padLives, type Life, type Observation } from '../lives.js';
import type { Road } from '../odometer.js';
import { roundForecastMm, roundKm, roundRate } from '../rounding.js';
import { toMm } from '../units.js';
import type { Range, Reason } from '../vocabulary/quantities.js';
import { SIDES, type Axle, type LiningPosition, type PadSet, type Side } from '../vocabulary/terms.js';
import type { PadSpec } from '../vocabulary/vehicle.js';
import type { Basis, DistanceInterval, Limit, PadWear } from '../vocabulary/wear.js';
import { capital, countInWords } from '../words.js';
import { slidesOf } from './calendarFindings.js';
import { chanceAbove } from './conformity.js';
import { byWeight, padFindings } from './findings.js';
import { followPads, foretellByOthers, foretellLatest, tracksOf, type FollowedPads } from './foretold.js';
import { liningsOf } from './linings.js';
import { padLimits, type ShopMinimum } from './limits.js';
import type { AxleOutlook } from './outlook.js';
import { partFindings } from './partFindings.js';
import { beyondThirtyYears, neverMeasured, noOdometer, noPadLimit } from './reasons.js';
import { drumWear, rotorsOutlook } from './rotors.js';
import type { RuleSet } from './ruleSets.js';
import { setFindings } from './setFindings.js';
import { standingFailure, type StandingFailure } from './standing.js';
import { shortLiningTracks, withChanged } from './tracks.js';
import { axleFacts } from './whichRules.js';

export interface AxleContext {
  history: History;
  road: Road;
  usage: UsagePosterior;
  daysToNextVisit: number;
  /** The rule sets and the least thickness of pads that the shop's owner picked. */
  ruleSets: readonly RuleSet[];
  padMinimum: ShopMinimum | null;
}

/** One pad position with all that the assessment needs of it. */
export interface PadPosition {
  side: Side;
  pad: LiningPosition;
  lives: Life<PadSpec>[];
  /** The lives as the filter takes them. */
  tracks: PartTracks;
  present: Life<PadSpec>;
  latest: Observation | null;
  limits: Limit[];
  /** What was not known when the limits were found. */
  limitReasons: Reason[];
  governing: Limit | null;
  /** A failing reading that no later one has overruled, where the latest does not fail itself. */
  standing: StandingFailure | null;
}

/** The points of a forecast's interval. */
export const POINTS: readonly number[] = [0.1, 0.25, 0.5, 0.75, 0.9];
/** Those of a {@link Range}. */
const RANGE_POINTS = [0.1, 0.5, 0.9] as const;

/** The forecast of an axle's pads; `known` are the positions whose thickness is known at all, as indexes of `pads`. */
export interface PadForecast extends AskableForecast {
  known: number[];
  table: Survival | null;
  crossing: Crossing | null;
  /** Distances at {@link POINTS}, 1000 km; 0 where the limit has been reached already, null beyond the table. */
  distances: (number | null)[];
}

export function axleOutlook(context: AxleContext, axle: Axle, experience: Experience): AxleOutlook {
  const { history, road } = context;
  const drum = isDrumBrake(history, axle);
  const { pads, followed, forecast } = forecastOfPads(context, axle, experience);
  const { isByDistance } = road;
  const governing = governingPad(pads, forecast);
  // A set that is not what the records say was not foretold either.
  const isDoubted =
    chanceOf(forecast.posterior, ({ unseen, otherNew }) => unseen !== null || otherNew) >= 0.5;
  const foretold = isDoubted ? pads.map(() => null) : foretellLatest(followed, pads);
  const { rotors, dates, findings, renewal } = rotorsOutlook(context, axle, experience, pads, forecast);
  return {
    axle,
    pads: pads.map((position, index) => padWear(position, forecast, index, isByDistance)),
    replacement: {
      governingPad: governing && { side: governing.side, pad: governing.pad },
      limitMm: governing?.governing?.limitMm ?? null,
      distanceKm: distancesOf(forecast, isByDistance),
      basis: basisOf(pads, forecast, experience, drum ? 'shoes' : 'pads'),
      reasons: missingReasons(pads, forecast, governing, isByDistance),
    },
    limitSource: governing?.governing?.source ?? null,
    crossing: forecast.crossing,
    failing: pads.some(({ governing: limit, standing }) => limit?.fails === true || standing !== null),
    lastReadingDate: lastReadingDate(pads),
    rotors: drum ? [] : rotors,
    drums: drum ? rotors.map(drumWear) : [],
    counterparts: dates,
    rotorRenewal: renewal,
    findings: byWeight([
      ...padFindings(axle, pads, foretold, history),
      ...setFindings(axle, pads, forecast.posterior, foretold, context),
      ...findings,
      ...partFindings(history, axle, pads, context.ruleSets),
    ]),
    slides: slidesOf(history, axle),
  };
}

/** What the linings of an axle are forecast from. */
export type LiningContext = Pick<AxleContext, 'history' | 'road' | 'usage' | 'ruleSets' | 'padMinimum'>;

/** The linings of an axle, and what is forecast of them at the latest visit. */
export function forecastOfPads(
  context: LiningContext,
  axle: Axle,
  known: Experience,
): { pads: PadPosition[]; followed: FollowedPads; forecast: PadForecast } {
  const { history, road, usage } = context;
  const experience = experienceOn(road, known);
  const positions = liningsOf(history, axle);
  const placementSdMm = placementOf(experience);
  const pads = sidesOf(history, axle).flatMap((side) =>
    positions.map((pad) => padPosition(context, axle, side, pad, placementSdMm)),
  );
  const followed = followPads(history, road, pads, experience);
  return { pads, followed, forecast: cautiousForecast(followed, pads, experience, usage) };
}

/** Visits at which one side alone was measured from which on the axle is taken to have a brake on that side alone. */
const VISITS_OF_ONE_SIDE = 2;

/** The sides of an axle that have a brake: one alone where nobody ever measured, or worked on, the other. */
function sidesOf({ visits }: History, axle: Axle): readonly Side[] {
  const measured = visits.map(({ readings, conditions, work }) =>
    SIDES.filter((side) =>
      [...readings, ...conditions, ...work].some(
        (item) => item.axle === axle && (item.side ?? side) === side,
      ),
    ),
  );
  const seen = measured.filter((sides) => sides.length > 0);
  const only = SIDES.find((side) => seen.every((sides) => sides.length === 1 && sides[0] === side));
  return only && seen.length >= VISITS_OF_ONE_SIDE ? [only] : SIDES;
}

/** What the experience has learned of where the gauge is put on a lining, mm. */
const placementOf = ({ pads }: Experience): number =>
  pads.reduce((sum, { weight, parameters }) => sum + weight * parameters.placementSd, 0);

function padPosition(
  context: LiningContext,
  axle: Axle,
  side: Side,
  pad: LiningPosition,
  placementSdMm: number,
): PadPosition {
  const { history, road, ruleSets, padMinimum } = context;
  const lives = padLives(history, road, axle, side, pad);
  const present = lives.at(-1)!;
  const latest = present.observations.at(-1) ?? null;
  const facts = axleFacts(history.vehicle, axle);
  const drum = isDrumBrake(history, axle);
  const { limits, reasons } = padLimits(present.spec, latest, {
    part: drum ? 'shoe' : 'pad',
    facts,
    ruleSets,
    placementSdMm,
    // The shop's own figure is for pads; shoes are thinner from new.
    shopMinimum: drum ? null : padMinimum,
  });
  return {
    side,
    pad,
    lives,
    tracks: shortLiningTracks(lives, pad, side, axle, history, road),
    present,
    latest,
    limits,
    limitReasons: reasons,
    governing: limits[0] ?? null,
    standing: limits[0]
      ? standingFailure(present.observations, {
          bound: limits[0],
          placementSdMm,
          newMm: present.spec.new ? toMm(present.spec.new) : null,
        })
      : null,
  };
}

/** Whether a part's thickness is known at all: it was measured, or fitted new in the workshop at a known thickness. */
function isKnown({ present }: { present: Life<object> }, axleSeen: boolean): boolean {
  if (present.observations.length > 0) return true;
  if (present.startMm === null) return false;
  return present.origin === 'replaced' || (axleSeen && present.start?.place != null);
}

/** Where a thin reading pulls the dates most before it is doubted, in standard deviations below what was foretold. */
const DOUBTED_SDS = [1, 1.6, 2.2];

/**
 * The forecast, never later than with less doubt: a reading far too thin may be a mistake, and weighs less for it,
 * but its doubt must not bring a later date than a reading only just worth believing would have.
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
    const believable = foretold.map((each) => (each ? each.mean - sds * each.spread : -Infinity));
    const isBelow = ({ latest }: PadPosition, part: number): boolean =>
      (latest?.mm ?? Infinity) < believable[part]!;
    if (!pads.some(isBelow)) continue;
    const believed = pads.map((position, part) =>
      isBelow(position, part) ? withLatest(position, believable[part]!) : position,
    );
    const other = forecastPads(followed, believed, experience, usage, forecast);
    if (!other) continue;
    const distances = forecast.distances.map((distance, index) => earlier(distance, other.distances[index]!));
    forecast = { ...forecast, crossing: earlierOf(forecast.crossing!, other.crossing!), distances };
  }
  return forecast;
}

/** The position with its latest reading read as another thickness. */
function withLatest(position: PadPosition, mm: number): PadPosition {
  const { lives, present, latest } = position;
  const observations = present.observations.map((observation) =>
    observation.visit.id === latest!.visit.id
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
    days: a.days.map((days, index) => earlier(days, b.days[index]!)),
  };
}

/**
 * @param pads as they were followed, save for what their latest readings are taken for
 * @param doubted where given, null is returned unless some date is sooner than there
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
  const known = pads.flatMap((position, index) => (isKnown(position, axleSeen) ? [index] : []));
  const limited = known.flatMap((part): LimitedPart[] => {
    const limit = pads[part]!.governing;
    return limit ? [{ part, limitMm: limit.limitMm }] : [];
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
 * A latest reading that fails its limit counts as it stands until another says otherwise, however little the
 * history supports it: a wrong alarm costs another look, a missed one may hurt.
 */
function chanceFailed({ latest, governing, standing }: PadPosition): number {
  if (!latest || !governing || (governing.fails !== true && !standing)) return 0;
  return Math.max(0.5, 1 - chanceAbove(latest.mm, governing.limitMm, latest.standardUncertaintyMm));
}

/** The pad most likely to be the first: the one with the greatest chance of being through by the median distance. */
function governingPad(
  pads: readonly PadPosition[],
  { posterior, known, table }: PadForecast,
): PadPosition | null {
  if (!table) return null;
  const ahead = crossingDistance(table, 0.5) ?? 0;
  let best: PadPosition | null = null;
  let bestChance = -1;
  for (const part of known) {
    const position = pads[part]!;
    if (!position.governing) continue;
    const { limitMm, fails } = position.governing;
    const reached = chanceUnder(posterior, part, limitMm, ahead) + Number(fails === true);
    if (reached > bestChance + 1e-9) {
      best = position;
      bestChance = reached;
    }
  }
  return best;
}

export function rangeOf(mixture: NormalMixture, convert: (value: number) => number): Range {
  const [low, median, high] = mixtureQuantiles(mixture, RANGE_POINTS).map(convert);
  return { low: low!, median: median!, high: high! };
}

function padWear(
  position: PadPosition,
  { posterior, known }: PadForecast,
  index: number,
  distanceKnown: boolean,
): PadWear {
  const { side, pad, present, latest, limits, limitReasons, governing } = position;
  const reasons: Reason[] = [...limitReasons];
  if (!latest) {
    reasons.push({
      field: 'latest',
      code: 'no-readings',
      detail: 'not measured since it was fitted or first known',
    });
  }
  if (!present.start) {
    const detail =
      'neither a replacement nor the in-service date is known; this life is taken from its first reading';
    reasons.push({ field: 'fitted', code: 'fitting-unknown', detail });
  }
  if (present.start && present.start.odometerKm === null) reasons.push(noOdometer('fitted.odometerKm'));
  if (!distanceKnown) reasons.push(noOdometer('ratePer1000KmMm'));
  if (!governing) {
    reasons.push(noPadLimit('remainingMm'));
  } else if (!known.includes(index)) {
    reasons.push({
      field: 'remainingMm',
      code: 'no-readings',
      detail: 'neither measured nor fitted at a known thickness',
    });
  }
  const thickness = latest && governing?.fails ? asRead(latest) : partMixture(posterior, index, 'thickness');
  const remaining = governing && known.includes(index) ? thickness : null;
  return {
    side,
    pad,
    readings: present.observations.length,
    fitted: present.start && { date: toFullDate(present.start.day), odometerKm: present.start.odometerKm },
    latest: latest && { valueMm: latest.mm, date: latest.visit.date },
    ratePer1000KmMm: distanceKnown ? rangeOf(partMixture(posterior, index, 'rate'), roundRate) : null,
    remainingMm: remaining && rangeOf(remaining, (mm) => roundForecastMm(mm - governing!.limitMm)),
    limits,
    reasons,
  };
}

/** A failing reading's thickness, taken as it stands. */
function asRead({ mm, standardUncertaintyMm }: Observation): NormalMixture {
  return {
    weights: Float64Array.of(1),
    means: Float64Array.of(mm),
    sds: Float64Array.of(standardUncertaintyMm),
  };
}

function distancesOf({ table, distances }: PadForecast, distanceKnown: boolean): DistanceInterval | null {
  if (!table) return null;
  const [early, lowerQuartile, median, upperQuartile, late] = distances.map((distance) =>
    distance === null || (!distanceKnown && distance > 0) ? null : roundKm(distance * 1000),
  );
  return {
    early: early!,
    lowerQuartile: lowerQuartile!,
    median: median!,
    upperQuartile: upperQuartile!,
    late: late!,
  };
}

function basisOf(
  pads: readonly PadPosition[],
  forecast: PadForecast,
  experience: Experience,
  linings: 'pads' | 'shoes',
): Basis {
  const readings = pads.reduce((sum, { present }) => sum + present.observations.length, 0);
  const all = pads.reduce(
    (sum, { lives }) => sum + lives.reduce((count, life) => count + life.observations.length, 0),
    0,
  );
  const set = padSetOf(pads, forecast);
  const before = all > readings ? `, ${countOf(all - readings)} of earlier ${linings}` : '';
  return {
    readings,
    experience: experience.name,
    set,
    words: `${capital(countOf(readings))} ${sinceWhen(set, linings)}${before}, and ${experience.words}.`,
  };
}

function sinceWhen(set: PadSet, linings: string): string {
  if (set === 'recorded') return `since these ${linings} were fitted`;
  if (set === 'original') return `of the ${linings} that the vehicle came with`;
  if (set === 'perhaps-replaced') return `of ${linings} that were probably replaced without a record since`;
  return `of these ${linings}, whose fitting is not known`;
}

/** A pad of a disc brake, a shoe of a drum brake. */
const partName = (pad: LiningPosition): string => (pad === 'inner' || pad === 'outer' ? 'pad' : 'shoe');

const countOf = (readings: number): string =>
  readings === 0 ? 'no readings' : countInWords(readings, 'reading');

/** The linings are taken for the vehicle's first from this chance on. */
const SURELY_ORIGINAL = 0.9;

/** What is known of the linings now fitted, by the record and by what the readings make of it. */
export function padSetOf(pads: readonly PadPosition[], { posterior }: PadForecast): PadSet {
  if (chanceOf(posterior, ({ unseen }) => unseen !== null) >= 0.5) return 'perhaps-replaced';
  if (pads.every(({ present }) => present.origin === 'replaced')) return 'recorded';
  const original = chanceOf(posterior, ({ sets }) =>
    sets.every((set) => set === 'original' || set === 'recorded'),
  );
  const isFromService = pads.every(({ present }) => present.origin !== 'first-reading');
  return isFromService && original >= SURELY_ORIGINAL ? 'original' : 'unknown';
}

function missingReasons(
  pads: readonly PadPosition[],
  { known, table, crossing }: PadForecast,
  governing: PadPosition | null,
  distanceKnown: boolean,
): Reason[] {
  if (known.length === 0) return [neverMeasured];
  if (!table || !crossing) return [noPadLimit('date')];
  const reasons: Reason[] = [];
  if (!distanceKnown) reasons.push(noOdometer('distanceKm'));
  if (daysAt(crossing, 0.9) === null) reasons.push(beyondThirtyYears);
  if (governing && !governing.latest) {
    const words = `${governing.side} ${governing.pad} was never measured; it is assumed to wear like the others`;
    reasons.push({ field: 'governingPad', code: 'governing-pad-not-measured', detail: words });
  }
  if (daysAt(crossing, 0.5) === 0 && !pads.some(({ governing: limit }) => limit?.fails)) {
    const detail = `one of the ${countInWords(known.length, partName(pads[0]!.pad))} has probably reached its limit, though none was measured at or under it: measure again`;
    reasons.push({ field: 'overdue', code: 'limit-probably-reached', detail });
  }
  const unlimited = known.filter((part) => !pads[part]!.governing).length;
  if (unlimited > 0)
    reasons.push({
      field: 'limitMm',
      code: 'no-limit',
      detail: `${countInWords(unlimited, partName(pads[0]!.pad))} without a known limit left out`,
    });
  return reasons;
}

function lastReadingDate(pads: readonly PadPosition[]): string | null {
  const dates = pads.flatMap(({ lives }) =>
    lives.flatMap((life) => life.observations.slice(-1).map(({ visit }) => visit.date)),
  );
  return dates.length > 0 ? dates.sort().at(-1)! : null;
}
