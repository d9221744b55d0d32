import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Range } from '../../src/core/vocabulary/quantities.js';
import { Wear, type AxleWear, type DateInterval } from '../../src/core/vocabulary/wear.js';
import {
  changeLatest,
  impossibleHistory,
  messyHistory,
  wearAnswerOf,
  wornHistory,
} from '../support/histories.js';

const SEED = 20_260_310;
const POINTS = ['early', 'median', 'late'] as const;
/** Thicknesses in answers are rounded to a thousandth of a millimetre. */
const ROUNDING_MM = 0.0006;

const axleOf = (sent: Parameters<typeof wearAnswerOf>[0]): AxleWear => wearAnswerOf(sent).axles[0]!;
/** More than thirty years ahead is null and counts as later than every date. */
const sortable = (date: string | null): string => date ?? '9999-12-31';

describe('thinner pads', () => {
  it('no date moves later when all four pads are read thinner', () => {
    const thinnerBy = fc.double({ min: 0.05, max: 1, noNaN: true });
    fc.assert(
      fc.property(wornHistory(), thinnerBy, (sent, by) => {
        const thinner = changeLatest(sent, { kind: 'pad-thickness' }, (value) => Math.max(0, value - by));
        const before = axleOf(sent).replacement;
        const after = axleOf(thinner).replacement;
        for (const point of POINTS) {
          const moved = `${point} ${before.date![point]} → ${after.date![point]}`;
          expect(sortable(after.date![point]) <= sortable(before.date![point]), moved).toBe(true);
        }
      }),
      { seed: SEED, numRuns: 100 },
    );
  });

  it('the thickness left is never larger for thinner pads', () => {
    const thinnerBy = fc.double({ min: 0.05, max: 1, noNaN: true });
    fc.assert(
      fc.property(wornHistory(), thinnerBy, (sent, by) => {
        const thinner = changeLatest(sent, { kind: 'pad-thickness' }, (value) => Math.max(0, value - by));
        const before = axleOf(sent);
        axleOf(thinner).pads.forEach(({ remainingMm }, index) => {
          expect(remainingMm!.median).toBeLessThanOrEqual(
            before.pads[index]!.remainingMm!.median + ROUNDING_MM,
          );
        });
      }),
      { seed: SEED + 1, numRuns: 80 },
    );
  });
});

describe('thinner rotors', () => {
  it('the margin of thinner rotors is never larger, now or later', () => {
    const thinnerBy = fc.double({ min: 0.01, max: 0.1, noNaN: true });
    fc.assert(
      fc.property(wornHistory(), thinnerBy, (sent, by) => {
        const before = axleOf(sent).rotors;
        const after = axleOf(changeLatest(sent, { kind: 'rotor-thickness' }, (value) => value - by)).rotors;
        after.forEach((rotor, index) => {
          const was = before[index]!;
          expect(rotor.marginMm).toBeCloseTo(was.marginMm! - by, 5);
          for (const margin of ['marginAtPadReplacementMm', 'marginAfterNextPadSetMm'] as const)
            expect(rotor[margin]!.median).toBeLessThanOrEqual(was[margin]!.median + ROUNDING_MM);
        });
      }),
      { seed: SEED + 2, numRuns: 60 },
    );
  });
});

describe('any history', () => {
  it('the answer to any history has finite, ordered numbers and matches its schema', () => {
    fc.assert(
      fc.property(fc.oneof(messyHistory(), wornHistory(), impossibleHistory()), (sent) => {
        const wear = wearAnswerOf(sent);
        // Refuses NaN, infinities and undeclared members.
        expect(Wear.safeParse(wear).error?.issues ?? []).toEqual([]);
        expect(JSON.parse(JSON.stringify(wear))).toEqual(wear);
        if (wear.usage.kmPerDay) expectOrdered(wear.usage.kmPerDay, 0);
        wear.axles.forEach((axle) => expectSound(axle, wear.asAt?.date ?? null));
      }),
      { seed: SEED + 3, numRuns: 200 },
    );
  });
});

function expectOrdered({ low, median, high }: Range, min = -Infinity): void {
  expect(low).toBeGreaterThanOrEqual(min);
  expect(median).toBeGreaterThanOrEqual(low);
  expect(high).toBeGreaterThanOrEqual(median);
}

function expectSound({ pads, replacement, rotors, findings }: AxleWear, asAt: string | null): void {
  for (const { ratePer1000KmMm, remainingMm } of pads) {
    if (ratePer1000KmMm) expectOrdered(ratePer1000KmMm);
    if (remainingMm) expectOrdered(remainingMm);
  }
  for (const rotor of rotors) {
    const ranges = [rotor.ratePer1000KmMm, rotor.marginAtPadReplacementMm, rotor.marginAfterNextPadSetMm];
    for (const range of ranges) if (range) expectOrdered(range);
    if (rotor.variationMm !== null) expect(rotor.variationMm).toBeGreaterThanOrEqual(0);
    expect(rotor.decisionReasons.length).toBeGreaterThan(0);
  }
  const { date, distanceKm, untilNextVisit, overdue } = replacement;
  const { chanceLimitReached: chance } = untilNextVisit;
  if (chance !== null) {
    expect(chance).toBeGreaterThanOrEqual(0);
    expect(chance).toBeLessThanOrEqual(1);
  }
  if (distanceKm) {
    const known = POINTS.map((point) => distanceKm[point] ?? Infinity);
    expect(known.every((distance) => distance >= 0)).toBe(true);
    expect(known).toEqual([...known].sort((a, b) => a - b));
  }
  if (date) expectDates(date, asAt!);
  if (overdue) expect(date?.median).not.toBeNull();
  // A reading under its limit or too close to tell causes a stop.
  for (const { side, pad, limits } of pads) {
    const [governing] = limits;
    if (governing?.fails !== true && (governing?.conformity ?? 'conforms') === 'conforms') continue;
    const stop = findings.find(
      (finding) => finding.severity === 'stop' && finding.side === side && finding.pad === pad,
    );
    expect(stop).toBeDefined();
  }
}

function expectDates(date: DateInterval, asAt: string): void {
  const known = POINTS.map((point) => sortable(date[point]));
  expect(known).toEqual([...known].sort());
  expect(known[0]! >= asAt).toBe(true);
}
