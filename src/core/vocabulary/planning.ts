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
    .meta({ minimum: 0, description: 'The expected number: the sum of the chances of all axles.' }),
  low: wholeNumber.meta({ description: 'The 10 % point of the number.' }),
  high: wholeNumber.meta({ description: 'The 90 % point of the number.' }),
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
    words: z.string().meta({ description: 'The totals in words, with a note of what they leave out.' }),
    axles: wholeNumber.meta({ description: 'Axles that may need parts within these months.' }),
    rotorsUnknownCount: wholeNumber.meta({
      description:
        'Axles, among these, without a rotor or drum forecast, because readings or specifications are missing. Their rotors and drums are left out.',
    }),
    unassessedCount: wholeNumber.meta({
      description: 'Axles without a forecast, which are left out. The unassessed report lists them.',
    }),
    totals: z.array(PartsDemandTotal).meta({ description: 'Totals of all fleets, models and axles.' }),
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
      description: 'The chance that a lining reaches its governing limit before this visit.',
    }),
    wastedMm: LiningLeft.meta({
      description:
        'Lining wasted if the job is done at this visit: what the thinnest lining has left above its limit. 0 if it has reached the limit.',
    }),
    wastedShare: LiningLeft.nullable().meta({
      description: 'The wasted lining as a share of a new lining’s usable thickness.',
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
    item: z.enum(SPARES).meta({ description: 'The part to fit.' }),
    limitMm: z.number().nullable(),
    usableMm: z
      .number()
      .nullable()
      .meta({ description: 'The usable thickness of a new lining: from new to the limit.' }),
    overdue: z.boolean(),
    chanceRotorsToo: chance.nullable().meta({
      description:
        'The chance that the rotors or drums would not outlast the new set, so they should be replaced with it. Null if unknown.',
    }),
    visits: z.array(PlanVisit),
    recommended: date
      .nullable()
      .meta({ description: 'The visit that the rule recommends. Null if no visit meets the rule.' }),
    words: z.string(),
    reasons: z.array(Reason),
  })
  .meta({ id: 'AxlePlan' });
export type AxlePlan = z.infer<typeof AxlePlan>;

export const PlanRule = z
  .strictObject({
    kind: z.enum(PLAN_RULES),
    greatestChance: chance
      .nullable()
      .meta({ description: 'The maximum accepted chance of being too late. Null if costs decide.' }),
    costTooLate: amount.nullable(),
    costPerMmWasted: amount.nullable(),
    words: z.string().meta({ description: 'The rule and its assumptions.' }),
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
        'Where the visit dates come from: the request, the vehicle’s own visit interval, or the policy’s interval.',
    }),
    rule: PlanRule,
    axles: z.array(AxlePlan),
    cautions: z.array(Caution),
    reasons: z.array(Reason),
  })
  .meta({ id: 'ReplacementPlan' });
export type ReplacementPlan = z.infer<typeof ReplacementPlan>;
