import { identifierKey } from './identifiers.js';
import { vehicleNamedIn } from './spreadsheet/naming.js';
import type { VehicleBody } from './vocabulary/vehicle.js';
import { identifyingText } from './vocabulary/quantities.js';

/** Finds what stored texts say about one vehicle. */

/** A vehicle's names, as they are compared when a spreadsheet names a vehicle. */
export interface VehicleNames {
  /** Compared exactly. */
  exact: ReadonlySet<string>;
  /** Registrations and VINs, compared by letters and digits only; none is empty. */
  keys: ReadonlySet<string>;
}

/** Every name in any version of a vehicle. */
export function namesIn(
  bodies: readonly Pick<VehicleBody, 'externalId' | 'registration' | 'vin'>[],
): VehicleNames {
  const present = (names: (string | null | undefined)[]): string[] => names.filter((name) => name != null);
  const plates = present(bodies.flatMap(({ registration, vin }) => [registration, vin]));
  return {
    exact: new Set([...present(bodies.map(({ externalId }) => externalId)), ...plates]),
    keys: new Set(plates.map(identifierKey).filter((key) => key !== '')),
  };
}

/** Whether a whole text, such as a cell, is one of the names. */
export const isName = ({ exact, keys }: VehicleNames, text: string): boolean =>
  exact.has(identifyingText(text)) || keys.has(identifierKey(text));

/** Whether a message is about a name, or quotes a cell or value that is one. */
export function quotesName(names: VehicleNames, message: string): boolean {
  const named = vehicleNamedIn(message);
  if (named !== null && isName(names, named)) return true;
  return quotedIn(message).some((quoted) => isName(names, quoted) || isNameCut(names, quoted));
}

/** Whether a raw piece of a file contains a name that neither continues before nor after. */
export function containsName({ exact, keys }: VehicleNames, text: string): boolean {
  const spelled = [...keys].map((key) => Array.from(key).join('[^\\p{L}\\p{N}]*'));
  const plain = text.normalize('NFKC').toUpperCase();
  return (
    spelled.some((pattern) => alone(pattern).test(plain)) ||
    [...exact].some((name) => alone(escape(name)).test(text))
  );
}

/** A message quotes at least this much of a longer cell. */
const QUOTED_LENGTH = 40;

function isNameCut({ exact }: VehicleNames, quoted: string): boolean {
  const beginning = quoted.replace(/…$/, '');
  return beginning.length >= QUOTED_LENGTH && [...exact].some((name) => name.startsWith(beginning));
}

/** Everything between an opening and a later closing quotation mark, since a quoted text may contain such marks. */
function quotedIn(message: string): string[] {
  const starts = [...message.matchAll(/“/g)].map(({ index }) => index + 1);
  const ends = [...message.matchAll(/”/g)].map(({ index }) => index);
  return starts.flatMap((start) => ends.filter((end) => end > start).map((end) => message.slice(start, end)));
}

const escape = (text: string): string => text.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&');
const alone = (pattern: string): RegExp =>
  new RegExp(`(?<![\\p{L}\\p{N}])(?:${pattern})(?![\\p{L}\\p{N}])`, 'u');
