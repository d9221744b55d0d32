import type { Accuracy, PastForecast } from '../../core/vocabulary/accuracy.js';
import type { Axle } from '../../core/vocabulary/terms.js';
import type { Caller } from './caller.js';
import type { Page, Paged } from './paging.js';

export interface AccuracyQuery {
  fleet: string | null;
  model: string | null;
  axle: Axle | null;
}

export interface AccuracyStore {
  /**
   * Past forecasts compared with what followed, the latest forecast first. A null page returns all. First rescores
   * vehicles whose history has changed, for a few seconds at most; the rest count as pending.
   */
  report(
    caller: Caller,
    query: AccuracyQuery,
    page: Page | null,
  ): Promise<
    Paged<PastForecast> & {
      accuracy: Accuracy;
      /** Vehicles scored, pending, and in total; in a large shop only a sample is scored. */
      vehicles: number;
      pendingVehicles: number;
      ofVehicles: number;
      total: number;
    }
  >;
  /** Computes the missing past fits, for example after a shop imports its history, and scores everything pending. */
  bringUpToDate(): Promise<void>;
}
