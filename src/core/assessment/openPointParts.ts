import { SIDES, type Axle, type Side, type WorkKind } from '../vocabulary/terms.js';
import type { HistoryVisit } from '../history.js';
import type { OpenPoint } from '../vocabulary/openPoints.js';
import { axleInWords } from '../words.js';
import type { AxleOutlook } from './outlookShape.js';

/** Types and words that the open points of a visit share. */

/** The part of an axle's outlook that can leave points open. */
export type JudgedAxle = Pick<AxleOutlook, 'axle' | 'findings' | 'rotors' | 'drums' | 'pads'>;

/** A visit's job: the visit itself and the visits within a week of it. */
export interface Job {
  visit: HistoryVisit;
  /** The visit and all later ones. */
  since: readonly HistoryVisit[];
  whole: readonly HistoryVisit[];
}

export const point = (code: string, message: string, at: Partial<OpenPoint> = {}): OpenPoint => ({
  code,
  axle: null,
  side: null,
  pad: null,
  fastener: null,
  finding: null,
  message,
  numbers: {},
  ...at,
});

/** `the front axle`, `axle 3`. */
export const theAxle = (axle: Axle): string =>
  axle === 'front' || axle === 'rear' ? `the ${axleInWords(axle)}` : axleInWords(axle);

export const sidesOf = (items: readonly { side?: Side | null }[]): Side[] =>
  SIDES.filter((side) => items.some((item) => item.side == null || item.side === side));

/** The axles that were worked on at the visit, with their sides. */
export function workedOn(
  { work }: HistoryVisit,
  kinds: ReadonlySet<WorkKind>,
): { axle: Axle; sides: Side[] }[] {
  const done = work.filter(({ kind, axle }) => kinds.has(kind) && axle != null);
  return [...new Set(done.map(({ axle }) => axle!))].map((axle) => ({
    axle,
    sides: sidesOf(done.filter((item) => item.axle === axle)),
  }));
}
