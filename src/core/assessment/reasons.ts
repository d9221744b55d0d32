import type { Reason } from '../vocabulary/quantities.js';

export const noOdometer = (field: string): Reason => ({
  field,
  code: 'no-odometer',
  detail: 'fewer than two odometer readings are known, so the forecast goes by time and gives no distance',
});

export const neverMeasured: Reason = {
  field: 'date',
  code: 'no-readings',
  detail: 'no lining of this axle has been measured, and none was fitted here at a known thickness',
};

export const noPadLimit = (field: string): Reason => ({
  field,
  code: 'no-limit',
  detail: 'no limit is known; record the maker’s limit or a wear indicator',
});

export const beyondThirtyYears: Reason = {
  field: 'date',
  code: 'beyond-30-years',
  detail: 'a missing date means that the limit is not expected within 30 years at the present use',
};
