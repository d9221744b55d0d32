/** Who asks, and what they may see: everything (null), or the vehicles of some fleets. */
export interface Scope {
  fleets: readonly string[] | null;
  /** The name of the API key; null where it is done on the command line. */
  keyName: string | null;
}
