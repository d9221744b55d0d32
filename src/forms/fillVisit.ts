import { itemAt } from '../core/items.js';
import type { ReadingBody, VisitBody } from '../core/vocabulary/visit.js';
import { quantityText, type Fields } from './entered.js';
import { HEAD_TEXTS, LISTS, readVisit } from './readVisit.js';
import {
  CONDITION_ROWS,
  groupField,
  torqueField,
  workField,
  type AxleForm,
  type Slot,
  type VisitForm,
} from './visitForm.js';

/** Fills the visit form with a recorded visit. Whatever has no field is kept unchanged. */

/** The field values of a recorded visit, and the items without a field. */
export interface FilledVisit {
  fields: Record<string, string>;
  /** Members and items that the form cannot show; they stay unchanged. */
  rest: Record<string, unknown>;
  restCount: number;
}

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
