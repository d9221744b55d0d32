import type { z } from 'zod';
import { inWords } from '../rounding.js';
import { toMm, type LengthQuantity } from '../units.js';

/** Rejects impossible specifications: figures in the wrong order. */

type Figure = LengthQuantity | null | undefined;
type Context = z.core.$RefinementCtx;

function refuse(context: Context, name: string, message: string): void {
  context.addIssue({ code: 'custom', path: [name, 'value'], message });
}

const sayMm = (length: LengthQuantity): string => `${inWords(toMm(length), 4)} mm`;

/** @param isDrum a drum wears towards a greater diameter, everything else towards a smaller thickness */
function refuseUnlessWorn(
  context: Context,
  [name, worn]: [string, Figure],
  fresh: Figure,
  isDrum = false,
): void {
  if (!worn || !fresh) return;
  const wear = toMm(fresh) - toMm(worn);
  if ((isDrum ? -wear : wear) > 0) return;
  refuse(context, name, `must be ${isDrum ? 'above' : 'below'} the ${sayMm(fresh)} of a new part`);
}

export function refuseImpossiblePad(
  spec: { new?: Figure; limit?: Figure; wearIndicator?: Figure },
  context: Context,
): void {
  if (spec.new && toMm(spec.new) <= 0) refuse(context, 'new', 'must be more than 0 mm');
  refuseUnlessWorn(context, ['limit', spec.limit], spec.new);
  refuseUnlessWorn(context, ['wearIndicator', spec.wearIndicator], spec.new);
}

export function refuseImpossibleRotor(
  spec: { new?: Figure; discard?: Figure; machineTo?: Figure },
  context: Context,
): void {
  refuseUnlessWorn(context, ['discard', spec.discard], spec.new);
  refuseUnlessWorn(context, ['machineTo', spec.machineTo], spec.new);
  const { discard, machineTo } = spec;
  if (discard && machineTo && toMm(machineTo) < toMm(discard)) {
    refuse(context, 'machineTo', `must not be below the discard thickness of ${sayMm(discard)}`);
  }
}

export function refuseImpossibleDrum(
  spec: { new?: Figure; maximum?: Figure; machineTo?: Figure },
  context: Context,
): void {
  refuseUnlessWorn(context, ['maximum', spec.maximum], spec.new, true);
  refuseUnlessWorn(context, ['machineTo', spec.machineTo], spec.new, true);
  const { maximum, machineTo } = spec;
  if (maximum && machineTo && toMm(machineTo) > toMm(maximum)) {
    refuse(context, 'machineTo', `must not be above the maximum diameter of ${sayMm(maximum)}`);
  }
}
