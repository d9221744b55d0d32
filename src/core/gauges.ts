import type { GAUGE_KINDS, ReadingKind } from './vocabulary/terms.js';

/** A measuring instrument as the conformity and forecast arithmetic sees it. */
export interface Gauge {
  name: string;
  kind: (typeof GAUGE_KINDS)[number];
  /** Smallest step that can be read, mm. */
  resolutionMm: number;
  /** Standard uncertainty of one reading, mm: rounding to the resolution (d/√12, GUM 4.3.7 and F.2.2.1, from memory) or more. */
  standardUncertaintyMm: number;
}

const rounding = (resolutionMm: number): number => resolutionMm / Math.sqrt(12);

function gauge(
  name: string,
  kind: Gauge['kind'],
  resolutionMm: number,
  standardUncertaintyMm?: number,
): Gauge {
  return { name, kind, resolutionMm, standardUncertaintyMm: standardUncertaintyMm ?? rounding(resolutionMm) };
}

/**
 * The gauges every shop has (resolutions are common practice, no source). An eye estimate is given twice the
 * uncertainty that its two-millimetre step alone would have.
 */
export const GAUGES: readonly Gauge[] = [
  gauge('pad-gauge', 'pad-gauge', 0.5),
  gauge('pad-gauge-1mm', 'pad-gauge', 1),
  gauge('pad-gauge-thirty-seconds', 'pad-gauge', 0.79375),
  gauge('depth-gauge', 'depth-gauge', 0.1, 0.05),
  gauge('caliper', 'caliper', 0.05, 0.03),
  gauge('micrometer', 'micrometer', 0.01),
  gauge('dial-indicator', 'dial-indicator', 0.01),
  gauge('visual', 'visual', 2, 2 * rounding(2)),
];

const BY_NAME = new Map(GAUGES.map((entry) => [entry.name, entry]));

/** What is assumed where no gauge was named: a coarse one of the kind used for that reading. */
const ASSUMED: Record<ReadingKind, Gauge> = {
  'pad-thickness': gauge('assumed', 'assumed', 1),
  'rotor-thickness': gauge('assumed', 'assumed', 0.1, 0.05),
  'rotor-runout': gauge('assumed', 'assumed', 0.02),
};

export function isKnownGauge(name: string): boolean {
  return BY_NAME.has(name);
}

/** The gauge a reading names; an assumed coarse one where it names none. */
export function gaugeFor(name: string | null | undefined, kind: ReadingKind): Gauge {
  return (name == null ? undefined : BY_NAME.get(name)) ?? ASSUMED[kind];
}
