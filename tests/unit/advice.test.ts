import { describe, expect, it } from 'vitest';
import { wearAnswer } from '../../src/core/assessment/outlook.js';
import { km, mm, outlookOf, type VehicleDraft, type VisitDraft } from '../support/coreHistories.js';

const NEW_VAN = { inService: { date: '2024-01-01', odometer: km(0) } };

/** Both pads of both sides read alike. */
const pads = (value: number, gauge = 'depth-gauge') =>
  (['left', 'right'] as const).flatMap((side) =>
    (['inner', 'outer'] as const).map((pad) => ({
      kind: 'pad-thickness' as const,
      axle: 'front' as const,
      side,
      pad,
      ...mm(value),
      gauge,
    })),
  );

function adviceFor(visits: VisitDraft[], today: string, vehicle: VehicleDraft = NEW_VAN) {
  return wearAnswer('v', outlookOf(vehicle, visits), { today, until: null }).axles[0]!.advice;
}

/** New pads of 11 mm that lose 3 mm every half-year and 10,000 km. */
const WORN: VisitDraft[] = [
  { date: '2024-07-01', odometer: km(10_000), readings: pads(8) },
  { date: '2025-01-01', odometer: km(20_000), readings: pads(5) },
];

describe('the advice on an axle', () => {
  it('is to fit pads now where a reading is under its limit', () => {
    const advice = adviceFor(
      [...WORN, { date: '2025-04-01', odometer: km(31_000), readings: pads(1.5) }],
      '2025-04-02',
    );
    expect(advice).toMatchObject({
      action: 'fit-now',
      part: 'pads',
      by: '2025-04-02',
      words: 'Fit front pads now.',
      status: 'under the limit',
      urgency: 'now',
    });
    expect(advice.why).toContain('Left inner read 1.5 mm on 1 April; limit 2 mm.');
  });

  it('is to fit pads before the early date where that comes before the next visit', () => {
    const advice = adviceFor(WORN, '2025-01-02');
    expect(advice).toMatchObject({ action: 'fit-before', part: 'pads', urgency: 'soon' });
    expect(advice.words).toMatch(/^Fit front pads before \d+ \w+ 2025\.$/);
    expect(advice.why).toMatch(
      /^Left inner 5\.0 mm on 1 January, limit 2 mm\. \d+ % chance it gets there by the next visit, about 2 July 2025\.$/,
    );
  });

  it('is to measure where no pad was ever read', () => {
    expect(adviceFor([{ date: '2024-07-01', odometer: km(10_000) }], '2024-07-02', {})).toMatchObject({
      action: 'measure',
      words: 'Measure the front pads.',
      urgency: 'unknown',
    });
  });
});
