import fc from 'fast-check';
import { expect, it } from 'vitest';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import { km, mm, type Body } from '../support/bodies.js';
import { historyOf, messyHistory, wornHistory, type SentHistory } from '../support/histories.js';
import { scoresOf } from '../support/scoring.js';

/** No forecast of the past may use later data: another future does not change it. */

const lastOf = ({ visits }: SentHistory) => {
  const { date } = visits.at(-1) as { date: string };
  const odometerKm = Math.max(
    0,
    ...visits.map(({ odometer }) => (odometer as { value: number } | null)?.value ?? 0),
  );
  return { day: toDay(date), km: odometerKm };
};

/** A visit some time after the last one at which every pad of the axle is worn out. */
function wornOut(sent: SentHistory, days: number, drivenKm: number, more: Body = {}): Body {
  const last = lastOf(sent);
  const [axle] = Object.keys(sent.vehicle.axles as object);
  const readings = ['left', 'right'].flatMap((side) =>
    ['inner', 'outer'].map((pad) => ({ kind: 'pad-thickness', axle, side, pad, value: 0.4, unit: 'mm' })),
  );
  return { date: toFullDate(last.day + days), odometer: km(last.km + drivenKm), readings, ...more };
}

const withVisits = (sent: SentHistory, ...visits: Body[]): SentHistory => ({
  ...sent,
  visits: [...sent.visits, ...visits],
});

/** Another future: other readings and use, new pads of another specification, and another odometer. */
const otherFuture = fc.record({
  days: fc.integer({ min: 20, max: 2000 }),
  drivenKm: fc.integer({ min: 1, max: 200_000 }),
  newMm: fc.integer({ min: 8, max: 20 }),
  limitMm: fc.integer({ min: 1, max: 6 }),
});

/** The forecast made at each visit, without its outcome. */
function forecastsOf(sent: SentHistory): Map<string, unknown> {
  const { dates } = scoresOf(historyOf(sent));
  return new Map(
    dates.map(
      ({ axle, set, setNumber, date, readings, experience, days, km: distance, twoPointDays, lineDays }) => [
        `${axle} ${date}`,
        { set, setNumber, readings, experience, days, distance, twoPointDays, lineDays },
      ],
    ),
  );
}

it('a forecast made at a visit does not depend on later visits', () => {
  let compared = 0;
  fc.assert(
    fc.property(fc.oneof(wornHistory({ min: 1, max: 4 }), messyHistory()), otherFuture, (sent, future) => {
      fc.pre(sent.visits.length > 0);
      const [axle] = Object.keys(sent.vehicle.axles as object);
      const forecasts = forecastsOf(withVisits(sent, wornOut(sent, 100, 9000)));
      const others = forecastsOf(
        withVisits(
          sent,
          wornOut(sent, future.days, future.drivenKm, {
            work: [{ kind: 'pads-replaced', axle, new: mm(future.newMm), limit: mm(future.limitMm) }],
          }),
          {
            date: toFullDate(lastOf(sent).day + future.days + 1),
            odometer: km(5),
            odometerReplaced: { oldFinal: null, newStart: km(0) },
          },
        ),
      );
      for (const [visit, forecast] of forecasts) {
        if (!others.has(visit)) continue;
        compared += 1;
        expect(others.get(visit)).toEqual(forecast);
      }
    }),
    { numRuns: 60 },
  );
  expect(compared).toBeGreaterThan(50);
});

it('dropping visits from the end removes only their own forecasts', () => {
  fc.assert(
    fc.property(wornHistory({ min: 3, max: 5 }), (sent) => {
      const shorter = { ...sent, visits: sent.visits.slice(0, -1) };
      const whole = forecastsOf(sent);
      for (const [visit, forecast] of forecastsOf(shorter)) expect(whole.get(visit)).toEqual(forecast);
    }),
    { numRuns: 30 },
  );
});

it('the scores of any history are finite numbers that JSON can hold', () => {
  fc.assert(
    fc.property(messyHistory(), fc.boolean(), (sent, isWornOut) => {
      fc.pre(sent.visits.length > 0);
      const scores = scoresOf(historyOf(isWornOut ? withVisits(sent, wornOut(sent, 100, 9000)) : sent));
      expect(JSON.parse(JSON.stringify(scores))).toEqual(scores);
      for (const { reached, chance } of scores.dates) {
        expect(chance).toBeGreaterThanOrEqual(0);
        expect(chance).toBeLessThanOrEqual(1);
        if (reached) expect(reached.days).toBeGreaterThan(0);
      }
    }),
    { numRuns: 150 },
  );
});
