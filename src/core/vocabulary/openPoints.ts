import { z } from 'zod';
import { AXLES, LINING_POSITIONS, SIDES } from './terms.js';

/** Something a visit lacks before the job can be called complete. */
export const OpenPoint = z
  .strictObject({
    code: z.string().meta({ description: 'Stable, kebab-case.' }),
    axle: z.enum(AXLES).nullable(),
    side: z.enum(SIDES).nullable(),
    pad: z.enum(LINING_POSITIONS).nullable(),
    fastener: z.string().nullable(),
    finding: z.string().nullable().meta({ description: 'The code of the unanswered finding.' }),
    message: z.string(),
    numbers: z.record(z.string(), z.number()),
  })
  .meta({ id: 'OpenPoint' });
export type OpenPoint = z.infer<typeof OpenPoint>;

export const OpenPoints = z
  .strictObject({
    visitId: z.string(),
    complete: z.boolean().meta({
      description: 'Whether the records have no open points. This says nothing about the vehicle’s safety.',
    }),
    items: z.array(OpenPoint),
  })
  .meta({ id: 'OpenPoints' });
export type OpenPoints = z.infer<typeof OpenPoints>;
