import type { Axle } from '../vocabulary/terms.js';
import type { DateInterval } from '../vocabulary/wear.js';
import { beforeInWords, capital, chanceInWords, onAxle } from '../words.js';
import type { AdviceDay, AdviceFacts } from './adviceFacts.js';
import { saysOfCounterparts } from './adviceNow.js';
import {
  byNextVisit,
  chanceSentence,
  counterpartReading,
  levelOf,
  liningLine,
  liningsAfter,
  reasonInWords,
  whyTogether,
  type Lead,
  type Level,
} from './adviceWords.js';

/** Advice on work possibly overdue, or due before the next visit; and on rotors or drums that need work first. */

const isDue = (level: Level): boolean => level === 'first-chance' || level === 'before';

export function dueAdvice(axle: Axle, facts: AdviceFacts, day: AdviceDay): Lead | null {
  const { linings, part, counterparts } = facts;
  const { liningDates, counterpartDates, today } = day;
  const [liningLevel, counterpartLevel] = [levelOf(liningDates, day), levelOf(counterpartDates, day)];
  if (!isDue(liningLevel) && !isDue(counterpartLevel)) return null;
  const replaced = counterparts.some(({ decision }) => decision === 'replace');
  const counterpartsFirst =
    isDue(counterpartLevel) && (!isDue(liningLevel) || counterpartDates!.early! < liningDates!.early!);
  const level = counterpartsFirst ? counterpartLevel : liningLevel;
  const dates = (counterpartsFirst ? counterpartDates : liningDates)!;
  const when = whenInWords(level, dates, today);
  const fit = `fit ${onAxle(linings, axle)}`;
  const replace = `replace both ${onAxle(part, axle)}`;
  const together = `fit ${onAxle(`${linings} and both ${part}`, axle)} ${when}`;
  const saysBoth = isDue(liningLevel) && (isDue(counterpartLevel) || replaced);
  let words = `${fit} ${when}`;
  if (saysBoth && (!counterpartsFirst || when === whenInWords(liningLevel, liningDates!, today)))
    words = together;
  else if (saysBoth)
    words = `${replace} ${when} and fit ${linings} ${whenInWords(liningLevel, liningDates!, today)}`;
  else if (counterpartsFirst) words = `${replace} ${when}`;
  return {
    action: level === 'first-chance' ? 'first-chance' : 'fit-before',
    part: counterpartsFirst ? part : 'pads',
    by: level === 'first-chance' ? today : dates.early,
    words: `${capital(words)}.`,
    status: level === 'first-chance' ? 'perhaps due already' : 'due before the next visit',
    urgency: 'soon',
    why: [
      ...(counterpartsFirst
        ? [counterpartReading(facts, today), chanceSentence(day.counterpartChance, day)]
        : []),
      ...(saysBoth && !counterpartsFirst ? [whyTogether(facts)] : []),
      ...(isDue(liningLevel) ? dueWhy(facts, day, liningLevel) : [liningsAfter(facts, day)]),
    ],
    said: counterpartsFirst || saysBoth ? day.findings.filter(saysOfCounterparts) : [],
    saysCounterparts: counterpartsFirst || saysBoth,
  };
}

const whenInWords = (level: Level, dates: DateInterval, today: string): string =>
  level === 'first-chance' ? 'at the first chance' : `before ${beforeInWords(dates.early!, dates, today)}`;

function dueWhy({ governing }: AdviceFacts, day: AdviceDay, level: Level): string[] {
  const { chanceToday, untilNextVisit, today } = day;
  const { chanceLimitReached: chance } = untilNextVisit;
  const isToday = untilNextVisit.date <= today;
  const next = chance === null || isToday ? null : `${chanceInWords(chance)} ${byNextVisit(day)}`;
  const line = governing ? [liningLine(governing, today)] : [];
  if (level === 'first-chance' && chanceToday !== null) {
    const chances = [`${chanceInWords(chanceToday)} today`, ...(next ? [next] : [])];
    return [...line, `The chance that it is at its limit is ${chances.join(' and ')}.`];
  }
  return [...line, chanceSentence(chance, day)];
}

export function counterpartAdvice(axle: Axle, facts: AdviceFacts, day: AdviceDay): Lead | null {
  const { part, counterparts } = facts;
  const chosen =
    counterparts.find(({ decision }) => decision === 'replace') ??
    counterparts.find(({ decision }) => decision === 'machine');
  if (!chosen) return null;
  const machined = chosen.decision === 'machine';
  const cause =
    counterparts.find(({ decision, reason }) => decision === chosen.decision && reason.code !== 'pair') ??
    chosen;
  const what = `both ${onAxle(part, axle)}`;
  const early = day.counterpartDates?.early ?? null;
  const before = !machined && cause.reason.code === 'would-not-last' && early !== null;
  const when = before
    ? `before ${beforeInWords(early, day.counterpartDates!, day.today)}`
    : 'at the first chance';
  return {
    action: machined ? 'machine' : before ? 'fit-before' : 'first-chance',
    part,
    by: machined ? (day.liningDates?.early ?? null) : before ? early : day.today,
    words: machined ? `Machine ${what}.` : `Replace ${what} ${when}.`,
    status: `${part} first`,
    urgency: 'soon',
    why: [reasonInWords(facts, cause), liningsAfter(facts, day)],
    said: [],
    saysCounterparts: true,
  };
}
