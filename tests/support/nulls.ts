import type { Reason } from '../../src/core/vocabulary/quantities.js';

/**
 * Finds members of a wear answer that are null without a reason. Every member that the contract names and that is null
 * must have a reason in the `reasons` of an object that contains it, directly or further up.
 */

/** The members of the contract that may be null, as the last steps of their path, without list positions. */
const NAMED = [
  'usage.kmPerDay',
  'asAt',
  'asAt.odometerKm',
  'pads.fitted',
  'pads.fitted.date',
  'pads.fitted.odometerKm',
  'pads.latest',
  'pads.ratePer1000KmMm',
  'pads.remainingMm',
  'limits.fails',
  'limits.conformity',
  'replacement.governingPad',
  'replacement.limitMm',
  'replacement.distanceKm',
  'replacement.date',
  'distanceKm.early',
  'distanceKm.median',
  'distanceKm.late',
  'date.early',
  'date.median',
  'date.late',
  'untilNextVisit.chanceLimitReached',
  'rotors.thinnestMm',
  'rotors.discardMm',
  'rotors.marginMm',
  'rotors.marginStandardUncertaintyMm',
  'rotors.conformity',
  'rotors.variationMm',
  'rotors.runoutMm',
  'rotors.ratePer1000KmMm',
  'rotors.marginAtPadReplacementMm',
  'rotors.marginAfterNextPadSetMm',
];

const isNamed = (path: readonly string[]): boolean => {
  const name = path.filter((step) => !/^\d+$/.test(step)).join('.');
  return NAMED.some((named) => name === named || name.endsWith(`.${named}`));
};

/** @returns the paths of the fields that are null without a reason */
export function unexplainedNulls(answer: unknown): string[] {
  return walk(answer, [], 0);
}

function walk(value: unknown, path: readonly string[], reasonsAbove: number): string[] {
  if (value === null) return isNamed(path) && reasonsAbove === 0 ? [path.join('.')] : [];
  if (typeof value !== 'object') return [];
  const own = (value as { reasons?: Reason[] }).reasons?.length ?? 0;
  return Object.entries(value as object).flatMap(([name, member]) =>
    walk(member, [...path, name], reasonsAbove + own),
  );
}
