import { required } from '../items.js';
import { toDay, toFullDate } from '../calendar.js';
import type { Reason } from '../vocabulary/quantities.js';
import type { Axle } from '../vocabulary/terms.js';
import { axleInWords, dateInWords, forecastInWords, onAxle, spanInWords } from '../words.js';
import type { AdviceDay, AdviceFacts } from './adviceFacts.js';
import { dueFirst, isBefore, liningLine, whyUnknown, type Lead } from './adviceWords.js';

/** Advice where a measurement is missing, or nothing needs doing yet. */

export function measureAdvice(axle: Axle, facts: AdviceFacts, day: AdviceDay): Lead | null {
  const { linings, noDate, governing } = facts;
  const lead = {
    action: 'measure' as const,
    part: 'pads' as const,
    urgency: 'unknown' as const,
    mentionsCounterparts: false,
  };
  const what = onAxle(linings, axle);
  if (!day.liningDates?.early && noDate?.code !== 'beyond-30-years') {
    return {
      ...lead,
      by: null,
      words: wordsOfUnknown(what, noDate),
      status: 'no forecast',
      why: [whyUnknown(facts), ...(governing?.latest ? [liningLine(governing, facts, day.today)] : [])],
      mentioned: [],
    };
  }
  if (!day.measureFirst) return null;
  const stale = day.findings.filter(({ code }) => code === 'reading-overdue');
  const { early = null, late = null } = day.liningDates ?? {};
  return {
    ...lead,
    by: early,
    words: `Measure the ${what} first.`,
    status: 'measure first',
    why: [
      stale.length > 0
        ? lastMeasured(facts, day)
        : `The forecast is too wide to plan by: from ${forecastInWords(early!, { early, late })} ${late === null ? 'to beyond 30 years' : `to ${forecastInWords(late, { early, late })}`}.`,
      dueFirst(facts, day),
    ],
    mentioned: stale,
  };
}

function wordsOfUnknown(what: string, noDate: Reason | null): string {
  if (noDate?.code === 'no-limit') return `Find and record the limit of the ${what}.`;
  if (noDate?.code === 'no-odometer') return `Read the odometer, and measure the ${what} again.`;
  return `Measure the ${what}.`;
}

function lastMeasured({ governing }: AdviceFacts, { today, findings }: AdviceDay): string {
  const overdue = findings.find(({ code }) => code === 'reading-overdue');
  const days = required(overdue?.numbers.days, 'days since the last reading');
  const date = governing?.latest?.date ?? toFullDate(toDay(today) - days);
  return `Last measured on ${dateInWords(date)}, ${spanInWords(days)} ago.`;
}

export function laterAdvice(axle: Axle, facts: AdviceFacts, day: AdviceDay): Lead {
  const { part } = facts;
  const { liningDates, counterpartDates } = day;
  const counterpartsFirst = isBefore(counterpartDates, liningDates);
  const isFar = !liningDates?.early && !counterpartDates?.early;
  return {
    action: 'nothing-yet',
    part: counterpartsFirst ? part : 'pads',
    by: (counterpartsFirst ? counterpartDates : liningDates)?.early ?? null,
    words: `Nothing to fit on the ${axleInWords(axle)}${isFar ? '' : ' yet'}.`.replace('the axle', 'axle'),
    status: isFar ? 'not due' : 'not due yet',
    urgency: 'later',
    why: [dueFirst(facts, day)],
    mentioned: [],
    mentionsCounterparts: false,
  };
}
