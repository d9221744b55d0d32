/**
 * What a workshop would work out by hand, for the service's forecasts to be held against. Both rules draw a straight
 * line for each pad from its thickness when fitted; the earliest pad counts.
 */

/** A thickness seen on a day at a place on the vehicle's road. */
export interface Look {
  day: number;
  km: number;
  mm: number;
}

/** A pad as a straight line sees it: where it began, and its readings since, in order. */
export interface LinePad {
  fitted: Look;
  looks: readonly Look[];
  limitMm: number;
}

/** A day and a place at which the odometer was read. */
export type Mark = Pick<Look, 'day' | 'km'>;

/**
 * Days from the latest mark until the earliest pad reaches its limit; infinite where none is seen to wear or the
 * vehicle to move, null where there is nothing to draw a line through.
 */
export type Rule = (pads: readonly LinePad[], marks: readonly Mark[]) => number | null;

/** The rate from new to the latest reading, at the last two visits' km a day. */
export const twoPointRule: Rule = (pads, marks) => {
  const now = marks.at(-1);
  const before = now && marks.findLast(({ day }) => day < now.day);
  if (!now || !before) return null;
  const pace = (now.km - before.km) / (now.day - before.day);
  return earliest(pads, now, pace, ({ fitted, looks }) => {
    const latest = looks.at(-1)!;
    return (fitted.mm - latest.mm) / (latest.km - fitted.km);
  });
};

/** The least-squares line of each pad through its thickness when fitted, at the mean km a day since. */
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
  const seen = pads.filter(({ fitted, looks }) => looks.length > 0 && looks.at(-1)!.km > fitted.km);
  if (seen.length === 0) return null;
  const ends = seen.map((pad) => {
    const rate = rateOf(pad);
    return rate > 0 ? pad.fitted.km + (pad.fitted.mm - pad.limitMm) / rate : Infinity;
  });
  const left = Math.min(...ends) - now.km;
  if (left <= 0) return 0;
  return pace > 0 ? left / pace : Infinity;
}
