import { z } from 'zod';
import { Reason, date } from './quantities.js';
import { AXLES, ENDS_KNOWN, PAD_SETS, STAGES } from './terms.js';

const axle = z.enum(AXLES);
const count = z.number().meta({ type: 'integer', minimum: 0 });
const share = z.number().meta({ minimum: 0, maximum: 1 });
const model = z.string().nullable().meta({ description: 'Null for the vehicles of no model.' });
const stage = z
  .enum(STAGES)
  .meta({ description: 'Readings of the pads then on the axle when the forecast was made.' });
const set = z.enum(PAD_SETS).meta({
  description: 'What was known of the set of pads when the forecast was made, as in its `basis.set`.',
});
const reasons = z.array(Reason);

/** A rule of thumb, compared on the forecasts for which it also gives a date. */
const Rival = z
  .strictObject({
    forecasts: count,
    meanAbsoluteErrorDays: z.number(),
    ratio: z.number().nullable().meta({
      description: 'Mean absolute error of the service’s forecasts over the rule’s, on the same forecasts.',
    }),
  })
  .meta({ id: 'RivalAccuracy' });

const DateFigures = z
  .strictObject({
    interpolatedShare: share.meta({
      description: 'Of the sets: between a reading above the limit and the next at or below it.',
    }),
    extrapolatedShare: share.meta({
      description: 'Of the sets: changed early, and carried on along the straight line of their own wear.',
    }),
    meanAbsoluteErrorDays: z.number().meta({ description: 'Of the median date.' }),
    medianAbsoluteErrorDays: z.number(),
    biasDays: z
      .number()
      .meta({ description: 'Mean of forecast less actual: positive where the dates were too late.' }),
    meanAbsoluteErrorKm: z.number().nullable(),
    biasKm: z.number().nullable(),
    inside80: count.meta({ description: 'Forecasts whose early-to-late interval held the day.' }),
    before80: count.meta({ description: 'The limit was reached before the early date.' }),
    after80: count.meta({ description: 'The limit was reached after the late date.' }),
    inside80Share: share,
    inside80StandardError: z
      .number()
      .nullable()
      .meta({ description: 'The forecasts of one vehicle taken together.' }),
    inside80ShareWithUnderWay: share.nullable().meta({
      description:
        'The same share with those under way counted as far as they can be judged: fast-wearing pads end first, so the ended sets alone are not a fair sample (Kaplan and Meier’s estimate over the chance that each forecast gave to the day).',
    }),
    againstTwoPoint: Rival.nullable().meta({
      description: 'Rate from new to latest reading, at the last two visits’ km a day.',
    }),
    againstLine: Rival.nullable().meta({
      description: 'Least squares of each pad through its fitted value, at the mean km a day since.',
    }),
  })
  .meta({ id: 'DateFigures' });
export type DateFigures = z.infer<typeof DateFigures>;

const dates = {
  vehicles: count,
  padSets: count.meta({ description: 'Sets of pads whose first pad is known to have reached its limit.' }),
  forecasts: count.meta({ description: 'Made at visits while they were on, before the limit was reached.' }),
  underWay: count.meta({
    description: 'Forecasts of pads not yet seen to reach their limit, or changed long before it.',
  }),
  figures: DateFigures.nullable(),
  reasons,
};

const ReadingFigures = z
  .strictObject({
    meanAbsoluteErrorMm: z.number(),
    biasMm: z.number().meta({
      description: 'Mean of reading less foretold median: positive where pads wore less than foretold.',
    }),
    meanCrpsMm: z.number().meta({ description: 'Continuous ranked probability score; less is better.' }),
    inside50Share: share,
    inside50StandardError: z.number(),
    inside80Share: share,
    inside80StandardError: z.number(),
    inside95Share: share,
    inside95StandardError: z.number(),
    tenthShares: z.array(share).meta({
      description:
        'Shares of the readings by the chance that was given to a thinner one, in tenths from thinnest to thickest; all are 0.1 where the forecasts mean what they say.',
    }),
  })
  .meta({ id: 'ReadingFigures', description: 'Standard errors take the readings of one vehicle together.' });

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
    words: z.string().meta({ description: 'The same for people, in plain words.' }),
    dates: z
      .strictObject({
        total: DateAccuracy,
        byAxleAndModel: z.array(DatesByAxleAndModel),
        byReadings: z.array(DatesByReadings),
        bySet: z.array(DatesBySet),
      })
      .meta({ description: 'Dates and distances against when the first pad reached its governing limit.' }),
    nextReadings: z
      .strictObject({
        total: ReadingAccuracy,
        byAxleAndModel: z.array(ReadingsByAxleAndModel),
        byReadings: z.array(ReadingsByReadings),
        bySet: z.array(ReadingsBySet),
      })
      .meta({ description: 'Every pad’s reading against what was foretold of it at the visit before.' }),
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
    forecastDate: date.meta({ description: 'The visit at which it was made.' }),
    readings: count,
    set,
    experience: z.string().meta({ description: 'The experience it drew on, by name.' }),
    earlyDate: date.nullable(),
    medianDate: date.nullable(),
    lateDate: date.nullable(),
    reachedDate: date.meta({
      description: 'Where `howKnown` is extrapolated, when it would have been reached; that may lie ahead.',
    }),
    howKnown: z.enum(ENDS_KNOWN),
    errorDays: z
      .number()
      .nullable()
      .meta({ description: 'Median less actual: positive where it was too late.' }),
    errorKm: z.number().nullable(),
    inside80: z.boolean(),
    twoPointErrorDays: z.number().nullable(),
    lineErrorDays: z.number().nullable(),
    reasons,
  })
  .meta({ id: 'PastForecast' });
export type PastForecast = z.infer<typeof PastForecast>;
