import { describe, expect, it } from 'vitest';
import { toDay } from '../../src/core/calendar.js';
import { counterpartLives, padLives } from '../../src/core/lives.js';
import { layRoad } from '../../src/core/odometer.js';
import type { Pad, Side } from '../../src/core/vocabulary/terms.js';
import {
  fourPads,
  historyOf,
  km,
  mm,
  padReading,
  rotorReadings,
  type VehicleDraft,
  type VisitDraft,
} from '../support/coreHistories.js';

const IN_SERVICE: VehicleDraft = { inService: { date: '2024-01-01', odometer: km(12) } };

function padLivesOf(vehicle: VehicleDraft, visits: VisitDraft[], side: Side = 'left', pad: Pad = 'inner') {
  const history = historyOf(vehicle, visits);
  return padLives(history, layRoad(history), 'front', side, pad);
}
function rotorLivesOf(vehicle: VehicleDraft, visits: VisitDraft[], side: Side = 'left') {
  const history = historyOf(vehicle, visits);
  return counterpartLives(history, layRoad(history), 'front', side);
}
const thicknesses = (life: { observations: { mm: number }[] } | undefined) =>
  life!.observations.map((observation) => observation.mm);

describe('the first life of a pad', () => {
  it('the first life of a pad begins at in-service with the specified thickness', () => {
    const [life, ...later] = padLivesOf(IN_SERVICE, [
      { date: '2024-07-01', odometer: km(10_012), readings: fourPads(9.5) },
    ]);
    expect(later).toEqual([]);
    expect(life).toMatchObject({
      origin: 'in-service',
      start: { day: toDay('2024-01-01'), place: { km: 0, sdKm: 0 }, odometerKm: 12 },
      startMm: 11,
    });
    expect(life!.observations).toMatchObject([
      { mm: 9.5, day: toDay('2024-07-01'), place: { km: 10_000, sdKm: 0 }, gauge: { name: 'depth-gauge' } },
    ]);
  });

  it('the first life of a pad has an unknown start if in-service is unknown', () => {
    const [life] = padLivesOf({}, [{ date: '2024-07-01', odometer: km(61_000), readings: fourPads(6) }]);
    expect(life).toMatchObject({ origin: 'first-reading', start: null, startMm: null });
    expect(thicknesses(life)).toEqual([6]);
  });

  it('the first life of a pad has an unknown starting thickness if none is specified', () => {
    const [life] = padLivesOf({ ...IN_SERVICE, axles: { front: { brake: 'disc' } } }, []);
    expect(life).toMatchObject({ origin: 'in-service', startMm: null, observations: [] });
  });
});

describe('a replacement of pads', () => {
  const replacement: VisitDraft = {
    date: '2025-01-01',
    odometer: km(40_012),
    readings: [...fourPads(2.5), ...fourPads(11.8, { taken: 'as-left' })],
    work: [{ kind: 'pads-replaced', axle: 'front', new: mm(12), limit: mm(3) }],
  };

  it('a replacement of pads ends one life with the as-found reading and begins the next with the as-left reading', () => {
    const lives = padLivesOf(IN_SERVICE, [replacement]);
    expect(lives.map(thicknesses)).toEqual([[2.5], [11.8]]);
    expect(lives[1]).toMatchObject({
      origin: 'replaced',
      start: { day: toDay('2025-01-01'), place: { km: 40_000, sdKm: 0 }, odometerKm: 40_012 },
      startMm: 12,
    });
  });

  it('the specification of a replacement replaces the vehicle’s, member by member', () => {
    const [first, second] = padLivesOf(IN_SERVICE, [replacement]);
    expect(first!.spec).toMatchObject({ new: { value: 11 }, limit: { value: 2 } });
    expect(second!.spec).toMatchObject({ new: { value: 12 }, limit: { value: 3 } });
    const [, bare] = padLivesOf(IN_SERVICE, [
      { date: '2025-01-01', work: [{ kind: 'pads-replaced', axle: 'front', limit: mm(3) }] },
    ]);
    expect(bare).toMatchObject({ startMm: 11, spec: { new: { value: 11 }, limit: { value: 3 } } });
  });

  it('the specification of a replacement does not apply to the following set', () => {
    const lives = padLivesOf(IN_SERVICE, [
      replacement,
      { date: '2026-01-01', odometer: km(80_000), work: [{ kind: 'pads-replaced', axle: 'front' }] },
    ]);
    expect(lives[2]).toMatchObject({ startMm: 11, spec: { new: { value: 11 }, limit: { value: 2 } } });
  });

  it('a replacement on one side leaves the other side unchanged', () => {
    const oneSide: VisitDraft = {
      date: '2025-01-01',
      odometer: km(40_012),
      readings: fourPads(2.5),
      work: [{ kind: 'pads-replaced', axle: 'front', side: 'left' }],
    };
    expect(padLivesOf(IN_SERVICE, [oneSide], 'left', 'inner')).toHaveLength(2);
    expect(padLivesOf(IN_SERVICE, [oneSide], 'left', 'outer')).toHaveLength(2);
    expect(padLivesOf(IN_SERVICE, [oneSide], 'right', 'inner').map(thicknesses)).toEqual([[2.5]]);
    expect(padLivesOf(IN_SERVICE, [oneSide], 'right', 'outer')).toHaveLength(1);
  });

  it('a replacement on another axle leaves this one unchanged', () => {
    const axles = { front: {}, rear: {} };
    const visits: VisitDraft[] = [{ date: '2025-01-01', work: [{ kind: 'pads-replaced', axle: 'rear' }] }];
    expect(padLivesOf({ axles }, visits)).toHaveLength(1);
  });

  it.each([
    'slides-serviced',
    'caliper-replaced',
    'hose-replaced',
    'rotor-machined',
    'rotor-replaced',
  ] as const)('other work is no replacement: %s', (kind) => {
    expect(padLivesOf(IN_SERVICE, [{ date: '2025-01-01', work: [{ kind, axle: 'front' }] }])).toHaveLength(1);
  });

  it('a replacement at a distance computed from the date has no odometer reading of its own', () => {
    const [, second] = padLivesOf(IN_SERVICE, [
      { date: '2024-04-10', odometer: km(5012) },
      { date: '2024-05-30', work: [{ kind: 'pads-replaced', axle: 'front' }] },
      { date: '2024-07-19', odometer: km(9012) },
    ]);
    expect(second!.start).toMatchObject({ odometerKm: null, place: { km: 7000 } });
    expect(second!.start!.place!.sdKm).toBeGreaterThan(0);
  });

  it('a replacement recorded late is placed by its date', () => {
    const lives = padLivesOf(IN_SERVICE, [
      { date: '2024-07-01', odometer: km(10_000), readings: fourPads(9) },
      { date: '2025-07-01', odometer: km(50_000), readings: fourPads(10) },
      { date: '2025-01-01', odometer: km(40_000), work: [{ kind: 'pads-replaced', axle: 'front' }] },
    ]);
    expect(lives.map(thicknesses)).toEqual([[9], [10]]);
  });
});

describe('an observation of a pad', () => {
  const observe = (readings: VisitDraft['readings']) =>
    padLivesOf(IN_SERVICE, [{ date: '2024-07-01', odometer: km(10_000), readings }])[0]!.observations;

  it('an observation of a pad is the thinnest of its places', () => {
    const [observation] = observe([
      padReading('left', 'inner', 7.5, { at: 'leading' }),
      padReading('left', 'inner', 6.1, { at: 'trailing', gauge: 'caliper' }),
      padReading('left', 'inner', 7),
    ]);
    expect(observation!.mm).toBe(6.1);
    expect(observation!.gauge.name).toBe('caliper');
    expect([...observation!.places]).toEqual([
      ['leading', 7.5],
      ['trailing', 6.1],
      ['thinnest', 7],
    ]);
  });

  it('an observation of a pad is the mean of the repeats of a place', () => {
    const [observation] = observe([
      padReading('left', 'inner', 6.5),
      padReading('left', 'inner', 6.75, { repeat: 2 }),
      padReading('left', 'inner', 7, { repeat: 3 }),
    ]);
    expect(observation!.mm).toBe(6.75);
  });

  it('other pads, other sides and rotors are not part of the observation', () => {
    expect(
      observe([
        padReading('left', 'outer', 6),
        padReading('right', 'inner', 5),
        ...rotorReadings('left', [27.5]),
      ]),
    ).toEqual([]);
  });
});

describe('the lives of a rotor', () => {
  it('machining starts a life with the same specification and a thickness known only from a reading', () => {
    const lives = rotorLivesOf(IN_SERVICE, [
      {
        date: '2025-01-01',
        odometer: km(40_012),
        readings: [
          ...rotorReadings('left', [27.2, 27.25]),
          ...rotorReadings('left', [26.9, 26.91], { taken: 'as-left' }),
        ],
        work: [{ kind: 'rotor-machined', axle: 'front' }],
      },
    ]);
    expect(lives.map(thicknesses)).toEqual([[27.2], [26.9]]);
    expect(lives.map((life) => life.origin)).toEqual(['in-service', 'machined']);
    expect(lives.map((life) => life.startMm)).toEqual([28, null]);
    expect(lives[1]!.spec).toEqual(lives[0]!.spec);
  });

  it('a machined rotor keeps the specification it was fitted with', () => {
    const lives = rotorLivesOf(IN_SERVICE, [
      {
        date: '2025-01-01',
        work: [{ kind: 'rotor-replaced', axle: 'front', new: mm(30), discard: mm(28) }],
      },
      { date: '2026-01-01', work: [{ kind: 'rotor-machined', axle: 'front', side: 'left' }] },
    ]);
    expect(lives.map((life) => life.spec.limit?.value)).toEqual([26, 28, 28]);
    expect(lives.map((life) => life.startMm)).toEqual([28, 30, null]);
  });

  it('new pads and machining of the other side leave the lives of a rotor unchanged', () => {
    const visits: VisitDraft[] = [
      {
        date: '2025-01-01',
        work: [
          { kind: 'pads-replaced', axle: 'front' },
          { kind: 'rotor-machined', axle: 'front', side: 'right' },
        ],
      },
    ];
    expect(rotorLivesOf(IN_SERVICE, visits, 'left')).toHaveLength(1);
    expect(rotorLivesOf(IN_SERVICE, visits, 'right')).toHaveLength(2);
  });

  it('the thinnest point is the observation, and every point is stored', () => {
    const [life] = rotorLivesOf(IN_SERVICE, [
      { date: '2025-01-01', readings: rotorReadings('left', [27.04, 27.03, 27.01, 27.02]) },
    ]);
    expect(thicknesses(life)).toEqual([27.01]);
    expect([...life!.observations[0]!.places.values()]).toEqual([27.04, 27.03, 27.01, 27.02]);
  });
});
