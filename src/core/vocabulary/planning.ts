import { z } from 'zod';
import { Reason, date, wholeNumber } from './quantities.js';
import { AXLES, PLAN_RULES, PLAN_VISIT_SOURCES, SPARES } from './terms.js';
import { AsAt, Caution } from './wear.js';

/** Forecast demand for parts, and the visit at which to fit them. */

const month = z.string().meta({ description: 'A calendar month, YYYY-MM.', examples: ['2026-03'] });
const demand = {
  month,
  item: z.enum(SPARES).meta({ description: 'A set of linings or a pair of rotors or drums, for one axle.' }),
  expected: z
    .number()
    .meta({ minimum: 0, description: 'How many are expected: the sum of the chances of every axle.' }),
  low: wholeNumber.meta({ description: '10 % point of their number.' }),
  high: wholeNumber.meta({ description: '90 % point of their number.' }),
};

export const PartsDemandTotal = z.strictObject(demand).meta({ id: 'PartsDemandTotal' });
export const PartsDemandItem = z
  .strictObject({
    ...demand,
    fleet: z.string().nullable(),
    model: z.string().nullable(),
    axle: z.enum(AXLES),
  })
  .meta({ id: 'PartsDemandItem' });
export const PartsDemand = z
  .strictObject({
    today: date,
    words: z.string().meta({ description: 'The totals in words, and what they leave out.' }),
    axles: wholeNumber.meta({ description: 'Axles that may need something within these months.' }),
    rotorsUnknownCount: wholeNumber.meta({
      description:
        'Those of them whose rotors or drums nobody can tell, for want of readings or specifications; their rotors are left out.',
    }),
    unassessedCount: wholeNumber.meta({
      description: 'Axles with no projection, which are left out; see the unassessed report.',
    }),
    totals: z.array(PartsDemandTotal).meta({ description: 'Over all fleets, models and axles.' }),
    items: z.array(PartsDemandItem),
    nextCursor: z.null(),
  })
  .meta({ id: 'PartsDemand' });
export type PartsDemand = z.infer<typeof PartsDemand>;

const chance = z.number().meta({ minimum: 0, maximum: 1 });
const amount = z.number().meta({ minimum: 0 });

export const LiningLeft = z
  .strictObject({ expected: amount, low: amount, median: amount, high: amount })
  .meta({ id: 'LiningLeft', description: 'The mean, and 10 %, 50 % and 90 % points.' });
export type LiningLeft = z.infer<typeof LiningLeft>;

export const PlanVisit = z
  .strictObject({
    date,
    chanceTooLate: chance.meta({
      description: 'That a lining has reached its governing limit before this visit.',
    }),
    wastedMm: LiningLeft.meta({
      description:
        'Lining thrown away if the job is done at this visit: what is left above its limit of the one that has least; 0 where the limit has been reached.',
    }),
    wastedShare: LiningLeft.nullable().meta({
      description: 'The same as a share of what can be used of a new lining, from new to the limit.',
    }),
    expectedCost: amount.nullable().meta({
      description:
        '`costTooLate` × `chanceTooLate` + `costPerMmWasted` × `wastedMm.expected`; null without costs.',
    }),
  })
  .meta({ id: 'PlanVisit' });
export type PlanVisit = z.infer<typeof PlanVisit>;

export const AxlePlan = z
  .strictObject({
    axle: z.enum(AXLES),
    item: z.enum(SPARES).meta({ description: 'What is to be fitted.' }),
    limitMm: z.number().nullable(),
    usableMm: z
      .number()
      .nullable()
      .meta({ description: 'Of a new lining: from its new thickness to the limit.' }),
    overdue: z.boolean(),
    chanceRotorsToo: chance.nullable().meta({
      description:
        'That the rotors or drums would not outlast the set then fitted, and so go with this one; null where nobody can tell.',
    }),
    visits: z.array(PlanVisit),
    recommended: date
      .nullable()
      .meta({ description: 'One of the visits, by the rule; null where none will do.' }),
    words: z.string(),
    reasons: z.array(Reason),
  })
  .meta({ id: 'AxlePlan' });
export type AxlePlan = z.infer<typeof AxlePlan>;

export const PlanRule = z
  .strictObject({
    kind: z.enum(PLAN_RULES),
    greatestChance: chance.nullable().meta({ description: 'Of coming too late; null where costs decide.' }),
    costTooLate: amount.nullable(),
    costPerMmWasted: amount.nullable(),
    words: z.string().meta({ description: 'The rule, and what it takes for granted.' }),
  })
  .meta({ id: 'PlanRule' });
export type PlanRule = z.infer<typeof PlanRule>;

export const ReplacementPlan = z
  .strictObject({
    vehicleId: z.string(),
    today: date,
    asAt: AsAt.nullable(),
    dateSource: z.enum(PLAN_VISIT_SOURCES).meta({
      description:
        'Where the visits come from: the dates asked about, the vehicle’s rhythm, or the policy’s interval.',
    }),
    rule: PlanRule,
    axles: z.array(AxlePlan),
    cautions: z.array(Caution),
    reasons: z.array(Reason),
  })
  .meta({ id: 'ReplacementPlan' });
export type ReplacementPlan = z.infer<typeof ReplacementPlan>;
