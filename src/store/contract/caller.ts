import type { Role } from '../../core/vocabulary/terms.js';

/** Who makes a request, and which vehicles they may see. */
export interface Caller {
  /** The name of the API key; null for the command line and the service itself. */
  keyName: string | null;
  /** Null without a key. */
  role: Role | null;
  /** The fleets whose vehicles they may see; null means all vehicles, including those without a fleet. */
  fleets: readonly string[] | null;
}

/** A caller with a key. */
export interface KeyCaller extends Caller {
  keyName: string;
  role: Role;
}

/** The command line, or the service itself. */
export const OPERATOR: Caller = { keyName: null, role: null, fleets: null };

/** The fleets that a caller may see, narrowed to the requested one; null means all vehicles. */
export function fleetsSeen(
  { fleets }: Pick<Caller, 'fleets'>,
  requested: string | null,
): readonly string[] | null {
  if (requested === null) return fleets;
  return fleets === null || fleets.includes(requested) ? [requested] : [];
}

/** Whether a caller may see a vehicle of the given fleet; null is a vehicle without one. */
export function maySee({ fleets }: Pick<Caller, 'fleets'>, fleet: string | null): boolean {
  return fleets === null || (fleet !== null && fleets.includes(fleet));
}
