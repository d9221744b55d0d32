import { itemAt } from './items.js';
/**
 * The check digit of a vehicle identification number, 49 CFR 565.15(c): letters transliterated by table III,
 * weighted by position by table IV and summed; position 9 has the remainder on division by 11 (10 is written X).
 */

const VALUES = '0123456789.ABCDEFGH..JKLMN.P.R..STUVWXYZ';
const WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2] as const;

/** @returns the digit (or X) that position 9 should have; the VIN's characters must already be legal (ISO 3779) */
export function vinCheckDigit(vin: string): string {
  const total = WEIGHTS.reduce<number>(
    (sum, weight, position) => sum + weight * (VALUES.indexOf(itemAt(vin, position)) % 10),
    0,
  );
  const remainder = total % 11;
  return remainder === 10 ? 'X' : String(remainder);
}

export function hasValidVinCheckDigit(vin: string): boolean {
  return vin[8] === vinCheckDigit(vin);
}
