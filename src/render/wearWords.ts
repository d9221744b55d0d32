import type { AxlePicture, Panel } from '../core/assessment/pictureShape.js';
import { toFullDate } from '../core/calendar.js';
import { itemAt } from '../core/items.js';
import { inWords } from '../core/rounding.js';
import {
  capital,
  dateInWords,
  forecastInWords,
  mmInWords,
  onAxle,
  positionInWords,
  sourceInWords,
} from '../core/words.js';
import { eventWords } from './chart/outcome.js';

/** The charts of an axle in words, for screen readers. */

const MEASURES: Record<Panel['part'], string> = {
  pads: 'friction material in mm',
  shoes: 'friction material in mm',
  rotors: 'thickness in mm at the thinnest point',
  drums: 'largest diameter in mm',
};

function readingsInWords({ positions }: Panel): string[] {
  return positions.map((position) => {
    const name = capital(positionInWords(position));
    const count = itemAt(position.lives, -1).readings.length;
    if (!position.latest) return `${name}: not measured since it was fitted.`;
    const { mm, reachMm, day } = position.latest;
    const readings = count === 1 ? 'one reading' : `${count} readings, the latest`;
    return `${name}: ${readings} ${mmInWords(mm)} give or take ${inWords(reachMm)} mm on ${dateInWords(toFullDate(day))}.`;
  });
}

const LIMITS = {
  limit: 'limit',
  discard: 'discard at',
  maximum: 'maximum',
  'machine-to': 'machine to',
} as const;

function limitsInWords({ limits }: Panel): string[] {
  return limits.map(({ kind, mm, source, positions }) => {
    const from = source === null ? '' : `, ${sourceInWords(source)}`;
    const whose = positions.length > 0 ? ` (${positions.join(', ')})` : '';
    return `${capital(LIMITS[kind])} ${mmInWords(mm)}${from}${whose}.`;
  });
}

function forecastOf({ fan, positions }: Panel): string[] {
  if (!fan) return [];
  const { early, median, late } = fan.rays;
  const name = positionInWords(itemAt(positions, fan.position));
  if (early.day === null) return [`${capital(name)} is not expected at its limit within 30 years.`];
  const between = { early: toFullDate(early.day), late: late.day === null ? null : toFullDate(late.day) };
  const say = (day: number | null): string =>
    day === null ? 'beyond 30 years' : forecastInWords(toFullDate(day), between);
  return [
    `Forecast: ${name} reaches ${mmInWords(fan.limitMm)} most likely about ${say(median.day)}, 8 times in 10 between ${say(early.day)} and ${say(late.day)}.`,
  ];
}

/** Everything that one chart shows. */
export function panelInWords({ axle }: Pick<AxlePicture, 'axle'>, panel: Panel): string {
  return [
    `${capital(onAxle(panel.part, axle))}, ${MEASURES[panel.part]}.`,
    ...readingsInWords(panel),
    ...limitsInWords(panel),
    ...panel.events.map((event) => `${eventWords(event)} on ${dateInWords(toFullDate(event.day))}.`),
    ...forecastOf(panel),
    ...panel.missing.map((words) => `${capital(words)}.`),
  ].join(' ');
}

/** Both charts of an axle, and their disclaimer. */
export const pictureInWords = (picture: AxlePicture): string =>
  [...picture.panels.map((panel) => panelInWords(picture, panel)), DISCLAIMER].join(' ');

export const DISCLAIMER =
  'A forecast supports a decision and does not make it, and no chart says that a vehicle is fit to drive. Look at the brakes.';
