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
   * Past forecasts compared with what followed, the latest forecast first. A null page asks for all. Vehicles whose
   * history has changed are rescored first, for a few seconds at most; the rest are counted as pending.
   */
  report(
    caller: Caller,
    query: AccuracyQuery,
    page: Page | null,
  ): Promise<
    Paged<PastForecast> & {
      accuracy: Accuracy;
      /** Vehicles scored, pending, and in total; of very many, only a sample is scored. */
      vehicles: number;
      pendingVehicles: number;
      ofVehicles: number;
      total: number;
    }
  >;
  /**
   * Makes the missing fits of the past, for example after a shop imports its history, and scores everything pending.
   */
  bringUpToDate(): Promise<void>;
}
