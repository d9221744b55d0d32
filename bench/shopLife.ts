import type { Chance } from '../seed/random.js';
import { PADS, SIDES, type Pad, type Side } from '../src/core/vocabulary/terms.js';

/**
 * The lives of invented vehicles as a shop sees them, before anything is measured or recorded. Lengths are in mm,
 * distances in 1000 km, rates in mm per 1000 km. Every figure below is a choice made for the bench, in a
 * range that the trade would call ordinary; none is measured.
 */
export interface ShopRates {
  /**
   * Base rate of the axle's pads: median, standard deviation of its log over models and over the vehicles of a model.
   */
  rate: number;
  modelSpread: number;
  vehicleSpread: number;
  /** Standard deviation of the log of a pad set's rate about its vehicle's: another make of pad wears differently. */
  setSpread: number;
  /** Standard deviation of one pad's rate about its axle's, as a share; inner over outer. */
  padSpread: number;
  innerOuter: number;
  /** Chance that one pad of a set wears fast from the start, and how many times as fast (standard deviation 0.2). */
  fastSets: number;
  fastFactor: number;
  wander: number;
  startSd: number;

  /**
   * A slide begins to stick: chance per axle and year, factor on one pad's rate and the standard deviation of its log.
   */
  dragsPerYear: number;
  dragFactor: number;
  dragSpread: number;

  /** km a day: median, standard deviation of its log; of one day's distance relative to it; amplitude of the season. */
  pace: number;
  paceSpread: number;
  dayToDay: number;
  season: number;
  /** Correlation of the logs of rate and daily distance, over the vehicles. */
  correlation: number;

  /** Standstills a year, and how long they last, days. */
  standstillsPerYear: number;
  standstillDays: readonly [number, number];
  /** Temporary spells of other use, a year; how long they last, days; standard deviation of the log of the factor. */
  spellsPerYear: number;
  spellDays: readonly [number, number];
  spellSpread: number;
  /**
   * Permanent changes of route, a year; standard deviations of the logs of their factors on daily distance and rate.
   */
  routesPerYear: number;
  routePaceSpread: number;
  routeRateSpread: number;
  /** Shares of vehicles with an oddity, one each at most. */
  odd: Readonly<Record<Oddity, number>>;

  /** Share of vehicles that arrive used, and their age, years. */
  used: number;
  usedYears: readonly [number, number];
  /** How long a vehicle keeps coming, years; days between its visits, and the spread of the log of one gap. */
  followedYears: readonly [number, number];
  rhythmDays: readonly [number, number];
  rhythmSpread: number;
  /** Share of visits during a standstill that still take place; the others wait for its end. */
  visitsWhileStanding: number;

  /** Thickness above the limit at which pads are changed, mm, and its standard deviation over sets. */
  changeAboveLimit: number;
  changeSpread: number;
  /** Share of replacements elsewhere, between visits; share of the shop's own that are not recorded. */
  elsewhere: number;
  unrecorded: number;
}

/** Things that a simulator of ordinary shops leaves out. */
export type Oddity =
  /** Drives much in one half of each year and little in the other. */
  | 'alternating'
  /** Every new set is this much thicker than specified: {@link THICKER_MM}. */
  | 'thicker-than-specified'
  /** At one visit in {@link SWAPPED_VISITS} the rear pads' readings are recorded for the front ones. */
  | 'swapped-axles'
  /** One disc, with two pads, on the axle. */
  | 'one-disc'
  /** Only one pad is ever read. */
  | 'one-pad-read';
export const ODDITIES: readonly Oddity[] = [
  'alternating',
  'thicker-than-specified',
  'swapped-axles',
  'one-disc',
  'one-pad-read',
];
/** km in the slow half of a year relative to the fast half. */
const ALTERNATING_FACTOR = 0.15;
export const THICKER_MM = 2;
export const SWAPPED_VISITS = 8;

/** Everything at once. */
export const WHOLE_SHOP: ShopRates = {
  rate: 0.13,
  modelSpread: 0.15,
  vehicleSpread: 0.38,
  setSpread: 0.08,
  padSpread: 0.12,
  innerOuter: 1.06,
  fastSets: 0.03,
  fastFactor: 1.5,
  wander: 0.04,
  startSd: 0.15,
  dragsPerYear: 0.03,
  dragFactor: 3,
  dragSpread: 0.35,
  pace: 45,
  paceSpread: 0.5,
  dayToDay: 1.3,
  season: 0.15,
  correlation: -0.2,
  standstillsPerYear: 0.12,
  standstillDays: [30, 183],
  spellsPerYear: 0.1,
  spellDays: [60, 270],
  spellSpread: 0.6,
  routesPerYear: 0.04,
  routePaceSpread: 0.4,
  routeRateSpread: 0.3,
  odd: { alternating: 0, 'thicker-than-specified': 0, 'swapped-axles': 0, 'one-disc': 0, 'one-pad-read': 0 },
  used: 0.5,
  usedYears: [2, 11],
  followedYears: [3, 7],
  rhythmDays: [120, 270],
  rhythmSpread: 0.25,
  visitsWhileStanding: 0.5,
  changeAboveLimit: 1.1,
  changeSpread: 0.5,
  elsewhere: 0.125,
  unrecorded: 0.08,
};

/** The same shop with oddities, each in a tenth of its vehicles. */
export const ODD_SHOP: ShopRates = {
  ...WHOLE_SHOP,
  odd: {
    alternating: 0.1,
    'thicker-than-specified': 0.1,
    'swapped-axles': 0.1,
    'one-disc': 0.1,
    'one-pad-read': 0.1,
  },
};

export const LIMIT_MM = 3;
/** Rear pads: new thickness, how far they are worn, and how fast they wear relative to the front ones. */
const REAR_NEW_MM = 10;
const REAR_USE_MM = 6;
const REAR_SHARE = 0.6;
/** Models of the shop's vehicles, with the thickness of their new pads. */
const NEW_MM_BY_MODEL = [10, 11, 11, 11, 12, 12];
const MODELS = NEW_MM_BY_MODEL.length;
/** Sets that reach their limit later than this are not scored. */
const HORIZON_YEARS = 28;
const DAYS_A_YEAR = 365.25;
/** Worn pads are driven no further than this below the limit. */
const WORN_OUT_MM = 1;
/** A customer takes up to this many days to have worn pads replaced elsewhere. */
const ELSEWHERE_WITHIN_DAYS = 90;

export const POSITIONS: readonly { side: Side; pad: Pad }[] = SIDES.flatMap((side) =>
  PADS.map((pad) => ({ side, pad })),
);

/** How a set came to be on the axle. */
export type Fitting =
  | 'original'
  /** Before the vehicle was first seen. */
  | 'before'
  | 'recorded'
  /** In the shop, but not recorded. */
  | 'forgotten'
  | 'elsewhere';

export interface PadSet {
  fitting: Fitting;
  fromDay: number;
  /** Thickness of each pad by days since fitting. */
  mm: Float32Array[];
  /** The day on which its first pad reaches its limit if the set stays on; null beyond the horizon. */
  limitDay: number | null;
  drag: { pad: number; day: number } | null;
}

/** A visit in the vehicle's life; days count from its entry into service. */
export interface Stop {
  day: number;
  /** The set as found, and the set it drove away with: the same unless it was replaced here. */
  found: number;
  left: number;
}

export interface ShopLife {
  model: number;
  oddity: Oddity | null;
  /** Thickness of the rear pads, mm; used only for records that name them as the front pads. */
  rearMm: (day: number) => number;
  newMm: number;
  isUsed: boolean;
  sets: PadSet[];
  stops: Stop[];
  road: DailyRoad;
}

/** Day by day from the entry into service. */
export interface DailyRoad {
  /** Distance up to the end of the day, 1000 km. */
  distance: Float64Array;
  /** Factor of the route on the rate of wear. */
  route: Float32Array;
  standing: Uint8Array;
  /** In a temporary spell of other use. */
  inSpell: Uint8Array;
  /** Days on which the route changed permanently. */
  routeDays: number[];
}

interface Nature {
  model: number;
  pace: number;
  phase: number;
  rate: number;
  oddity: Oddity | null;
}

export const modelRates = (chance: Chance, { modelSpread }: ShopRates): number[] =>
  Array.from({ length: MODELS }, () => chance.logNormal(1, modelSpread));

/** @param models factors of the models on the rate */
export function live(chance: Chance, rates: ShopRates, models: readonly number[]): ShopLife {
  const nature = drawNature(chance, rates, models);
  const isUsed = chance.happens(rates.used);
  const arrival = isUsed ? Math.round(DAYS_A_YEAR * chance.between(...rates.usedYears)) : 0;
  const leaves = arrival + Math.round(DAYS_A_YEAR * chance.between(...rates.followedYears));
  const road = drive(chance, rates, nature, leaves + Math.round(HORIZON_YEARS * DAYS_A_YEAR));
  const newMm = NEW_MM_BY_MODEL[nature.model]!;
  const rearMm = (day: number) =>
    REAR_NEW_MM - ((REAR_SHARE * nature.rate * road.distance[day]!) % REAR_USE_MM);
  const fit = (fromDay: number, fitting: Fitting) =>
    wearSet(chance, { rates, nature, road, newMm }, fromDay, fitting);
  const sets = [fit(0, 'original')];
  for (let day = replacementDay(chance, rates, sets.at(-1)!); day < arrival;) {
    sets.push(fit(day, 'before'));
    day = replacementDay(chance, rates, sets.at(-1)!);
  }
  const stops: Stop[] = [];
  let elsewhereDay = elsewhereOf(chance, rates, sets.at(-1)!, arrival);
  let changeAt = changeThickness(chance, rates);
  const replace = (day: number, fitting: Fitting) => {
    sets.push(fit(day, fitting));
    elsewhereDay = elsewhereOf(chance, rates, sets.at(-1)!, day);
    changeAt = changeThickness(chance, rates);
  };
  for (const day of visitDays(chance, rates, road, { isUsed, arrival, leaves })) {
    if (elsewhereDay < day) replace(elsewhereDay, 'elsewhere');
    const found = sets.length - 1;
    const thinnest = Math.min(...thicknessOn(sets[found]!, day).slice(0, padsOf(nature.oddity)));
    const goesElsewhere = elsewhereDay < Infinity && thinnest > LIMIT_MM;
    if (thinnest <= changeAt && !goesElsewhere)
      replace(day, chance.happens(rates.unrecorded) ? 'forgotten' : 'recorded');
    stops.push({ day, found, left: sets.length - 1 });
  }
  return { model: nature.model, oddity: nature.oddity, rearMm, newMm, isUsed, sets, stops, road };
}

/** The thickness of each pad at the end of a day, mm. */
export const thicknessOn = ({ mm, fromDay }: PadSet, day: number): number[] =>
  mm.map((byDay) => byDay[Math.min(day - fromDay, byDay.length - 1)]!);

function drawNature(chance: Chance, rates: ShopRates, models: readonly number[]): Nature {
  const common = chance.normal(0, 1);
  const own = chance.normal(0, 1);
  const model = chance.whole(0, MODELS - 1);
  const together = rates.correlation * common + Math.sqrt(1 - rates.correlation ** 2) * own;
  return {
    model,
    pace: rates.pace * Math.exp(rates.paceSpread * common),
    phase: chance.between(0, 2 * Math.PI),
    rate: rates.rate * models[model]! * Math.exp(rates.vehicleSpread * together),
    oddity: drawOddity(chance, rates),
  };
}

function drawOddity(chance: Chance, { odd }: ShopRates): Oddity | null {
  let place = chance.between(0, 1);
  return ODDITIES.find((oddity) => (place -= odd[oddity]) < 0) ?? null;
}

function drive(chance: Chance, rates: ShopRates, nature: Nature, days: number): DailyRoad {
  const road: DailyRoad = {
    distance: new Float64Array(days + 1),
    route: new Float32Array(days + 1).fill(1),
    standing: new Uint8Array(days + 1),
    inSpell: new Uint8Array(days + 1),
    routeDays: [],
  };
  const factor = new Float64Array(days + 1).fill(1);
  for (const from of happenings(chance, rates.routesPerYear, days)) {
    const pace = chance.logNormal(1, rates.routePaceSpread);
    const rate = chance.logNormal(1, rates.routeRateSpread);
    road.routeDays.push(from);
    for (let day = from; day <= days; day++) {
      factor[day]! *= pace;
      road.route[day]! *= rate;
    }
  }
  for (const from of happenings(chance, rates.spellsPerYear, days)) {
    const until = from + chance.whole(...rates.spellDays);
    const pace = chance.logNormal(1, rates.spellSpread);
    for (let day = from; day <= Math.min(until, days); day++) {
      factor[day]! *= pace;
      road.inSpell[day] = 1;
    }
  }
  for (const from of happenings(chance, rates.standstillsPerYear, days))
    road.standing.fill(1, from, from + chance.whole(...rates.standstillDays));
  for (let day = 1; day <= days; day++) {
    const driven = spreadAboutOne(chance, rates.dayToDay);
    const angle = nature.phase + (2 * Math.PI * day) / DAYS_A_YEAR;
    const halfYear = nature.oddity === 'alternating' && Math.sin(angle) < 0 ? ALTERNATING_FACTOR : 1;
    const seasonal = (1 + rates.season * Math.sin(angle)) * halfYear;
    const km = road.standing[day] ? 0 : nature.pace * seasonal * factor[day]! * driven;
    road.distance[day] = road.distance[day - 1]! + km / 1000;
  }
  return road;
}

/** Days on which something starts that happens this many times a year. */
function happenings(chance: Chance, perYear: number, days: number): number[] {
  const found: number[] = [];
  const wait = () => Math.ceil(waitingTime(chance, perYear / DAYS_A_YEAR));
  for (let day = wait(); day <= days; day += wait()) found.push(day);
  return found;
}

const waitingTime = (chance: Chance, perDay: number): number =>
  perDay > 0 ? -Math.log(1 - chance.between(0, 1)) / perDay : Infinity;

/** A log-normal of mean one and a given standard deviation. */
export function spreadAboutOne(chance: Chance, sd: number): number {
  const sdOfLog = Math.sqrt(Math.log1p(sd * sd));
  return chance.logNormal(Math.exp(-0.5 * sdOfLog * sdOfLog), sdOfLog);
}

interface Wearing {
  rates: ShopRates;
  nature: Nature;
  road: DailyRoad;
  newMm: number;
}

/** How many of {@link POSITIONS} exist, from the first on. */
export const padsOf = (oddity: Oddity | null): number => (oddity === 'one-disc' ? 2 : POSITIONS.length);

/** Wears a set that stays on a little beyond its limit. */
function wearSet(
  chance: Chance,
  { rates, nature, road, newMm }: Wearing,
  fromDay: number,
  fitting: Fitting,
): PadSet {
  const base = nature.rate * chance.logNormal(1, rates.setSpread);
  const isFast = chance.happens(rates.fastSets);
  const fastPad = chance.whole(0, POSITIONS.length - 1);
  const own = POSITIONS.map(({ pad }, index) => {
    const innerOuter = Math.sqrt(pad === 'inner' ? rates.innerOuter : 1 / rates.innerOuter);
    const fast = isFast && index === fastPad;
    const about = fast ? chance.normal(rates.fastFactor, 0.2) : chance.normal(1, rates.padSpread);
    return base * innerOuter * Math.max(0.3, about);
  });
  const dragDay = fromDay + Math.ceil(waitingTime(chance, rates.dragsPerYear / DAYS_A_YEAR));
  const dragPad = chance.whole(0, padsOf(nature.oddity) - 1);
  const dragFactor = chance.logNormal(rates.dragFactor, rates.dragSpread);
  const now = POSITIONS.map(() => chance.normal(newMm, rates.startSd));
  const mm = now.map((fresh) => [fresh]);
  let limitDay: number | null = null;
  for (let day = fromDay + 1; day < road.distance.length; day++) {
    const driven = road.distance[day]! - road.distance[day - 1]!;
    for (const [pad, rate] of own.entries()) {
      const factor = road.route[day]! * (pad === dragPad && day >= dragDay ? dragFactor : 1);
      if (driven > 0) now[pad]! -= wear(chance, rate * factor, rates.wander, driven);
      mm[pad]!.push(now[pad]!);
    }
    const thinnest = Math.min(...now.slice(0, padsOf(nature.oddity)));
    if (thinnest <= LIMIT_MM) limitDay ??= day;
    if (thinnest <= LIMIT_MM - WORN_OUT_MM) break;
  }
  return {
    fitting,
    fromDay,
    mm: mm.map((byDay) => Float32Array.from(byDay)),
    limitDay,
    drag: dragDay < fromDay + mm[0]!.length ? { pad: dragPad, day: dragDay } : null,
  };
}

/** Wear over a distance: never negative, of mean rate · distance and variance wander² · distance. */
function wear(chance: Chance, rate: number, wander: number, distance: number): number {
  return rate * distance * spreadAboutOne(chance, wander / (rate * Math.sqrt(distance)));
}

const changeThickness = (chance: Chance, { changeAboveLimit, changeSpread }: ShopRates): number =>
  LIMIT_MM + Math.max(0, chance.normal(changeAboveLimit, changeSpread));

/** The day on which a set is replaced by someone who sees it only occasionally; infinite if never. */
function replacementDay(chance: Chance, rates: ShopRates, set: PadSet, after = set.fromDay): number {
  const changeAt = changeThickness(chance, rates);
  const late = chance.whole(1, ELSEWHERE_WITHIN_DAYS);
  const worn = set.mm[0]!.findIndex((_, index) => set.mm.some((byDay) => byDay[index]! <= changeAt));
  return worn === -1 ? Infinity : Math.max(after, set.fromDay + worn) + late;
}

/** The day on which a set will be replaced elsewhere; infinite if it will not be. */
function elsewhereOf(chance: Chance, rates: ShopRates, set: PadSet, after: number): number {
  const day = replacementDay(chance, rates, set, after);
  return chance.happens(rates.elsewhere) ? day : Infinity;
}

function visitDays(
  chance: Chance,
  rates: ShopRates,
  { standing }: DailyRoad,
  { isUsed, arrival, leaves }: { isUsed: boolean; arrival: number; leaves: number },
): number[] {
  const rhythm = chance.between(...rates.rhythmDays);
  const gap = () => Math.max(20, Math.round(chance.logNormal(rhythm, rates.rhythmSpread)));
  const days: number[] = [];
  for (let next = isUsed ? arrival : gap(); next <= leaves; next += gap()) {
    const waits = !chance.happens(rates.visitsWhileStanding);
    if (standing[next] && waits) {
      while (standing[next]) next++;
      next += chance.whole(1, 14);
    }
    days.push(next);
  }
  return days;
}
