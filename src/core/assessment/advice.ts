import { itemAt } from '../items.js';
import type { Axle } from '../vocabulary/terms.js';
import type { Advice } from '../vocabulary/wear.js';
import { capital, firstSentence } from '../words.js';
import { counterpartAdvice, dueAdvice } from './adviceDue.js';
import type { AdviceDay, AdviceFacts } from './adviceFacts.js';
import { laterAdvice, measureAdvice } from './adviceLater.js';
import { nowAdvice } from './adviceNow.js';
import { counterpartLine } from './adviceWords.js';

/**
 * The next step on an axle in one sentence, composed from its linings, its rotors or drums and its findings. Order of
 * precedence: work needed now; work possibly overdue; work due before the next visit; rotors that need work; a missing
 * measurement; otherwise nothing to do yet.
 */

export function adviceOn(axle: Axle, facts: AdviceFacts, day: AdviceDay): Advice {
  const lead =
    nowAdvice(axle, facts, day) ??
    dueAdvice(axle, facts, day) ??
    counterpartAdvice(axle, facts, day) ??
    measureAdvice(axle, facts, day) ??
    laterAdvice(axle, facts, day);
  const { why, mentioned, mentionsCounterparts, ...advice } = lead;
  const open = day.findings.filter((finding) => finding.severity !== 'note' && !mentioned.includes(finding));
  // Findings on several places may ask for the same check.
  const checks = [...new Set(open.map(({ check }) => check))];
  const words =
    advice.action === 'nothing-yet' && checks.length > 0
      ? `${advice.words.slice(0, -1)}, but ${thingsToCheck(checks.length)}.`
      : advice.words;
  return {
    action: advice.action,
    part: advice.part,
    by: advice.by,
    words,
    why: why.filter((sentence) => sentence !== '').join(' '),
    rotors: mentionsCounterparts ? null : counterpartLine(facts),
    checks: checks.length,
    check: checkLine(checks),
    status: advice.status,
    urgency: advice.urgency,
  };
}

const thingsToCheck = (count: number): string =>
  count === 1 ? 'one thing to check' : `${count} things to check`;

/** Quotes a single check; counts several. */
function checkLine(checks: readonly string[]): string | null {
  if (checks.length === 0) return null;
  return checks.length === 1 ? firstSentence(itemAt(checks, 0)) : capital(`${thingsToCheck(checks.length)}.`);
}
