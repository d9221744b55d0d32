/** Date formats of a spreadsheet. The caller names the file's format; it is never guessed, since 03/02 is ambiguous. */
export const DATE_FORMS = ['YYYY-MM-DD', 'DD.MM.YYYY', 'DD/MM/YYYY', 'MM/DD/YYYY'] as const;
export type DateForm = (typeof DATE_FORMS)[number];

interface Form {
  pattern: RegExp;
  /** An example shown to people. */
  example: string;
}

const FORMS: Record<DateForm, Form> = {
  'YYYY-MM-DD': { pattern: /^(?<year>\d{4})-(?<month>\d{2})-(?<day>\d{2})$/, example: '2026-03-02' },
  'DD.MM.YYYY': { pattern: /^(?<day>\d{1,2})\.(?<month>\d{1,2})\.(?<year>\d{4})$/, example: '02.03.2026' },
  'DD/MM/YYYY': { pattern: /^(?<day>\d{1,2})\/(?<month>\d{1,2})\/(?<year>\d{4})$/, example: '02/03/2026' },
  'MM/DD/YYYY': { pattern: /^(?<month>\d{1,2})\/(?<day>\d{1,2})\/(?<year>\d{4})$/, example: '03/02/2026' },
};

/** Parses dates of one format to RFC 3339 full-dates, or says what is expected. */
export function dateReader(form: DateForm): (text: string) => { value: string } | { detail: string } {
  const { pattern, example } = FORMS[form];
  return (text) => {
    const parts = pattern.exec(text)?.groups;
    if (!parts)
      return {
        detail: `“${text.slice(0, 40)}” is not a date as ${form}, such as ${example}${hintFor(text)}`,
      };
    const value = `${parts.year}-${parts.month!.padStart(2, '0')}-${parts.day!.padStart(2, '0')}`;
    const isReal = isDate(value);
    return isReal ? { value } : { detail: `“${text}” is not a calendar date; dates are read as ${form}` };
  };
}

/** Formats that an unreadable date matches, to suggest another format for the file. */
function hintFor(text: string): string {
  const others = DATE_FORMS.filter((form) => FORMS[form].pattern.test(text));
  return others.length === 0
    ? ''
    : `; if the file writes dates as ${others.join(' or ')}, say so when you import it (dates=${others[0]})`;
}

function isDate(text: string): boolean {
  const day = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}

/** A time of day as HH:MM. Spreadsheets may omit the leading zero or add seconds. */
export function toTime(text: string): string {
  const [, hours, minutes] = /^(\d{1,2}):(\d{2})(?::\d{2})?$/.exec(text) ?? [];
  return hours === undefined ? text : `${hours.padStart(2, '0')}:${minutes}`;
}
