import type { History, HistoryVisit } from '../history.js';
import { isDrumBrake } from '../lives.js';
import {
  RULE_PARTS,
  SIDES,
  type Axle,
  type RulePart,
  type Side,
  type WorkKind,
} from '../vocabulary/terms.js';
import type { WorkItem } from '../vocabulary/visit.js';
import type { Finding } from '../vocabulary/wear.js';
import { capital, termInWords, workInWords } from '../words.js';
import type { RuleSet } from './ruleSets.js';
import { axleFacts, defectsOf, type AxleFacts } from './whichRules.js';

/** Findings on the recorded condition of an axle's parts. */

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
 * The work that clears earlier findings on a part. A rotor may contain the drum of the parking brake, which is then
 * replaced with it.
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

interface OpenCondition {
  condition: Condition;
  side: Side;
  date: string;
}

const isOn = (item: { side?: Side | null }, side: Side): boolean => item.side == null || item.side === side;

/** Conditions of an axle's parts that neither `ok` nor later work has cleared, oldest first. */
function openConditions({ visits }: History, axle: Axle): OpenCondition[] {
  let open: OpenCondition[] = [];
  for (const visit of visits) {
    for (const condition of visit.conditions.filter((each) => each.axle === axle)) {
      for (const side of SIDES.filter((each) => isOn(condition, each))) {
        open = open.filter((each) => !isSuperseded(each, condition, side));
        if (condition.state !== 'ok') open.push({ condition, side, date: visit.date });
      }
    }
    const work = visit.work.filter((item) => item.axle === axle);
    open = open.filter(
      ({ condition, side }) => !work.some((item) => clears(item, condition) && isOn(item, side)),
    );
  }
  return open;
}

/** Whether a later entry supersedes this one: `ok` clears the whole part, any other state only the same state. */
function isSuperseded({ condition, side }: OpenCondition, later: Condition, laterSide: Side): boolean {
  const samePart =
    condition.part === later.part &&
    side === laterSide &&
    (later.pad == null || condition.pad == null || condition.pad === later.pad);
  return samePart && (later.state === 'ok' || later.state === condition.state);
}

/** A cracked rotor or drum has a finding of its own. */
const hasOwnFinding = ({ part, state }: Condition, history: History, axle: Axle): boolean =>
  part === (isDrumBrake(history, axle) ? 'drum' : 'rotor') && state === 'cracked';

export function conditionFindings(history: History, axle: Axle, ruleSets: readonly RuleSet[]): Finding[] {
  const facts = axleFacts(history.vehicle, axle);
  return openConditions(history, axle)
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
        message: `${capital([side, pad, part].filter(Boolean).join(' '))} was found ${termInWords(state)} on ${date}${notes ? ` (${notes})` : ''}, and no repair is recorded since.${defectInWords(ruleSets, facts, condition)}`,
        check,
        numbers: {},
      };
    });
}

/**
 * Conditions that the latest visit both found and put right. The record does not say whether it means the old part or
 * the new one, so a note says that the server takes it to mean the old one.
 */
export function putRightFindings(history: History, axle: Axle): Finding[] {
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
          message: `${capital(name)} was found ${termInWords(state)} on ${visit.date}, and the same visit records the work that puts this right: ${workInWords(work.kind)}.`,
          check: `If the ${part} is still ${termInWords(state)}, record that at a visit of its own.`,
          numbers: {},
        },
      ];
    });
}

/** One sentence for the rules that make the condition a defect; empty if none. */
function defectInWords(ruleSets: readonly RuleSet[], facts: AxleFacts, { part, state }: Condition): string {
  const isRulePart = (name: string): name is RulePart => RULE_PARTS.some((each) => each === name);
  if (!isRulePart(part) || (state !== 'cracked' && state !== 'loose' && state !== 'contaminated')) return '';
  const defects = defectsOf(ruleSets, facts, part, state);
  return defects.length > 0 ? ` This is ${defects.join('; ')}.` : '';
}
