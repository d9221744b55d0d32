import { itemAt, required } from '../items.js';
import { inWords } from '../rounding.js';
import type { AxlePlan, PlanVisit } from '../vocabulary/planning.js';
import type { DateInterval } from '../vocabulary/wear.js';
import { beforeInWords, chanceInWords, dateInWords, firstSentence, onAxle } from '../words.js';
import { isLikelyTooLate, type Rule } from './planRule.js';

const CAUTION = 'It is a forecast: check the brakes at every visit until then.';

/** The rule in words, with its assumptions. */
export function ruleWords({ kind, greatestChance, costTooLate, costPerMmWasted }: Rule): string {
  return kind === 'least-expected-cost'
    ? `The visit with the lowest expected cost: ${costTooLate} times the chance that the limit is reached first, plus ${costPerMmWasted} for every millimetre of lining thrown away. It assumes that the job costs the same at each of these visits, that being late costs the same however late it is, and that nothing is measured before then. ${CAUTION}`
    : `The last visit at which the chance of being too late is at most ${chanceInWords(required(greatestChance, 'greatest chance in the rule'))}. ${CAUTION}`;
}

interface PlanFacts {
  rule: Rule;
  failing: boolean;
  /** When the linings reach their limit. */
  dates: DateInterval | null;
  today: string;
  /** Messages of the stop findings on this axle, the most urgent first. */
  stops: readonly string[];
  /** Whether rotors or drums must be replaced now. */
  rotorsNow: boolean;
  /** When the first rotor or drum reaches its limit, and the chance that it does by the recommended visit. */
  rotors: { part: 'rotors' | 'drums'; dates: DateInterval; chance: number } | null;
  part: 'rotors' | 'drums';
}

/** `before 16 December 2026`, or `at the first chance` if that is past. */
function whenInWords(dates: DateInterval, today: string): string {
  const early = required(dates.early, 'early date');
  return early <= today ? 'at the first chance' : `before ${beforeInWords(early, dates, today)}`;
}

/** A sentence on what must be done before any visit: stop findings, and rotors or drums that are due; else empty. */
function urgentWords({ stops, rotorsNow, rotors, part, today }: PlanFacts): string {
  if (stops.length > 0) {
    const more = stops.length > 1 ? ` (and ${stops.length - 1} more)` : '';
    return `Put this right first${more}: ${firstSentence(itemAt(stops, 0))} `;
  }
  if (!rotors || !isLikelyTooLate({ chanceTooLate: rotors.chance }))
    return rotorsNow ? `Replace the ${part} first; see their decision. ` : '';
  return `Replace the ${part} ${whenInWords(rotors.dates, today)}: the chance that they reach their limit before the visit is ${chanceInWords(rotors.chance)}. `;
}

/** The plan of one axle in words, starting with whatever must not wait for the visit. */
export function axleWords(
  { item, visits, recommended, axle, overdue }: Omit<AxlePlan, 'words' | 'reasons'>,
  facts: PlanFacts,
): string {
  const { rule, failing, dates, today } = facts;
  const what = onAxle(item === 'shoe-set' ? 'shoes' : 'pads', axle);
  if (overdue) {
    const why = failing
      ? `A reading of the ${what} fails its limit.`
      : `The ${what} have more likely than not reached their limit.`;
    return `Fit ${what} now; do not wait for a visit. ${why}`;
  }
  const ahead = urgentWords(facts);
  const [next] = visits;
  if (!next) return `${ahead}There is no forecast for the ${what}; see reasons.`;
  const visit = visits.find(({ date }) => date === recommended);
  const fit = dates?.early ? ` Fit them ${whenInWords(dates, today)}.` : '';
  if (!visit) {
    const chance = `the chance that the ${what} have reached their limit is ${chanceInWords(next.chanceTooLate)}, above the ${chanceInWords(required(rule.greatestChance, 'greatest chance in the rule'))} allowed.`;
    return next.date <= today
      ? `${ahead}Fit ${what} at the first chance: already today ${chance}`
      : `${ahead}None of these visits is in time. By the first, ${dateInWords(next.date)}, ${chance}${fit}`;
  }
  const cost = visit.expectedCost === null ? '' : `, at an expected cost of ${inWords(visit.expectedCost)}`;
  const date = dateInWords(visit.date);
  const chance = chanceInWords(visit.chanceTooLate);
  if (isLikelyTooLate(visit)) {
    return `${ahead}Likely too late: by ${date}, the visit that this rule selects${cost}, the chance that the ${what} have reached their limit is ${chance}.${fit}`;
  }
  const figures = `The chance that the limit is reached first is ${chance}, and ${wasted(visit)} is thrown away.`;
  return visit === visits.at(-1)
    ? `${ahead}Fit ${what} at the last of these visits, ${date}${cost}. ${figures} Later visits were not considered.`
    : `${ahead}Fit ${what} at the visit of ${date}${cost}. ${figures}`;
}

function wasted({ wastedMm, wastedShare }: PlanVisit): string {
  const { expected, low, high } = wastedMm;
  const share = wastedShare ? `, or ${chanceInWords(wastedShare.expected)} of a new one,` : '';
  return `${inWords(expected, 1)} mm of lining (probably ${inWords(low, 1)} to ${inWords(high, 1)} mm)${share}`;
}
