import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { AxleWear, Wear } from '../../src/core/vocabulary/wear.js';
import { fourPads, rotorReading, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import {
  inInchesAndMiles,
  messyHistory,
  wearAnswerOf,
  wornHistory,
  type SentHistory,
} from '../support/histories.js';
import { read, recordHistory, recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

const SEED = 20_260_311;

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

/** The wear answer over HTTP without the vehicle's id, which differs for every vehicle. */
async function answerFor(vehicle: Body, visits: Body[]): Promise<Wear> {
  const { id } = await recordHistory(service, vehicle, visits);
  return { ...(await read<Wear>(service, `/v1/vehicles/${id}/wear`)), vehicleId: '' };
}

/** A realistic history: two visits on a day, a replacement, a visit without an odometer reading. */
const eventful: Body[] = [
  visitBody('2024-03-01', 20_000, [...fourPads([9, 9.2, 9.1, 9.3]), rotorReading('left', 27.8)]),
  visitBody('2025-03-01', 40_000, fourPads([6.9, 7.2, 7, 7.3]), { time: '08:10' }),
  visitBody('2025-03-01', 40_010, fourPads([6.8, 7.2, 7.1, 7.3]), {
    time: '16:40',
    conditions: [{ part: 'rotor', axle: 'front', side: 'left', state: 'scored' }],
  }),
  visitBody('2025-09-01', null, [], { work: [{ kind: 'pads-replaced', axle: 'front', side: 'left' }] }),
  visitBody('2026-03-01', 60_000, [...fourPads([9.8, 9.9, 5, 5.2]), rotorReading('left', 27.5)]),
];

describe('the units of readings', () => {
  const days = (a: string | null, b: string | null): number =>
    a === null || b === null
      ? a === b
        ? 0
        : Infinity
      : Math.abs(Date.parse(a) - Date.parse(b)) / 86_400_000;

  function expectSameFigures(one: AxleWear, other: AxleWear): void {
    for (const point of ['early', 'median', 'late'] as const) {
      const { date, distanceKm } = one.replacement;
      expect(days(date?.[point] ?? null, other.replacement.date?.[point] ?? null)).toBeLessThanOrEqual(1);
      expect(
        Math.abs((distanceKm?.[point] ?? 0) - (other.replacement.distanceKm?.[point] ?? 0)),
      ).toBeLessThanOrEqual(1);
    }
    expect(other.replacement.governingPad).toEqual(one.replacement.governingPad);
    expectCloseMm(numbersOf(one.pads), numbersOf(other.pads));
    expectCloseMm(numbersOf(one.rotors), numbersOf(other.rotors));
  }

  /** Every number in part of an answer, in order. */
  function numbersOf(value: unknown): number[] {
    if (typeof value === 'number') return [value];
    return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersOf) : [];
  }

  function expectCloseMm(one: number[], other: number[]): void {
    expect(other).toHaveLength(one.length);
    one.forEach((value, index) => {
      // Odometer readings are among them, so the tolerance is relative as well as a thousandth of a millimetre.
      expect(Math.abs(value - other[index]!)).toBeLessThanOrEqual(Math.max(1e-3, 1e-9 * value));
    });
  }

  it('the units of readings make no difference to the answer', () => {
    fc.assert(
      fc.property(wornHistory(), (sent) => {
        const [metric] = wearAnswerOf(sent).axles;
        const [other] = wearAnswerOf(inInchesAndMiles(sent)).axles;
        expectSameFigures(metric!, other!);
      }),
      { seed: SEED, numRuns: 60 },
    );
  });

  it('the units of readings make no difference over HTTP', async () => {
    const metric = await answerFor(vehicleBody(), eventful);
    const other = await answerFor(inInchesAndMiles(vehicleBody()), inInchesAndMiles(eventful));
    expectSameFigures(metric.axles[0]!, other.axles[0]!);
    expect(other.usage.kmPerDay!.median).toBeCloseTo(metric.usage.kmPerDay!.median, 2);
  });
});

describe('the order in which visits are recorded', () => {
  it('the order in which visits are recorded makes no difference to the answer', () => {
    const shuffled = fc
      .oneof(wornHistory({ min: 2, max: 5 }), messyHistory())
      .chain((sent) =>
        fc
          .shuffledSubarray(sent.visits, { minLength: sent.visits.length, maxLength: sent.visits.length })
          .map((visits): [SentHistory, SentHistory] => [sent, { ...sent, visits }]),
      );
    fc.assert(
      fc.property(shuffled, ([sent, shuffledHistory]) => {
        // Visits of one day without a time or odometer reading are ordered by arrival, so their order must matter.
        fc.pre(new Set(sent.visits.map(({ date }) => date)).size === sent.visits.length);
        expect(wearAnswerOf(shuffledHistory)).toEqual(wearAnswerOf(sent));
      }),
      { seed: SEED + 1, numRuns: 60 },
    );
  });

  it('the order in which visits are recorded makes no difference over HTTP', async () => {
    const straight = await answerFor(vehicleBody(), eventful);
    const orders = fc.sample(
      fc.shuffledSubarray(eventful, { minLength: eventful.length, maxLength: eventful.length }),
      { seed: SEED + 2, numRuns: 4 },
    );
    for (const visits of [[...eventful].reverse(), ...orders])
      expect(await answerFor(vehicleBody(), visits)).toEqual(straight);
  });

  it('recording a visit in parts makes no difference', async () => {
    const whole = await answerFor(vehicleBody(), eventful);
    const { id } = await recordVehicle(service, vehicleBody());
    for (const { readings, work, conditions, ...bare } of eventful) {
      const visit = await recordVisit(service, id, bare);
      const [first, ...rest] = readings as Body[];
      const entries = [{ work }, { readings: rest }, { readings: first ? [first] : [] }, { conditions }];
      for (const entry of entries) {
        const [list] = Object.values(entry) as (unknown[] | undefined)[];
        if (!list?.length) continue;
        const added = await service.as('technician', 'post', `/v1/visits/${visit.id}/entries`).send(entry);
        expect(added.status).toBe(201);
      }
    }
    const inParts = await read<Wear>(service, `/v1/vehicles/${id}/wear`);
    expect({ ...inParts, vehicleId: '' }).toEqual(whole);
  });
});
