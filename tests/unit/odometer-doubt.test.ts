import { describe, expect, it } from 'vitest';
import { odometerConflict } from '../../src/core/odometerConflict.js';
import { CLEAR_DOUBT, doubtedReadings } from '../../src/core/odometerDoubt.js';
import { historyOf, km } from '../support/coreHistories.js';

type Reading = [date: string, value: number, unit?: 'km' | 'mi'];

const historyWith = (readings: readonly Reading[], began = true) =>
  historyOf(
    began ? { inService: { date: '2022-01-01', odometer: km(0) } } : {},
    readings.map(([date, value, unit = 'km']) => ({ date, odometer: { value, unit } })),
  );

// 49 km a day: 9,000 km every half-year.
const STEADY: Reading[] = [
  ['2022-07-05', 9000],
  ['2023-01-05', 18_000],
  ['2023-07-05', 27_000],
  ['2024-01-05', 36_000],
];

describe('odometer readings in doubt', () => {
  it.each<{ what: string; readings: Reading[]; began?: boolean; doubted: number[] }>([
    { what: 'no reading of a steady vehicle', readings: STEADY, doubted: [] },
    {
      what: 'no reading of a vehicle that doubles its pace',
      readings: [...STEADY, ['2024-07-05', 54_000]],
      doubted: [],
    },
    {
      what: 'no reading of a courier',
      readings: [
        ['2022-07-05', 90_000],
        ['2023-01-05', 180_000],
        ['2023-07-05', 270_000],
      ],
      doubted: [],
    },
    {
      what: 'no reading of a vehicle that became a taxi',
      readings: [
        ['2022-07-05', 3000],
        ['2023-01-05', 6000],
        ['2023-07-05', 36_000],
        ['2024-01-05', 66_000],
      ],
      doubted: [],
    },
    {
      what: 'no reading of a single long journey',
      readings: [
        ['2022-07-05', 3000],
        ['2022-07-15', 8000],
        ['2023-07-05', 12_000],
      ],
      doubted: [],
    },
    {
      what: 'no reading of a vehicle that stood for half a year',
      readings: [...STEADY, ['2024-07-05', 36_000]],
      doubted: [],
    },
    { what: 'a reading with a digit too many', readings: [...STEADY, ['2024-07-05', 450_000]], doubted: [4] },
    {
      what: 'a reading in km recorded in miles',
      readings: [...STEADY, ['2024-07-05', 45_000, 'mi']],
      doubted: [4],
    },
    {
      what: 'the second of two visits',
      readings: [
        ['2024-01-05', 36_000],
        ['2024-07-05', 450_000],
      ],
      began: false,
      doubted: [1],
    },
    {
      what: 'the wrong reading, once the next is taken',
      readings: [...STEADY, ['2024-07-05', 127_000], ['2025-01-05', 54_000]],
      doubted: [4],
    },
  ])('doubt falls on $what', ({ readings, began, doubted }) => {
    expect(doubtedReadings(historyWith(readings, began)).map(({ visitId }) => visitId)).toEqual(
      doubted.map((index) => `visit-${index + 1}`),
    );
  });

  it('odometer readings in doubt name the mistake that would explain them', () => {
    const slipOf = (reading: Reading) => doubtedReadings(historyWith([...STEADY, reading]))[0]!.slip;
    expect(slipOf(['2024-07-05', 450_000])).toEqual({ kind: 'digit-too-many', km: 45_000 });
    expect(slipOf(['2024-07-05', 45_000, 'mi'])!.kind).toBe('km-for-miles');
  });

  it('the doubt grows with the distance of a reading from the others', () => {
    const margins = [80_000, 100_000, 150_000, 400_000].map(
      (value) =>
        doubtedReadings(historyWith([...STEADY, ['2024-07-05', value], ['2025-01-05', 54_000]]))[0]!.margin,
    );
    expect(margins).toEqual([...margins].sort((a, b) => a - b));
    expect(margins[0]).toBeGreaterThan(CLEAR_DOUBT);
  });
});

describe('a new odometer reading that contradicts another', () => {
  it.each<{ what: string; readings: Reading[]; began?: boolean; isTaken: boolean }>([
    {
      what: 'a reading with a digit too many',
      readings: [...STEADY, ['2024-07-05', 450_000], ['2025-01-05', 54_000]],
      isTaken: true,
    },
    {
      what: 'kilometres entered as miles',
      readings: [...STEADY, ['2024-07-05', 45_000, 'mi'], ['2025-01-05', 54_000]],
      isTaken: true,
    },
    {
      what: 'a reading as likely as the new one',
      readings: [
        ['2024-01-05', 36_000],
        ['2024-07-05', 35_000],
      ],
      isTaken: false,
    },
    { what: 'a steady history', readings: [...STEADY, ['2024-07-05', 35_000]], isTaken: false },
    { what: 'a longer steady history', readings: [...STEADY, ['2024-07-05', 4500]], isTaken: false },
    {
      what: 'the only other reading, because it is smaller',
      readings: [
        ['2023-09-10', 50_000],
        ['2024-03-10', 3000],
      ],
      isTaken: false,
    },
    {
      what: 'a reading in the other unit, as likely as the new one',
      readings: [
        ['2024-01-05', 22_000, 'mi'],
        ['2024-07-05', 28_000],
      ],
      isTaken: false,
    },
  ])('a contradicting reading is accepted or refused: against $what', ({ readings, isTaken }) => {
    const conflict = odometerConflict(historyWith(readings), `visit-${readings.length}`);
    expect(conflict === null).toBe(isTaken);
  });
});
