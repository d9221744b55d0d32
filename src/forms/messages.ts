import type { Issue } from '../core/refusal.js';
import type { HistoryVisit } from '../core/history.js';
import { dateInWords, nearDateInWords, sentence } from '../core/words.js';
import { textIn, type FieldError, type Fields } from './entered.js';
import type { Places } from './places.js';

/** Field errors in words for the person who typed. */

const PART_NAMES: Record<string, string> = {
  'pad-thickness': 'a pad',
  'shoe-thickness': 'a shoe',
  'rotor-thickness': 'a rotor',
  'rotor-runout': 'a run-out',
  'drum-diameter': 'a drum',
};
const OUT_OF_BOUNDS = /^(\S+) must be from ([\d.]+) to ([\d.]+) mm; this is (-?[\d.,]+) mm(.*inches)?/;

/** `62 mm cannot be a pad. Was it 6.2?`, `1.081 mm cannot be a rotor. Was it read in inches?` */
function boundsMessage(typed: string, detail: string): string | null {
  const [, kind, min, max, mm, inInches] = OUT_OF_BOUNDS.exec(detail) ?? [];
  if (kind === undefined) return null;
  const name = PART_NAMES[kind] ?? 'that part';
  return `${mm} mm cannot be ${name}. ${inInches ? 'Was it read in inches?' : (slipOf(typed) ?? `It must be from ${min} to ${max} mm.`)}`;

  /** A tenth of a reading that is too large, if that fits: the decimal point may be missing. */
  function slipOf(text: string): string | null {
    const sent = Number(mm?.replaceAll(',', ''));
    const tenth = Number(text.replace(',', '.')) / 10;
    const fits = sent > Number(max) && sent / 10 >= Number(min) && sent / 10 <= Number(max);
    return fits && Number.isFinite(tenth) ? `Was it ${Number(tenth.toPrecision(6))}?` : null;
  }
}

const EVERYDAY: readonly [RegExp, string][] = [
  [/^must be a date/, 'Type the date, such as 2026-03-02.'],
  [/^is missing$/, 'Fill this in.'],
  [/must be a time of day/, 'Type the time as hours and minutes, such as 08:10.'],
  [/duplicates a reading/, 'This visit already has a reading of this place. Type it once.'],
  [/^one of externalId, registration and vin/, 'Type a registration, your own number or a VIN.'],
  [/^must name at least one axle/, 'Choose the brake of at least one axle.'],
  [/^must be 17 characters/, 'A VIN has 17 letters and digits, without I, O and Q.'],
  [/must be one of/, 'Choose one from the list.'],
];

export interface OdometerContext {
  visits: readonly Pick<HistoryVisit, 'id' | 'date'>[];
  today: string;
}

/** The reading that an odometer conflicts with: the visit before or after it. */
function odometerMessage(
  typed: string,
  detail: string,
  { visits, today }: OdometerContext,
): FieldError | null {
  const other = visits.find(({ id }) => detail.includes(id));
  if (!other) return null;
  const isBelow = detail.includes(' below ');
  const on = nearDateInWords(other.date, today);
  const words = isBelow
    ? `${typed} is less than on ${on}. Is a digit missing?`
    : `${typed} is more than on the later visit of ${dateInWords(other.date)}. Is there one digit too many?`;
  return { field: 'odometer', message: words, visitId: other.id };
}

/** Errors of a body, each at the field it was typed into; errors without a field stay separate. */
export function fieldErrors(
  issues: readonly Issue[],
  places: Places,
  fields: Fields,
  context: OdometerContext,
): FieldError[] {
  const errors = issues.map(({ path, detail }): FieldError => {
    const field = places.fieldOf(path) ?? '';
    const typed = textIn(fields, field) ?? '';
    const ofOdometer = path[0] === 'odometer' ? odometerMessage(typed, detail, context) : null;
    const everyday = EVERYDAY.find(([pattern]) => pattern.test(detail))?.[1];
    return ofOdometer ?? { field, message: boundsMessage(typed, detail) ?? everyday ?? sentence(detail) };
  });
  // Show one error per field.
  return errors.filter(
    ({ field }, index) => field === '' || errors.findIndex((other) => other.field === field) === index,
  );
}
