import type { VehicleScores } from '../../../core/accuracy/scores.js';
import type { FittedExperience } from '../../../core/forecast/fit.js';
import type { VehicleRow } from './vehicles.js';

/** What was learned from the shop's own vehicles by one fit. */
export interface ExperienceRow {
  version: number;
  fitted: FittedExperience;
  /** The last visit it used, by order of arrival. */
  lastVisitSeq: number;
  /** The latest date of a visit it learned from; null if none. */
  learnedTo: string | null;
  createdAt: string;
  /** The program that fitted it (`programDigest`). */
  program: string;
}

export interface PastExperienceRow {
  /** It used the visits up to this date. */
  learnedTo: string;
  fitted: FittedExperience;
  createdAt: string;
}

/** Rows are only ever added. */
export interface ExperienceRows {
  /** 0 before the first fit. */
  latestVersion(): Promise<number>;
  byVersion(version: number): Promise<ExperienceRow | null>;
  /** The latest fits, newest first. */
  latest(limit: number): Promise<ExperienceRow[]>;
  /** @returns its version */
  insert(row: Omit<ExperienceRow, 'version'>): Promise<number>;
  /** The fit that learned from the latest visits up to a date; the newest of several. */
  madeBy(date: string): Promise<{ version: number; learnedTo: string } | null>;
  /** The date of the latest fit in hindsight that learned from visits up to a date. */
  pastBy(date: string): Promise<string | null>;
  past(learnedTo: string): Promise<PastExperienceRow | null>;
  /** Leaves an existing one of the same date unchanged. */
  insertPast(row: PastExperienceRow): Promise<void>;
  /** The dates up to which the fits learned, including those in hindsight. */
  learnedTo(): Promise<string[]>;
}

/** What a fit learns from. */
export interface LessonRows {
  /** The number of the last visit; 0 if there is none. */
  lastVisitSeq(): Promise<number>;
  /** How many visits that are not voided each date has, earliest first. */
  visitDays(): Promise<{ date: string; visits: number }[]>;
  /** How many vehicles with visits each model has; those without a model count as one. */
  modelSizes(): Promise<number[]>;
  /** Vehicles with visits: at most so many of each model, spread evenly over the order of recording. */
  sample(maxPerModel: number): Promise<number[]>;
}

/** Which vehicles' scores are reported. */
export interface ScoredSelection {
  /** Null for all vehicles. */
  fleets: readonly string[] | null;
  model: string | null;
  /**
   * The share of them to take, from 0 to 1: the same vehicles each time, and a larger share contains every smaller one.
   * Null for all.
   */
  share: number | null;
}

/** Scores of vehicles' past forecasts. Another fit in hindsight makes all of them stale. */
export interface ScoreRows {
  count(selection: ScoredSelection): Promise<number>;
  /** Vehicles whose scores are stale, in order of arrival. */
  pending(selection: ScoredSelection): Promise<number[]>;
  /** A page of vehicles whose scores are current, in order of arrival. */
  current(
    selection: ScoredSelection,
    after: number,
    limit: number,
  ): Promise<{ vehicle: VehicleRow; scores: VehicleScores }[]>;
  /** The state of a vehicle's history, for which scores are stored. */
  stateOf(vehicleSeq: number): Promise<{ revision: number; pastFits: number }>;
  /** Does nothing if the vehicle's history has changed since. */
  store(
    vehicleSeq: number,
    state: { revision: number; pastFits: number },
    scores: VehicleScores,
  ): Promise<void>;
}
