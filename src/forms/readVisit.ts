import { itemAt } from '../core/items.js';
import {
  DISTANCE_UNITS,
  LENGTH_UNITS,
  SIDES,
  TORQUE_UNITS,
  type Axle,
  type DistanceUnit,
  type LengthUnit,
  type TorqueUnit,
} from '../core/vocabulary/terms.js';
import {
  isChecked,
  readLength,
  readNumber,
  readOdometer,
  readQuantity,
  textIn,
  type Fields,
} from './entered.js';
import { Places } from './places.js';
import {
  CONDITION_ROWS,
  groupField,
  TORQUE_POSITIONS,
  torqueField,
  workField,
  type AxleForm,
  type Slot,
  type VisitForm,
} from './visitForm.js';

/** Converts what was typed into the visit form to the API's body. */

export const HEAD_TEXTS = ['date', 'time', 'workOrder', 'shop', 'technician', 'complaint', 'notes'] as const;

export const LISTS = ['readings', 'notMeasured', 'conditions', 'work', 'torques'] as const;
type List = (typeof LISTS)[number];

type Add = (list: List, item: unknown, field: string) => void;

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
