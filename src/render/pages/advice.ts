import { html } from 'ghtml';
import type { Axle, Urgency } from '../../core/vocabulary/terms.js';
import type { Advice } from '../../core/vocabulary/wear.js';
import { axleInWords, capital, withDatesInWords } from '../../core/words.js';

/** The advice on an axle; the weight of the ink shows its urgency. */

const WEIGHTS: Record<Urgency, string> = { now: 'filled', soon: 'thick', later: 'thin', unknown: 'dashed' };

const MONTH = '(?:January|February|March|April|May|June|July|August|September|October|November|December)';
const NUMBER_AND_UNIT = /(\d) (mm|in|km|mi|%|N·m|kg|years?|days?|visits?|things?)(?![a-z])/g;
const DATE = new RegExp(`(?:(\\d{1,2}) )?(${MONTH})(?: (\\d{4}))?`, 'g');

/** Text with dates in words; keeps dates, and numbers and their units, on one line. */
export const unbroken = (text: string): string =>
  withDatesInWords(text)
    .replace(NUMBER_AND_UNIT, '$1\u00a0$2')
    .replace(/± (?=\d)/g, '±\u00a0')
    .replace(DATE, (_whole, day: string | undefined, month: string, year: string | undefined) =>
      [day, month, year].filter((part) => part !== undefined).join('\u00a0'),
    );

const BEFORE_DATE = new RegExp(`(before )((?:\\d{1,2}\u00a0)?${MONTH}\u00a0\\d{4})`, 'g');

/** Escaped text with the dates to act before in bold. */
const withStrongDates = (text: string): string =>
  html`${unbroken(text)}`.replace(BEFORE_DATE, '$1<strong>$2</strong>');

/** @param checks where the axle's checks are listed; null if not on this page */
export function adviceBlock(axle: Axle, advice: Advice, checks: string | null): string {
  const { words, why, rotors, check, status, urgency } = advice;
  const question = check && unbroken(check);
  const link = question && (checks ? html`<a href="${checks}">${question}</a>` : html`${question}`);
  const last = [rotors && html`${unbroken(capital(rotors))}`, link].filter(Boolean).join(' ');
  return html`<article class="advice ${WEIGHTS[urgency]}">
    <header>
      <h2>${capital(axleInWords(axle))}</h2>
      <span>${status}</span>
    </header>
    <p class="what">${unbroken(words)}</p>
    !${why ? html`<p>!${withStrongDates(why)}</p>` : ''} !${last ? html`<p>!${last}</p>` : ''}
  </article>`;
}
