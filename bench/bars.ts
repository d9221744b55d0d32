/** The bar for forecasts: percentages, and ratios of their error to that of other forecasts. */
export interface Bar {
  /** Minimum and maximum coverage of the 80 % interval. */
  covers?: readonly [min: number, max: number];
  /** Maximum share before the early date, and after the late one. */
  outside?: number;
  againstTwoPoint?: number;
  againstLine?: number;
  againstTwin?: number;
}

/** The measured values; a missing ratio does not fail its bar. */
export interface Found {
  covers: number;
  early: number;
  late: number;
  againstTwoPoint?: number;
  againstLine?: number;
  againstTwin?: number;
}

const RATIOS = [
  ['againstTwoPoint', '/two-point'],
  ['againstLine', '/line'],
  ['againstTwin', '/twin'],
] as const;

/** The missed parts of a bar, in words; empty if it is met. */
export function missesOf(found: Found, bar: Bar): string[] {
  const [min, max] = bar.covers ?? [0, 100];
  const outside = bar.outside ?? 100;
  const over = (name: string, value: number, limit: number, digits: number): string[] =>
    value > limit ? [`${name} ${value.toFixed(digits)} > ${limit}`] : [];
  return [
    ...(found.covers < min ? [`covers ${found.covers.toFixed(1)} < ${min}`] : []),
    ...over('covers', found.covers, max, 1),
    ...over('before early', found.early, outside, 1),
    ...over('after late', found.late, outside, 1),
    ...RATIOS.flatMap(([ratio, name]) => over(name, found[ratio] ?? 0, bar[ratio] ?? Infinity, 2)),
  ];
}

export const verdict = (misses: readonly string[]): string =>
  misses.length === 0 ? 'met' : misses.join('; ');
