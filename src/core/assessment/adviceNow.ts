import { itemAt } from '../items.js';
import type { AdvicePart, Axle } from '../vocabulary/terms.js';
import type { Finding } from '../vocabulary/wear.js';
import {
  axleInWords,
  capital,
  countInWords,
  firstSentence,
  limitInWords,
  listInWords,
  nearDateInWords,
  onAxle,
  readingInWords,
} from '../words.js';
import { aboveLimit, type AdviceDay, type AdviceFacts } from './adviceFacts.js';
import {
  counterpartReading,
  levelOf,
  liningLine,
  liningsAfter,
  nameOf,
  probably,
  whyTogether,
  type Lead,
} from './adviceWords.js';

/** Advice on work needed now. */

/** A task in the imperative, with its reason if that is short. */
interface Task {
  clause: string;
  because: string | null;
}

const isStop = ({ severity }: Finding): boolean => severity === 'stop';
/** A condition of the other brake type's parts belongs to a separate parking brake, not to these linings or rotors. */
const isOfParkingBrake = ({ code }: Finding, { linings }: AdviceFacts): boolean =>
  STATE_CODE.test(code) && (linings === 'pads' ? /^(shoe|drum)-/ : /^(pad|rotor)-/).test(code);
const isOfLining = (finding: Finding, facts: AdviceFacts): boolean =>
  (finding.pad !== null || /^(pad|shoe)s?-/.test(finding.code)) && !isOfParkingBrake(finding, facts);
const isOfCounterpart = (finding: Finding, facts: AdviceFacts): boolean =>
  /^(rotor|drum)-/.test(finding.code) && !isOfParkingBrake(finding, facts);
/** Stop findings that only say that a lining has reached its limit or is too close to it to tell. */
const isOnlyLiningLimit = ({ code }: Finding): boolean =>
  code === 'pad-at-limit' || code === 'pad-too-close-to-limit';
/** Findings that a finer measurement could settle. */
const isUnsettled = ({ code }: Finding): boolean => /-too-close-to-|-repeat-|-failed-before$/.test(code);
/** Failed readings that no finer one has overruled. */
const isNotOverruled = ({ code }: Pick<Finding, 'code'>): boolean => /-repeat-|-failed-before$/.test(code);
/** A new part recorded as beyond its limit: either the record or the part is wrong. */
const isOfRecord = ({ code }: Finding): boolean => code.includes('-fitted-');
/** Findings on due rotors or drums, which the advice itself already mentions. */
export const isCounterpartDue = ({ code }: Finding): boolean => code.endsWith('-limit-before-next-visit');

/** Stop findings by the part they concern, and which parts must be replaced now. */
interface Faults {
  stops: Finding[];
  /** Doubts about the record of a new part. */
  ofRecord: Finding[];
  onLinings: Finding[];
  onCounterparts: Finding[];
  others: Finding[];
  liningsNow: boolean;
  counterpartsNow: boolean;
}

function collectFaults(facts: AdviceFacts, day: AdviceDay): Faults {
  const stops = day.findings.filter(isStop);
  const ofRecord = stops.filter(isOfRecord);
  const ofParts = stops.filter((finding) => !isOfRecord(finding));
  const onLinings = ofParts.filter((finding) => isOfLining(finding, facts));
  const onCounterparts = ofParts.filter(
    (finding) => !isOfLining(finding, facts) && isOfCounterpart(finding, facts),
  );
  const others = ofParts.filter(
    (finding) => !onLinings.includes(finding) && !onCounterparts.includes(finding),
  );
  // If the record itself is in doubt, ignore the dates computed from it.
  const areLiningsDue = day.overdue && !ofRecord.some((finding) => isOfLining(finding, facts));
  const areCounterpartsDue =
    levelOf(day.counterpartDates, day) === 'now' && ofRecord.every((finding) => isOfLining(finding, facts));
  return {
    stops,
    ofRecord,
    onLinings,
    onCounterparts,
    others,
    liningsNow: facts.beyond.length > 0 || onLinings.length > 0 || areLiningsDue,
    counterpartsNow: onCounterparts.length > 0 || areCounterpartsDue,
  };
}

export function nowAdvice(axle: Axle, facts: AdviceFacts, day: AdviceDay): Lead | null {
  const faults = collectFaults(facts, day);
  const { stops, liningsNow, counterpartsNow } = faults;
  if (!liningsNow && !counterpartsNow && stops.length === 0) return null;
  const replaceToo =
    counterpartsNow || (liningsNow && facts.counterparts.some(({ decision }) => decision === 'replace'));
  const isStopped = stops.some((finding) => !isOnlyLiningLimit(finding));
  return {
    action: isStopped ? 'stop' : 'fit-now',
    part: leadingPart(facts, faults),
    by: day.today,
    words: nowSentence(tasksFor(axle, facts, faults, replaceToo), alternativeOf(facts, day, faults)),
    status: isStopped ? 'stop' : liningStatus(facts, day),
    urgency: 'now',
    why: whyNow(facts, day, faults, replaceToo),
    mentioned: day.findings.filter(
      (finding) => isStop(finding) || (counterpartsNow && isCounterpartDue(finding)),
    ),
    mentionsCounterparts: replaceToo,
  };
}

function tasksFor(axle: Axle, facts: AdviceFacts, faults: Faults, replaceToo: boolean): Task[] {
  const { linings, part } = facts;
  const { others, onLinings, onCounterparts, ofRecord, liningsNow, counterpartsNow } = faults;
  const tasks = otherTasks(axle, others);
  if (liningsNow) {
    const what = replaceToo ? `${linings} and both ${part}` : linings;
    tasks.push({ clause: `fit ${onAxle(what, axle)}`, because: becauseOf(onLinings) });
  } else if (counterpartsNow) {
    tasks.push({ clause: `replace both ${onAxle(part, axle)}`, because: becauseOf(onCounterparts) });
  }
  if (ofRecord.length > 0) tasks.push(recordTask(axle, facts, itemAt(ofRecord, 0)));
  return tasks;
}

function whyNow(facts: AdviceFacts, day: AdviceDay, faults: Faults, replaceToo: boolean): string[] {
  const { others, onLinings, onCounterparts, ofRecord, liningsNow, counterpartsNow } = faults;
  return [
    ...[...others, ...onLinings, ...onCounterparts, ...ofRecord]
      .filter((finding) => !isOnlyLiningLimit(finding))
      .map(({ message }) => message),
    ...(counterpartsNow && onCounterparts.length === 0 ? counterpartWhyNow(facts, day) : []),
    ...(liningsNow ? liningWhyNow(facts, day) : [liningsAfter(facts, day)]),
    ...(replaceToo && !counterpartsNow ? [whyTogether(facts)] : []),
  ];
}

/** The part named first in the sentence. */
function leadingPart(facts: AdviceFacts, now: Faults): AdvicePart | null {
  const { part } = facts;
  if (now.others.length > 0) return partOf(itemAt(now.others, 0));
  if (now.liningsNow) return 'pads';
  return now.counterpartsNow || !now.ofRecord.some((finding) => isOfLining(finding, facts)) ? part : 'pads';
}

function nowSentence(tasks: readonly Task[], alternative: string | null): string {
  const what = capital(listInWords(tasks.map(({ clause }) => clause)));
  if (alternative) return `${what} now, or ${alternative}.`;
  const because = tasks.length === 1 ? itemAt(tasks, 0).because : null;
  return because ? `${what} now: ${because}.` : `${what} now.`;
}

/**
 * A measurement that may make the work unnecessary: if readings are too close to tell, if only a forecast condemns the
 * rotors, or if the linings are overdue but their latest readings were perhaps copied.
 */
function alternativeOf(
  { beyond, counterparts }: AdviceFacts,
  day: AdviceDay,
  { stops, liningsNow, counterpartsNow }: Faults,
): string | null {
  if (stops.length + beyond.length === 0) {
    const isOld =
      day.findings.some(
        ({ code }) => code === 'reading-overdue' || /^(rotor|drum)-off-forecast$/.test(code),
      ) || counterparts.some(({ latest }) => latest !== null && latest.date !== day.asAtDate);
    const areRepeated = day.findings.some(({ code }) => code === 'readings-repeated');
    const isInDoubt = liningsNow ? areRepeated && !counterpartsNow : counterpartsNow && isOld;
    return isInDoubt ? 'measure them first' : null;
  }
  const areClose = stops.every(isUnsettled);
  // A failing reading that no later one overrules makes the part overdue, whatever the forecast says.
  const isByReading = stops.some(isNotOverruled);
  const isForecast =
    !isByReading &&
    ((liningsNow && day.overdue) || (counterpartsNow && levelOf(day.counterpartDates, day) === 'now'));
  return areClose && !isForecast && beyond.every(({ fails }) => !fails)
    ? 'measure again with a finer gauge'
    : null;
}

const STATES = {
  cracked: { of: (what: string) => `replace ${what}`, found: 'cracked' },
  leaking: { of: (what: string) => `repair the leak at ${what}`, found: null },
  loose: { of: (what: string) => `secure ${what}`, found: 'loose' },
  seized: { of: (what: string) => `free or replace ${what}`, found: 'seized' },
  contaminated: { of: (what: string) => `replace ${what}`, found: 'contaminated' },
} as const;
type State = keyof typeof STATES;
const STATE_CODE = /^([a-z]+)-(cracked|leaking|loose|seized|contaminated)$/;

/** The work on parts other than linings, rotors and drums; names a single fault, and counts several. */
function otherTasks(axle: Axle, findings: readonly Finding[]): Task[] {
  const [first] = findings;
  if (!first) return [];
  if (findings.length > 1) {
    return [{ clause: `repair ${findings.length} faults on the ${axleInWords(axle)}`, because: null }];
  }
  const [, part, state] = STATE_CODE.exec(first.code) ?? [];
  if (!part || !state)
    return [{ clause: `repair the ${axleInWords(axle)}`, because: withoutFullStop(first.message) }];
  const { of, found } = STATES[state as State];
  const what = `the ${onAxle([first.side, part].filter(Boolean).join(' '), axle)}`;
  return [{ clause: of(what), because: found && `it was found ${found}` }];
}

/** A part fitted new at a thickness that its limit does not allow. */
function recordTask(axle: Axle, facts: AdviceFacts, finding: Finding): Task {
  const { linings, part } = facts;
  const what = isOfLining(finding, facts) ? linings : part;
  return {
    clause: `check the new ${onAxle(what, axle)}`,
    because: 'they are recorded as beyond their limit',
  };
}

const withoutFullStop = (sentence: string): string => firstSentence(sentence).replace(/[.?!]$/, '');

const PART_NAMES: Record<string, AdvicePart> = { caliper: 'calipers', slide: 'slides', hose: 'hoses' };
const partOf = ({ code }: Finding): AdvicePart | null => PART_NAMES[/^[a-z]+/.exec(code)?.[0] ?? ''] ?? null;

/** The reason in a few words: `the left one is cracked`; null if the reading itself is the reason. */
function becauseOf(findings: readonly Finding[]): string | null {
  for (const { code, side, pad } of findings) {
    if (isNotOverruled({ code })) continue;
    const which = [side, pad === 'thinnest' && side !== null ? null : pad].filter(Boolean).join(' ');
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

function liningWhyNow(facts: AdviceFacts, day: AdviceDay): string[] {
  const { beyond, governing } = facts;
  const [worst, ...rest] = beyond;
  const why: string[] = [];
  if (worst?.latest) {
    const { latest, limitMm, source, fails } = worst;
    const read = `${nameOf(worst, facts)} read ${readingInWords(latest.valueMm, limitMm)} on ${nearDateInWords(latest.date, day.today)}`;
    why.push(
      fails
        ? `${read}; limit ${limitInWords(limitMm, source)}.`
        : `${read}: this gauge cannot tell it from the limit of ${limitInWords(limitMm, source)}.`,
    );
    if (rest.length > 0)
      why.push(
        `${countInWords(rest.length, 'other lining is', 'other linings are')} at the limit or too close to tell.`,
      );
  } else if (day.overdue && governing && !day.findings.some(isNotOverruled)) {
    why.push(liningLine(governing, facts, day.today), probably(day.liningDates, day));
  }
  return why;
}

function counterpartWhyNow(facts: AdviceFacts, day: AdviceDay): string[] {
  return [counterpartReading(facts, day.today), probably(day.counterpartDates, day)];
}
