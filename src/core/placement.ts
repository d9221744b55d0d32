/**
 * Standard deviation of the gauge's exact placement, mm: starting values, used until learned (common practice, no
 * source).
 */

/** On a pad or shoe. */
export const PLACEMENT_SD_MM = 0.2;
/** On a rotor or drum. */
export const COUNTERPART_PLACEMENT_SD_MM = 0.02;
