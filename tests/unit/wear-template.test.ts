import { describe, expect, it } from 'vitest';
import { wearAnswer, type Question } from '../../src/core/assessment/wearAnswer.js';
import type { Outlook } from '../../src/core/assessment/outlookShape.js';
import { fillTemplate, wearTemplate, type WearTemplate } from '../../src/core/assessment/wearTemplate.js';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import { DISC_AXLE, fourPads, km, outlookOf, rotorReadings } from '../support/coreHistories.js';

const measured = outlookOf({ axles: { front: DISC_AXLE, rear: DISC_AXLE } }, [
  { date: '2025-03-03', odometer: km(39_000), readings: fourPads(8) },
  {
    date: '2025-09-01',
    odometer: km(52_000),
    readings: [...fourPads([3, 6, 6, 6]), ...rotorReadings('left', [26.9, 26.8])],
  },
]);
const spoken = (words: string): Outlook => ({
  ...measured,
  axles: measured.axles.map((axle) => ({
    ...axle,
    replacement: { ...axle.replacement, basis: { ...axle.replacement.basis, words } },
  })),
});

const filled = ({ text, open }: WearTemplate, question: Question): string =>
  fillTemplate('v-1', Buffer.from(text), open, question).toString();

/**
 * Dates on both sides of every date on which the answer changes: the next visit, the due date and calendar findings.
 */
const days = [0, 100, 200, 400, 800, 4000].map((later) => toFullDate(toDay('2025-09-01') + later));

describe('a cached wear answer', () => {
  it.each([
    ['of a vehicle with findings, on two axles', measured],
    ['of a vehicle that was never here', outlookOf({}, [])],
    ['with line ends, quotes and other special characters', spoken('a\nb "c" \\ \\n $& ’ \u2028 ü 漢')],
  ])('a cached wear answer equals the computed answer on every day: %s', (_name, outlook) => {
    const template = JSON.parse(JSON.stringify(wearTemplate(outlook)));
    for (const today of days) {
      for (const until of [null, '2026-01-01']) {
        const question = { today, until };
        expect(filled(template, question)).toBe(JSON.stringify(wearAnswer('v-1', outlook, question)));
      }
    }
  });

  it('a cached wear answer changes on the days on which the computed one does', () => {
    const texts = days.map((today) => filled(wearTemplate(measured), { today, until: null }));
    expect(new Set(texts).size).toBeGreaterThan(3);
  });
});
