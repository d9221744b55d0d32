import { html } from 'ghtml';
import type { Role } from '../../core/vocabulary/terms.js';
import { termInWords } from '../../core/words.js';
import type { KeyCaller } from '../../store/contract/caller.js';

/** The frame shared by all pages. Escapes every value except the output of other templates. */

/** The output of a page's own template. */
export interface Made {
  title: string;
  /** HTML of the heading, if it is more than the title. */
  heading?: string;
  /** HTML of the content below the heading. */
  main: string;
  /** Seconds until the browser reloads the page. */
  refreshSeconds?: number;
}

export interface Page extends Made {
  /** The signed-in user; null if there is none. */
  caller: KeyCaller | null;
  /** The page's path, to highlight it in the navigation. */
  path?: string;
}

export function layout({ title, heading, main, caller, path = '', refreshSeconds }: Page): string {
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <title>${title} – Brake wear</title>
        <link rel="stylesheet" href="/pages.css" />
        <link rel="icon" href="data:," />
        !${refreshSeconds === undefined ? '' : html`<meta http-equiv="refresh" content="${refreshSeconds}" />`}
      </head>
      <body>
        <a class="skip" href="#main">Skip to the content</a>
        !${caller ? navigation(caller, path) : ''}
        <main id="main" tabindex="-1">!${heading ?? html`<h1>${title}</h1>`} !${main}</main>
        !${caller ? html`<footer class="closing" hidden>!${account(caller, path)}</footer>` : ''}
      </body>
    </html> `;
}

type Link = readonly [path: string, words: string];

const PAGES: readonly Link[] = [
  ['/', 'Find'],
  ['/due-soon', 'Due soon'],
  ['/measure-first', 'Measure first'],
];
const WRITERS_PAGES: readonly Link[] = [
  ['/vehicles/new', 'New vehicle'],
  ['/import', 'Import'],
];

/** Whether a role may record visits and vehicles. */
export const mayWrite = (role: Role): boolean => role !== 'fleet-manager';

const link = ([path, words]: Link, current: string): string =>
  html`<a href="${path}" !${path === current ? 'aria-current="page"' : ''}>${words}</a>`;

const navigation = (caller: KeyCaller, path: string): string =>
  html`<header class="top">
    <div class="site">
      <nav aria-label="Pages">!${each(PAGES, (page) => link(page, path))}</nav>
      !${account(caller, path)}
    </div>
  </header>`;

/** At the top of a wide screen and at the bottom of a narrow one. */
const account = ({ keyName, role, fleets }: KeyCaller, path: string): string =>
  html`<div class="links">
    !${mayWrite(role) ? each(WRITERS_PAGES, (page) => link(page, path)) : ''}
    <span class="soft">${keyName}, ${termInWords(role)}${fleets ? ` of ${fleets.join(', ')}` : ''}</span>
    <form class="inline" method="post" action="/sign-out">
      <button class="plain" type="submit">Sign out</button>
    </form>
  </div>`;

/** Renders rows, items or cells and joins their HTML. */
export const each = <Item>(items: readonly Item[], render: (item: Item, index: number) => string): string =>
  items.map(render).join('\n');

/** A list of sentences; empty if there are none. */
export const list = (items: readonly string[]): string =>
  items.length === 0
    ? ''
    : html`<ul class="plain">
        !${each(items, (item) => html`<li>${item}</li>`)}
      </ul>`;
