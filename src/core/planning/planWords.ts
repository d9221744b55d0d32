import { inWords } from '../rounding.js';
import type { AxlePlan, PlanRule, PlanVisit } from '../vocabulary/planning.js';

type Rule = Omit<PlanRule, 'words'>;

const percent = (share: number): string =>
  share > 0 && share < 0.01 ? 'less than 1 %' : `${Math.round(100 * share)} %`;

const LOOK = 'It is a forecast: look at the brakes at every visit until then.';

/** The rule in words, with what it takes for granted. */
export function ruleWords({ kind, greatestChance, costTooLate, costPerMmWasted }: Rule): string {
  return kind === 'least-expected-cost'
    ? `The visit with the least expected cost: ${costTooLate} times the chance that the limit comes first, and ${costPerMmWasted} for every millimetre of lining thrown away. It takes for granted that the job is done at one of these visits, costs the same at each, that coming too late costs the same however late, and that nothing is measured before. ${LOOK}`
    : `The last of the visits at which the chance of coming too late is at most ${percent(greatestChance!)}. ${LOOK}`;
}

/** What the plan of one axle says. */
export function axleWords(
  { item, visits, recommended, axle, overdue }: Omit<AxlePlan, 'words' | 'reasons'>,
  { rule, failing, earlyDate }: { rule: Rule; failing: boolean; earlyDate: string | null },
): string {
  const linings = item === 'shoe-set' ? 'shoes' : 'pads';
  if (overdue) {
    const why = failing
      ? `A reading of the ${axle} ${linings} fails its limit`
      : `More likely than not the ${axle} ${linings} have reached their limit already`;
    return `${why}: the job is due now, not at a coming visit.`;
  }
  const [first] = visits;
  if (!first) return `When the ${linings} of the ${axle} axle reach their limit cannot be told; see reasons.`;
  const visit = visits.find(({ date }) => date === recommended);
  if (!visit) {
    const since = earlyDate === null ? '' : `; it is 10 % on ${earlyDate}`;
    return `Already at the first of these visits, ${first.date}, the chance that the ${axle} ${linings} have reached their limit is ${percent(first.chanceTooLate)}, more than ${percent(rule.greatestChance!)}${since}. Have the vehicle in sooner.`;
  }
  const cost = visit.expectedCost === null ? '' : `, at an expected cost of ${inWords(visit.expectedCost)}`;
  const figures = `the chance that the limit comes first is ${percent(visit.chanceTooLate)}, and ${wasted(visit)} is thrown away`;
  return visit === visits.at(-1)
    ? `Of these visits the rule picks the last, ${visit.date}, for the ${axle} ${linings}${cost}: ${figures}. Later visits were not looked at.`
    : `Fit ${linings} on the ${axle} axle at the visit of ${visit.date}${cost}: ${figures}.`;
}

function wasted({ wastedMm, wastedShare }: PlanVisit): string {
  const { expected, low, high } = wastedMm;
  const share = wastedShare ? `, ${percent(wastedShare.expected)} of what can be used of a new one,` : '';
  return `${inWords(expected, 1)} mm of lining (in eight cases of ten ${inWords(low, 1)} to ${inWords(high, 1)} mm)${share}`;
}
