import { round } from '../rounding.js';
import type { LiningLeft, PlanRule, PlanVisit } from '../vocabulary/planning.js';

/** What the choice of a visit follows from. */
export interface PlanPreference {
  /** In any unit of money or trouble, since only their ratio decides. */
  costs: { tooLate: number; perMmWasted: number } | null;
  /** The greatest chance of coming too late that is still taken, where there are no costs. */
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

/** The expected cost of doing the job at a visit; null where no costs are given. */
export function costOf(
  { costTooLate, costPerMmWasted }: Pick<Rule, 'costTooLate' | 'costPerMmWasted'>,
  chanceTooLate: number,
  { expected }: Pick<LiningLeft, 'expected'>,
): number | null {
  if (costTooLate === null || costPerMmWasted === null) return null;
  return round(costTooLate * chanceTooLate + costPerMmWasted * expected, 4);
}

/** The visit that the rule picks; of equally good ones the earliest. */
export function pick<Visit extends Pick<PlanVisit, 'chanceTooLate' | 'expectedCost'>>(
  visits: readonly Visit[],
  { kind, greatestChance }: Pick<Rule, 'kind' | 'greatestChance'>,
): Visit | null {
  if (kind === 'greatest-chance') {
    return visits.findLast(({ chanceTooLate }) => chanceTooLate <= greatestChance!) ?? null;
  }
  return visits.reduce<Visit | null>(
    (best, visit) => (best && best.expectedCost! <= visit.expectedCost! ? best : visit),
    null,
  );
}

/** Whether the limit has been reached before a visit more likely than not. */
export const isLikelyTooLate = ({ chanceTooLate }: Pick<PlanVisit, 'chanceTooLate'>): boolean =>
  chanceTooLate >= 0.5;
