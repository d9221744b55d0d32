import { gaugeFor } from '../gauges.js';
import { judgeRepeats, type CounterpartSpec, type Life } from '../lives.js';
import { toMm } from '../units.js';
import { TAKEN, type Conformity, type LengthUnit } from '../vocabulary/terms.js';
import { conformityBelow } from './conformity.js';
import type { CounterpartPlace } from './counterpart.js';

/** The latest run-out of a rotor against its limit, and whether an earlier one already called for cleaning the hub. */
export function runoutOf(place: CounterpartPlace, present: Life<CounterpartSpec>) {
  const runouts = runoutsOf(place, present);
  const latest = runouts.at(-1);
  const { runoutLimit } = present.spec;
  const conformities = runoutLimit
    ? runouts.map((runout) => conformityOfRunout(runout, toMm(runoutLimit)))
    : [];
  return {
    runoutMm: latest?.mm ?? null,
    runoutUnit: latest?.unit ?? null,
    runoutConformity: conformities.at(-1) ?? null,
    runoutAsked: conformities.slice(0, -1).some((conformity) => conformity !== 'conforms'),
  };
}

interface Runout {
  mm: number;
  u: number;
  unit: LengthUnit;
  /** The largest repeat of the deciding gauge. */
  largestMm: number;
}

/** One repeat over the limit makes the result inconclusive, however many others are under it. */
function conformityOfRunout({ mm, u, largestMm }: Runout, limitMm: number): Conformity {
  const conformity = conformityBelow(mm, limitMm, u);
  return conformity === 'conforms' && largestMm > limitMm ? 'inconclusive' : conformity;
}

/** The run-out of the rotor at each measurement since it was fitted or machined, oldest first. */
function runoutsOf({ history, axle, side }: CounterpartPlace, { begunAt }: Life<CounterpartSpec>): Runout[] {
  return history.visits.flatMap((visit, index) =>
    TAKEN.flatMap((taken) => {
      if (index < begunAt || (index === begunAt && taken === 'as-found')) return [];
      const readings = visit.readings.filter(
        (reading) =>
          reading.kind === 'rotor-runout' &&
          reading.axle === axle &&
          reading.side === side &&
          reading.taken === taken,
      );
      if (readings.length === 0) return [];
      const {
        mm,
        standardUncertaintyMm: u,
        unit,
        worstRepeat,
      } = judgeRepeats(
        readings.map((reading) => ({
          mm: reading.mm,
          gauge: gaugeFor(reading.gauge, reading.kind, history.gauges),
          unit: reading.unit,
        })),
        { placementSdMm: 0, wears: 'wider' },
      );
      return [{ mm, u, unit, largestMm: worstRepeat.mm }];
    }),
  );
}
