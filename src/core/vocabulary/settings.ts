import { z } from 'zod';
import { toMm } from '../units.js';
import { EnteredLength, fullDate, identifier, Length, date, instant } from './quantities.js';
import { GAUGE_KINDS } from './terms.js';
import { boundedLength } from './vehicle.js';

/** The owner's settings for the whole shop: its policy and its gauges. */

const policyFields = {
  dueSoon: z
    .strictObject({
      withinDays: z.int().min(0).max(10_957).default(60),
      chance: z.number().min(0).max(1).default(0.1),
    })
    .default({ withinDays: 60, chance: 0.1 })
    .meta({ description: 'Default parameters of GET /v1/reports/due-soon.' }),
  visitIntervalDays: z.int().min(1).max(3653).default(182).meta({
    description:
      'Days between visits that the server assumes for a vehicle without a regular visit interval.',
  }),
  longestDaysWithoutReading: z
    .int()
    .min(1)
    .max(3653)
    .default(365)
    .meta({ description: 'An axle that has not been measured for longer than this gets a finding.' }),
  retentionYears: z.int().min(1).max(100).nullable().default(null).meta({
    description:
      'How many years `npm run prune` keeps audit entries and superseded versions. Null keeps them for good.',
  }),
  beforeTransfer: z
    .strictObject({
      readings: z.boolean().default(true).meta({ description: 'Visits and their readings.' }),
      notes: z
        .boolean()
        .default(false)
        .meta({ description: 'Complaints, notes, reasons and the vehicle’s earlier descriptions.' }),
      names: z.boolean().default(false).meta({ description: 'Technicians, shops and the names of keys.' }),
      fleets: z.boolean().default(false).meta({ description: 'The names of the vehicle’s earlier fleets.' }),
    })
    .default({ readings: true, notes: false, names: false, fleets: false })
    .meta({
      description:
        'What a fleet manager can see of a vehicle’s time in other fleets before it came to theirs. The forecasts use all readings, shown or not.',
    }),
};

export const EXAMPLE_POLICY = {
  ruleSets: ['uk-inspection-manual'],
  padMinimum: { value: 3, unit: 'mm' },
  dueSoon: { withinDays: 60, chance: 0.1 },
  visitIntervalDays: 182,
  longestDaysWithoutReading: 365,
  retentionYears: null,
  beforeTransfer: { readings: true, notes: false, names: false, fleets: false },
} as const;

/** The policy as sent; missing members get their defaults. */
export const PolicyBody = z
  .strictObject({
    ruleSets: z
      .array(identifier(100))
      .max(50)
      .default([])
      .meta({ description: 'The ids of the rule sets in GET /v1/limits that apply. None apply by default.' }),
    padMinimum: boundedLength('pad').nullish().default(null).meta({
      description: 'The shop’s own minimum thickness of friction material. A reading below it fails.',
    }),
    ...policyFields,
  })
  .meta({ id: 'PolicyBody', examples: [EXAMPLE_POLICY] });
export type PolicyBody = z.infer<typeof PolicyBody>;

export const DEFAULT_POLICY_BODY: PolicyBody = PolicyBody.parse({});

export const Policy = z
  .strictObject({
    id: z.literal('policy'),
    version: z.number().meta({ type: 'integer', description: '0 if the defaults are in force.' }),
    ruleSets: z.array(z.string()),
    padMinimum: Length.nullable(),
    ...policyFields,
    updatedAt: instant.nullable(),
    updatedBy: z.string().nullable().meta({ description: 'The name of the key that set it.' }),
  })
  .meta({ id: 'Policy' });
export type Policy = z.infer<typeof Policy>;

const SETTABLE_KINDS = GAUGE_KINDS.filter((kind) => kind !== 'assumed');
const gaugeLength = EnteredLength.refine((q) => toMm(q) > 0 && toMm(q) <= 5, {
  message: 'must be more than 0 and at most 5 mm',
  path: ['value'],
});

export const EXAMPLE_GAUGE = {
  kind: 'depth-gauge',
  resolution: { value: 0.1, unit: 'mm' },
  standardUncertainty: { value: 0.05, unit: 'mm' },
  calibrationDate: '2026-01-12',
  calibrationDueDate: '2027-01-12',
} as const;

/** A gauge as sent. */
export const GaugeBody = z
  .strictObject({
    kind: z.enum(SETTABLE_KINDS),
    resolution: gaugeLength.meta({ description: 'The smallest step that can be read.' }),
    standardUncertainty: gaugeLength.nullish().meta({
      description:
        'The standard uncertainty of one reading. If missing, the server takes that of rounding to the resolution: resolution / √12.',
    }),
    calibrationDate: fullDate.nullish(),
    calibrationDueDate: fullDate.nullish().meta({
      description: 'If missing, one year after calibrationDate (common practice, no source).',
    }),
  })
  .superRefine((gauge, context) => {
    const min = toMm(gauge.resolution) / Math.sqrt(12);
    if (gauge.standardUncertainty && toMm(gauge.standardUncertainty) < min - 1e-9) {
      const message = `must not be below the uncertainty of rounding to the resolution, ${Number(min.toPrecision(4))} mm`;
      context.addIssue({ code: 'custom', path: ['standardUncertainty', 'value'], message });
    }
    if (gauge.calibrationDueDate && gauge.calibrationDueDate < (gauge.calibrationDate ?? '9999-12-31')) {
      context.addIssue({
        code: 'custom',
        path: ['calibrationDueDate'],
        message: 'needs a calibrationDate, and must not be before it',
      });
    }
  })
  .meta({ id: 'GaugeBody', examples: [EXAMPLE_GAUGE] });
export type GaugeBody = z.infer<typeof GaugeBody>;

/** A gauge as answered. */
export const Gauge = z
  .strictObject({
    id: z.string(),
    version: z
      .number()
      .meta({ type: 'integer', description: '0 for a standard gauge that the shop has not changed.' }),
    name: z.string(),
    kind: z.enum(GAUGE_KINDS),
    resolutionMm: z.number(),
    standardUncertaintyMm: z.number().meta({
      description: 'The standard uncertainty of one reading, including rounding to the resolution.',
    }),
    calibrationDate: date.nullable(),
    calibrationDueDate: date.nullable(),
    outOfDate: z.boolean().meta({ description: 'Whether its calibration is overdue today.' }),
  })
  .meta({ id: 'Gauge' });
export type GaugeAnswer = z.infer<typeof Gauge>;
