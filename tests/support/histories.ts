import fc from 'fast-check';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { DEFAULT_POLICY } from '../../src/core/assessment/policy.js';
import { outlookFor } from '../../src/core/assessment/outlook.js';
import { wearAnswer } from '../../src/core/assessment/wearAnswer.js';
import type { Outlook } from '../../src/core/assessment/outlookShape.js';
import { experienceOf, STARTING } from '../../src/core/assessment/whichExperience.js';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import { inOrder, type History, type HistoryVisit } from '../../src/core/history.js';
import { withConversions } from '../../src/core/units.js';
import { PADS, SIDES, type Pad, type Side } from '../../src/core/vocabulary/terms.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { km, mm, type Body } from './bodies.js';

/** Histories as a workshop might have them: from a wear process, read with error. */

/** A vehicle and its visits as they are sent, in order of date. */
export interface SentHistory {
  vehicle: Body;
  visits: Body[];
}

export const TODAY = '2026-03-10';

/** Resolution and reading error of gauges, mm. */
const GAUGES = [
  { name: 'pad-gauge', resolution: 0.5, sd: 0.2 },
  { name: 'depth-gauge', resolution: 0.1, sd: 0.15 },
  { name: 'caliper', resolution: 0.05, sd: 0.1 },
] as const;

const PLACES = SIDES.flatMap((side) => PADS.map((pad) => ({ side, pad })));
/** No pad wears thinner than this, mm. */
const THINNEST_MM = 1;

/** A random stream from a seed, so that one number determines a whole history. */
class Chance {
  private readonly generator;
  constructor(seed: number) {
    this.generator = xoroshiro128plus(seed);
  }
  between(low: number, high: number): number {
    return low + (high - low) * uniformFloat64(this.generator);
  }
  pick<T>(choices: readonly T[]): T {
    return choices[Math.floor(this.between(0, choices.length))]!;
  }
  normal(mean: number, sd: number): number {
    // Box and Muller; the first draw must not be 0, whose logarithm is not finite.
    const radius = Math.sqrt(-2 * Math.log(1 - this.between(0, 1)));
    return mean + sd * radius * Math.cos(2 * Math.PI * this.between(0, 1));
  }
  logNormal(median: number, sdOfLog: number): number {
    return median * Math.exp(this.normal(0, sdOfLog));
  }
}

/** Histories of one axle without a replacement, measured at every visit. */
export function wornHistory(visits = { min: 1, max: 5 }): fc.Arbitrary<SentHistory> {
  return fc
    .tuple(fc.integer({ min: 1, max: 2 ** 31 - 1 }), fc.integer(visits))
    .map(([seed, count]) => generateHistory(new Chance(seed), count))
    .filter((sent) => sent.visits.length >= visits.min);
}

/** A history from an in-service date to the point where the first pad would be worn too thin. */
function generateHistory(chance: Chance, count: number): SentHistory {
  const axle = chance.pick(['front', 'rear']);
  const newMm = Math.round(chance.between(9, 14));
  const limitMm = chance.pick([2, 3]);
  const rate = chance.logNormal(axle === 'front' ? 0.13 : 0.09, 0.45);
  const pace = chance.logNormal(40, 0.5);
  const gauge = chance.pick(GAUGES);
  const factors = PLACES.map(() => Math.max(0.5, chance.normal(chance.between(0, 1) < 0.05 ? 1.5 : 1, 0.13)));
  const gaps = Array.from({ length: count }, () => Math.round(chance.between(60, 300)));

  let day = toDay(TODAY) - 5 - gaps.reduce((sum, days) => sum + days, 0);
  const inService = chance.between(0, 1) < 0.7 ? { date: toFullDate(day), odometer: km(0) } : null;
  let driven = 0;
  const visits: Body[] = [];
  for (const days of gaps) {
    day += days;
    driven += Math.max(0, Math.round(pace * chance.normal(days, 1.5 * Math.sqrt(days))));
    const left = factors.map((factor) => newMm - (rate * factor * driven) / 1000);
    if (Math.min(...left) < THINNEST_MM) break;
    const pads = PLACES.map(({ side, pad }, index) => {
      const read = Math.min(newMm, Math.max(0, chance.normal(left[index]!, gauge.sd)));
      const value = roundTo(read, gauge.resolution);
      return { kind: 'pad-thickness', axle, side, pad, value, unit: 'mm', gauge: gauge.name };
    });
    const rotors = SIDES.map((side) => {
      const value = roundTo(chance.normal(28 - (0.1 * rate * driven) / 1000, 0.01), 0.01);
      return { kind: 'rotor-thickness', axle, side, point: 1, value, unit: 'mm', gauge: 'micrometer' };
    });
    visits.push({ date: toFullDate(day), odometer: km(driven), readings: [...pads, ...rotors] });
  }
  const specification = {
    brake: 'disc',
    pad: { new: mm(newMm), limit: mm(limitMm) },
    rotor: { new: mm(28), discard: mm(25) },
  };
  return { vehicle: { registration: 'WO 1', inService, axles: { [axle]: specification } }, visits };
}

function roundTo(value: number, step: number): number {
  return Number((Math.round(value / step) * step).toFixed(2));
}

/** The core's history of visits in a given order of arrival. */
export function outlookOf(sent: SentHistory): Outlook {
  const history = historyOf(sent);
  return outlookFor(history, experienceOf(history.vehicle, STARTING), DEFAULT_POLICY);
}

export function historyOf({ vehicle, visits }: SentHistory): History {
  return { vehicle: VehicleBody.parse(vehicle), visits: inOrder(visits.map(asHistoryVisit)) };
}

export function wearAnswerOf(sent: SentHistory): Wear {
  return wearAnswer('v', outlookOf(sent), { today: TODAY, until: null });
}

function asHistoryVisit(body: Body, arrival: number): HistoryVisit {
  const { date, time, odometer, odometerReplaced, roadTest, ...rest } = VisitBody.parse(body);
  const items = (list: readonly object[] | null | undefined) =>
    (withConversions(list ?? []) as object[]).map((item, index) => ({ id: `${arrival}-${index}`, ...item }));
  return {
    id: `visit-${arrival}`,
    arrival,
    date,
    time: time ?? null,
    odometer: withConversions(odometer ?? null),
    odometerReplaced: withConversions(odometerReplaced ?? null),
    readings: items(rest.readings),
    work: items(rest.work),
    torques: items(rest.torques),
    conditions: rest.conditions ?? [],
    notMeasured: rest.notMeasured ?? [],
    roadTest: roadTest ?? null,
  } as HistoryVisit;
}

type Where = { kind: string; side?: Side; pad?: Pad };

/** The same history with some readings of its latest visit changed. */
export function changeLatest(
  sent: SentHistory,
  where: Where,
  change: (value: number) => number,
): SentHistory {
  const latest = sent.visits.at(-1)!;
  const readings = (latest.readings as Body[]).map((reading) => {
    const meant = Object.entries(where).every(([name, value]) => reading[name] === value);
    return meant ? { ...reading, value: change(reading.value as number) } : reading;
  });
  return { ...sent, visits: [...sent.visits.slice(0, -1), { ...latest, readings }] };
}

/** Histories in which anything may happen: replacements, missing readings, days without an odometer reading. */
export function messyHistory(): fc.Arbitrary<SentHistory> {
  const reading = fc.record({
    place: fc.constantFrom(...PLACES),
    at: fc.constantFrom('thinnest', 'leading', 'trailing'),
    taken: fc.constantFrom('as-found', 'as-left'),
    value: fc.double({ min: 0, max: 14, noNaN: true }),
    gauge: fc.constantFrom('pad-gauge', 'depth-gauge', 'caliper', 'visual', null),
  });
  const rotor = fc.record({
    side: fc.constantFrom(...SIDES),
    point: fc.integer({ min: 1, max: 8 }),
    taken: fc.constantFrom('as-found', 'as-left'),
    value: fc.double({ min: 20, max: 30, noNaN: true }),
  });
  const work = fc.record({
    kind: fc.constantFrom('pads-replaced', 'rotor-replaced', 'rotor-machined', 'slides-serviced'),
    side: fc.constantFrom('left', 'right', null),
  });
  const visit = fc.record({
    gapDays: fc.integer({ min: 0, max: 900 }),
    drivenKm: fc.option(fc.integer({ min: 0, max: 80_000 })),
    isReplacedOdometer: fc.integer({ min: 0, max: 9 }).map((draw) => draw === 0),
    readings: fc.uniqueArray(reading, { maxLength: 8, selector: placeOfPad }),
    rotors: fc.uniqueArray(rotor, { maxLength: 5, selector: placeOfRotor }),
    work: fc.array(work, { maxLength: 2 }),
  });
  return fc
    .record({
      newMm: fc.option(fc.integer({ min: 5, max: 14 })),
      limitMm: fc.option(fc.constantFrom(1, 2, 3)),
      rotor: fc.option(fc.constant({ new: mm(28), discard: mm(25) })),
      inService: fc.constantFrom('none', 'date', 'odometer'),
      regenerative: fc.boolean(),
      visits: fc.array(visit, { maxLength: 6 }),
    })
    .map(({ newMm, limitMm, rotor: rotorSpec, inService, regenerative, visits }) => {
      let day = toDay('2015-01-01');
      let shownKm = 0;
      const start = { date: toFullDate(day), odometer: inService === 'odometer' ? km(0) : null };
      const pad = { new: newMm === null ? null : mm(newMm), limit: limitMm === null ? null : mm(limitMm) };
      return {
        vehicle: {
          registration: 'ME 1',
          brakeSystem: { regenerative },
          inService: inService === 'none' ? null : start,
          axles: { front: { pad, rotor: rotorSpec } },
        },
        visits: visits.map(
          ({ gapDays, drivenKm, isReplacedOdometer, readings, rotors, work: done }): Body => {
            day += gapDays;
            if (isReplacedOdometer) shownKm = 0;
            shownKm += drivenKm ?? 0;
            return {
              date: toFullDate(day),
              odometer: drivenKm === null ? null : km(shownKm),
              odometerReplaced: isReplacedOdometer ? { oldFinal: null, newStart: null } : null,
              readings: [
                ...readings.map(({ place, ...rest }) => ({
                  kind: 'pad-thickness',
                  axle: 'front',
                  unit: 'mm',
                  ...place,
                  ...rest,
                })),
                ...rotors.map((rest) => ({ kind: 'rotor-thickness', axle: 'front', unit: 'mm', ...rest })),
              ],
              work: done.map((item) => ({ axle: 'front', ...item })),
            };
          },
        ),
      };
    });
}

const placeOfPad = ({ place, at, taken }: { place: { side: Side; pad: Pad }; at: string; taken: string }) =>
  `${place.side} ${place.pad} ${at} ${taken}`;
const placeOfRotor = ({ side, point, taken }: { side: Side; point: number; taken: string }) =>
  `${side} ${point} ${taken}`;

/** Factors by which the distances and the thicknesses of a history may be wrong. */
const WRONG_BY = [1e-3, 0.1, 10, 100, 1e4];
const MAX_KM = 5e6;
const MAX_MM = 40;

/** Messy histories whose distances and linings are wrong by orders of magnitude. */
export function impossibleHistory(): fc.Arbitrary<SentHistory> {
  const factors = fc.tuple(fc.constantFrom(...WRONG_BY), fc.constantFrom(...WRONG_BY));
  return fc.tuple(messyHistory(), factors).map(([sent, [byKm, byMm]]) => ({
    ...sent,
    visits: sent.visits.map((visit) => {
      const { odometer, readings } = visit as { odometer: Quantity | null; readings: Quantity[] };
      return {
        ...visit,
        odometer: odometer && { ...odometer, value: Math.min(MAX_KM, odometer.value * byKm) },
        readings: readings.map((reading) =>
          reading.kind === 'pad-thickness'
            ? { ...reading, value: Math.min(MAX_MM, reading.value * byMm) }
            : reading,
        ),
      };
    }),
  }));
}

interface Quantity {
  kind?: string;
  value: number;
}

/** The same history from a shop that measures in inches and miles. */
export function inInchesAndMiles<Tree>(tree: Tree): Tree {
  if (Array.isArray(tree)) return tree.map(inInchesAndMiles) as Tree;
  if (typeof tree !== 'object' || tree === null) return tree;
  const copy = Object.fromEntries(
    Object.entries(tree).map(([name, member]) => [name, inInchesAndMiles(member as unknown)]),
  ) as { value?: unknown; unit?: unknown };
  if (typeof copy.value === 'number' && copy.unit === 'mm')
    return { ...copy, value: copy.value / 25.4, unit: 'in' } as Tree;
  if (typeof copy.value === 'number' && copy.unit === 'km')
    return { ...copy, value: copy.value / 1.609344, unit: 'mi' } as Tree;
  return copy as Tree;
}
