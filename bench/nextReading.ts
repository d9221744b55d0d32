import { recordOf } from '../src/core/assessment/record.js';
import type { Experience, Group } from '../src/core/forecast/experience.js';
import { link } from '../src/core/forecast/link.js';
import { usagePosterior } from '../src/core/forecast/usage.js';
import { wearPosterior } from '../src/core/forecast/wear.js';
import { gaugeFor } from '../src/core/gauges.js';
import type { History, HistoryVisit } from '../src/core/history.js';
import { layRoad } from '../src/core/odometer.js';
import { PADS, SIDES } from '../src/core/vocabulary/terms.js';
import { readingCdf } from './predictive.js';

/** A pad's next reading within its forecast, given the odometer at which it was taken. */
export interface ReadingForecast {
  /** Chance of a reading below it, and of one not above it: a gauge has steps. */
  low: number;
  high: number;
  /** Continuous ranked probability score, mm. */
  crps: number;
}

const POSITIONS = SIDES.flatMap((side) => PADS.map((pad) => ({ side, pad })));
/** Readings that a forecast may reach from and to, mm. */
const LEAST_MM = -3;
const MOST_MM = 15;

/** How the readings of the next visit lie in what was forecast of them before. */
export function nextReadings(
  known: History,
  next: HistoryVisit,
  experience: Experience,
  group: Group,
): ReadingForecast[] {
  const road = layRoad(known);
  const now = road.places.at(-1)!.km / 1000;
  const ahead = (next.odometer!.km - known.visits.at(-1)!.odometer!.km) / 1000;
  const { axles, stretches } = recordOf(known, () => group);
  const wear = wearPosterior(axles[0]!.pads, experience.pads, now);
  const { posterior } = link(wear, usagePosterior(stretches, experience.usage), experience);
  return next.readings.flatMap((reading): ReadingForecast[] => {
    if (reading.kind !== 'pad-thickness') return [];
    const { side, pad, mm, gauge } = reading;
    const part = POSITIONS.findIndex((position) => position.side === side && position.pad === pad);
    const { resolutionMm, standardUncertaintyMm } = gaugeFor(gauge, 'pad-thickness');
    // Rounding is taken apart from the rest of the gauge's uncertainty: the forecast is of one of its steps.
    const gaugeVariance = Math.max(0, standardUncertaintyMm ** 2 - resolutionMm ** 2 / 12);
    const chanceUpTo = readingCdf(posterior, experience.pads, { part, ahead, gaugeVariance });
    return [
      {
        low: chanceUpTo(mm - resolutionMm / 2),
        high: chanceUpTo(mm + resolutionMm / 2),
        crps: crpsOfSteps(chanceUpTo, mm, resolutionMm),
      },
    ];
  });
}

/** The score of a forecast of steps: the squared distance from certainty, summed over the steps. */
function crpsOfSteps(chanceUpTo: (mm: number) => number, read: number, step: number): number {
  let sum = 0;
  for (let index = Math.round(LEAST_MM / step); index <= MOST_MM / step; index++) {
    const isRead = index >= Math.round(read / step);
    sum += (chanceUpTo((index + 0.5) * step) - Number(isRead)) ** 2;
  }
  return sum * step;
}
