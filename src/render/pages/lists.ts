import { html } from 'ghtml';
import { dueNames } from '../../core/assessment/dueWords.js';
import { AXLES } from '../../core/vocabulary/terms.js';
import type { Advice } from '../../core/vocabulary/wear.js';
import {
  axleInWords,
  capital,
  chanceInWords,
  dateInWords,
  onAxle,
  positionInWords,
  termInWords,
  vehicleNames,
} from '../../core/words.js';
import type { DueAxle, DueSoonQuery, StoppedAxle } from '../../store/contract/reports.js';
import { selectField, textField, type Filled, type Option } from './fields.js';
import type { Made, Page } from './layout.js';

/** Shared by the planning lists and the home page: their query and its form, and the words for vehicles and axles. */

/** A due axle and its advice. */
export interface ListedAxle extends DueAxle {
  advice: Advice | null;
  lowerQuartile: string | null;
  upperQuartile: string | null;
  /** The latest reading of the governing part; null if it was never measured. */
  readMm: number | null;
}

/** An axle with a stop finding that is not due by date, and its advice. */
export interface ListedStop extends StoppedAxle {
  advice: Advice | null;
}

export interface ListQuery extends DueSoonQuery {
  withinDays: number;
}

/** A list's query, and the fields to change it. */
export interface QueryFields {
  query: ListQuery;
  filled: Filled;
  fleets: readonly string[];
}

export type Role = NonNullable<Page['caller']>['role'];

export const fleetInWords = (fleet: string | null): string => fleet ?? 'no fleet';
export const partInWords = (due: Pick<DueAxle, 'axle' | 'part' | 'linings'>): string =>
  capital(onAxle(dueNames(due), due.axle));

export const stopPart = ({ axle, advice }: ListedStop): string =>
  capital(onAxle(advice?.part ?? 'brakes', axle));

/** `left rotor cracked`. */
export const stopsInWords = ({ stops }: ListedStop): string =>
  stops
    .map(({ code, side, pad }) =>
      [positionInWords({ side, pad }), termInWords(code)].filter(Boolean).join(' '),
    )
    .join('; ');

export function vehicleLink(item: {
  vehicleId: string;
  registration: string | null;
  externalId: string | null;
}): string {
  const { first, second } = vehicleNames(item);
  return html`<a class="name" href="/vehicles/${item.vehicleId}">${first}</a>
    !${second === null ? '' : html`<span class="soft">${second}</span>`}`;
}

/** The list's name, and at the top of every printed page its name, the date and the columns. */
export const listHeading = (title: string, { today }: ListQuery, columns = ''): string =>
  html`<div class="running" hidden>
      <p><strong>${title}</strong><span class="date">${dateInWords(today)}</span></p>
      !${columns}
    </div>
    <h1>${title}</h1>`;

/** The query in words, and the fields to change it. */
export function queryForm({ query, filled, fleets }: QueryFields, action: string): string {
  const { withinDays, chance, fleet, axle } = query;
  const fleetOptions: Option[] = [['', 'all fleets'], ...fleets.map((name): Option => [name, name])];
  const axleOptions: Option[] = [['', 'any axle'], ...AXLES.map((name): Option => [name, axleInWords(name)])];
  const words = [
    `Within ${withinDays} days`,
    `chance of ${chanceInWords(chance)} or more`,
    fleet ?? 'all fleets',
    ...(axle === null ? [] : [axleInWords(axle)]),
  ].join(', ');
  return html`<details class="on-screen" !${filled.errors.length > 0 ? 'open' : ''}>
    <summary>${words}. <span class="hint">Change</span></summary>
    <form method="get" action="${action}" class="narrow">
      <div class="fields">
        !${textField(filled, 'withinDays', 'Within days', { mode: 'numeric' })}
        !${textField(filled, 'chance', 'Chance of at least', { mode: 'decimal', hint: 'from 0 to 1; 0.1 is 10 %' })}
      </div>
      <div class="fields">
        !${fleets.length === 0 ? '' : selectField(filled, 'fleet', 'Fleet', fleetOptions)}
        !${selectField(filled, 'axle', 'Axle', axleOptions)}
      </div>
      <p class="field"><button class="main" type="submit">Show</button></p>
    </form>
  </details>`;
}

/** The errors of a list's query, next to its fields, with a link back. */
export function badQueryPage(title: string, action: string, list: QueryFields): Made {
  const main = html`<section class="refused" role="alert">
      <h2>The list cannot be shown: check the fields below.</h2>
      <p>The message beside each field says what is wrong.</p>
    </section>
    !${queryForm(list, action)}
    <p><a href="${action}">Show the usual list</a></p>`;
  return { title, main };
}
