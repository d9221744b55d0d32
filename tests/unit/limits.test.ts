import { describe, expect, it } from 'vitest';
import { padLimits } from '../../src/core/assessment/limits.js';
import { padLives } from '../../src/core/lives.js';
import { layRoad } from '../../src/core/odometer.js';
import type { PadSpec } from '../../src/core/vocabulary/vehicle.js';
import { historyOf, mm, padReading } from '../support/coreHistories.js';

/** The case in which the owner picked no rule set: no fact of the axle matters. */
const NO_RULES = {
  part: 'pad',
  facts: { actuation: null, steered: null, lining: null, grossMassKg: null, isTrailer: null },
  ruleSets: [],
  shopMinimum: null,
  placementSdMm: 0.2,
} as const;

/** Limits of a pad with this specification, read at a thickness; null is not read. */
function limitsAt(spec: PadSpec, thickness: number | null, gauge = 'depth-gauge') {
  const readings = thickness === null ? [] : [padReading('left', 'inner', thickness, { gauge })];
  const history = historyOf({ axles: { front: { pad: spec } } }, [{ date: '2026-03-02', readings }]);
  const [life] = padLives(history, layRoad(history), 'front', 'left', 'inner');
  return padLimits(life!.spec, life!.observations.at(-1) ?? null, NO_RULES).limits;
}

const MAKER = { limit: mm(2) };
const INDICATOR = { wearIndicator: { ...mm(3), type: 'electric' as const } };

describe('the limits of a pad', () => {
  it('a pad without a specification has no limits', () => {
    expect(limitsAt({}, 5)).toEqual([]);
    expect(limitsAt({ new: mm(11), limit: null, wearIndicator: null }, 5)).toEqual([]);
  });

  it('the limits of a pad are the maker’s and the wear indicator’s', () => {
    const limits = limitsAt({ ...MAKER, ...INDICATOR }, 5);
    expect(limits.map(({ source, limitMm }) => [source, limitMm])).toEqual([
      ['wear-indicator', 3],
      ['maker', 2],
    ]);
    expect(limits[0]!.rule).toContain('electric wear indicator');
  });

  it.each([
    ['the wear indicator', { ...MAKER, ...INDICATOR }, 'wear-indicator'],
    ['the maker', { limit: mm(4), ...INDICATOR }, 'maker'],
    ['the only limit', MAKER, 'maker'],
  ])('the highest limit governs: %s', (_name, spec, source) => {
    const limits = limitsAt(spec, 5);
    expect(limits.filter(({ governs }) => governs).map((limit) => limit.source)).toEqual([source]);
    expect(limits[0]!.governs).toBe(true);
  });

  it('the limits of a pad are in millimetres whatever their unit', () => {
    const [limit] = limitsAt({ limit: { value: 2, unit: 'in/32' } }, 5);
    expect(limit!.limitMm).toBe(1.5875);
  });

  it.each([
    [2.01, false],
    [2, true],
    [1.99, true],
  ])('whether a reading of %f mm fails a limit of 2 mm, at or below it, is %s', (thickness, fails) => {
    const [limit] = limitsAt(MAKER, thickness);
    expect(limit).toMatchObject({ failsAt: 'at-or-below', fails });
  });

  it('a reading exactly at the figure fails in any unit, without binary noise', () => {
    const reading = { ...padReading('left', 'inner', 0), value: 2, unit: 'in/32' as const };
    const history = historyOf({ axles: { front: { pad: { limit: mm(1.5875) } } } }, [
      { date: '2026-03-02', readings: [reading] },
    ]);
    const [life] = padLives(history, layRoad(history), 'front', 'left', 'inner');
    expect(padLimits(life!.spec, life!.observations.at(-1)!, NO_RULES).limits).toMatchObject([
      { limitMm: 1.5875, fails: true },
    ]);
  });

  it('each limit fails by itself, whichever governs', () => {
    expect(limitsAt({ ...MAKER, ...INDICATOR }, 2.5).map(({ fails }) => fails)).toEqual([true, false]);
  });

  // The depth gauge has u = 0.05 mm, the eye 2 · 2/√12 = 1.15 mm.
  it.each([
    [2.2, 'depth-gauge', 'conforms'],
    [2.05, 'depth-gauge', 'inconclusive'],
    [1.85, 'depth-gauge', 'does-not-conform'],
    [4, 'visual', 'inconclusive'],
    [5, 'visual', 'conforms'],
  ])('a reading of %f mm by %s is judged %s', (thickness, gauge, conformity) => {
    expect(limitsAt(MAKER, thickness, gauge)[0]!.conformity).toBe(conformity);
  });

  it('the limits of a pad are not judged if the pad was not read', () => {
    expect(limitsAt(MAKER, null)).toMatchObject([{ fails: null, conformity: null, governs: true }]);
  });
});
