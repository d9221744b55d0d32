import { html } from 'ghtml';
import { itemAt } from '../../core/items.js';
import type { Vehicle } from '../../core/vocabulary/vehicle.js';
import { countInWords, sentence, vehicleName } from '../../core/words.js';
import { unbroken } from './advice.js';
import { findForm } from './homePage.js';
import { each, list, type Made } from './layout.js';
import { dataTable } from './table.js';

/** Short pages: sign-in, finding a vehicle, what is due, and errors. */

/** @param said the error, or why sign-in is needed again; null if neither */
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

export function findPage(text: string | null, found: readonly Vehicle[], max: number): Made {
  const main = html`!${findForm(text)} !${text === null ? '' : results(text, found, max)}`;
  return { title: 'Find a vehicle', main };
}

function results(text: string, found: readonly Vehicle[], max: number): string {
  if (found.length === 0)
    return html`<p role="status">
      No vehicle that you may see has “${text}” in its registration, VIN or number.
    </p>`;
  const more = found.length === max ? ' There may be more: type more of the number.' : '';
  const count = countInWords(found.length, 'vehicle matches', 'vehicles match');
  return html`<p role="status">${count} “${text}”.${more}</p>
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

/** The changes made by the form that led here; empty if none. */
export const savedNotice = (said: readonly string[]): string =>
  said.length === 0
    ? ''
    : html`<section class="saved" role="status">
        <h2>${unbroken(itemAt(said, 0))}</h2>
        !${list(said.slice(1).map(unbroken))}
      </section>`;

/** A form sent after the session expired, with everything that was typed. */
export function sessionEndedPage(action: string, fields: Readonly<Record<string, string>>): Made {
  const main = html`<p>Nothing is saved yet, and nothing that you typed is lost.</p>
    <ol>
      <li><a href="/sign-in" target="_blank" rel="noopener">Sign in again</a> (it opens in a new tab).</li>
      <li>Come back to this page and send the form again.</li>
    </ol>
    <form class="narrow" method="post" action="${action}">
      !${each(Object.entries(fields), ([name, value]) => html`<input type="hidden" name="${name}" value="${value}" />`)}
      <p class="field"><button class="main wide" type="submit">Send the form again</button></p>
    </form>`;
  return { title: 'Your session has expired', main };
}

/** A file sent after the session expired; a browser does not send it twice. */
export function fileNotReadPage(page: string): Made {
  const main = html`<p>The file was not read, and nothing is recorded.</p>
    <p>
      <a href="/sign-in?next=${encodeURIComponent(page)}">Sign in again</a>, and choose the file once more.
    </p>`;
  return { title: 'Your session has expired', main };
}

export function problemPage(title: string, details: readonly string[], instance: string): Made {
  const main = html`<div role="alert">
      !${each(details, (detail) => html`<p>${unbroken(sentence(detail))}</p>`)}
    </div>
    <p><a href="/">Find a vehicle</a></p>
    <p class="small soft">If you report this, quote ${instance}; the server’s log has it too.</p>`;
  return { title, main };
}
