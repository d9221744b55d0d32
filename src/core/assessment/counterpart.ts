import type { History } from '../history.js';
import type { Wears } from '../lives.js';
import type { Axle, Side } from '../vocabulary/terms.js';

/** A rotor or a drum (what the linings run on) and its terms. A rotor wears thinner, a drum wider. */
export interface Counterpart {
  part: 'rotor' | 'drum';
  lining: 'pads' | 'shoes';
  /** The governing measure, and its limit. */
  extreme: string;
  limit: string;
  /** The words for which side of the limit a reading is on: past it, and before it. */
  beyond: string;
  within: string;
  measure: string;
  /** The limit's name within the codes of findings and reasons. */
  code: 'discard' | 'maximum';
  wears: Wears;
}

/** Where a rotor or drum is on an axle. */
export interface CounterpartPlace {
  history: History;
  part: Counterpart['part'];
  axle: Axle;
  side: Side;
}

export const ROTOR: Counterpart = {
  part: 'rotor',
  lining: 'pads',
  extreme: 'thinnest point',
  limit: 'discard thickness',
  beyond: 'under',
  within: 'above',
  measure: 'thickness',
  code: 'discard',
  wears: 'thinner',
};

export const DRUM: Counterpart = {
  part: 'drum',
  lining: 'shoes',
  extreme: 'largest diameter',
  limit: 'maximum diameter',
  beyond: 'over',
  within: 'below',
  measure: 'diameter',
  code: 'maximum',
  wears: 'wider',
};
