import { html } from 'ghtml';
import { liningName } from '../../core/assessment/adviceFacts.js';
import type { HistoryVisit } from '../../core/history.js';
import { entryOf, itemAt } from '../../core/items.js';
import { inWords } from '../../core/rounding.js';
import type { OpenPoint } from '../../core/vocabulary/openPoints.js';
import type { Range } from '../../core/vocabulary/quantities.js';
import type { Axle, Role } from '../../core/vocabulary/terms.js';
import type { Vehicle } from '../../core/vocabulary/vehicle.js';
import type { AxleWear, Finding, Wear } from '../../core/vocabulary/wear.js';
import {
  axleInWords,
  capital,
  countInWords,
  dateInWords,
  firstSentence,
  listInWords,
  positionInWords,
  sentence,
  shortDate,
  termInWords,
  vehicleNames,
  withDatesInWords,
  workInWords,
} from '../../core/words.js';
import type { PartChart } from '../wearSvg.js';
import { DISCLAIMER } from '../wearWords.js';
import { adviceBlock, unbroken } from './advice.js';
import { each, list, mayWrite, type Made } from './layout.js';
import { liningTable } from './liningTable.js';
import { counterpartTable, whyDecided } from './counterpartTable.js';
import { roadTestBoxes, torqueTable, visitBoxes } from './paper.js';

/** One vehicle's sheet for the bay: the advice, its basis, and on paper space to write. */
export interface Sheet {
  vehicle: Vehicle;
  wear: Wear;
  visits: readonly HistoryVisit[];
  openPoints: readonly OpenPoint[];
  /** The charts of each axle: linings, and rotors or drums. */
  charts: ReadonlyMap<Axle, readonly PartChart[]>;
  today: string;
  role: Role;
}

export function sheetPage(sheet: Sheet): Made {
  const { wear } = sheet;
  const main = html`<div class="two advices">!${each(wear.axles, adviceOf)}</div>
    !${actions(sheet)} !${visitBoxes(sheet.visits.at(-1) ?? null, markOf(sheet))} !${briefly(wear)}
    !${each(wear.axles, (axle, index) => axleSection(axle, index, sheet))} !${whole(sheet)}
    <div class="two apart ends">!${lastVisits(sheet)} !${beforeYouStart(sheet)}</div>`;
  return { title: nameOf(sheet), heading: heading(sheet), main };
}

const adviceOf = ({ axle, advice }: AxleWear): string => adviceBlock(axle, advice, `#checks-${axle}`);

const nameOf = ({ vehicle }: Pick<Sheet, 'vehicle'>): string => vehicleNames(vehicle).first;

function subtitle({ vehicle }: Pick<Sheet, 'vehicle'>): string {
  const { description, model } = vehicle;
  return [vehicleNames(vehicle).second, description ?? model].filter((part) => part != null).join(' · ');
}

/** Printed on every fill-in table, so that loose sheets can be told apart. */
const markOf = (sheet: Sheet): string => `${nameOf(sheet)}, ${dateInWords(sheet.today)}`;

function heading(sheet: Sheet): string {
  const { vehicle } = sheet;
  return html`!${runningHead(sheet)}
    <div class="vehicle">
      <div>
        <h1>${nameOf(sheet)}</h1>
        <p class="under">${subtitle(sheet)}</p>
        <p class="under soft small">${lastVisitWords(sheet)}</p>
        !${
          vehicle.outOfService
            ? html`<p class="under strong">
                Out of service since
                ${unbroken(dateInWords(vehicle.outOfService.date))}.${vehicle.erasedAt ? ' Personal data erased: no more visits can be recorded here.' : ''}
              </p>`
            : ''
        }
      </div>
    </div>`;
}

function lastVisitWords({ visits, wear }: Sheet): string {
  const latest = visits.at(-1);
  if (!latest || !wear.asAt) return 'No visit recorded yet';
  return unbroken(`Last visit ${dateInWords(wear.asAt.date)}, ${odometerInWords(latest)}`);
}

const odometerInWords = ({ odometer }: HistoryVisit): string =>
  odometer ? `${inWords(odometer.value)} ${odometer.unit}` : 'odometer not read';

const mayChange = ({ vehicle, role }: Sheet): boolean => mayWrite(role) && !vehicle.erasedAt;

function actions(sheet: Sheet): string {
  const { vehicle, wear } = sheet;
  const places = wear.axles.map(({ axle }) => [`#axle-${axle}`, capital(axleInWords(axle))] as const);
  return html`!${
      mayChange(sheet)
        ? html`<p class="record on-screen">
            <a class="button" href="/vehicles/${vehicle.id}/record">Record a visit</a>
          </p>`
        : ''
    }
    <p class="jumps on-screen">
      !${each([...places, ['#visits', 'Visits'] as const, ['#cautions', 'Cautions'] as const], ([href, words]) => html`<a href="${href}">${words}</a>`)}
    </p>`;
}

/* One axle */

function axleSection(axle: AxleWear, index: number, sheet: Sheet): string {
  const { axle: name, pads, rotors, drums, replacement } = axle;
  const { vehicle, charts, visits, wear } = sheet;
  const [linings, counterparts] = entryOf(charts, name);
  const lastVisit = visits.at(-1)?.date ?? null;
  const title = capital(axleInWords(name));
  const mark = markOf(sheet);
  const { shown, folded } = checksOf(axle, sheet.openPoints);
  return html`<section class="part axle" id="axle-${name}" aria-labelledby="axle-${name}-title">
    <h2 id="axle-${name}-title">${title}</h2>
    !${folded.length === 0 ? '' : html`<p class="folded soft" hidden>${countInWords(folded.length, 'more note')} on screen</p>`}
    <div id="checks-${name}">!${checkList(shown)}!${moreNotes(folded)}</div>
    <div class="evidence">
      !${chart(linings!)}
      !${liningTable({ axle: name, linings: `${liningName({ drums })}s`, pads, replacement, lastVisit, visits, mark })}
      !${chart(counterparts!)} !${counterpartTable({ axle: name, rotors, drums, mark })}
      !${torqueTable(vehicle.axles[name]?.torque ?? {}, mark)}
    </div>
    !${whyDecided({ rotors, drums })}
    <details class="on-screen">
      <summary>What this forecast is based on</summary>
      <p class="small">${unbroken(capital(replacement.basis.words))}</p>
      !${list(reasonsOf(axle))}
    </details>
    !${index === wear.axles.length - 1 ? roadTestBoxes(mark) : ''}
  </section>`;
}

/** The vehicle's name and the date, at the top of every printed page. */
function runningHead(sheet: Sheet): string {
  const { vin, fleet } = sheet.vehicle;
  return html`<div class="running" hidden>
    <p>
      <strong>${nameOf(sheet)}</strong>
      <span class="about">${subtitle(sheet)}</span>
      !${vin == null ? '' : html`<span>VIN ${vin}</span>`}
      !${fleet == null ? '' : html`<span class="fleet">fleet ${fleet}</span>`}
      <span class="date">${dateInWords(sheet.today)}</span>
    </p>
  </div>`;
}

/** The same chart in several widths; the stylesheet shows one of them. */
function chart({ name, drawings, silence }: PartChart): string {
  if (!drawings) return html`<p class="chart none"><strong>${name}</strong> ${unbroken(silence)}</p>`;
  return html`<figure class="chart wide">!${drawings.wide}</figure>
    <figure class="chart narrow" hidden>!${drawings.narrow}</figure>
    <figure class="chart paper" hidden>!${drawings.print}</figure>`;
}

/** Something to check, and why: each reason with its places. */
interface Check {
  severity: Finding['severity'];
  what: string;
  reasons: Map<string, { places: string[]; messages: string[] }>;
}

/** Open points shown as the decision on the rotors or drums. */
const DECISION_CODES = new Set(['measure-not-done', 'machine-not-done', 'replace-not-done']);

const ORDER: readonly Finding['severity'][] = ['stop', 'check', 'note'];

/** Every check once, stop findings first, then open points of the records. */
function checksOf(
  { axle, findings }: AxleWear,
  openPoints: readonly OpenPoint[],
): Record<'shown' | 'folded', Check[]> {
  const said = new Map<string, Check>();
  for (const { severity, side, pad, message, check: what } of findings) {
    const key = `${severity} ${what}`;
    const known: Check = said.get(key) ?? { severity, what, reasons: new Map() };
    const place = positionInWords({ side, pad });
    const elsewhere = withoutPlace(message, place);
    const reason = known.reasons.get(elsewhere) ?? { places: [], messages: [] };
    known.reasons.set(elsewhere, {
      places: place ? [...reason.places, place] : reason.places,
      messages: [...reason.messages, message],
    });
    said.set(key, known);
  }
  const open = openPoints.filter(
    (point) => point.axle === axle && point.finding === null && !DECISION_CODES.has(point.code),
  );
  for (const what of openInWords(open)) said.set(what, { severity: 'note', what, reasons: new Map() });
  const items = [...said.values()].sort((a, b) => ORDER.indexOf(a.severity) - ORDER.indexOf(b.severity));
  const pressing = items.filter(({ severity }) => severity !== 'note');
  const count = Math.max(CHECKS_SHOWN, pressing.length);
  return { shown: items.slice(0, count), folded: items.slice(count) };
}

/** Notes beyond this many checks are collapsed, so that they do not hide what is urgent. */
const CHECKS_SHOWN = 3;

const checkList = (items: readonly Check[]): string =>
  items.length === 0
    ? ''
    : html`<ul class="checks ${items.length > 1 ? 'columns' : ''}">
        !${each(items, checkItem)}
      </ul>`;

const moreNotes = (items: readonly Check[]): string =>
  items.length === 0
    ? ''
    : html`<details class="on-screen">
        <summary>${countInWords(items.length, 'more note')}</summary>
        !${checkList(items)}
      </details>`;

/** A message without its place, used to merge equal messages of several places. */
const withoutPlace = (message: string, place: string): string =>
  place === '' ? message : message.replace(new RegExp(`\\b${place} `, 'i'), '');

const checkItem = ({ severity, what, reasons }: Check): string =>
  html`<li class="${severity}">
    <p class="do">!${severity === 'stop' ? 'Stop. ' : ''}${unbroken(firstSentence(what))}</p>
    !${restOf(what)}
    !${each([...reasons], ([elsewhere, reason]) => html`<p class="because">${reasonInWords(elsewhere, reason)}</p>`)}
  </li>`;

/** The text after a check's first sentence. */
function restOf(what: string): string {
  const rest = what.slice(firstSentence(what).length).trim();
  return rest === '' ? '' : html`<p class="because">${unbroken(rest)}</p>`;
}

function reasonInWords(
  elsewhere: string,
  { places, messages }: { places: readonly string[]; messages: readonly string[] },
): string {
  const [first] = messages as [string];
  const isNamed = places.length === 0 || elsewhere !== first;
  if (places.length < 2) return brief(isNamed ? capital(first) : `${capital(itemAt(places, 0))}: ${first}`);
  const isPair = places.length === 2 && places.includes('left') && places.includes('right');
  const isSubject = /^[a-z]/.test(elsewhere);
  if (isPair && isSubject) return brief(`On both sides, the ${elsewhere}`);
  return brief(`${capital(isPair ? 'both sides' : listInWords(places))}: ${elsewhere}`);
}

const brief = (text: string): string => unbroken(withDatesInWords(text, shortDate));

const OF_SIDE = /the (?:left|right) of/;

/** Open points of the records; those on both sides appear once. */
function openInWords(points: readonly OpenPoint[]): string[] {
  const said = new Map<string, string[]>();
  for (const { message } of points) {
    const key = message.replace(OF_SIDE, 'either side of');
    said.set(key, [...(said.get(key) ?? []), message]);
  }
  return [...said].map(([ofBoth, all]) => (all.length > 1 ? ofBoth : itemAt(all, 0)));
}

/** Reasons for unknown values, each once. */
function reasonsOf({ replacement, pads, rotors, drums }: AxleWear): string[] {
  const reasons = [replacement, ...pads, ...rotors, ...drums].flatMap((part) => part.reasons);
  return [...new Set(reasons.map(({ detail }) => unbroken(sentence(detail))))];
}

/* The whole vehicle's open points, visits and cautions */

function whole({ openPoints, visits }: Sheet): string {
  const open = openPoints
    .filter(({ axle, finding }) => axle === null && finding === null)
    .map(({ message }) => unbroken(message));
  if (open.length === 0) return '';
  return html`<section class="part">
    <h2>Still open from ${unbroken(dateInWords(itemAt(visits, -1).date))}</h2>
    !${list(open)}
  </section>`;
}

const VISITS_SHOWN = 3;
const MAX_VISITS = 60;

function lastVisits(sheet: Sheet): string {
  const { visits } = sheet;
  const isLinked = mayChange(sheet);
  const latest = [...visits].reverse();
  const [shown, rest] = [latest.slice(0, VISITS_SHOWN), latest.slice(VISITS_SHOWN, MAX_VISITS)];
  const more =
    rest.length === 0
      ? ''
      : html`<details class="on-screen">
          <summary>${countInWords(rest.length, 'earlier visit')}</summary>
          !${visitTable(rest, isLinked)}
        </details>`;
  return html`<section class="part on-screen" id="visits">
    <h2>Last visits</h2>
    !${shown.length === 0 ? '<p>No visit is recorded yet.</p>' : visitTable(shown, isLinked)} !${more}
    !${isLinked && shown.length > 0 ? '<p class="small soft">Choose a date to see that visit in full or to correct it.</p>' : ''}
  </section>`;
}

/** In km unless it says otherwise. */
const shortOdometer = ({ odometer }: HistoryVisit): string => {
  if (!odometer) return 'not read';
  const value = inWords(odometer.value);
  return odometer.unit === 'km' ? value : `${value} ${odometer.unit}`;
};

const visitTable = (visits: readonly HistoryVisit[], isLinked: boolean): string =>
  html`<table class="${isLinked ? 'linked' : ''}">
    <thead>
      <tr>
        <th scope="col">Date</th>
        <th scope="col" class="number">Odometer</th>
        <th scope="col">Recorded</th>
      </tr>
    </thead>
    <tbody>
      !${each(
        visits,
        (visit) =>
          html`<tr>
            <th scope="row" class="date name">!${dateOf(visit, isLinked)}</th>
            <td class="number keep">${shortOdometer(visit)}</td>
            <td>${recordedInWords(visit)}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;

const dateOf = ({ id, date }: HistoryVisit, isLinked: boolean): string =>
  isLinked
    ? html`<a class="name" href="/visits/${id}/correct">${shortDate(date)}</a>`
    : html`${shortDate(date)}`;

/** `8 pad readings, rotors, run-out; front: new pads, slides serviced`. */
function recordedInWords({ readings, work, notMeasured }: HistoryVisit): string {
  const of = (...kinds: string[]) => readings.filter(({ kind }) => kinds.includes(kind)).length;
  const linings = (count: number, word: string) =>
    count === 0 ? [] : [countInWords(count, `${word} reading`)];
  const read = [
    ...linings(of('pad-thickness'), 'pad'),
    ...linings(of('shoe-thickness'), 'shoe'),
    ...(of('rotor-thickness') > 0 ? ['rotors'] : []),
    ...(of('drum-diameter') > 0 ? ['drums'] : []),
    ...(of('rotor-runout') > 0 ? ['run-out'] : []),
  ];
  const done = new Map<string, string[]>();
  for (const { kind, axle } of work) {
    const where = axle ? termInWords(axle) : '';
    done.set(where, [...new Set([...(done.get(where) ?? []), workInWords(kind)])]);
  }
  const said = [
    ...(read.length > 0 ? [read.join(', ')] : []),
    ...[...done].map(([where, words]) => [where, words.join(', ')].filter(Boolean).join(': ')),
  ];
  if (said.length > 0) return said.join('; ');
  return notMeasured.length > 0 ? 'nothing measured' : 'no readings';
}

/** Reminders before the wheels come off, in few words; the list has the full cautions. */
const BRIEF: Record<string, string> = {
  lifting: 'Rated stands on firm ground.',
  'brake-dust': 'No compressed air on brake dust.',
  'high-voltage': 'High voltage: trained people only.',
  'brake-by-wire': 'Brakes may apply by themselves: service mode first.',
  'electric-parking-brake': 'Parking brake into its service mode.',
  'pistons-back': 'Watch the fluid level when pistons go back.',
  'hydraulics-open': 'Bleed in the maker’s order.',
  'before-moving': 'Pedal pressure before the wheels turn.',
};

const briefCautions = ({ cautions }: Wear): string =>
  Object.entries(BRIEF)
    .filter(([code]) => cautions.some((caution) => caution.code === code))
    .map(([, words]) => words)
    .join(' ');

const briefly = (wear: Wear): string =>
  html`<p class="briefly" hidden>
    <strong>Before you start:</strong> ${briefCautions(wear)} All cautions are on the last page.
  </p>`;

function beforeYouStart(sheet: Sheet): string {
  const { cautions } = sheet.wear;
  return html`<section class="part cautions" id="cautions">
    <h2>Before you start</h2>
    <p class="on-screen">${briefCautions(sheet.wear)}</p>
    <details class="on-screen">
      <summary>All ${cautions.length} cautions</summary>
      !${cautionList(sheet.wear)}
    </details>
    <details class="on-screen">
      <summary>Vehicle details</summary>
      !${facts(sheet)}
    </details>
    !${mayChange(sheet) ? html`<p class="on-screen alone"><a href="/vehicles/${sheet.vehicle.id}/change">Change the vehicle</a></p>` : ''}
    <div class="on-paper" hidden>!${cautionList(sheet.wear)}</div>
    <p class="small soft on-screen">
      ${DISCLAIMER} The maker’s instructions, local law and licensed practice come first. Print this page for
      a sheet with room to write, one page per axle.
    </p>
  </section>`;
}

const cautionList = ({ cautions }: Wear): string =>
  html`<ul class="plain small">
    !${each(cautions, ({ message, source }) => html`<li>${message} <span class="soft on-screen">(${source})</span></li>`)}
  </ul>`;

const range = ({ low, median, high }: Range): string =>
  `${inWords(median, 0)} km a day (8 cases in 10: ${inWords(low, 0)} to ${inWords(high, 0)})`;

function facts({ vehicle, wear, today }: Sheet): string {
  const { kmPerDay } = wear.usage;
  const known: [string, string | null | undefined][] = [
    ['Registration', vehicle.registration],
    ['Number', vehicle.externalId],
    ['VIN', vehicle.vin],
    ['Vehicle', vehicle.description],
    ['Model', vehicle.model],
    ['Fleet', vehicle.fleet],
    ['Powertrain', vehicle.powertrain && termInWords(vehicle.powertrain)],
    ['In service', vehicle.inService && unbroken(dateInWords(vehicle.inService.date))],
    ['Use', kmPerDay && range(kmPerDay)],
    ['As of', unbroken(dateInWords(today))],
  ];
  const rows = known.filter((fact): fact is [string, string] => fact[1] != null);
  return html`<dl class="facts">
    !${each(
      rows,
      ([name, value]) =>
        html`<dt>${name}</dt>
          <dd>${value}</dd>`,
    )}
  </dl>`;
}
