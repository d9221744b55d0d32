import { html } from 'ghtml';
import { axleInWords, capital, termInWords } from '../../core/words.js';
import type { Axle } from '../../core/vocabulary/terms.js';
import { CHOICES, FORM_AXLES, SPEC_FIELDS, specField, TORQUE_ROWS } from '../../forms/vehicleForm.js';
import {
  checkbox,
  refusal,
  section,
  selectField,
  textField,
  wayBack,
  type Filled,
  type Option,
} from './fields.js';
import { each, type Made } from './layout.js';

/** The form that records or changes a vehicle. */

export interface VehicleFormPage extends Filled {
  title: string;
  action: string;
  once: string;
  /** The vehicle being changed; null for a new one. */
  known: { id: string; name: string; version: string } | null;
  fleets: readonly string[];
  models: readonly string[];
  today: string;
}

const options = (values: readonly string[], none: string): Option[] => [
  ['', none],
  ...values.map((value): Option => [value, termInWords(value)]),
];
const POWERTRAIN_WORDS: Option[] = [
  ['', 'not known'],
  ...CHOICES.POWERTRAINS.map((value): Option => [
    value,
    value === 'none' ? 'none: a trailer' : termInWords(value),
  ]),
];

export function vehicleFormPage(page: VehicleFormPage): Made {
  const { title, action, once, known } = page;
  const form = html`<form class="narrow" method="post" action="${action}" novalidate>
    <input type="hidden" name="once" value="${once}" />
    !${known === null ? '' : html`<input type="hidden" name="version" value="${known.version}" />`}
    !${identity(page)} !${each(FORM_AXLES.slice(0, 2), (axle) => axleSection(page, axle))}
    !${section(page, {
      title: 'Axles of a trailer',
      fields: FORM_AXLES.slice(2).flatMap((axle) => axleFieldNames(axle)),
      inner: each(FORM_AXLES.slice(2), (axle) => axleSection(page, axle)),
    })}
    <p class="field"><button class="main wide" type="submit">Save the vehicle</button></p>
    <p class="small soft">Saving twice records it once. Everything can be changed later.</p>
    !${known === null ? '' : wayBack(known.id, known.name)}
  </form>`;
  return { title, main: html`!${refusal(page.errors, labelOf, form)} !${form}` };
}

function identity(page: VehicleFormPage): string {
  const { fleets, models, today } = page;
  return html`<section class="part">
    <h2>Vehicle</h2>
    <p class="soft">Enter at least a registration, a number or a VIN. The rest improves the forecast.</p>
    <div class="fields">
      !${textField(page, 'registration', 'Registration', { maxlength: 20 })}
      !${textField(page, 'externalId', 'Your number for it', { maxlength: 100 })}
    </div>
    !${textField(page, 'vin', 'VIN', { maxlength: 30 })}
    !${textField(page, 'description', 'Description', { maxlength: 500, hint: 'such as long-wheelbase parcel van' })}
    <div class="fields">
      !${textField(page, 'model', 'Model', { maxlength: 100, list: 'models', hint: 'vehicles of one model share what is learned' })}
      !${textField(page, 'fleet', 'Fleet', { maxlength: 100, list: 'fleets' })}
    </div>
    <datalist id="models">!${each(models, (model) => html`<option value="${model}"></option>`)}</datalist>
    <datalist id="fleets">!${each(fleets, (fleet) => html`<option value="${fleet}"></option>`)}</datalist>
    !${selectField(page, 'powertrain', 'Powertrain', POWERTRAIN_WORDS)}
    !${textField(page, 'inServiceDate', 'First on the road', { type: 'date', max: today, hint: 'with its first pads and rotors' })}
    <div class="fields">
      !${textField(page, 'inServiceOdometer', 'Odometer then', { mode: 'decimal' })}
      !${selectField(page, 'odometerUnit', 'Unit', [
        ['km', 'km'],
        ['mi', 'miles'],
      ])}
    </div>
    !${section(page, {
      title: 'Mass and brake system',
      fields: ['grossMass', 'regenerative', 'brakeByWire', 'electricParkingBrake'],
      inner: html`!${textField(page, 'grossMass', 'Gross mass, kg', { mode: 'numeric' })}
      !${checkbox(page, 'regenerative', 'Regenerative braking')}
      !${checkbox(page, 'electricParkingBrake', 'Electric parking brake')}
      !${checkbox(page, 'brakeByWire', 'Brake-by-wire')}`,
    })}
  </section>`;
}

const axleFieldNames = (axle: Axle): string[] => [
  ...['brake', 'actuation', 'lining', 'steered'].map((name) => `${axle}.${name}`),
  ...[...SPEC_FIELDS.disc, ...SPEC_FIELDS.drum].map((spec) => specField(axle, spec)),
];

function axleSection(page: VehicleFormPage, axle: Axle): string {
  return html`<section class="part brake">
    <h2>${capital(axleInWords(axle))}</h2>
    !${selectField(page, `${axle}.brake`, 'Brake', [
      ['', 'no brake or no such axle'],
      ['disc', 'disc'],
      ['drum', 'drum'],
    ])}
    !${specs(page, axle, 'disc')} !${specs(page, axle, 'drum')}
    !${section(page, {
      title: 'More about the axle',
      fields: [
        `${axle}.actuation`,
        `${axle}.lining`,
        `${axle}.steered`,
        ...TORQUE_ROWS.map((row) => `${axle}.torque.${row}.fastener`),
      ],
      inner: html`<div class="fields">
          !${selectField(page, `${axle}.actuation`, 'Actuation', options(CHOICES.ACTUATIONS, 'not known'))}
          !${selectField(page, `${axle}.lining`, 'Lining', options(CHOICES.LININGS, 'not known'))}
        </div>
        !${checkbox(page, `${axle}.steered`, 'Steered')}
        !${selectField(page, `${axle}.indicatorType`, 'Wear indicator', options(CHOICES.WEAR_INDICATOR_TYPES, 'not known'))}
        <h3>Torques <span class="hint">as the maker specifies them, N·m</span></h3>
        !${each(TORQUE_ROWS, (row) => torqueRow(page, `${axle}.torque.${row}`))}`,
    })}
  </section>`;
}

/** The stylesheet shows those of the chosen brake. */
const specs = (page: VehicleFormPage, axle: Axle, brake: 'disc' | 'drum'): string =>
  html`<div class="specs ${brake}">
    <p class="soft">
      In mm, or with a unit of their own, such as 14/32 in. Leave empty what you do not know.
    </p>
    <div class="fields">
      !${each(SPEC_FIELDS[brake], (spec) => textField(page, specField(axle, spec), spec.words, { mode: 'text', hint: spec.hint }))}
    </div>
  </div>`;

const torqueRow = (page: VehicleFormPage, field: string): string =>
  html`<div class="fields">
    !${textField(page, `${field}.fastener`, 'Fastener', { maxlength: 60 })}
    !${textField(page, `${field}.value`, 'Torque', { mode: 'decimal' })}
    !${textField(page, `${field}.tolerance`, 'Tolerance ±', { mode: 'decimal' })}
  </div>`;

const SIMPLE: Record<string, string> = {
  registration: 'Registration, number or VIN',
  externalId: 'Your number for it',
  vin: 'VIN',
  description: 'Description',
  model: 'Model',
  fleet: 'Fleet',
  powertrain: 'Powertrain',
  inServiceDate: 'First on the road',
  inServiceOdometer: 'Odometer then',
  grossMass: 'Gross mass',
};

function labelOf(field: string): string | null {
  if (SIMPLE[field] !== undefined) return SIMPLE[field];
  const axle = FORM_AXLES.find((name) => field.startsWith(`${name}.`));
  if (!axle) return null;
  const spec = [...SPEC_FIELDS.disc, ...SPEC_FIELDS.drum].find((each) => specField(axle, each) === field);
  const torque = /\.torque\.(\d+)\./.exec(field);
  const what = spec ? spec.words.toLowerCase() : torque ? `torque ${torque[1]}` : 'brake';
  return `${capital(axleInWords(axle))}: ${what}`;
}
