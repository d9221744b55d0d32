import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RULE_SET_IDS } from '../../src/core/assessment/ruleSets.js';
import {
  ACTUATIONS,
  CONFORMITIES,
  FAILS_AT,
  LININGS,
  WEAR_INDICATOR_TYPES,
} from '../../src/core/vocabulary/terms.js';
import { isFailing, kg, limitsOf, type Lining } from '../support/limits.js';

const options = { seed: 20_260_402, numRuns: 300 };

const thickness = fc.integer({ min: 0, max: 900 }).map((hundredths) => hundredths / 100);
const unknownOr = <T>(known: fc.Arbitrary<T>) => fc.option(known, { nil: null });
const limitMm = fc
  .integer({ min: 1, max: 80 })
  .map((tenths) => ({ value: tenths / 10, unit: 'mm' as const }));

const linings: fc.Arbitrary<Lining> = fc.record({
  part: fc.constantFrom('pad' as const, 'shoe' as const),
  axle: fc.record({
    actuation: unknownOr(fc.constantFrom(...ACTUATIONS)),
    steered: unknownOr(fc.boolean()),
    lining: unknownOr(fc.constantFrom(...LININGS)),
  }),
  vehicle: fc.record({
    powertrain: unknownOr(fc.constantFrom('combustion' as const, 'none' as const)),
    grossMass: unknownOr(fc.constantFrom(kg(3500), kg(4535.95), kg(4536), kg(12_000))),
  }),
  spec: fc.record({
    limit: unknownOr(limitMm),
    wearIndicator: unknownOr(
      fc
        .tuple(limitMm, unknownOr(fc.constantFrom(...WEAR_INDICATOR_TYPES)))
        .map(([length, type]) => ({ ...length, type })),
    ),
  }),
  ruleSets: fc.subarray([...RULE_SET_IDS]),
  shopMinimum: unknownOr(
    fc.record({ limitMm: limitMm.map(({ value }) => value), failsAt: fc.constantFrom(...FAILS_AT) }),
  ),
});

describe('the limits of a lining', () => {
  it('a thinner reading is judged no better by any limit', () => {
    fc.assert(
      fc.property(linings, thickness, thickness, (lining, one, other) => {
        const thin = limitsOf(lining, Math.min(one, other)).limits;
        const thick = limitsOf(lining, Math.max(one, other)).limits;
        thick.forEach((limit, index) => {
          const rank = (conformity: (typeof limit)['conformity']) => CONFORMITIES.indexOf(conformity!);
          expect(rank(thin[index]!.conformity)).toBeGreaterThanOrEqual(rank(limit.conformity));
          if (limit.fails) expect(thin[index]!.fails).toBe(true);
        });
      }),
      options,
    );
  });

  it('the limit that fails first governs: no other limit fails while it does not', () => {
    fc.assert(
      fc.property(linings, thickness, (lining, mm) => {
        const { limits } = limitsOf(lining, mm);
        expect(limits.filter(({ governs }) => governs)).toHaveLength(Math.min(1, limits.length));
        if (limits.some(({ fails }) => fails))
          expect(limits[0]).toMatchObject({ governs: true, fails: true });
      }),
      options,
    );
  });

  it('a reading that fails still fails after another rule set is added', () => {
    fc.assert(
      fc.property(linings, fc.constantFrom(...RULE_SET_IDS), thickness, (lining, added, mm) => {
        const more = { ...lining, ruleSets: [...lining.ruleSets!, added] };
        if (isFailing(lining, mm)) expect(isFailing(more, mm)).toBe(true);
      }),
      options,
    );
  });

  it('a reading that fails still fails after the shop’s minimum or the maker’s limit is raised', () => {
    const raise = fc.integer({ min: 1, max: 40 }).map((tenths) => tenths / 10);
    fc.assert(
      fc.property(linings, thickness, raise, (lining, mm, by) => {
        const { shopMinimum, spec } = lining;
        const tighter: Lining = {
          ...lining,
          shopMinimum: shopMinimum && { ...shopMinimum, limitMm: shopMinimum.limitMm + by },
          spec: { ...spec, limit: spec!.limit && { ...spec!.limit, value: spec!.limit.value + by } },
        };
        if (isFailing(lining, mm)) expect(isFailing(tighter, mm)).toBe(true);
        const strict: Lining = {
          ...lining,
          shopMinimum: shopMinimum && { ...shopMinimum, failsAt: 'at-or-below' },
        };
        if (isFailing(lining, mm)) expect(isFailing(strict, mm)).toBe(true);
      }),
      options,
    );
  });

  it('knowing more about the axle never makes the limits stricter: unknown facts get the strictest row', () => {
    fc.assert(
      fc.property(linings, linings, thickness, (partial, more, mm) => {
        const known: Lining = {
          ...partial,
          axle: fill(partial.axle!, more.axle!),
          vehicle: fill(partial.vehicle!, more.vehicle!),
        };
        if (isFailing(known, mm)) expect(isFailing(partial, mm)).toBe(true);
      }),
      options,
    );
  });
});

/** The unknown members of `partial`, filled in from `more`. */
function fill<T extends object>(partial: T, more: T): T {
  const entries = Object.entries(partial).map(([name, value]) => [name, value ?? more[name as keyof T]]);
  return Object.fromEntries(entries) as T;
}
