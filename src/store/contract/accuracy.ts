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
   * How past forecasts did against what followed, the latest forecast first. A null page asks for all. Vehicles whose
   * history has changed are scored anew first, for a few seconds at the most; those left are counted as pending.
   */
  report(
    caller: Caller,
    query: AccuracyQuery,
    page: Page | null,
  ): Promise<
    Paged<PastForecast> & {
      accuracy: Accuracy;
      /** Scored, still to be scored, and in all: of very many only a sample is looked at. */
      vehicles: number;
      pendingVehicles: number;
      ofVehicles: number;
      total: number;
    }
  >;
  /** Fits what was known in the past where that is missing, as where a shop brought its history with it, and scores all that is pending. */
  bringUpToDate(): Promise<void>;
}
