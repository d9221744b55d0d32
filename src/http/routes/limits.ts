import { z } from 'zod';
import { RULE_SETS, type Rule, type RuleSet } from '../../core/assessment/ruleSets.js';
import { rulesOnVehicle } from '../../core/assessment/whichRules.js';
import { Reason } from '../../core/vocabulary/quantities.js';
import {
  ACTUATIONS,
  APPLIES,
  AXLES,
  DECIDED_BY,
  FAILS_AT,
  LININGS,
  RULE_FACTS,
  RULE_PARTS,
} from '../../core/vocabulary/terms.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import { EVERYONE } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { exampleVehicle } from '../examples.js';
import { resourceProblems } from '../problems.js';
import { answerJson, vehicleParams } from '../schemas.js';

const RuleSource = z
  .strictObject({
    title: z.string(),
    section: z.string(),
    edition: z.string().nullable().meta({ description: 'Null if the text that was read names no edition.' }),
    read: z.string().meta({ description: 'The month in which the source was read.' }),
    link: z.string(),
  })
  .meta({ id: 'RuleSource' });
const InspectionRule = z
  .strictObject({
    id: z.string(),
    parts: z.array(z.enum(RULE_PARTS)),
    actuations: z.array(z.enum(ACTUATIONS)).nullable().meta({ description: 'Null means any.' }),
    linings: z.array(z.enum(LININGS)).nullable().meta({ description: 'Null means any.' }),
    steered: z.boolean().nullable().meta({ description: 'Null means either.' }),
    clause: z.string().meta({ description: 'The rule, in this service’s own words.' }),
    decidedBy: z.array(z.enum(DECIDED_BY)),
    printed: z.string().nullable().meta({ description: 'The figure as the source prints it.' }),
    limitMm: z.number().nullable().meta({ description: 'Null if the rule prints no figure.' }),
    failsAt: z.enum(FAILS_AT).nullable(),
    result: z
      .string()
      .nullable()
      .meta({ description: 'The class of the defect, if the source has classes.' }),
    source: RuleSource,
  })
  .meta({ id: 'InspectionRule' });
const InspectionRuleSet = z
  .strictObject({
    id: z.string().meta({ description: 'The id by which the policy names the set.' }),
    name: z.string(),
    jurisdiction: z.string(),
    appliesTo: z.string(),
    grossMass: z
      .string()
      .nullable()
      .meta({ description: 'The gross mass to which the set applies, as the source prints it.' }),
    figures: z.string().meta({
      description: 'The printed unit from which the figures are taken, if the source prints more than one.',
    }),
    chosen: z.boolean().meta({ description: 'Whether the shop’s policy applies this set.' }),
    notOpened: z.string().nullable().meta({
      description:
        'Parts of the source that could not be opened and compared. Null if everything was compared.',
    }),
    rules: z.array(InspectionRule),
  })
  .meta({ id: 'InspectionRuleSet' });
const VehicleRules = z
  .strictObject({
    vehicleId: z.string(),
    axles: z.array(
      z.strictObject({
        axle: z.enum(AXLES),
        ruleSets: z.array(
          z.strictObject({
            ruleSet: z.string(),
            chosen: z.boolean(),
            applies: z.enum(APPLIES),
            rules: z.array(
              z.strictObject({
                ruleId: z.string(),
                applies: z.enum(APPLIES),
                unknown: z.array(z.enum(RULE_FACTS)).meta({
                  description: 'The facts that decide whether the rule applies and that are unknown.',
                }),
              }),
            ),
            reasons: z.array(Reason),
          }),
        ),
      }),
    ),
  })
  .meta({
    id: 'VehicleRules',
    description: 'The rules that apply to each axle, or may apply. Of those that may, the strictest counts.',
  });
const Note = z.strictObject({ code: z.string(), message: z.string() }).meta({ id: 'LimitNote' });
const LimitList = z
  .strictObject({
    items: z.array(InspectionRuleSet),
    nextCursor: z.null(),
    vehicle: VehicleRules.nullable(),
    notes: z.array(Note),
  })
  .meta({ id: 'LimitList' });

const NOTES: z.infer<typeof Note>[] = [
  {
    code: 'local-law-and-licence',
    message:
      'Which rules bind a vehicle and what follows from a figure is for local law and licensed practice to decide; the edition on the official site counts, not this copy. No answer here says that a vehicle is fit to drive.',
  },
  {
    code: 'not-exhaustive',
    message:
      'This list has only figures that were read in the named source. Other rules may still apply: other jurisdictions, other sections, and rules about cracks, contamination and damage, which a thickness does not show.',
  },
  {
    code: 'rotor-figures',
    message:
      'A rotor below its maker’s figure, or a drum above it, is not by itself an inspection failure in every jurisdiction. Under some sets the marked or maker’s figure decides, under others the inspector. The UK manual says that it is not in itself a reason to fail. The maker’s instruction to discard the part applies all the same.',
  },
  {
    code: 'linings-at-the-figure',
    message:
      'Whether a reading exactly at the figure fails follows the source’s wording. With ‘or less’ and ‘worn to’ it fails (at-or-below); with ‘less than’ and ‘at least’ it does not (below).',
  },
];

/** One rule set, applied to the example vehicle. */
const example = () => limitList(RULE_SETS.slice(0, 1), [], exampleVehicle);

export async function limitRoutes(app: ZodServer, { store }: RouteContext): Promise<void> {
  app.get(
    '/limits',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'listRuleSets',
        summary: 'List the legal rule sets, and the rules that apply to a vehicle',
        description:
          'Each figure comes with its source. Wear answers apply a set only if the policy names it; by default it names none. With `vehicleId`, the answer lists the rules that apply to each axle of that vehicle by actuation, lining, steering and gross mass, and which of these facts are unknown. Local law and licensed practice decide.',
        tags: ['reference'],
        querystring: vehicleParams.partial(),
        response: {
          200: answerJson(LimitList, 'The rule sets.', example),
          ...resourceProblems,
        },
      },
    },
    async (request) => {
      const { vehicleId } = request.query;
      const vehicle = vehicleId === undefined ? null : await store.vehicles.get(request.caller, vehicleId);
      const { body } = await store.settings.policy();
      return limitList(RULE_SETS, body.ruleSets, vehicle);
    },
  );
}

function limitList(
  ruleSets: readonly RuleSet[],
  chosen: readonly string[],
  vehicle: (VehicleBody & { id: string }) | null,
): z.infer<typeof LimitList> {
  const isChosen = ({ id }: RuleSet): boolean => chosen.includes(id);
  return {
    items: ruleSets.map((ruleSet) => ruleSetAnswer(ruleSet, isChosen(ruleSet))),
    nextCursor: null,
    vehicle: vehicle && {
      vehicleId: vehicle.id,
      axles: rulesOnVehicle(vehicle, ruleSets).map(({ axle, ruleSets: onAxle }) => ({
        axle,
        ruleSets: onAxle.map(({ ruleSet, applies, reason, rules }) => ({
          ruleSet: ruleSet.id,
          chosen: isChosen(ruleSet),
          applies,
          rules: rules.map(({ rule, unknown }) => ({
            ruleId: rule.id,
            applies: applies === 'applies' && unknown.length === 0 ? 'applies' : 'could-apply',
            unknown,
          })),
          reasons: reason ? [reason] : [],
        })),
      })),
    },
    notes: NOTES,
  };
}

function ruleSetAnswer(ruleSet: RuleSet, chosen: boolean): z.infer<typeof InspectionRuleSet> {
  const { id, name, jurisdiction, appliesTo, minMass, maxMass, figures, notOpened, rules } = ruleSet;
  const upTo = maxMass ? `up to ${maxMass.printed}` : null;
  return {
    id,
    name,
    jurisdiction,
    appliesTo,
    grossMass: minMass?.printed ?? upTo,
    figures,
    chosen,
    notOpened,
    rules: rules.map((rule) => ruleAnswer(rule, ruleSet)),
  };
}

function ruleAnswer(
  { id, section, scope, clause, decidedBy, printed, limitMm, failsAt, result }: Rule,
  { title, edition, read, link }: RuleSet,
): z.infer<typeof InspectionRule> {
  return {
    id,
    parts: [...scope.parts],
    actuations: scope.actuations ? [...scope.actuations] : null,
    linings: scope.linings ? [...scope.linings] : null,
    steered: scope.steered ?? null,
    clause,
    decidedBy: [...decidedBy],
    printed,
    limitMm,
    failsAt,
    result,
    source: { title, section, edition, read, link },
  };
}
