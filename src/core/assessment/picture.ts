import { toDay } from '../calendar.js';
import { COVERAGE_FACTOR } from '../gauges.js';
import type { History } from '../history.js';
import { isDrumBrake, padLives, rotorLives, type Life, type Observation } from '../lives.js';
import { layRoad, type Road } from '../odometer.js';
import { toKm } from '../units.js';
import type { Range, Reason } from '../vocabulary/quantities.js';
import { SIDES, type Axle, type LengthUnit, type Side, type WorkKind } from '../vocabulary/terms.js';
import type {
  AxleWear,
  DateInterval,
  DrumWear,
  Limit,
  PadWear,
  RotorWear,
  UntilNextVisit,
  Wear,
} from '../vocabulary/wear.js';
import { positionInWords } from '../words.js';

/**
 * The data of one axle's charts, in days, mm and km; layout is up to the renderer. Everything after the latest visit
 * comes from the wear answer, so that charts and numbers agree.
 */
export interface AxlePicture {
  axle: Axle;
  wear: AxleWear;
  /** Days since 1970-01-01. */
  today: number;
  /** The latest visit; null if none. */
  asAt: number | null;
  nextVisit: { day: number; source: UntilNextVisit['dateSource'] };
  road: PicturedRoad;
  panels: Panel[];
}

/** Distance over time: as driven, and ahead at the median of the vehicle's use. */
export interface PicturedRoad {
  /** By the odometer; if it was replaced, since its first reading; empty if it was never read. */
  marks: { day: number; km: number }[];
  /** Days on which the odometer was replaced. */
  replacedOn: number[];
  kmPerDay: number | null;
}

export type PicturedPart = 'pads' | 'shoes' | 'rotors' | 'drums';

/** One kind of part of the axle: its linings, or its rotors or drums. */
export interface Panel {
  part: PicturedPart;
  /** In measuring order: left before right, inner before outer. */
  positions: Position[];
  limits: LimitLine[];
  /** Replacements and machining since the earliest life shown. */
  events: PartEvent[];
  fan: Fan | null;
  /** Of a rotor or drum: its expected margin on the day the linings reach their limit. */
  whenLiningsAreDue: (Point & { marginMm: number }) | null;
  /** Number of earlier sets that are not shown. */
  earlierSets: number;
  /** Why part of the forecast is missing, in words. */
  missing: string[];
}

export interface Position {
  side: Side;
  /** Inner or outer, leading or trailing; null for a rotor or drum. */
  pad: PadWear['pad'] | null;
  /** The previous life, if any, and the present one. */
  lives: PicturedLife[];
  /** The latest reading of the fitted part; null if none. */
  latest: PicturedReading | null;
  /** Its median forecast if the fan shown is another position's; null if none. */
  ahead: { from: Point; mmPerDay: number } | null;
}

/** One part from its fitting to its replacement. */
export interface PicturedLife {
  /** Thickness when fitted; null if unknown. */
  fitted: Point | null;
  readings: PicturedReading[];
  /** The day of the work that began or ended it; null if none. */
  begunBy: number | null;
  endedBy: number | null;
}

export interface Point {
  day: number;
  mm: number;
}

export interface PicturedReading extends Point {
  /** Half the gauge's 95 % coverage interval, mm. */
  reachMm: number;
  /** The unit of the reading. */
  unit: LengthUnit;
}

export interface LimitLine {
  mm: number;
  kind: 'limit' | 'discard' | 'maximum' | 'machine-to';
  /** Source of a lining's limit. */
  source: Limit['source'] | null;
  /** Whether the forecast counts to this limit. */
  governs: boolean;
  /** The positions it applies to, if not all. */
  positions: string[];
}

export interface PartEvent {
  day: number;
  kind: WorkKind;
  /** Null if both sides were worked on. */
  side: Side | null;
}

/** Quantiles of a forecast, earliest first: 10, 25, 50, 75 and 90 %. */
export const QUANTILES = ['early', 'lowerQuartile', 'median', 'upperQuartile', 'late'] as const;
export type Quantile = (typeof QUANTILES)[number];

/** A quantile of a forecast: a straight line from the present thickness to the limit. */
export interface Ray {
  mm: number;
  /** The day it reaches the limit; null beyond 30 years. */
  day: number | null;
  /** Change of thickness; gives the direction if it does not reach the limit. */
  mmPerDay: number;
}

/** The forecast of the governing position. */
export interface Fan {
  position: number;
  limitMm: number;
  start: number;
  rays: Record<Quantile, Ray>;
}

type Lived = Life<object>;

/**
 * @param wear the answer for the same history
 * @returns null if the vehicle has no such axle
 */
export function axlePicture(history: History, wear: Wear, axle: Axle, today: string): AxlePicture | null {
  const answer = wear.axles.find((each) => each.axle === axle);
  if (!answer) return null;
  const road = layRoad(history);
  const asAt = wear.asAt && toDay(wear.asAt.date);
  const context: Context = {
    history,
    road,
    axle,
    wear: answer,
    asAt,
    kmPerDay: wear.usage.kmPerDay?.median ?? null,
  };
  const { date, dateSource } = answer.replacement.untilNextVisit;
  return {
    axle,
    wear: answer,
    today: toDay(today),
    asAt,
    nextVisit: { day: toDay(date), source: dateSource },
    road: picturedRoad(context),
    panels: [liningPanel(context), isDrumBrake(history, axle) ? drumPanel(context) : rotorPanel(context)],
  };
}

interface Context {
  history: History;
  road: Road;
  axle: Axle;
  wear: AxleWear;
  asAt: number | null;
  kmPerDay: number | null;
}

function picturedRoad({ history: { vehicle, visits }, road, kmPerDay }: Context): PicturedRoad {
  const replacedOn = visits.filter((visit) => visit.odometerReplaced).map(({ date }) => toDay(date));
  // The road counts from its first reading; if the odometer was never replaced, use the odometer's own figures.
  const shown = replacedOn.length === 0 ? odometerAtStart({ vehicle, visits }, road) : 0;
  const placed = [
    ...(vehicle.inService ? [{ date: vehicle.inService.date, place: road.inService }] : []),
    ...visits.map(({ date }, index) => ({ date, place: road.places[index]! })),
  ];
  if (!road.isByDistance) return { marks: [], replacedOn, kmPerDay };
  const marks = placed.flatMap(({ date, place }) =>
    place ? [{ day: toDay(date), km: place.km + shown }] : [],
  );
  return { marks, replacedOn, kmPerDay };
}

/** The odometer reading at the start of the road, km. */
function odometerAtStart({ vehicle: { inService }, visits }: History, road: Road): number {
  if (inService?.odometer && road.inService) return toKm(inService.odometer) - road.inService.km;
  const isDoubted = (id: string): boolean => road.doubted.some(({ visitId }) => visitId === id);
  const read = visits.findIndex(({ id, odometer }) => odometer && !isDoubted(id));
  const place = road.places[read];
  return place ? visits[read]!.odometer!.km - place.km : 0;
}

function liningPanel(context: Context): Panel {
  const { history, road, axle, wear } = context;
  const { pads, replacement } = wear;
  const governing = pads.findIndex(
    ({ side, pad }) => side === replacement.governingPad?.side && pad === replacement.governingPad.pad,
  );
  const lived = pads.map(({ side, pad }) => padLives(history, road, axle, side, pad));
  const positions = pads.map((pad, index): Position => {
    const ahead = liningAhead(pad, context);
    return {
      ...positionOf(lived[index]!, { side: pad.side, pad: pad.pad }),
      ahead: index !== governing && ahead ? { from: ahead.from, mmPerDay: ahead.mmPerDay.median } : null,
    };
  });
  return {
    part: isDrumBrake(history, axle) ? 'shoes' : 'pads',
    positions,
    limits: liningLimits(pads),
    events: eventsOf(history, axle, ['pads-replaced', 'shoes-replaced'], positions),
    fan: governing < 0 ? null : liningFan(governing, context),
    whenLiningsAreDue: null,
    earlierSets: earlierSets(lived),
    missing: noForecast(replacement.reasons),
  };
}

const governingLimit = ({ limits }: PadWear) => limits.find(({ governs }) => governs) ?? null;

interface Ahead {
  from: Point;
  remainingMm: Range;
  mmPerDay: Range;
}

/** A lining's thickness at the latest visit and its rate of wear; null if either is unknown. */
function liningAhead(pad: PadWear, { asAt, kmPerDay, wear }: Context): Ahead | null {
  const limit = governingLimit(pad);
  const { remainingMm, ratePer1000KmMm: rate } = pad;
  if (!limit || !remainingMm || asAt === null) return null;
  const mmPerDay =
    rate && kmPerDay !== null ? perDay(rate, -kmPerDay) : slopesByDate(pad, wear, asAt, remainingMm.median);
  if (!mmPerDay) return null;
  return { from: { day: asAt, mm: limit.limitMm + remainingMm.median }, remainingMm, mmPerDay };
}

/** Without an odometer there is no rate by distance; derive the slope from the governing pad's dates. */
function slopesByDate(
  { side, pad }: PadWear,
  { replacement: { date, governingPad } }: AxleWear,
  asAt: number,
  remainingMm: number,
): Range | null {
  if (!date?.late || governingPad?.side !== side || governingPad.pad !== pad) return null;
  if (remainingMm <= 0 || toDay(date.early!) <= asAt) return null;
  const slopeTo = (day: string): number => -remainingMm / (toDay(day) - asAt);
  return { low: slopeTo(date.late), median: slopeTo(date.median!), high: slopeTo(date.early!) };
}

const perDay = ({ low, median, high }: Range, kmPerDay: number): Range => ({
  low: (low * kmPerDay) / 1000,
  median: (median * kmPerDay) / 1000,
  high: (high * kmPerDay) / 1000,
});

function liningLimits(pads: readonly PadWear[]): LimitLine[] {
  const lines = pads.flatMap((pad) =>
    pad.limits.map(({ limitMm: mm, source, governs }): LimitLine => {
      return { mm, kind: 'limit', source, governs, positions: [positionInWords(pad)] };
    }),
  );
  return joined(lines, pads.length);
}

/** Merges lines with the same figure and meaning; lines for every position name none. */
function joined(lines: readonly LimitLine[], positions: number): LimitLine[] {
  const byMeaning = new Map<string, LimitLine>();
  for (const line of lines) {
    const meaning = `${line.kind} ${line.mm} ${line.source}`;
    const known = byMeaning.get(meaning);
    byMeaning.set(meaning, {
      ...line,
      governs: line.governs || known?.governs === true,
      positions: [...new Set([...(known?.positions ?? []), ...line.positions])],
    });
  }
  return [...byMeaning.values()].map((line) =>
    line.positions.length === positions ? { ...line, positions: [] } : line,
  );
}

/** If the pad may already be past the limit at a quantile, that ray starts and ends at the limit. */
function liningFan(position: number, context: Context): Fan | null {
  const { pads, replacement } = context.wear;
  const ahead = liningAhead(pads[position]!, context);
  const { limitMm, date } = replacement;
  if (!ahead || limitMm === null || !date) return null;
  const remaining = quantilesOf(ahead.remainingMm);
  // The fastest wear reaches the limit first.
  const { low, median, high } = ahead.mmPerDay;
  const slopes = quantilesOf({ low: high, median, high: low });
  const rays = raysOf(date, (quantile) => ({
    mm: limitMm + Math.max(0, remaining[quantile]),
    mmPerDay: slopes[quantile],
  }));
  return { position, limitMm, start: ahead.from.day, rays };
}

const raysOf = (date: DateInterval, ray: (quantile: Quantile) => Omit<Ray, 'day'>): Fan['rays'] =>
  Object.fromEntries(
    QUANTILES.map((quantile) => {
      const day = date[quantile];
      return [quantile, { ...ray(quantile), day: day === null ? null : toDay(day) }];
    }),
  ) as Fan['rays'];

/** The quartile of a normal distribution relative to its 90 % point. */
const QUARTILE = 0.6744898 / 1.2815516;

/** Quantiles of a range; its quartiles are those of a normal distribution on either side of the median. */
const quantilesOf = ({ low, median, high }: Range): Record<Quantile, number> => ({
  early: low,
  lowerQuartile: median + QUARTILE * (low - median),
  median,
  upperQuartile: median + QUARTILE * (high - median),
  late: high,
});

function rotorPanel(context: Context): Panel {
  const rotors = context.wear.rotors.map((rotor) => ({
    ...rotor,
    limitMm: rotor.discardMm,
    extremeMm: rotor.thinnestMm,
  }));
  const work: WorkKind[] = ['rotor-replaced', 'rotor-machined'];
  return counterpartPanel(context, rotors, { part: 'rotors', limit: 'discard', sign: 1, work });
}

function drumPanel(context: Context): Panel {
  const drums = context.wear.drums.map((drum) => ({
    ...drum,
    limitMm: drum.maximumMm,
    extremeMm: drum.largestMm,
    marginAtPadReplacementMm: drum.marginAtShoeReplacementMm,
  }));
  const work: WorkKind[] = ['drum-replaced', 'drum-machined'];
  return counterpartPanel(context, drums, { part: 'drums', limit: 'maximum', sign: -1, work });
}

/** A rotor or drum under common names. */
type CounterpartWear = Pick<
  RotorWear & DrumWear,
  'side' | 'machineToMm' | 'latestDate' | 'reasons' | 'ratePer1000KmMm' | 'marginMm' | 'date'
> &
  Pick<RotorWear, 'marginAtPadReplacementMm'> & {
    limitMm: number | null;
    extremeMm: number | null;
  };

interface CounterpartKind {
  part: 'rotors' | 'drums';
  limit: 'discard' | 'maximum';
  /** -1 for drums, whose lives are stored as negative thicknesses. */
  sign: 1 | -1;
  work: WorkKind[];
}

function counterpartPanel(
  context: Context,
  parts: readonly CounterpartWear[],
  { part, limit, sign, work }: CounterpartKind,
): Panel {
  const { history, road, axle, kmPerDay } = context;
  const lived = parts.map(({ side }) => rotorLives(history, road, axle, side));
  const governing = firstAtLimit(parts);
  const positions = parts.map((each, index): Position => {
    const { extremeMm, latestDate, ratePer1000KmMm: rate } = each;
    const isKnown = extremeMm !== null && latestDate !== null && rate && kmPerDay !== null;
    return {
      ...positionOf(lived[index]!, { side: each.side, pad: null }, sign),
      ahead:
        index !== governing && isKnown
          ? {
              from: { day: toDay(latestDate), mm: extremeMm },
              mmPerDay: perDay(rate, -sign * kmPerDay).median,
            }
          : null,
    };
  });
  const lines = parts.flatMap(({ side, limitMm, machineToMm }): LimitLine[] => {
    const line = { source: null, positions: [side], governs: false };
    return [
      ...(limitMm === null ? [] : [{ ...line, kind: limit, mm: limitMm, governs: true }]),
      ...(machineToMm === null ? [] : [{ ...line, kind: 'machine-to' as const, mm: machineToMm }]),
    ];
  });
  const fan = governing === null ? null : counterpartFan(governing, parts[governing]!, context, sign);
  return {
    part,
    positions,
    limits: joined(lines, parts.length),
    events: eventsOf(history, axle, work, positions),
    fan,
    whenLiningsAreDue: fan && whenDue(parts[governing!]!, fan, context.wear.replacement.date, sign),
    earlierSets: earlierSets(lived),
    missing: missingWords(parts, ['discardMm', 'maximumMm', 'ratePer1000KmMm']),
  };
}

/** Index of the first rotor or drum to reach its limit; null if none has a date or a margin. */
function firstAtLimit(parts: readonly CounterpartWear[]): number | null {
  const known = parts.flatMap(({ date, marginMm }, index) =>
    marginMm === null ? [] : [{ index, marginMm, early: date?.early ?? '9999' }],
  );
  known.sort((a, b) => a.early.localeCompare(b.early) || a.marginMm - b.marginMm);
  return known[0]?.index ?? null;
}

function counterpartFan(
  position: number,
  { limitMm, extremeMm, latestDate, ratePer1000KmMm: rate, date }: CounterpartWear,
  { kmPerDay }: Context,
  sign: 1 | -1,
): Fan | null {
  if (limitMm === null || extremeMm === null || latestDate === null) return null;
  if (!rate || !date || kmPerDay === null || sign * (extremeMm - limitMm) <= 0) return null;
  const { low, median, high } = rate;
  const slopes = quantilesOf(perDay({ low: high, median, high: low }, -sign * kmPerDay));
  const rays = raysOf(date, (quantile) => ({ mm: extremeMm, mmPerDay: slopes[quantile] }));
  return { position, limitMm, start: toDay(latestDate), rays };
}

function whenDue(
  { limitMm, marginAtPadReplacementMm: margin }: CounterpartWear,
  { start }: Fan,
  liningDates: DateInterval | null,
  sign: 1 | -1,
): Panel['whenLiningsAreDue'] {
  if (!margin || !liningDates?.median) return null;
  const day = toDay(liningDates.median);
  return day < start ? null : { day, mm: limitMm! + sign * margin.median, marginMm: margin.median };
}

/** Lives shown per position: the present one and the one before. */
const LIVES_SHOWN = 2;

const earlierSets = (lived: readonly (readonly Lived[])[]): number =>
  Math.max(0, ...lived.map((lives) => lives.length - LIVES_SHOWN));

function positionOf(
  lives: readonly Lived[],
  place: Pick<Position, 'side' | 'pad'>,
  sign: 1 | -1 = 1,
): Omit<Position, 'ahead'> {
  const shown = lives.slice(-LIVES_SHOWN).map((life, index, all): PicturedLife => {
    const { origin, start, startMm, observations } = life;
    return {
      fitted: start && startMm !== null ? { day: start.day, mm: sign * startMm } : null,
      readings: observations.map((observation) => picturedReading(observation, sign)),
      begunBy: origin === 'replaced' || origin === 'machined' ? start!.day : null,
      endedBy: all[index + 1]?.start?.day ?? null,
    };
  });
  const { side, pad } = place;
  return { side, pad, lives: shown, latest: shown.at(-1)!.readings.at(-1) ?? null };
}

const picturedReading = (
  { day, mm, standardUncertaintyMm, unit }: Observation,
  sign: 1 | -1,
): PicturedReading => ({ day, mm: sign * mm, reachMm: COVERAGE_FACTOR * standardUncertaintyMm, unit });

/** Work that began or ended a life shown; both sides on one day count as one event. */
function eventsOf(
  { visits }: History,
  axle: Axle,
  kinds: readonly WorkKind[],
  positions: readonly Position[],
): PartEvent[] {
  const days = new Set(
    positions.flatMap(({ lives }) => lives.flatMap(({ begunBy, endedBy }) => [begunBy, endedBy])),
  );
  const events: PartEvent[] = [];
  for (const { date, work } of visits) {
    const day = toDay(date);
    if (!days.has(day)) continue;
    for (const kind of kinds) {
      const items = work.filter((item) => item.kind === kind && item.axle === axle);
      if (items.length === 0) continue;
      const sides = SIDES.filter((side) => items.some((item) => item.side == null || item.side === side));
      events.push({ day, kind, side: sides.length === 1 ? sides[0]! : null });
    }
  }
  return events;
}

/** Why there is no date; empty if there is one or it is beyond the forecast's range. */
const noForecast = (reasons: readonly Reason[]): string[] =>
  reasons
    .filter(({ field, code }) => field === 'date' && !code.startsWith('beyond'))
    .map(({ detail }) => detail);

/** What the answer lacks about rotors or drums, each reason once. */
function missingWords(parts: readonly { reasons: readonly Reason[] }[], fields: readonly string[]): string[] {
  const details = parts.flatMap(({ reasons }) =>
    reasons.filter(({ field }) => fields.includes(field)).map(({ detail }) => detail),
  );
  return [...new Set(details)];
}
