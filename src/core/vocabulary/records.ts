import { z } from 'zod';
import { text, instant } from './quantities.js';
import { VEHICLE_EVENTS, VISIT_EVENTS } from './terms.js';
import { VehicleBody } from './vehicle.js';
import { VisitBody } from './visit.js';

/** Corrections, merges, versions and the audit. */

const reason = text(500).meta({ description: 'Why, for whoever reads the history.' });

/** Exactly one of `changes` and `void`. */
export const CorrectionBody = z
  .strictObject({
    reason,
    changes: z.record(z.string(), z.unknown()).optional().meta({
      description:
        'RFC 7396 merge patch of the standing visit as it would be sent, later entries included; arrays are replaced whole.',
    }),
    void: z.boolean().optional().meta({
      description: 'true: the visit counts for nothing any more; false: it counts again. Owner only.',
    }),
  })
  .refine((correction) => (correction.changes === undefined) !== (correction.void === undefined), {
    message: 'one of changes and void is needed, and not both',
    path: [],
  })
  .meta({
    id: 'CorrectionBody',
    examples: [
      {
        reason: 'odometer typed with one digit too many',
        changes: { odometer: { value: 61240, unit: 'km' } },
      },
      { reason: 'recorded on the wrong van', void: true },
    ],
  });
export type CorrectionBody = z.infer<typeof CorrectionBody>;

export const MergeBody = z
  .strictObject({
    from: text(100).meta({ description: 'The id of the other record of this vehicle.' }),
    reason,
  })
  .meta({
    id: 'MergeBody',
    examples: [
      { from: '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de009', reason: 'recorded twice, once under its old plate' },
    ],
  });
export type MergeBody = z.infer<typeof MergeBody>;

const version = z.number().meta({ type: 'integer' });
const at = instant;
const by = z.string().nullable().meta({
  description:
    'The name of the API key; null on the command line, or for what was recorded before histories were kept.',
});

export const VisitVersion = z
  .strictObject({
    version,
    kind: z.enum(VISIT_EVENTS),
    at,
    by,
    reason: z.string().nullable(),
    vehicleId: z.string(),
    body: VisitBody.meta({ description: 'The visit as it stood, as it would be sent.' }),
  })
  .meta({ id: 'VisitVersion' });
export type VisitVersion = z.infer<typeof VisitVersion>;

export const VehicleVersion = z
  .strictObject({
    version,
    kind: z.enum(VEHICLE_EVENTS),
    at,
    by,
    reason: z.string().nullable(),
    effectiveFrom: z.string().nullable().meta({
      format: 'date',
      description: 'What it changed holds from this date, for `asOf`; null: it always did.',
    }),
    mergedWith: z.string().nullable().meta({ description: 'The other record of a merge.' }),
    body: VehicleBody.meta({ description: 'The vehicle as it stood, as it would be sent.' }),
  })
  .meta({ id: 'VehicleVersion' });
export type VehicleVersion = z.infer<typeof VehicleVersion>;

export const AuditEntry = z
  .strictObject({
    id: z.string(),
    at,
    key: by,
    method: z.string().nullable().meta({ description: 'null on the command line.' }),
    action: z.string().meta({ description: 'What was done: kebab-case.' }),
    resource: z.string().meta({ description: 'The kind of resource.' }),
    resourceId: z.string(),
    detail: z.string().nullable().meta({ description: 'Of an import: what it brought.' }),
  })
  .meta({ id: 'AuditEntry' });
export type AuditEntry = z.infer<typeof AuditEntry>;
