import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wearAnswer } from '../../src/core/assessment/wearAnswer.js';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import type { AxleWear } from '../../src/core/vocabulary/wear.js';
import { messyHistory, outlookOf, TODAY, wornHistory } from '../support/histories.js';

const daysLater = fc.integer({ min: 0, max: 3000 });

/** Whether anything on the axle is at its limit, beyond it or a stop, or has probably reached it. */
function isPressing({ findings, pads, replacement, rotors, drums }: AxleWear, today: string): boolean {
  return (
    replacement.overdue ||
    findings.some(({ severity }) => severity === 'stop') ||
    pads.some(({ limits }) => limits.some(({ fails, governs }) => governs && fails)) ||
    [...rotors, ...drums].some(({ fails, date }) => fails || (date?.median != null && date.median <= today))
  );
}

describe('the advice for any history and day', () => {
  it('the advice never says that there is nothing to do while anything is urgent, and never reads as clear with an open check', () => {
    fc.assert(
      fc.property(fc.oneof(messyHistory(), wornHistory()), daysLater, (sent, later) => {
        const today = toFullDate(toDay(TODAY) + later);
        for (const axle of wearAnswer('v', outlookOf(sent), { today, until: null }).axles) {
          const { action, words, why, urgency, check, checks } = axle.advice;
          if (isPressing(axle, today))
            expect([urgency, action]).toEqual(['now', expect.not.stringMatching(/nothing/)]);
          if (action === 'nothing-yet' && axle.findings.some(({ severity }) => severity !== 'note'))
            expect(words).toMatch(/to check\.$/);
          expect(check === null).toBe(checks === 0);
          for (const text of [words, why]) {
            expect(text).toMatch(/^[A-Z].*\.$/s);
            expect(text).not.toMatch(/fit to drive|undefined|null|NaN| {2}/);
          }
        }
      }),
      { seed: 20_261_129, numRuns: 150 },
    );
  });
});
