import type { Reason } from '../vocabulary/quantities.js';

export const noOdometer = (field: string): Reason => ({
  field,
  code: 'no-odometer',
  detail: 'there is at most one odometer reading, so the server counts wear by time and gives no distance',
});

export const neverMeasured: Reason = {
  field: 'date',
  code: 'no-readings',
  detail: 'no lining of this axle has been measured, or fitted here at a known thickness; measure it first',
};

export const noPadLimit = (field: string): Reason => ({
  field,
  code: 'no-limit',
  detail: 'no limit is known: record a minimum thickness or a wear indicator',
});

export const beyondThirtyYears: Reason = {
  field: 'date',
  code: 'beyond-30-years',
  detail: 'a date that is null is not expected within 30 years at the present use',
};
