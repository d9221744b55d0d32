import { html } from 'ghtml';
import type { Axle } from '../../core/vocabulary/terms.js';
import { axleInWords, capital, countInWords, nearDateInWords, shortDate } from '../../core/words.js';
import type { MeasureFirstAxle, UnassessedAxle } from '../../store/contract/reports.js';
import { unbroken } from './advice.js';
import { mayWrite, type Made } from './layout.js';
import { fleetInWords, listHeading, queryForm, vehicleLink, type QueryFields, type Role } from './lists.js';

/** The planning list of axles to measure first, by why they have no forecast to plan by. */

export interface MeasureList extends QueryFields {
  unassessed: readonly UnassessedAxle[];
  unassessedTotal: number;
  apart: readonly MeasureFirstAxle[];
  apartTotal: number;
  role: Role;
  search: string;
}

const NEVER = new Set(['no-readings', 'never-measured']);

export function measureFirstPage(list: MeasureList): Made {
  const { unassessed, apart, unassessedTotal, apartTotal, query, role, search } = list;
  const total = unassessedTotal + apartTotal;
  const isOverdue = ({ reasons }: MeasureFirstAxle) => reasons.some(({ code }) => code === 'reading-overdue');
  const never = unassessed.filter(({ reason }) => NEVER.has(reason.code));
  const noLimit = unassessed.filter(({ reason }) => reason.code === 'no-limit');
  const others = unassessed.filter((item) => !never.includes(item) && !noLimit.includes(item));
  const rows = (items: readonly UnassessedAxle[], words: (item: UnassessedAxle) => string) =>
    items.map((item) => measureRow(item, words(item), role));
  const main = html`<p class="lead">
      ${total === 0 ? 'Every axle has a forecast to plan by.' : html`${countInWords(total, 'axle has', 'axles have')} no forecast to plan by. Measure them when they are next here.`}
    </p>
    !${queryForm(list, '/measure-first')}
    !${section(
      'Never measured',
      rows(never, () => 'measure every lining at its thinnest point'),
    )}
    !${section(
      'Measured, but no limit is known',
      rows(noLimit, ({ vehicleId }) => limitWanted(vehicleId, role)),
    )}
    !${section(
      'No forecast for another reason',
      rows(others, ({ reason }) => html`${unbroken(reason.detail)}`),
    )}
    !${section(
      'Not measured for long',
      apart.filter(isOverdue).map((item) => measureRow(item, html`${lastRead(item, query.today)}`, role)),
    )}
    !${section(
      'Dates too far apart to plan by',
      apart
        .filter((item) => !isOverdue(item))
        .map((item) => measureRow(item, html`${datesApart(item)}`, role)),
    )}
    <p class="on-screen alone">
      <a href="/measure-first.csv${search}">Dates too far apart, as CSV</a>
      <a href="/unassessed.csv${search}">No forecast, as CSV</a>
    </p>`;
  return { title: 'Measure first', heading: listHeading('Measure first', query), main };
}

const limitWanted = (vehicleId: string, role: Role): string =>
  mayWrite(role)
    ? html`<a href="/vehicles/${vehicleId}/change">enter the limit of its linings</a>`
    : 'the limit of its linings is missing';

const lastRead = ({ lastReadingDate }: MeasureFirstAxle, today: string): string =>
  lastReadingDate === null ? 'never measured' : `last measured on ${nearDateInWords(lastReadingDate, today)}`;

const datesApart = ({ earlyDate, lateDate }: MeasureFirstAxle): string =>
  `its limit may be reached between ${earlyDate === null ? 'now' : shortDate(earlyDate, 'month')} and ${lateDate === null ? 'in over 30 years' : shortDate(lateDate, 'month')}`;

/** @param why HTML */
function measureRow(
  item: {
    vehicleId: string;
    registration: string | null;
    externalId: string | null;
    axle: Axle;
    fleet: string | null;
  },
  why: string,
  role: Role,
): string {
  const record = mayWrite(role)
    ? html`<p class="to on-screen"><a href="/vehicles/${item.vehicleId}/record">Record</a></p>`
    : '';
  return html`<li class="measure-row">
    <p class="who">!${vehicleLink(item)}</p>
    <p class="fleet soft">${fleetInWords(item.fleet)}</p>
    !${record}
    <p class="what"><strong>${capital(axleInWords(item.axle))}</strong>: !${why}</p>
  </li>`;
}

const section = (title: string, rows: readonly string[]): string =>
  rows.length === 0
    ? ''
    : html`<section class="part">
        <h2>${title} <span class="count">${rows.length}</span></h2>
        <ul class="items">
          !${rows.join('\n')}
        </ul>
      </section>`;
