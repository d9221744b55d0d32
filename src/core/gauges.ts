import { toDay, toFullDate } from './calendar.js';
import { toMm } from './units.js';
import type { GaugeBody } from './vocabulary/settings.js';
import type { GAUGE_KINDS, ReadingKind } from './vocabulary/terms.js';

/** A measuring instrument as the conformity and forecast calculations use it. */
export interface Gauge {
  name: string;
  kind: (typeof GAUGE_KINDS)[number];
  /** Smallest readable step, mm. */
  resolutionMm: number;
  /** Standard uncertainty of one reading, mm: rounding to the resolution (d/√12, GUM 4.3.7 and F.2.2.1, from memory) or more. */
  standardUncertaintyMm: number;
  calibrationDate: string | null;
  /** Readings after this date were taken out of calibration; null if unknown. */
  calibrationDueDate: string | null;
}

/** The gauges of a shop by name. */
export type Gauges = ReadonlyMap<string, Gauge>;

/** Coverage factor of the 95 % interval. */
export const COVERAGE_FACTOR = 1.96;

const rounding = (resolutionMm: number): number => resolutionMm / Math.sqrt(12);

function gauge(
  name: string,
  kind: Gauge['kind'],
  resolutionMm: number,
  standardUncertaintyMm?: number,
): Gauge {
  return {
    name,
    kind,
    resolutionMm,
    standardUncertaintyMm: standardUncertaintyMm ?? rounding(resolutionMm),
    calibrationDate: null,
    calibrationDueDate: null,
  };
}

/**
 * The standard gauges of every shop (resolutions are common practice, no source). An estimate by eye has twice the
 * uncertainty that its two-millimetre step alone would give.
 */
export const GAUGES: readonly Gauge[] = [
  gauge('pad-gauge', 'pad-gauge', 0.5),
  gauge('pad-gauge-1mm', 'pad-gauge', 1),
  gauge('pad-gauge-thirty-seconds', 'pad-gauge', 0.79375),
  gauge('depth-gauge', 'depth-gauge', 0.1, 0.05),
  gauge('caliper', 'caliper', 0.05, 0.03),
  gauge('micrometer', 'micrometer', 0.01),
  gauge('dial-indicator', 'dial-indicator', 0.01),
  gauge('drum-gauge', 'drum-gauge', 0.1, 0.05),
  gauge('visual', 'visual', 2, 2 * rounding(2)),
];

/** The standard gauges by name: the default of a shop without its own. */
export const STANDARD_GAUGES: Gauges = new Map(GAUGES.map((entry) => [entry.name, entry]));

const CALIBRATION_DAYS = 365;

/** A shop's own gauge in the form the calculations use. */
export function ownGauge(name: string, body: GaugeBody): Gauge {
  const { kind, resolution, standardUncertainty, calibrationDate = null, calibrationDueDate = null } = body;
  return {
    ...gauge(name, kind, toMm(resolution), standardUncertainty ? toMm(standardUncertainty) : undefined),
    calibrationDate,
    calibrationDueDate:
      calibrationDueDate ?? (calibrationDate && toFullDate(toDay(calibrationDate) + CALIBRATION_DAYS)),
  };
}

/** Whether a gauge's calibration was due before a date. */
export function isOutOfDate({ calibrationDueDate }: Gauge, date: string): boolean {
  return calibrationDueDate !== null && calibrationDueDate < date;
}

/** The gauge assumed for a reading that names none: a coarse one of the usual kind. */
const ASSUMED: Record<ReadingKind, Gauge> = {
  'pad-thickness': gauge('assumed', 'assumed', 1),
  'rotor-thickness': gauge('assumed', 'assumed', 0.1, 0.05),
  'rotor-runout': gauge('assumed', 'assumed', 0.02),
  'shoe-thickness': gauge('assumed', 'assumed', 1),
  'drum-diameter': gauge('assumed', 'assumed', 0.2, 0.1),
};

/** The gauge a reading names, or the assumed coarse one. */
export function gaugeFor(
  name: string | null | undefined,
  kind: ReadingKind,
  gauges: Gauges = STANDARD_GAUGES,
): Gauge {
  return (name == null ? undefined : gauges.get(name)) ?? ASSUMED[kind];
}

/** The kinds of gauge that can settle a reading of each kind. */
const SUITED: Record<ReadingKind, readonly Gauge['kind'][]> = {
  'pad-thickness': ['pad-gauge', 'depth-gauge', 'caliper'],
  'rotor-thickness': ['caliper', 'micrometer'],
  'rotor-runout': ['dial-indicator'],
  'shoe-thickness': ['pad-gauge', 'depth-gauge', 'caliper'],
  'drum-diameter': ['drum-gauge', 'caliper'],
};

/** Further kinds of gauge that can take a reading: linings are also judged by eye, or measured off the vehicle. */
const ALSO_TAKES: Partial<Record<ReadingKind, readonly Gauge['kind'][]>> = {
  'pad-thickness': ['micrometer', 'visual'],
  'shoe-thickness': ['micrometer', 'visual'],
};

/** Whether a kind of gauge can take a kind of reading at all. */
export const canTake = (gauge: Gauge['kind'], reading: ReadingKind): boolean =>
  SUITED[reading].includes(gauge) || (ALSO_TAKES[reading]?.includes(gauge) ?? false);

/** A reading too close to a limit to tell. */
export interface Unsettled {
  kind: ReadingKind;
  /** Distance from the reading to the limit, mm. */
  apartMm: number;
  used: Gauge;
  date: string;
}

/**
 * The coarsest gauge of the shop that is finer than the one used, in calibration, and whose 95 % coverage interval
 * about the same reading would exclude the limit (JCGM 106). Null if there is none.
 */
export function settlingGauge({ kind, apartMm, used, date }: Unsettled, gauges: Gauges): Gauge | null {
  const fineEnough = [...gauges.values()].filter(
    (entry) =>
      SUITED[kind].includes(entry.kind) &&
      entry.name !== used.name &&
      entry.standardUncertaintyMm < used.standardUncertaintyMm &&
      !isOutOfDate(entry, date) &&
      COVERAGE_FACTOR * entry.standardUncertaintyMm < Math.abs(apartMm),
  );
  return fineEnough.reduce<Gauge | null>(
    (coarsest, entry) =>
      coarsest && coarsest.standardUncertaintyMm >= entry.standardUncertaintyMm ? coarsest : entry,
    null,
  );
}
