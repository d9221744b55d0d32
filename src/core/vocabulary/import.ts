import { z } from 'zod';
import { IMPORT_KINDS, IMPORT_STATES } from './terms.js';
import { instant } from './quantities.js';

const count = (description: string) => z.number().meta({ type: 'integer', description });

/** One error in a file, and its location. */
export const RowError = z
  .strictObject({
    line: count('The line on which the row begins, from 1.'),
    column: z.string().nullable().meta({ description: 'By name; null where it is of the whole row.' }),
    detail: z.string(),
    code: z.string().meta({ description: 'Stable, kebab-case.' }),
  })
  .meta({ id: 'RowError' });
export type RowError = z.infer<typeof RowError>;

/** An imported file and its result. */
export const Import = z
  .strictObject({
    id: z.string(),
    version: count('Counts up with every step that can be seen.'),
    kind: z.enum(IMPORT_KINDS),
    dryRun: z.boolean(),
    state: z.enum(IMPORT_STATES).meta({
      description:
        '`done`: taken whole, or on a dry run without error. `refused`: it has errors and nothing of it was taken. `failed`: it was cut short and nothing of it was taken.',
    }),
    detail: z.string().nullable().meta({ description: 'Why it failed.' }),
    by: z.string().meta({ description: 'The name of the key it was sent with.' }),
    rows: count('Rows read so far, blank ones and the header aside.'),
    vehicles: count('Vehicles that rows belong to.'),
    vehiclesChecked: count('Of these, those whose rows have been checked.'),
    vehiclesForecast: count('Of these, those whose outlook has been worked out anew.'),
    vehiclesWritten: count('Of these, those that have been written; none can be seen before all are.'),
    visitsAdded: count('Visits that were not known.'),
    visitsExtended: count('Known visits that got something added.'),
    rowsAdded: count('Rows that were not known.'),
    rowsSkipped: count('Rows that were known already.'),
    errorsTotal: count('All errors, shown or not.'),
    errors: z.array(RowError).meta({ description: 'The first 1,000, by line.' }),
    createdAt: instant,
    finishedAt: instant.nullable(),
  })
  .meta({ id: 'Import' });
export type Import = z.infer<typeof Import>;
