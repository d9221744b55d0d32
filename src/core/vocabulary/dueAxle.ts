import { z } from 'zod';
import { date } from './quantities.js';
import { AXLES, DUE_PARTS, LINING_NAMES, LINING_POSITIONS, SIDES } from './terms.js';

/** The data of a due axle in reports and events. */

/** The vehicle and axle; reports add the registration if the caller may read it. */
export const axleOfVehicle = {
  vehicleId: z.string(),
  externalId: z.string().nullable(),
  fleet: z.string().nullable(),
  model: z.string().nullable(),
  axle: z.enum(AXLES),
};

/** When the linings reach the governing limit. */
export const liningForecast = {
  chance: z.number().meta({ description: 'The chance that the governing limit is reached by the horizon.' }),
  earlyDate: date.nullable(),
  medianDate: date.nullable(),
  lateDate: date.nullable(),
  governingPad: z.strictObject({ side: z.enum(SIDES).nullable(), pad: z.enum(LINING_POSITIONS) }).nullable(),
  linings: z.enum(LINING_NAMES).meta({ description: 'What the linings of this axle are.' }),
  limitMm: z.number().nullable(),
  limitSource: z.string().nullable(),
  lastReadingDate: date.nullable(),
};

export const duePart = z.enum(DUE_PARTS).meta({
  description:
    'The part that reaches its limit first: the linings (`pads`: pads or shoes), the rotors or the drums. The dates, the limit and the reading belong to this part.',
});
