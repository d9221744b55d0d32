import { z } from 'zod';
import { inWords } from '../rounding.js';
import { toMm, toNm } from '../units.js';
import { refuseImpossibleDrum, refuseImpossiblePad, refuseImpossibleRotor } from './possibleSpecs.js';
import type { EnteredLength } from './quantities.js';
import { Distance, fullDate, identifier, Length, text, timeOfDay, date, instant } from './quantities.js';
import {
  AXLES,
  CONDITION_PARTS,
  CONDITION_STATES,
  LENGTH_UNITS,
  LINING_POSITIONS,
  MEASURED_PADS,
  PLACES,
  PULLS,
  SHOES,
  SIDES,
  TAKEN,
  TORQUE_UNITS,
  WORK_KINDS,
} from './terms.js';
import {
  boundedOdometer,
  EnteredDrumSpec,
  EnteredPadSpec,
  EnteredRotorSpec,
  WearIndicator,
} from './vehicle.js';

/** Physical bounds of a reading in mm, wide enough for any road vehicle (common practice, no source). */
const READING_BOUNDS = {
  'pad-thickness': [0, 40],
  'rotor-thickness': [2, 80],
  'rotor-runout': [0, 5],
  'shoe-thickness': [0, 40],
  'drum-diameter': [100, 700],
} as const;

const axle = z.enum(AXLES);
const side = z.enum(SIDES);
const gauge = identifier(60).nullish().meta({
  description: 'The name of a gauge in GET /v1/gauges. If missing, the server assumes a coarse gauge.',
});
const taken = z.enum(TAKEN).default('as-found');
const repeat = z.int().min(1).max(20).default(1);
const measured = { value: z.number(), unit: z.enum(LENGTH_UNITS), taken, gauge, repeat };

function inBounds<
  T extends z.ZodObject<{
    kind: z.ZodLiteral<keyof typeof READING_BOUNDS>;
    value: z.ZodNumber;
    unit: z.ZodEnum;
  }>,
>(schema: T) {
  return schema.superRefine((reading, context) => {
    const entered = reading as unknown as { kind: keyof typeof READING_BOUNDS } & z.infer<
      typeof EnteredLength
    >;
    const [min, max] = READING_BOUNDS[entered.kind];
    const mm = toMm(entered);
    if (mm < min || mm > max) {
      const inches = entered.value * 25.4;
      const isInches = entered.unit === 'mm' && inches >= min && inches <= max;
      const hint = isInches ? '. If it was read in inches, send "unit": "in"' : '';
      const message = `${entered.kind} must be from ${min} to ${max} mm; this is ${inWords(mm, 6)} mm${hint}`;
      context.addIssue({ code: 'custom', path: ['value'], message });
    }
  });
}

/** Only the thinnest lining of an axle has no side. */
const liningSide = side.nullable().default(null).meta({
  description:
    'Required unless the reading is of the thinnest lining. If it is missing there, the reading is the thinnest of the axle.',
});

/** Requires the side of a lining that is named by its position. */
function refuseMissingSide(
  reading: { side?: unknown } & ({ pad: string } | { shoe: string }),
  context: z.RefinementCtx,
): void {
  const isPad = 'pad' in reading;
  const lining = isPad ? reading.pad : reading.shoe;
  if (reading.side != null || lining === 'thinnest') return;
  const message = `the ${lining} ${isPad ? 'pad' : 'shoe'} needs a side, left or right; only the thinnest of the axle has none`;
  context.addIssue({ code: 'custom', path: ['side'], message });
}

const PadThicknessBody = z.strictObject({
  kind: z.literal('pad-thickness'),
  axle,
  side: liningSide,
  pad: z.enum(MEASURED_PADS).meta({
    description:
      'Inner or outer; or `thinnest`, the thinner pad of that wheel or, without a side, the thinnest of the axle.',
  }),
  at: z.enum(PLACES).default('thinnest'),
  ...measured,
});
const RotorThicknessBody = z.strictObject({
  kind: z.literal('rotor-thickness'),
  axle,
  side,
  point: z.int().min(1).max(36).nullish(),
  ...measured,
});
const ShoeThicknessBody = z.strictObject({
  kind: z.literal('shoe-thickness'),
  axle,
  side: liningSide,
  shoe: z.enum(SHOES).default('thinnest'),
  at: z.enum(PLACES).default('thinnest'),
  ...measured,
});
const DrumDiameterBody = z.strictObject({
  kind: z.literal('drum-diameter'),
  axle,
  side,
  point: z.int().min(1).max(36).nullish(),
  ...measured,
});
const RotorRunoutBody = z.strictObject({ kind: z.literal('rotor-runout'), axle, side, ...measured });

export const ReadingBody = z
  .discriminatedUnion('kind', [
    inBounds(PadThicknessBody).superRefine(refuseMissingSide).meta({
      id: 'PadThicknessBody',
      description:
        'Friction material only, at its thinnest, without backing plate, shim and bevel; riveted linings above the rivet head.',
    }),
    inBounds(RotorThicknessBody).meta({
      id: 'RotorThicknessBody',
      description: 'Measured inside the worn band, away from the rust lip, at several points on one radius.',
    }),
    inBounds(RotorRunoutBody).meta({
      id: 'RotorRunoutBody',
      description: 'Total indicated reading of the mounted rotor.',
    }),
    inBounds(ShoeThicknessBody).superRefine(refuseMissingSide).meta({
      id: 'ShoeThicknessBody',
      description:
        'Lining of a drum brake, without its shoe; riveted linings above the rivet head. If the reading does not name a shoe, it is the thinnest lining of that wheel or, without a side, of the axle.',
    }),
    inBounds(DrumDiameterBody).meta({
      id: 'DrumDiameterBody',
      description: 'Inner diameter of the worn track, at several points across different diameters.',
    }),
  ])
  .meta({ id: 'ReadingBody' });
export type ReadingBody = z.infer<typeof ReadingBody>;

export const ConditionBody = z
  .strictObject({
    part: z.enum(CONDITION_PARTS),
    axle,
    side: side.nullish(),
    pad: z.enum(LINING_POSITIONS).nullish(),
    state: z.enum(CONDITION_STATES),
    notes: text(1000).nullish(),
  })
  .meta({ id: 'ConditionBody' });

export const NotMeasuredBody = z
  .strictObject({
    axle,
    side: side.nullish(),
    part: z.enum(CONDITION_PARTS).nullish(),
    pad: z.enum(LINING_POSITIONS).nullish(),
    why: text(500),
  })
  .meta({ id: 'NotMeasuredBody' });

const padSpecFields = EnteredPadSpec.shape;
const rotorSpecFields = EnteredRotorSpec.shape;
const drumSpecFields = EnteredDrumSpec.shape;
const workOn = { axle, side: side.nullish(), part: text(200).nullish(), notes: text(1000).nullish() };

export const WorkBody = z
  .discriminatedUnion('kind', [
    z
      .strictObject({ kind: z.literal('pads-replaced'), ...workOn, ...padSpecFields })
      .superRefine(refuseImpossiblePad)
      .meta({ id: 'PadsReplacedBody' }),
    z
      .strictObject({ kind: z.literal('rotor-replaced'), ...workOn, ...rotorSpecFields })
      .superRefine(refuseImpossibleRotor)
      .meta({ id: 'RotorReplacedBody' }),
    z.strictObject({ kind: z.literal('rotor-machined'), ...workOn }).meta({ id: 'RotorMachinedBody' }),
    z
      .strictObject({ kind: z.literal('shoes-replaced'), ...workOn, ...padSpecFields })
      .superRefine(refuseImpossiblePad)
      .meta({ id: 'ShoesReplacedBody' }),
    z
      .strictObject({ kind: z.literal('drum-replaced'), ...workOn, ...drumSpecFields })
      .superRefine(refuseImpossibleDrum)
      .meta({ id: 'DrumReplacedBody' }),
    z.strictObject({ kind: z.literal('drum-machined'), ...workOn }).meta({ id: 'DrumMachinedBody' }),
    z
      .strictObject({ kind: z.enum(['slides-serviced', 'caliper-replaced', 'hose-replaced']), ...workOn })
      .meta({ id: 'ServiceBody' }),
    z
      .strictObject({ kind: z.literal('fluid-changed'), ...workOn, axle: axle.nullish() })
      .meta({ id: 'FluidChangedBody' }),
  ])
  .meta({
    id: 'WorkBody',
    description: `What was done: ${WORK_KINDS.join(', ')}. A missing side means both.`,
  });
export type WorkBody = z.infer<typeof WorkBody>;

export const TorqueBody = z
  .strictObject({
    fastener: identifier(60),
    axle,
    side: side.nullish(),
    position: z.int().min(1).max(40).nullish(),
    value: z.number().min(0),
    unit: z.enum(TORQUE_UNITS),
  })
  .refine((torque) => toNm(torque) <= 3000, { message: 'must be from 0 to 3,000 N·m', path: ['value'] })
  .meta({ id: 'TorqueBody' });

export const RoadTest = z
  .strictObject({
    pulls: z.enum(PULLS).nullish(),
    pulsation: z.boolean().nullish(),
    noise: z.boolean().nullish(),
    notes: text(2000).nullish(),
  })
  .meta({ id: 'RoadTest' });

const contents = {
  readings: z.array(ReadingBody).max(500),
  notMeasured: z.array(NotMeasuredBody).max(200),
  conditions: z.array(ConditionBody).max(200),
  work: z.array(WorkBody).max(100),
  torques: z.array(TorqueBody).max(200),
};
const optionalContents = {
  readings: contents.readings.nullish(),
  notMeasured: contents.notMeasured.nullish(),
  conditions: contents.conditions.nullish(),
  work: contents.work.nullish(),
  torques: contents.torques.nullish(),
  roadTest: RoadTest.nullish(),
};

export const EXAMPLE_VISIT = {
  date: '2026-03-02',
  time: '08:10',
  odometer: { value: 61240, unit: 'km' },
  workOrder: 'WO-20817',
  technician: 'T4',
  readings: [
    {
      kind: 'pad-thickness',
      axle: 'front',
      side: 'left',
      pad: 'inner',
      value: 6.5,
      unit: 'mm',
      gauge: 'pad-gauge',
    },
    {
      kind: 'pad-thickness',
      axle: 'front',
      side: 'left',
      pad: 'outer',
      value: 7,
      unit: 'mm',
      gauge: 'pad-gauge',
    },
    {
      kind: 'pad-thickness',
      axle: 'front',
      side: 'right',
      pad: 'outer',
      value: 7,
      unit: 'mm',
      gauge: 'pad-gauge',
    },
    {
      kind: 'rotor-thickness',
      axle: 'front',
      side: 'left',
      point: 1,
      value: 1.081,
      unit: 'in',
      gauge: 'micrometer',
    },
    { kind: 'rotor-runout', axle: 'front', side: 'left', value: 0.0015, unit: 'in', gauge: 'dial-indicator' },
  ],
  notMeasured: [{ axle: 'front', side: 'right', pad: 'inner', why: 'wheel not removed' }],
  torques: [
    { fastener: 'caliper-bracket-bolt', axle: 'front', side: 'left', position: 1, value: 88, unit: 'ft-lbf' },
  ],
  roadTest: { pulls: 'none', pulsation: false, noise: false },
} as const;

/** A visit as sent. */
export const VisitBody = z
  .strictObject({
    date: fullDate,
    time: timeOfDay.nullish(),
    odometer: boundedOdometer
      .nullish()
      .meta({ description: 'If missing or null, this visit gives no distance and no wear rate.' }),
    odometerReplaced: z
      .strictObject({ oldFinal: boundedOdometer.nullish(), newStart: boundedOdometer.nullish() })
      .nullish()
      .meta({
        description:
          'Send this if the odometer was replaced. `odometer` is then the new odometer’s reading, and the server checks later readings against it.',
      }),
    workOrder: identifier(100)
      .nullish()
      .meta({ description: 'The work order number, unique per vehicle and shop.' }),
    shop: identifier(100).nullish(),
    technician: identifier(100).nullish(),
    complaint: text(4000).nullish(),
    notes: text(4000).nullish(),
    ...optionalContents,
  })
  .meta({ id: 'VisitBody', examples: [EXAMPLE_VISIT] });
export type VisitBody = z.infer<typeof VisitBody>;

/** A later addition to a visit, such as the afternoon's work after the morning's readings. */
export const EntryBody = z
  .strictObject(optionalContents)
  .refine(
    (entry) =>
      Object.values(entry).some((value) => value != null && (!Array.isArray(value) || value.length > 0)),
    {
      message: 'must add at least one of readings, notMeasured, conditions, work, torques and roadTest',
      path: [],
    },
  )
  .meta({
    id: 'EntryBody',
    examples: [
      {
        work: [{ kind: 'pads-replaced', axle: 'front', new: { value: 11, unit: 'mm' } }],
        roadTest: { pulls: 'none' },
      },
    ],
  });
export type EntryBody = z.infer<typeof EntryBody>;

const id = z.string();
const stored = { id, mm: z.number() };
const storedSide = side.nullable().meta({ description: 'Null for the thinnest lining of the axle.' });

export const Reading = z
  .discriminatedUnion('kind', [
    z.strictObject({ ...PadThicknessBody.shape, side: storedSide, ...stored }).meta({ id: 'PadThickness' }),
    z.strictObject({ ...RotorThicknessBody.shape, ...stored }).meta({ id: 'RotorThickness' }),
    z.strictObject({ ...RotorRunoutBody.shape, ...stored }).meta({ id: 'RotorRunout' }),
    z.strictObject({ ...ShoeThicknessBody.shape, side: storedSide, ...stored }).meta({ id: 'ShoeThickness' }),
    z.strictObject({ ...DrumDiameterBody.shape, ...stored }).meta({ id: 'DrumDiameter' }),
  ])
  .meta({ id: 'Reading' });
export type Reading = z.infer<typeof Reading>;

export const WorkItem = z
  .strictObject({
    id,
    kind: z.enum(WORK_KINDS),
    axle: axle.nullish(),
    side: side.nullish(),
    part: z.string().nullish(),
    notes: z.string().nullish(),
    new: Length.nullish(),
    limit: Length.nullish(),
    wearIndicator: WearIndicator.nullish(),
    discard: Length.nullish(),
    maximum: Length.nullish(),
    machineTo: Length.nullish(),
    runoutLimit: Length.nullish(),
    variationLimit: Length.nullish(),
  })
  .meta({ id: 'WorkItem' });
export type WorkItem = z.infer<typeof WorkItem>;

export const TorqueReading = z
  .strictObject({
    id,
    fastener: z.string(),
    axle,
    side: side.nullish(),
    position: z.number().nullish(),
    value: z.number(),
    unit: z.enum(TORQUE_UNITS),
    Nm: z.number(),
  })
  .meta({ id: 'TorqueReading' });

export const Voided = z
  .strictObject({
    at: instant,
    by: z.string().nullable().meta({ description: 'The name of the API key.' }),
    reason: z.string(),
  })
  .meta({
    id: 'Voided',
    description: 'A voided visit does not count in any forecast or report, but it can still be read.',
  });
export type Voided = z.infer<typeof Voided>;

const visitAnswer = {
  id,
  version: z.number().meta({ type: 'integer' }),
  vehicleId: id,
  date,
  time: z.string().nullish(),
  odometer: Distance.nullish(),
  odometerReplaced: z.strictObject({ oldFinal: Distance.nullish(), newStart: Distance.nullish() }).nullish(),
  workOrder: z.string().nullish(),
  shop: z.string().nullish(),
  technician: z.string().nullish(),
  complaint: z.string().nullish(),
  notes: z.string().nullish(),
  readings: z.array(Reading),
  notMeasured: z.array(NotMeasuredBody),
  conditions: z.array(ConditionBody),
  work: z.array(WorkItem),
  torques: z.array(TorqueReading),
  roadTest: RoadTest.nullish(),
  voided: Voided.nullish(),
  createdAt: instant,
  updatedAt: instant,
};

/** A visit as answered. */
export const Visit = z.strictObject(visitAnswer).meta({ id: 'Visit' });
export type Visit = z.infer<typeof Visit>;
