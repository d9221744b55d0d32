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
const OUT_OF_BOUNDS = /^(\S+) must be from ([\d.]+) to ([\d.]+) mm; this is ([\d.]+) mm$/;

/** `62 mm cannot be a pad. Was it 6.2?` */
function boundsMessage(typed: string, detail: string): string | null {
  const [, kind, least, most, mm] = OUT_OF_BOUNDS.exec(detail) ?? [];
  if (kind === undefined) return null;
  const name = PART_NAMES[kind] ?? 'that part';
  const tenth = Number(mm) / 10;
  const guess = tenth >= Number(least) && tenth <= Number(most) && Number(mm) > Number(most);
  const asTyped = Number(typed.replace(',', '.')) / 10;
  const question = guess && Number.isFinite(asTyped) ? ` Was it ${Number(asTyped.toPrecision(6))}?` : '';
  return `${Number(mm)} mm cannot be ${name}.${question || ` It must be from ${least} to ${most} mm.`}`;
}

const EVERYDAY: readonly [RegExp, string][] = [
  [/^must be a date|expected string, received undefined/, 'Type the date, such as 2026-03-02.'],
  [/must be a time of day/, 'Type the time as hours and minutes, such as 08:10.'],
  [/stand in the visit already|duplicates a reading/, 'This place is in the visit already. Type it once.'],
  [/^one of externalId, registration and vin/, 'Type a registration, a number of yours or a VIN.'],
  [/^must name at least one axle/, 'Say which brake at least one axle has.'],
  [/^must be 17 characters/, 'A VIN has 17 letters and digits, without I, O and Q.'],
  [/^Invalid option/, 'Choose one of the list.'],
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
    : `${typed} is more than on the later visit of ${dateInWords(other.date)}. Is there a digit too many?`;
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
