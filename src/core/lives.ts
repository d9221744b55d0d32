import { itemAt, required } from './items.js';
import { toDay } from './calendar.js';
import { gaugeFor, type Gauge, type Gauges } from './gauges.js';
import { ONE_SET_DAYS, type History, type HistoryVisit } from './history.js';
import type { Place, Road } from './odometer.js';
import { COUNTERPART_PLACEMENT_SD_MM, PLACEMENT_SD_MM } from './placement.js';
import { roundMm } from './rounding.js';
import { toKm, toMm } from './units.js';
import type {
  Axle,
  LengthUnit,
  LiningName,
  LiningPosition,
  Side,
  Taken,
  WorkKind,
} from './vocabulary/terms.js';
import type { DrumSpec, PadSpec, RotorSpec } from './vocabulary/vehicle.js';
import type { Reading, WorkItem } from './vocabulary/visit.js';

/** How a part changes as it wears: linings and rotors become thinner, a drum's diameter becomes wider. */
export type Wears = 'thinner' | 'wider';

/** How much less worn the first of two measurements of a part is than the second, mm; negative if it is more worn. */
export const leftUntil = (wears: Wears, mm: number, wornMm: number): number =>
  wears === 'thinner' ? mm - wornMm : wornMm - mm;

/** The more worn of two measurements. */
const moreWorn =
  (wears: Wears) =>
  <Measured extends { mm: number }>(a: Measured, b: Measured): Measured =>
    leftUntil(wears, b.mm, a.mm) < 0 ? b : a;

/** One measurement of one part: that of the most worn place, with each place measured by its finest gauge. */
export interface Observation {
  visit: HistoryVisit;
  taken: Taken;
  day: number;
  place: Place | null;
  mm: number;
  /** The deciding gauge, and the unit of its reading. */
  gauge: Gauge;
  unit: LengthUnit;
  /** Standard uncertainty of `mm`: the gauge's and the scatter of repeats (GUM 4.2, type A; from memory). */
  standardUncertaintyMm: number;
  /** Every measured place, mm: pad ends by name, rotor points by number. */
  places: Map<string, number>;
  /** The most worn single reading of the deciding gauges: a failing repeat must not be averaged away. */
  worstRepeat: { mm: number; gauge: Gauge; unit: LengthUnit };
  /** The two repeats of one place that disagree most beyond their reading error; null if all agree. */
  disagreement: Disagreement | null;
}

/** Two repeats of one place, and the standard deviation of their reading error. */
export interface Disagreement {
  first: { mm: number; gauge: Gauge };
  second: { mm: number; gauge: Gauge };
  sdMm: number;
}

/** One part from its fitting to its replacement. */
export interface Life<Spec> {
  origin: 'replaced' | 'machined' | 'in-service' | 'first-reading';
  /** Where it began; null if only the first reading is known. */
  start: { day: number; place: Place | null; odometerKm: number | null } | null;
  /** Index of the visit whose work began it; −1 if the part was there from the start. */
  begunAt: number;
  /** Thickness or diameter at the start, mm; null if unknown. */
  startMm: number | null;
  spec: Spec;
  observations: Observation[];
}

interface Part<Spec> {
  axle: Axle;
  /** Null for the axle's thinnest lining, which may be on either wheel. */
  side: Side | null;
  reading: (reading: Reading) => string | null;
  /** Standard deviation of the gauge's placement on the part, mm. */
  placementSdMm: number;
  wears: Wears;
  /** The new part's spec, merged over the vehicle's; null if the work does not replace this part. */
  replacement: (item: WorkItem) => Partial<Spec> | null;
  machined: (item: WorkItem) => boolean;
  spec: Spec;
  newMm: (spec: Spec) => number | null;
}

/** The fields that determine which readings are a part's, and how to judge them. */
type Measured = Pick<Part<object>, 'axle' | 'side' | 'reading' | 'placementSdMm' | 'wears'>;

/** Kinds of work that begin a new life of a lining, begin one of its counterpart, or machine the counterpart. */
const LININGS_REPLACED: ReadonlySet<WorkKind> = new Set(['pads-replaced', 'shoes-replaced']);
const COUNTERPART_REPLACED: ReadonlySet<WorkKind> = new Set(['rotor-replaced', 'drum-replaced']);
const COUNTERPART_MACHINED: ReadonlySet<WorkKind> = new Set(['rotor-machined', 'drum-machined']);

/** Whether work fitted new linings on an axle, even on one side only. */
export const replacesLinings = (item: WorkItem, axle: Axle): boolean =>
  LININGS_REPLACED.has(item.kind) && item.axle === axle;

/** The name of an axle's linings. */
export const liningNameOf = (history: History, axle: Axle): LiningName =>
  isDrumBrake(history, axle) ? 'shoe' : 'pad';

export const isDrumBrake = ({ vehicle }: History, axle: Axle): boolean =>
  vehicle.axles[axle]?.brake === 'drum';

/**
 * The lives of a pad or shoe, oldest first; the last is the present one.
 *
 * @param side null for the thinnest lining of the axle
 */
export function padLives(
  history: History,
  road: Road,
  axle: Axle,
  side: Side | null,
  pad: LiningPosition,
): Life<PadSpec>[] {
  const specs = history.vehicle.axles[axle];
  return partLives(history, road, {
    axle,
    side,
    reading: (reading) =>
      (reading.kind === 'pad-thickness' && reading.pad === pad) ||
      (reading.kind === 'shoe-thickness' && reading.shoe === pad)
        ? reading.at
        : null,
    placementSdMm: PLACEMENT_SD_MM,
    wears: 'thinner',
    replacement: (item) =>
      LININGS_REPLACED.has(item.kind)
        ? { new: item.new, limit: item.limit, wearIndicator: item.wearIndicator }
        : null,
    machined: () => false,
    spec: (isDrumBrake(history, axle) ? specs?.shoe : specs?.pad) ?? {},
    newMm: (spec) => (spec.new ? toMm(spec.new) : null),
  });
}

/** Specification of a rotor or drum; `limit` is the discard thickness of a rotor, the maximum of a drum. */
export type CounterpartSpec = Pick<RotorSpec, 'new' | 'machineTo' | 'runoutLimit' | 'variationLimit'> & {
  limit?: RotorSpec['discard'];
};

const ofRotor = ({ discard, ...rest }: RotorSpec): CounterpartSpec => ({ ...rest, limit: discard });
const ofDrum = ({ maximum, ...rest }: DrumSpec): CounterpartSpec => ({ ...rest, limit: maximum });

/**
 * The lives of a rotor or drum, oldest first. Machining begins a new one, whose thickness or diameter is unknown until
 * it is measured.
 */
export function counterpartLives(
  history: History,
  road: Road,
  axle: Axle,
  side: Side,
): Life<CounterpartSpec>[] {
  const specs = history.vehicle.axles[axle];
  const drum = isDrumBrake(history, axle);
  return partLives(history, road, {
    axle,
    side,
    reading: (reading) =>
      reading.kind === (drum ? 'drum-diameter' : 'rotor-thickness') ? `point ${reading.point ?? '-'}` : null,
    placementSdMm: COUNTERPART_PLACEMENT_SD_MM,
    wears: drum ? 'wider' : 'thinner',
    replacement: (item) => {
      if (!COUNTERPART_REPLACED.has(item.kind)) return null;
      const { new: fresh, discard, maximum, machineTo, runoutLimit, variationLimit } = item;
      return drum
        ? ofDrum({ new: fresh, maximum, machineTo })
        : ofRotor({ new: fresh, discard, machineTo, runoutLimit, variationLimit });
    },
    machined: (item) => COUNTERPART_MACHINED.has(item.kind),
    spec: drum ? ofDrum(specs?.drum ?? {}) : ofRotor(specs?.rotor ?? {}),
    newMm: (spec) => (spec.new ? toMm(spec.new) : null),
  });
}

function partLives<Spec extends object>(history: History, road: Road, part: Part<Spec>): Life<Spec>[] {
  const { inService } = history.vehicle;
  const lives: Life<Spec>[] = [
    {
      origin: inService ? 'in-service' : 'first-reading',
      start: inService
        ? {
            day: toDay(inService.date),
            place: road.inService,
            odometerKm: inService.odometer ? toKm(inService.odometer) : null,
          }
        : null,
      startMm: inService ? part.newMm(part.spec) : null,
      begunAt: -1,
      spec: part.spec,
      observations: [],
    },
  ];
  const oneSided: OneSided = { days: new Map(), sinceObserved: false };
  const observeAt = (visit: HistoryVisit, index: number, taken: Taken): void => {
    const observation = observationIn(visit, road.places[index] ?? null, part, taken, history.gauges);
    if (!observation) return;
    const life = itemAt(lives, -1);
    const onOtherWheel = oneSided.sinceObserved && isThicker(observation, life.observations.at(-1), part);
    if (onOtherWheel) lives.push(ofUnknownAge({ ...life, begunAt: index, observations: [] }));
    itemAt(lives, -1).observations.push(observation);
    oneSided.sinceObserved = false;
  };
  history.visits.forEach((visit, index) => {
    observeAt(visit, index, 'as-found');
    for (const item of visit.work) {
      if (item.axle !== part.axle || !isWorkOn(item, part)) continue;
      const place = road.places[index] ?? null;
      const begun = beginLife(itemAt(lives, -1), item, { visit, index, place }, part);
      const next = begun && (part.side === null ? axleRenewed(begun, item, oneSided) : begun);
      if (next) lives.push(next);
    }
    observeAt(visit, index, 'as-left');
  });
  return lives;
}

const isWorkOn = ({ side }: WorkItem, part: Pick<Part<object>, 'side'>): boolean =>
  side == null || part.side === null || side === part.side;

/** One-sided replacements since the present life of an axle's thinnest lining began. */
interface OneSided {
  /** The day on which each side was replaced. */
  days: Map<Side, number>;
  /** Whether one of them was after the latest reading. */
  sinceObserved: boolean;
}

/**
 * The new life of an axle's thinnest lining; null while the linings of the other side are older, since the thinnest is
 * then one of those. If the sides were replaced far apart, the thinnest is on the older side and of unknown age.
 */
function axleRenewed<Spec extends object>(
  begun: Life<Spec>,
  { side }: WorkItem,
  oneSided: OneSided,
): Life<Spec> | null {
  const { day } = required(begun.start, 'start of a replaced lining');
  let daysApart = 0;
  if (side != null) {
    const otherDay = oneSided.days.get(side === 'left' ? 'right' : 'left');
    if (otherDay === undefined) {
      oneSided.days.set(side, day);
      oneSided.sinceObserved = true;
      return null;
    }
    daysApart = day - otherDay;
  }
  oneSided.days.clear();
  oneSided.sinceObserved = false;
  return daysApart <= ONE_SET_DAYS ? begun : ofUnknownAge(begun);
}

const ofUnknownAge = <Spec>(life: Life<Spec>): Life<Spec> => ({
  ...life,
  origin: 'first-reading',
  start: null,
  startMm: null,
});

/** Whether a reading is thicker than the previous one by more than reading error explains. */
function isThicker(reading: Observation, before: Observation | undefined, part: Measured): boolean {
  if (!before) return false;
  const sdMm = Math.hypot(
    reading.standardUncertaintyMm,
    before.standardUncertaintyMm,
    Math.SQRT2 * part.placementSdMm,
  );
  return reading.mm - before.mm > DISAGREE_SDS * sdMm;
}

function beginLife<Spec extends object>(
  ended: Life<Spec>,
  item: WorkItem,
  { visit, index, place }: { visit: HistoryVisit; index: number; place: Place | null },
  part: Part<Spec>,
): Life<Spec> | null {
  const start = { day: toDay(visit.date), place, odometerKm: visit.odometer?.km ?? null };
  const begun = { start, begunAt: index, observations: [] };
  if (part.machined(item)) return { ...begun, origin: 'machined', startMm: null, spec: ended.spec };
  const fitted = part.replacement(item);
  if (!fitted) return null;
  const given = Object.fromEntries(
    Object.entries(fitted).filter(([, value]) => value != null),
  ) as Partial<Spec>;
  const spec = { ...part.spec, ...given };
  return { ...begun, origin: 'replaced', startMm: part.newMm(spec), spec };
}

/** The part's measurement at a visit; null if none. */
function observationIn(
  visit: HistoryVisit,
  place: Place | null,
  part: Measured,
  taken: Taken,
  gauges: Gauges | undefined,
): Observation | null {
  let byPlace: Map<string, Repeat[]> | null = null;
  for (const reading of visit.readings) {
    if (reading.axle !== part.axle || reading.taken !== taken) continue;
    if (reading.side !== part.side) continue;
    const where = part.reading(reading);
    if (where === null) continue;
    byPlace ??= new Map();
    const repeat = {
      mm: reading.mm,
      gauge: gaugeFor(reading.gauge, reading.kind, gauges),
      unit: reading.unit,
    };
    const repeats = byPlace.get(where);
    if (repeats) repeats.push(repeat);
    else byPlace.set(where, [repeat]);
  }
  if (!byPlace) return null;
  const judged = [...byPlace].map(([where, repeats]) => ({
    where,
    ...judgeRepeats(repeats, part),
  }));
  const { mm, gauge, unit, standardUncertaintyMm } = judged.reduce(moreWorn(part.wears));
  return {
    visit,
    taken,
    day: toDay(visit.date),
    place,
    mm,
    gauge,
    unit,
    standardUncertaintyMm,
    places: new Map(judged.map((each) => [each.where, each.mm])),
    worstRepeat: judged.map((each) => each.worstRepeat).reduce(moreWorn(part.wears)),
    disagreement: judged.reduce<Disagreement | null>(
      (worst, each) => (sizeOf(each.disagreement) > sizeOf(worst) ? each.disagreement : worst),
      null,
    ),
  };
}

interface Repeat {
  mm: number;
  gauge: Gauge;
  unit: LengthUnit;
}

/**
 * Combines repeats of one place: the finest gauge decides, and the scatter of its readings adds to their uncertainty.
 */
export function judgeRepeats(
  repeats: readonly Repeat[],
  { placementSdMm, wears }: Pick<Part<object>, 'placementSdMm' | 'wears'>,
) {
  const finestMm = Math.min(...repeats.map(({ gauge }) => gauge.standardUncertaintyMm));
  const deciding = repeats.filter(({ gauge }) => gauge.standardUncertaintyMm <= finestMm);
  const { gauge, unit, mm: onlyMm } = itemAt(deciding, 0);
  const count = deciding.length;
  const mean = deciding.reduce((sum, { mm }) => sum + mm, 0) / count;
  const squares = deciding.reduce((sum, { mm }) => sum + (mm - mean) ** 2, 0);
  const scatterMm = count > 1 ? Math.sqrt(squares / (count - 1) / count) : 0;
  return {
    mm: count > 1 ? roundMm(mean) : onlyMm,
    gauge,
    unit,
    standardUncertaintyMm: scatterMm > 0 ? Math.hypot(finestMm, scatterMm) : finestMm,
    worstRepeat: deciding.reduce(moreWorn(wears)),
    disagreement: disagreementIn(repeats, placementSdMm),
  };
}

/** Two readings of one place disagree if they differ by more than this many standard deviations of their reading error. */
export const DISAGREE_SDS = 2;

function disagreementIn(repeats: readonly Repeat[], placementSdMm: number): Disagreement | null {
  let worst: Disagreement | null = null;
  repeats.forEach((first, index) => {
    for (const second of repeats.slice(index + 1)) {
      const sdMm = Math.hypot(
        first.gauge.standardUncertaintyMm,
        second.gauge.standardUncertaintyMm,
        Math.SQRT2 * placementSdMm,
      );
      const found = { first, second, sdMm };
      if (sizeOf(found) > DISAGREE_SDS && sizeOf(found) > sizeOf(worst)) worst = found;
    }
  });
  return worst;
}

const sizeOf = (found: Disagreement | null): number =>
  found ? Math.abs(found.first.mm - found.second.mm) / found.sdMm : 0;
