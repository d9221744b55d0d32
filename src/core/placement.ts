/**
 * Standard deviation due to the gauge's exact placement, mm: starting values, used until a fit learns them (common
 * practice, no source).
 */

/** On a pad or shoe. */
export const PLACEMENT_SD_MM = 0.2;
/** On a rotor or drum. */
export const COUNTERPART_PLACEMENT_SD_MM = 0.02;
