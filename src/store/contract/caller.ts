import type { Role } from '../../core/vocabulary/terms.js';

/** Who asks for something, and which vehicles they may see. */
export interface Caller {
  /** The name of the API key; null on the command line and where the service acts by itself. */
  keyName: string | null;
  /** Null where there is no key. */
  role: Role | null;
  /** The fleets whose vehicles they may see; null is every vehicle, in a fleet or not. */
  fleets: readonly string[] | null;
}

/** A caller who holds a key. */
export interface KeyCaller extends Caller {
  keyName: string;
  role: Role;
}

/** The command line, or the service itself. */
export const OPERATOR: Caller = { keyName: null, role: null, fleets: null };

/** The fleets that a caller may see, narrowed to the one asked for; null is every vehicle. */
export function fleetsSeen(
  { fleets }: Pick<Caller, 'fleets'>,
  asked: string | null,
): readonly string[] | null {
  if (asked === null) return fleets;
  return fleets === null || fleets.includes(asked) ? [asked] : [];
}

/** Whether a caller may see a vehicle of a fleet, or of none. */
export function maySee({ fleets }: Pick<Caller, 'fleets'>, fleet: string | null): boolean {
  return fleets === null || (fleet !== null && fleets.includes(fleet));
}
