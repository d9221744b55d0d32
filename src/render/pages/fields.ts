import { html } from 'ghtml';
import { each } from './layout.js';

/** Form fields. They always keep what was typed, with errors next to it. */

export interface FieldError {
  field: string;
  message: string;
  visitId?: string;
}

/** A form's state: field values and errors. */
export interface Filled {
  values: Readonly<Record<string, string>>;
  errors: readonly FieldError[];
}

export const errorOf = ({ errors }: Filled, field: string): FieldError | undefined =>
  errors.find((error) => error.field === field);

const idOf = (field: string): string => `f-${field.replaceAll(/[^\w-]/g, '-')}`;
const errorId = (field: string): string => `${idOf(field)}-error`;
const hintId = (field: string): string => `${idOf(field)}-hint`;

const attributes = (pairs: Record<string, string | number | boolean | undefined>): string =>
  Object.entries(pairs)
    .filter(([, value]) => value !== undefined && value !== false)
    .map(([name, value]) => (value === true ? html`!${name}` : html`!${name}="${String(value)}"`))
    .join(' ');

/** Links an input to its hint and error for screen readers. */
function describedBy(filled: Filled, field: string, hasHint: boolean): Record<string, string | undefined> {
  const error = errorOf(filled, field);
  const ids = [hasHint ? hintId(field) : null, error ? errorId(field) : null].filter((id) => id !== null);
  return {
    'aria-describedby': ids.length > 0 ? ids.join(' ') : undefined,
    'aria-invalid': error ? 'true' : undefined,
  };
}

/** A field's error; empty if there is none. */
export function errorText(filled: Filled, field: string): string {
  const error = errorOf(filled, field);
  if (!error) return '';
  const way =
    error.visitId === undefined
      ? ''
      : html` If this one is right, <a href="/visits/${error.visitId}/correct">correct that visit</a> first.`;
  return html`<p class="error" id="${errorId(field)}">Check: ${error.message}!${way}</p>`;
}

export const wrongClass = (filled: Filled, field: string): string => (errorOf(filled, field) ? 'wrong' : '');

export interface InputOptions {
  type?: string;
  mode?: 'numeric' | 'decimal' | 'text';
  hint?: string;
  required?: boolean;
  max?: string;
  maxlength?: number;
  list?: string;
  autocomplete?: string;
}

export function input(filled: Filled, field: string, options: InputOptions = {}): string {
  const { type = 'text', mode, hint, required, max, maxlength, list, autocomplete = 'off' } = options;
  return html`<input
    !${attributes({
      id: idOf(field),
      name: field,
      type,
      inputmode: mode,
      value: filled.values[field] ?? '',
      required,
      max,
      maxlength,
      list,
      autocomplete,
      ...describedBy(filled, field, hint !== undefined),
    })}
  />`;
}

const hintText = (field: string, hint: string | undefined): string =>
  hint === undefined ? '' : html`<span class="hint" id="${hintId(field)}">${hint}</span>`;

/** A label above an input, with a hint between them. */
export function textField(filled: Filled, field: string, label: string, options: InputOptions = {}): string {
  return html`<div class="field ${wrongClass(filled, field)}">
    <label for="${idOf(field)}">${label}</label>
    !${hintText(field, options.hint)} !${input(filled, field, options)} !${errorText(filled, field)}
  </div>`;
}

export function areaField(filled: Filled, field: string, label: string): string {
  return html`<div class="field ${wrongClass(filled, field)}">
    <label for="${idOf(field)}">${label}</label>
    <textarea !${attributes({ id: idOf(field), name: field, rows: 2, ...describedBy(filled, field, false) })}>
${filled.values[field] ?? ''}</textarea>
    !${errorText(filled, field)}
  </div>`;
}

export type Option = readonly [value: string, words: string];

export function select(filled: Filled, field: string, options: readonly Option[], label?: string): string {
  const chosen = filled.values[field] ?? options[0]?.[0];
  return html`<select
    !${attributes({ id: idOf(field), name: field, 'aria-label': label, ...describedBy(filled, field, false) })}
  >
    !${each(options, ([value, words]) => html`<option !${attributes({ value, selected: value === chosen })}>${words}</option>`)}
  </select>`;
}

export function selectField(
  filled: Filled,
  field: string,
  label: string,
  options: readonly Option[],
  hint?: string,
): string {
  return html`<div class="field ${wrongClass(filled, field)}">
    <label for="${idOf(field)}">${label}</label>
    !${hintText(field, hint)} !${select(filled, field, options)} !${errorText(filled, field)}
  </div>`;
}

/** A measurement: place before the field, unit after it, last reading below its name. */
export function measureField(
  filled: Filled,
  field: string,
  { label, hint, unit }: { label: string; hint?: string; unit: string },
): string {
  return html`<div class="measure ${wrongClass(filled, field)}">
    <label for="${idOf(field)}">${label} !${hintText(field, hint)}</label>
    !${input(filled, field, { mode: 'decimal', hint })}
    <span class="soft">${unit}</span>
    !${errorText(filled, field)}
  </div>`;
}

/** Small fields in a row, each below its own name. */
export function smallField(filled: Filled, field: string, label: string, group: string): string {
  return html`<div class="${wrongClass(filled, field)}">
    <label for="${idOf(field)}"><span class="away">${group}, </span>${label}</label>
    !${input(filled, field, { mode: 'decimal' })} !${errorText(filled, field)}
  </div>`;
}

export function checkbox(filled: Filled, field: string, words: string): string {
  const checked = filled.values[field] !== undefined;
  return html`<label class="choice"
    ><input
      !${attributes({ type: 'checkbox', id: idOf(field), name: field, value: 'on', checked, ...describedBy(filled, field, false) })}
    />
    ${words}</label
  >`;
}

export function radios(filled: Filled, field: string, legend: string, options: readonly Option[]): string {
  return html`<fieldset class="${wrongClass(filled, field)}" id="${idOf(field)}">
    <legend>${legend}</legend>
    <div class="radios">
      !${each(
        options,
        ([value, words]) =>
          html`<label class="choice"
            ><input
              !${attributes({ type: 'radio', name: field, value, checked: filled.values[field] === value })}
            />
            ${words}</label
          >`,
      )}
    </div>
    !${errorText(filled, field)}
  </fieldset>`;
}

/**
 * A collapsible section, initially open if it contains a value or an error.
 *
 * @param fields the fields inside
 * @param known further text for the summary, such as a limit
 */
export function section(
  filled: Filled,
  {
    title,
    fields,
    known,
    inner,
  }: { title: string; fields: readonly string[]; known?: string | null; inner: string },
): string {
  const isUsed = fields.some((field) => (filled.values[field] ?? '') !== '' || errorOf(filled, field));
  const words = [isUsed ? null : 'nothing entered', known].filter((part) => part != null).join('; ');
  return html`<details !${isUsed ? 'open' : ''}>
    <summary>${title} <span class="hint">${words}</span></summary>
    !${inner}
  </details>`;
}

/**
 * The error summary at the top of a rejected form, in the order of the form's fields, with links to them.
 *
 * @param form the form's HTML; a message without a place in it is shown here
 * @param labels the fields' names as people see them
 */
export function refusal(
  errors: readonly FieldError[],
  labelOf: (field: string) => string | null,
  form: string,
): string {
  if (errors.length === 0) return '';
  const placeOf = ({ field }: FieldError): number => form.indexOf(`id="${idOf(field)}"`);
  // A field shows its first error only.
  const inOrder = errors
    .filter(
      ({ field }, index) => field === '' || errors.findIndex((other) => other.field === field) === index,
    )
    .sort((a, b) => placeOf(a) - placeOf(b));
  const count = inOrder.length === 1 ? '1 entry' : `${inOrder.length} entries`;
  return html`<section class="refused" role="alert" tabindex="-1" id="refused">
    <h2>Not saved: ${count} to check.</h2>
    <p>Everything you typed is still here.</p>
    <ul>
      !${each(inOrder, (error) => {
        const { field, message } = error;
        const label = labelOf(field);
        if (label === null || placeOf(error) === -1)
          return html`<li>${label === null ? message : `${label}: ${message}`}</li>`;
        const isSaidThere = form.includes(`id="${errorId(field)}"`);
        return html`<li><a href="#${idOf(field)}">${label}</a>${isSaidThere ? '' : ` ${message}`}</li>`;
      })}
    </ul>
  </section>`;
}

/** Leads from a vehicle's form back to its sheet. */
export const wayBack = (vehicleId: string, name: string): string =>
  html`<p class="alone"><a href="/vehicles/${vehicleId}">Back to ${name} without saving</a></p>`;
