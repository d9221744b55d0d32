/**
 * Standard deviation of where exactly the gauge is put, mm: the starting values, used where none has been learned
 * (common practice, no source).
 */

/** On a pad or shoe. */
export const PLACEMENT_SD_MM = 0.2;
/** On a rotor or drum. */
export const COUNTERPART_PLACEMENT_SD_MM = 0.02;
