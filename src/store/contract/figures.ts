export interface Figures {
  /** Outlooks of an earlier experience or earlier settings. */
  staleOutlooks: number;
  /** When the experience in force was fitted, as an instant in UTC; null before the first fit. */
  lastFitAt: string | null;
  webhooksPending: number;
  webhooksAbandoned: number;
  /** Keys in force that nobody has used for 90 days, or since they were made. */
  unusedKeys: number;
}
