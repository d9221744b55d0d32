import { inWords } from '../rounding.js';
import type { AxlePlan, PlanVisit } from '../vocabulary/planning.js';
import type { DateInterval } from '../vocabulary/wear.js';
import { beforeInWords, chanceInWords, dateInWords, onAxle } from '../words.js';
import { isLikelyTooLate, type Rule } from './planRule.js';

const LOOK = 'It is a forecast: look at the brakes at every visit until then.';

/** The rule in words, with its assumptions. */
export function ruleWords({ kind, greatestChance, costTooLate, costPerMmWasted }: Rule): string {
  return kind === 'least-expected-cost'
    ? `The visit with the least expected cost: ${costTooLate} times the chance that the limit comes first, and ${costPerMmWasted} for every millimetre of lining thrown away. It assumes that the job is done at one of these visits, costs the same at each, that coming too late costs the same however late, and that nothing is measured before. ${LOOK}`
    : `The last visit at which the chance of being too late is at most ${chanceInWords(greatestChance!)}. ${LOOK}`;
}

interface PlanFacts {
  rule: Rule;
  failing: boolean;
  /** Of the linings. */
  dates: DateInterval | null;
  today: string;
  /** Of the first rotor or drum, and the chance that it reaches its limit by the recommended visit. */
  rotors: { part: 'rotors' | 'drums'; dates: DateInterval; chance: number } | null;
}

/** A warning if rotors or drums are likely worn out before the visit; otherwise empty. */
function rotorsFirst({ rotors, today }: PlanFacts): string {
  if (!rotors || !isLikelyTooLate({ chanceTooLate: rotors.chance })) return '';
  const { part, dates, chance } = rotors;
  const when =
    dates.early! <= today ? 'at the first chance' : `before ${beforeInWords(dates.early!, dates, today)}`;
  return `Replace the ${part} ${when}: the chance that they reach their limit before the visit is ${chanceInWords(chance)}. `;
}

/** The plan of one axle in words; if the visit is likely too late, that comes first. */
export function axleWords(
  { item, visits, recommended, axle, overdue }: Omit<AxlePlan, 'words' | 'reasons'>,
  facts: PlanFacts,
): string {
  const { rule, failing, dates, today } = facts;
  const linings = item === 'shoe-set' ? 'shoes' : 'pads';
  const what = onAxle(linings, axle);
  if (overdue) {
    const why = failing
      ? `A reading of the ${what} fails its limit.`
      : `The ${what} have more likely than not reached their limit.`;
    return `Fit ${what} now, not at a coming visit. ${why}`;
  }
  const [first] = visits;
  if (!first) return `There is no forecast for the ${what}; see reasons.`;
  const visit = visits.find(({ date }) => date === recommended);
  const before = dates?.early ? ` Fit them before ${beforeInWords(dates.early, dates, today)}.` : '';
  if (!visit) {
    return `Have the vehicle in before ${dateInWords(first.date)}, the first of these visits: by then the ${what} have reached their limit with a chance of ${chanceInWords(first.chanceTooLate)}, more than ${chanceInWords(rule.greatestChance!)}.${before}`;
  }
  const cost = visit.expectedCost === null ? '' : `, at an expected cost of ${inWords(visit.expectedCost)}`;
  const date = dateInWords(visit.date);
  const chance = chanceInWords(visit.chanceTooLate);
  const figures = `the chance that the limit comes first is ${chance}, and ${wasted(visit)} is thrown away`;
  if (isLikelyTooLate(visit)) {
    return `${rotorsFirst(facts)}Likely too late: by ${date}, the visit that this rule picks${cost}, the ${what} have reached their limit with a chance of ${chance}.${before}`;
  }
  return visit === visits.at(-1)
    ? `${rotorsFirst(facts)}Fit ${what} at the last of these visits, ${date}${cost}: ${figures}. Later visits were not looked at.`
    : `${rotorsFirst(facts)}Fit ${what} at the visit of ${date}${cost}: ${figures}.`;
}

function wasted({ wastedMm, wastedShare }: PlanVisit): string {
  const { expected, low, high } = wastedMm;
  const share = wastedShare
    ? `, ${chanceInWords(wastedShare.expected)} of what can be used of a new one,`
    : '';
  return `${inWords(expected, 1)} mm of lining (in eight cases of ten ${inWords(low, 1)} to ${inWords(high, 1)} mm)${share}`;
}
