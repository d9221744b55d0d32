import { itemAt } from '../items.js';
import { toFullDate } from '../calendar.js';
import { daysAt } from '../forecast/crossing.js';
import type { Experience } from '../forecast/experience.js';
import type { NormalMixture } from '../forecast/normal.js';
import { chanceOf, partMixture } from '../forecast/wear.js';
import { isDrumBrake, type Observation } from '../lives.js';
import { roundForecastMm, roundKm, roundRate } from '../rounding.js';
import type { Reason } from '../vocabulary/quantities.js';
import type { Axle, PadSet } from '../vocabulary/terms.js';
import type { Basis, DistanceInterval, PadWear } from '../vocabulary/wear.js';
import { capital, countInWords, positionInWords } from '../words.js';
import { slidesOf } from './calendarFindings.js';
import { byWeight, padFindings } from './findings.js';
import { foretellLatest } from './foretold.js';
import type { AxleOutlook } from './outlookShape.js';
import { forecastOfPads, governingPad, POINTS, type PadForecast } from './padForecast.js';
import type { AxleContext, PadPosition } from './padPosition.js';
import { partFindings } from './partFindings.js';
import { rangeOf } from './ranges.js';
import { beyondThirtyYears, neverMeasured, noOdometer, noPadLimit } from './reasons.js';
import { counterpartsOutlook } from './counterparts.js';
import { drumWear, rotorWear } from './counterpartWear.js';
import { repeatedReadings, setFindings } from './setFindings.js';
import { normalSpreadOf } from './spread.js';

export function axleOutlook(context: AxleContext, axle: Axle, experience: Experience): AxleOutlook {
  const { history, road } = context;
  const drum = isDrumBrake(history, axle);
  const { pads, followed, forecast } = forecastOfPads(context, axle, experience);
  const { isByDistance } = road;
  const governing = governingPad(pads, forecast);
  // If another set than the recorded one is probably fitted, the prediction was for other linings.
  const isDoubted =
    chanceOf(forecast.posterior, ({ unseen, otherNew }) => unseen !== null || otherNew) >= 0.5;
  // If the readings were perhaps copied, it is the doubt that may be wrong, so keep the prediction.
  const foretold =
    isDoubted && !repeatedReadings(pads) ? pads.map(() => null) : foretellLatest(followed, pads);
  const { wear, dates, findings, renewal } = counterpartsOutlook(context, axle, experience, pads, forecast);
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
    rotors: drum ? [] : wear.map(rotorWear),
    drums: drum ? wear.map(drumWear) : [],
    counterparts: dates,
    rotorRenewal: renewal,
    findings: byWeight([
      ...padFindings(axle, pads, isDoubted ? [] : foretold, history, normalSpreadOf(experience)),
      ...setFindings(axle, pads, forecast.posterior, foretold, context),
      ...findings,
      ...partFindings(history, axle, pads, context.ruleSets),
    ]),
    slides: slidesOf(history, axle),
  };
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
      detail: 'no measurement of the fitted part is recorded',
    });
  }
  if (!present.start) {
    const detail =
      'neither a replacement nor the in-service date is recorded, so wear counts from the first reading';
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
      detail: 'it was neither measured nor fitted here at a known thickness',
    });
  }
  const thickness = latest && governing?.fails ? asRead(latest) : partMixture(posterior, index, 'thickness');
  return {
    side,
    pad,
    readings: present.observations.length,
    fitted: present.start && { date: toFullDate(present.start.day), odometerKm: present.start.odometerKm },
    latest: latest && { valueMm: latest.mm, date: latest.visit.date },
    ratePer1000KmMm: distanceKnown ? rangeOf(partMixture(posterior, index, 'rate'), roundRate) : null,
    remainingMm:
      governing && known.includes(index)
        ? rangeOf(thickness, (mm) => roundForecastMm(mm - governing.limitMm))
        : null,
    limits,
    reasons,
  };
}

/** The thickness of a failing reading, which the forecast must not correct. */
function asRead({ mm, standardUncertaintyMm }: Observation): NormalMixture {
  return {
    weights: Float64Array.of(1),
    means: Float64Array.of(mm),
    sds: Float64Array.of(standardUncertaintyMm),
  };
}

function distancesOf({ table, distances }: PadForecast, distanceKnown: boolean): DistanceInterval | null {
  if (!table) return null;
  const at = (probability: number): number | null => {
    const distance = itemAt(distances, POINTS.indexOf(probability));
    return distance === null || (!distanceKnown && distance > 0) ? null : roundKm(distance * 1000);
  };
  return {
    early: at(0.1),
    lowerQuartile: at(0.25),
    median: at(0.5),
    upperQuartile: at(0.75),
    late: at(0.9),
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

const countOf = (readings: number): string =>
  readings === 0 ? 'no readings' : countInWords(readings, 'reading');

/** Minimum chance at which the linings are called the vehicle's original ones. */
const MIN_ORIGINAL_CHANCE = 0.9;

/** What the records and the readings show about the fitted linings' origin. */
export function padSetOf(pads: readonly PadPosition[], { posterior }: PadForecast): PadSet {
  if (chanceOf(posterior, ({ unseen }) => unseen !== null) >= 0.5) return 'perhaps-replaced';
  if (pads.every(({ present }) => present.origin === 'replaced')) return 'recorded';
  const original = chanceOf(posterior, ({ sets }) =>
    sets.every((set) => set === 'original' || set === 'recorded'),
  );
  const isFromService = pads.every(({ present }) => present.origin !== 'first-reading');
  return isFromService && original >= MIN_ORIGINAL_CHANCE ? 'original' : 'unknown';
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
    const words = `${positionInWords(governing)} was never measured; it is assumed to wear like the others`;
    reasons.push({ field: 'governingPad', code: 'governing-pad-not-measured', detail: words });
  }
  const unlimited = known.filter((part) => !itemAt(pads, part).governing).length;
  if (unlimited > 0)
    reasons.push({
      field: 'limitMm',
      code: 'no-limit',
      detail: `the forecast leaves out ${countInWords(unlimited, itemAt(pads, 0).lining)} without a known limit`,
    });
  return reasons;
}

function lastReadingDate(pads: readonly PadPosition[]): string | null {
  const dates = pads.flatMap(({ lives }) =>
    lives.flatMap((life) => life.observations.slice(-1).map(({ visit }) => visit.date)),
  );
  return dates.sort().at(-1) ?? null;
}
