import { toDay, toFullDate } from '../src/core/calendar.js';
import { toKm } from '../src/core/units.js';
import { vinCheckDigit } from '../src/core/vin.js';
import type { Axle, DistanceUnit } from '../src/core/vocabulary/terms.js';
import {
  distances,
  drawAxles,
  drawUsage,
  limitMm,
  paceToEndAt,
  stickSlide,
  wear,
  type AxleTruth,
  type Usage,
} from './physics.js';
import { streams, type Chance } from './random.js';
import {
  KEEPERS,
  MODELS,
  type AxleInput,
  type Casting,
  type Gap,
  type Keeper,
  type Model,
  type Story,
  type VehicleInput,
} from './setting.js';
import { receive, type Plan, type VisitInput } from './workshop.js';

export interface DemoVehicle {
  vehicle: VehicleInput;
  /** In the order in which they took place. */
  visits: VisitInput[];
}

/** A vehicle to generate: its keeper, its model and its story. */
interface Role {
  index: number;
  keeper: Keeper;
  casting: Casting;
  model: Model;
}

const THREE_YEARS = 3 * 365;
/** Thickness of the thinnest front pad above (or below) the limit at the end of a story, mm. */
const ENDINGS: Partial<Record<Story, number>> = {
  'sticking-slide': 2.2,
  misreading: 2.5,
  'below-limit': -0.8,
};
const THOROUGH: readonly Story[] = [
  'sticking-slide',
  'misreading',
  'below-limit',
  'machined-rotor',
  'cracked-rotor',
];

/**
 * Generates the demo fleet: an invented fleet with some three years of visits, as the job cards would record them.
 * Pure: the same seed and date always give the same fleet, whatever the clock says.
 *
 * @param today the latest date in it, `YYYY-MM-DD`; every date is counted back from here
 */
export function generateDemo(seed: number, today: string): DemoVehicle[] {
  const roles = createRoles();
  const chances = streams(seed, roles.length);
  const demo = roles.map((role, position) => generateVehicle(chances[position]!, role, toDay(today)));
  return numberWorkOrders(demo);
}

function createRoles(): Role[] {
  const cast = KEEPERS.flatMap((keeper) => keeper.cast.map((casting) => ({ keeper, casting })));
  return cast.map(({ keeper, casting }, index) => ({
    index,
    keeper,
    casting,
    model: MODELS.find((model) => model.key === casting.model)!,
  }));
}

/** The days of a vehicle's story. */
interface Calendar {
  inServiceDay: number | null;
  /** Where the hidden truth starts: in service, or the first visit. */
  startDay: number;
  visitDays: number[];
  outOfServiceDay: number | null;
  parked: Usage['parked'];
}

function generateVehicle(chance: Chance, role: Role, today: number): DemoVehicle {
  const calendar = drawCalendar(chance, role, today);
  const isOld = calendar.inServiceDay === null;
  const usage = drawUsage(chance, role.model, calendar.parked);
  const driven = distances(chance, usage, calendar.startDay, calendar.visitDays);
  const axles = drawAxles(chance, role.model, isOld);
  const lastDay = calendar.visitDays.at(-1)!;
  const drive = { km: driven.at(-1)!, days: lastDay - calendar.startDay, daysSince: today - lastDay };
  prepareStory(chance, role.casting.story, axles, drive);
  const startKm = isOld ? chance.between(45_000, 110_000) : chance.between(5, 40);
  const odometer = new Odometer(role.casting.odometerUnit ?? 'km', startKm);
  return {
    vehicle: describe(chance, role, calendar, odometer),
    visits: visitsOf(chance, role, calendar, odometer, driven, axles),
  };
}

function drawCalendar(chance: Chance, { casting, model }: Role, today: number): Calendar {
  const { story, gaps } = casting;
  const age = casting.ageDays ?? THREE_YEARS + chance.whole(0, 75);
  const parked = story === 'parked' ? { from: today - 480, to: today - 265 } : null;
  const retired = story === 'out-of-service' ? today - chance.whole(60, 110) : null;
  const firstDay = today - age;
  const rhythm = casting.rhythmDays ?? model.rhythmDays;
  const regular = drawVisitDays(chance, rhythm, firstDay, retired ?? today);
  const visitDays = parked ? aroundParking(regular, parked) : regular;
  const inServiceDay = gaps?.includes('in-service') ? null : firstDay;
  return {
    inServiceDay,
    startDay: inServiceDay ?? visitDays[0]!,
    visitDays,
    outOfServiceDay: retired,
    parked,
  };
}

/** Counted back from a last visit some days or weeks ago, so that much becomes due soon after today. */
function drawVisitDays(chance: Chance, rhythm: number, firstDay: number, lastDay: number): number[] {
  const days: number[] = [];
  let day = lastDay - chance.whole(3, Math.round(0.75 * rhythm));
  while (day > firstDay + 20) {
    days.unshift(openDay(day));
    day -= Math.max(14, Math.round(chance.logNormal(rhythm, 0.15)));
  }
  return days;
}

/** Day 0 was a Thursday. The workshop is closed on Sundays, so a Sunday becomes the Saturday before. */
const openDay = (day: number): number => ((day + 4) % 7 === 0 ? day - 1 : day);

/** Inspected just before it is parked, and again before it goes back on the road. */
function aroundParking(days: readonly number[], { from, to }: NonNullable<Usage['parked']>): number[] {
  const apart = days.filter((day) => day < from - 20 || day > to + 20);
  return [...apart, openDay(from + 3), openDay(to - 2)].sort((a, b) => a - b);
}

/** Adjusts the front axle's truth so that it ends as the story requires. */
function prepareStory(chance: Chance, story: Story | undefined, axles: AxleTruth[], drive: Drive): void {
  const front = axles[0]!;
  const limit = limitMm(front.spec);
  if (story === 'sticking-slide') stickSlide(front, 'left');
  if (story === 'due-soon') {
    const daysLeft = drive.daysSince + chance.between(10, 50);
    paceToEndAt(front, limit, drive.km * (1 + daysLeft / drive.days));
  }
  const ending = story && ENDINGS[story];
  if (ending !== undefined) paceToEndAt(front, limit + ending, drive.km);
}

/** From the start of the truth to the last visit, and how long ago the last visit was. */
interface Drive {
  km: number;
  days: number;
  daysSince: number;
}

/** What the dashboard shows. It can be replaced, and counts in whole kilometres or miles. */
class Odometer {
  readonly unit: DistanceUnit;
  /** Shown when the vehicle had driven `sinceKm`, km. */
  #startKm: number;
  #sinceKm = 0;

  constructor(unit: DistanceUnit, startKm: number) {
    this.unit = unit;
    this.#startKm = startKm;
  }

  at(drivenKm: number) {
    const km = this.#startKm + drivenKm - this.#sinceKm;
    return { value: Math.floor(km / toKm({ value: 1, unit: this.unit })), unit: this.unit };
  }

  replace(drivenKm: number): NonNullable<VisitInput['odometerReplaced']> {
    const oldFinal = this.at(drivenKm);
    this.#startKm = 4;
    this.#sinceKm = drivenKm;
    return { oldFinal, newStart: this.at(drivenKm) };
  }
}

function visitsOf(
  chance: Chance,
  { casting, keeper, model }: Role,
  { visitDays, parked }: Calendar,
  odometer: Odometer,
  driven: readonly number[],
  axles: AxleTruth[],
): VisitInput[] {
  const drums = drumAxles(model);
  const middle = Math.floor(visitDays.length / 2);
  return visitDays.map((day, index) => {
    const km = driven[index]!;
    for (const truth of axles) wear(chance, truth, km - (driven[index - 1] ?? 0));
    const isReplaced = casting.story === 'odometer-replaced' && index === middle;
    const odometerReplaced = isReplaced ? odometer.replace(km) : null;
    const isUnread = casting.story === 'odometer-unread' && index === middle;
    return receive(chance, {
      date: toFullDate(day),
      odometer: isUnread ? null : odometer.at(km),
      odometerReplaced,
      shop: keeper.shop,
      axles,
      drums,
      plan: planOf(casting.story, index, visitDays.length, parked !== null && day === openDay(parked.to - 2)),
    });
  });
}

const axlesOf = (model: Model): [Axle, AxleInput][] => Object.entries(model.axles) as [Axle, AxleInput][];

const drumAxles = (model: Model): Axle[] =>
  axlesOf(model)
    .filter(([, spec]) => spec.brake === 'drum')
    .map(([axle]) => axle);

function planOf(story: Story | undefined, index: number, count: number, isBackOnRoad: boolean): Plan {
  return {
    care: careOf(story, index),
    keepFrontPads: story === 'due-soon' || (story !== undefined && ENDINGS[story] !== undefined),
    slidesLeftAlone: story === 'sticking-slide',
    event: isBackOnRoad ? 'back-on-road' : eventOf(story, index, count),
  };
}

function careOf(story: Story | undefined, index: number): Plan['care'] {
  if (story === 'no-readings') return 'none';
  if (story === 'single-reading') return index === 0 ? 'single' : 'none';
  return story && THOROUGH.includes(story) ? 'thorough' : 'usual';
}

function eventOf(story: Story | undefined, index: number, count: number): Plan['event'] {
  const isMiddle = index === Math.floor(count / 2);
  const isLast = index === count - 1;
  if (story === 'machined-rotor' && isMiddle) return 'machining';
  if (story === 'cracked-rotor' && isMiddle) return 'crack';
  if (story === 'misreading' && isMiddle) return 'misreading';
  if (story === 'scored-rotor' && isLast) return 'scoring';
  if (story === 'below-limit' && isLast) return 'grinding';
  return null;
}

function describe(chance: Chance, role: Role, calendar: Calendar, odometer: Odometer): VehicleInput {
  const { model, keeper, casting } = role;
  const gaps = casting.gaps ?? [];
  const { inServiceDay, outOfServiceDay } = calendar;
  return {
    ...identify(chance, role),
    description: model.description,
    model: gaps.includes('model') ? null : model.key,
    fleet: keeper.fleet,
    powertrain: model.powertrain,
    ...(gaps.includes('mass') ? {} : { grossMass: model.grossMass }),
    brakeSystem: model.brakeSystem,
    ...(inServiceDay === null
      ? {}
      : { inService: { date: toFullDate(inServiceDay), odometer: odometer.at(0) } }),
    ...(outOfServiceDay === null
      ? {}
      : {
          outOfService: {
            date: toFullDate(outOfServiceDay),
            reason: 'damaged in a collision, sold for parts',
          },
        }),
    axles: recordedAxles(model, gaps),
  };
}

type Identity = Pick<VehicleInput, 'externalId' | 'registration' | 'vin'>;

/** Private cars have only a registration, trailers only a number. */
function identify(chance: Chance, { index, keeper, model }: Role): Identity {
  const isTrailer = model.powertrain === 'none';
  const isNumbered = keeper.fleet !== null || chance.happens(0.3);
  const number = String(index + 1).padStart(3, '0');
  // 1013 and 9000 have no common divisor, so no two vehicles share a number.
  const plate = 1000 + ((index * 1013 + 417) % 9000);
  return {
    ...(isNumbered ? { externalId: `${keeper.externalIdPrefix}${number}` } : {}),
    ...(isTrailer ? {} : { registration: `${keeper.registrationPrefix} ${plate}` }),
    vin: chance.happens(0.65) ? inventedVin(index, MODELS.indexOf(model)) : null,
  };
}

/** Obviously invented: every VIN begins with 0DEM0. */
function inventedVin(index: number, modelIndex: number): string {
  const head = `0DEM0${String(modelIndex + 1).padStart(3, '0')}`;
  const tail = `X${String(7_000_000 + index + 1)}`;
  return `${head}${vinCheckDigit(`${head}0${tail}`)}${tail}`;
}

function recordedAxles(model: Model, gaps: readonly Gap[]): VehicleInput['axles'] {
  return Object.fromEntries(axlesOf(model).map(([axle, spec]) => [axle, recordedSpec(spec, gaps)]));
}

function recordedSpec(spec: AxleInput, gaps: readonly Gap[]): AxleInput {
  if (gaps.includes('specs')) return { brake: spec.brake };
  const { pad, rotor, torque, ...rest } = spec;
  return {
    ...rest,
    ...(pad ? { pad: gaps.includes('pad-limit') ? { new: pad.new } : pad } : {}),
    ...(rotor && !gaps.includes('rotor') ? { rotor } : {}),
    ...(torque && !gaps.includes('torque') ? { torque } : {}),
  };
}

/** Work orders are numbered in the order of the workshop's days, across all vehicles. */
function numberWorkOrders(demo: readonly DemoVehicle[]): DemoVehicle[] {
  const visits = demo.flatMap((each) => each.visits);
  const byDay = visits.sort((a, b) => toDay(a.date) - toDay(b.date));
  const numbers = new Map(byDay.map((visit, position) => [visit, `WO-${20_101 + 3 * position}`]));
  return demo.map(({ vehicle, visits }) => ({
    // A copy, because vehicles of one model share its specs and a caller may change what it gets.
    vehicle: structuredClone(vehicle),
    visits: visits.map((visit) => structuredClone({ ...visit, workOrder: numbers.get(visit) })),
  }));
}
