import { itemAt } from '../core/items.js';
import { isDrumBrake } from '../core/lives.js';
import type { History } from '../core/history.js';
import {
  AXLES,
  CONDITION_STATES,
  DISTANCE_UNITS,
  LENGTH_UNITS,
  SIDES,
  TORQUE_UNITS,
  type Axle,
  type DistanceUnit,
  type LengthUnit,
  type LiningPosition,
  type ReadingKind,
  type Side,
  type Taken,
  type TorqueUnit,
  type WorkKind,
} from '../core/vocabulary/terms.js';
import type { VehicleBody } from '../core/vocabulary/vehicle.js';
import type { ReadingBody, VisitBody } from '../core/vocabulary/visit.js';
import {
  isChecked,
  quantityText,
  readLength,
  readNumber,
  readOdometer,
  readQuantity,
  textIn,
  type Fields,
} from './entered.js';
import { Places } from './places.js';

/**
 * The visit form: its fields for a vehicle, the conversion of what was typed to the API's body, and of a recorded visit
 * back to fields. Whatever has no field is kept unchanged.
 */

/** Readings that share a gauge and a unit. */
export type Group = 'linings' | 'rotors' | 'runout' | 'drums';

/** The field of one reading. */
export interface Slot {
  field: string;
  group: Group;
  kind: ReadingKind;
  /** Null for the thinnest lining of the axle. */
  side: Side | null;
  taken: Taken;
  /** The pad or shoe; null on rotors and drums. */
  lining: LiningPosition | null;
  point: number | null;
}

export interface WorkChoice {
  kind: WorkKind;
  /** The specification that the form asks for new parts; null if the work fits none. */
  fits: 'new' | null;
}

export interface AxleForm {
  axle: Axle;
  brake: 'disc' | 'drum';
  slots: readonly Slot[];
  work: readonly WorkChoice[];
  /** Parts whose state can be recorded, by the value of their option. */
  parts: readonly { value: string; words: string }[];
  fasteners: readonly string[];
}

export interface VisitForm {
  axles: readonly AxleForm[];
}

export const POINTS = [1, 2, 3, 4] as const;
export const CONDITION_ROWS = [1, 2, 3] as const;
export const TORQUE_POSITIONS = [1, 2] as const;
/** The form's reasons for leaving places empty. */
export const WHYS = ['wheel not removed', 'could not be reached', 'not asked for', 'no time'] as const;
export const ROAD_TEST_ANSWERS = ['no', 'yes'] as const;
/** Fasteners offered if the vehicle's specification names none. */
const USUAL_FASTENERS = ['wheel-bolt'];

const DISC_WORK: readonly WorkChoice[] = [
  { kind: 'pads-replaced', fits: 'new' },
  { kind: 'rotor-replaced', fits: 'new' },
  { kind: 'rotor-machined', fits: null },
  { kind: 'slides-serviced', fits: null },
  { kind: 'caliper-replaced', fits: null },
  { kind: 'hose-replaced', fits: null },
];
const DRUM_WORK: readonly WorkChoice[] = [
  { kind: 'shoes-replaced', fits: 'new' },
  { kind: 'drum-replaced', fits: 'new' },
  { kind: 'drum-machined', fits: null },
  { kind: 'hose-replaced', fits: null },
];

export function visitForm(history: History): VisitForm {
  const axles = AXLES.filter((axle) => history.vehicle.axles[axle]);
  return { axles: axles.map((axle) => axleForm(history, axle)) };
}

function axleForm(history: History, axle: Axle): AxleForm {
  const brake = isDrumBrake(history, axle) ? 'drum' : 'disc';
  const specified = Object.keys(history.vehicle.axles[axle]?.torque ?? {});
  return {
    axle,
    brake,
    slots: brake === 'disc' ? discSlots(axle) : drumSlots(axle),
    work: brake === 'disc' ? DISC_WORK : DRUM_WORK,
    parts: partsOf(brake),
    fasteners: specified.length > 0 ? specified : USUAL_FASTENERS,
  };
}

const TAKEN_NAMES = { 'as-found': 'found', 'as-left': 'left' } as const;

function discSlots(axle: Axle): Slot[] {
  return (['as-found', 'as-left'] as const).flatMap((taken) => [
    ...liningSlots(axle, taken, 'pad-thickness', ['inner', 'outer']),
    ...pointSlots(axle, taken, 'rotors', 'rotor-thickness'),
    ...SIDES.map((side): Slot => ({
      field: `${axle}.runout.${TAKEN_NAMES[taken]}.${side}`,
      group: 'runout',
      kind: 'rotor-runout',
      side,
      taken,
      lining: null,
      point: null,
    })),
  ]);
}

function drumSlots(axle: Axle): Slot[] {
  return (['as-found', 'as-left'] as const).flatMap((taken) => [
    ...liningSlots(axle, taken, 'shoe-thickness', ['leading', 'trailing']),
    ...pointSlots(axle, taken, 'drums', 'drum-diameter'),
  ]);
}

function liningSlots(
  axle: Axle,
  taken: Taken,
  kind: ReadingKind,
  positions: readonly LiningPosition[],
): Slot[] {
  const slot = (side: Side | null, lining: LiningPosition): Slot => ({
    field: `${axle}.linings.${TAKEN_NAMES[taken]}.${side ?? 'axle'}.${lining}`,
    group: 'linings',
    kind,
    side,
    taken,
    lining,
    point: null,
  });
  return [...SIDES.flatMap((side) => positions.map((lining) => slot(side, lining))), slot(null, 'thinnest')];
}

function pointSlots(axle: Axle, taken: Taken, group: 'rotors' | 'drums', kind: ReadingKind): Slot[] {
  return SIDES.flatMap((side) =>
    POINTS.map((point): Slot => ({
      field: `${axle}.${group}.${TAKEN_NAMES[taken]}.${side}.${point}`,
      group,
      kind,
      side,
      taken,
      lining: null,
      point,
    })),
  );
}

function partsOf(brake: 'disc' | 'drum'): { value: string; words: string }[] {
  const of = (part: string, linings: readonly (LiningPosition | '')[]) =>
    SIDES.flatMap((side) =>
      linings.map((lining) => ({
        value: [part, side, lining].join(' ').trim(),
        words: [side, lining, part].filter(Boolean).join(' '),
      })),
    );
  return brake === 'disc'
    ? [
        ...of('slide', ['']),
        ...of('caliper', ['']),
        ...of('pad', ['inner', 'outer']),
        ...of('rotor', ['']),
        ...of('hose', ['']),
      ]
    : [...of('shoe', ['leading', 'trailing']), ...of('drum', ['']), ...of('hose', [''])];
}

/** What was typed, as a visit's body, not yet validated. */
export interface ReadVisit {
  body: Record<string, unknown>;
  places: Places;
}

/** Parses a posted form. Rejects fields that are not numbers; the schema and the store check everything else. */
export function readVisit(form: VisitForm, fields: Fields): ReadVisit {
  const places = new Places();
  const body: Record<string, unknown> = { ...readHead(fields, places) };
  const lists: Record<List, unknown[]> = {
    readings: [],
    notMeasured: [],
    conditions: [],
    work: [],
    torques: [],
  };
  const add: Add = (list, item, field) => {
    places.note([list, lists[list].length], field);
    lists[list].push(item);
  };
  for (const axle of form.axles) {
    readReadings(axle, fields, places, add);
    readReasons(axle, fields, add);
    readConditions(axle, fields, add);
    readWork(axle, fields, places, add);
    readTorques(axle, fields, places, add);
  }
  if (isChecked(fields, 'fluid-changed')) add('work', { kind: 'fluid-changed' }, 'fluid-changed');
  const roadTest = readRoadTest(fields, places);
  for (const [list, items] of Object.entries(lists)) if (items.length > 0) body[list] = items;
  return { body: roadTest ? { ...body, roadTest } : body, places };
}

type Add = (list: List, item: unknown, field: string) => void;

const HEAD_TEXTS = ['date', 'time', 'workOrder', 'shop', 'technician', 'complaint', 'notes'] as const;

function readHead(fields: Fields, places: Places): Record<string, unknown> {
  const head: Record<string, unknown> = {};
  for (const name of HEAD_TEXTS) {
    places.note([name], name);
    const text = textIn(fields, name);
    if (text !== undefined) head[name] = text;
  }
  const unit = unitIn(fields, 'odometerUnit', DISTANCE_UNITS);
  const odometer = (field: string): { value: number; unit: DistanceUnit } | undefined => {
    const text = textIn(fields, field);
    if (text === undefined) return undefined;
    const value = readOdometer(text);
    if (value === undefined)
      places.refuse(field, `“${text}” is not an odometer reading. Type digits, such as 61240.`);
    return value === undefined ? undefined : { value, unit };
  };
  places.note(['odometer'], 'odometer');
  const read = odometer('odometer');
  if (read) head.odometer = read;
  places.note(['odometerReplaced'], 'odometerNewStart');
  places.note(['odometerReplaced', 'oldFinal'], 'odometerOldFinal');
  const replaced = { oldFinal: odometer('odometerOldFinal'), newStart: odometer('odometerNewStart') };
  if (isChecked(fields, 'odometerReplaced') || replaced.oldFinal || replaced.newStart)
    head.odometerReplaced = replaced;
  return head;
}

/** The selected unit; the first by default. */
function unitIn<Unit extends string>(fields: Fields, field: string, units: readonly Unit[]): Unit {
  return units.find((unit) => unit === fields[field]) ?? itemAt(units, 0);
}

export const groupField = (axle: Axle, group: Group, what: 'gauge' | 'unit'): string =>
  `${axle}.${group}.${what}`;

function readReadings({ axle, slots }: AxleForm, fields: Fields, places: Places, add: Add): void {
  for (const slot of slots) {
    const text = textIn(fields, slot.field);
    if (text === undefined) continue;
    const unit = unitIn(fields, groupField(axle, slot.group, 'unit'), LENGTH_UNITS);
    const gauge = textIn(fields, groupField(axle, slot.group, 'gauge'));
    // Several figures are repeats of one place.
    text.split(/\s+/).forEach((figure, index) => {
      const value = readLength(figure, unit);
      if (value === undefined)
        places.refuse(slot.field, `“${figure}” is not a number. Type a figure such as 6.5.`);
      else add('readings', readingOf(axle, slot, { value, unit, gauge, repeat: index + 1 }), slot.field);
    });
  }
}

function readingOf(
  axle: Axle,
  { kind, side, taken, lining, point }: Slot,
  { repeat, ...read }: { value: number; unit: LengthUnit; gauge: string | undefined; repeat: number },
): Record<string, unknown> {
  return {
    kind,
    axle,
    side,
    ...(kind === 'pad-thickness' ? { pad: lining } : {}),
    ...(kind === 'shoe-thickness' ? { shoe: lining } : {}),
    ...(point === null ? {} : { point }),
    taken,
    ...(repeat === 1 ? {} : { repeat }),
    ...read,
  };
}

/** Records every empty field of a named lining as not measured, for the selected reason. */
function readReasons({ axle, slots }: AxleForm, fields: Fields, add: Add): void {
  const field = `${axle}.why`;
  const why = textIn(fields, field);
  if (why === undefined) return;
  for (const { group, taken, side, lining, field: slot } of slots) {
    const isNamed = group === 'linings' && side !== null;
    if (!isNamed || taken !== 'as-found' || textIn(fields, slot) !== undefined) continue;
    add('notMeasured', { axle, side, pad: lining, why }, field);
  }
}

function readConditions({ axle }: AxleForm, fields: Fields, add: Add): void {
  for (const row of CONDITION_ROWS) {
    const field = `${axle}.condition.${row}`;
    const what = textIn(fields, `${field}.what`);
    const state = textIn(fields, `${field}.state`);
    if (what === undefined && state === undefined) continue;
    const [part, side, pad] = (what ?? '').split(' ');
    add(
      'conditions',
      { part, axle, side, ...(pad ? { pad } : {}), state },
      `${field}.${what === undefined ? 'what' : 'state'}`,
    );
  }
}

export const workField = (axle: Axle, kind: WorkKind): string => `${axle}.work.${kind}`;

function readWork({ axle, work }: AxleForm, fields: Fields, places: Places, add: Add): void {
  for (const { kind, fits } of work) {
    const field = workField(axle, kind);
    const typed = fits === null ? undefined : textIn(fields, `${field}.new`);
    const fitted = typed === undefined ? undefined : readQuantity(typed);
    if (typed !== undefined && !fitted) {
      places.refuse(
        `${field}.new`,
        `“${typed}” is not a thickness. Type a figure in mm, such as 11, or name its unit.`,
      );
    }
    const part = fits === null ? undefined : textIn(fields, `${field}.part`);
    if (!isChecked(fields, field)) {
      if (typed !== undefined || part !== undefined) {
        places.refuse(
          field,
          'The part is described, but the work is not ticked. Tick it or clear the fields.',
        );
      }
      continue;
    }
    const side = textIn(fields, `${field}.side`);
    add(
      'work',
      {
        kind,
        axle,
        ...(side ? { side } : {}),
        ...(fitted ? { new: fitted } : {}),
        ...(part ? { part } : {}),
      },
      field,
    );
  }
}

export const torqueField = (axle: Axle, fastener: number, side: Side, position: number): string =>
  `${axle}.torque.${fastener}.${side}.${position}`;

function readTorques({ axle, fasteners }: AxleForm, fields: Fields, places: Places, add: Add): void {
  const unit: TorqueUnit = unitIn(fields, `${axle}.torque.unit`, TORQUE_UNITS);
  fasteners.forEach((fastener, index) => {
    for (const side of SIDES) {
      for (const position of TORQUE_POSITIONS) {
        const field = torqueField(axle, index, side, position);
        const text = textIn(fields, field);
        if (text === undefined) continue;
        const value = readNumber(text);
        if (value === undefined)
          places.refuse(field, `“${text}” is not a number. Type a figure such as 120.`);
        else add('torques', { fastener, axle, side, position, value, unit }, field);
      }
    }
  });
}

function readRoadTest(fields: Fields, places: Places): Record<string, unknown> | null {
  const pulls = textIn(fields, 'roadTest.pulls');
  const answer = (name: string): boolean | undefined => {
    const text = textIn(fields, `roadTest.${name}`);
    return text === undefined ? undefined : text === 'yes';
  };
  const test = {
    pulls,
    pulsation: answer('pulsation'),
    noise: answer('noise'),
    notes: textIn(fields, 'roadTest.notes'),
  };
  for (const name of Object.keys(test)) places.note(['roadTest', name], `roadTest.${name}`);
  return Object.values(test).some((value) => value !== undefined) ? test : null;
}

/** The field values of a recorded visit, and the items without a field. */
export interface FilledVisit {
  fields: Record<string, string>;
  /** Members and items that the form cannot show; they stay unchanged. */
  rest: Record<string, unknown>;
  restCount: number;
}

const LISTS = ['readings', 'notMeasured', 'conditions', 'work', 'torques'] as const;
type List = (typeof LISTS)[number];

/**
 * Fills the form with a recorded visit. An item gets a field only if parsing the form returns exactly that item;
 * others, such as a condition with notes, are left out of the fields.
 */
export function fillVisit(form: VisitForm, body: VisitBody): FilledVisit {
  let fields = fieldsOf(form, body);
  let compared = compare(form, fields, body);
  // Clearing a field may change how another is parsed, for example a reason for empty places.
  while (compared.invented.length > 0) {
    for (const field of compared.invented) fields = without(fields, field);
    compared = compare(form, fields, body);
  }
  const rest = Object.fromEntries(Object.entries(compared.left).filter(([, items]) => items.length > 0));
  return { fields, rest, restCount: Object.values(rest).flat().length };
}

/** Compares the parsed fields with the record: fields whose items are not recorded, and items without a field. */
function compare(
  form: VisitForm,
  fields: Fields,
  body: VisitBody,
): { invented: string[]; left: Record<string, object[]> } {
  const { body: shown, places } = readVisit(form, fields);
  const left: Record<string, object[]> = {};
  const invented: string[] = [];
  for (const list of LISTS) {
    const rest = [...((body[list] ?? []) as object[])];
    left[list] = rest;
    ((shown[list] ?? []) as object[]).forEach((item, index) => {
      const at = rest.findIndex((recorded) => canonical(recorded) === canonical(item));
      if (at === -1) invented.push(places.fieldOf([list, index])!);
      else rest.splice(at, 1);
    });
  }
  return { invented, left };
}

/** The fields without the given one and those that depend on it: a part number depends on its work. */
function without(fields: Fields, field: string): Record<string, string> {
  const whole = field.replace(/\.(?:what|state)$/, '');
  const kept = ([name]: [string, string]): boolean => name !== whole && !name.startsWith(`${whole}.`);
  return Object.fromEntries(Object.entries(fields).filter(kept));
}

/** An item without missing and default members, for comparison. */
function canonical(item: object): string {
  const defaults: Record<string, unknown> = { taken: 'as-found', repeat: 1, at: 'thinnest' };
  const entries = Object.entries(item).filter(([name, value]) => value != null && defaults[name] !== value);
  return JSON.stringify(Object.fromEntries(entries.sort(([a], [b]) => (a < b ? -1 : 1))));
}

function fieldsOf(form: VisitForm, body: VisitBody): Record<string, string> {
  const fields: Record<string, string> = {};
  const set = (field: string, value: string | number | null | undefined): void => {
    if (value != null) fields[field] = String(value);
  };
  for (const name of HEAD_TEXTS) set(name, body[name]);
  set('odometer', body.odometer?.value);
  set('odometerUnit', body.odometer?.unit ?? body.odometerReplaced?.newStart?.unit);
  if (body.odometerReplaced) {
    fields.odometerReplaced = 'on';
    set('odometerOldFinal', body.odometerReplaced.oldFinal?.value);
    set('odometerNewStart', body.odometerReplaced.newStart?.value);
  }
  for (const axle of form.axles) fillAxle(axle, body, set);
  if (body.work?.some(({ kind, axle }) => kind === 'fluid-changed' && axle == null))
    fields['fluid-changed'] = 'on';
  if (body.roadTest) fillRoadTest(body.roadTest, set);
  return fields;
}

type Set = (field: string, value: string | number | null | undefined) => void;

const yesOrNo = (answer: boolean | null | undefined): string | null =>
  answer == null ? null : answer ? 'yes' : 'no';

function fillRoadTest(
  { pulls, pulsation, noise, notes }: NonNullable<VisitBody['roadTest']>,
  set: Set,
): void {
  set('roadTest.pulls', pulls);
  set('roadTest.pulsation', yesOrNo(pulsation));
  set('roadTest.noise', yesOrNo(noise));
  set('roadTest.notes', notes);
}

function fillAxle(form: AxleForm, body: VisitBody, set: Set): void {
  fillReadings(form, body, set);
  fillConditions(form, body, set);
  fillWork(form, body, set);
  fillTorques(form, body, set);
}

function fillReadings({ axle, slots }: AxleForm, body: VisitBody, set: Set): void {
  const readings = (body.readings ?? []).filter((reading) => reading.axle === axle);
  for (const slot of slots) {
    const here = readings.filter((reading) => isOf(slot, reading)).sort((a, b) => a.repeat - b.repeat);
    if (here.length === 0) continue;
    set(slot.field, here.map(({ value }) => value).join(' '));
    set(groupField(axle, slot.group, 'unit'), itemAt(here, 0).unit);
    set(groupField(axle, slot.group, 'gauge'), itemAt(here, 0).gauge);
  }
  set(`${axle}.why`, body.notMeasured?.find((each) => each.axle === axle && each.pad != null)?.why);
}

function fillConditions({ axle, parts }: AxleForm, body: VisitBody, set: Set): void {
  const states = (body.conditions ?? []).filter((condition) => condition.axle === axle);
  for (const [index, { part, side, pad, state }] of states.slice(0, CONDITION_ROWS.length).entries()) {
    const value = [part, side, pad].filter(Boolean).join(' ');
    if (!parts.some((known) => known.value === value)) continue;
    set(`${axle}.condition.${index + 1}.what`, value);
    set(`${axle}.condition.${index + 1}.state`, state);
  }
}

function fillWork({ axle, work }: AxleForm, body: VisitBody, set: Set): void {
  for (const { kind, fits } of work) {
    const item = body.work?.find((each) => each.kind === kind && each.axle === axle);
    if (!item) continue;
    set(workField(axle, kind), 'on');
    set(`${workField(axle, kind)}.side`, item.side);
    if (fits !== null && 'new' in item && item.new)
      set(`${workField(axle, kind)}.new`, quantityText(item.new));
    if (fits !== null) set(`${workField(axle, kind)}.part`, item.part);
  }
}

function fillTorques({ axle, fasteners }: AxleForm, body: VisitBody, set: Set): void {
  const torques = (body.torques ?? []).filter((each) => each.axle === axle);
  for (const { fastener, side, position, value, unit } of torques) {
    const index = fasteners.indexOf(fastener);
    if (index === -1 || side == null || position == null) continue;
    set(torqueField(axle, index, side, position), value);
    set(`${axle}.torque.unit`, unit);
  }
}

function isOf({ kind, side, taken, lining, point }: Slot, reading: ReadingBody): boolean {
  const place = 'pad' in reading ? reading.pad : 'shoe' in reading ? reading.shoe : null;
  const isThinnest = !('at' in reading) || reading.at === 'thinnest';
  const at = 'point' in reading ? (reading.point ?? null) : null;
  return (
    reading.kind === kind &&
    isThinnest &&
    reading.side === side &&
    reading.taken === taken &&
    place === lining &&
    at === point
  );
}

/** The states in which a part may be found. */
export const FOUND_STATES = CONDITION_STATES;

/** The specification of the parts an axle's work may fit, in words for a hint; null if unknown. */
export function specifiedNew(vehicle: VehicleBody, axle: Axle, kind: WorkKind): string | null {
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
