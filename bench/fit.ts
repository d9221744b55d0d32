import { parseArgs } from 'node:util';
import { streams, type Chance } from '../seed/random.js';
import { recordOf } from '../src/core/assessment/record.js';
import type { Group } from '../src/core/forecast/experience.js';
import {
  carryOutFitTask,
  fitExperienceBy,
  type AxleRecord,
  type FitTask,
  type FitTaskDone,
  type VehicleRecord,
} from '../src/core/forecast/fit.js';
import { allDone, CORES, isWorker, serveJobs } from '../src/processes.js';
import { rotorBeliefs } from '../src/core/forecast/starting.js';
import { writeSection } from './markdown.js';
import { driveAxle } from './modelAxles.js';
import { wholeNumber } from './options.js';
import { simulate, WORLDS, type SimulatedVehicle, type World } from './worlds.js';

/**
 * How long a fit to a shop takes: a model of each simulated world, including a regenerative one and one whose
 * rates change, each vehicle with the pads and rotors of two axles.
 *
 *   npm run bench:fit -- [--vehicles 1000] [--seed 1] [--write]
 */

/** Rear pads wear more slowly. */
const REAR_SHARE = 0.7;

function shopOf(vehicles: number, seed: number): VehicleRecord[] {
  return WORLDS.flatMap((world, index) => {
    const count =
      Math.round(((index + 1) * vehicles) / WORLDS.length) - Math.round((index * vehicles) / WORLDS.length);
    const fronts = simulate(world, count, 2 * seed);
    const rears = simulate({ ...world, rate: REAR_SHARE * world.rate }, count, 2 * seed + 1);
    const chances = streams(seed + index, count);
    return fronts.map((front, vehicle) => recordFrom(world, front, rears[vehicle]!, chances[vehicle]!));
  });
}

function recordFrom(
  { name, regenerative }: World,
  front: SimulatedVehicle,
  rear: SimulatedVehicle,
  chance: Chance,
): VehicleRecord {
  const axle = ({ history }: SimulatedVehicle, group: Group): AxleRecord => ({
    group,
    pads: recordOf(history, () => group).axles[0]?.pads ?? [],
    rotors: driveAxle(chance, rotorBeliefs(group).given)
      .parts.slice(0, 2)
      .map(({ lives }) => ({ ratioShare: 0, lives })),
  });
  return {
    model: name,
    stretches: recordOf(front.history, () => ({ steeredOrFront: true, regenerative })).stretches,
    axles: [
      axle(front, { steeredOrFront: true, regenerative }),
      axle(rear, { steeredOrFront: false, regenerative }),
    ],
  };
}

/** A piece of the fit with the processor time that it took, ms. */
interface TimedTask {
  done: FitTaskDone;
  ms: number;
}

function timedTask(task: FitTask): TimedTask {
  const before = process.cpuUsage();
  const done = carryOutFitTask(task);
  const { user, system } = process.cpuUsage(before);
  return { done, ms: (user + system) / 1000 };
}

if (isWorker) serveJobs(timedTask);
else await main();

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      vehicles: { type: 'string', default: '1000' },
      seed: { type: 'string', default: '1' },
      write: { type: 'boolean', default: false },
    },
  });
  const vehicles = wholeNumber('vehicles', values.vehicles);
  const seed = wholeNumber('seed', values.seed);
  const shop = shopOf(vehicles, seed);
  const began = performance.now();
  let processorMs = 0;
  const fitted = await fitExperienceBy(shop, async (tasks) => {
    const all = await allDone<FitTask, TimedTask>(import.meta.filename, tasks as FitTask[]);
    processorMs = all.reduce((sum, { ms }) => sum + ms, 0);
    return all.map(({ done }) => done);
  });
  const seconds = (performance.now() - began) / 1000;
  const readings = Object.values(fitted.classes).reduce((sum, each) => sum + each.readings, 0);
  const text = [
    `\`npm run bench:fit -- --vehicles ${vehicles} --seed ${seed}\``,
    `${fitted.vehicles} vehicles of ${WORLDS.length} models, ${Object.keys(fitted.classes).length} axle classes, ${readings} pad readings: **${(processorMs / 1000).toFixed(1)} s** of processor time, ${seconds.toFixed(1)} s on the clock on ${CORES} cores; Node ${process.versions.node}.`,
  ].join('\n\n');
  console.log(text);
  if (values.write) writeSection('fit', text);
}
