import { toDay } from '../calendar.js';
import { COVERAGE_FACTOR } from '../gauges.js';
import type { History } from '../history.js';
import { isDrumBrake, padLives, rotorLives, type Life, type Observation } from '../lives.js';
import { layRoad, type Place, type Road } from '../odometer.js';
import { toKm } from '../units.js';
import type { Reason } from '../vocabulary/quantities.js';
import { SIDES, type Axle, type Side, type WorkKind } from '../vocabulary/terms.js';
import type { AxleWear, DrumWear, Limit, PadWear, RotorWear, Wear } from '../vocabulary/wear.js';

/**
 * What a picture of one axle shows, in days, mm and km; where it stands on paper is the renderer's business. Everything
 * ahead is taken from the wear answer, so that picture and numbers cannot differ.
 */
export interface AxlePicture {
  axle: Axle;
  wear: AxleWear;
  /** Days since 1970-01-01. */
  today: number;
  /** The latest visit; null where there is none. */
  asAt: number | null;
  road: PicturedRoad;
  panels: Panel[];
}

/** The vehicle's road by the calendar: as driven, and ahead at the median of its use. */
export interface PicturedRoad {
  /** By the odometer; by the distance since its first reading where it was replaced; empty where none was ever read. */
  marks: { day: number; km: number }[];
  /** Days on which the odometer was replaced. */
  replacedOn: number[];
  kmPerDay: number | null;
}

/** One kind of part of the axle: the linings, or what they run on. */
export interface Panel {
  part: 'pads' | 'shoes' | 'rotors' | 'drums';
  /** In the order in which they are measured: left before right, inner before outer. */
  positions: Position[];
  limits: LimitLine[];
  events: PartEvent[];
  band: Band | null;
  /** What cannot be shown, in words. */
  missing: string[];
}

export interface Position {
  side: Side;
  /** Inner or outer, leading or trailing; null of a rotor or drum. */
  pad: PadWear['pad'] | null;
  readings: PicturedReading[];
  /** The latest reading of the part now fitted; null where it has none. */
  latest: PicturedReading | null;
  /** Where the part now fitted stands: as the answer has it, else as last read; null where nobody knows. */
  stands: Point | null;
  /** One line a life: the thickness at fitting, and where the readings take it. */
  trends: Point[][];
}

export interface Point {
  day: number;
  mm: number;
}

export interface PicturedReading extends Point {
  /** Half the 95 % coverage interval of the gauge, mm. */
  reachMm: number;
}

export interface LimitLine {
  mm: number;
  kind: 'limit' | 'discard' | 'maximum' | 'machine-to';
  /** Of a lining's limit: where it comes from. */
  source: Limit['source'] | null;
  /** The positions it is for where not for all of them. */
  positions: string[];
  /** The day from which it holds; null where it does from the first. */
  from: number | null;
}

export interface PartEvent {
  day: number;
  kind: WorkKind;
  /** Null where both sides were worked on. */
  side: Side | null;
}

/**
 * The forecast as a wedge: 10 %, 50 % and 90 % of the thickness at its start, and where each goes. Of linings they end on
 * the limit at the early, the median and the late date; of a rotor or drum on the median date of the linings' limit, at
 * what will be left then. An end is null where its date lies beyond those that are given.
 */
export interface Band {
  of: string;
  limitMm: number;
  start: { day: number; low: number; median: number; high: number };
  low: Point | null;
  median: Point | null;
  high: Point | null;
}

type Lived = Life<object>;

/**
 * @param wear the answer of the same history
 * @returns null where the vehicle has no such axle
 */
export function axlePicture(history: History, wear: Wear, axle: Axle, today: string): AxlePicture | null {
  const answer = wear.axles.find((each) => each.axle === axle);
  if (!answer) return null;
  const road = layRoad(history);
  const asAt = wear.asAt && toDay(wear.asAt.date);
  const drum = isDrumBrake(history, axle);
  const stations = stationsOf(history, road);
  const context: Context = { history, road, stations, axle, wear: answer, asAt };
  return {
    axle,
    wear: answer,
    today: toDay(today),
    asAt,
    road: picturedRoad(history, road, stations, wear),
    panels: [liningPanel(context), drum ? drumPanel(context) : rotorPanel(context)],
  };
}

interface Context {
  history: History;
  road: Road;
  stations: Station[];
  axle: Axle;
  wear: AxleWear;
  asAt: number | null;
}

/** A position's name as it is said. */
export const positionName = ({ side, pad }: Pick<Position, 'side' | 'pad'>): string =>
  pad === null ? side : `${side} ${pad}`;

/** A day on which it is known how far the vehicle had been driven, km since its first known reading. */
interface Station {
  day: number;
  km: number;
}

function stationsOf({ vehicle, visits }: History, road: Road): Station[] {
  const placed = [
    ...(vehicle.inService ? [{ date: vehicle.inService.date, place: road.inService }] : []),
    ...visits.map(({ date }, index) => ({ date, place: road.places[index] ?? null })),
  ];
  return placed.flatMap(({ date, place }) => (place ? [{ day: toDay(date), km: place.km }] : []));
}

function picturedRoad(history: History, road: Road, stations: readonly Station[], wear: Wear): PicturedRoad {
  const replacedOn = history.visits.filter((visit) => visit.odometerReplaced).map(({ date }) => toDay(date));
  // The road counts from its first reading; one odometer's figures are those that it shows.
  const shown = replacedOn.length === 0 ? odometerAtStart(history, road) : 0;
  return {
    marks: stations.map(({ day, km }) => ({ day, km: km + shown })),
    replacedOn,
    kmPerDay: wear.usage.kmPerDay?.median ?? null,
  };
}

/** What the odometer showed where the road begins, km. */
function odometerAtStart({ vehicle: { inService }, visits }: History, road: Road): number {
  if (inService?.odometer && road.inService) return toKm(inService.odometer) - road.inService.km;
  const read = visits.findIndex(({ odometer }) => odometer);
  const place = road.places[read];
  return place ? visits[read]!.odometer!.km - place.km : 0;
}

function liningPanel(context: Context): Panel {
  const { history, road, axle, wear, asAt } = context;
  const { pads, replacement } = wear;
  const { positions, starts } = positionsOf(
    pads.map((pad) => ({
      side: pad.side,
      pad: pad.pad,
      lives: padLives(history, road, axle, pad.side, pad.pad),
      estimate: estimateOf(pad),
    })),
    context,
  );
  const shoes = isDrumBrake(history, axle);
  return {
    part: shoes ? 'shoes' : 'pads',
    positions,
    limits: liningLimits(pads, starts),
    events: eventsOf(history, axle, ['pads-replaced', 'shoes-replaced']),
    band: liningBand(wear, asAt),
    missing: missingWords(replacement.reasons, pads, ['latest', 'fitted', 'remainingMm']),
  };
}

const governingLimit = ({ limits }: PadWear) => limits.find(({ governs }) => governs) ?? null;

/** The median thickness at the latest visit, as the answer has it. */
function estimateOf(pad: PadWear): number | null {
  const limit = governingLimit(pad);
  return limit && pad.remainingMm && limit.limitMm + pad.remainingMm.median;
}

function liningLimits(pads: readonly PadWear[], starts: readonly (number | null)[]): LimitLine[] {
  const lines = pads.flatMap((pad, index): LimitLine[] => {
    const limit = governingLimit(pad);
    if (!limit) return [];
    const { limitMm: mm, source } = limit;
    return [{ mm, kind: 'limit', source, positions: [positionName(pad)], from: starts[index]! }];
  });
  return joined(lines, pads.length);
}

/** Lines of one figure and meaning as one; those that are for every position name none. */
function joined(lines: readonly LimitLine[], positions: number): LimitLine[] {
  const byMeaning = new Map<string, LimitLine>();
  for (const line of lines) {
    const meaning = `${line.kind} ${line.mm} ${line.source}`;
    const known = byMeaning.get(meaning);
    byMeaning.set(meaning, {
      ...line,
      positions: [...(known?.positions ?? []), ...line.positions],
      from: known ? earliest(known.from, line.from) : line.from,
    });
  }
  return [...byMeaning.values()].map((line) =>
    line.positions.length === positions ? { ...line, positions: [] } : line,
  );
}

const earliest = (a: number | null, b: number | null): number | null =>
  a === null || b === null ? null : Math.min(a, b);

/**
 * The governing pad's thickness now, down to the limit at the dates of the answer. Where a share of it is under the limit
 * already, the date of that share is that of the latest visit.
 */
function liningBand({ pads, replacement }: AxleWear, asAt: number | null): Band | null {
  const { governingPad, limitMm, date } = replacement;
  const pad = pads.find(({ side, pad: which }) => side === governingPad?.side && which === governingPad.pad);
  if (!pad?.remainingMm || limitMm === null || asAt === null || !date?.early) return null;
  const { low, median, high } = pad.remainingMm;
  const above = (remaining: number): number => limitMm + Math.max(0, remaining);
  const reaches = (full: string | null): Point | null =>
    full === null ? null : { day: toDay(full), mm: limitMm };
  return {
    of: positionName(pad),
    limitMm,
    start: { day: asAt, low: above(low), median: above(median), high: above(high) },
    low: reaches(date.early),
    median: reaches(date.median),
    high: reaches(date.late),
  };
}

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

/** A rotor or drum by the same names. */
type CounterpartWear = Pick<RotorWear & DrumWear, 'side' | 'machineToMm' | 'latestDate' | 'reasons'> &
  Pick<RotorWear, 'marginAtPadReplacementMm'> & { limitMm: number | null; extremeMm: number | null };

interface CounterpartKind {
  part: 'rotors' | 'drums';
  limit: 'discard' | 'maximum';
  /** Drums' lives are kept as negative thicknesses. */
  sign: 1 | -1;
  work: WorkKind[];
}

function counterpartPanel(
  context: Context,
  parts: readonly CounterpartWear[],
  { part, limit, sign, work }: CounterpartKind,
): Panel {
  const { history, road, axle, wear } = context;
  const lived = parts.map(({ side }) => ({
    side,
    pad: null,
    lives: rotorLives(history, road, axle, side),
    estimate: null,
  }));
  const { positions, starts } = positionsOf(lived, context, sign);
  const lines = parts.flatMap(({ side, limitMm, machineToMm }, index): LimitLine[] => {
    const line = { source: null, positions: [side], from: starts[index]! };
    return [
      ...(limitMm === null ? [] : [{ ...line, kind: limit, mm: limitMm }]),
      ...(machineToMm === null ? [] : [{ ...line, kind: 'machine-to' as const, mm: machineToMm }]),
    ];
  });
  return {
    part,
    positions,
    limits: joined(lines, parts.length),
    events: eventsOf(history, axle, work),
    band: counterpartBand(parts, wear.replacement.date?.median ?? null, sign),
    missing: missingWords([], parts, [
      'latestDate',
      'discardMm',
      'maximumMm',
      'ratePer1000KmMm',
      'marginAtPadReplacementMm',
      'marginAtShoeReplacementMm',
    ]),
  };
}

/** Of the side that will have least left: from its latest reading to the margin on the day the linings are used up. */
function counterpartBand(
  parts: readonly CounterpartWear[],
  liningsDue: string | null,
  sign: 1 | -1,
): Band | null {
  if (liningsDue === null) return null;
  const end = toDay(liningsDue);
  const bands = parts.flatMap(
    ({ side, limitMm, extremeMm, latestDate, marginAtPadReplacementMm: margin }) => {
      if (limitMm === null || extremeMm === null || latestDate === null || !margin) return [];
      const day = toDay(latestDate);
      if (day >= end) return [];
      const start = { day, low: extremeMm, median: extremeMm, high: extremeMm };
      const left = (mm: number): Point => ({ day: end, mm: limitMm + sign * mm });
      const band = {
        of: side,
        limitMm,
        start,
        low: left(margin.low),
        median: left(margin.median),
        high: left(margin.high),
      };
      return [{ band, least: margin.median }];
    },
  );
  return bands.sort((a, b) => a.least - b.least)[0]?.band ?? null;
}

interface LivedPosition {
  side: Side;
  pad: Position['pad'];
  lives: Lived[];
  /** What the answer says of it at the latest visit, mm; null where it says nothing. */
  estimate: number | null;
}

/** @returns the positions, and the day on which each one's present life began where it was begun by work */
function positionsOf(
  lived: readonly LivedPosition[],
  { road, stations, asAt }: Context,
  sign: 1 | -1 = 1,
): { positions: Position[]; starts: (number | null)[] } {
  const positions = lived.map(({ side, pad, lives, estimate }): Position => {
    const read = lives.map(({ observations }) =>
      observations.map((observation) => picturedReading(observation, sign)),
    );
    const latest = read.at(-1)!.at(-1) ?? null;
    const now = estimate !== null && asAt !== null ? { day: asAt, mm: estimate } : null;
    const trends = lives.map((life, index) => {
      const end = index === lives.length - 1 && now ? { ...now, place: road.places.at(-1) ?? null } : null;
      return trendOf(life, end, stations).map(({ day, mm }) => ({ day, mm: sign * mm }));
    });
    return {
      side,
      pad,
      readings: read.flat(),
      latest,
      stands: now ?? latest,
      trends: trends.filter((line) => line.length > 1),
    };
  });
  const starts = lived.map(({ lives }) => {
    const { origin, start } = lives.at(-1)!;
    return origin === 'replaced' || origin === 'machined' ? start!.day : null;
  });
  return { positions, starts };
}

const picturedReading = ({ day, mm, standardUncertaintyMm }: Observation, sign: 1 | -1): PicturedReading => ({
  day,
  mm: sign * mm,
  reachMm: COVERAGE_FACTOR * standardUncertaintyMm,
});

interface PlacedPoint extends Point {
  place: Place | null;
}

/**
 * The line of one life: straight by distance, and so bent by the calendar wherever the vehicle was driven more or less.
 *
 * @param estimate where it ends; null for the last reading
 */
function trendOf(life: Lived, estimate: PlacedPoint | null, stations: readonly Station[]): Point[] {
  const { start, startMm, observations } = life;
  const known: PlacedPoint[] = [
    ...(start && startMm !== null ? [{ day: start.day, place: start.place, mm: startMm }] : []),
    ...observations,
    ...(estimate ? [estimate] : []),
  ];
  const from = known[0];
  const to = known.at(-1);
  if (!from?.place || !to?.place || to.place.km <= from.place.km) return [];
  const { km } = from.place;
  const perKm = (to.mm - from.mm) / (to.place.km - km);
  const between = stations
    .filter(({ day }) => day > from.day && day < to.day)
    .map((station) => ({ day: station.day, mm: from.mm + perKm * (station.km - km) }));
  return [from, ...between, to].map(({ day, mm }) => ({ day, mm }));
}

/** Work on an axle's parts, both sides of one day as one. */
function eventsOf({ visits }: History, axle: Axle, kinds: readonly WorkKind[]): PartEvent[] {
  const events: PartEvent[] = [];
  for (const { date, work } of visits) {
    for (const kind of kinds) {
      const items = work.filter((item) => item.kind === kind && item.axle === axle);
      if (items.length === 0) continue;
      const sides = SIDES.filter((side) => items.some((item) => item.side == null || item.side === side));
      events.push({ day: toDay(date), kind, side: sides.length === 1 ? sides[0]! : null });
    }
  }
  return events;
}

/** What an answer says it lacks, each said once, with the positions it is about where not about all. */
function missingWords(
  ofAll: readonly Reason[],
  parts: readonly { side: Side; pad?: PadWear['pad']; reasons: readonly Reason[] }[],
  fields: readonly string[],
): string[] {
  const lacking = new Map<string, Set<string>>(ofAll.map(({ detail }) => [detail, new Set()]));
  for (const { side, pad, reasons } of parts) {
    for (const { field, detail } of reasons) {
      if (!fields.includes(field)) continue;
      lacking.set(detail, (lacking.get(detail) ?? new Set()).add(positionName({ side, pad: pad ?? null })));
    }
  }
  return [...lacking].map(([detail, positions]) =>
    positions.size === 0 || positions.size === parts.length
      ? detail
      : `${[...positions].join(', ')}: ${detail}`,
  );
}
