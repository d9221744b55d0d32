import { parseArgs } from 'node:util';
import { DEMO_SEED } from '../seed/load.js';
import { generateDemo, type DemoVehicle } from '../seed/generate.js';
import { axleOutlook } from '../src/core/assessment/axle.js';
import { outlookFor } from '../src/core/assessment/outlook.js';
import type { ExperienceFor } from '../src/core/assessment/outlookShape.js';
import { DEFAULT_POLICY } from '../src/core/assessment/policy.js';
import { recordOf } from '../src/core/assessment/record.js';
import { startingExperience, type Group } from '../src/core/forecast/experience.js';
import { experienceFrom, fitExperience } from '../src/core/forecast/fit.js';
import { evenly } from '../src/core/forecast/pooling.js';
import { usagePosterior } from '../src/core/forecast/usage.js';
import { inOrder, type History, type HistoryVisit } from '../src/core/history.js';
import { layRoad } from '../src/core/odometer.js';
import { withConversions } from '../src/core/units.js';
import { AXLES, SIDES } from '../src/core/vocabulary/terms.js';
import { VehicleBody } from '../src/core/vocabulary/vehicle.js';
import { VisitBody } from '../src/core/vocabulary/visit.js';
import { NEW_MM, simulate, WORLDS, type SimulatedVehicle } from './worlds.js';

/**
 * The processor time of one axle's outlook by number of visits, for pads alone and with rotors,
 * with the starting values and with experience; the same for whole vehicles of the demo; and the cost of a fit. The
 * rows run in turn, many times, so that other load on the machine affects all of them alike.
 *
 *   npm run bench:outlook -- [--runs 5] [--fit 1000]
 */

const VISITS = [1, 2, 4, 8, 16, 50];
const LIVES = 12;
/** Outlooks timed together: one alone is too short to time. */
const TOGETHER = 3;
const SIMULATED = 60;
const SEED = 5;
const TODAY = '2026-03-02';
const simulated = WORLDS.map((world) => simulate(world, SIMULATED, SEED));

/** Lives with this many visits, evenly from all worlds that have any. */
function livesOf(visits: number): History[] {
  const long = simulated.flat().filter(({ truths }) => truths.length >= visits);
  return evenly(long, LIVES).map((vehicle) => withRotors(vehicle, visits));
}

const ROTOR_NEW_MM = 28;
/** What a rotor loses while its pads lose 1 mm, mm. */
const ROTOR_SHARE = 0.12;
const ROTOR_POINTS = 4;

/**
 * The simulated fleets have no rotors: each vehicle gets two that wear with the pads, read to 0.01 mm at four points.
 */
function withRotors({ history, truths }: SimulatedVehicle, visits: number): History {
  const mm = (value: number) => ({ value, unit: 'mm' as const });
  const { front } = history.vehicle.axles;
  const rotor = { new: mm(ROTOR_NEW_MM), discard: mm(26), machineTo: mm(26.4) };
  const vehicle = { ...history.vehicle, axles: { front: { ...front!, rotor } } };
  return {
    vehicle,
    visits: history.visits.slice(0, visits).map((visit, index) => {
      const left = truths[index]!.mm.reduce((sum, pad) => sum + pad, 0) / truths[index]!.mm.length;
      const readings = SIDES.flatMap((side, right) =>
        Array.from({ length: ROTOR_POINTS }, (_, point): HistoryVisit['readings'][number] => {
          const worn = ROTOR_SHARE * (NEW_MM - left) + 0.01 * (point + right);
          const value = Number((ROTOR_NEW_MM - worn).toFixed(2));
          const place = { kind: 'rotor-thickness' as const, axle: 'front' as const, side, point: point + 1 };
          const id = `${side}-${point}`;
          return { ...place, id, taken: 'as-found', repeat: 1, gauge: 'micrometer', ...mm(value), mm: value };
        }),
      );
      return { ...visit, readings: [...visit.readings, ...readings] };
    }),
  };
}

function withoutRotors(history: History): History {
  const { rotor: _, ...front } = history.vehicle.axles.front!;
  return {
    vehicle: { ...history.vehicle, axles: { front } },
    visits: history.visits.map((visit) => ({
      ...visit,
      readings: visit.readings.filter(({ kind }) => kind === 'pad-thickness'),
    })),
  };
}

function demoHistory({ vehicle, visits }: DemoVehicle): History {
  return {
    vehicle: VehicleBody.parse(vehicle),
    visits: inOrder(visits.map((visit, arrival) => asStored(VisitBody.parse(visit), arrival))),
  };
}

/** A visit as it is read back from the store. */
function asStored(body: VisitBody, arrival: number): HistoryVisit {
  const withIds = (items: readonly object[] | null | undefined) =>
    (items ?? []).map((item, index) => ({ id: `${arrival}-${index + 1}`, ...item }));
  return withConversions({
    id: `visit-${arrival}`,
    arrival,
    date: body.date,
    time: body.time ?? null,
    odometer: body.odometer ?? null,
    odometerReplaced: body.odometerReplaced ?? null,
    readings: withIds(body.readings),
    conditions: body.conditions ?? [],
    work: withIds(body.work),
    torques: withIds(body.torques),
    notMeasured: body.notMeasured ?? [],
    roadTest: body.roadTest ?? null,
  }) as HistoryVisit;
}

const demo = generateDemo(DEMO_SEED, TODAY).map(demoHistory);

const groupIn =
  (history: History) =>
  (axle: string): Group => ({
    steeredOrFront: axle === 'front' || axle === 'axle-1',
    regenerative: history.vehicle.brakeSystem?.regenerative ?? false,
  });

type ExperienceIn = (history: History) => ExperienceFor;

const starting: ExperienceIn = (history) => (axle) => startingExperience(groupIn(history)(axle));

/** A shop's experience; the same for all axles of a class and model. */
function learnedFrom(histories: readonly History[]): ExperienceIn {
  const fitted = fitExperience(histories.map((history) => recordOf(history, groupIn(history))));
  const known = new Map<string, ReturnType<typeof experienceFrom>>();
  return (history) => (axle) => {
    const axleClass = groupIn(history)(axle);
    const model = history.vehicle.model ?? null;
    const key = JSON.stringify([axleClass, model]);
    if (!known.has(key)) known.set(key, experienceFrom(fitted, { axleClass, model, version: 1 }));
    return known.get(key)!;
  };
}

const fleetOf = (name: string): History[] => {
  const world = WORLDS.findIndex((each) => each.name === name);
  return simulated[world]!.map((vehicle) => withRotors(vehicle, vehicle.truths.length));
};

interface Row {
  name: string;
  /** Each computes one outlook. */
  calls: (() => unknown)[];
  /** Average number of axles that one call computes. */
  axles: number;
  measured: number[];
}

function axleCall(history: History, experienceIn: ExperienceIn): () => unknown {
  const experience = experienceIn(history)('front');
  const road = layRoad(history);
  const usage = usagePosterior(road.stretches, experience.usage);
  const limits = { ruleSets: [], padMinimum: null };
  const context = { history, road, usage, daysToNextVisit: DEFAULT_POLICY.visitIntervalDays, ...limits };
  return () => axleOutlook(context, 'front', experience);
}

function vehicleCall(history: History, experienceIn: ExperienceIn): () => unknown {
  const experienceFor = experienceIn(history);
  return () => outlookFor(history, experienceFor, DEFAULT_POLICY);
}

function rowsOf(words: string, experienceIn: ExperienceIn): Row[] {
  const rows = VISITS.flatMap((visits): Row[] => {
    const lives = livesOf(visits);
    const name = `${words}, ${visits} visit${visits === 1 ? '' : 's'}`;
    const row = (what: string, calls: (() => unknown)[]) => ({
      name: `${name}: ${what}`,
      calls,
      axles: 1,
      measured: [],
    });
    return [
      row(
        'axle, pads alone',
        lives.map((life) => axleCall(withoutRotors(life), experienceIn)),
      ),
      row(
        'axle, pads and rotors',
        lives.map((life) => axleCall(life, experienceIn)),
      ),
      row(
        'whole vehicle of one axle',
        lives.map((life) => vehicleCall(life, experienceIn)),
      ),
    ];
  });
  const axles = demo.map(({ vehicle }) => AXLES.filter((axle) => vehicle.axles[axle]).length);
  return [
    ...rows,
    {
      name: `${words}: whole vehicles of the demo, per axle`,
      calls: demo.map((history) => vehicleCall(history, experienceIn)),
      axles: axles.reduce((sum, count) => sum + count, 0) / demo.length,
      measured: [],
    },
  ];
}

/** Processor time of a call, µs. */
function timed(call: () => unknown, times: number): number {
  const before = process.cpuUsage();
  for (let time = 0; time < times; time++) call();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / times;
}

function quantile(values: readonly number[], probability: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(probability * sorted.length))]!;
}

function measure(rows: readonly Row[], runs: number): void {
  for (const { calls } of rows) for (const call of calls) timed(call, 2);
  for (let run = 0; run < runs; run++) {
    for (const row of rows) {
      for (const call of row.calls) row.measured.push(timed(call, TOGETHER) / row.axles);
    }
  }
  console.log(`${'processor time per axle, µs'.padEnd(62)}${'median'.padStart(9)}${'95 %'.padStart(9)}`);
  for (const { name, measured } of rows) {
    const figure = (probability: number) => quantile(measured, probability).toFixed(0).padStart(9);
    console.log(name.padEnd(62) + figure(0.5) + figure(0.95));
  }
}

/** A fit to simulated fleets, one model per world. */
function measureFit(vehicles: number): void {
  const share = Math.ceil(vehicles / WORLDS.length);
  const records = WORLDS.flatMap((world) =>
    simulate(world, share, SEED).map((vehicle) => {
      const history = withRotors(vehicle, vehicle.truths.length);
      return recordOf({ ...history, vehicle: { ...history.vehicle, model: world.name } }, groupIn(history));
    }),
  );
  const began = performance.now();
  const cpuUs = timed(() => fitExperience(records), 1);
  const seconds = (performance.now() - began) / 1000;
  console.log(
    `fit to ${records.length} vehicles: ${seconds.toFixed(1)} s, ${(cpuUs / 1e6).toFixed(1)} s of processor time`,
  );
}

const { values } = parseArgs({
  options: { runs: { type: 'string', default: '5' }, fit: { type: 'string' } },
});
if (values.fit) measureFit(Number(values.fit));
else {
  const rows = [
    ...rowsOf('starting values', starting),
    ...rowsOf('experience', learnedFrom([...fleetOf('correlated'), ...fleetOf('regenerative'), ...demo])),
    ...rowsOf('with changes of rate', learnedFrom(fleetOf('changing'))),
  ];
  measure(rows, Number(values.runs));
}
