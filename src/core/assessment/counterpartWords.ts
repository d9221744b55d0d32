import { required } from '../items.js';
import type { Finding } from '../vocabulary/wear.js';
import { capital } from '../words.js';
import type { CounterpartPosition } from './counterpartPosition.js';
import { figureInWords, lengthInWords } from './lengths.js';

/** Words that the findings on rotors and drums share. */

/** A finding on one rotor or drum, before its place is added. */
export type FindingDraft = Pick<Finding, 'code' | 'severity' | 'message' | 'check' | 'numbers'>;

/** `Left rotor`. */
export const nameOf = ({ side, counterpart: { part } }: CounterpartPosition): string =>
  capital(`${side} ${part}`);

/** `both rotors`. */
export const bothOf = ({ counterpart: { part } }: CounterpartPosition): string => `both ${part}s`;

/** A thickness or diameter in the unit of the latest reading. */
export const sayLength = ({ latest }: CounterpartPosition, mm: number): string =>
  lengthInWords(mm, latest?.unit, 3);

/** A figure of the specification. */
export const sayFigure = ({ latest }: CounterpartPosition, mm: number): string =>
  figureInWords(mm, latest?.unit);

/** A difference, without its sign. */
export const sayApart = ({ latest }: CounterpartPosition, mm: number): string =>
  lengthInWords(Math.abs(mm), latest?.unit, 3);

/** `Left rotor read 25.9 mm on 2026-03-02`: a rotor at its thinnest, a drum at its largest. */
export function readInWords(position: CounterpartPosition): string {
  const { mm, visit } = required(
    position.latest,
    `reading of the ${position.side} ${position.counterpart.part}`,
  );
  return `${nameOf(position)} read ${sayLength(position, mm)} on ${visit.date}`;
}
