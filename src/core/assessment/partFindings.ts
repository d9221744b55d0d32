import { toDay, toFullDate } from '../calendar.js';
import { gaugeFor, isOutOfDate } from '../gauges.js';
import { ONE_SET_DAYS, type History, type HistoryVisit } from '../history.js';
import { isDrumBrake, type Life } from '../lives.js';
import { roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import {
  RULE_PARTS,
  SIDES,
  type Axle,
  type LiningPosition,
  type RulePart,
  type Side,
  type WorkKind,
} from '../vocabulary/terms.js';
import type { WorkItem } from '../vocabulary/visit.js';
import type { Finding } from '../vocabulary/wear.js';
import { capital, termInWords, workInWords } from '../words.js';
import type { PadPosition } from './padPosition.js';
import { lengthInWords } from './lengths.js';
import { liningAtStart, liningInWords } from './limitFindings.js';
import type { RuleSet } from './ruleSets.js';
import { axleFacts, defectsOf, type AxleFacts } from './whichRules.js';

type Condition = HistoryVisit['conditions'][number];
type State = Exclude<Condition['state'], 'ok'>;

/** Severity of each state, and what to check. */
const STATES: Readonly<Record<State, { severity: Finding['severity']; check: string }>> = {
  cracked: { severity: 'stop', check: 'Replace it, and whatever the maker says to replace with it.' },
  leaking: {
    severity: 'stop',
    check:
      'Find and repair the leak, then bleed the system. If fluid reached the linings, replace them on both sides.',
  },
  loose: {
    severity: 'stop',
    check:
      'Find what is worn or missing: hardware, pins or fasteners. Fit it as the maker specifies and torque it.',
  },
  contaminated: {
    severity: 'stop',
    check: 'Find the source first. Replace soaked linings on both sides; do not clean them.',
  },
  seized: {
    severity: 'stop',
    check: 'Free or replace it. Then look for damage to the linings, rotors or drums of both sides.',
  },
  scored: {
    severity: 'check',
    check: 'Measure the thickness in the grooves. Look for grit or metal in the lining.',
  },
  'heat-spotted': {
    severity: 'check',
    check: 'Look for a dragging brake. Measure thickness variation and run-out.',
  },
  corroded: {
    severity: 'check',
    check: 'Clean it and check it again. It must move and seat freely, and its worn band must be clean.',
  },
  glazed: {
    severity: 'check',
    check: 'Look for overheating or light use. Ask whether the linings were bedded in.',
  },
};

/**
 * The work that clears earlier findings on a part. A disc brake may have a drum inside it for the parking brake, which
 * goes with the rotor.
 */
const RENEWED_BY: Record<Condition['part'], readonly WorkKind[]> = {
  pad: ['pads-replaced', 'shoes-replaced'],
  shoe: ['shoes-replaced', 'pads-replaced'],
  rotor: ['rotor-replaced', 'rotor-machined', 'drum-replaced', 'drum-machined'],
  drum: ['drum-replaced', 'drum-machined', 'rotor-replaced', 'rotor-machined'],
  caliper: ['caliper-replaced'],
  slide: ['slides-serviced', 'caliper-replaced'],
  hose: ['hose-replaced'],
};

/** Whether work clears a condition. Machining does not remove a crack. */
const clears = ({ kind }: Pick<WorkItem, 'kind'>, { part, state }: Condition): boolean =>
  RENEWED_BY[part].includes(kind) && !(state === 'cracked' && kind.endsWith('-machined'));

interface Standing {
  condition: Condition;
  side: Side;
  date: string;
}

const isOn = (item: { side?: Side | null }, side: Side): boolean => item.side == null || item.side === side;

/** Conditions of an axle's parts that neither `ok` nor later work has cleared, oldest first. */
function standingConditions({ visits }: History, axle: Axle): Standing[] {
  let standing: Standing[] = [];
  for (const visit of visits) {
    for (const condition of visit.conditions.filter((each) => each.axle === axle)) {
      for (const side of SIDES.filter((each) => isOn(condition, each))) {
        standing = standing.filter((each) => !isSame(each, condition, side));
        if (condition.state !== 'ok') standing.push({ condition, side, date: visit.date });
      }
    }
    const work = visit.work.filter((item) => item.axle === axle);
    standing = standing.filter(
      ({ condition, side }) => !work.some((item) => clears(item, condition) && isOn(item, side)),
    );
  }
  return standing;
}

/** Whether a later entry supersedes this one: `ok` covers the whole part, any other state only itself. */
function isSame({ condition, side }: Standing, later: Condition, laterSide: Side): boolean {
  const samePart =
    condition.part === later.part &&
    side === laterSide &&
    (later.pad == null || condition.pad == null || condition.pad === later.pad);
  return samePart && (later.state === 'ok' || later.state === condition.state);
}

/** A crack in what the linings run on has a finding of its own. */
const hasOwnFinding = ({ part, state }: Condition, history: History, axle: Axle): boolean =>
  part === (isDrumBrake(history, axle) ? 'drum' : 'rotor') && state === 'cracked';

function conditionFindings(history: History, axle: Axle, ruleSets: readonly RuleSet[]): Finding[] {
  const facts = axleFacts(history.vehicle, axle);
  return standingConditions(history, axle)
    .filter(({ condition }) => !hasOwnFinding(condition, history, axle))
    .map(({ condition, side, date }) => {
      const { part, pad, state, notes } = condition;
      const { severity, check } = STATES[state as State];
      return {
        code: `${part}-${state}`,
        axle,
        side,
        pad: pad ?? null,
        severity,
        message: `${capital([side, pad, part].filter(Boolean).join(' '))} was found ${termInWords(state)} on ${date}${notes ? ` (${notes})` : ''} and has not been put right since.${legally(ruleSets, facts, condition)}`,
        check,
        numbers: {},
      };
    });
}

/**
 * What the latest visit both found and put right: nobody said whether the state is that of the old part or of the new
 * one, so that the answer says how it was read.
 */
function putRightFindings(history: History, axle: Axle): Finding[] {
  const visit = history.visits.at(-1);
  if (!visit) return [];
  return visit.conditions
    .filter((condition) => condition.axle === axle && condition.state !== 'ok')
    .filter((condition) => STATES[condition.state as State].severity === 'stop')
    .filter((condition) => !hasOwnFinding(condition, history, axle))
    .flatMap((condition): Finding[] => {
      const { part, side, pad, state } = condition;
      const work = visit.work.find(
        (item) =>
          item.axle === axle &&
          clears(item, condition) &&
          (side == null ? item.side == null : isOn(item, side)),
      );
      if (!work) return [];
      const name = [side, pad, part].filter(Boolean).join(' ');
      return [
        {
          code: `${part}-${state}-put-right`,
          axle,
          side: side ?? null,
          pad: pad ?? null,
          severity: 'note',
          message: `${capital(name)} was found ${termInWords(state)} on ${visit.date}, and the same visit records ${workInWords(work.kind)}. The fault is taken to be put right.`,
          check: `If the ${part} is still ${termInWords(state)}, record that at a visit of its own.`,
          numbers: {},
        },
      ];
    });
}

/** One sentence for the rules that make the condition a defect; empty if none. */
function legally(ruleSets: readonly RuleSet[], facts: AxleFacts, { part, state }: Condition): string {
  const isRulePart = (name: string): name is RulePart => RULE_PARTS.some((each) => each === name);
  if (!isRulePart(part) || (state !== 'cracked' && state !== 'loose' && state !== 'contaminated')) return '';
  const defects = defectsOf(ruleSets, facts, part, state);
  return defects.length > 0 ? ` This is ${defects.join('; ')}.` : '';
}

/** What the latest visit deliberately left unmeasured. */
function notMeasuredFindings({ visits }: History, axle: Axle, pads: readonly PadPosition[]): Finding[] {
  const visit = visits.at(-1);
  const isRead = ({ latest }: PadPosition): boolean => latest?.visit.id === visit?.id;
  return (visit?.notMeasured ?? [])
    .filter((entry) => entry.axle === axle && !(isLining(entry.part) && meantBy(entry, pads).every(isRead)))
    .map(({ side, pad, part, why }) => ({
      code: 'not-measured',
      axle,
      side: side ?? null,
      pad: pad ?? null,
      severity: 'note',
      message: `${capital([side, pad, part ?? 'lining'].filter(Boolean).join(' '))} was not measured on ${visit!.date}: ${why}.${isLining(part) ? restingOn(meantBy({ side, pad }, pads)) : ''}`,
      check: 'Measure it at the next visit. The lining that is hardest to reach is often the thinnest.',
      numbers: {},
    }));
}

/** The linings that an entry without a side or a pad leaves open. */
const meantBy = (
  { side, pad }: { side?: Side | null; pad?: LiningPosition | null },
  pads: readonly PadPosition[],
): PadPosition[] =>
  pads.filter((each) => (side ?? each.side) === each.side && (pad ?? each.pad) === each.pad);

const isLining = (part: string | null | undefined): boolean =>
  part == null || part === 'pad' || part === 'shoe';

/** The basis of the figures for linings that were left unmeasured. */
function restingOn(meant: readonly PadPosition[]): string {
  const read = meant.filter(({ present }) => present.observations.length > 0).length;
  const isFittedHere = meant.every(({ present }) => present.origin === 'replaced');
  if (read === 0)
    return isFittedHere
      ? ' It has not been measured since it was fitted.'
      : ' No earlier reading of it is known either.';
  return read < meant.length
    ? ' Earlier readings of only some of these linings are known.'
    : ' Its figures rest on earlier readings and on the other linings of the axle.';
}

/** Linings or rotors of one axle replaced on one side only. */
export function oneSidedFinding(
  axle: Axle,
  part: 'pads' | 'shoes' | 'rotor' | 'drum',
  lives: Record<Side, Life<object> | undefined>,
): Finding[] {
  const begun = (side: Side) => {
    const life = lives[side];
    return life?.origin === 'replaced' ? life.start!.day : null;
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

/** A lining at the height of its indicator although nobody heard it, or it makes no noise. */
function silenceFindings(axle: Axle, { side, pad, latest, present }: PadPosition): Finding[] {
  const indicator = present.spec.wearIndicator;
  if (!latest || !indicator || latest.visit.roadTest?.noise === true) return [];
  const heightMm = roundMm(toMm(indicator));
  if (latest.mm > heightMm) return [];
  const at = { axle, side, pad, severity: 'note' } as const;
  const figures = `${liningAtStart({ side, pad })} read ${lengthInWords(latest.mm, latest.unit)} on ${latest.visit.date}, at or under the wear indicator’s height of ${lengthInWords(heightMm, indicator.unit)}`;
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
      check: `Go by the thickness. ${indicator.type ? 'Check' : 'If this indicator is one that squeals, check'} whether it is bent, broken off or on the other lining.`,
      numbers,
    },
  ];
}

/** Readings of the latest visit taken with a gauge out of calibration, one finding per gauge. */
function calibrationFindings({ visits, gauges }: History, axle: Axle): Finding[] {
  const visit = visits.at(-1);
  const lapsed = (visit?.readings ?? [])
    .filter((reading) => reading.axle === axle)
    .map(({ gauge, kind }) => gaugeFor(gauge, kind, gauges))
    .filter((gauge) => isOutOfDate(gauge, visit!.date));
  return [...new Set(lapsed)].map((gauge) => ({
    code: 'gauge-out-of-calibration',
    axle,
    side: null,
    pad: null,
    severity: 'check',
    message: `Readings of ${visit!.date} were taken with ${gauge.name}, whose calibration was due on ${gauge.calibrationDueDate}.`,
    check:
      'Check the gauge against a known thickness or a gauge in calibration. Then repeat the readings that decide.',
    numbers: {
      daysOverdue: toDay(visit!.date) - toDay(gauge.calibrationDueDate!),
      readings: lapsed.filter((each) => each === gauge).length,
    },
  }));
}

/** An axle whose linings were never measured and not fitted here at a known thickness. */
function neverMeasuredFinding(axle: Axle, pads: readonly PadPosition[]): Finding[] {
  const unknown = pads.filter(
    ({ lives, present }) =>
      lives.every(({ observations }) => observations.length === 0) &&
      (present.origin !== 'replaced' || present.startMm === null),
  );
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
        : `Never measured on this axle: ${names}. ${unknown.length === 1 ? 'Its' : 'Their'} forecast rests on the other linings.`,
      check: 'Measure every lining of this axle at its thinnest point.',
      numbers: { positions: unknown.length },
    },
  ];
}

/** Findings from what was seen, left out or done on an axle's parts, apart from thicknesses. */
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
