import { z } from 'zod';
import { Range, Reason, date } from './quantities.js';
import {
  ADVICE_ACTIONS,
  ADVICE_PARTS,
  AXLES,
  CONFORMITIES,
  FAILS_AT,
  LIMIT_SOURCES,
  LINING_POSITIONS,
  NEXT_VISIT_SOURCES,
  PAD_SETS,
  ROTOR_DECISIONS,
  SEVERITIES,
  SIDES,
  URGENCIES,
} from './terms.js';

const axle = z.enum(AXLES);
const side = z.enum(SIDES);
const pad = z.enum(LINING_POSITIONS).meta({
  description:
    'The inner or outer pad; on a drum brake, the leading or trailing shoe. `thinnest` is the thinner lining of a wheel or, without a side, the thinnest of the axle.',
});
/** The side of a lining; the thinnest of the axle has none. */
const liningSide = side.nullable();
const chance = z.number().meta({ minimum: 0, maximum: 1 });
const reasons = z.array(Reason);

export const Limit = z
  .strictObject({
    source: z.enum(LIMIT_SOURCES),
    rule: z.string().meta({ description: 'The limit and its source.' }),
    ruleSet: z
      .string()
      .optional()
      .meta({ description: 'For a legal limit, its rule set in GET /v1/limits.' }),
    ruleId: z.string().optional().meta({ description: 'For a legal limit, its rule in that set.' }),
    citation: z
      .string()
      .optional()
      .meta({ description: 'For a legal limit, the set and the item or section, as they are cited.' }),
    defectClass: z
      .string()
      .optional()
      .meta({ description: 'For a legal limit, the class of the defect, if the source has classes.' }),
    link: z.string().optional().meta({ description: 'For a legal limit, where the rule is published.' }),
    limitMm: z.number(),
    failsAt: z.enum(FAILS_AT),
    fails: z
      .boolean()
      .nullable()
      .meta({ description: 'Whether the latest reading fails the rule, ignoring the gauge’s error.' }),
    conformity: z.enum(CONFORMITIES).nullable().meta({
      description:
        'Whether the limit is below, inside or above the reading’s 95 % interval. The interval includes the gauge’s error and the scatter of repeats. It leaves out where on the lining the gauge was placed, which `chanceWithPlacement` includes.',
    }),
    chanceOfConformity: chance.nullable().meta({
      description:
        'Chance that the true thickness is above the limit, given the errors that `conformity` includes.',
    }),
    chanceWithPlacement: chance.nullable().meta({
      description:
        'The same chance, including the error of where the gauge was placed on the lining (about 0.2 mm, learned). The forecast includes this error too.',
    }),
    governs: z.boolean(),
  })
  .meta({ id: 'Limit' });
export type Limit = z.infer<typeof Limit>;

export const PadWear = z
  .strictObject({
    side: liningSide,
    pad,
    readings: z.number().meta({ type: 'integer', description: 'Readings of the pad since it was fitted.' }),
    fitted: z
      .strictObject({ date: date.nullable(), odometerKm: z.number().nullable() })
      .nullable()
      .meta({ description: 'When the pad was fitted. Null if unknown.' }),
    latest: z.strictObject({ valueMm: z.number(), date }).nullable(),
    ratePer1000KmMm: Range.nullable(),
    remainingMm: Range.nullable().meta({ description: 'Lining left above the governing limit, at `asAt`.' }),
    limits: z.array(Limit),
    reasons,
  })
  .meta({ id: 'PadWear' });
export type PadWear = z.infer<typeof PadWear>;

/** Quantiles of a forecast, earliest first: 10, 25, 50, 75 and 90 %. */
const intervalOf = <Value extends z.ZodType>(value: Value) => ({
  early: value,
  lowerQuartile: value,
  median: value,
  upperQuartile: value,
  late: value,
});

export const DistanceInterval = z.strictObject(intervalOf(z.number().nullable())).meta({
  id: 'DistanceInterval',
  description: '10 %, 25 %, 50 %, 75 % and 90 % points of the distance from `asAt`.',
});
export type DistanceInterval = z.infer<typeof DistanceInterval>;
export const DateInterval = z.strictObject(intervalOf(date.nullable())).meta({
  id: 'DateInterval',
  description: '10 %, 25 %, 50 %, 75 % and 90 % points; null beyond 30 years.',
});
export type DateInterval = z.infer<typeof DateInterval>;

export const Basis = z
  .strictObject({
    readings: z.number().meta({ type: 'integer', description: 'Readings of the pads now on this axle.' }),
    experience: z.string().meta({ description: 'The name of the experience that the forecast used.' }),
    set: z.enum(PAD_SETS).meta({
      description:
        'What is known of the fitted set’s origin: its fitting is recorded, it is the vehicle’s original set, or neither is certain.',
    }),
    words: z.string(),
  })
  .meta({ id: 'Basis' });
export type Basis = z.infer<typeof Basis>;

export const UntilNextVisit = z
  .strictObject({ date, dateSource: z.enum(NEXT_VISIT_SOURCES), chanceLimitReached: chance.nullable() })
  .meta({ id: 'UntilNextVisit', description: 'Whether the part lasts until the vehicle’s next visit.' });
export type UntilNextVisit = z.infer<typeof UntilNextVisit>;

export const Replacement = z
  .strictObject({
    governingPad: z.strictObject({ side: liningSide, pad }).nullable(),
    limitMm: z.number().nullable(),
    distanceKm: DistanceInterval.nullable(),
    date: DateInterval.nullable(),
    overdue: z.boolean(),
    basis: Basis,
    untilNextVisit: UntilNextVisit,
    reasons,
  })
  .meta({ id: 'Replacement' });
export type Replacement = z.infer<typeof Replacement>;

export const DecisionReason = z
  .strictObject({ code: z.string(), detail: z.string() })
  .meta({ id: 'DecisionReason' });
export type DecisionReason = z.infer<typeof DecisionReason>;

const chancesOfConformity = (limit: string) => ({
  chanceOfConformity: chance.nullable().meta({
    description: `Chance that the part has not passed its ${limit}, given the gauge’s error and the scatter of repeats.`,
  }),
  chanceWithPlacement: chance.nullable().meta({
    description:
      'The same chance, including the error of where the gauge was placed (0.02 mm). The forecast includes this error too.',
  }),
});

export const RotorWear = z
  .strictObject({
    side,
    readings: z
      .number()
      .meta({ type: 'integer', description: 'Visits that measured this rotor’s thickness.' }),
    fitted: z.strictObject({ date: date.nullable(), odometerKm: z.number().nullable() }).nullable(),
    latestDate: date.nullable(),
    thinnestMm: z.number().nullable(),
    discardMm: z.number().nullable(),
    machineToMm: z.number().nullable(),
    marginMm: z.number().nullable().meta({ description: 'The thinnest point minus the discard thickness.' }),
    marginStandardUncertaintyMm: z.number().nullable(),
    fails: z.boolean().nullable().meta({
      description: 'Whether the latest reading is below the discard thickness, ignoring the gauge’s error.',
    }),
    conformity: z.enum(CONFORMITIES).nullable(),
    ...chancesOfConformity('discard thickness'),
    variationMm: z.number().nullable(),
    variationConformity: z.enum(CONFORMITIES).nullable(),
    runoutMm: z.number().nullable(),
    runoutConformity: z.enum(CONFORMITIES).nullable(),
    ratePer1000KmMm: Range.nullable(),
    date: DateInterval.nullable().meta({ description: 'When the rotor reaches its discard thickness.' }),
    untilNextVisit: UntilNextVisit,
    marginAtPadReplacementMm: Range.nullable(),
    marginAfterNextPadSetMm: Range.nullable(),
    decision: z.enum(ROTOR_DECISIONS),
    decisionReasons: z.array(DecisionReason),
    reasons,
  })
  .meta({ id: 'RotorWear' });
export type RotorWear = z.infer<typeof RotorWear>;

export const DrumWear = z
  .strictObject({
    side,
    readings: z.number().meta({ type: 'integer', description: 'Visits that measured this drum’s diameter.' }),
    fitted: z.strictObject({ date: date.nullable(), odometerKm: z.number().nullable() }).nullable(),
    latestDate: date.nullable(),
    largestMm: z.number().nullable(),
    maximumMm: z.number().nullable(),
    machineToMm: z.number().nullable(),
    marginMm: z
      .number()
      .nullable()
      .meta({ description: 'The maximum diameter minus the largest one measured.' }),
    marginStandardUncertaintyMm: z.number().nullable(),
    fails: z
      .boolean()
      .nullable()
      .meta({ description: 'Whether the latest reading is above the maximum, ignoring the gauge’s error.' }),
    conformity: z.enum(CONFORMITIES).nullable(),
    ...chancesOfConformity('maximum diameter'),
    outOfRoundMm: z
      .number()
      .nullable()
      .meta({ description: 'The largest diameter measured minus the smallest.' }),
    ratePer1000KmMm: Range.nullable().meta({ description: 'Growth of the diameter.' }),
    date: DateInterval.nullable().meta({ description: 'When the drum reaches its maximum diameter.' }),
    untilNextVisit: UntilNextVisit,
    marginAtShoeReplacementMm: Range.nullable(),
    marginAfterNextShoeSetMm: Range.nullable(),
    decision: z.enum(ROTOR_DECISIONS),
    decisionReasons: z.array(DecisionReason),
    reasons,
  })
  .meta({ id: 'DrumWear' });
export type DrumWear = z.infer<typeof DrumWear>;

export const Finding = z
  .strictObject({
    code: z.string(),
    axle: axle.nullable(),
    side: side.nullable(),
    pad: pad.nullable(),
    severity: z.enum(SEVERITIES),
    message: z.string(),
    check: z.string().meta({ description: 'A check to make, not a diagnosis.' }),
    numbers: z
      .record(z.string(), z.number())
      .meta({ description: 'The figures behind the finding. Each name ends in its unit.' }),
  })
  .meta({ id: 'Finding' });
export type Finding = z.infer<typeof Finding>;

/** A stop finding, as the report of stopped axles shows it. */
export const StopFinding = z
  .strictObject(Finding.pick({ code: true, side: true, pad: true }).shape)
  .meta({ id: 'StopFinding' });
export type StopFinding = z.infer<typeof StopFinding>;

export const Caution = z
  .strictObject({ code: z.string(), message: z.string(), source: z.string() })
  .meta({ id: 'Caution' });
export type Caution = z.infer<typeof Caution>;

export const Advice = z
  .strictObject({
    action: z.enum(ADVICE_ACTIONS),
    part: z.enum(ADVICE_PARTS).nullable().meta({
      description:
        'The part to work on. `pads` means the linings: pads or shoes. Null if there is nothing to do.',
    }),
    by: date.nullable().meta({
      description: 'The date to act by, which is today if the work is due now. Null if there is no date.',
    }),
    words: z.string().meta({ description: 'The next step, in one sentence.' }),
    why: z.string().meta({ description: 'The reason: the reading, the limit and the forecast.' }),
    rotors: z
      .string()
      .nullable()
      .meta({ description: 'What to do with the rotors or drums, if `words` and `why` do not say.' }),
    checks: z.number().meta({
      type: 'integer',
      description:
        'Number of checks that open findings of this axle ask for and `words` does not mention; several findings may ask for the same.',
    }),
    check: z.string().nullable().meta({
      description: 'The open check in words, or the number of open checks. Null if there are none.',
    }),
    status: z.string().meta({ description: 'The state of the axle in a few words.' }),
    urgency: z.enum(URGENCIES),
  })
  .meta({
    id: 'Advice',
    description:
      'The next step on this axle: the most urgent of its linings, its rotors or drums and its findings. It supports a decision and never calls a vehicle fit to drive.',
  });
export type Advice = z.infer<typeof Advice>;

export const AxleWear = z
  .strictObject({
    axle,
    advice: Advice,
    pads: z.array(PadWear),
    replacement: Replacement,
    rotors: z.array(RotorWear),
    drums: z.array(DrumWear),
    findings: z.array(Finding),
  })
  .meta({ id: 'AxleWear' });
export type AxleWear = z.infer<typeof AxleWear>;

export const Usage = z.strictObject({ kmPerDay: Range.nullable(), reasons }).meta({ id: 'Usage' });
export type Usage = z.infer<typeof Usage>;

export const AsAt = z
  .strictObject({ date, odometerKm: z.number().nullable() })
  .meta({ id: 'AsAt', description: 'The latest visit. Distances and remaining thickness count from it.' });
export type AsAt = z.infer<typeof AsAt>;

export const Wear = z
  .strictObject({
    vehicleId: z.string(),
    usage: Usage,
    asAt: AsAt.nullable(),
    axles: z.array(AxleWear),
    cautions: z.array(Caution),
    reasons,
  })
  .meta({ id: 'Wear' });
export type Wear = z.infer<typeof Wear>;
