import { chanceBy, dateInterval, isOverdue } from '../assessment/forecastDates.js';
import { liningContext } from '../assessment/outlook.js';
import type { AxleOutlook, ExperienceFor, Outlook } from '../assessment/outlookShape.js';
import { forecastOfPads } from '../assessment/padForecast.js';
import type { LiningContext } from '../assessment/padPosition.js';
import type { Policy } from '../assessment/policy.js';
import { toDay, toFullDate } from '../calendar.js';
import { leftoverOn, type Leftover } from '../forecast/leftover.js';
import type { History } from '../history.js';
import { itemAt } from '../items.js';
import { isDrumBrake } from '../lives.js';
import { round, roundForecastMm, roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import type { AxlePlan, LiningLeft, PlanVisit, ReplacementPlan } from '../vocabulary/planning.js';
import type { Reason } from '../vocabulary/quantities.js';
import { ruleOf, costOf, pick, isLikelyTooLate, type PlanPreference, type Rule } from './planRule.js';
import { axleWords, ruleWords } from './planWords.js';

/**
 * Chooses at which of the coming visits to fit new linings. Too early wastes lining; too late, and the limit is reached
 * first. Computes the wasted lining and the chance of coming too late for each visit. Costs, or the maximum acceptable
 * chance of coming too late, decide.
 */

/** The parameters of a plan. */
export interface PlanQuestion extends PlanPreference {
  today: string;
  /** Dates of the coming visits, from today on; null to take them from the vehicle's own interval or the policy's. */
  dates: readonly string[] | null;
}

/** Number of visits to plan if the caller gives no dates. */
const VISITS_AHEAD = 6;

export function replacementPlan(
  vehicleId: string,
  history: History,
  outlook: Outlook,
  experienceFor: ExperienceFor,
  policy: Policy,
  question: PlanQuestion,
): ReplacementPlan {
  const { asAt, rhythmDays, cautions } = outlook;
  const rule = ruleOf(question);
  const ahead = rhythmDays === null ? 'policy' : 'rhythm';
  const common: Omit<ReplacementPlan, 'axles' | 'reasons'> = {
    vehicleId,
    today: question.today,
    asAt,
    dateSource: question.dates ? 'dates' : ahead,
    rule: { ...rule, words: ruleWords(rule) },
    cautions,
  };
  if (!asAt) {
    const reason = { field: 'axles', code: 'no-visits', detail: 'no visit has been recorded yet' };
    return { ...common, axles: [], reasons: [reason] };
  }
  const dates = question.dates ? [...new Set(question.dates)].sort() : visitsAhead(outlook, question.today);
  const context = liningContext(history, experienceFor, policy);
  const axles = outlook.axles.map((axle) => {
    const left = leftover(context, axle, experienceFor, asAt.date, dates);
    return axlePlan(history, axle, { asAtDate: asAt.date, dates, left, rule, today: question.today });
  });
  return { ...common, axles, reasons: [] };
}

/** The next visits by the vehicle's own interval, or else the policy's; an overdue visit counts as today. */
function visitsAhead({ asAt, rhythmDays, policy }: Outlook, today: string): string[] {
  const interval = rhythmDays ?? policy.visitIntervalDays;
  const first = Math.max(toDay(asAt!.date) + interval, toDay(today));
  return Array.from({ length: VISITS_AHEAD }, (_, index) => toFullDate(first + index * interval));
}

/** The lining left on an axle on each date; null if unknown. */
function leftover(
  context: LiningContext,
  { axle, crossing }: AxleOutlook,
  experienceFor: ExperienceFor,
  asAtDate: string,
  dates: readonly string[],
): Leftover[] | null {
  if (!crossing) return null;
  const { forecast } = forecastOfPads(context, axle, experienceFor(axle));
  const start = toDay(asAtDate);
  return leftoverOn(
    dates.map((date) => toDay(date) - start),
    forecast,
  );
}

interface AxleQuestion {
  asAtDate: string;
  dates: readonly string[];
  left: readonly Leftover[] | null;
  rule: Rule;
  today: string;
}

function axlePlan(history: History, outlook: AxleOutlook, question: AxleQuestion): AxlePlan {
  const { axle, crossing, failing, replacement, rotorRenewal } = outlook;
  const { asAtDate, dates, left, rule, today } = question;
  const { limitMm } = replacement;
  const usableMm = usableOf(history, outlook);
  const interval = crossing && dateInterval(crossing, asAtDate);
  const visits =
    crossing && left
      ? dates.map((date, index): PlanVisit => {
          const chanceTooLate = chanceBy(crossing, asAtDate, date);
          // A failing reading counts whatever the forecast says.
          const wasted = failing ? NOTHING : liningLeft(itemAt(left, index), roundForecastMm);
          return {
            date,
            chanceTooLate,
            wastedMm: wasted,
            wastedShare: usableMm === null ? null : liningLeft(wasted, (mm) => round(mm / usableMm, 4)),
            expectedCost: costOf(rule, chanceTooLate, wasted),
          };
        })
      : [];
  const overdue = isOverdue(failing, interval?.median ?? null, today);
  const recommended = overdue ? null : pick(visits, rule);
  const plan = {
    axle,
    item: isDrumBrake(history, axle) ? ('shoe-set' as const) : ('pad-set' as const),
    limitMm,
    usableMm,
    overdue,
    chanceRotorsToo: rotorRenewal.now ? 1 : rotorRenewal.withLinings,
    visits,
    recommended: recommended?.date ?? null,
  };
  return {
    ...plan,
    words: axleWords(plan, {
      rule,
      failing,
      dates: interval,
      today,
      stops: outlook.findings.filter(({ severity }) => severity === 'stop').map(({ message }) => message),
      rotorsNow: rotorRenewal.now,
      rotors: rotorsBy(outlook, asAtDate, recommended?.date ?? null),
      part: partOf(outlook),
    }),
    reasons: reasonsOf(plan, outlook),
  };
}

const partOf = ({ drums }: AxleOutlook): 'rotors' | 'drums' => (drums.length > 0 ? 'drums' : 'rotors');

/** When the first rotor or drum reaches its limit, and with what chance by a date; null if unknown. */
function rotorsBy(outlook: AxleOutlook, asAtDate: string, date: string | null) {
  const { counterparts } = outlook;
  if (!counterparts.first || date === null) return null;
  const part = partOf(outlook);
  return {
    part,
    dates: dateInterval(counterparts.first, asAtDate),
    chance: chanceBy(counterparts.first, asAtDate, date),
  };
}

const NOTHING: LiningLeft = { expected: 0, low: 0, median: 0, high: 0 };

const liningLeft = (
  { low, median, high, ...rest }: Leftover | LiningLeft,
  convert: (mm: number) => number,
): LiningLeft => ({
  expected: convert('mean' in rest ? rest.mean : rest.expected),
  low: convert(low),
  median: convert(median),
  high: convert(high),
});

/** The usable thickness of a new lining of the governing kind, mm. */
function usableOf({ vehicle }: History, { axle, replacement, drums }: AxleOutlook): number | null {
  const { limitMm } = replacement;
  const specs = vehicle.axles[axle];
  const fresh = (drums.length > 0 ? specs?.shoe : specs?.pad)?.new;
  if (limitMm === null || !fresh || toMm(fresh) <= limitMm) return null;
  return roundMm(toMm(fresh) - limitMm);
}

function reasonsOf(
  plan: Omit<AxlePlan, 'words' | 'reasons'>,
  { replacement }: Pick<AxleOutlook, 'replacement'>,
): Reason[] {
  const reasons: Reason[] = [];
  if (plan.visits.length === 0) {
    const { code, detail } = itemAt(replacement.reasons, 0);
    reasons.push({ field: 'visits', code, detail });
  }
  if (plan.overdue) {
    const detail =
      'the limit has been reached, or more likely than not has been: do the job now; do not wait for a visit';
    reasons.push({ field: 'recommended', code: 'due-now', detail });
  } else if (plan.visits.length === 0) {
    reasons.push({
      field: 'recommended',
      code: 'no-visits-told',
      detail: 'there is no forecast for the visits',
    });
  } else if (plan.recommended === null) {
    const detail = 'at each of these visits, the chance of being too late is above the requested maximum';
    reasons.push({ field: 'recommended', code: 'no-visit-in-time', detail });
  }
  const picked = plan.visits.find(({ date }) => date === plan.recommended);
  if (picked && isLikelyTooLate(picked)) {
    const detail =
      'the limit will more likely than not be reached before the visit with the lowest expected cost: choose an earlier visit';
    reasons.push({ field: 'recommended', code: 'likely-too-late', detail });
  }
  if (plan.usableMm === null) {
    const detail = 'the thickness of a new lining is unknown';
    const fields = ['usableMm', 'visits.wastedShare'];
    reasons.push(...fields.map((field) => ({ field, code: 'no-new-thickness', detail })));
  }
  if (plan.chanceRotorsToo === null) {
    const detail = 'needs a reading and a limit of the rotors or drums, and the thickness of new linings';
    reasons.push({ field: 'chanceRotorsToo', code: 'no-forecast', detail });
  }
  return reasons;
}
