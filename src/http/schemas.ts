import { z } from 'zod';
import { identifier } from '../core/vocabulary/quantities.js';
import { AXLES } from '../core/vocabulary/terms.js';
import { NEEDED } from './documentShape.js';

/** Building blocks of the routes' schemas. */

const id = (description: string) => z.string().min(1).max(100).meta({ description });
export const vehicleParams = z.strictObject({ vehicleId: id('The `id` of a vehicle.') });
export const visitParams = z.strictObject({ visitId: id('The `id` of a visit.') });
export const importParams = z.strictObject({ importId: id('The `id` of an import.') });
export const endpointParams = z.strictObject({
  endpointId: id('The `id` of a webhook endpoint.').meta({ example: '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de004' }),
});
export const deliveryParams = z.strictObject({ deliveryId: id('The `id` of a webhook delivery.') });

/**
 * Query parameters arrive as text. The document declares the type they are converted to, so that generated clients
 * accept numbers.
 */
export const numberQuery = (
  read: z.ZodType<number>,
  meta: Record<string, unknown> & { type: 'integer' | 'number' },
) => z.any().pipe(read).optional().meta(meta);
export const wholeNumberText = (digits: number, message: string) =>
  z
    .string()
    .regex(new RegExp(`^\\d{1,${digits}}$`), message)
    .transform(Number);
const NUMBER = /^(\d+(\.\d+)?|\.\d+)$/;
export const chanceQuery = (description: string) =>
  numberQuery(
    z
      .string()
      .regex(NUMBER, 'must be a number from 0 to 1')
      .transform(Number)
      .refine((chance) => chance <= 1, 'must be from 0 to 1'),
    { type: 'number', minimum: 0, maximum: 1, description, example: 0.1 },
  );
/** An amount in any unit the caller likes. */
export const amountQuery = (description: string, example: number) =>
  numberQuery(z.string().max(15).regex(NUMBER, 'must be a number from 0').transform(Number), {
    type: 'number',
    minimum: 0,
    description,
    example,
  });
export const flagQuery = (description: string) =>
  z
    .any()
    .pipe(z.enum(['true', 'false']).transform((flag) => flag === 'true'))
    .optional()
    .meta({ type: 'boolean', description });

export const fleetQuery = identifier(100)
  .optional()
  .meta({ description: 'Only vehicles of this fleet.', example: 'north-depot' });
export const modelQuery = identifier(100)
  .optional()
  .meta({ description: 'Only vehicles of this model.', example: 'parcel-van-3t5' });
export const axleQuery = z.enum(AXLES).optional().meta({ description: 'Only this axle.' });
export const csvOrJson = z
  .enum(['json', 'csv'])
  .optional()
  .meta({ description: 'If missing, json. CSV is not paged.' });

/** The content type of CSV answers, and its form in the document. */
export const CSV_CONTENT_TYPE = 'text/csv; charset=utf-8; header=present';
export const csvContent = {
  'text/csv': {
    schema: z.string().meta({
      description:
        'CSV (RFC 4180) with a header row, in UTF-8 without a byte order mark. An apostrophe is put before a text that a spreadsheet would run as a formula.',
    }),
  },
};

export const idempotencyHeader = z.object({
  'idempotency-key': z.string().optional().meta({
    description:
      'If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours.',
    example: 'front-desk-1-2026-03-02-0007',
  }),
});
const ETAG = { description: 'The ETag of the version to change.', example: '"v1"' };
/** Required by the document but optional here: a missing header gets 428, after all other checks. */
export const ifMatchHeader = z.object({
  'if-match': z
    .string()
    .optional()
    .meta({ ...ETAG, [NEEDED]: true }),
});
/** Required only if the resource already exists. */
export const ifMatchIfKnownHeader = z.object({ 'if-match': z.string().optional().meta(ETAG) });
export const ifNoneMatchHeader = z.object({
  'if-none-match': z
    .string()
    .optional()
    .meta({ description: 'An ETag. The server answers 304 if nothing has changed since.', example: '"v1"' }),
});

/** The content type of an answer that is already JSON text. */
export const JSON_ANSWER = 'application/json; charset=utf-8';

/**
 * A JSON answer with its description and an example; a single resource also has an ETag.
 *
 * @param example a value, or a function that is called when the document is first requested
 */
export function answerJson<Schema extends z.ZodType>(schema: Schema, description: string, example: unknown) {
  const isVersioned = schema instanceof z.ZodObject && 'id' in schema.shape && 'version' in schema.shape;
  return {
    description,
    ...(isVersioned ? { headers: ETAG_HEADER } : {}),
    content: { 'application/json': { schema, example } },
  };
}

const ETAG_HEADER = {
  ETag: { type: 'string', description: 'The version, to be sent in If-Match or If-None-Match.' },
};

/** 304, without a body. */
export const notModified = z.undefined().describe('The caller already has this version.');
