import type { DueAxle } from '../store/contract/reports.js';

/** What reports name, as people say it. */

/** Null where no lining governs. */
export const padInWords = ({ governingPad }: Pick<DueAxle, 'governingPad'>): string | null =>
  governingPad && `${governingPad.side} ${governingPad.pad}`;
