import type { Observation } from '../lives.js';
import { inWords, round } from '../rounding.js';
import { toMm } from '../units.js';
import type { Reason } from '../vocabulary/quantities.js';
import type { FailsAt, RuleFact } from '../vocabulary/terms.js';
import type { PadSpec } from '../vocabulary/vehicle.js';
import type { Limit } from '../vocabulary/wear.js';
import { chanceAbove, conformityAbove } from './conformity.js';
import { citationOf, type Rule, type RuleSet } from './ruleSets.js';
import { FACTS_IN_WORDS, fittingRules, type AxleFacts, type FittingRule } from './whichRules.js';

/** The shop's own minimum thickness. */
export interface ShopMinimum {
  limitMm: number;
  failsAt: FailsAt;
}

/** What limits a lining in addition to its own specification. */
export interface LimitContext {
  part: 'pad' | 'shoe';
  facts: AxleFacts;
  /** The rule sets that the shop's owner selected. */
  ruleSets: readonly RuleSet[];
  shopMinimum: ShopMinimum | null;
  /** Standard deviation of the gauge's placement on the lining, mm. */
  placementSdMm: number;
}

type Bound = Omit<Limit, 'fails' | 'conformity' | 'chanceOfConformity' | 'chanceWithPlacement' | 'governs'>;

/** An applicable limit, with the unknown facts that make it uncertain to apply. */
interface Candidate {
  bound: Bound;
  unknown: RuleFact[];
}

/**
 * Compares a lining's latest reading with every applicable limit; the first one governs. If several rows of a rule set
 * could apply, the strictest counts, and `reasons` says so.
 */
export function padLimits(
  spec: PadSpec,
  latest: Observation | null,
  { part, facts, ruleSets, shopMinimum, placementSdMm }: LimitContext,
): { limits: Limit[]; reasons: Reason[] } {
  const laws = ruleSets.map((ruleSet) => lawBounds(ruleSet, facts, part, spec));
  const bounds = [
    ...ownBounds(spec),
    ...(shopMinimum
      ? [{ source: 'shop', rule: 'the shop’s own minimum thickness', ...shopMinimum } as const]
      : []),
    ...laws.flatMap((law) => law.bounds),
  ].sort(bySeverity);
  const limits = bounds.map((bound, index) => ({
    ...bound,
    ...judged(bound, latest, placementSdMm),
    governs: index === 0,
  }));
  return { limits, reasons: laws.flatMap(({ reasons }) => reasons) };
}

function judged(
  bound: Bound,
  latest: Observation | null,
  placementSdMm: number,
): Pick<Limit, 'fails' | 'conformity' | 'chanceOfConformity' | 'chanceWithPlacement'> {
  if (!latest) return { fails: null, conformity: null, chanceOfConformity: null, chanceWithPlacement: null };
  const { mm, standardUncertaintyMm: u } = latest;
  const chance = (sdMm: number) => round(chanceAbove(mm, bound.limitMm, sdMm), 4);
  return {
    fails: isPast(mm, bound),
    conformity: conformityAbove(mm, bound.limitMm, u),
    chanceOfConformity: chance(u),
    chanceWithPlacement: chance(Math.hypot(u, placementSdMm)),
  };
}

/** The limit that governs by a lining's own specification alone; null if that sets none. */
export function ownLimit(spec: PadSpec): Pick<Limit, 'limitMm' | 'failsAt'> | null {
  return ownBounds(spec).sort(bySeverity)[0] ?? null;
}

/** The limits that a lining's own specification sets. */
function ownBounds(spec: PadSpec): Bound[] {
  const bounds: Bound[] = [];
  if (spec.limit) {
    const rule = 'minimum thickness in the vehicle’s or part’s specification';
    bounds.push({ source: 'maker', rule, limitMm: toMm(spec.limit), failsAt: 'at-or-below' });
  }
  if (spec.wearIndicator) {
    const kind = spec.wearIndicator.type ? `${spec.wearIndicator.type} ` : '';
    const rule = `thickness at which the ${kind}wear indicator sounds, lights or shows`;
    bounds.push({
      source: 'wear-indicator',
      rule,
      limitMm: toMm(spec.wearIndicator),
      failsAt: 'at-or-below',
    });
  }
  return bounds;
}

/** The highest limit governs; of equal ones, the one that already fails at the figure itself. */
function bySeverity(a: Pick<Limit, 'limitMm' | 'failsAt'>, b: Pick<Limit, 'limitMm' | 'failsAt'>): number {
  return b.limitMm - a.limitMm || Number(b.failsAt === 'at-or-below') - Number(a.failsAt === 'at-or-below');
}

/** Whether a thickness fails a limit, ignoring the gauge's error. */
export function isPast(mm: number, { limitMm, failsAt }: Pick<Bound, 'limitMm' | 'failsAt'>): boolean {
  return failsAt === 'at-or-below' ? mm <= limitMm : mm < limitMm;
}

/** The limits of one rule set: all rows that certainly apply, and the strictest that may apply if it is stricter. */
function lawBounds(
  ruleSet: RuleSet,
  facts: AxleFacts,
  part: LimitContext['part'],
  spec: PadSpec,
): { bounds: Bound[]; reasons: Reason[] } {
  const fitting = fittingRules(ruleSet, facts, part);
  const reasons = fitting.reason ? [fitting.reason] : [];
  const say = (code: string, detail: string) =>
    reasons.push({ field: 'limits', code, detail: `${ruleSet.name}${detail}` });
  const judgesReadings = ({ rule }: FittingRule): boolean =>
    rule.decidedBy.some((by) => by === 'figure' || by === 'wear-indicator');
  if (fitting.applies !== 'does-not-apply' && !fitting.rules.some(judgesReadings)) {
    say('no-rule-fits', ' has no rule for this kind of brake on this axle');
  }
  const marks = fitting.rules.filter(({ rule }) => rule.decidedBy.includes('wear-indicator'));
  if (marks.length > 0 && !markOf(spec)) {
    const detail = `${marks[0]!.rule.section}: the part’s own wear mark is a limit, and the vehicle record has none`;
    say('mark-unknown', ` ${detail}`);
  }
  const candidates = fitting.rules
    .flatMap(({ rule, unknown }) => candidatesOf(ruleSet, rule, unknown, spec))
    .sort((a, b) => bySeverity(a.bound, b.bound));
  const certain = candidates.filter(({ unknown }) => unknown.length === 0);
  const strictest = candidates[0];
  const isSure = !strictest || certain.some(({ bound }) => bySeverity(bound, strictest.bound) === 0);
  if (isSure) return { bounds: certain.map(toBound), reasons };
  const { limitMm, rule } = strictest.bound;
  reasons.push({
    field: 'limits',
    code: 'strictest-that-could-apply',
    detail: `${rule}: ${inWords(limitMm, 5)} mm is the strictest limit that may apply; unknown: ${strictest.unknown.map((fact) => FACTS_IN_WORDS[fact]).join('; ')}`,
  });
  return { bounds: [strictest, ...certain].map(toBound), reasons };
}

const toBound = ({ bound }: Candidate): Bound => bound;

/** The mark that a lining may wear down to. An electric indicator lights a lamp and does not count as a mark. */
function markOf({ wearIndicator }: PadSpec): PadSpec['wearIndicator'] {
  return wearIndicator?.type === 'electric' ? null : wearIndicator;
}

function candidatesOf(ruleSet: RuleSet, rule: Rule, unknown: RuleFact[], spec: PadSpec): Candidate[] {
  const law = {
    source: 'law',
    rule: rule.result
      ? `${ruleSet.name} ${rule.section}, ${rule.result}: ${rule.clause}`
      : `${ruleSet.name} ${rule.section}: ${rule.clause}`,
    ruleSet: ruleSet.id,
    ruleId: rule.id,
    citation: citationOf(ruleSet, rule),
    ...(rule.result && { defectClass: rule.result }),
    link: ruleSet.link,
  } as const;
  const candidates: Candidate[] = [];
  if (rule.limitMm !== null && rule.failsAt !== null) {
    candidates.push({ bound: { ...law, limitMm: rule.limitMm, failsAt: rule.failsAt }, unknown });
  }
  const mark = rule.decidedBy.includes('wear-indicator') ? markOf(spec) : null;
  if (mark) {
    candidates.push({
      bound: { ...law, limitMm: toMm(mark), failsAt: 'at-or-below' },
      unknown: mark.type ? unknown : [...unknown, 'wear-indicator-type'],
    });
  }
  return candidates;
}
