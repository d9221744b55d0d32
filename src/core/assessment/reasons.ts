import type { Reason } from '../vocabulary/quantities.js';

export const noOdometer = (field: string): Reason => ({
  field,
  code: 'no-odometer',
  detail: 'the odometer was read at most once, so wear is counted by time and no distance is given',
});

export const neverMeasured: Reason = {
  field: 'date',
  code: 'no-readings',
  detail: 'no lining of this axle has been measured, nor fitted here at a known thickness: measure first',
};

export const noPadLimit = (field: string): Reason => ({
  field,
  code: 'no-limit',
  detail: 'no limit is known, neither a least thickness nor a wear indicator',
});

export const beyondThirtyYears: Reason = {
  field: 'date',
  code: 'beyond-30-years',
  detail: 'dates that are null are not expected within 30 years at the present use',
};
