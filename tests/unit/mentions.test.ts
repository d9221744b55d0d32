import { describe, expect, it } from 'vitest';
import { containsName, isName, namesIn, quotesName } from '../../src/core/mentions.js';

const LONG = `the van of ${'Z'.repeat(60)}`;
const names = namesIn([
  { externalId: '12', registration: 'KR 4471', vin: null },
  { externalId: LONG, registration: '—', vin: '1M8GDM9AXKP042788' },
]);

describe('a vehicle’s names', () => {
  it('match as whole texts: the externalId exactly, registration and VIN by letters and digits', () => {
    for (const text of ['12', 'kr-4471', 'KR4471', '1m8gdm9axkp042788', '—', LONG])
      expect([text, isName(names, text)]).toEqual([text, true]);
    for (const text of ['1-2', '120', 'KR 44711', 'AKR 4471', '', '–', LONG.toLowerCase()])
      expect([text, isName(names, text)]).toEqual([text, false]);
  });

  it('are found in every wording that names a vehicle, also those of earlier versions', () => {
    for (const message of [
      'no vehicle has the number (externalId) or registration kr-4471',
      'no vehicle has the externalId or registration kr-4471',
      '2 vehicles are called 12',
      '2 vehicles are called 12: give the externalId, or number the vehicle in the column vehicleNumber',
      '2 vehicles are called 12: give its own number (externalId), or number the vehicle in the column vehicleNumber',
    ])
      expect([message, quotesName(names, message)]).toEqual([message, true]);
    for (const message of ['12 vehicles are called 13', 'no vehicle has the externalId or registration 12 a'])
      expect([message, quotesName(names, message)]).toEqual([message, false]);
  });

  it('are found in quoted cells, also where the cell was cut', () => {
    for (const message of [
      '“12” is not a number',
      `“${LONG.slice(0, 40)}…” is not a number`,
      `“${LONG.slice(0, 40)}” is not a date as YYYY-MM-DD`,
      '“kr 4471” has “,” before its decimals',
      '“KR “4471”” is not a number',
    ])
      expect([message, quotesName(names, message)]).toEqual([message, true]);
    for (const message of ['“…” is not a number', '“112” is not a number', 'this row has 12 cells'])
      expect([message, quotesName(names, message)]).toEqual([message, false]);
  });

  it('are found in raw text only where no letter or digit continues them', () => {
    for (const text of ['{"registration": kr-4471}', 'x;12;y', '—'])
      expect([text, containsName(names, text)]).toEqual([text, true]);
    for (const text of ['kr-44712', 'x;120;y', 'AKR 4471'])
      expect([text, containsName(names, text)]).toEqual([text, false]);
  });
});
