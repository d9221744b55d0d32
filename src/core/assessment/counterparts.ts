import { toDay, toFullDate } from '../calendar.js';
import { chanceWithin, type Crossing } from '../forecast/crossing.js';
import { experienceOn } from '../forecast/days.js';
import type { Experience } from '../forecast/experience.js';
import { chanceBelow, type NormalMixture } from '../forecast/normal.js';
import { multiplyChanceAbove, partMixture, wearPosterior, type WearPosterior } from '../forecast/wear.js';
import type { History } from '../history.js';
import { itemAt } from '../items.js';
import { counterpartLives, isDrumBrake, leftUntil } from '../lives.js';
import { COUNTERPART_PLACEMENT_SD_MM } from '../placement.js';
import { roundChance, roundForecastMm, roundRate } from '../rounding.js';
import { SIDES, type Axle } from '../vocabulary/terms.js';
import type { Finding } from '../vocabulary/wear.js';
import { DRUM, ROTOR, type Counterpart } from './counterpart.js';
import { counterpartDates } from './counterpartDates.js';
import {
  counterpartPosition,
  isJudged,
  type CounterpartPosition,
  type KnownPosition,
} from './counterpartPosition.js';
import type { RotorRenewal, CounterpartDates } from './outlookShape.js';
import type { PadForecast } from './padForecast.js';
import type { AxleContext, PadPosition } from './padPosition.js';
import { NO_ENDS, padSetEnds } from './padSetEnds.js';
import { rangeOf } from './ranges.js';
import { decidingSet, WOULD_NOT_LAST, LIMIT_BEFORE_NEXT_VISIT, decide } from './counterpartDecision.js';
import { counterpartFindings, setsInDoubt } from './counterpartFindings.js';
import { counterpartWear, type CounterpartWear } from './counterpartWear.js';
import { otherNewOf, unseenReplacement } from './setFindings.js';
import { inFilter, shortCounterpartTracks } from './tracks.js';

export function counterpartsOutlook(
  context: AxleContext,
  axle: Axle,
  fitted: Experience,
  pads: readonly PadPosition[],
  forecast: PadForecast,
): { wear: CounterpartWear[]; dates: CounterpartDates; findings: Finding[]; renewal: RotorRenewal } {
  const { history, road } = context;
  const { wears } = isDrumBrake(history, axle) ? DRUM : ROTOR;
  const experience = experienceOn(road, fitted);
  const known = SIDES.map((side) =>
    counterpartPosition(context, counterpartLives(history, road, axle, side), axle, side),
  );
  const tracks = known.map(({ lives, side }) => shortCounterpartTracks(lives, side, wears, road));
  const posterior = wearPosterior(tracks, experience.rotors, (road.places.at(-1)?.km ?? 0) / 1000);
  const ends = known.some(isJudged) ? padSetEnds(pads, forecast, experience) : NO_ENDS;
  const dates = counterpartDates(known, known.map(isJudged), posterior, context.usage);
  const unseen = unseenReplacement(known, posterior, history, road);
  const positions = known.map((position, index) => ({
    ...position,
    replacedUnseen: unseen !== null && (unseen.side ?? position.side) === position.side,
    beforeNextVisit: beforeNextVisit(context, itemAt(dates.crossings, index)),
    outOfDate: outOfDate(position, posterior, index, history),
    disbelieved: disbelieved(position, posterior, index, history),
  }));
  const deciding = decidingSet(context, axle, forecast.crossing);
  const wear = positions.map((position, index) => {
    const margins = {
      atLiningReplacement: marginAfter(position, posterior, index, ends.first),
      afterNextLiningSet: marginAfter(position, posterior, index, ends.second),
    };
    const rate = road.isByDistance ? rangeOf(partMixture(posterior, index, 'rate'), roundRate) : null;
    const decided = decide(position, margins, deciding);
    return counterpartWear(
      position,
      { rate, margins, crossing: itemAt(dates.crossings, index) },
      decided,
      history,
    );
  });
  return {
    wear: replaceInPairs(wear, itemAt(positions, 0).counterpart),
    dates,
    findings: [
      ...setsInDoubt(axle, positions, unseen, otherNewOf(known, posterior)),
      ...counterpartFindings(axle, positions, history.gauges),
    ],
    renewal: renewalOf(wear, chanceNotLasting(positions, posterior, ends.second)),
  };
}

function renewalOf(parts: readonly CounterpartWear[], notLasting: number | null): RotorRenewal {
  const replaced = parts.filter(({ decision }) => decision === 'replace');
  const why = replaced.map(({ decisionReasons }) => itemAt(decisionReasons, 0).code);
  const isDueFirst = replaced.some(({ decisionReasons }) =>
    decisionReasons.some(({ code }) => code === LIMIT_BEFORE_NEXT_VISIT),
  );
  return {
    now: isDueFirst || why.some((code) => code !== WOULD_NOT_LAST),
    withLinings: why.includes(WOULD_NOT_LAST) ? 1 : notLasting,
  };
}

/** Chance that either rotor or drum wears past its limit before the next set of linings is used up. */
function chanceNotLasting(
  positions: readonly CounterpartPosition[],
  posterior: WearPosterior,
  ends: readonly number[] | null,
): number | null {
  const judged = positions.flatMap((position, part) =>
    isJudged(position) ? [{ part, limitMm: inFilter(position.counterpart.wears, position.limitMm) }] : [],
  );
  if (!ends || judged.length === 0) return null;
  let lasting = 0;
  for (const ahead of ends) {
    const lastingAt = Float64Array.from(posterior.weights);
    for (const { part, limitMm } of judged) {
      multiplyChanceAbove(posterior, part, limitMm, ahead, lastingAt, 0);
    }
    lasting += lastingAt.reduce((sum, chance) => sum + chance, 0) / ends.length;
  }
  return roundChance(1 - lasting);
}

/** Chance that a rotor or drum passes its limit before the next visit. */
function beforeNextVisit(
  { history, daysToNextVisit }: AxleContext,
  crossing: Crossing | null,
): CounterpartPosition['beforeNextVisit'] {
  if (!crossing) return null;
  const { date } = itemAt(history.visits, -1);
  return {
    chance: roundChance(chanceWithin(crossing, daysToNextVisit)),
    date: toFullDate(toDay(date) + daysToNextVisit),
  };
}

/** Days after which a measured margin is out of date (common practice, no source). */
const FRESH_DAYS = 365;

function outOfDate(
  { latest, counterpart: { wears } }: KnownPosition,
  posterior: WearPosterior,
  part: number,
  { visits }: History,
): CounterpartPosition['outOfDate'] {
  if (!latest) return null;
  const visitDate = itemAt(visits, -1).date;
  if (toDay(visitDate) - latest.day <= FRESH_DAYS) return null;
  const expected = rangeOf(partMixture(posterior, part, 'thickness'), roundForecastMm);
  return { expectedMm: inFilter(wears, expected.median), visitDate };
}

/** Tolerance within which a forecast agrees with a reading: in standard deviations of its error, and in mm. */
const AGREES_SDS = 3;
const AGREES_MM = 0.2;

/**
 * The forecast takes a reading that fits nothing else for a mistake. If that is the latest one, the dates do not
 * reflect what was just measured.
 */
function disbelieved(
  { latest, marginMm, counterpart: { wears } }: KnownPosition,
  posterior: WearPosterior,
  part: number,
  { visits }: History,
): CounterpartPosition['disbelieved'] {
  if (!latest || latest.visit.id !== itemAt(visits, -1).id) return null;
  const thickness = partMixture(posterior, part, 'thickness');
  const readMm = inFilter(wears, latest.mm);
  const errorMm = Math.hypot(latest.standardUncertaintyMm, COUNTERPART_PLACEMENT_SD_MM);
  const roomMm = Math.max(AGREES_MM, AGREES_SDS * errorMm);
  const chance = chanceBelow(thickness, readMm + roomMm) - chanceBelow(thickness, readMm - roomMm);
  if (chance >= 0.5) return null;
  const expectedMm = inFilter(wears, rangeOf(thickness, roundForecastMm).median);
  // A reading this near its limit calls for the same work as a forecast of even less.
  const isAlarming =
    marginMm !== null && marginMm <= AGREES_MM && leftUntil(wears, latest.mm, expectedMm) > 0;
  return isAlarming ? null : { expectedMm };
}

/** Distribution of the margin to the limit when the linings are used up. */
function marginAfter(
  position: KnownPosition,
  posterior: WearPosterior,
  part: number,
  ends: number[] | null,
): NormalMixture | null {
  if (!ends || !isJudged(position)) return null;
  const margin = partMixture(posterior, part, 'thickness', ends);
  const limitMm = inFilter(position.counterpart.wears, position.limitMm);
  margin.means.forEach((mm, index) => (margin.means[index] = mm - limitMm));
  return margin;
}

/** Replaces rotors and drums in pairs: if one must be replaced, so must the other. */
function replaceInPairs(parts: CounterpartWear[], { part }: Counterpart): CounterpartWear[] {
  const worn = parts.find(({ decision }) => decision === 'replace');
  if (!worn) return parts;
  const detail = `the ${worn.position.side} ${part} must be replaced, and both ${part}s of an axle are replaced together`;
  return parts.map((each) =>
    each.decision === 'replace'
      ? each
      : {
          ...each,
          decision: 'replace',
          decisionReasons: [{ code: 'pair', detail }, ...each.decisionReasons],
        },
  );
}
