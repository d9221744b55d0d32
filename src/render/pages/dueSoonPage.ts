import { group as groupBy } from 'd3-array';
import { html } from 'ghtml';
import { entryOf, required } from '../../core/items.js';
import { inWords } from '../../core/rounding.js';
import {
  axleInWords,
  capital,
  chanceInWords,
  countInWords,
  dateInWords,
  dayAndMonth,
  mmInWords,
  monthInWords,
  positionInWords,
  shortDate,
} from '../../core/words.js';
import { unbroken } from './advice.js';
import { bar, scaleHead, timeScale, type TimeScale } from './dueBar.js';
import { each, type Made } from './layout.js';
import {
  fleetInWords,
  listHeading,
  partInWords,
  queryForm,
  stopPart,
  stopsInWords,
  vehicleLink,
  type QueryFields,
  type ListedAxle,
  type ListedStop,
  type ListQuery,
} from './lists.js';

/** The planning list of what is due: now, and then month by month. */

/** Whether an axle belongs under "Now": at its limit, possibly at it already, or with a stop finding. */
const isNow = ({ earlyDate, overdue, advice }: ListedAxle, today: string): boolean =>
  overdue || (earlyDate !== null && earlyDate <= today) || advice?.urgency === 'now';

/** `now`, `first chance` or the date to fit before, and its basis. */
function whenOf(item: ListedAxle, today: string): { when: string; because: string } {
  const { advice, earlyDate, medianDate } = item;
  if (isNow(item, today)) {
    const isSure = advice?.urgency === 'now' || item.overdue;
    return {
      when: isSure ? 'now' : 'first chance',
      because: advice?.status ?? 'may be at its limit already',
    };
  }
  const odds = medianDate === null ? 'even odds beyond 30 years' : `even odds ${dayAndMonth(medianDate)}`;
  return { when: shortDate(earlyDate!), because: odds };
}

export interface DueList extends QueryFields {
  items: readonly ListedAxle[];
  total: number;
  /** Axles with a stop finding, whatever their dates. */
  stops: readonly ListedStop[];
  stopCount: number;
  unassessedCount: number;
  measureFirstCount: number;
  /** The page's query, for its CSV and calendar links. */
  search: string;
}

export function dueSoonPage(list: DueList): Made {
  const { query, items, total, stops, stopCount, search } = list;
  const { today } = query;
  const now = items.filter((item) => isNow(item, today));
  const later = items.filter((item) => !isNow(item, today));
  const byMonth = groupBy(later, ({ earlyDate }) =>
    required(earlyDate, 'early date of an axle that is due').slice(0, 7),
  );
  const scale = timeScale(today, query.horizon);
  const head =
    items.length === 0
      ? ''
      : html`<div class="due-head" aria-hidden="true">
          <span>Fit before</span><span>Vehicle</span><span>What</span><span>First at its limit</span>
          !${scaleHead(scale)}
          <span class="number">Chance by ${unbroken(dayAndMonth(query.horizon))}</span>
        </div>`;
  const main = html`<p class="lead">!${dueInWords(list, now.length)}</p>
    !${queryForm(list, '/due-soon')}
    !${isCut(list) ? html`<p>The first ${items.length + stops.length} are shown. Narrow the list to see the others.</p>` : ''}
    <div class="on-screen">!${head}</div>
    !${group(
      'Now',
      [...stops.map((stop) => stopRow(stop)), ...now.map((item) => dueRow(item, items, query, scale))],
      now.length === items.length ? total + stopCount : now.length + stopCount,
    )}
    !${each([...byMonth.keys()].sort(), (month) =>
      group(
        monthInWords(month),
        entryOf(byMonth, month).map((item) => dueRow(item, items, query, scale)),
      ),
    )}
    !${items.length === 0 ? '' : html`<p class="small soft">Bar: the date of reaching the limit. Thick 50 %, thin 80 %; the tick is the date to fit before.</p>`}
    <p class="on-screen alone">
      <a href="/due-soon.csv${search}">Due axles as CSV</a>
      <a href="/due-soon.ics${search}">Due axles as a calendar</a>
      !${stopCount === 0 ? '' : html`<a href="/stops.csv${search}">Other stops as CSV</a>`}
    </p>`;
  return { title: 'Due soon', heading: listHeading('Due soon', query, head), main };
}

const isCut = ({ items, total, stops, stopCount }: DueList): boolean =>
  total > items.length || stopCount > stops.length;

/** @param now number of shown axles that are due now */
function dueInWords(list: DueList, now: number): string {
  const { query, items, total, stopCount, unassessedCount, measureFirstCount } = list;
  const { horizon } = query;
  const until = dateInWords(horizon);
  // If the page is full of axles due now, their total is unknown.
  const more = total > items.length && now === items.length ? 'Over ' : '';
  const due =
    total + stopCount === 0
      ? html`No axle is due by ${until}.`
      : html`<strong>${more}${countInWords(now + stopCount, 'axle is', 'axles are')} due now</strong
          >${stopCount === 0 ? '' : html`, ${inWords(stopCount)} of them because of what was found`};
          ${total === now ? 'none' : inWords(total - now)} more by ${until}.`;
  const blind = unassessedCount + measureFirstCount;
  const measure =
    blind === 0
      ? ''
      : html` <a href="/measure-first">${countInWords(blind, 'axle is', 'axles are')} to measure first</a>.`;
  return `${due}${measure}`;
}

function group(title: string, rows: readonly string[], count = rows.length): string {
  if (rows.length === 0) return '';
  return html`<section class="part due">
    <h2>${title} <span class="count">${inWords(count)}</span></h2>
    <ul class="items">
      !${rows.join('\n')}
    </ul>
  </section>`;
}

function stopRow(stop: ListedStop): string {
  const { fleet, lastReadingDate } = stop;
  return html`<li class="due-row">
    <p class="when"><strong>now</strong><small>stop</small></p>
    <p class="who">!${vehicleLink(stop)}<small>${fleetInWords(fleet)}</small></p>
    <p class="what">${stopPart(stop)}</p>
    <p class="first found">
      ${capital(stopsInWords(stop))}<small
        >${lastReadingDate === null ? 'never read' : `read ${dayAndMonth(lastReadingDate)}`}</small
      >
    </p>
  </li>`;
}

function dueRow(
  item: ListedAxle,
  all: readonly ListedAxle[],
  { today }: ListQuery,
  scale: TimeScale,
): string {
  const { when, because } = whenOf(item, today);
  const { governingPad: pad, limitMm, lastReadingDate, fleet, chance, readMm } = item;
  const other = all.find(({ vehicleId, axle }) => vehicleId === item.vehicleId && axle !== item.axle);
  const reading = readMm === null ? 'not measured' : mmInWords(readMm, item.part === 'pads' ? 1 : 2);
  const limit = [
    limitMm === null ? null : `limit ${mmInWords(limitMm, 1)}`,
    lastReadingDate === null ? 'never read' : `read ${dayAndMonth(lastReadingDate)}`,
  ];
  return html`<li class="due-row">
    <p class="when"><strong>${when}</strong><small>${because}</small></p>
    <p class="who">!${vehicleLink(item)}<small>${fleetInWords(fleet)}</small></p>
    <p class="what">
      ${partInWords(item)}!${other ? html`<small>also ${axleInWords(other.axle)}</small>` : ''}
    </p>
    <p class="first">
      ${pad ? capital(`${positionInWords(pad)}, ${reading}`) : capital(reading)}<small
        >${limit.filter(Boolean).join(', ')}</small
      >
    </p>
    <p class="chart">!${bar(item, scale)}</p>
    <p class="chance keep">${chanceInWords(chance)}</p>
  </li>`;
}
