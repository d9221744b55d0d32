import { inWords } from '../rounding.js';
import type { LengthUnit } from '../vocabulary/terms.js';

const MM_PER_INCH = 25.4;

/** A figure in millimetres, followed by inches if the reading was in inches: `2 mm`, `2 mm (0.079 in)`. */
export function figureInWords(mm: number, unit: LengthUnit = 'mm', decimals = 4): string {
  const inMm = `${inWords(mm, decimals)} mm`;
  return unit === 'mm' ? inMm : `${inMm} (${inWords(mm / MM_PER_INCH, 3)} in)`;
}

/**
 * A length in the unit it was read in, followed by millimetres for inches: `2.1 mm`, `0.083 in (2.11 mm)`, `3/32 in
 * (2.38 mm)`.
 */
export function lengthInWords(mm: number, unit: LengthUnit = 'mm', decimals = 2): string {
  const inMm = `${inWords(mm, decimals)} mm`;
  if (unit === 'mm') return inMm;
  const inches = mm / MM_PER_INCH;
  return unit === 'in'
    ? `${inWords(inches, decimals + 1)} in (${inMm})`
    : `${inWords(32 * inches)}/32 in (${inMm})`;
}
