import { html } from 'ghtml';
import { AXLES } from '../../core/vocabulary/terms.js';
import type { Vehicle } from '../../core/vocabulary/vehicle.js';
import type { DueAxle, DueSoonQuery } from '../../store/store.js';
import { inWords } from '../../core/rounding.js';
import { chanceInWords } from '../../core/words.js';
import { vehicleName } from '../names.js';
import { axleInWords, DISCLAIMER, sourceInWords } from '../wearWords.js';
import { each, list, type Made } from './layout.js';
import { dataTable } from './table.js';

/** The short pages: signing in, finding a vehicle, what is due, and what went wrong. */

/** @param said what went wrong, or why it is asked again; null for neither */
export function signInPage(next: string, said: string | null): Made {
  const main = html`!${said === null ? '' : html`<p class="strong" role="alert">${said}</p>`}
    <form class="narrow" method="post" action="/sign-in">
      <input type="hidden" name="next" value="${next}" />
      <p class="field">
        <label for="key">Key</label>
        <input
          id="key"
          name="key"
          type="password"
          autocomplete="off"
          spellcheck="false"
          required
          aria-describedby="key-help"
        />
      </p>
      <p id="key-help">
        Paste the key that the owner of your workshop made for you. The browser does not keep it; you stay
        signed in for twelve hours, or until you sign out.
      </p>
      <p class="field"><button class="main" type="submit">Sign in</button></p>
    </form>`;
  return { title: 'Sign in', main };
}

export function findPage(asked: string | null, found: readonly Vehicle[], most: number): Made {
  const main = html`<form method="get" action="/" role="search" class="fields">
      <p class="field">
        <label for="q">Registration, VIN or number</label>
        <input id="q" name="q" type="search" value="${asked ?? ''}" autocomplete="off" required />
      </p>
      <p class="field"><button class="main" type="submit">Find</button></p>
    </form>
    !${asked === null ? '' : results(asked, found, most)}`;
  return { title: 'Find a vehicle', main };
}

function results(asked: string, found: readonly Vehicle[], most: number): string {
  if (found.length === 0)
    return html`<p role="status">
      No vehicle that you may see has “${asked}” in its registration, VIN or number.
    </p>`;
  const more = found.length === most ? `; there may be more than these ${most}` : '';
  return html`<p role="status">Found for “${asked}”: ${found.length}${more}.</p>
    !${dataTable<Vehicle>(
      'Vehicles found',
      [
        {
          head: 'Vehicle',
          cell: (vehicle) => html`<a href="/vehicles/${vehicle.id}">${vehicleName(vehicle)}</a>`,
          raw: true,
        },
        { head: 'VIN', cell: ({ vin }) => vin ?? 'not known' },
        { head: 'Description', cell: ({ description }) => description ?? 'none' },
        { head: 'Fleet', cell: ({ fleet }) => fleet ?? 'none' },
      ],
      found,
    )}`;
}

export interface DueList {
  query: DueSoonQuery & { withinDays: number };
  items: readonly DueAxle[];
  total: number;
  unassessedCount: number;
}

export function dueSoonPage({ query, items, total, unassessedCount }: DueList): Made {
  const { today, horizon, chance, fleet, axle, withinDays } = query;
  const of = [
    fleet === null ? 'all fleets you may see' : `fleet ${fleet}`,
    axle === null ? null : `axle ${axle}`,
  ];
  const left =
    total > items.length ? ` The first ${items.length} are shown; narrow the list to see the others.` : '';
  const main = html`<form method="get" action="/due-soon" class="fields on-screen">
      <p class="field">
        <label for="withinDays">Within days</label>
        <input id="withinDays" name="withinDays" inputmode="numeric" size="6" value="${withinDays}" />
      </p>
      <p class="field">
        <label for="chance">Chance of at least</label>
        <input id="chance" name="chance" inputmode="decimal" size="6" value="${chance}" />
      </p>
      <p class="field">
        <label for="fleet">Fleet</label> <input id="fleet" name="fleet" size="16" value="${fleet ?? ''}" />
      </p>
      <p class="field">
        <label for="axle">Axle</label>
        <select id="axle" name="axle">
          <option value="">any</option>
          !${each(AXLES, (name) => html`<option value="${name}" !${name === axle ? ' selected' : ''}>${axleInWords(name)}</option>`)}
        </select>
      </p>
      <p class="field"><button class="main" type="submit">Show</button></p>
    </form>
    <p role="status">
      On ${today}, for ${of.filter((part) => part !== null).join(', ')}: ${total}
      ${total === 1 ? 'axle has' : 'axles have'} a chance of ${chanceInWords(chance)} or more of reaching a
      limit by ${horizon}, ${withinDays} days ahead, overdue ones included.${left}
    </p>
    <p>
      Of ${unassessedCount} ${unassessedCount === 1 ? 'axle' : 'axles'} nobody can tell a
      date${unassessedCount > 0 ? ': measure those first' : ''}.
    </p>
    !${items.length === 0 ? '' : dueTable(items)}
    <p>${DISCLAIMER}</p>`;
  return { title: 'Due soon', main };
}

const date = (full: string | null): string => full ?? 'over 30 years';

function dueTable(items: readonly DueAxle[]): string {
  return dataTable<DueAxle>(
    'Axles due, the soonest early date first',
    [
      {
        head: 'Vehicle',
        cell: (due) => html`<a href="/vehicles/${due.vehicleId}">${vehicleName(due)}</a>`,
        raw: true,
      },
      { head: 'Fleet', cell: ({ fleet }) => fleet ?? 'none' },
      { head: 'Axle', cell: ({ axle }) => axleInWords(axle) },
      { head: 'Overdue', cell: ({ overdue }) => (overdue ? 'Overdue' : 'no') },
      { head: 'Early', cell: ({ earlyDate }) => date(earlyDate), kind: 'date' },
      { head: 'Median', cell: ({ medianDate }) => date(medianDate), kind: 'date' },
      { head: 'Late', cell: ({ lateDate }) => date(lateDate), kind: 'date' },
      { head: 'Chance', cell: ({ chance }) => chanceInWords(chance), kind: 'number' },
      {
        head: 'First to get there',
        cell: ({ governingPad: pad }) => (pad ? `${pad.side} ${pad.pad}` : 'not known'),
      },
      {
        head: 'Limit',
        cell: ({ limitMm, limitSource }) =>
          limitMm === null ? 'not known' : `${inWords(limitMm)} mm, ${sourceInWords(limitSource as never)}`,
      },
      { head: 'Last read', cell: ({ lastReadingDate }) => lastReadingDate ?? 'never', kind: 'date' },
    ],
    items,
  );
}

/** What a form that led here has changed; nothing where none did. */
export const savedNotice = (said: readonly string[]): string =>
  said.length === 0
    ? ''
    : html`<section class="saved" role="status">
        <h2>${said[0]!}</h2>
        !${list(said.slice(1))}
      </section>`;

/** A form that came in after the session had ended, with everything that was typed. */
export function sessionEndedPage(action: string, fields: Readonly<Record<string, string>>): Made {
  const main = html`<p>Nothing is saved yet, and nothing that you typed is lost.</p>
    <ol>
      <li><a href="/sign-in" target="_blank" rel="noopener">Sign in again</a> (opens beside this page).</li>
      <li>Come back to this page and send the form again.</li>
    </ol>
    <form class="narrow" method="post" action="${action}">
      !${each(Object.entries(fields), ([name, value]) => html`<input type="hidden" name="${name}" value="${value}" />`)}
      <p class="field"><button class="main wide" type="submit">Send the form again</button></p>
    </form>`;
  return { title: 'Your session has expired', main };
}

export function problemPage(title: string, details: readonly string[], instance: string): Made {
  const main = html`<div role="alert">!${each(details, (detail) => html`<p>${detail}</p>`)}</div>
    <p><a href="/">Find a vehicle</a></p>
    <p class="small soft">In the log this is ${instance}.</p>`;
  return { title, main };
}
