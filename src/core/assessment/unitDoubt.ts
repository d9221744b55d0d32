import { toDay } from '../calendar.js';
import { toMm } from '../units.js';
import type { PadPosition } from './padPosition.js';

/** Whether a figure sent in millimetres may have been read in another unit. */

const MM_PER_INCH = 25.4;
const MM_PER_THIRTY_SECOND = MM_PER_INCH / 32;

/** Linings this thin in millimetres are rare; the same figure in inches is common (common practice, no source). */
const BELOW_MM = 1;
/** Maximum thickness of a lining without a specification, mm (common practice, no source). */
const MAX_LINING_MM = 25;
/** Room for reading error, mm. */
const ROOM_MM = 0.5;

type Doubted = Pick<PadPosition, 'latest' | 'present' | 'governing'>;

/** The lining's previous reading, or else the thickness of a new one, mm; null if neither is known. */
function beforeMm({ present, latest }: Doubted): number | null {
  const newMm = present.startMm ?? (present.spec.new ? toMm(present.spec.new) : null);
  const before = present.observations.at(-2);
  return before && before !== latest ? before.mm : newMm;
}

const maxMm = (position: Doubted): number => (beforeMm(position) ?? MAX_LINING_MM) + ROOM_MM;

/** The reading in mm if it is very thin but would be an ordinary thickness in inches; null otherwise. */
export function fitsInInches(position: Doubted): number | null {
  const { latest, governing, present } = position;
  if (latest?.unit !== 'mm' || latest.mm <= 0 || latest.mm >= BELOW_MM) return null;
  const mm = latest.mm * MM_PER_INCH;
  if (mm <= (governing?.limitMm ?? 0) || mm > maxMm(position)) return null;
  const before = present.observations.at(-2);
  const isCloser = !before || Math.abs(mm - before.mm) < Math.abs(latest.mm - before.mm);
  return isCloser ? mm : null;
}

/** The reading in mm if it is too thick but would fit in thirty-seconds of an inch; null otherwise. */
export function fitsInThirtySeconds(position: Doubted): number | null {
  const { latest, governing, present } = position;
  if (latest?.unit !== 'mm' || !Number.isInteger(latest.mm)) return null;
  const max = maxMm(position);
  const mm = latest.mm * MM_PER_THIRTY_SECOND;
  if (latest.mm <= max || mm <= (governing?.limitMm ?? 0) || mm > max) return null;
  // A lining just fitted has not worn, so the figure nearer to that of a new one is more likely.
  const newMm = toDay(latest.visit.date) === present.start?.day ? beforeMm(position) : null;
  const isFarther = newMm !== null && Math.abs(mm - newMm) > Math.abs(latest.mm - newMm);
  return isFarther ? null : mm;
}

/** Minimum run-out that a dial indicator can show, mm; less may be in inches (common practice, no source). */
export const MIN_RUNOUT_MM = 0.005;

/** The run-out in mm if it was probably read in inches; null if the figure is plausible in mm. */
export const runoutInInches = (mm: number): number | null =>
  mm > 0 && mm < MIN_RUNOUT_MM ? mm * MM_PER_INCH : null;
