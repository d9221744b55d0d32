import type { DueAxle } from '../../src/store/contract/reports.js';

/** An axle that is due, for tests of the reports. */
export const dueAxle = (changes: Partial<DueAxle> = {}): DueAxle => ({
  vehicleId: '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001',
  externalId: 'FD-1007',
  registration: 'KR 4471',
  fleet: 'north-depot',
  model: 'parcel-van-3t5',
  axle: 'front',
  overdue: false,
  chance: 0.1234,
  earlyDate: '2026-04-01',
  medianDate: '2026-05-01',
  lateDate: null,
  governingPad: { side: 'left', pad: 'inner' },
  linings: 'pads',
  limitMm: 2,
  limitSource: 'maker',
  lastReadingDate: '2026-03-02',
  part: 'pads',
  changedAt: '2026-03-02T09:15:00.000Z',
  ...changes,
});
