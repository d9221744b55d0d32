import { group as groupBy } from 'd3-array';
import { entryOf, required } from '../../core/items.js';
import { html } from 'ghtml';
import { dueNames } from '../../core/assessment/dueWords.js';
import { toDay, toFullDate } from '../../core/calendar.js';
import { AXLES, type Axle } from '../../core/vocabulary/terms.js';
import type { Advice } from '../../core/vocabulary/wear.js';
import {
  axleInWords,
  capital,
  chanceInWords,
  countInWords,
  dateInWords,
  dayAndMonth,
  mmInWords,
  monthInWords,
  monthOnly,
  nearDateInWords,
  onAxle,
  positionInWords,
  shortDate,
  termInWords,
  vehicleNames,
} from '../../core/words.js';
import type {
  DueAxle,
  DueSoonQuery,
  MeasureFirstAxle,
  StoppedAxle,
  UnassessedAxle,
} from '../../store/contract/reports.js';
import { unbroken } from './advice.js';
import { selectField, textField, type Filled, type Option } from './fields.js';
import { each, mayWrite, type Made, type Page } from './layout.js';
import { inWords } from '../../core/rounding.js';

/** The planning lists: what is due, what to measure first, and the home page with a summary of both. */

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

type Role = NonNullable<Page['caller']>['role'];

const fleetInWords = (fleet: string | null): string => fleet ?? 'no fleet';
const partInWords = (due: Pick<DueAxle, 'axle' | 'part' | 'linings'>): string =>
  capital(onAxle(dueNames(due), due.axle));

const stopPart = ({ axle, advice }: ListedStop): string => capital(onAxle(advice?.part ?? 'brakes', axle));

/** `left rotor cracked`. */
const stopsInWords = ({ stops }: ListedStop): string =>
  stops
    .map(({ code, side, pad }) =>
      [positionInWords({ side, pad }), termInWords(code)].filter(Boolean).join(' '),
    )
    .join('; ');

function vehicleLink(item: {
  vehicleId: string;
  registration: string | null;
  externalId: string | null;
}): string {
  const { first, second } = vehicleNames(item);
  return html`<a class="name" href="/vehicles/${item.vehicleId}">${first}</a>
    !${second === null ? '' : html`<span class="soft">${second}</span>`}`;
}

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

export interface DueList {
  query: ListQuery;
  filled: Filled;
  fleets: readonly string[];
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

/** The list's name, and at the top of every printed page its name, the date and the columns. */
const listHeading = (title: string, { today }: ListQuery, columns = ''): string =>
  html`<div class="running" hidden>
      <p><strong>${title}</strong><span class="date">${dateInWords(today)}</span></p>
      !${columns}
    </div>
    <h1>${title}</h1>`;

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

/** The query in words, and the fields to change it. */
function queryForm(
  { query, filled, fleets }: Pick<DueList, 'query' | 'filled' | 'fleets'>,
  action: string,
): string {
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
export function badQueryPage(
  title: string,
  action: string,
  list: Pick<DueList, 'query' | 'filled' | 'fleets'>,
): Made {
  const main = html`<section class="refused" role="alert">
      <h2>The list cannot be shown: check the fields below.</h2>
      <p>The message beside each field says what is wrong.</p>
    </section>
    !${queryForm(list, action)}
    <p><a href="${action}">Show the usual list</a></p>`;
  return { title, main };
}

interface TimeScale {
  from: number;
  to: number;
  today: number;
}

const BAR_WIDTH = 320;
const PAST_DAYS = 45;

/** From before today to beyond the horizon, the same for every bar. */
function timeScale(today: string, horizon: string): TimeScale {
  const [now, end] = [toDay(today), toDay(horizon)];
  const ahead = Math.max(30, end - now);
  return { from: now - Math.max(PAST_DAYS, ahead / 4), to: end + ahead / 2, today: now };
}

const place = ({ from, to }: TimeScale, day: number): number => ((day - from) / (to - from)) * BAR_WIDTH;

/** The first days of months on a scale, as many as fit. */
function monthsOf({ from, to }: TimeScale): number[] {
  const first = toFullDate(Math.ceil(from)).slice(0, 7);
  let [year, month] = first.split('-').map(Number) as [number, number];
  const days: number[] = [];
  for (;;) {
    month += 1;
    if (month > 12) [year, month] = [year + 1, 1];
    const day = toDay(`${year}-${String(month).padStart(2, '0')}-01`);
    if (day > to) break;
    days.push(day);
  }
  const every = Math.ceil(days.length / 5);
  return days.filter((_, index) => index % every === 0);
}

const scaleHead = (scale: TimeScale): string =>
  html`<svg class="bar" viewBox="0 0 ${BAR_WIDTH} 16" width="${BAR_WIDTH}" height="16" aria-hidden="true">
    <text
      class="ink"
      x="${place(scale, scale.today)}"
      y="12"
      text-anchor="middle"
      font-size="12"
      font-weight="700"
    >
      today
    </text>
    !${each(
      monthsOf(scale).filter((day) => Math.abs(place(scale, day) - place(scale, scale.today)) > 44),
      (day) =>
        html`<text class="soft-text" x="${place(scale, day)}" y="12" text-anchor="middle" font-size="12"
          >${monthOnly(day)}</text
        >`,
    )}
  </svg>`;

/** The date of reaching the limit: thin 80 %, thick 50 %, a tick at the early date. Arrows point off the scale. */
function bar({ earlyDate, lateDate, lowerQuartile, upperQuartile }: ListedAxle, scale: TimeScale): string {
  const at = (date: string | null, beyond: number): number =>
    date === null ? beyond : Math.min(Math.max(place(scale, toDay(date)), -10), BAR_WIDTH + 10);
  const [early, late] = [at(earlyDate, -10), at(lateDate, BAR_WIDTH + 10)];
  const [from, to] = [at(lowerQuartile, early), at(upperQuartile, late)];
  const today = place(scale, scale.today);
  const line = (x1: number, x2: number, width: number) =>
    html`<line
      class="accent-line"
      x1="${x1.toFixed(1)}"
      x2="${x2.toFixed(1)}"
      y1="12"
      y2="12"
      stroke-width="${width}"
    />`;
  const arrow = (x: number, way: 1 | -1) =>
    html`<path
      class="accent-line"
      d="M${x - 5 * way} 7 L${x} 12 L${x - 5 * way} 17"
      fill="none"
      stroke-width="1.5"
    />`;
  return html`<svg
    class="bar"
    viewBox="0 0 ${BAR_WIDTH} 24"
    width="${BAR_WIDTH}"
    height="24"
    role="img"
    aria-label="${barInWords(earlyDate, lateDate)}"
  >
    !${each(monthsOf(scale), (day) => html`<line class="hair-line" x1="${place(scale, day).toFixed(1)}" x2="${place(scale, day).toFixed(1)}" y1="0" y2="24" />`)}
    <line class="ink-line" x1="${today.toFixed(1)}" x2="${today.toFixed(1)}" y1="0" y2="24" />
    !${
      late < 0
        ? arrow(2, -1)
        : html`!${line(Math.max(early, 0), Math.min(late, BAR_WIDTH), 1.5)}
          !${line(Math.max(from, 0), Math.max(Math.min(to, BAR_WIDTH), 0), 5)}
          !${early >= 0 ? html`<line class="accent-line" x1="${early.toFixed(1)}" x2="${early.toFixed(1)}" y1="6" y2="18" stroke-width="3" />` : arrow(2, -1)}
          !${late > BAR_WIDTH ? arrow(BAR_WIDTH - 1, 1) : ''}`
    }
  </svg>`;
}

const barInWords = (early: string | null, late: string | null): string =>
  early === null
    ? 'no early date'
    : `between ${dateInWords(early)} and ${late === null ? 'beyond 30 years' : dateInWords(late)}`;

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

export interface MeasureList {
  query: ListQuery;
  filled: Filled;
  fleets: readonly string[];
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
