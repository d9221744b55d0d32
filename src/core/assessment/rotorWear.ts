import { toFullDate } from '../calendar.js';
import { daysAt, type Crossing } from '../forecast/crossing.js';
import type { NormalMixture } from '../forecast/normal.js';
import type { History } from '../history.js';
import { roundForecastMm, roundMm } from '../rounding.js';
import type { Range, Reason } from '../vocabulary/quantities.js';
import { failsLimit } from './counterpartDates.js';
import type { RotorPosition } from './counterpartPosition.js';
import { dateInterval } from './forecastDates.js';
import type { RotorOutlook, DrumOutlook } from './outlookShape.js';
import { rangeOf } from './ranges.js';
import { beyondThirtyYears, noOdometer } from './reasons.js';
import type { Margins, Decided } from './rotorDecision.js';

interface Forecasts {
  rate: Range | null;
  margins: Margins;
  crossing: Crossing | null;
}

export function rotorWear(
  position: RotorPosition,
  { rate, margins, crossing }: Forecasts,
  { decision, reasons: decisionReasons }: Decided,
  { visits }: History,
): RotorOutlook {
  const { side, present, latest, thinnestMm, discardMm } = position;
  const forecastMargin = (margin: NormalMixture | null) => margin && rangeOf(margin, roundForecastMm);
  return {
    side,
    readings: present.observations.length,
    fitted: present.start && { date: toFullDate(present.start.day), odometerKm: present.start.odometerKm },
    latestDate: latest?.visit.date ?? null,
    thinnestMm,
    discardMm,
    machineToMm: position.machineToMm,
    marginMm: thinnestMm !== null && discardMm !== null ? roundMm(thinnestMm - discardMm) : null,
    marginStandardUncertaintyMm:
      position.standardUncertaintyMm === null ? null : roundMm(position.standardUncertaintyMm),
    fails: failsLimit(position),
    conformity: position.conformity,
    variationMm: position.variationMm,
    variationConformity: position.variationConformity,
    runoutMm: position.runoutMm,
    runoutConformity: position.runoutConformity,
    ratePer1000KmMm: rate,
    date: crossing && dateInterval(crossing, visits.at(-1)!.date),
    marginAtPadReplacementMm: forecastMargin(margins.atPadReplacement),
    marginAfterNextPadSetMm: forecastMargin(margins.afterNextPadSet),
    decision,
    decisionReasons,
    reasons: missing(position, { rate, margins, crossing }),
  };
}

function missing(position: RotorPosition, { rate, margins, crossing }: Forecasts): Reason[] {
  const { latest, discardMm, machineToMm, present, points, variationMm, runoutMm, counterpart } = position;
  const reasons: Reason[] = [];
  const say = (fields: readonly string[], code: string, detail: string): void => {
    reasons.push(...fields.map((field) => ({ field, code, detail })));
  };
  if (!latest) {
    const fields = [
      'latestDate',
      'thinnestMm',
      'marginMm',
      'marginStandardUncertaintyMm',
      'conformity',
      'variationMm',
    ];
    say(fields, 'no-readings', 'not measured since it was fitted or first known');
  }
  if (discardMm === null)
    say(
      ['discardMm', 'marginMm', 'conformity'],
      `no-${counterpart.code}`,
      `no ${counterpart.limit} is known`,
    );
  if (machineToMm === null)
    say(['machineToMm'], 'no-machine-to', `no machine-to ${counterpart.measure} is known`);
  if (!present.start) say(['fitted'], 'fitting-unknown', 'its fitting date is unknown');
  else if (present.start.odometerKm === null) reasons.push(noOdometer('fitted.odometerKm'));
  if (latest && variationMm === null) {
    say(['variationMm'], 'too-few-points', `variation needs two points or more; there is ${points}`);
  }
  if (position.variationConformity === null) {
    say(['variationConformity'], 'no-limit', 'the thickness variation or its limit is unknown');
  }
  if (runoutMm === null) say(['runoutMm'], 'no-readings', 'run-out has not been measured');
  if (position.runoutConformity === null) {
    say(['runoutConformity'], 'no-limit', 'the run-out or its limit is unknown');
  }
  if (!rate) reasons.push(noOdometer('ratePer1000KmMm'));
  if (!crossing) {
    say(
      ['date'],
      'no-forecast',
      `needs a ${counterpart.measure} and a ${counterpart.limit} of the ${counterpart.part}`,
    );
  } else if (daysAt(crossing, 0.9) === null) reasons.push(beyondThirtyYears);
  if (!margins.atPadReplacement) {
    const detail = `needs a ${counterpart.measure} and a ${counterpart.limit} of the ${counterpart.part}, and a forecast of the ${counterpart.lining}`;
    say(['marginAtPadReplacementMm', 'marginAfterNextPadSetMm'], 'no-forecast', detail);
  } else if (!margins.afterNextPadSet) {
    say(['marginAfterNextPadSetMm'], 'no-new-thickness', 'the thickness of a new pad is unknown');
  }
  return reasons;
}

/** Fields that have another name in a drum's answer. */
const DRUM_FIELDS: Record<string, string> = {
  thinnestMm: 'largestMm',
  discardMm: 'maximumMm',
  variationMm: 'outOfRoundMm',
  marginAtPadReplacementMm: 'marginAtShoeReplacementMm',
  marginAfterNextPadSetMm: 'marginAfterNextShoeSetMm',
};

const NOT_OF_DRUMS = new Set(['runoutMm', 'runoutConformity', 'variationConformity']);

/** A drum's answer, from that of the equivalent rotor of negative thickness. */
export function drumWear(rotor: RotorOutlook): DrumOutlook {
  const turn = (mm: number | null): number | null => (mm === null ? null : -mm);
  return {
    side: rotor.side,
    readings: rotor.readings,
    fitted: rotor.fitted,
    latestDate: rotor.latestDate,
    largestMm: turn(rotor.thinnestMm),
    maximumMm: turn(rotor.discardMm),
    machineToMm: turn(rotor.machineToMm),
    marginMm: rotor.marginMm,
    marginStandardUncertaintyMm: rotor.marginStandardUncertaintyMm,
    fails: rotor.fails,
    conformity: rotor.conformity,
    outOfRoundMm: rotor.variationMm,
    ratePer1000KmMm: rotor.ratePer1000KmMm,
    date: rotor.date,
    marginAtShoeReplacementMm: rotor.marginAtPadReplacementMm,
    marginAfterNextShoeSetMm: rotor.marginAfterNextPadSetMm,
    decision: rotor.decision,
    decisionReasons: rotor.decisionReasons,
    reasons: rotor.reasons
      .filter(({ field }) => !NOT_OF_DRUMS.has(field))
      .map((reason) => ({ ...reason, field: DRUM_FIELDS[reason.field] ?? reason.field })),
  };
}
