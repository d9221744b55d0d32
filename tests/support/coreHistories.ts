import type { z } from 'zod';
import { outlookFor } from '../../src/core/assessment/outlook.js';
import type { Outlook } from '../../src/core/assessment/outlookShape.js';
import type { Policy } from '../../src/core/assessment/policy.js';
import { startingExperience } from '../../src/core/forecast/experience.js';
import { inOrder, type History, type HistoryVisit } from '../../src/core/history.js';
import { withConversions } from '../../src/core/units.js';
import type { Pad, Side } from '../../src/core/vocabulary/terms.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';

/**
 * Short forms to write a vehicle's history as the core takes it. Everything passes the schemas first, so that no test
 * uses a history that could not be sent.
 */

export type VehicleDraft = Partial<z.input<typeof VehicleBody>>;
export type VisitDraft = z.input<typeof VisitBody> & { id?: string };
export type ReadingDraft = NonNullable<z.input<typeof VisitBody>['readings']>[number];

export const km = (value: number) => ({ value, unit: 'km' as const });
export const mm = (value: number) => ({ value, unit: 'mm' as const });
export const nm = (value: number) => ({ value, unit: 'Nm' as const });

export const DISC_AXLE = {
  brake: 'disc',
  pad: { new: mm(11), limit: mm(2) },
  rotor: { new: mm(28), discard: mm(26), machineTo: mm(26.4) },
} as const;

/** A van with disc brakes at the front, unless told otherwise. */
export function vehicleOf(draft: VehicleDraft = {}): VehicleBody {
  return VehicleBody.parse({ externalId: 'V-1', axles: { front: DISC_AXLE }, ...draft });
}

function visitOf({ id, ...body }: VisitDraft, arrival: number): HistoryVisit {
  const parsed = VisitBody.parse(body);
  const withIds = (items: readonly object[] | null | undefined) =>
    (items ?? []).map((item, index) => ({ id: `${arrival}-${index + 1}`, ...item }));
  return withConversions({
    id: id ?? `visit-${arrival}`,
    arrival,
    date: parsed.date,
    time: parsed.time ?? null,
    odometer: parsed.odometer ?? null,
    odometerReplaced: parsed.odometerReplaced ?? null,
    readings: withIds(parsed.readings),
    conditions: parsed.conditions ?? [],
    work: withIds(parsed.work),
    torques: withIds(parsed.torques),
    notMeasured: parsed.notMeasured ?? [],
    roadTest: parsed.roadTest ?? null,
  }) as HistoryVisit;
}

/** The visits in the given order, named `visit-1`, `visit-2` … unless a draft has another id. */
export function visitsOf(drafts: readonly VisitDraft[]): HistoryVisit[] {
  return drafts.map((draft, index) => visitOf(draft, index + 1));
}

export function historyOf(vehicle: VehicleDraft, drafts: readonly VisitDraft[]): History {
  return { vehicle: vehicleOf(vehicle), visits: inOrder(visitsOf(drafts)) };
}

export const POLICY: Policy = {
  visitIntervalDays: 182,
  longestDaysWithoutReading: 365,
  dueSoonDays: 60,
  ruleSets: [],
  padMinimumMm: null,
};

/** The outlook of a history with the starting values. */
export function outlookOf(vehicle: VehicleDraft, drafts: readonly VisitDraft[]): Outlook {
  const experience = startingExperience({ steeredOrFront: true, regenerative: false });
  return outlookFor(historyOf(vehicle, drafts), () => experience, POLICY);
}

type OfAnyReading = Partial<Pick<ReadingDraft, 'axle' | 'gauge' | 'taken' | 'repeat'>>;
export type PadDetails = OfAnyReading & { at?: 'thinnest' | 'leading' | 'centre' | 'trailing' };

export function padReading(side: Side, pad: Pad, value: number, details: PadDetails = {}): ReadingDraft {
  return { kind: 'pad-thickness', axle: 'front', side, pad, gauge: 'depth-gauge', ...details, ...mm(value) };
}

/** All four pads of the front axle: one thickness for all, or left inner, left outer, right inner, right outer. */
export function fourPads(
  thickness: number | readonly [number, number, number, number],
  details: PadDetails = {},
): ReadingDraft[] {
  const [leftInner, leftOuter, rightInner, rightOuter] =
    typeof thickness === 'number' ? [thickness, thickness, thickness, thickness] : thickness;
  return [
    padReading('left', 'inner', leftInner, details),
    padReading('left', 'outer', leftOuter, details),
    padReading('right', 'inner', rightInner, details),
    padReading('right', 'outer', rightOuter, details),
  ];
}

/** A rotor's thickness at points 1, 2 … around the face. */
export function rotorReadings(
  side: Side,
  points: readonly number[],
  details: OfAnyReading = {},
): ReadingDraft[] {
  return points.map((value, index) => ({
    kind: 'rotor-thickness',
    axle: 'front',
    side,
    point: index + 1,
    gauge: 'micrometer',
    ...details,
    ...mm(value),
  }));
}

export function runoutReading(side: Side, value: number, details: OfAnyReading = {}): ReadingDraft {
  return { kind: 'rotor-runout', axle: 'front', side, gauge: 'dial-indicator', ...details, ...mm(value) };
}
