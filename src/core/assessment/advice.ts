import { toDay, toFullDate } from '../calendar.js';
import type { Range, Reason } from '../vocabulary/quantities.js';
import type { AdvicePart, Axle, LimitSource, LiningPosition, PadSet, Side } from '../vocabulary/terms.js';
import type {
  Advice,
  DateInterval,
  DecisionReason,
  Finding,
  RotorWear,
  UntilNextVisit,
} from '../vocabulary/wear.js';
import {
  axleInWords,
  beforeInWords,
  capital,
  chanceInWords,
  countInWords,
  dateInWords,
  firstSentence,
  forecastInWords,
  limitInWords,
  listInWords,
  mmInWords,
  nearDateInWords,
  onAxle,
  readingInWords,
  spanInWords,
} from '../words.js';
import type { RotorOutlook, AxleOutlook } from './outlookShape.js';

/**
 * The next step on an axle in one sentence, composed from its linings, its rotors or drums and its findings. Order of
 * precedence: work needed now; work possibly overdue; work due before the next visit; rotors that need work; a missing
 * measurement; otherwise nothing to do yet.
 */

/** One lining against its governing limit. */
interface LiningFact {
  side: Side;
  pad: LiningPosition;
  limitMm: number;
  source: LimitSource;
  fails: boolean;
  latest: { valueMm: number; date: string } | null;
}

/** One rotor or drum. */
interface CounterpartFact {
  side: Side;
  decision: RotorWear['decision'];
  /** The most important reason. */
  reason: DecisionReason;
  marginMm: number | null;
  /** Median margin when the linings are due. */
  marginThenMm: number | null;
  /** Thinnest point of a rotor, largest diameter of a drum, as last measured. */
  latest: { valueMm: number; date: string } | null;
  limitMm: number | null;
}

/** The facts behind an axle's advice that do not change from day to day. */
export interface AdviceFacts {
  linings: 'pads' | 'shoes';
  part: 'rotors' | 'drums';
  set: PadSet;
  fitted: string | null;
  /** The lining expected to be the first at its limit. */
  governing: LiningFact | null;
  /** Linings that fail their limit or are too close to it to tell, the worst first. */
  beyond: LiningFact[];
  counterparts: CounterpartFact[];
  /** Why there is no date; null if there is one. */
  noDate: Reason | null;
}

export function adviceFacts({ pads, replacement, rotors, drums }: AxleOutlook): AdviceFacts {
  const { governingPad, basis, reasons } = replacement;
  const known = pads.flatMap(({ side, pad, limits, latest }) => {
    const limit = limits.find(({ governs }) => governs);
    if (!limit) return [];
    const { limitMm, source, conformity } = limit;
    const lining: LiningFact = { side, pad, limitMm, source, fails: limit.fails === true, latest };
    return [{ lining, isBeyond: lining.fails || (conformity !== null && conformity !== 'conforms') }];
  });
  const isGoverning = ({ side, pad }: LiningFact) => side === governingPad?.side && pad === governingPad.pad;
  return {
    linings: drums.length > 0 ? 'shoes' : 'pads',
    part: drums.length > 0 ? 'drums' : 'rotors',
    set: basis.set,
    fitted: pads.find(({ fitted }) => fitted)?.fitted?.date ?? null,
    governing: known.find(({ lining }) => isGoverning(lining))?.lining ?? null,
    beyond: known
      .filter(({ isBeyond }) => isBeyond)
      .map(({ lining }) => lining)
      .sort((a, b) => aboveLimit(a) - aboveLimit(b)),
    counterparts: [
      ...rotors.map((rotor) =>
        counterpartFact(rotor, {
          then: rotor.marginAtPadReplacementMm,
          extremeMm: rotor.thinnestMm,
          limitMm: rotor.discardMm,
        }),
      ),
      ...drums.map((drum) =>
        counterpartFact(drum, {
          then: drum.marginAtShoeReplacementMm,
          extremeMm: drum.largestMm,
          limitMm: drum.maximumMm,
        }),
      ),
    ],
    noDate: reasons.find(({ field }) => field === 'date') ?? null,
  };
}

const aboveLimit = ({ latest, limitMm }: LiningFact): number => (latest?.valueMm ?? Infinity) - limitMm;

function counterpartFact(
  {
    side,
    decision,
    decisionReasons,
    marginMm,
    latestDate,
  }: Pick<RotorOutlook, 'side' | 'decision' | 'decisionReasons' | 'marginMm' | 'latestDate'>,
  { then, extremeMm, limitMm }: { then: Range | null; extremeMm: number | null; limitMm: number | null },
): CounterpartFact {
  return {
    side,
    decision,
    reason: decisionReasons[0]!,
    marginMm,
    marginThenMm: then?.median ?? null,
    latest: extremeMm !== null && latestDate !== null ? { valueMm: extremeMm, date: latestDate } : null,
    limitMm,
  };
}

/** The facts of an axle that depend on the date. */
export interface AdviceDay {
  today: string;
  /** The latest visit; forecasts count from its date. */
  asAtDate: string | null;
  /** When the linings, and the first rotor or drum, reach their limit; null without a forecast. */
  liningDates: DateInterval | null;
  counterpartDates: DateInterval | null;
  overdue: boolean;
  untilNextVisit: UntilNextVisit;
  /** Chance that the limit of the linings has been reached by today. */
  chanceToday: number | null;
  /** Chance that the first rotor or drum reaches its limit by the next visit. */
  counterpartChance: number | null;
  /** Includes the findings that depend on the date. */
  findings: readonly Finding[];
  /** Whether to measure first: the last reading is too old, or the dates are too far apart to plan by. */
  measureFirst: boolean;
  /** Days from today within which work counts as due if the next visit is unknown. */
  dueSoonDays: number;
}

type Level = 'now' | 'first-chance' | 'before' | 'later' | 'none';

/** The sentence so far and its basis; checks and rotors are added to every case alike. */
type Lead = Pick<Advice, 'action' | 'part' | 'by' | 'words' | 'status' | 'urgency'> & {
  why: string[];
  /** Findings that the sentence already mentions. */
  said: readonly Finding[];
  /** Whether the sentence already mentions the rotors or drums. */
  saysCounterparts: boolean;
};

export function adviceOn(axle: Axle, facts: AdviceFacts, day: AdviceDay): Advice {
  const lead =
    nowAdvice(axle, facts, day) ??
    dueAdvice(axle, facts, day) ??
    counterpartAdvice(axle, facts, day) ??
    measureAdvice(axle, facts, day) ??
    laterAdvice(axle, facts, day);
  const { why, said, saysCounterparts, ...advice } = lead;
  const open = day.findings.filter((finding) => finding.severity !== 'note' && !said.includes(finding));
  const words =
    advice.action === 'nothing-yet' && open.length > 0
      ? `${advice.words.slice(0, -1)}, but ${thingsToCheck(open.length)}.`
      : advice.words;
  return {
    action: advice.action,
    part: advice.part,
    by: advice.by,
    words,
    why: why.filter((sentence) => sentence !== '').join(' '),
    rotors: saysCounterparts ? null : counterpartLine(facts),
    checks: open.length,
    check: checkLine(open),
    status: advice.status,
    urgency: advice.urgency,
  };
}

const thingsToCheck = (count: number): string =>
  count === 1 ? 'one thing to check' : `${count} things to check`;

/** Quotes a single check; counts several. */
function checkLine(open: readonly Finding[]): string | null {
  if (open.length === 0) return null;
  return open.length === 1 ? firstSentence(open[0]!.check) : capital(`${thingsToCheck(open.length)}.`);
}

// ---- Work needed now.

/** A task in the imperative, with its reason if that takes few words. */
interface Deed {
  clause: string;
  because: string | null;
}

const isStop = ({ severity }: Finding): boolean => severity === 'stop';
const isOfLining = ({ code, pad }: Finding): boolean => pad !== null || /^(pad|shoe)s?-/.test(code);
const isOfCounterpart = ({ code }: Finding): boolean => /^(rotor|drum)-/.test(code);
/** Stop findings that only say that a lining has reached its limit or is too close to it to tell. */
const ofLiningLimit = ({ code }: Finding): boolean =>
  code === 'pad-at-limit' || code === 'pad-too-close-to-limit';
/** Findings that a finer measurement could settle. */
const isUnsettled = ({ code }: Finding): boolean => /-too-close-to-|-repeat-|-failed-before$/.test(code);
/** A new part recorded as beyond its limit: either the record or the part is wrong. */
const isOfRecord = ({ code }: Finding): boolean => code.includes('-fitted-');
/** Findings on due rotors or drums that the advice itself covers. */
const saysOfCounterparts = ({ code }: Finding): boolean => code.endsWith('-limit-before-next-visit');

function nowAdvice(axle: Axle, facts: AdviceFacts, day: AdviceDay): Lead | null {
  const { linings, part, beyond, counterparts } = facts;
  const stops = day.findings.filter(isStop);
  const ofRecord = stops.filter(isOfRecord);
  const ofParts = stops.filter((finding) => !isOfRecord(finding));
  const onLinings = ofParts.filter(isOfLining);
  const onCounterparts = ofParts.filter((finding) => !isOfLining(finding) && isOfCounterpart(finding));
  const others = ofParts.filter(
    (finding) => !onLinings.includes(finding) && !onCounterparts.includes(finding),
  );
  const counterpartsNow = onCounterparts.length > 0 || levelOf(day.counterpartDates, day) === 'now';
  const liningsNow = beyond.length > 0 || onLinings.length > 0 || day.overdue;
  if (!liningsNow && !counterpartsNow && stops.length === 0) return null;
  const replaceToo =
    counterpartsNow || (liningsNow && counterparts.some(({ decision }) => decision === 'replace'));
  const deeds = [...otherDeeds(axle, others)];
  if (liningsNow) {
    const what = replaceToo ? `${linings} and both ${part}` : linings;
    deeds.push({ clause: `fit ${onAxle(what, axle)}`, because: becauseOf(onLinings) });
  } else if (counterpartsNow) {
    deeds.push({ clause: `replace both ${onAxle(part, axle)}`, because: becauseOf(onCounterparts) });
  }
  if (ofRecord.length > 0) deeds.push(recordDeed(axle, facts, ofRecord[0]!));
  const isStopped = stops.some((finding) => !ofLiningLimit(finding));
  return {
    action: isStopped ? 'stop' : 'fit-now',
    part: partInFront(facts, { others, ofRecord, liningsNow, counterpartsNow }),
    by: day.today,
    words: nowSentence(deeds, alternativeOf(facts, day, { stops, liningsNow, counterpartsNow })),
    status: isStopped ? 'stop' : liningStatus(facts, day),
    urgency: 'now',
    why: [
      ...[...others, ...onLinings, ...onCounterparts, ...ofRecord]
        .filter((finding) => !ofLiningLimit(finding))
        .map(({ message }) => message),
      ...(counterpartsNow && onCounterparts.length === 0 ? counterpartWhyNow(facts, day) : []),
      ...(liningsNow ? liningWhyNow(facts, day) : [liningsAfter(facts, day)]),
      ...(replaceToo && !counterpartsNow ? [whyTogether(facts)] : []),
    ],
    said: day.findings.filter(
      (finding) => isStop(finding) || (counterpartsNow && saysOfCounterparts(finding)),
    ),
    saysCounterparts: replaceToo,
  };
}

/** The part named first in the sentence. */
function partInFront(
  { part }: AdviceFacts,
  now: { others: Finding[]; ofRecord: Finding[]; liningsNow: boolean; counterpartsNow: boolean },
): AdvicePart | null {
  if (now.others.length > 0) return partOf(now.others[0]!);
  if (now.liningsNow) return 'pads';
  return now.counterpartsNow || !now.ofRecord.some(isOfLining) ? part : 'pads';
}

function nowSentence(deeds: readonly Deed[], alternative: string | null): string {
  const what = capital(listInWords(deeds.map(({ clause }) => clause)));
  if (alternative) return `${what} now, or ${alternative}.`;
  const because = deeds.length === 1 ? deeds[0]!.because : null;
  return because ? `${what} now: ${because}.` : `${what} now.`;
}

/**
 * A measurement that may make the work unnecessary: if readings are too close to tell, or only a forecast speaks
 * against the rotors.
 */
function alternativeOf(
  { beyond, counterparts }: AdviceFacts,
  day: AdviceDay,
  {
    stops,
    liningsNow,
    counterpartsNow,
  }: { stops: readonly Finding[]; liningsNow: boolean; counterpartsNow: boolean },
): string | null {
  if (stops.length + beyond.length === 0) {
    const isOld = counterparts.some(({ latest }) => latest !== null && latest.date !== day.asAtDate);
    return !liningsNow && counterpartsNow && isOld ? 'measure them first' : null;
  }
  const areClose = stops.every(isUnsettled);
  const isForecast =
    (liningsNow && day.overdue) || (counterpartsNow && levelOf(day.counterpartDates, day) === 'now');
  return areClose && !isForecast && beyond.every(({ fails }) => !fails)
    ? 'measure again with a finer gauge'
    : null;
}

const STATES = {
  cracked: { of: (what: string) => `replace ${what}`, found: 'cracked' },
  leaking: { of: (what: string) => `mend the leak at ${what}`, found: null },
  loose: { of: (what: string) => `secure ${what}`, found: 'loose' },
  seized: { of: (what: string) => `free or replace ${what}`, found: 'seized' },
  contaminated: { of: (what: string) => `replace ${what}`, found: 'contaminated' },
} as const;
type State = keyof typeof STATES;
const STATE_CODE = /^([a-z]+)-(cracked|leaking|loose|seized|contaminated)$/;

/** Work on parts other than linings, rotors and drums; if there are several tasks, only their number. */
function otherDeeds(axle: Axle, findings: readonly Finding[]): Deed[] {
  const [first] = findings;
  if (!first) return [];
  if (findings.length > 1) {
    return [{ clause: `put ${findings.length} faults right on the ${axleInWords(axle)}`, because: null }];
  }
  const [, part, state] = STATE_CODE.exec(first.code) ?? [];
  if (!part || !state)
    return [{ clause: `stop on the ${axleInWords(axle)}`, because: unended(first.message) }];
  const { of, found } = STATES[state as State];
  const what = `the ${onAxle([first.side, part].filter(Boolean).join(' '), axle)}`;
  return [{ clause: of(what), because: found && `it was found ${found}` }];
}

/** A part fitted new at a thickness that its limit does not allow. */
function recordDeed(axle: Axle, { linings, part }: AdviceFacts, finding: Finding): Deed {
  const what = isOfLining(finding) ? linings : part;
  return {
    clause: `check the new ${onAxle(what, axle)}`,
    because: 'they are recorded as beyond their limit',
  };
}

const unended = (sentence: string): string => firstSentence(sentence).replace(/[.?!]$/, '');

const PART_NAMES: Record<string, AdvicePart> = { caliper: 'calipers', slide: 'slides', hose: 'hoses' };
const partOf = ({ code }: Finding): AdvicePart | null => PART_NAMES[/^[a-z]+/.exec(code)?.[0] ?? ''] ?? null;

/** The reason in few words: `the left one is cracked`; null if the reading itself says it. */
function becauseOf(findings: readonly Finding[]): string | null {
  for (const { code, side, pad } of findings) {
    const which = [side, pad].filter(Boolean).join(' ');
    const state = STATE_CODE.exec(code)?.[2];
    if (state) return `the ${which} one is ${state}`;
    if (code === 'metal-on-metal') return `the ${which} one is down to bare metal`;
    if (/-left-(under|over)-machine-to$/.test(code)) return `the ${which} one was machined too far`;
    if (/-under-discard$/.test(code)) return `the ${which} one is under its discard thickness`;
    if (/-over-maximum$/.test(code)) return `the ${which} one is over its maximum diameter`;
  }
  return null;
}

function liningStatus({ beyond }: AdviceFacts, { overdue }: AdviceDay): string {
  const [worst] = beyond;
  if (worst?.fails) return aboveLimit(worst) < 0 ? 'under the limit' : 'at the limit';
  return worst && !overdue ? 'too close to call' : 'overdue';
}

function liningWhyNow({ beyond, governing }: AdviceFacts, day: AdviceDay): string[] {
  const [worst, ...rest] = beyond;
  const why: string[] = [];
  if (worst?.latest) {
    const { latest, limitMm, source, fails } = worst;
    const read = `${nameOf(worst)} read ${readingInWords(latest.valueMm, limitMm)} on ${nearDateInWords(latest.date, day.today)}`;
    why.push(
      fails
        ? `${read}; limit ${limitInWords(limitMm, source)}.`
        : `${read}: this gauge cannot tell it from the limit of ${limitInWords(limitMm, source)}.`,
    );
    if (rest.length > 0)
      why.push(`${countInWords(rest.length, 'other is', 'others are')} at the limit or too close to tell.`);
  } else if (day.overdue && governing) {
    why.push(liningLine(governing, day.today), probably('It', day.liningDates, day));
  }
  return why;
}

function counterpartWhyNow(facts: AdviceFacts, day: AdviceDay): string[] {
  return [counterpartReading(facts, day.today), probably('It', day.counterpartDates, day)];
}

/**
 * `They probably reached it about 1 August 2026.` If the limit was reached by the latest visit, the date is unknown.
 */
function probably(what: string, dates: DateInterval | null, { asAtDate, today }: AdviceDay): string {
  if (!dates?.median) return '';
  if (dates.median === asAtDate)
    return `${what} had probably reached it by ${nearDateInWords(asAtDate, today)}.`;
  return `${what} probably reached it about ${forecastInWords(dates.median, dates)}.`;
}

// ---- Work possibly overdue, or due before the next visit.

/** The date of the vehicle's next visit; if that is overdue, the shop's horizon. */
const nextVisitBy = ({ today, untilNextVisit, dueSoonDays }: AdviceDay): string =>
  untilNextVisit.date > today ? untilNextVisit.date : toFullDate(toDay(today) + dueSoonDays);

function levelOf(dates: DateInterval | null, day: AdviceDay): Level {
  if (!dates?.early) return 'none';
  if (dates.median !== null && dates.median <= day.today) return 'now';
  if (dates.early <= day.today) return 'first-chance';
  return dates.early <= nextVisitBy(day) ? 'before' : 'later';
}

const isDue = (level: Level): boolean => level === 'first-chance' || level === 'before';

function dueAdvice(axle: Axle, facts: AdviceFacts, day: AdviceDay): Lead | null {
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
    const chances = [`${chanceInWords(chanceToday)} by today`, ...(next ? [next] : [])];
    return [...line, `It may be there already: ${chances.join(', ')}.`];
  }
  return [...line, chanceSentence(chance, day)];
}

/** `80 % chance it gets there by the next visit, about 8 January.` */
function chanceSentence(chance: number | null, day: AdviceDay): string {
  if (chance === null) return '';
  if (day.untilNextVisit.date <= day.today) return 'The visit expected by now is not recorded.';
  return `${capital(chanceInWords(chance))} chance it gets there ${byNextVisit(day)}.`;
}

/** Why rotors or drums are replaced with the linings. */
function whyTogether({ part, linings, counterparts }: AdviceFacts): string {
  const cause = counterparts.find(({ decision, reason }) => decision === 'replace' && reason.code !== 'pair');
  if (!cause) return '';
  return cause.reason.code === 'would-not-last'
    ? `The ${part} would not last another set of ${linings}.`
    : `${capital(cause.reason.detail)}.`;
}

function byNextVisit({ today, untilNextVisit: { date, dateSource } }: AdviceDay): string {
  const on = dateSource === 'until' ? ' on' : ', about';
  return `by the next visit${on} ${nearDateInWords(date, today)}`;
}

// ---- Rotors or drums that need work before the linings.

function counterpartAdvice(axle: Axle, facts: AdviceFacts, day: AdviceDay): Lead | null {
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
    why: [`${capital(cause.reason.detail)}.`, liningsAfter(facts, day)],
    said: [],
    saysCounterparts: true,
  };
}

// ---- A missing measurement.

function measureAdvice(axle: Axle, facts: AdviceFacts, day: AdviceDay): Lead | null {
  const { linings, noDate, governing } = facts;
  const lead = {
    action: 'measure' as const,
    part: 'pads' as const,
    urgency: 'unknown' as const,
    saysCounterparts: false,
  };
  const what = onAxle(linings, axle);
  if (!day.liningDates?.early && noDate?.code !== 'beyond-30-years') {
    return {
      ...lead,
      by: null,
      words: wordsOfUnknown(what, noDate),
      status: 'no forecast',
      why: [whyUnknown(facts), ...(governing?.latest ? [liningLine(governing, day.today)] : [])],
      said: [],
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
    said: stale,
  };
}

function wordsOfUnknown(what: string, noDate: Reason | null): string {
  if (noDate?.code === 'no-limit') return `Find and record the limit of the ${what}.`;
  if (noDate?.code === 'no-odometer') return `Read the odometer, and measure the ${what} again.`;
  return `Measure the ${what}.`;
}

function whyUnknown({ noDate, set, fitted }: AdviceFacts): string {
  if (noDate?.code !== 'no-readings') return `No forecast: ${noDate?.detail ?? 'too little is known'}.`;
  return set === 'recorded' && fitted
    ? `No forecast: none of them has been measured since they were fitted, ${dateInWords(fitted)}.`
    : 'No forecast: none of them has ever been measured.';
}

function lastMeasured({ governing }: AdviceFacts, { today, findings }: AdviceDay): string {
  const days = findings.find(({ code }) => code === 'reading-overdue')!.numbers.days!;
  const date = governing?.latest?.date ?? toFullDate(toDay(today) - days);
  return `Last measured on ${dateInWords(date)}, ${spanInWords(days)} ago.`;
}

// ---- Nothing to do yet.

function laterAdvice(axle: Axle, facts: AdviceFacts, day: AdviceDay): Lead {
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
    said: [],
    saysCounterparts: false,
  };
}

const isBefore = (a: DateInterval | null, b: DateInterval | null): boolean =>
  a?.early != null && (b?.early == null || a.early < b.early);

// ---- Shared sentences.

const nameOf = ({ side, pad }: LiningFact): string => capital(`${side} ${pad}`);

/** `Left inner 3.7 mm on 21 November, limit 3 mm (wear indicator).` */
function liningLine(lining: LiningFact, today: string): string {
  const { latest, limitMm, source } = lining;
  const read = latest
    ? `${readingInWords(latest.valueMm, limitMm)} on ${nearDateInWords(latest.date, today)}`
    : 'not measured yet';
  return `${nameOf(lining)} ${read}, limit ${limitInWords(limitMm, source)}.`;
}

/** What is due first on an axle without work to do yet, and the reading behind it. */
function dueFirst(facts: AdviceFacts, { liningDates, counterpartDates, today }: AdviceDay): string {
  const { linings, part, governing, noDate } = facts;
  const line = governing ? ` ${liningLine(governing, today)}` : '';
  const replace = isBefore(counterpartDates, liningDates)
    ? `Replace ${part} before ${beforeInWords(counterpartDates!.early!, counterpartDates!, today)}`
    : null;
  if (liningDates?.early) {
    const before = `before ${beforeInWords(liningDates.early, liningDates, today)}`;
    return `${replace ? `${replace}, ${linings} ${before}` : `Fit ${linings} ${before}`}.${line}`;
  }
  const why =
    noDate?.code === 'beyond-30-years'
      ? `The ${linings} are not expected at their limit within 30 years at the present use.${line}`
      : whyUnknown(facts);
  return replace ? `${replace}. ${why}` : why;
}

/** When the linings are due if the rotors or drums come first: `Pads: fit before 25 February 2027; left inner …` */
function liningsAfter(facts: AdviceFacts, { liningDates, today }: AdviceDay): string {
  const { linings, governing } = facts;
  const name = capital(linings);
  const line = governing ? `; ${unCapital(liningLine(governing, today))}` : '.';
  if (liningDates?.early)
    return `${name}: fit before ${beforeInWords(liningDates.early, liningDates, today)}${line}`;
  if (facts.noDate?.code === 'beyond-30-years')
    return `${name}: not expected at their limit within 30 years${line}`;
  return `${name}: ${unCapital(whyUnknown(facts))}`;
}

const unCapital = (text: string): string => text.slice(0, 1).toLowerCase() + text.slice(1);

const EXTREMES = { rotors: 'above discard', drums: 'below the maximum' } as const;
const LIMITS = { rotors: 'discard', drums: 'maximum' } as const;

/** `Left rotor 26.30 mm on 27 February, discard 26 mm.`, for the rotor nearest its limit. */
function counterpartReading({ part, counterparts }: AdviceFacts, today: string): string {
  const [least] = counterparts
    .filter(({ marginMm }) => marginMm !== null)
    .sort((a, b) => a.marginMm! - b.marginMm!);
  if (!least) return '';
  const { side, latest, limitMm } = least;
  const one = part === 'rotors' ? 'rotor' : 'drum';
  return `${capital(side)} ${one} ${latest!.valueMm.toFixed(2)} mm on ${nearDateInWords(latest!.date, today)}, ${LIMITS[part]} ${mmInWords(limitMm!, 2)}.`;
}

/** A margin below this, in mm, would be displayed as zero. */
const AT_LIMIT_MM = 0.05;

/** What to do with the rotors or drums, in one sentence. */
function counterpartLine({ part, linings, counterparts }: AdviceFacts): string | null {
  if (counterparts.length === 0) return null;
  const name = capital(part);
  const decided = (decision: RotorWear['decision']) =>
    counterparts.filter((each) => each.decision === decision);
  if (decided('replace').length > 0) return `${name}: replace both.`;
  if (decided('machine').length > 0) return `${name}: machine both.`;
  const unmeasured = decided('measure');
  if (unmeasured.length > 0) {
    return `${name}: measure ${unmeasured.length === counterparts.length ? 'both' : `the ${unmeasured[0]!.side}`}.`;
  }
  const then = minOf(counterparts.map(({ marginThenMm }) => marginThenMm));
  const margin = minOf(counterparts.map(({ marginMm }) => marginMm));
  const isNarrow = counterparts.some(({ reason }) => reason.code === 'narrow-margin');
  const watch = isNarrow ? ', so measure at every visit' : '';
  if (then !== null && then < AT_LIMIT_MM) {
    const limit = part === 'rotors' ? 'at discard' : 'at the maximum';
    return `${name}: keep for now; ${limit} by the time the ${linings} are due, so measure at every visit.`;
  }
  if (then !== null) {
    return `${name}: keep; ${readingInWords(then)} ${EXTREMES[part]} when the ${linings} are due${watch}.`;
  }
  return margin === null
    ? `${name}: keep; not measured since they were fitted.`
    : `${name}: keep; ${readingInWords(margin)} ${EXTREMES[part]}${watch}.`;
}

function minOf(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length > 0 ? Math.min(...known) : null;
}
