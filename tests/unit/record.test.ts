import { describe, expect, it } from 'vitest';
import { recordOf } from '../../src/core/assessment/record.js';
import { experienceFrom, fitExperience } from '../../src/core/forecast/fit.js';
import { DISC_AXLE, fourPads, historyOf, km, rotorReadings } from '../support/coreHistories.js';

const groupOf = (axle: string) => ({ steeredOrFront: axle === 'front', regenerative: false });

describe('what a history has to teach', () => {
  const van = {
    model: 'parcel-van-3t5',
    inService: { date: '2023-01-02', odometer: km(0) },
    axles: { front: DISC_AXLE, rear: { brake: 'drum' } },
  } as const;
  const visits = [
    {
      date: '2023-09-01',
      odometer: km(12_000),
      readings: [...fourPads(9.6), ...rotorReadings('left', [27.8])],
    },
    {
      date: '2024-06-01',
      odometer: km(30_000),
      readings: fourPads(7.5),
      work: [{ kind: 'pads-replaced' as const, axle: 'front' as const }],
    },
    { date: '2025-03-01', odometer: km(46_000), readings: fourPads([9.1, 9.4, 9.2, 9.3]) },
  ];
  const record = recordOf(historyOf(van, visits), groupOf);

  it('is every life of every pad and rotor of its disc brakes', () => {
    expect(record.axles).toHaveLength(1);
    const [front] = record.axles;
    expect(front!.pads.map(({ ratioShare }) => ratioShare)).toEqual([0.5, -0.5, 0.5, -0.5]);
    expect(
      front!.pads[0]!.lives.map(({ startAt, at, mm }) => ({ startAt, at: [...at], mm: [...mm] })),
    ).toEqual([
      { startAt: 0, at: [12, 30], mm: [9.6, 7.5] },
      { startAt: 30, at: [46], mm: [9.1] },
    ]);
    expect(front!.rotors[0]!.lives[0]!.mm).toEqual(Float64Array.of(27.8));
  });

  it('is its model and its use', () => {
    expect(record.model).toBe('parcel-van-3t5');
    expect(record.stretches.map(({ km: driven }) => driven)).toEqual([12_000, 18_000, 16_000]);
  });

  it('is enough to learn from', () => {
    const fitted = fitExperience([record]);
    const axleClass = groupOf('front');
    const { words } = experienceFrom(fitted, { axleClass, model: 'parcel-van-3t5', version: 1 });
    expect(words).toBe('1 vehicle of this model');
    expect(fitted.classes['front friction']).toMatchObject({
      pads: { axles: 1, readings: 12 },
      rotors: { axles: 1, readings: 1 },
    });
  });

  it('is nothing where no odometer was ever read', () => {
    const history = historyOf({ axles: van.axles }, [{ date: '2023-09-01', readings: fourPads(9.6) }]);
    expect(recordOf(history, groupOf)).toEqual({ model: null, stretches: [], axles: [] });
  });
});
