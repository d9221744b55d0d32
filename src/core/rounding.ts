/** Rounding is for results only, never for intermediate values. */

export function round(value: number, decimals: number): number {
  // Adding 0 turns −0 into 0.
  return Number(value.toFixed(decimals)) + 0;
}

/** Sums and differences of readings, mm: enough decimals for any gauge, few enough to remove binary noise. */
export const roundMm = (mm: number): number => round(mm, 6);
/** A forecast thickness, mm. */
export const roundForecastMm = (mm: number): number => round(mm, 3);
/** A rate, mm per 1000 km. */
export const roundRate = (rate: number): number => round(rate, 5);
export const roundKm = (km: number): number => round(km, 1);
/** Rounds down, so that no chance is reported as reached too early; the margin absorbs binary noise. */
export const roundChance = (chance: number): number =>
  Math.min(1, Math.max(0, Math.floor(chance * 1e4 + 1e-6) / 1e4));

/** A dozen decimals: more than any caller asks for, fewer than show binary noise. */
const GROUPED = new Intl.NumberFormat('en', { maximumFractionDigits: 12 });

/** A number as people read it, with separated thousands: `20,000`, `0.05`. Formats every number in a text. */
export const inWords = (value: number, decimals = 2): string => GROUPED.format(round(value, decimals));
