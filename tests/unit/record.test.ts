import { describe, expect, it } from 'vitest';
import { recordOf } from '../../src/core/assessment/record.js';
import { experienceFrom, fitExperience } from '../../src/core/forecast/fit.js';
import { startingExperience } from '../../src/core/forecast/experience.js';
import { DISC_AXLE, fourPads, historyOf, km, mm, rotorReadings } from '../support/coreHistories.js';

const groupOf = (axle: string) => ({
  steeredOrFront: axle === 'front',
  regenerative: false,
  drum: axle === 'rear',
});

describe('the data that a history adds to experience', () => {
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

  it('the data that a history adds to experience have every life of every pad and rotor', () => {
    expect(record.axles).toHaveLength(2);
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

  it('the data that a history adds to experience have the model and the use', () => {
    expect(record.model).toBe('parcel-van-3t5');
    expect(record.stretches.map(({ km: driven }) => driven)).toEqual([12_000, 18_000, 16_000]);
  });

  it('the data that a history adds to experience are enough to learn from', () => {
    const fitted = fitExperience([record]);
    const axleClass = groupOf('front');
    const { words } = experienceFrom(fitted, { axleClass, model: 'parcel-van-3t5', version: 1 });
    expect(words).toBe('1 vehicle of this model');
    expect(fitted.classes['front friction']).toMatchObject({
      pads: { axles: 1, readings: 12 },
      rotors: { axles: 1, readings: 1 },
    });
  });

  it('the data that a history adds to experience include shoes and drums, which are learned separately from discs', () => {
    const rear = {
      brake: 'drum',
      shoe: { new: mm(5), limit: mm(1.5) },
      drum: { new: mm(254), maximum: mm(255.5) },
    } as const;
    /** Shoes that lose 0.15 mm and drums that grow by 0.02 mm in 1000 km, faster than usual. */
    const drumVan = (index: number) => {
      const inService = { date: '2023-01-02', odometer: km(0) };
      const at = (date: string, distance: number) => ({
        date,
        odometer: km(1000 * distance),
        readings: (['left', 'right'] as const).flatMap((side) => [
          ...(['leading', 'trailing'] as const).map((shoe) => ({
            kind: 'shoe-thickness' as const,
            axle: 'rear' as const,
            side,
            shoe,
            ...mm(Number((5 - 0.15 * distance + 0.05 * (index % 3)).toFixed(2))),
            gauge: 'depth-gauge',
          })),
          {
            kind: 'drum-diameter' as const,
            axle: 'rear' as const,
            side,
            ...mm(254 + 0.02 * distance),
            gauge: 'drum-gauge',
          },
        ]),
      });
      return historyOf({ inService, axles: { rear } }, [at('2023-07-01', 8), at('2024-01-02', 16)]);
    };
    const shop = Array.from({ length: 12 }, (_, index) => recordOf(drumVan(index), groupOf));
    const fitted = fitExperience(shop);
    expect(Object.keys(fitted.classes)).toEqual(['rear friction drum']);
    const experience = experienceFrom(fitted, { axleClass: groupOf('rear'), model: null, version: 1 });
    expect(experience.words).toBe('12 rear drum axles of this shop');
    const rateOf = (draws: typeof experience.pads): number =>
      Math.exp(draws.reduce((sum, { weight, parameters }) => sum + weight * parameters.logRateMean, 0));
    expect(rateOf(experience.pads)).toBeGreaterThan(0.12);
    expect(rateOf(experience.rotors)).toBeGreaterThan(0.015);
    const starting = startingExperience(groupOf('rear'));
    expect(rateOf(starting.pads)).toBeLessThan(0.1);
    expect(rateOf(starting.rotors)).toBeLessThan(0.012);
  });

  it('there are no data if no odometer was ever read', () => {
    const history = historyOf({ axles: van.axles }, [{ date: '2023-09-01', readings: fourPads(9.6) }]);
    expect(recordOf(history, groupOf)).toEqual({ model: null, stretches: [], axles: [] });
  });
});
