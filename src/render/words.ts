import type { Axle } from '../core/vocabulary/terms.js';
import type { DueAxle } from '../store/store.js';

/** What reports name, as people say it. */

/** Null where no lining governs. */
export const padInWords = ({ governingPad }: Pick<DueAxle, 'governingPad'>): string | null =>
  governingPad && `${governingPad.side} ${governingPad.pad}`;

/** `front axle`, `axle 3`. */
export const axleInWords = (axle: Axle): string =>
  axle === 'front' || axle === 'rear' ? `${axle} axle` : axle.replace('-', ' ');
