import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withoutGuard } from '../../src/core/spreadsheet/guard.js';
import { text } from '../../src/core/vocabulary/quantities.js';
import { dueSoonCalendar } from '../../src/render/calendar.js';
import { dueSoonCsv, measureFirstCsv, unassessedCsv } from '../../src/render/csv.js';
import { parseCalendar, valueOf } from '../support/calendars.js';
import { dueAxle } from '../support/due.js';

const SEED = { seed: 20_260_310, numRuns: 400 };
/** Texts in the form the service stores them, often hostile ones. */
const hostile = fc
  .oneof(
    fc.string({ unit: 'binary', minLength: 1, maxLength: 100 }),
    fc.string({ unit: 'grapheme', minLength: 1, maxLength: 100 }),
    fc
      .array(
        fc.constantFrom(
          ...'=+-@\t\r\n,;:"\'\\|^%',
          '\r\n',
          '\\n',
          'é',
          '東',
          '😀',
          'BEGIN:VEVENT',
          'END:',
          'a ',
        ),
        {
          minLength: 1,
          maxLength: 40,
        },
      )
      .map((pieces) => pieces.join('').slice(0, 100)),
  )
  .map((sent) => text(100).safeParse(sent))
  .filter(({ success }) => success)
  .map(({ data }) => data!);
const named = fc.record({ externalId: hostile, registration: hostile, fleet: hostile, model: hostile });

/** iCalendar treats all line ends in a text alike. */
const inLines = (sent: string): string => sent.replace(/\r\n|\r|\n/g, '\n');

describe('texts of a vehicle in calendars and spreadsheets', () => {
  it('a calendar event reads back unchanged, and every line is valid', () => {
    const frame = { today: '2026-03-10', horizon: '2026-05-09', now: new Date('2026-03-10T12:00:00Z') };
    fc.assert(
      fc.property(named, hostile, (names, name) => {
        const { calendar, events } = parseCalendar(dueSoonCalendar([dueAxle(names)], { ...frame, name }));
        expect(events).toHaveLength(1);
        const { registration, externalId, fleet, model } = names;
        expect(valueOf(events[0]!, 'summary')).toBe(
          inLines(`${registration} (${externalId}): fit front pads`),
        );
        expect(valueOf(events[0]!, 'description')).toContain(inLines(`\nFleet: ${fleet}; model: ${model}\n`));
        expect(valueOf(calendar, 'name')).toBe(inLines(name));
      }),
      SEED,
    );
  });

  it('a row of a spreadsheet reads back unchanged, and no cell is a formula', () => {
    const { overdue: _overdue, changedAt: _changedAt, ...forecast } = dueAxle();
    const { vehicleId, axle } = forecast;
    fc.assert(
      fc.property(named, (names) => {
        const reason = { field: 'date', code: 'no-limit', detail: names.model };
        for (const csv of [
          dueSoonCsv([dueAxle(names)]),
          measureFirstCsv([{ ...forecast, ...names, reasons: [{ code: 'x', detail: names.model }] }]),
          unassessedCsv([{ vehicleId, axle, lastReadingDate: null, reason, ...names }]),
        ]) {
          const rows = parse(csv, { record_delimiter: '\r\n', columns: true }) as Record<string, string>[];
          expect(rows).toHaveLength(1);
          for (const [column, stored] of Object.entries(names)) {
            const cell = rows[0]![column]!;
            expect(withoutGuard(cell)).toBe(stored);
            // Also for a program that splits the line at characters other than commas.
            for (const piece of cell.split(/[;|\t\r\n]/))
              expect(piece).not.toMatch(/^"*[=+\-@\uff1d\uff0b\uff0d\uff20]/);
          }
        }
      }),
      SEED,
    );
  });
});

describe('numbers in CSV', () => {
  it('the numbers in CSV stay numbers, also below zero', () => {
    const [row] = parse(dueSoonCsv([dueAxle({ limitMm: -1.5, chance: 1e-7 })]), { columns: true }) as Record<
      string,
      string
    >[];
    expect([row!.limitMm, Number(row!.chance)]).toEqual(['-1.5', 1e-7]);
  });
});
