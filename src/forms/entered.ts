import type { LengthUnit } from '../core/vocabulary/terms.js';

/** Parses what people type into a form: decimal commas, grouped thousands, units after a number. */

/** A posted form, one text per field. */
export type Fields = Readonly<Record<string, string>>;

/** A field whose text cannot be accepted. */
export interface FieldError {
  field: string;
  /** One sentence: what is wrong and what is expected. */
  message: string;
  /** The visit to correct first, if it causes the error. */
  visitId?: string;
}

/** A field's text, trimmed; undefined if empty. */
export const textIn = (fields: Fields, field: string): string | undefined =>
  fields[field]?.trim() || undefined;

export const isChecked = (fields: Fields, field: string): boolean => fields[field] !== undefined;

const DECIMAL = /^[+-]?\d+(?:[.,]\d+)?$/;
const FRACTION = /^(\d+)\s*\/\s*(\d+)$/;

/** A number with a decimal point or comma; undefined if the text is not a number. */
export function readNumber(text: string): number | undefined {
  return DECIMAL.test(text) ? Number(text.replace(',', '.')) : undefined;
}

/** Digits in groups of three, as `33,415`, `33 415` or `33.415`: an odometer shows no thousandths. */
const GROUPED = /^\d{1,3}(?:[ .,'’\u00a0\u202f]\d{3})+$/;

/** An odometer reading; undefined if the text is not a number. */
export const readOdometer = (text: string): number | undefined =>
  GROUPED.test(text) ? Number(text.replace(/\D/g, '')) : readNumber(text);

/** A length, in inches possibly a fraction such as `9/32`; undefined if the text is not a length. */
export function readLength(text: string, unit: LengthUnit): number | undefined {
  const [, above, below] = (unit === 'in' && FRACTION.exec(text)) || [];
  return above !== undefined && Number(below) > 0 ? Number(above) / Number(below) : readNumber(text);
}

/** A length with its own unit, such as `11`, `11 mm` or `14/32 in`; millimetres by default. */
export function readQuantity(text: string): { value: number; unit: LengthUnit } | undefined {
  const [, number, unit] = /^([\d.,/\s]+?)\s*(mm|in|"|in\/32)?$/i.exec(text) ?? [];
  if (number === undefined) return undefined;
  const known = unit === '"' ? 'in' : ((unit?.toLowerCase() ?? 'mm') as LengthUnit);
  const value = readLength(number, known);
  return value === undefined ? undefined : { value, unit: known };
}

export const quantityText = ({ value, unit }: { value: number; unit: string }): string =>
  unit === 'mm' ? String(value) : `${value} ${unit}`;
