import { itemAt } from '../items.js';
import { toKg } from '../units.js';
import type { Reason } from '../vocabulary/quantities.js';
import {
  AXLES,
  type Actuation,
  type Applies,
  type Axle,
  type Lining,
  type RuleFact,
  type RulePart,
} from '../vocabulary/terms.js';
import type { VehicleBody } from '../vocabulary/vehicle.js';
import { citationOf, type DefectState, type Rule, type RuleScope, type RuleSet } from './ruleSets.js';

/** The facts that rules depend on, of an axle and its vehicle; null if unknown. */
export interface AxleFacts {
  actuation: Actuation | null;
  steered: boolean | null;
  lining: Lining | null;
  grossMassKg: number | null;
  isTrailer: boolean | null;
}

/** A rule that may apply to an axle, with the unknown facts it depends on. */
export interface FittingRule {
  rule: Rule;
  unknown: RuleFact[];
}

export const FACTS_IN_WORDS: Record<RuleFact, string> = {
  brake: 'whether the brake is a disc or a drum',
  actuation: 'how the brake is actuated',
  lining: 'how the lining is attached',
  steered: 'whether the axle is steered',
  trailer: 'whether the vehicle is a trailer',
  'shoe-lining': 'whether the lining of a shoe is one strip or two pads',
  'wear-indicator-type': 'whether the wear indicator is a mark or a lamp',
};

/** Whether a set applies to a vehicle, and its rules for a part. */
export interface FittingSet {
  applies: Applies;
  /** Why the set does not apply, or only may. */
  reason: Reason | null;
  rules: FittingRule[];
}

export function axleFacts(vehicle: VehicleBody, axle: Axle): AxleFacts {
  const { actuation, steered, lining } = vehicle.axles[axle] ?? {};
  return {
    actuation: actuation ?? null,
    steered: steered ?? null,
    lining: lining ?? null,
    grossMassKg: vehicle.grossMass ? toKg(vehicle.grossMass) : null,
    isTrailer: vehicle.powertrain ? vehicle.powertrain === 'none' : null,
  };
}

/** The rules of a set that apply, or may apply, to a part of an axle. */
export function fittingRules(ruleSet: RuleSet, facts: AxleFacts, part: RulePart): FittingSet {
  const { applies, reason } = appliesTo(ruleSet, facts);
  if (applies === 'does-not-apply') return { applies, reason, rules: [] };
  const rules = ruleSet.rules.flatMap((rule): FittingRule[] => {
    const unknown = unknownOf(rule.scope, facts, part);
    return unknown ? [{ rule, unknown }] : [];
  });
  return { applies, reason, rules };
}

/** The unknown facts of an axle that the rule depends on; null if the rule does not apply. */
function unknownOf(scope: RuleScope, facts: AxleFacts, part: RulePart): RuleFact[] | null {
  const { parts, actuations, linings, shoeLining } = scope;
  const axle = unknownOfAxle(scope, facts);
  if (!axle) return null;
  const contradicts =
    !parts.includes(part) ||
    (actuations && facts.actuation !== null && !actuations.includes(facts.actuation)) ||
    (linings && facts.lining !== null && !linings.includes(facts.lining));
  if (contradicts) return null;
  return [
    ...(actuations && facts.actuation === null ? (['actuation'] as const) : []),
    ...(linings && facts.lining === null ? (['lining'] as const) : []),
    ...axle,
    ...(shoeLining ? (['shoe-lining'] as const) : []),
  ];
}

/** The same for two facts only: whether the axle is steered, and whether it is a trailer's. */
function unknownOfAxle(
  { steered, trailer, orTrailer }: RuleScope,
  facts: Pick<AxleFacts, 'steered' | 'isTrailer'>,
): RuleFact[] | null {
  if (trailer !== undefined && facts.isTrailer !== null && facts.isTrailer !== trailer) return null;
  const turnsOnTrailer = facts.isTrailer === null && trailer !== undefined;
  const trailers = turnsOnTrailer ? (['trailer'] as const) : [];
  if (steered === undefined || (orTrailer && facts.isTrailer)) return [...trailers];
  if (facts.steered === null) return ['steered', ...trailers];
  if (facts.steered === steered) return [...trailers];
  return orTrailer && facts.isTrailer === null ? ['trailer'] : null;
}

/** Checks one condition of a set: why it excludes a vehicle, or may; null if the vehicle meets the condition. */
type Scoping = (ruleSet: RuleSet, facts: AxleFacts) => Doubt | null;
interface Doubt {
  applies: Exclude<Applies, 'applies'>;
  code: string;
  detail: string;
}

const excluded = (code: string, detail: string): Doubt => ({ applies: 'does-not-apply', code, detail });
/** An unknown fact: the set applies until the fact is recorded. */
const appliesUntilKnown = (code: string, detail: string): Doubt => ({
  applies: 'could-apply',
  code,
  detail: `${detail} is unknown, so the server applies it`,
});

const byKindOfVehicle: Scoping = ({ motorVehiclesOnly }, { isTrailer }) => {
  if (!motorVehiclesOnly || isTrailer === false) return null;
  return isTrailer
    ? excluded('not-for-trailers', 'does not apply to trailers')
    : appliesUntilKnown('powertrain-unknown', 'does not apply to trailers; the powertrain');
};

const byMaxMass: Scoping = ({ maxMass }, { grossMassKg }) => {
  if (!maxMass) return null;
  const upTo = `applies up to a gross mass of ${maxMass.printed}`;
  if (grossMassKg === null) return appliesUntilKnown('gross-mass-unknown', `${upTo}; the gross mass`);
  return grossMassKg > maxMass.kg ? excluded('above-mass', `${upTo}: ${maxMass.otherwise}`) : null;
};

const byMassOfTrailer: Scoping = ({ trailersAbove }, { grossMassKg, isTrailer }) => {
  if (!trailersAbove || !isTrailer || grossMassKg === null || grossMassKg > trailersAbove.kg) return null;
  return excluded('below-mass', `applies only to trailers with a gross mass above ${trailersAbove.printed}`);
};

const byMinMass: Scoping = ({ minMass }, { grossMassKg, isTrailer }) => {
  if (!minMass) return null;
  const from = `applies from a gross mass of ${minMass.printed}`;
  if (grossMassKg === null) return appliesUntilKnown('gross-mass-unknown', `${from}; the gross mass`);
  if (grossMassKg > minMass.kg || (minMass.itself && grossMassKg === minMass.kg)) return null;
  const below = `${from}, and this vehicle is below it`;
  if (!minMass.ofCombination) return excluded('below-mass', below);
  if (isTrailer === false) {
    const unless = 'because of what the vehicle carries or tows, which this service does not record';
    return excluded('below-mass', `${below}; the set may still apply ${unless}`);
  }
  const unknown = isTrailer ? 'which vehicle tows this trailer' : 'whether this is a trailer';
  return appliesUntilKnown('combination-mass-unknown', `${from}, counting the combination; ${unknown}`);
};

const SCOPINGS: readonly Scoping[] = [byKindOfVehicle, byMaxMass, byMassOfTrailer, byMinMass];

/** A set does not apply if one of its conditions excludes the vehicle, whatever is unknown about the others. */
function appliesTo(ruleSet: RuleSet, facts: AxleFacts): Pick<FittingSet, 'applies' | 'reason'> {
  const doubts = SCOPINGS.flatMap((scoping) => scoping(ruleSet, facts) ?? []);
  const doubt = doubts.find(({ applies }) => applies === 'does-not-apply') ?? doubts[0];
  if (!doubt) return { applies: 'applies', reason: null };
  const { applies, code, detail } = doubt;
  return { applies, reason: { field: 'limits', code, detail: `${ruleSet.name}: ${detail}` } };
}

/**
 * The rules that make a condition of a part a defect, as cited in words: `dangerous under UK inspection manual, item
 * 1.1.14(a)(ii)`. Includes rules that depend on unknown facts of the axle.
 */
export function defectsOf(
  ruleSets: readonly RuleSet[],
  facts: AxleFacts,
  part: RulePart,
  state: DefectState,
): string[] {
  return ruleSets.flatMap((ruleSet) =>
    fittingRules(ruleSet, facts, part).rules.flatMap(({ rule }) => {
      const defectClass = rule.states?.[state];
      if (defectClass === undefined) return [];
      return [`${defectClass ?? 'a failure'} under ${citationOf(ruleSet, rule)}`];
    }),
  );
}

export interface AxleRules {
  axle: Axle;
  ruleSets: (FittingSet & { ruleSet: RuleSet })[];
}

/** The rules that apply, or may apply, to each axle of a vehicle. */
export function rulesOnVehicle(vehicle: VehicleBody, ruleSets: readonly RuleSet[]): AxleRules[] {
  return AXLES.filter((axle) => vehicle.axles[axle]).map((axle) => {
    const facts = axleFacts(vehicle, axle);
    const brake = vehicle.axles[axle]!.brake ?? null;
    return {
      axle,
      ruleSets: ruleSets.map((ruleSet) => ({ ruleSet, ...rulesOnAxle(ruleSet, facts, brake) })),
    };
  });
}

const PARTS_OF_BRAKE = { disc: ['pad', 'rotor'], drum: ['shoe', 'drum'] } as const;

function rulesOnAxle(ruleSet: RuleSet, facts: AxleFacts, brake: 'disc' | 'drum' | null): FittingSet {
  const parts = brake ? PARTS_OF_BRAKE[brake] : Object.values(PARTS_OF_BRAKE).flat();
  const fitting = parts.map((part) => fittingRules(ruleSet, facts, part));
  const { applies, reason } = itemAt(fitting, 0);
  const byPart = fitting.flatMap(({ rules }) => rules);
  const rules = ruleSet.rules.flatMap((rule): FittingRule[] => {
    const found = byPart.find((each) => each.rule === rule);
    return found ? [turningOnBrake(found, brake)] : [];
  });
  return { applies, reason, rules };
}

/** If the kind of brake is unknown, adds that to the unknown facts of a rule about one kind's parts. */
function turningOnBrake({ rule, unknown }: FittingRule, brake: 'disc' | 'drum' | null): FittingRule {
  const ofEither = Object.values(PARTS_OF_BRAKE).every((parts) =>
    parts.some((part) => rule.scope.parts.includes(part)),
  );
  return { rule, unknown: brake || ofEither ? unknown : ['brake', ...unknown] };
}
