import { inArray, type Column, type SQL } from 'drizzle-orm';

/** The rule for which vehicles are among the given fleets; null means all, including those without a fleet. */
export const isAmong = (column: Column, fleets: readonly string[] | null): SQL | undefined =>
  fleets === null ? undefined : inArray(column, [...fleets]);
