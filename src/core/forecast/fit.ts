import type { Stretch } from '../stretches.js';
import { startingExperience, type Draw, type Experience, type Group } from './experience.js';
import { fitCorrelation } from './fitCorrelation.js';
import { fitUsage, usageDraws, type FittedUsage, type UsageHistory } from './fitUsage.js';
import { fitPads, fitRotors, wearDraws, type AxleHistory, type FittedWear } from './fitWear.js';
import { evenly, weighty } from './pooling.js';
import { padBeliefs, rotorBeliefs } from './starting.js';
import { usagePosterior } from './usage.js';
import { wearPosterior, type PartTracks } from './wear.js';
import { countInWords } from '../words.js';
import { inWords } from '../rounding.js';
import { findNotFinite } from '../soundness.js';

/**
 * What a shop learns from its own vehicles: penalised maximum marginal likelihood per class of axle. Weighted draws
 * keep the uncertainty of the parameters. A model with few data borrows from its class, and a class from the starting
 * values.
 */

export interface AxleRecord {
  group: Group;
  pads: PartTracks[];
  rotors: PartTracks[];
}

/** One vehicle's record of wear and use. */
export interface VehicleRecord {
  model: string | null;
  stretches: Stretch[];
  axles: AxleRecord[];
}

export interface FittedClass {
  pads: FittedWear | null;
  rotors: FittedWear | null;
  /** Correlation between the pads' log rate and the log pace, within a model. */
  correlation: number;
  vehicles: number;
  /** Pad readings, over all lives. */
  readings: number;
  vehiclesByModel: Record<string, number>;
}

/** Plain data, stored as JSON. */
export interface FittedExperience {
  vehicles: number;
  classes: Record<string, FittedClass>;
  usage: FittedUsage | null;
}

/** All classes of axle; each is learned separately. */
export const GROUPS: readonly Group[] = [false, true].flatMap((drum) =>
  [true, false].flatMap((steeredOrFront) =>
    [false, true].map((regenerative) => ({ steeredOrFront, regenerative, drum })),
  ),
);

export const classNameOf = ({ steeredOrFront, regenerative, drum }: Group): string =>
  `${steeredOrFront ? 'front' : 'rear'} ${regenerative ? 'regenerative' : 'friction'}${drum ? ' drum' : ''}`;

interface Member {
  vehicle: VehicleRecord;
  axle: AxleRecord;
}

/** One independent part of a fit, which any worker can run. Plain data. */
export type FitTask =
  | { part: 'usage'; vehicles: readonly UsageHistory[] }
  | { part: 'pads' | 'rotors'; group: Group; histories: readonly AxleHistory[] };
export type FitTaskDone = FittedUsage | FittedWear | null;
/** Runs tasks in any order and returns their results in the order of the tasks. */
export type CarryOutFits = (tasks: readonly FitTask[]) => Promise<FitTaskDone[]>;

export function carryOutFitTask(task: FitTask): FitTaskDone {
  if (task.part === 'usage') return fitUsage(task.vehicles);
  const { part, group, histories } = task;
  return part === 'pads' ? fitPads(histories, padBeliefs(group)) : fitRotors(histories, rotorBeliefs(group));
}

/** @throws {UnsoundFit} */
export function fitExperience(vehicles: readonly VehicleRecord[]): FittedExperience {
  const tasks = fitTasks(vehicles);
  return assembleFit(vehicles, new Map([...tasks].map(([name, task]) => [name, carryOutFitTask(task)])));
}

/**
 * {@link fitExperience}, with the tasks run by `carryOut`, for example on several worker threads.
 *
 * @throws {UnsoundFit}
 */
export async function fitExperienceBy(
  vehicles: readonly VehicleRecord[],
  carryOut: CarryOutFits,
): Promise<FittedExperience> {
  const tasks = fitTasks(vehicles);
  const done = await carryOut([...tasks.values()]);
  return assembleFit(vehicles, new Map([...tasks.keys()].map((name, index) => [name, done[index]!])));
}

const USAGE = 'usage';
const taskName = (part: 'pads' | 'rotors', group: Group): string => `${classNameOf(group)} ${part}`;

/** The tasks, longest first: pads by size of class, then rotors, which take a fraction of the time. */
function fitTasks(vehicles: readonly VehicleRecord[]): Map<string, FitTask> {
  const usage = vehicles.map(({ model, stretches }) => ({ model, stretches }));
  const classes = GROUPS.map((group) => ({ group, members: membersOf(vehicles, group) }))
    .filter(({ members }) => members.length > 0)
    .sort((a, b) => b.members.length - a.members.length);
  const tasksFor = (part: 'pads' | 'rotors') =>
    classes.map(({ group, members }): [string, FitTask] => {
      const histories = members.map(({ vehicle, axle }) => ({ model: vehicle.model, parts: axle[part] }));
      return [taskName(part, group), { part, group, histories }];
    });
  return new Map([...tasksFor('pads'), ...tasksFor('rotors'), [USAGE, { part: 'usage', vehicles: usage }]]);
}

function membersOf(vehicles: readonly VehicleRecord[], group: Group): Member[] {
  const name = classNameOf(group);
  return vehicles.flatMap((vehicle) =>
    vehicle.axles
      .filter((axle) => classNameOf(axle.group) === name)
      .map((axle): Member => ({ vehicle, axle })),
  );
}

function assembleFit(
  vehicles: readonly VehicleRecord[],
  done: ReadonlyMap<string, FitTaskDone>,
): FittedExperience {
  refuseUnsound(Object.fromEntries(done));
  const usage = done.get(USAGE) as FittedUsage | null;
  const classes = GROUPS.flatMap((group): [string, FittedClass][] => {
    const members = membersOf(vehicles, group);
    if (members.length === 0) return [];
    const pads = done.get(taskName('pads', group)) as FittedWear | null;
    const rotors = done.get(taskName('rotors', group)) as FittedWear | null;
    return [[classNameOf(group), classOf(group, members, { pads, rotors }, usage)]];
  });
  const fitted = { vehicles: vehicles.length, classes: Object.fromEntries(classes), usage };
  refuseUnsound(fitted);
  return fitted;
}

/** A fit whose result cannot be used for forecasts. */
export class UnsoundFit extends Error {
  override name = 'UnsoundFit';
}

/** @throws {UnsoundFit} if a number is not finite or no draw has enough weight */
function refuseUnsound(fitted: Readonly<Record<string, unknown>>): void {
  const fault = findNotFinite(fitted) ?? findWithoutDraws(fitted);
  if (fault !== null) throw new UnsoundFit(`the fit to the histories failed: ${fault}`);
}

function findWithoutDraws(value: unknown, path: readonly string[] = []): string | null {
  if (typeof value !== 'object' || value === null) return null;
  if ('draws' in value && weighty(value.draws as FittedWear['draws']).length === 0) {
    return `${[...path, 'draws'].join(' / ')} has no draw of sufficient weight`;
  }
  for (const [name, member] of Object.entries(value)) {
    const found = findWithoutDraws(member, [...path, name]);
    if (found !== null) return found;
  }
  return null;
}

function classOf(
  group: Group,
  members: readonly Member[],
  parts: Pick<FittedClass, 'pads' | 'rotors'>,
  usage: FittedUsage | null,
): FittedClass {
  const worn = members.filter(({ axle }) => hasReadings(axle.pads));
  const vehicles = new Set(worn.map(({ vehicle }) => vehicle));
  const vehiclesByModel: Record<string, number> = {};
  for (const { model } of vehicles) {
    if (model !== null) vehiclesByModel[model] = (vehiclesByModel[model] ?? 0) + 1;
  }
  const fitted = {
    ...parts,
    correlation: 0,
    vehicles: vehicles.size,
    readings: worn.reduce((sum, { axle }) => sum + readingsOf(axle.pads), 0),
    vehiclesByModel,
  };
  return { ...fitted, correlation: correlationOf(group, worn, fitted, usage) };
}

const hasReadings = (parts: readonly PartTracks[]): boolean =>
  parts.some(({ lives }) => lives.some(({ at }) => at.length > 0));

const readingsOf = (parts: readonly PartTracks[]): number =>
  parts.reduce((sum, { lives }) => sum + lives.reduce((count, { at }) => count + at.length, 0), 0);

const MAX_FOR_CORRELATION = 300;

function correlationOf(
  group: Group,
  members: readonly Member[],
  fitted: FittedClass,
  usage: FittedUsage | null,
): number {
  const both = members.filter(({ vehicle }) => vehicle.stretches.length > 0);
  if (!fitted.pads || !usage) return 0;
  const pairs = evenly(both, MAX_FOR_CORRELATION).map(({ vehicle, axle }) => {
    const experience = drawsFor(group, vehicle.model, fitted, usage);
    return {
      // The heaviest draws are enough: the correlation itself is uncertain.
      wear: wearPosterior(axle.pads, heaviest(experience.pads), lastPlace(axle.pads)),
      usage: usagePosterior(vehicle.stretches, heaviest(experience.usage)),
      experience,
    };
  });
  return fitCorrelation(pairs);
}

function heaviest<Item extends { weight: number }>(draws: readonly Item[]): Item[] {
  const kept = [...draws].sort((a, b) => b.weight - a.weight).slice(0, 3);
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);
  return kept.map((draw) => ({ ...draw, weight: draw.weight / total }));
}

const lastPlace = (parts: readonly PartTracks[]): number =>
  Math.max(0, ...parts.flatMap(({ lives }) => lives.map(({ at }) => at.at(-1) ?? 0)));

function drawsFor(
  group: Group,
  model: string | null,
  fitted: FittedClass | undefined,
  usage: FittedUsage | null,
): Pick<Experience, 'name' | 'words' | 'pads' | 'rotors' | 'usage' | 'correlation'> {
  const starting = startingExperience(group);
  return {
    ...starting,
    pads: fitted?.pads ? withMissing(wearDraws(fitted.pads, model), starting.pads) : starting.pads,
    rotors: fitted?.rotors ? withMissing(wearDraws(fitted.rotors, model), starting.rotors) : starting.rotors,
    usage: usage ? withMissing(usageDraws(usage, model), starting.usage) : starting.usage,
  };
}

/** Adds the starting values of parameters that a fit by an older version lacks. */
function withMissing<Parameters>(draws: Draw<Parameters>[], starting: readonly Draw<Parameters>[]) {
  const { parameters: known } = starting[0]!;
  return draws.map(({ weight, parameters }) => ({ weight, parameters: { ...known, ...parameters } }));
}

export interface ExperienceQuestion {
  axleClass: Group;
  model: string | null;
  /** Number of the fit, or for a fit in hindsight the date up to which it used data; part of the experience's name. */
  version: number | string;
}

/** The experience for an axle: that of its model, or else of its class, or else the starting values. */
export function experienceFrom(
  fitted: FittedExperience,
  { axleClass, model, version }: ExperienceQuestion,
): Experience {
  const starting = startingExperience(axleClass);
  const fittedClass = fitted.classes[classNameOf(axleClass)];
  if (!fittedClass?.pads && !fittedClass?.rotors && !fitted.usage) return starting;
  const made = drawsFor(axleClass, model, fittedClass, fitted.usage);
  const known = model !== null && (fittedClass?.vehiclesByModel[model] ?? 0) > 0;
  return {
    ...made,
    name: [
      typeof version === 'number' ? `v${version}` : `up to ${version}`,
      classNameOf(axleClass),
      ...(known ? [model] : []),
    ].join(' '),
    words: wordsFor(axleClass, model, fittedClass),
    correlation: fittedClass ? reducedCorrelation(fittedClass, fitted.usage, made) : 0,
  };
}

/** The fitted correlation, which is within a model, reduced for the uncertainty of the model's own mean. */
function reducedCorrelation(
  { pads, correlation }: FittedClass,
  usage: FittedUsage | null,
  made: Pick<Experience, 'pads' | 'usage'>,
): number {
  if (!pads || !usage) return 0;
  const rates = meanOf(pads.draws, 'logRateSd') / meanOf(made.pads, 'logRateSd');
  const paces = meanOf(usage.draws, 'logPaceSd') / meanOf(made.usage, 'logPaceSd');
  return correlation * Math.min(1, rates) * Math.min(1, paces);
}

const meanOf = <Name extends string>(draws: readonly Draw<Record<Name, number>>[], name: Name): number =>
  draws.reduce((sum, { weight, parameters }) => sum + weight * parameters[name], 0);

/** With fewer vehicles of the model than this, the words also mention the other vehicles of the class. */
const MIN_OWN_VEHICLES = 10;

function wordsFor(group: Group, model: string | null, fitted: FittedClass | undefined): string {
  const vehicles = fitted?.vehicles ?? 0;
  if (!fitted?.pads || vehicles === 0) {
    return 'typical starting values, because no linings of such axles have been measured here yet';
  }
  const own = model === null ? 0 : (fitted.vehiclesByModel[model] ?? 0);
  if (own === 0) return `${axleWords(fitted.pads.axles, group)} of this shop`;
  const ofModel = `${countInWords(own, 'vehicle')} of this model`;
  const others = fitted.pads.axles - (fitted.pads.models[model!]?.axles ?? 0);
  return own >= MIN_OWN_VEHICLES || others === 0
    ? ofModel
    : `${ofModel} and ${axleWords(others, group, 'other ')} of this shop`;
}

/** Removes the numbers of vehicles from an experience's words, for users who may see only part of the shop. */
export const withoutCounts = (words: string): string =>
  words
    .replace(/\b\d[\d,]* (other )?(front|rear) (axle|axles)\b/g, '$1$2 axles')
    .replace(/\b\d[\d,]* (vehicle|vehicles) of this model\b/, 'vehicles of this model');

function axleWords(count: number, { steeredOrFront, regenerative, drum }: Group, which = ''): string {
  const noun = `${steeredOrFront ? 'front' : 'rear'} ${drum ? 'drum ' : ''}${count === 1 ? 'axle' : 'axles'}`;
  return `${inWords(count)} ${which}${noun}${regenerative ? ' with regenerative braking' : ''}`;
}
