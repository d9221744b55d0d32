import { inWords } from '../rounding.js';

/** Words for what a lining runs on: a rotor wears thinner, a drum wider. */
export interface Counterpart {
  part: 'rotor' | 'drum';
  lining: 'pads' | 'shoes';
  /** The governing measure, and its limit. */
  extreme: string;
  limit: string;
  /** The words for being past the limit and for margin. */
  beyond: string;
  within: string;
  measure: string;
  /** Codes of the limit: for being past it, for not being known, and as part of finding codes. */
  code: 'discard' | 'maximum';
  /** Diameters of a drum are stored as negative thicknesses. */
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

/** Formats a length of the counterpart; turns the sign of a drum's back. */
export const sayMm = ({ sign }: Counterpart, mm: number, places = 3): string => inWords(sign * mm, places);
