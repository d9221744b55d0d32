import { toFullDate } from '../calendar.js';
import { daysAt, type Crossing } from '../forecast/crossing.js';
import type { NormalMixture } from '../forecast/normal.js';
import type { History } from '../history.js';
import { itemAt } from '../items.js';
import { COUNTERPART_PLACEMENT_SD_MM } from '../placement.js';
import { round, roundForecastMm, roundMm } from '../rounding.js';
import type { Range, Reason } from '../vocabulary/quantities.js';
import type { DateInterval, DecisionReason } from '../vocabulary/wear.js';
import { chanceAbove } from './conformity.js';
import { failsLimit } from './counterpartDates.js';
import type { CounterpartPosition } from './counterpartPosition.js';
import { dateInterval } from './forecastDates.js';
import type { DrumOutlook, RotorOutlook } from './outlookShape.js';
import { rangeOf } from './ranges.js';
import { beyondThirtyYears, noOdometer } from './reasons.js';
import type { Margins, Decided } from './counterpartDecision.js';

interface Forecasts {
  rate: Range | null;
  margins: Margins;
  crossing: Crossing | null;
}

/** A rotor or drum and its forecast, which {@link rotorWear} and {@link drumWear} turn into the answer. */
export interface CounterpartWear {
  position: CounterpartPosition;
  ratePer1000KmMm: Range | null;
  date: DateInterval | null;
  /** Margin when the fitted linings are used up, and when the next set is. */
  marginAtLiningReplacementMm: Range | null;
  marginAfterNextLiningSetMm: Range | null;
  decision: Decided['decision'];
  decisionReasons: DecisionReason[];
  reasons: Reason[];
}

export function counterpartWear(
  position: CounterpartPosition,
  { rate, margins, crossing }: Forecasts,
  { decision, reasons: decisionReasons }: Decided,
  { visits }: History,
): CounterpartWear {
  const forecastMargin = (margin: NormalMixture | null) => margin && rangeOf(margin, roundForecastMm);
  return {
    position,
    ratePer1000KmMm: rate,
    date: crossing && dateInterval(crossing, itemAt(visits, -1).date),
    marginAtLiningReplacementMm: forecastMargin(margins.atLiningReplacement),
    marginAfterNextLiningSetMm: forecastMargin(margins.afterNextLiningSet),
    decision,
    decisionReasons,
    reasons: missing(position, { rate, margins, crossing }),
  };
}

function missing(position: CounterpartPosition, { rate, margins, crossing }: Forecasts): Reason[] {
  const { latest, limitMm, machineToMm, present, points, variationMm, runoutMm, counterpart } = position;
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
      'chanceOfConformity',
      'chanceWithPlacement',
      'variationMm',
      'variationConformity',
    ];
    say(fields, 'no-readings', 'no measurement of the fitted part is recorded');
  }
  if (limitMm === null)
    say(
      ['discardMm', 'marginMm', 'conformity', 'chanceOfConformity', 'chanceWithPlacement'],
      `no-${counterpart.code}`,
      `no ${counterpart.limit} is known`,
    );
  if (machineToMm === null)
    say(['machineToMm'], 'no-machine-to', `no machine-to ${counterpart.measure} is known`);
  if (!present.start) say(['fitted'], 'fitting-unknown', 'its fitting date is unknown');
  else if (present.start.odometerKm === null) reasons.push(noOdometer('fitted.odometerKm'));
  if (latest && variationMm === null) {
    say(
      ['variationMm', 'variationConformity'],
      'too-few-points',
      `variation needs readings at two points or more; ${points} was measured`,
    );
  }
  if (!present.spec.variationLimit)
    say(['variationConformity'], 'no-limit', 'no thickness variation limit is recorded');
  if (runoutMm === null)
    say(['runoutMm', 'runoutConformity'], 'no-readings', 'run-out has not been measured');
  if (!present.spec.runoutLimit) say(['runoutConformity'], 'no-limit', 'no run-out limit is recorded');
  if (!rate) reasons.push(noOdometer('ratePer1000KmMm'));
  if (!crossing) {
    say(['date'], 'no-forecast', `needs a reading and the ${counterpart.limit} of the ${counterpart.part}`);
  } else if (daysAt(crossing, 0.9) === null) reasons.push(beyondThirtyYears);
  if (!margins.atLiningReplacement) {
    const detail = `needs a reading and the ${counterpart.limit} of the ${counterpart.part}, and a forecast of the ${counterpart.lining}`;
    say(['marginAtPadReplacementMm', 'marginAfterNextPadSetMm'], 'no-forecast', detail);
  } else if (!margins.afterNextLiningSet) {
    say(
      ['marginAfterNextPadSetMm'],
      'no-new-thickness',
      `the thickness of new ${counterpart.lining} is unknown`,
    );
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

/** Members that the answers of rotors and drums share. */
const identity = ({ position: { side, present, latest } }: CounterpartWear) => ({
  side,
  readings: present.observations.length,
  fitted: present.start && { date: toFullDate(present.start.day), odometerKm: present.start.odometerKm },
  latestDate: latest?.visit.date ?? null,
});

const judgement = ({ position }: CounterpartWear) => ({
  machineToMm: position.machineToMm,
  marginMm: position.marginMm,
  marginStandardUncertaintyMm:
    position.standardUncertaintyMm === null ? null : roundMm(position.standardUncertaintyMm),
  fails: failsLimit(position),
  conformity: position.conformity,
  chanceOfConformity: chanceOfConformity(position, 0),
  chanceWithPlacement: chanceOfConformity(position, COUNTERPART_PLACEMENT_SD_MM),
});

/** @param moreSdMm standard deviation of further error, mm */
function chanceOfConformity(
  { marginMm, standardUncertaintyMm: u }: CounterpartPosition,
  moreSdMm: number,
): number | null {
  if (marginMm === null || u === null) return null;
  return round(chanceAbove(marginMm, 0, Math.hypot(u, moreSdMm)), 4);
}

export function rotorWear(wear: CounterpartWear): RotorOutlook {
  const { position, ratePer1000KmMm, date, decision, decisionReasons, reasons } = wear;
  return {
    ...identity(wear),
    thinnestMm: position.latest?.mm ?? null,
    discardMm: position.limitMm,
    ...judgement(wear),
    variationMm: position.variationMm,
    variationConformity: position.variationConformity,
    runoutMm: position.runoutMm,
    runoutConformity: position.runoutConformity,
    ratePer1000KmMm,
    date,
    marginAtPadReplacementMm: wear.marginAtLiningReplacementMm,
    marginAfterNextPadSetMm: wear.marginAfterNextLiningSetMm,
    decision,
    decisionReasons,
    reasons,
  };
}

export function drumWear(wear: CounterpartWear): DrumOutlook {
  const { position, ratePer1000KmMm, date, decision, decisionReasons, reasons } = wear;
  return {
    ...identity(wear),
    largestMm: position.latest?.mm ?? null,
    maximumMm: position.limitMm,
    ...judgement(wear),
    outOfRoundMm: position.variationMm,
    ratePer1000KmMm,
    date,
    marginAtShoeReplacementMm: wear.marginAtLiningReplacementMm,
    marginAfterNextShoeSetMm: wear.marginAfterNextLiningSetMm,
    decision,
    decisionReasons,
    reasons: reasons
      .filter(({ field }) => !NOT_OF_DRUMS.has(field))
      .map((reason) => ({ ...reason, field: DRUM_FIELDS[reason.field] ?? reason.field })),
  };
}
