import { itemAt } from '../items.js';
/**
 * Rules of thumb that a workshop could compute by hand, as a baseline for the service's forecasts. Both draw a straight
 * line for each pad from its thickness when fitted; the earliest pad counts.
 */

/** A thickness, with its day and its position on the vehicle's road. */
export interface Look {
  day: number;
  km: number;
  mm: number;
}

/** A pad for the straight-line rules: its start, and its readings since, in order. */
export interface LinePad {
  fitted: Look;
  looks: readonly Look[];
  limitMm: number;
}

/** The day and position of an odometer reading. */
export type Mark = Pick<Look, 'day' | 'km'>;

/**
 * Days from the latest mark until the earliest pad reaches its limit; infinite if no pad wears or the vehicle does not
 * move, null if there are too few points for a line.
 */
export type Rule = (pads: readonly LinePad[], marks: readonly Mark[]) => number | null;

/** The rate from fitting to the latest reading, at the daily distance between the last two visits. */
export const twoPointRule: Rule = (pads, marks) => {
  const now = marks.at(-1);
  const before = now && marks.findLast(({ day }) => day < now.day);
  if (!now || !before) return null;
  const pace = (now.km - before.km) / (now.day - before.day);
  return earliest(pads, now, pace, ({ fitted, looks }) => {
    const latest = itemAt(looks, -1);
    return (fitted.mm - latest.mm) / (latest.km - fitted.km);
  });
};

/** The least-squares line of each pad through its thickness when fitted, at the mean daily distance since then. */
export const lineRule: Rule = (pads, marks) => {
  const now = marks.at(-1);
  const since = Math.min(...pads.map(({ fitted }) => fitted.day));
  const from = pads.find(({ fitted }) => fitted.day === since)?.fitted;
  if (!now || !from || now.day <= from.day) return null;
  return earliest(pads, now, (now.km - from.km) / (now.day - from.day), leastSquaresRate);
};

/** Loss in mm a km by least squares through the fitted value. */
export function leastSquaresRate({ fitted, looks }: Pick<LinePad, 'fitted' | 'looks'>): number {
  let products = 0;
  let squares = 0;
  for (const { km, mm } of looks) {
    products += (km - fitted.km) * (fitted.mm - mm);
    squares += (km - fitted.km) ** 2;
  }
  return products / squares;
}

function earliest(
  pads: readonly LinePad[],
  now: Mark,
  pace: number,
  rateOf: (pad: LinePad) => number,
): number | null {
  const seen = pads.filter(({ fitted, looks }) => looks.length > 0 && itemAt(looks, -1).km > fitted.km);
  if (seen.length === 0) return null;
  const ends = seen.map((pad) => {
    const rate = rateOf(pad);
    return rate > 0 ? pad.fitted.km + (pad.fitted.mm - pad.limitMm) / rate : Infinity;
  });
  const left = Math.min(...ends) - now.km;
  if (left <= 0) return 0;
  return pace > 0 ? left / pace : Infinity;
}
