import { z } from 'zod';
import { text, instant } from './quantities.js';
import { VEHICLE_EVENTS, VISIT_EVENTS } from './terms.js';
import { VehicleBody } from './vehicle.js';
import { VisitBody } from './visit.js';

/** Corrections, merges, versions and the audit. */

const reason = text(500).meta({ description: 'The reason, which the history shows.' });

/** Exactly one of `changes` and `void`. */
export const CorrectionBody = z
  .strictObject({
    reason,
    changes: z.record(z.string(), z.unknown()).optional().meta({
      description:
        'An RFC 7396 merge patch of the current visit in the form of a VisitBody, with later entries included. Arrays are replaced whole.',
    }),
    void: z.boolean().optional().meta({
      description: 'True voids the visit; false restores it. Only an owner’s key may send this.',
    }),
  })
  .refine((correction) => (correction.changes === undefined) !== (correction.void === undefined), {
    message: 'send either changes or void, not both',
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
    'The name of the API key. Null for a command-line change, or for a version made before the server recorded versions.',
});

export const VisitVersion = z
  .strictObject({
    version,
    kind: z.enum(VISIT_EVENTS),
    at,
    by,
    reason: z.string().nullable(),
    vehicleId: z.string(),
    body: VisitBody.meta({ description: 'The visit at this version, in the form of a VisitBody.' }),
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
      description:
        'The date from which the change applies in answers with `asOf`. Null means that it applies to every date.',
    }),
    mergedWith: z
      .string()
      .nullable()
      .meta({ description: 'The other record, if this version comes from a merge.' }),
    body: VehicleBody.meta({ description: 'The vehicle at this version, in the form of a VehicleBody.' }),
  })
  .meta({ id: 'VehicleVersion' });
export type VehicleVersion = z.infer<typeof VehicleVersion>;

export const AuditEntry = z
  .strictObject({
    id: z.string(),
    at,
    key: by,
    method: z.string().nullable().meta({ description: 'Null for a command-line change.' }),
    action: z.string().meta({ description: 'What was done, in kebab-case.' }),
    resource: z.string().meta({ description: 'The kind of resource.' }),
    resourceId: z.string(),
    detail: z.string().nullable().meta({ description: 'For an import, what it added.' }),
  })
  .meta({ id: 'AuditEntry' });
export type AuditEntry = z.infer<typeof AuditEntry>;
