import { html } from 'ghtml';
import { inWords } from '../../core/rounding.js';
import type { Advice } from '../../core/vocabulary/wear.js';
import { countInWords, dayAndMonth } from '../../core/words.js';
import { unbroken } from './advice.js';
import { each, mayWrite, type Made } from './layout.js';
import {
  partInWords,
  stopPart,
  stopsInWords,
  vehicleLink,
  type ListedAxle,
  type ListedStop,
  type Role,
} from './lists.js';

/** The home page: finding a vehicle, and a summary of the planning lists. */

/** A recently seen vehicle, with the most urgent advice of its axles. */
export interface RecentVehicle {
  vehicleId: string;
  registration: string | null;
  externalId: string | null;
  date: string;
  advice: Advice | null;
}

export interface HomePage {
  /** The axles due today, and their number. */
  due: readonly ListedAxle[];
  dueNowCount: number;
  /** Axles with a stop finding that are not due today. */
  stops: readonly ListedStop[];
  stopCount: number;
  /** Number of axles due within these days, including those with a stop finding. */
  total: number;
  withinDays: number;
  recent: readonly RecentVehicle[];
  toMeasure: number;
  role: Role;
}

const MAX_HOME_ITEMS = 6;

export function homePage(home: HomePage): Made {
  const { due, dueNowCount, stops, stopCount, total, withinDays, recent, toMeasure, role } = home;
  const now = [
    ...stops.map((item) => homeItem(item, `${stopPart(item)}: ${stopsInWords(item)}`, true)),
    ...due.map((item) => homeItem(item, dueWords(item), item.overdue)),
  ];
  const shown = now.slice(0, MAX_HOME_ITEMS);
  const nowCount = dueNowCount + stopCount;
  const isEmpty = total === 0 && recent.length === 0 && toMeasure === 0;
  const main = html`!${findForm(null)}
  !${
    isEmpty && mayWrite(role)
      ? firstDay(role)
      : html`<div class="two apart">
          <section class="part">
            <div class="pair">
              <h2>Due now</h2>
              <a href="/due-soon">all ${inWords(total)} due within ${withinDays} days</a>
            </div>
            !${shown.length === 0 ? html`<p>No axle is known to be due now.</p>` : ''}
            <ul class="items">
              !${shown.join('\n')}
            </ul>
            !${nowCount > shown.length ? html`<p><a href="/due-soon">${inWords(nowCount - shown.length)} more</a></p>` : ''}
          </section>
          <div>
            <section class="part">
              <h2>Recently seen</h2>
              !${recent.length === 0 ? html`<p>No visit is recorded yet.</p>` : ''}
              <ul class="items">
                !${each(
                  recent,
                  (item) =>
                    html`<li>
                      <p class="pair">
                        <span>!${vehicleLink(item)}</span>
                        <span class="soft">${dayAndMonth(item.date)}</span>
                      </p>
                      <p class="under">${unbroken(recentWords(item.advice))}</p>
                    </li>`,
                )}
              </ul>
            </section>
            <section class="part">
              <div class="pair">
                <h2>Measure first</h2>
                <a href="/measure-first">all ${toMeasure}</a>
              </div>
              <p>
                ${toMeasure === 0 ? 'Every axle has a forecast to plan by.' : `${countInWords(toMeasure, 'axle has', 'axles have')} no forecast to plan by.`}
              </p>
            </section>
          </div>
        </div>`
  }`;
  return { title: 'Find a vehicle', main };
}

/** A vehicle's most urgent advice; names no axle if none needs anything. */
function recentWords(advice: Advice | null): string {
  if (!advice) return 'Nothing is known about its brakes yet.';
  return advice.action === 'nothing-yet' && advice.checks === 0 ? 'Nothing to fit yet.' : advice.words;
}

const homeItem = (item: ListedAxle | ListedStop, words: string, isUrgent: boolean): string =>
  html`<li>
    <p class="pair"><span>!${vehicleLink(item)}</span> <span class="soft">${item.fleet ?? ''}</span></p>
    <p class="under">!${isUrgent ? html`<strong>${words}</strong>` : html`${words}`}</p>
  </li>`;

const dueWords = (item: ListedAxle): string =>
  `${partInWords(item)}: ${item.advice?.status ?? 'may be at the limit'}`;

/** The home page of a shop without any records. */
const firstDay = (role: Role): string =>
  html`<section class="part">
    <h2>Your first day</h2>
    <ol>
      <li>
        <a href="/vehicles/new">Record a vehicle</a>: its plate, and what its data sheet says about pads and
        rotors.
      </li>
      <li>
        Record a visit on the vehicle’s page: what you measured, and what you did. You get the first advice at
        once.
      </li>
      <li>Import past visits <a href="/import">from a spreadsheet</a>.</li>
      !${
        role === 'owner'
          ? html`<li>
                Set the shop’s policy and gauges: its own pad minimum, the law that applies, and when gauges
                were calibrated. <a href="/docs">The reference</a> has both under policy and gauges.
              </li>
              <li>
                Make a key for each person on the command line:
                <code>npm run keys -- create --role technician --name bay-2</code>.
              </li>`
          : ''
      }
    </ol>
  </section>`;

export const findForm = (text: string | null): string =>
  html`<form method="get" action="/" role="search">
    <label for="q">Registration, number or VIN (or part of it)</label>
    <div class="with-button">
      <input id="q" name="q" type="search" value="${text ?? ''}" autocomplete="off" required />
      <button class="main" type="submit">Find</button>
    </div>
  </form>`;
