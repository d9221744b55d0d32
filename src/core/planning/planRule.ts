import { least } from 'd3-array';
import { required } from '../items.js';
import { round } from '../rounding.js';
import type { LiningLeft, PlanRule, PlanVisit } from '../vocabulary/planning.js';

/** What decides which visit to choose. */
export interface PlanPreference {
  /** In any unit of cost, since only the ratio matters. */
  costs: { tooLate: number; perMmWasted: number } | null;
  /** Without costs: the maximum acceptable chance of coming too late. */
  greatestChance: number;
}

export type Rule = Omit<PlanRule, 'words'>;

export function ruleOf({ costs, greatestChance }: PlanPreference): Rule {
  return costs
    ? {
        kind: 'least-expected-cost',
        greatestChance: null,
        costTooLate: costs.tooLate,
        costPerMmWasted: costs.perMmWasted,
      }
    : { kind: 'greatest-chance', greatestChance, costTooLate: null, costPerMmWasted: null };
}

/** The expected cost of doing the job at a visit; null without costs. */
export function costOf(
  { costTooLate, costPerMmWasted }: Pick<Rule, 'costTooLate' | 'costPerMmWasted'>,
  chanceTooLate: number,
  { expected }: Pick<LiningLeft, 'expected'>,
): number | null {
  if (costTooLate === null || costPerMmWasted === null) return null;
  return round(costTooLate * chanceTooLate + costPerMmWasted * expected, 4);
}

/** The visit that the rule selects; the earliest of equally good ones. */
export function pick<Visit extends Pick<PlanVisit, 'chanceTooLate' | 'expectedCost'>>(
  visits: readonly Visit[],
  { kind, greatestChance }: Pick<Rule, 'kind' | 'greatestChance'>,
): Visit | null {
  if (kind === 'greatest-chance') {
    const max = required(greatestChance, 'greatest chance in the rule');
    return visits.findLast(({ chanceTooLate }) => chanceTooLate <= max) ?? null;
  }
  return least(visits, ({ expectedCost }) => expectedCost ?? Infinity) ?? null;
}

/** Whether the limit will more likely than not be reached before a visit. */
export const isLikelyTooLate = ({ chanceTooLate }: Pick<PlanVisit, 'chanceTooLate'>): boolean =>
  chanceTooLate >= 0.5;
