import { html } from 'ghtml';
import type { Key } from '../../store/store.js';

/** Everything of a page that is not its own. Every value is escaped, save for what comes from another template. */

export interface Page {
  title: string;
  /** HTML made by a template. */
  main: string;
  /** Who is signed in; null for nobody. */
  caller: Pick<Key, 'name' | 'role' | 'fleets'> | null;
}

export function layout({ title, main, caller }: Page): string {
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>${title} – Brake wear</title>
        <link rel="stylesheet" href="/pages.css" />
        <link rel="icon" href="data:," />
      </head>
      <body>
        <a class="skip" href="#main">Skip to what the page says</a>
        !${caller ? navigation(caller) : ''}
        <main id="main" tabindex="-1">
          <h1>${title}</h1>
          !${main}
        </main>
      </body>
    </html> `;
}

const navigation = ({ name, role, fleets }: NonNullable<Page['caller']>): string =>
  html`<header>
    <nav aria-label="Pages"><a href="/">Find a vehicle</a><a href="/due-soon">Due soon</a></nav>
    <form method="post" action="/sign-out">
      <span class="quiet">${name}, ${role}${fleets.length > 0 ? ` of ${fleets.join(', ')}` : ''}</span>
      <button type="submit">Sign out</button>
    </form>
  </header>`;

/** Rows, items, cells: HTML of each, one after the other. */
export const each = <Item>(items: readonly Item[], render: (item: Item, index: number) => string): string =>
  items.map(render).join('\n');

/** A list of sentences; nothing where there are none. */
export const list = (items: readonly string[]): string =>
  items.length === 0
    ? ''
    : html`<ul>
        !${each(items, (item) => html`<li>${item}</li>`)}
      </ul>`;

/** What is wider than a phone scrolls by itself, by keyboard as well. */
export const scrolling = (label: string, inner: string): string =>
  html`<div class="scroll" role="region" tabindex="0" aria-label="${label}">!${inner}</div>`;
