import type { Axle } from '../vocabulary/terms.js';
import type { DateInterval } from '../vocabulary/wear.js';
import { beforeInWords, chanceInWords, onAxle } from '../words.js';
import type { AdviceDay, AdviceFacts, CounterpartFact } from './adviceFacts.js';
import { isCounterpartDue } from './adviceNow.js';
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
} from './adviceWords.js';

/** Advice on work possibly overdue, or due before the next visit; and on rotors or drums that need work first. */

/** A kind of part that is due, and the words for when. */
interface Due {
  early: string;
  isAtOnce: boolean;
  when: string;
}

/** Null if the part is not due before the next visit, or is overdue. */
function dueOf(dates: DateInterval | null, day: AdviceDay): Due | null {
  const level = levelOf(dates, day);
  if (!dates?.early || (level !== 'first-chance' && level !== 'before')) return null;
  const isAtOnce = level === 'first-chance';
  const when = isAtOnce ? 'at the first chance' : `before ${beforeInWords(dates.early, dates, day.today)}`;
  return { early: dates.early, isAtOnce, when };
}

export function dueAdvice(axle: Axle, facts: AdviceFacts, day: AdviceDay): Lead | null {
  const linings = dueOf(day.liningDates, day);
  const counterparts = dueOf(day.counterpartDates, day);
  if (counterparts && (!linings || counterparts.early < linings.early))
    return counterpartsFirst(axle, facts, day, { linings, counterparts });
  return linings && liningsFirst(axle, facts, day, { linings, counterparts });
}

const leadOn = (due: Due, { today }: AdviceDay) => ({
  action: due.isAtOnce ? ('first-chance' as const) : ('fit-before' as const),
  by: due.isAtOnce ? today : due.early,
  status: due.isAtOnce ? 'perhaps due already' : 'due before the next visit',
  urgency: 'soon' as const,
});

function liningsFirst(
  axle: Axle,
  facts: AdviceFacts,
  day: AdviceDay,
  { linings, counterparts }: { linings: Due; counterparts: Due | null },
): Lead {
  const isTogether =
    counterparts !== null || facts.counterparts.some(({ decision }) => decision === 'replace');
  const what = isTogether ? `${facts.linings} and both ${facts.part}` : facts.linings;
  return {
    ...leadOn(linings, day),
    part: 'pads',
    words: `Fit ${onAxle(what, axle)} ${linings.when}.`,
    why: [...(isTogether ? [whyTogether(facts)] : []), ...liningWhy(facts, day, linings)],
    mentioned: isTogether ? day.findings.filter(isCounterpartDue) : [],
    mentionsCounterparts: isTogether,
  };
}

function counterpartsFirst(
  axle: Axle,
  facts: AdviceFacts,
  day: AdviceDay,
  { linings, counterparts }: { linings: Due | null; counterparts: Due },
): Lead {
  const { part } = facts;
  const replace = `Replace both ${onAxle(part, axle)} ${counterparts.when}`;
  const both =
    linings?.when === counterparts.when
      ? `Fit ${onAxle(`${facts.linings} and both ${part}`, axle)} ${counterparts.when}`
      : `${replace} and fit ${facts.linings} ${linings?.when}`;
  return {
    ...leadOn(counterparts, day),
    part,
    words: `${linings ? both : replace}.`,
    why: [
      counterpartReading(facts, day.today),
      chanceSentence(day.counterpartChance, day),
      ...(linings ? liningWhy(facts, day, linings) : [liningsAfter(facts, day)]),
    ],
    mentioned: day.findings.filter(isCounterpartDue),
    mentionsCounterparts: true,
  };
}

function liningWhy(facts: AdviceFacts, day: AdviceDay, { isAtOnce }: Due): string[] {
  const { governing } = facts;
  const { chanceToday, untilNextVisit, today } = day;
  const { chanceLimitReached: chance } = untilNextVisit;
  const isToday = untilNextVisit.date <= today;
  const next = chance === null || isToday ? null : `${chanceInWords(chance)} ${byNextVisit(day)}`;
  const line = governing ? [liningLine(governing, facts, today)] : [];
  if (isAtOnce && chanceToday !== null) {
    const chances = [`${chanceInWords(chanceToday)} today`, ...(next ? [next] : [])];
    return [...line, `The chance that it is at its limit is ${chances.join(' and ')}.`];
  }
  return [...line, chanceSentence(chance, day)];
}

/** Advice to replace or machine rotors or drums although neither they nor the linings are due. */
export function counterpartAdvice(axle: Axle, facts: AdviceFacts, day: AdviceDay): Lead | null {
  const { part, counterparts } = facts;
  const decided = (decision: CounterpartFact['decision']): CounterpartFact[] =>
    counterparts.filter((each) => each.decision === decision);
  const chosen = decided('replace').length > 0 ? decided('replace') : decided('machine');
  // A part replaced only because its pair must be is not the cause.
  const cause = chosen.find(({ reason }) => reason.code !== 'pair') ?? chosen[0];
  if (!cause) return null;
  const lead = {
    part,
    status: `${part} first`,
    urgency: 'soon' as const,
    why: [reasonInWords(facts, cause), liningsAfter(facts, day)],
    mentioned: [],
    mentionsCounterparts: true,
  };
  const what = `both ${onAxle(part, axle)}`;
  if (cause.decision === 'machine')
    return { ...lead, action: 'machine', by: day.liningDates?.early ?? null, words: `Machine ${what}.` };
  const dates = day.counterpartDates;
  if (cause.reason.code !== 'would-not-last' || !dates?.early)
    return { ...lead, action: 'first-chance', by: day.today, words: `Replace ${what} at the first chance.` };
  const before = beforeInWords(dates.early, dates, day.today);
  return { ...lead, action: 'fit-before', by: dates.early, words: `Replace ${what} before ${before}.` };
}
