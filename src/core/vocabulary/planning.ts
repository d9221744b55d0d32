import { z } from 'zod';
import { AXLES, SPARES } from './terms.js';

/** What parts will be needed when, and at which visit to fit them. */

const month = z.string().meta({ description: 'A calendar month, YYYY-MM.', examples: ['2026-03'] });
const wholeNumber = z.number().meta({ type: 'integer', minimum: 0 });
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
    today: z.string().meta({ format: 'date' }),
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
