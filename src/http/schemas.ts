import { z } from 'zod';

/** Pieces that the routes' schemas share. */

const id = z.string().min(1).max(100);
export const vehicleParams = z.strictObject({ vehicleId: id });
export const visitParams = z.strictObject({ visitId: id });
export const importParams = z.strictObject({ importId: id });

export const idempotencyHeader = z.object({
  'idempotency-key': z.string().optional().meta({
    description: 'Repeats with the same key and body get the first answer again. Kept for at least 24 hours.',
  }),
});
export const ifMatchHeader = z.object({
  'if-match': z.string().optional().meta({ description: 'The ETag of the version to change; needed.' }),
});
export const ifNoneMatchHeader = z.object({
  'if-none-match': z
    .string()
    .optional()
    .meta({ description: 'An ETag; 304 where nothing has changed since.' }),
});

/** The content type of an answer that is JSON text already. */
export const JSON_ANSWER = 'application/json; charset=utf-8';

/** A JSON answer with its description and an example. */
export function answerJson<Schema extends z.ZodType>(schema: Schema, description: string, example: unknown) {
  return { description, content: { 'application/json': { schema, example } } };
}

/** 304: nothing but headers. */
export const notModified = z.undefined().describe('The caller has this version already.');
