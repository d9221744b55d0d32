import { describe, expect, it } from 'vitest';
import { adviceOn } from '../../src/core/assessment/advice.js';
import type { AdviceDay, AdviceFacts } from '../../src/core/assessment/adviceFacts.js';
import { wearAnswer } from '../../src/core/assessment/wearAnswer.js';
import type { Axle } from '../../src/core/vocabulary/terms.js';
import type { DateInterval, Finding } from '../../src/core/vocabulary/wear.js';
import { fourPads, km, outlookOf, rotorReadings, type VisitDraft } from '../support/coreHistories.js';

const TODAY = '2026-11-29';

/** Dates whose quartiles are half way between these. */
const between = (early: string, median: string, late: string | null): DateInterval => ({
  early,
  lowerQuartile: early,
  median,
  upperQuartile: late,
  late,
});

const LEFT_INNER: NonNullable<AdviceFacts['governing']> = {
  side: 'left',
  pad: 'inner',
  limitMm: 3,
  source: 'wear-indicator',
  fails: false,
  latest: { valueMm: 3.7, date: '2026-11-21' },
};
const keep = (marginMm: number, marginThenMm: number | null = marginMm) =>
  (['left', 'right'] as const).map((side) => ({
    side,
    decision: 'keep' as const,
    reason: { code: 'margin', detail: 'thick enough' },
    marginMm,
    marginThenMm,
    latest: { valueMm: 26 + marginMm, date: '2026-11-21' },
    limitMm: 26,
  }));
const decided = (decision: 'machine' | 'replace' | 'measure', code: string, detail: string) =>
  keep(1).map((rotor) => ({ ...rotor, decision, reason: { code, detail } }));

const FACTS: AdviceFacts = {
  linings: 'pads',
  part: 'rotors',
  set: 'recorded',
  fitted: '2025-01-10',
  governing: LEFT_INNER,
  beyond: [],
  counterparts: keep(1.56, 1.5),
  noDate: null,
};
const DAY: AdviceDay = {
  today: TODAY,
  asAtDate: '2026-11-21',
  liningDates: between('2026-12-16', '2026-12-29', '2027-01-15'),
  counterpartDates: null,
  overdue: false,
  untilNextVisit: { date: '2027-01-08', dateSource: 'rhythm', chanceLimitReached: 0.8 },
  chanceToday: 0.01,
  counterpartChance: null,
  findings: [],
  measureFirst: false,
  dueSoonDays: 60,
};
const LATER = between('2027-02-23', '2027-03-20', '2027-04-27');

const finding = (changes: Partial<Finding>): Finding => ({
  code: 'uneven-inner-outer',
  axle: 'front',
  side: 'left',
  pad: null,
  severity: 'check',
  message: 'Left inner is thinner than its partner.',
  check: 'Check the left slides, piston, hardware and hose. Then measure again.',
  numbers: {},
  ...changes,
});

interface Case {
  axle?: Axle;
  facts?: Partial<AdviceFacts>;
  day?: Partial<AdviceDay>;
}
const adviceIn = ({ axle = 'front', facts = {}, day = {} }: Case) =>
  adviceOn(axle, { ...FACTS, ...facts }, { ...DAY, ...day });

const FAILING = { ...LEFT_INNER, fails: true, latest: { valueMm: 1.5, date: '2026-09-01' } };
const CLOSE = { ...LEFT_INNER, latest: { valueMm: 3.2, date: '2026-11-21' } };
const AT_LIMIT = finding({ code: 'pad-at-limit', pad: 'inner', severity: 'stop' });
const TOO_CLOSE = finding({ code: 'pad-too-close-to-limit', pad: 'inner', severity: 'stop' });

describe('the advice sentence by case', () => {
  it.each<
    [string, Case, { action: string; part: string | null; status: string; words: string; why: string }]
  >([
    [
      'a reading under its limit',
      { facts: { beyond: [FAILING] }, day: { findings: [AT_LIMIT], overdue: true } },
      {
        action: 'fit-now',
        part: 'pads',
        status: 'under the limit',
        words: 'Fit front pads now.',
        why: 'Left inner read 1.5 mm on 1 September; limit 3 mm (wear indicator).',
      },
    ],
    [
      'a reading at its limit, on an axle with a number',
      {
        axle: 'axle-2',
        facts: { beyond: [{ ...FAILING, latest: { valueMm: 3, date: '2026-01-05' } }] },
        day: { findings: [AT_LIMIT], overdue: true },
      },
      {
        action: 'fit-now',
        part: 'pads',
        status: 'at the limit',
        words: 'Fit pads on axle 2 now.',
        why: 'Left inner read 3.0 mm on 5 January 2026; limit 3 mm (wear indicator).',
      },
    ],
    [
      'an axle overdue by its forecast',
      { day: { overdue: true, liningDates: between('2026-06-01', '2026-08-01', '2026-10-20') } },
      {
        action: 'fit-now',
        part: 'pads',
        status: 'overdue',
        words: 'Fit front pads now.',
        why: 'Left inner 3.7 mm on 21 November, limit 3 mm (wear indicator). It probably reached its limit about 1 August 2026.',
      },
    ],
    [
      'a reading too close to call',
      { facts: { beyond: [CLOSE] }, day: { findings: [TOO_CLOSE] } },
      {
        action: 'fit-now',
        part: 'pads',
        status: 'too close to call',
        words: 'Fit front pads now, or measure again with a finer gauge.',
        why: 'Left inner read 3.2 mm on 21 November: this gauge cannot tell it from the limit of 3 mm (wear indicator).',
      },
    ],
    [
      'a cracked rotor',
      {
        day: {
          liningDates: between('2027-03-02', '2027-04-02', '2027-05-02'),
          findings: [
            finding({
              code: 'rotor-cracked',
              severity: 'stop',
              message: 'The left rotor was found cracked.',
            }),
          ],
        },
      },
      {
        action: 'stop',
        part: 'rotors',
        status: 'stop',
        words: 'Replace both front rotors now: the left one is cracked.',
        why: 'The left rotor was found cracked. Pads: fit before 2 March 2027; left inner 3.7 mm on 21 November, limit 3 mm (wear indicator).',
      },
    ],
    [
      'a leaking caliper beside pads under their limit',
      {
        facts: { beyond: [FAILING] },
        day: {
          overdue: true,
          findings: [
            AT_LIMIT,
            finding({ code: 'caliper-leaking', severity: 'stop', message: 'The left caliper leaks.' }),
          ],
        },
      },
      {
        action: 'stop',
        part: 'calipers',
        status: 'stop',
        words: 'Repair the leak at the front left caliper and fit front pads now.',
        why: 'The left caliper leaks. Left inner read 1.5 mm on 1 September; limit 3 mm (wear indicator).',
      },
    ],
    [
      'a pad down to metal',
      {
        facts: { beyond: [{ ...FAILING, latest: { valueMm: 0, date: '2026-09-01' } }] },
        day: {
          overdue: true,
          findings: [
            AT_LIMIT,
            finding({
              code: 'metal-on-metal',
              pad: 'inner',
              severity: 'stop',
              message: 'Metal runs on metal.',
            }),
          ],
        },
      },
      {
        action: 'stop',
        part: 'pads',
        status: 'stop',
        words: 'Fit front pads now: the left inner one is down to bare metal.',
        why: 'Metal runs on metal. Left inner read 0.0 mm on 1 September; limit 3 mm (wear indicator).',
      },
    ],
    [
      'a failing repeat that a finer gauge may settle',
      {
        day: {
          findings: [
            finding({
              code: 'pad-repeat-at-limit',
              pad: 'inner',
              severity: 'stop',
              message: 'A repeat read 2.9 mm.',
            }),
          ],
        },
      },
      {
        action: 'stop',
        part: 'pads',
        status: 'stop',
        words: 'Fit front pads now, or measure again with a finer gauge.',
        why: 'A repeat read 2.9 mm.',
      },
    ],
    [
      'new rotors recorded as under discard',
      {
        day: {
          liningDates: LATER,
          findings: [
            finding({
              code: 'rotor-fitted-under-discard',
              severity: 'stop',
              message: 'Fitted new at 25 mm.',
            }),
          ],
        },
      },
      {
        action: 'stop',
        part: 'rotors',
        status: 'stop',
        words: 'Check the new front rotors now: they are recorded as beyond their limit.',
        why: 'Fitted new at 25 mm. Pads: fit before 23 February 2027; left inner 3.7 mm on 21 November, limit 3 mm (wear indicator).',
      },
    ],
    [
      'a stop without a sentence of its own',
      {
        day: {
          findings: [
            finding({ code: 'something-new', severity: 'stop', message: 'It smells of fire. Look.' }),
          ],
        },
      },
      {
        action: 'stop',
        part: null,
        status: 'stop',
        words: 'Repair the front axle now: It smells of fire.',
        why: 'It smells of fire. Look. Pads: fit before 16 December 2026; left inner 3.7 mm on 21 November, limit 3 mm (wear indicator).',
      },
    ],
    [
      'rotors that have probably reached discard since they were measured',
      {
        day: {
          liningDates: LATER,
          counterpartDates: between('2026-08-01', '2026-09-10', '2026-10-30'),
          asAtDate: '2026-11-25',
        },
      },
      {
        action: 'fit-now',
        part: 'rotors',
        status: 'overdue',
        words: 'Replace both front rotors now, or measure them first.',
        why: 'Left rotor 27.56 mm on 21 November, discard 26 mm. It probably reached its limit about 10 September 2026. Pads: fit before 23 February 2027; left inner 3.7 mm on 21 November, limit 3 mm (wear indicator).',
      },
    ],
    [
      'an early date in the past',
      { day: { liningDates: between('2026-11-20', '2027-01-02', '2027-02-10'), chanceToday: 0.13 } },
      {
        action: 'first-chance',
        part: 'pads',
        status: 'perhaps due already',
        words: 'Fit front pads at the first chance.',
        why: 'Left inner 3.7 mm on 21 November, limit 3 mm (wear indicator). The chance that it is at its limit is 13 % today and 80 % by the next visit, about 8 January.',
      },
    ],
    [
      'pads due before the next visit',
      {},
      {
        action: 'fit-before',
        part: 'pads',
        status: 'due before the next visit',
        words: 'Fit front pads before 16 December 2026.',
        why: 'Left inner 3.7 mm on 21 November, limit 3 mm (wear indicator). 80 % chance of reaching it by the next visit, about 8 January.',
      },
    ],
    [
      'pads due before a booked visit',
      { day: { untilNextVisit: { date: '2027-01-08', dateSource: 'until', chanceLimitReached: 0.995 } } },
      {
        action: 'fit-before',
        part: 'pads',
        status: 'due before the next visit',
        words: 'Fit front pads before 16 December 2026.',
        why: 'Left inner 3.7 mm on 21 November, limit 3 mm (wear indicator). Over 99 % chance of reaching it by the next visit on 8 January.',
      },
    ],
    [
      'pads and rotors that would not last another set',
      { facts: { counterparts: decided('replace', 'would-not-last', 'chance 0.9 of being under') } },
      {
        action: 'fit-before',
        part: 'pads',
        status: 'due before the next visit',
        words: 'Fit front pads and both rotors before 16 December 2026.',
        why: 'The rotors would not last another set of pads. Left inner 3.7 mm on 21 November, limit 3 mm (wear indicator). 80 % chance of reaching it by the next visit, about 8 January.',
      },
    ],
    [
      'rotors due before the next visit, the pads later',
      {
        day: {
          liningDates: LATER,
          counterpartDates: between('2026-12-05', '2026-12-20', '2027-01-02'),
          counterpartChance: 0.95,
        },
        facts: { counterparts: keep(0.01) },
      },
      {
        action: 'fit-before',
        part: 'rotors',
        status: 'due before the next visit',
        words: 'Replace both front rotors before 5 December 2026.',
        why: 'Left rotor 26.01 mm on 21 November, discard 26 mm. 95 % chance of reaching it by the next visit, about 8 January. Pads: fit before 23 February 2027; left inner 3.7 mm on 21 November, limit 3 mm (wear indicator).',
      },
    ],
    [
      'rotors due before the pads, both before the next visit',
      {
        day: { counterpartDates: between('2026-12-05', '2026-12-20', '2027-01-02'), counterpartChance: 0.95 },
        facts: { counterparts: keep(0.01) },
      },
      {
        action: 'fit-before',
        part: 'rotors',
        status: 'due before the next visit',
        words: 'Replace both front rotors before 5 December 2026 and fit pads before 16 December 2026.',
        why: 'Left rotor 26.01 mm on 21 November, discard 26 mm. 95 % chance of reaching it by the next visit, about 8 January. Left inner 3.7 mm on 21 November, limit 3 mm (wear indicator). 80 % chance of reaching it by the next visit, about 8 January.',
      },
    ],
    [
      'rotors that need work first',
      {
        axle: 'rear',
        facts: { counterparts: decided('machine', 'heat-spotted', 'it was found heat spotted') },
        day: { liningDates: LATER },
      },
      {
        action: 'machine',
        part: 'rotors',
        status: 'rotors first',
        words: 'Machine both rear rotors.',
        why: 'The left rotor was found heat spotted. Pads: fit before 23 February 2027; left inner 3.7 mm on 21 November, limit 3 mm (wear indicator).',
      },
    ],
    [
      'pads not due',
      { axle: 'rear', day: { liningDates: LATER } },
      {
        action: 'nothing-yet',
        part: 'pads',
        status: 'not due yet',
        words: 'Nothing to fit on the rear axle yet.',
        why: 'Fit pads before 23 February 2027. Left inner 3.7 mm on 21 November, limit 3 mm (wear indicator).',
      },
    ],
    [
      'pads not due, and rotors before them',
      {
        axle: 'axle-1',
        day: { liningDates: LATER, counterpartDates: between('2027-02-01', '2027-02-20', '2027-03-20') },
      },
      {
        action: 'nothing-yet',
        part: 'rotors',
        status: 'not due yet',
        words: 'Nothing to fit on axle 1 yet.',
        why: 'Replace rotors before 1 February 2027, pads before 23 February 2027. Left inner 3.7 mm on 21 November, limit 3 mm (wear indicator).',
      },
    ],
    [
      'pads beyond thirty years',
      {
        day: { liningDates: null },
        facts: { noDate: { field: 'date', code: 'beyond-30-years', detail: '' } },
      },
      {
        action: 'nothing-yet',
        part: 'pads',
        status: 'not due',
        words: 'Nothing to fit on the front axle.',
        why: 'The pads are not expected at their limit within 30 years at the present use. Left inner 3.7 mm on 21 November, limit 3 mm (wear indicator).',
      },
    ],
    [
      'an axle not measured for too long',
      {
        day: {
          liningDates: LATER,
          measureFirst: true,
          findings: [finding({ code: 'reading-overdue', numbers: { days: 608 } })],
        },
        facts: { governing: { ...LEFT_INNER, latest: { valueMm: 6, date: '2025-03-31' } } },
      },
      {
        action: 'measure',
        part: 'pads',
        status: 'measure first',
        words: 'Measure the front pads first.',
        why: 'Last measured on 31 March 2025, 20 months ago. Fit pads before 23 February 2027. Left inner 6.0 mm on 31 March 2025, limit 3 mm (wear indicator).',
      },
    ],
    [
      'dates too far apart to plan by',
      { day: { liningDates: between('2027-02-03', '2031-03-20', '2036-04-27'), measureFirst: true } },
      {
        action: 'measure',
        part: 'pads',
        status: 'measure first',
        words: 'Measure the front pads first.',
        why: 'The forecast is too wide to plan by: from 2027 to 2036. Fit pads before 2027. Left inner 3.7 mm on 21 November, limit 3 mm (wear indicator).',
      },
    ],
    [
      'shoes never measured since they were fitted',
      {
        axle: 'rear',
        day: { liningDates: null },
        facts: {
          linings: 'shoes',
          part: 'drums',
          governing: null,
          noDate: { field: 'date', code: 'no-readings', detail: '' },
        },
      },
      {
        action: 'measure',
        part: 'pads',
        status: 'no forecast',
        words: 'Measure the rear shoes.',
        why: 'No forecast: not measured since they were fitted on 10 January 2025.',
      },
    ],
    [
      'pads without a limit',
      {
        day: { liningDates: null },
        facts: { governing: null, noDate: { field: 'date', code: 'no-limit', detail: 'no limit is known' } },
      },
      {
        action: 'measure',
        part: 'pads',
        status: 'no forecast',
        words: 'Find and record the limit of the front pads.',
        why: 'No forecast: no limit is known.',
      },
    ],
  ])('the advice is right for %s', (_name, given, expected) => {
    expect(adviceIn(given)).toMatchObject(expected);
  });
});

describe('the text beside the advice sentence', () => {
  it('the text quotes a single check and counts several, so no axle reads as clear', () => {
    const one = adviceIn({ day: { liningDates: LATER, findings: [finding({})] } });
    expect(one.words).toBe('Nothing to fit on the front axle yet, but one thing to check.');
    expect([one.checks, one.check]).toEqual([1, 'Check the left slides, piston, hardware and hose.']);
    const two = adviceIn({
      day: {
        liningDates: LATER,
        findings: [finding({}), finding({ code: 'taper', check: 'Measure again.' })],
      },
    });
    expect(two.words).toBe('Nothing to fit on the front axle yet, but 2 things to check.');
    expect([two.checks, two.check]).toEqual([2, '2 things to check.']);
    const same = adviceIn({
      day: { liningDates: LATER, findings: [finding({ side: 'left' }), finding({ side: 'right' })] },
    });
    expect([same.checks, same.check]).toEqual([1, one.check]);
    const note = adviceIn({ day: { liningDates: LATER, findings: [finding({ severity: 'note' })] } });
    expect([note.words, note.check]).toEqual(['Nothing to fit on the front axle yet.', null]);
  });

  it.each([
    [keep(1.56, 1.5), 'Rotors: keep; 1.5 mm above discard when the pads are due.'],
    [
      keep(0.2, -0.1),
      'Rotors: keep for now; at discard by the time the pads are due, so measure at every visit.',
    ],
    [decided('measure', 'no-readings', ''), 'Rotors: measure both.'],
    [[decided('measure', 'no-readings', '')[0]!, keep(1)[1]!], 'Rotors: measure the left.'],
    [decided('machine', 'scored', ''), 'Rotors: machine both.'],
  ])('the text gives rotors a line of their own', (counterparts, line) => {
    expect(adviceIn({ facts: { counterparts } }).rotors).toBe(line);
  });

  it('a date is as coarse as its interval: a month beyond 400 days, a year beyond five years', () => {
    const wordsFor = (early: string, late: string | null): string =>
      adviceIn({ day: { liningDates: between(early, early, late) } }).why.split('. ')[0]!;
    expect(wordsFor('2027-02-23', '2028-03-29')).toBe('Fit pads before 23 February 2027');
    expect(wordsFor('2027-02-23', '2028-03-31')).toBe('Fit pads before February 2027');
    expect(wordsFor('2028-02-23', '2033-03-31')).toBe('Fit pads before 2028');
    expect(wordsFor('2028-02-23', null)).toBe('Fit pads before 2028');
  });
});

describe('the advice on a vehicle’s history', () => {
  const NEW_VAN = { inService: { date: '2024-01-01', odometer: km(0) } };
  const adviceFor = (visits: VisitDraft[], today: string) =>
    wearAnswer('v', outlookOf(NEW_VAN, visits), { today, until: null }).axles[0]!;
  /** New pads of 11 mm that lose 3 mm every half-year and 10,000 km. */
  const WORN: VisitDraft[] = [
    { date: '2024-07-01', odometer: km(10_000), readings: fourPads(8) },
    { date: '2025-01-01', odometer: km(20_000), readings: fourPads(5) },
  ];

  it('the advice on a vehicle’s history says to fit pads before the early date, and gives that date in `by`', () => {
    const { advice, replacement } = adviceFor(WORN, '2025-01-02');
    expect(advice).toMatchObject({ action: 'fit-before', part: 'pads', urgency: 'soon' });
    expect(advice.by).toBe(replacement.date!.early);
    expect(advice.words).toMatch(/^Fit front pads before \d+ \w+ 2025\.$/);
  });

  it('the advice on a vehicle’s history says to replace a rotor whose margin will be gone before the next visit', () => {
    const rotors = (value: number) =>
      (['left', 'right'] as const).flatMap((side) => rotorReadings(side, [value, value, value, value]));
    const visits: VisitDraft[] = [
      { date: '2025-06-01', odometer: km(15_000), readings: [...fourPads(10.5), ...rotors(26.34)] },
      { date: '2026-03-01', odometer: km(25_000), readings: [...fourPads(10.2), ...rotors(26.01)] },
    ];
    const { advice, rotors: axleRotors } = adviceFor(visits, '2026-03-02');
    expect(axleRotors[0]!.untilNextVisit.chanceLimitReached).toBeGreaterThan(0.9);
    expect(axleRotors[0]).toMatchObject({ fails: false, conformity: 'conforms' });
    expect(advice.part).toBe('rotors');
    expect(advice.words).toMatch(/^Replace both front rotors (now|at the first chance|before .* 2026)\.$/);
    expect(advice.why).toContain('rotor 26.01 mm on 1 March, discard 26 mm.');
  });
});
