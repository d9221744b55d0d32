import { toDay } from '../src/core/calendar.js';
import { round } from '../src/core/rounding.js';
import { toKm, toMm } from '../src/core/units.js';
import type { RotorSpec } from '../src/core/vocabulary/vehicle.js';
import type { AxleWear, PadWear, Wear } from '../src/core/vocabulary/wear.js';
import type { LoadedVehicle } from './load.js';
import type { VisitInput } from './workshop.js';

/** The axle of the demo fleet to show first, and a visit for the reader to record. */

export interface Example {
  loaded: LoadedVehicle;
  wear: Wear;
  axle: AxleWear;
}

/** An axle that is due but not overdue and has findings to check, or the axle that comes closest to that. */
export function chooseExample(fleet: readonly { loaded: LoadedVehicle; wear: Wear }[]): Example {
  const candidates = fleet
    .flatMap((vehicle) => vehicle.wear.axles.map((axle): Example => ({ ...vehicle, axle })))
    .filter(canBeMeasuredToday);
  const [best] = candidates.sort(
    (a, b) =>
      Number(a.axle.replacement.overdue) - Number(b.axle.replacement.overdue) ||
      explanations(b) - explanations(a) ||
      earlyDate(a).localeCompare(earlyDate(b)),
  );
  if (!best) throw new Error('no vehicle of the demo fleet has a forecast');
  return best;
}

/** The number of findings on the governing pad. */
const explanations = ({ axle: { findings, replacement } }: Example): number =>
  findings.filter(
    ({ side, pad }) => side === replacement.governingPad?.side && pad === replacement.governingPad.pad,
  ).length;

const earlyDate = ({ axle }: Example): string => axle.replacement.date?.early ?? '9999-12-31';

const canBeMeasuredToday = ({ loaded, wear, axle }: Example): boolean =>
  loaded.visits.at(-1)?.odometer != null &&
  wear.usage.kmPerDay !== null &&
  axle.pads.length > 0 &&
  axle.pads.every(({ remainingMm, ratePer1000KmMm }) => remainingMm && ratePer1000KmMm);

/** A plausible visit today, with distance and wear as usual since the last one. */
export function visitToday({ loaded: { vehicle, visits }, wear, axle }: Example, today: string): VisitInput {
  const last = visits.at(-1)!;
  const { value, unit } = last.odometer!;
  const days = toDay(today) - toDay(last.date);
  const drivenKm = Math.max(1, days * wear.usage.kmPerDay!.median);
  const driven = Math.ceil(drivenKm / toKm({ value: 1, unit }));
  const name = axle.axle;
  const rotorMm = axle.rotors[0]?.thinnestMm ?? halfWornMm(vehicle.axles[name]?.rotor);
  return {
    date: today,
    odometer: { value: value + driven, unit },
    workOrder: 'WO-demo-1',
    technician: 'T1',
    readings: [
      ...axle.pads.map((pad) => padReading(name, pad, drivenKm)),
      ...(rotorMm === null ? [] : rotorReadings(name, rotorMm)),
    ],
  };
}

/** A plausible thickness for a rotor that was never measured. */
const halfWornMm = (spec: RotorSpec | null | undefined): number | null =>
  spec?.new && spec.discard ? (toMm(spec.new) + toMm(spec.discard)) / 2 : null;

type Reading = NonNullable<VisitInput['readings']>[number];

/** Rounded as a half-millimetre gauge shows it. */
function padReading(axle: AxleWear['axle'], position: PadWear, drivenKm: number): Reading {
  const { side, pad, remainingMm, ratePer1000KmMm, limits } = position;
  const limitMm = limits.find(({ governs }) => governs)?.limitMm ?? 0;
  const expectedMm = limitMm + remainingMm!.median - (ratePer1000KmMm!.median * drivenKm) / 1000;
  const value = Math.max(0.5, Math.round(2 * expectedMm) / 2);
  const measured = { axle, side, value, unit: 'mm', gauge: 'pad-gauge' } as const;
  return pad === 'inner' || pad === 'outer'
    ? { kind: 'pad-thickness', pad, ...measured }
    : { kind: 'shoe-thickness', shoe: pad, ...measured };
}

/** Four points around the left rotor that differ by at most a hundredth of a millimetre. */
const rotorReadings = (axle: AxleWear['axle'], thinnestMm: number): Reading[] =>
  [0, 0.01, 0.01, 0].map((more, index) => ({
    kind: 'rotor-thickness',
    axle,
    side: 'left',
    point: index + 1,
    value: round(thinnestMm - 0.01 + more, 2),
    unit: 'mm',
    gauge: 'micrometer',
  }));
