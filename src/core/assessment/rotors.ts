import { toDay, toFullDate } from '../calendar.js';
import { chanceWithin, type Crossing } from '../forecast/crossing.js';
import { experienceOn } from '../forecast/days.js';
import type { Experience } from '../forecast/experience.js';
import type { NormalMixture } from '../forecast/normal.js';
import { multiplyChanceAbove, partMixture, wearPosterior, type WearPosterior } from '../forecast/wear.js';
import type { History } from '../history.js';
import { rotorLives } from '../lives.js';
import { roundChance, roundForecastMm, roundRate } from '../rounding.js';
import { SIDES, type Axle } from '../vocabulary/terms.js';
import type { Finding } from '../vocabulary/wear.js';
import type { Counterpart } from './counterpart.js';
import { counterpartDates } from './counterpartDates.js';
import { rotorPosition, isJudged, type RotorPosition, type KnownPosition } from './counterpartPosition.js';
import type { RotorRenewal, RotorOutlook, CounterpartDates } from './outlookShape.js';
import type { PadForecast } from './padForecast.js';
import type { AxleContext, PadPosition } from './padPosition.js';
import { NO_ENDS, padSetEnds } from './padSetEnds.js';
import { rangeOf } from './ranges.js';
import { decidingSet, WOULD_NOT_LAST, LIMIT_BEFORE_NEXT_VISIT, decide } from './rotorDecision.js';
import { rotorFindings } from './rotorFindings.js';
import { rotorWear } from './rotorWear.js';
import { toShortTracks } from './tracks.js';

export function rotorsOutlook(
  context: AxleContext,
  axle: Axle,
  fitted: Experience,
  pads: readonly PadPosition[],
  forecast: PadForecast,
): { rotors: RotorOutlook[]; dates: CounterpartDates; findings: Finding[]; renewal: RotorRenewal } {
  const { history, road } = context;
  const experience = experienceOn(road, fitted);
  const known = SIDES.map((side) =>
    rotorPosition(context, rotorLives(history, road, axle, side), axle, side),
  );
  const tracks = known.map(({ lives }) => toShortTracks(lives, 0));
  const posterior = wearPosterior(tracks, experience.rotors, (road.places.at(-1)?.km ?? 0) / 1000);
  const ends = known.some(isJudged) ? padSetEnds(pads, forecast, experience) : NO_ENDS;
  const dates = counterpartDates(known, known.map(isJudged), posterior, context.usage);
  const positions = known.map((position, index) => ({
    ...position,
    beforeNextVisit: beforeNextVisit(context, dates.crossings[index]!),
    outOfDate: outOfDate(position, posterior, index, history),
  }));
  const deciding = decidingSet(context, axle, forecast.crossing);
  const rotors = positions.map((position, index) => {
    const margins = {
      atPadReplacement: marginAfter(position, posterior, index, ends.first),
      afterNextPadSet: marginAfter(position, posterior, index, ends.second),
    };
    const rate = road.isByDistance ? rangeOf(partMixture(posterior, index, 'rate'), roundRate) : null;
    const decided = decide(position, margins, deciding);
    return rotorWear(position, { rate, margins, crossing: dates.crossings[index]! }, decided, history);
  });
  return {
    rotors: judgedTogether(rotors, positions[0]!.counterpart),
    dates,
    findings: rotorFindings(axle, positions, history.gauges),
    renewal: renewalOf(rotors, chanceNotLasting(positions, posterior, ends.second)),
  };
}

function renewalOf(rotors: readonly RotorOutlook[], notLasting: number | null): RotorRenewal {
  const replaced = rotors.filter(({ decision }) => decision === 'replace');
  const why = replaced.map(({ decisionReasons }) => decisionReasons[0]!.code);
  const isDueFirst = replaced.some(({ decisionReasons }) =>
    decisionReasons.some(({ code }) => code === LIMIT_BEFORE_NEXT_VISIT),
  );
  return {
    now: isDueFirst || why.some((code) => code !== WOULD_NOT_LAST),
    withLinings: why.includes(WOULD_NOT_LAST) ? 1 : notLasting,
  };
}

/** Chance that either is worn past its limit before the next set of linings is used up. */
function chanceNotLasting(
  positions: readonly RotorPosition[],
  posterior: WearPosterior,
  ends: readonly number[] | null,
): number | null {
  const judged = positions.flatMap((position, part) =>
    isJudged(position) ? [{ part, discardMm: position.discardMm! }] : [],
  );
  if (!ends || judged.length === 0) return null;
  let lasting = 0;
  for (const ahead of ends) {
    const lastingAt = Float64Array.from(posterior.weights);
    for (const { part, discardMm } of judged) {
      multiplyChanceAbove(posterior, part, discardMm, ahead, lastingAt, 0);
    }
    lasting += lastingAt.reduce((sum, chance) => sum + chance, 0) / ends.length;
  }
  return roundChance(1 - lasting);
}

/** Chance that a rotor passes its discard figure before the next visit. */
function beforeNextVisit(
  { history, daysToNextVisit }: AxleContext,
  crossing: Crossing | null,
): RotorPosition['beforeNextVisit'] {
  if (!crossing) return null;
  const { date } = history.visits.at(-1)!;
  return {
    chance: roundChance(chanceWithin(crossing, daysToNextVisit)),
    date: toFullDate(toDay(date) + daysToNextVisit),
  };
}

/** Days after which a measured margin is out of date (common practice, no source). */
const FRESH_DAYS = 365;

function outOfDate(
  { latest }: KnownPosition,
  posterior: WearPosterior,
  part: number,
  { visits }: History,
): RotorPosition['outOfDate'] {
  if (!latest) return null;
  const visitDate = visits.at(-1)!.date;
  if (toDay(visitDate) - latest.day <= FRESH_DAYS) return null;
  const expected = rangeOf(partMixture(posterior, part, 'thickness'), roundForecastMm);
  return { expectedMm: expected.median, visitDate };
}

/** Distribution of the rotor's margin over discard when the pads are used up. */
function marginAfter(
  position: KnownPosition,
  posterior: WearPosterior,
  part: number,
  ends: number[] | null,
): NormalMixture | null {
  if (!ends || !isJudged(position)) return null;
  const margin = partMixture(posterior, part, 'thickness', ends);
  margin.means.forEach((mm, index) => (margin.means[index] = mm - position.discardMm!));
  return margin;
}

/** Rotors and drums are replaced in pairs: if one must go, so must the other. */
function judgedTogether(rotors: RotorOutlook[], { part }: Counterpart): RotorOutlook[] {
  const goes = rotors.find((rotor) => rotor.decision === 'replace');
  if (!goes) return rotors;
  const detail = `the ${goes.side} ${part} must be replaced, and both ${part}s of an axle are replaced together`;
  return rotors.map((rotor) =>
    rotor.decision === 'replace'
      ? rotor
      : {
          ...rotor,
          decision: 'replace',
          decisionReasons: [{ code: 'pair', detail }, ...rotor.decisionReasons],
        },
  );
}
