/** An addition to a count. */
export interface Addition {
  name: string;
  /** The number of the period; a count starts at 0 with each. */
  period: number;
  /** When the period ends, in milliseconds since 1970; the count may be forgotten then. */
  endsAt: number;
  by: number;
}

/** Counts that all servers on one database share. */
export interface SharedCounts {
  /**
   * @param additions at most one for each name
   * @returns the totals of all servers, in the same order
   */
  add(additions: readonly Addition[]): Promise<number[]>;
}
