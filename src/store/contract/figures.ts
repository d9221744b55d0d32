export interface Figures {
  /** Outlooks computed with an earlier experience or under earlier settings. */
  staleOutlooks: number;
  /** When the experience in force was fitted, as an instant in UTC; null before the first fit. */
  lastFitAt: string | null;
  webhooksPending: number;
  webhooksAbandoned: number;
  /** Valid keys not used for 90 days, or never since their creation. */
  unusedKeys: number;
}
