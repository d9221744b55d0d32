import { z } from 'zod';
import { Reason, date } from './quantities.js';
import { AXLES, ENDS_KNOWN, PAD_SETS, STAGES } from './terms.js';

const axle = z.enum(AXLES);
const count = z.number().meta({ type: 'integer', minimum: 0 });
const share = z.number().meta({ minimum: 0, maximum: 1 });
const model = z.string().nullable().meta({ description: 'Null for vehicles without a model.' });
const stage = z
  .enum(STAGES)
  .meta({ description: 'The number of readings of the fitted pads when the forecast was made.' });
const set = z.enum(PAD_SETS).meta({
  description: 'How the age of the set was known when the forecast was made, as in its `basis.set`.',
});
const reasons = z.array(Reason);

/** A rule of thumb, compared on the forecasts for which it also gives a date. */
const Rival = z
  .strictObject({
    forecasts: count,
    meanAbsoluteErrorDays: z.number(),
    ratio: z.number().nullable().meta({
      description:
        'Mean absolute error of the server’s forecasts, divided by that of the simple rule for the same pads.',
    }),
  })
  .meta({ id: 'RivalAccuracy' });

const DateFigures = z
  .strictObject({
    interpolatedShare: share.meta({
      description:
        'Share of the sets whose date is interpolated between a reading above the limit and the next one at or below it.',
    }),
    extrapolatedShare: share.meta({
      description:
        'Share of the sets that were changed early and whose date is extrapolated along a straight line through their own wear.',
    }),
    meanAbsoluteErrorDays: z.number().meta({ description: 'Mean absolute error of the median date.' }),
    medianAbsoluteErrorDays: z.number(),
    biasDays: z.number().meta({
      description: 'Mean of forecast minus actual date. Positive if the forecast dates were too late.',
    }),
    meanAbsoluteErrorKm: z.number().nullable(),
    biasKm: z.number().nullable(),
    inside80: count.meta({ description: 'Forecasts whose early-to-late interval contains the actual day.' }),
    before80: count.meta({ description: 'Forecasts where the limit was reached before the early date.' }),
    after80: count.meta({ description: 'Forecasts where the limit was reached after the late date.' }),
    inside80Share: share,
    inside80StandardError: z
      .number()
      .nullable()
      .meta({ description: 'The standard error, with the forecasts of one vehicle treated as one cluster.' }),
    inside80ShareWithUnderWay: share.nullable().meta({
      description:
        'The same share, corrected for the sets still in use. Fast-wearing pads reach their limit first, so the finished sets alone are a biased sample. The correction is a Kaplan–Meier estimate, which takes each forecast’s probability of reaching the limit by the day as its time scale.',
    }),
    againstTwoPoint: Rival.nullable().meta({
      description:
        'Compared with the two-point rule: the wear rate from new to the latest reading, driven on at the km a day between the last two visits.',
    }),
    againstLine: Rival.nullable().meta({
      description:
        'Compared with the straight-line rule: a least-squares line through each pad’s thickness when fitted, driven on at the mean km a day since then.',
    }),
  })
  .meta({ id: 'DateFigures' });
export type DateFigures = z.infer<typeof DateFigures>;

const dates = {
  vehicles: count,
  padSets: count.meta({ description: 'Sets of pads whose first pad is known to have reached its limit.' }),
  forecasts: count.meta({
    description: 'Forecasts made while those pads were fitted, before they reached the limit.',
  }),
  underWay: count.meta({
    description: 'Forecasts for pads that have not reached their limit yet, or were changed long before it.',
  }),
  figures: DateFigures.nullable(),
  reasons,
};

const ReadingFigures = z
  .strictObject({
    meanAbsoluteErrorMm: z.number(),
    biasMm: z.number().meta({
      description: 'Mean of reading minus forecast median. Positive if the pads wore less than forecast.',
    }),
    meanCrpsMm: z.number().meta({ description: 'Continuous ranked probability score; lower is better.' }),
    inside50Share: share,
    inside50StandardError: z.number(),
    inside80Share: share,
    inside80StandardError: z.number(),
    inside95Share: share,
    inside95StandardError: z.number(),
    tenthShares: z.array(share).meta({
      description:
        'Histogram of the readings’ forecast quantiles, in tenths from thinnest to thickest. All are 0.1 if the forecasts are calibrated.',
    }),
  })
  .meta({
    id: 'ReadingFigures',
    description: 'Standard errors treat the readings of one vehicle as one cluster.',
  });

const nextReadings = { vehicles: count, readings: count, figures: ReadingFigures.nullable(), reasons };

export const DateAccuracy = z.strictObject(dates).meta({ id: 'DateAccuracy' });
export type DateAccuracy = z.infer<typeof DateAccuracy>;
export const ReadingAccuracy = z.strictObject(nextReadings).meta({ id: 'ReadingAccuracy' });
export type ReadingAccuracy = z.infer<typeof ReadingAccuracy>;

const byAxleAndModel = { axle, model };
const byStage = { stage };
const bySet = { set };
const DatesByAxleAndModel = z
  .strictObject({ ...byAxleAndModel, ...dates })
  .meta({ id: 'DateAccuracyByAxleAndModel' });
const DatesByReadings = z.strictObject({ ...byStage, ...dates }).meta({ id: 'DateAccuracyByReadings' });
const DatesBySet = z.strictObject({ ...bySet, ...dates }).meta({ id: 'DateAccuracyBySet' });
const ReadingsByAxleAndModel = z
  .strictObject({ ...byAxleAndModel, ...nextReadings })
  .meta({ id: 'ReadingAccuracyByAxleAndModel' });
const ReadingsByReadings = z
  .strictObject({ ...byStage, ...nextReadings })
  .meta({ id: 'ReadingAccuracyByReadings' });
const ReadingsBySet = z.strictObject({ ...bySet, ...nextReadings }).meta({ id: 'ReadingAccuracyBySet' });

/** Accuracy of past forecasts, overall and in groups. */
export const Accuracy = z
  .strictObject({
    words: z.string().meta({ description: 'A summary of the figures in plain words.' }),
    dates: z
      .strictObject({
        total: DateAccuracy,
        byAxleAndModel: z.array(DatesByAxleAndModel),
        byReadings: z.array(DatesByReadings),
        bySet: z.array(DatesBySet),
      })
      .meta({
        description:
          'Forecast dates and distances compared with when the first pad reached its governing limit.',
      }),
    nextReadings: z
      .strictObject({
        total: ReadingAccuracy,
        byAxleAndModel: z.array(ReadingsByAxleAndModel),
        byReadings: z.array(ReadingsByReadings),
        bySet: z.array(ReadingsBySet),
      })
      .meta({ description: 'Each pad reading compared with its forecast from the visit before.' }),
  })
  .meta({ id: 'Accuracy' });
export type Accuracy = z.infer<typeof Accuracy>;

/** One past forecast of one axle, and its outcome. */
export const PastForecast = z
  .strictObject({
    vehicleId: z.string(),
    externalId: z.string().nullable(),
    registration: z.string().nullable(),
    fleet: z.string().nullable(),
    model: z.string().nullable(),
    axle,
    forecastDate: date.meta({ description: 'The date of the visit at which the forecast was made.' }),
    readings: count,
    set,
    experience: z.string().meta({ description: 'The name of the experience that the forecast used.' }),
    earlyDate: date.nullable(),
    medianDate: date.nullable(),
    lateDate: date.nullable(),
    reachedDate: date.meta({
      description:
        'When the limit was reached. If `howKnown` is extrapolated, when it would have been reached, which may be in the future.',
    }),
    howKnown: z.enum(ENDS_KNOWN),
    errorDays: z
      .number()
      .nullable()
      .meta({ description: 'Median date minus actual date. Positive if the forecast was too late.' }),
    errorKm: z.number().nullable(),
    inside80: z.boolean(),
    twoPointErrorDays: z.number().nullable(),
    lineErrorDays: z.number().nullable(),
    reasons,
  })
  .meta({ id: 'PastForecast' });
export type PastForecast = z.infer<typeof PastForecast>;
