import { inWords } from '../rounding.js';

/** How to speak of what a lining runs on: a rotor wears thinner, a drum wider. */
export interface Counterpart {
  part: 'rotor' | 'drum';
  lining: 'pads' | 'shoes';
  /** The measure that governs, and the limit it is held against. */
  extreme: string;
  limit: string;
  /** Which way out of the limit is, and which way margin is. */
  beyond: string;
  within: string;
  measure: string;
  /** Codes of the limit: of being beyond it, of not being known, and as part of finding codes. */
  code: 'discard' | 'maximum';
  /** A drum's diameters are kept as negative thicknesses. */
  sign: 1 | -1;
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
  sign: 1,
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
  sign: -1,
};

/** A length of the counterpart as it is said: a drum's with its sign turned back. */
export const sayMm = ({ sign }: Counterpart, mm: number, places = 3): string => inWords(sign * mm, places);
