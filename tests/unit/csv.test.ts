import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withGuard, withoutGuard } from '../../src/core/spreadsheet/guard.js';
import { dueSoonCsv, unassessedCsv } from '../../src/render/csv.js';
import type { UnassessedAxle } from '../../src/store/contract/reports.js';
import { dueAxle } from '../support/due.js';

const DUE = dueAxle({ vehicleId: 'v-1' });
const UNASSESSED: UnassessedAxle = {
  vehicleId: 'v-2',
  externalId: null,
  registration: 'LM 22',
  fleet: null,
  model: null,
  axle: 'rear',
  lastReadingDate: null,
  reason: {
    field: 'date',
    code: 'no-readings',
    detail: 'no pad of this axle has been measured: measure first',
  },
};
const DUE_HEADER =
  'vehicleId,externalId,registration,fleet,model,axle,overdue,chance,earlyDate,medianDate,lateDate,governingPad,limitMm,limitSource,lastReadingDate,part';

const rowsOf = (csv: string): Record<string, string>[] =>
  parse(csv, { columns: true, record_delimiter: '\r\n' });

describe('the due-soon report as CSV', () => {
  it('the due-soon report as CSV has the columns of the report in order, also when empty', () => {
    expect(dueSoonCsv([])).toBe(`${DUE_HEADER}\r\n`);
    expect(dueSoonCsv([DUE]).split('\r\n')[0]).toBe(DUE_HEADER);
  });

  it('the due-soon report as CSV has a row for each axle, ended by CRLF as RFC 4180 requires', () => {
    const lines = dueSoonCsv([DUE, { ...DUE, vehicleId: 'v-3', overdue: true }]).split('\r\n');
    expect(lines).toEqual([
      DUE_HEADER,
      'v-1,FD-1007,KR 4471,north-depot,parcel-van-3t5,front,false,0.1234,2026-04-01,2026-05-01,,left inner,2,maker,2026-03-02,pads',
      'v-3,FD-1007,KR 4471,north-depot,parcel-van-3t5,front,true,0.1234,2026-04-01,2026-05-01,,left inner,2,maker,2026-03-02,pads',
      '',
    ]);
  });

  it('unknown values are empty cells', () => {
    const [row] = rowsOf(dueSoonCsv([{ ...DUE, governingPad: null, limitMm: null, externalId: null }]));
    expect(row).toMatchObject({ governingPad: '', limitMm: '', externalId: '', lateDate: '' });
  });

  it('cells that would break a row are quoted, and read back unchanged', () => {
    const fleet = 'north, "old"\r\ndepot';
    const csv = dueSoonCsv([{ ...DUE, fleet }]);
    expect(csv).toContain('"north, ""old""\r\ndepot"');
    expect(rowsOf(csv)).toMatchObject([{ fleet }]);
  });

  it('the due-soon report as CSV has no byte order mark, which would become part of the first name', () => {
    expect(dueSoonCsv([DUE]).startsWith('vehicleId,')).toBe(true);
  });

  it('the due-soon report as CSV keeps letters of any script', () => {
    expect(rowsOf(dueSoonCsv([{ ...DUE, fleet: 'Åre – зима 東' }]))).toMatchObject([
      { fleet: 'Åre – зима 東' },
    ]);
  });

  // OWASP, "CSV Injection": a spreadsheet runs a cell that begins with one of these.
  it.each([
    ['=1+2', "'=1+2"],
    ['+1', "'+1"],
    ['-1', "'-1"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['\t=1', "'\t'=1"],
    ['\r=1', "'\r'=1"],
    ['\n=1', "'\n'=1"],
    ['=cmd|" /C calc"!A0', `'=cmd|" /C calc"!A0`],
    ["'=1", "''=1"],
    // Another locale splits the line at one of these, within quotation marks too.
    ['a;=1+1', "a;'=1+1"],
    ['a;"=1+1"', `a;'"=1+1"`],
    ['a\t-1', "a\t'-1"],
    ['a|@x', "a|'@x"],
    ['a\r\n+1', "a\r\n'+1"],
  ])('the formula in %j is disarmed', (fleet, cell) => {
    const [row] = rowsOf(dueSoonCsv([{ ...DUE, fleet }]));
    expect(row!.fleet).toBe(cell);
  });

  it.each(['a; b', 'worn, -2 mm left', 'AB-12', "driver's side", 'first line\n\nthird line'])(
    'a harmless text such as %j is unchanged',
    (fleet) => {
      expect(rowsOf(dueSoonCsv([{ ...DUE, fleet }]))).toMatchObject([{ fleet }]);
    },
  );

  it('numbers stay numbers, negative ones too', () => {
    const [row] = rowsOf(dueSoonCsv([{ ...DUE, limitMm: -0.5 }]));
    expect(row!.limitMm).toBe('-0.5');
  });

  it('an import restores the exact text', () => {
    const pieces = fc.constantFrom("'", '"', '=', '-', '@', '＝', ';', '|', '\t', '\r', '\n', 'a', ' ');
    fc.assert(
      fc.property(fc.string({ unit: pieces, maxLength: 12 }), (text) => {
        expect(withoutGuard(withGuard(text))).toBe(text);
        for (const piece of withGuard(text).split(/[;|\t\r\n]/)) expect(piece).not.toMatch(/^"*[=\-@＝]/);
      }),
      { seed: 20_260_310, numRuns: 2000 },
    );
  });

  it('formulas are disarmed in every column that callers fill', () => {
    const formula = '=1+2';
    const named = { externalId: formula, registration: formula, fleet: formula, model: formula };
    const [row] = rowsOf(dueSoonCsv([{ ...DUE, ...named }]));
    expect(Object.values(row!).filter((cell) => cell.includes(formula))).toEqual(
      Array(4).fill(`'${formula}`),
    );
  });
});

describe('the unassessed report as CSV', () => {
  it('the unassessed report as CSV gives the reason by code and in words', () => {
    expect(unassessedCsv([UNASSESSED])).toBe(
      'vehicleId,externalId,registration,fleet,model,axle,lastReadingDate,reasonCode,reason\r\n' +
        'v-2,,LM 22,,,rear,,no-readings,no pad of this axle has been measured: measure first\r\n',
    );
  });
});
