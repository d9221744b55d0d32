import type { LengthUnit, Axle, Side, WorkKind } from '../vocabulary/terms.js';
import type { AxleWear, Limit, PadWear, UntilNextVisit } from '../vocabulary/wear.js';

/**
 * The data of one axle's charts, in days, mm and km; the renderer lays them out. Everything after the latest visit
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

/** Distance over time: driven so far, and ahead at the median of the vehicle's use. */
export interface PicturedRoad {
  /** Odometer readings; if it was replaced, distances since the first reading; empty if it was never read. */
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
  /** For a rotor or drum, its expected margin on the day the linings reach their limit. */
  whenLiningsAreDue: (Point & { marginMm: number }) | null;
  /** Number of earlier sets that are not shown. */
  earlierSets: number;
  /** Why part of the forecast is missing, in words. */
  missing: string[];
}

export interface Position {
  /** Null for the thinnest lining of the axle. */
  side: Side | null;
  /** Inner or outer, leading or trailing, thinnest; null for a rotor or drum. */
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
  /** Whether the forecast is for this limit. */
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
