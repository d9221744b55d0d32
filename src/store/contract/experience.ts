import type { CarryOutFits, FittedExperience } from '../../core/forecast/fit.js';

export interface ExperienceVersion {
  version: number;
  fitted: FittedExperience;
  createdAt: string;
}

export interface ExperienceStore {
  /**
   * Fits the shop's experience anew, on a sample of a large shop, and stores it as a new version.
   *
   * @param carryOut by whom the pieces of the fit are carried out; here and now where it is missing
   * @throws where the histories cannot be fitted; nothing is stored, and the experience stays in force
   */
  fit(carryOut?: CarryOutFits): Promise<number>;
  /** Fits the shop's experience anew and works out every outlook with it; resolves when all are written. */
  refit(): Promise<number>;
  /** Visits that the latest fit of this program knew of, and those that arrived since. */
  newVisits(): Promise<{ known: number; since: number }>;
  /** The latest fits, newest first. */
  list(): Promise<ExperienceVersion[]>;
}
