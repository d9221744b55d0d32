import { z } from 'zod';
import { IMPORT_KINDS, IMPORT_STATES } from './terms.js';
import { instant } from './quantities.js';

const count = (description: string) => z.number().meta({ type: 'integer', description });

/** One error in a file, and its location. */
export const RowError = z
  .strictObject({
    line: count('The line on which the row begins, from 1.'),
    column: z
      .string()
      .nullable()
      .meta({ description: 'The name of the column. Null if the error concerns the whole row.' }),
    detail: z.string(),
    code: z.string().meta({ description: 'Stable, kebab-case.' }),
  })
  .meta({ id: 'RowError' });
export type RowError = z.infer<typeof RowError>;

/** An imported file and its result. */
export const Import = z
  .strictObject({
    id: z.string(),
    version: count('Increases whenever the progress shown here changes.'),
    kind: z.enum(IMPORT_KINDS),
    dryRun: z.boolean(),
    state: z.enum(IMPORT_STATES).meta({
      description:
        '`done`: the server imported the whole file, or a dry run found no errors. `refused`: the file has errors and nothing was imported. `failed`: the import was interrupted and nothing was imported.',
    }),
    detail: z.string().nullable().meta({ description: 'Why the import failed.' }),
    by: z.string().meta({ description: 'The name of the key that sent the file.' }),
    rows: count('Rows read so far, without blank rows and the header.'),
    vehicles: count('Vehicles that the rows belong to.'),
    vehiclesChecked: count('Vehicles whose rows have been checked.'),
    vehiclesForecast: count('Vehicles whose outlook has been recomputed.'),
    vehiclesWritten: count('Vehicles that have been written. None is visible until all are written.'),
    visitsAdded: count('New visits.'),
    visitsExtended: count('Existing visits to which rows were added.'),
    rowsAdded: count('New rows.'),
    rowsSkipped: count('Rows that were already recorded.'),
    errorsTotal: count('The number of errors, listed or not.'),
    errors: z.array(RowError).meta({ description: 'The first 1,000 errors, by line.' }),
    createdAt: instant,
    finishedAt: instant.nullable(),
  })
  .meta({ id: 'Import' });
export type Import = z.infer<typeof Import>;
