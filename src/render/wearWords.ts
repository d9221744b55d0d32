import {
  positionName,
  type AxlePicture,
  type LimitLine,
  type Panel,
  type Position,
} from '../core/assessment/picture.js';
import { toFullDate } from '../core/calendar.js';
import { inWords } from '../core/rounding.js';
import type { Range } from '../core/vocabulary/quantities.js';
import type { AxleWear, Limit } from '../core/vocabulary/wear.js';
import { capital } from './names.js';

/** The picture of an axle in words: its captions, and what a screen reader is told. */

const SOURCES: Record<Limit['source'], string> = {
  maker: 'maker’s figure',
  law: 'rule set',
  shop: 'the shop’s own',
  'wear-indicator': 'wear indicator',
};

export const sourceInWords = (source: Limit['source']): string => SOURCES[source];

export const mmInWords = (mm: number): string => `${inWords(mm, 3)} mm`;
const eightOfTen = ({ low, high }: Range): string => `8 of 10: ${inWords(low)} to ${inWords(high)}`;

export const axleInWords = (axle: string): string => capital(axle.replace('-', ' '));

export const MEASURES: Record<Panel['part'], string> = {
  pads: 'friction material, mm',
  shoes: 'friction material, mm',
  rotors: 'thickness at the thinnest point, mm',
  drums: 'diameter at the largest, mm',
};

/** A limit as its line is labelled. */
export function limitInWords({ kind, mm, source, positions }: LimitLine): string {
  const whose = positions.length > 0 ? ` (${positions.join(', ')})` : '';
  const from = source === null ? '' : `, ${sourceInWords(source)}`;
  const what = { limit: 'limit', discard: 'discard at', maximum: 'maximum', 'machine-to': 'machine to' }[
    kind
  ];
  return `${what} ${mmInWords(mm)}${from}${whose}`;
}

export function eventInWords({ kind, side }: Panel['events'][number]): string {
  return `${side === null ? '' : `${side} `}${kind.replaceAll('-', ' ')}`;
}

const dateOrBeyond = (date: string | null): string => date ?? 'more than 30 years ahead';

/** What the answer says of the linings, as it stands over their picture. */
export function liningCaption({ pads, replacement }: AxleWear): string[] {
  const { governingPad, limitMm, date, overdue } = replacement;
  const governing = pads.find(({ side, pad }) => side === governingPad?.side && pad === governingPad.pad);
  const lines: string[] = [];
  if (overdue) lines.push('Overdue: look at the brakes now.');
  if (limitMm !== null && date?.early) {
    const { early, median, late } = date;
    lines.push(
      `The first to reach its limit of ${mmInWords(limitMm)}, most likely ${positionName({ side: governingPad!.side, pad: governingPad!.pad })}: early ${early}, median ${dateOrBeyond(median)}, late ${dateOrBeyond(late)}.`,
    );
  }
  if (governing?.remainingMm) {
    const { remainingMm, ratePer1000KmMm: rate } = governing;
    const wear = rate ? `, wearing ${inWords(rate.median, 3)} mm per 1000 km` : '';
    const name = capital(positionName(governing));
    lines.push(
      `${name}: ${inWords(remainingMm.median)} mm above the limit (${eightOfTen(remainingMm)})${wear}.`,
    );
  }
  return lines;
}

/** What the answer says of rotors or drums, as it stands over their picture. */
export function counterpartCaption({ rotors, drums, replacement }: AxleWear): string[] {
  const parts = [
    ...rotors.map((rotor) => ({ ...rotor, atEnd: rotor.marginAtPadReplacementMm, linings: 'pads' })),
    ...drums.map((drum) => ({ ...drum, atEnd: drum.marginAtShoeReplacementMm, linings: 'shoes' })),
  ];
  return parts.map(({ side, marginMm, atEnd, linings, decision, decisionReasons }) => {
    const due = replacement.date?.median;
    const margin = marginMm === null ? 'margin not known' : `margin ${mmInWords(marginMm)}`;
    const when = due ? ` (median ${due})` : '';
    const then = atEnd
      ? `; when the ${linings} are used up${when} ${inWords(atEnd.median)} mm (${eightOfTen(atEnd)})`
      : '';
    const why = decisionReasons.map(({ detail }) => detail).join('; ');
    return `${capital(side)}: ${decision} (${why}); ${margin}${then}.`;
  });
}

function readingsInWords(panel: Panel): string[] {
  return panel.positions.map((position) => {
    const { readings, latest } = position;
    const name = capital(positionName(position));
    if (!latest) return `${name}: no readings of the part now fitted, ${readings.length} before.`;
    const count = readings.length === 1 ? '1 reading' : `${readings.length} readings`;
    return `${name}: ${count}, the latest ${mmInWords(latest.mm)} give or take ${inWords(latest.reachMm)} mm on ${toFullDate(latest.day)}.`;
  });
}

/** Everything the picture shows, as it is read out. */
export function pictureInWords({ axle, wear, panels }: AxlePicture): string {
  const sentences = panels.flatMap((panel) => [
    `${axleInWords(axle)} ${panel.part}, ${MEASURES[panel.part]}.`,
    ...readingsInWords(panel),
    ...panel.limits.map((limit) => `${capital(limitInWords(limit))}.`),
    ...panel.events.map((event) => `${capital(eventInWords(event))} on ${toFullDate(event.day)}.`),
    ...(panel.part === 'pads' || panel.part === 'shoes' ? liningCaption(wear) : counterpartCaption(wear)),
    ...panel.missing.map((words) => `${capital(words)}.`),
  ]);
  return [...sentences, DISCLAIMER].join(' ');
}

export const DISCLAIMER =
  'A forecast supports a decision and does not make it; no picture says that a vehicle is fit to drive. Look at the brakes.';

const CODES: Record<NonNullable<Position['pad']>, string> = {
  inner: 'I',
  outer: 'O',
  leading: 'L',
  trailing: 'T',
  thinnest: 'Th',
};

/** The letters that stand at the end of a position's line: LI for left inner. */
export const positionCode = ({ side, pad }: Position): string =>
  `${side === 'left' ? 'L' : 'R'}${pad === null ? '' : CODES[pad]}`;
