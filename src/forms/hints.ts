import { toDay } from '../core/calendar.js';
import type { Gauge } from '../core/gauges.js';
import type { History } from '../core/history.js';
import { inWords } from '../core/rounding.js';
import type { Axle, WorkKind } from '../core/vocabulary/terms.js';
import type { VehicleBody } from '../core/vocabulary/vehicle.js';
import type { AxleWear, Wear } from '../core/vocabulary/wear.js';
import { mmInWords, nearDateInWords, termInWords } from '../core/words.js';
import { quantityText } from './entered.js';
import { groupField, type AxleForm, type Group, type Slot, type VisitForm } from './visitForm.js';

/** What a visit form shows next to its fields: last readings, limits, open checks and specifications. */

export interface AxleHints {
  /** The last reading for a field, such as `last 3.7 mm, 21 November`. */
  last: Record<string, string>;
  /** The summary of the rotors or drums, such as `discard at 26 mm`. */
  limit: string | null;
  /** Open checks on the axle. */
  checks: string[];
  /** Specified torques, by fastener. */
  torques: Record<string, string>;
  /** Specified new thickness, by kind of work. */
  fitted: Partial<Record<WorkKind, string | null>>;
}

const MAX_CHECKS = 3;

export function axleHints(
  form: AxleForm,
  vehicle: VehicleBody,
  wear: AxleWear | undefined,
  today: string,
): AxleHints {
  const last = form.slots.flatMap((slot): [string, string][] => {
    const words = wear && slot.taken === 'as-found' ? lastInWords(slot, wear, today) : null;
    return words === null ? [] : [[slot.field, words]];
  });
  const torques = Object.entries(vehicle.axles[form.axle]?.torque ?? {}).map(
    ([fastener, { value, unit, tolerance }]): [string, string] => [
      fastener,
      `${value}${tolerance ? ` ± ${tolerance.value}` : ''} ${unit === 'Nm' ? 'N·m' : 'ft·lbf'}`,
    ],
  );
  const open = (wear?.findings ?? []).filter(({ severity }) => severity !== 'note').map(({ check }) => check);
  return {
    last: Object.fromEntries(last),
    limit: wear ? limitInWords(wear) : null,
    checks: [...new Set(open)].slice(0, MAX_CHECKS),
    torques: Object.fromEntries(torques),
    fitted: Object.fromEntries(form.work.map(({ kind }) => [kind, specifiedNew(vehicle, form.axle, kind)])),
  };
}

/** The specification of the parts an axle's work may fit, in words for a hint; null if unknown. */
function specifiedNew(vehicle: VehicleBody, axle: Axle, kind: WorkKind): string | null {
  const specs = vehicle.axles[axle];
  const part = {
    'pads-replaced': specs?.pad,
    'rotor-replaced': specs?.rotor,
    'shoes-replaced': specs?.shoe,
    'drum-replaced': specs?.drum,
  };
  const fitted = part[kind as keyof typeof part]?.new;
  return fitted ? quantityText(fitted) : null;
}

function lastInWords(
  { group, side, lining }: Slot,
  { pads, rotors, drums }: AxleWear,
  today: string,
): string | null {
  const on = (date: string): string => nearDateInWords(date, today);
  if (group === 'linings') {
    const pad = pads.find((each) => each.side === side && each.pad === lining);
    if (pad?.latest) return `last ${mmInWords(pad.latest.valueMm, 2)}, ${on(pad.latest.date)}`;
    return pad?.fitted?.date ? `fitted ${on(pad.fitted.date)}` : null;
  }
  const rotor = rotors.find((each) => each.side === side);
  if (group === 'runout') return rotor?.runoutMm == null ? null : `last ${mmInWords(rotor.runoutMm)}`;
  if (group === 'rotors')
    return rotor?.thinnestMm == null ? null : `last ${mmInWords(rotor.thinnestMm)} at the thinnest`;
  const drum = drums.find((each) => each.side === side);
  return drum?.largestMm == null ? null : `last ${mmInWords(drum.largestMm)} at the widest`;
}

function limitInWords({ rotors, drums }: AxleWear): string | null {
  const discard = rotors.find(({ discardMm }) => discardMm !== null)?.discardMm;
  const maximum = drums.find(({ maximumMm }) => maximumMm !== null)?.maximumMm;
  if (discard != null) return `discard at ${mmInWords(discard)}`;
  return maximum == null ? null : `at most ${mmInWords(maximum)}`;
}

const KM_PER_MILE = 1.609344;

/** The odometer range expected today, from the last reading and the vehicle's use; null if it was never read. */
export function odometerHint(history: History, wear: Wear, today: string): string | null {
  const last = history.visits.findLast(({ odometer }) => odometer != null);
  if (!last?.odometer) return null;
  const { value, unit, km } = last.odometer;
  const figure = (km: number): string => inWords(km / (unit === 'mi' ? KM_PER_MILE : 1), 0);
  const was = `It was ${inWords(value, 0)} ${unit === 'mi' ? 'miles' : 'km'} on ${nearDateInWords(last.date, today)}.`;
  const days = toDay(today) - toDay(last.date);
  const { kmPerDay } = wear.usage;
  if (!kmPerDay || days <= 0) return was;
  const step = days * kmPerDay.median < 1000 ? 10 : 100;
  const from = Math.floor((km + days * kmPerDay.low) / step) * step;
  const to = Math.ceil((km + days * kmPerDay.high) / step) * step;
  return `Expect ${figure(from)} to ${figure(to)}. ${was}`;
}

/** The odometer readings before and after a recorded visit; null if there are none. */
export function odometersAround({ visits }: History, visitId: string, today: string): string | null {
  const index = visits.findIndex(({ id }) => id === visitId);
  const around: [string, History['visits'][number] | undefined][] = [
    ['Before', visits.slice(0, index).findLast(({ odometer }) => odometer != null)],
    ['After', visits.slice(index + 1).find(({ odometer }) => odometer != null)],
  ];
  const said = around.flatMap(([when, visit]) =>
    visit?.odometer
      ? [
          `${when}: ${inWords(visit.odometer.value, 0)} ${visit.odometer.unit === 'mi' ? 'miles' : 'km'} on ${nearDateInWords(visit.date, today)}.`,
        ]
      : [],
  );
  return said.length === 0 ? null : said.join(' ');
}

/** The kinds of gauge offered for each group of readings. */
const OFFERED: Record<Group, readonly Gauge['kind'][]> = {
  linings: ['pad-gauge', 'depth-gauge', 'caliper', 'visual'],
  rotors: ['micrometer', 'caliper'],
  runout: ['dial-indicator'],
  drums: ['drum-gauge', 'caliper'],
};
export const GROUPS = Object.keys(OFFERED) as Group[];

/** The gauges to choose from for each group of readings. */
export function gaugeOptions(gauges: readonly Gauge[]): Record<Group, [string, string][]> {
  const optionsOf = (group: Group): [string, string][] => [
    ['', 'not stated'],
    ...gauges
      .filter(({ kind }) => OFFERED[group].includes(kind))
      .map(({ name, resolutionMm }): [string, string] => [
        name,
        `${termInWords(name)}, ${mmInWords(resolutionMm, 2)}`,
      ]),
  ];
  return Object.fromEntries(GROUPS.map((group) => [group, optionsOf(group)])) as Record<
    Group,
    [string, string][]
  >;
}

/** The gauge and unit last used for each group. */
export type Habits = Partial<Record<Group, { gauge?: string; unit?: string }>>;

/** Preselects the gauges and units this browser used last, or else those of the vehicle's last readings. */
export function usualGauges(form: VisitForm, history: History, habits: Habits): Record<string, string> {
  const fields: Record<string, string> = {};
  for (const { axle, slots } of form.axles) {
    for (const group of new Set(slots.map((slot) => slot.group))) {
      const kinds = new Set<string>(slots.filter((slot) => slot.group === group).map(({ kind }) => kind));
      const reading = history.visits
        .flatMap(({ readings }) => readings)
        .findLast((each) => kinds.has(each.kind) && each.axle === axle);
      const { gauge, unit } = habits[group] ?? { gauge: reading?.gauge ?? undefined, unit: reading?.unit };
      if (gauge) fields[groupField(axle, group, 'gauge')] = gauge;
      if (unit) fields[groupField(axle, group, 'unit')] = unit;
    }
  }
  return fields;
}

/** The gauges and units used in a saved form. */
export function habitsOf(form: VisitForm, fields: Readonly<Record<string, string>>): Habits {
  const habits: Habits = {};
  for (const { axle, slots } of form.axles) {
    for (const { group, field } of slots) {
      if (!fields[field]?.trim()) continue;
      habits[group] = {
        gauge: fields[groupField(axle, group, 'gauge')],
        unit: fields[groupField(axle, group, 'unit')],
      };
    }
  }
  return habits;
}

/** A specified quantity as shown in a form. */
export const specText = (quantity: { value: number; unit: string } | null | undefined): string | undefined =>
  quantity ? quantityText(quantity) : undefined;

export type HintsByAxle = Partial<Record<Axle, AxleHints>>;
