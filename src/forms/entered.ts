import type { LengthUnit } from '../core/vocabulary/terms.js';

/** What people type into a form, read as they mean it: decimal commas, thousands set apart, units behind a number. */

/** A posted form: one text a field. */
export type Fields = Readonly<Record<string, string>>;

/** A field that cannot be taken as it was typed. */
export interface FieldError {
  field: string;
  /** One sentence that says what is wrong and what is expected. */
  message: string;
  /** A visit to correct first, where that is what stands in the way. */
  visitId?: string;
}

/** The text of a field without the blanks around it; undefined where nothing was typed. */
export const textIn = (fields: Fields, field: string): string | undefined =>
  fields[field]?.trim() || undefined;

export const isChecked = (fields: Fields, field: string): boolean => fields[field] !== undefined;

const DECIMAL = /^[+-]?\d+(?:[.,]\d+)?$/;
const FRACTION = /^(\d+)\s*\/\s*(\d+)$/;

/** A number with a decimal point or comma; undefined where the text is none. */
export function readNumber(text: string): number | undefined {
  return DECIMAL.test(text) ? Number(text.replace(',', '.')) : undefined;
}

/** Digits in threes, as `33,415`, `33 415` or `33.415`: an odometer has no use for thousandths. */
const GROUPED = /^\d{1,3}(?:[ .,'’\u00a0\u202f]\d{3})+$/;

/** An odometer reading; undefined where the text is none. */
export const readOdometer = (text: string): number | undefined =>
  GROUPED.test(text) ? Number(text.replace(/\D/g, '')) : readNumber(text);

/** A length, which in inches may be a fraction such as `9/32`; undefined where the text is none. */
export function readLength(text: string, unit: LengthUnit): number | undefined {
  const [, above, below] = (unit === 'in' && FRACTION.exec(text)) || [];
  return above !== undefined && Number(below) > 0 ? Number(above) / Number(below) : readNumber(text);
}

/** A length with a unit of its own, such as `11`, `11 mm` or `14/32 in`; millimetres where it names none. */
export function readQuantity(text: string): { value: number; unit: LengthUnit } | undefined {
  const [, number, unit] = /^([\d.,/\s]+?)\s*(mm|in|"|in\/32)?$/i.exec(text) ?? [];
  if (number === undefined) return undefined;
  const known = unit === '"' ? 'in' : ((unit?.toLowerCase() ?? 'mm') as LengthUnit);
  const value = readLength(number, known);
  return value === undefined ? undefined : { value, unit: known };
}

export const quantityText = ({ value, unit }: { value: number; unit: string }): string =>
  unit === 'mm' ? String(value) : `${value} ${unit}`;
