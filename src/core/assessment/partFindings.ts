import { toDay, toFullDate } from '../calendar.js';
import { gaugeFor, isOutOfDate } from '../gauges.js';
import { ONE_SET_DAYS, type History } from '../history.js';
import { isDrumBrake, type Life } from '../lives.js';
import { roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import type { Axle, LiningPosition, Side } from '../vocabulary/terms.js';
import type { Finding } from '../vocabulary/wear.js';
import { capital } from '../words.js';
import { conditionFindings, putRightFindings } from './conditionFindings.js';
import { lengthInWords } from './lengths.js';
import { liningAtStart, liningInWords } from './limitFindings.js';
import { isCovered } from './padForecast.js';
import type { PadPosition } from './padPosition.js';
import type { RuleSet } from './ruleSets.js';

/** Parts that the latest visit left unmeasured, with its reason. */
function notMeasuredFindings({ visits }: History, axle: Axle, pads: readonly PadPosition[]): Finding[] {
  const visit = visits.at(-1);
  const isAllRead = (meant: readonly PadPosition[]): boolean =>
    meant.length > 0 && meant.every(({ latest }) => latest?.visit.id === visit?.id);
  return (visit?.notMeasured ?? [])
    .filter((entry) => entry.axle === axle && !(isLining(entry.part) && isAllRead(meantBy(entry, pads))))
    .map(({ side, pad, part, why }) => ({
      code: 'not-measured',
      axle,
      side: side ?? null,
      pad: pad ?? null,
      severity: 'note',
      message: `${leftOut({ side, pad, part })} not measured on ${visit!.date}: ${why}.${isLining(part) ? restingOn(meantBy({ side, pad }, pads)) : ''}`,
      check: 'Measure it at the next visit. The lining that is hardest to reach is often the thinnest.',
      numbers: {},
    }));
}

/** The linings that an entry covers; one without a side or a pad covers all of them. */
const meantBy = (
  { side, pad }: { side?: Side | null; pad?: LiningPosition | null },
  pads: readonly PadPosition[],
): PadPosition[] =>
  pads.filter((each) => (side ?? each.side) === each.side && (pad ?? each.pad) === each.pad);

const isLining = (part: string | null | undefined): boolean =>
  part == null || part === 'pad' || part === 'shoe';

/** A sentence on what the figures of unmeasured linings are based on. */
function restingOn(meant: readonly PadPosition[]): string {
  const read = meant.filter(({ present }) => present.observations.length > 0).length;
  if (meant.length === 0) return '';
  const isOne = meant.length === 1;
  const isFittedHere = meant.every(({ present }) => present.origin === 'replaced');
  if (read === 0 && isFittedHere)
    return isOne
      ? ' It has not been measured since it was fitted.'
      : ' They have not been measured since they were fitted.';
  if (read === 0) return ` No earlier reading of ${isOne ? 'it' : 'them'} is known either.`;
  return read < meant.length
    ? ' Earlier readings of only some of these linings are known.'
    : ` ${isOne ? 'Its' : 'Their'} figures are based on earlier readings${isOne ? ' and on the other linings of the axle' : ''}.`;
}

/** The unmeasured part as a subject: `Left inner pad was`, `The inner pads were`, `The linings were`. */
function leftOut({
  side,
  pad,
  part,
}: Pick<History['visits'][number]['notMeasured'][number], 'side' | 'pad' | 'part'>): string {
  const name = [side, pad, part ?? 'lining'].filter(Boolean).join(' ');
  const isOne = pad === 'thinnest' || (side != null && (pad != null || !isLining(part)));
  return isOne ? `${capital(name)} was` : `The ${name}s were`;
}

/** Linings or rotors of one axle replaced on one side only. */
export function oneSidedFinding(
  axle: Axle,
  part: 'pads' | 'shoes' | 'rotor' | 'drum',
  lives: Record<Side, Life<object> | undefined>,
): Finding[] {
  const begun = (side: Side) => {
    const life = lives[side];
    return life?.origin === 'replaced' ? (life.start?.day ?? null) : null;
  };
  const [left, right] = [begun('left'), begun('right')];
  if (left === right) return [];
  if (left !== null && right !== null && Math.abs(left - right) <= ONE_SET_DAYS) return [];
  const newer: Side = (left ?? -Infinity) > (right ?? -Infinity) ? 'left' : 'right';
  const other: Side = newer === 'left' ? 'right' : 'left';
  const date = toFullDate(Math.max(left ?? -Infinity, right ?? -Infinity));
  const older = begun(other);
  const name = part === 'pads' || part === 'shoes' ? part : `${part}s`;
  return [
    {
      code: `${part}-replaced-one-side`,
      axle,
      side: newer,
      pad: null,
      severity: 'check',
      message: `The ${newer} side has ${name} of ${date}; the ${other} side has ${older === null ? 'older ones' : `those of ${toFullDate(older)}`}. Replace in pairs, or the vehicle may pull.`,
      check: `If the ${other} side was replaced too, record it. If not, compare both sides, road-test for pull and record the state of the older ${name.slice(0, -1)}.`,
      numbers: {},
    },
  ];
}

/** A lining worn to its wear indicator although no noise was reported, or although that indicator makes none. */
function silenceFindings(axle: Axle, { side, pad, lining, latest, present }: PadPosition): Finding[] {
  const indicator = present.spec.wearIndicator;
  if (!latest || !indicator || latest.visit.roadTest?.noise === true) return [];
  const heightMm = roundMm(toMm(indicator));
  if (latest.mm > heightMm) return [];
  const at = { axle, side, pad, severity: 'note' } as const;
  const figures = `${liningAtStart({ side, pad, lining })} read ${lengthInWords(latest.mm, latest.unit)} on ${latest.visit.date}, at or under the wear indicator’s height of ${lengthInWords(heightMm, indicator.unit)}`;
  const numbers = { readingMm: latest.mm, heightMm };
  if ((indicator.type ?? 'mechanical') !== 'mechanical') {
    const kind = indicator.type === 'electric' ? 'lights a lamp' : 'is a mark to look for';
    return [
      {
        ...at,
        code: 'no-audible-indicator',
        message: `${figures}. This indicator ${kind} and makes no noise.`,
        check: 'Do not wait for a noise: go by the thickness.',
        numbers,
      },
    ];
  }
  return [
    {
      ...at,
      code: 'indicator-silent',
      message: `${figures}, and no noise was reported.`,
      check: `Go by the thickness. ${indicator.type ? 'Check' : 'If this indicator should squeal, check'} whether it is bent, broken off or on the other lining.`,
      numbers,
    },
  ];
}

/** Readings of the latest visit taken with a gauge out of calibration, one finding per gauge. */
function calibrationFindings({ visits, gauges }: History, axle: Axle): Finding[] {
  const visit = visits.at(-1);
  if (!visit) return [];
  const { date } = visit;
  const lapsed = visit.readings
    .filter((reading) => reading.axle === axle)
    .map(({ gauge, kind }) => gaugeFor(gauge, kind, gauges))
    .flatMap((gauge) => {
      const { calibrationDueDate: due } = gauge;
      return due && isOutOfDate(gauge, date) ? [{ gauge, due }] : [];
    });
  return [...new Map(lapsed.map((each) => [each.gauge, each])).values()].map(({ gauge, due }) => ({
    code: 'gauge-out-of-calibration',
    axle,
    side: null,
    pad: null,
    severity: 'check',
    message: `Readings of ${date} were taken with ${gauge.name}, whose calibration was due on ${due}.`,
    check:
      'Check the gauge against a known thickness or a gauge in calibration. Then repeat the readings that are close to a limit.',
    numbers: {
      daysOverdue: toDay(date) - toDay(due),
      readings: lapsed.filter((each) => each.gauge === gauge).length,
    },
  }));
}

const isNeverMeasured = ({ lives, present }: PadPosition): boolean =>
  lives.every(({ observations }) => observations.length === 0) &&
  (present.origin !== 'replaced' || present.startMm === null);

/** Linings that were never measured, nor fitted here at a known thickness. */
function neverMeasuredFinding(axle: Axle, pads: readonly PadPosition[]): Finding[] {
  const unknown = pads.filter((position) => isNeverMeasured(position) && !isCovered(position, pads));
  if (unknown.length === 0) return [];
  const all = unknown.length === pads.length;
  const names = unknown.map(liningInWords).join(', ');
  return [
    {
      code: all ? 'never-measured' : 'position-never-measured',
      axle,
      side: null,
      pad: null,
      severity: all ? 'check' : 'note',
      message: all
        ? 'No lining of this axle has ever been measured, so it is unknown how much is left.'
        : `Never measured on this axle: ${names}. ${unknown.length === 1 ? 'Its' : 'Their'} forecast is based on the other linings.`,
      check: 'Measure every lining of this axle at its thinnest point.',
      numbers: { positions: unknown.length },
    },
  ];
}

/** Findings from what visits record about an axle's parts apart from thicknesses: conditions, work and omissions. */
export function partFindings(
  history: History,
  axle: Axle,
  pads: readonly PadPosition[],
  ruleSets: readonly RuleSet[],
): Finding[] {
  const lifeOn = (side: Side) => pads.find((position) => position.side === side)?.present;
  return [
    ...conditionFindings(history, axle, ruleSets),
    ...putRightFindings(history, axle),
    ...oneSidedFinding(axle, isDrumBrake(history, axle) ? 'shoes' : 'pads', {
      left: lifeOn('left'),
      right: lifeOn('right'),
    }),
    ...neverMeasuredFinding(axle, pads),
    ...pads.flatMap((position) => silenceFindings(axle, position)),
    ...calibrationFindings(history, axle),
    ...notMeasuredFindings(history, axle, pads),
  ];
}
