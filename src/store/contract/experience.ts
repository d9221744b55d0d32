import type { CarryOutFits, FittedExperience } from '../../core/forecast/fit.js';

export interface ExperienceVersion {
  version: number;
  fitted: FittedExperience;
  createdAt: string;
}

export interface ExperienceStore {
  /**
   * Refits the shop's experience, in a large shop on a sample, and stores it as a new version.
   *
   * @param carryOut runs the tasks of the fit; by default this process runs them at once
   * @returns null if another process is fitting
   * @throws if the histories cannot be fitted; nothing is stored, and the current experience stays in force
   */
  fit(carryOut?: CarryOutFits): Promise<number | null>;
  /** Refits the shop's experience and recomputes every outlook with it; resolves when all are written. */
  refit(): Promise<number | null>;
  /** Number of visits that the latest fit of this program used, and number of visits that have arrived since. */
  newVisits(): Promise<{ known: number; since: number }>;
  /** The latest fits, newest first. */
  list(): Promise<ExperienceVersion[]>;
}
