import { inWords } from '../src/core/rounding.js';
import type { Role } from '../src/core/vocabulary/terms.js';
import type { Vehicle } from '../src/core/vocabulary/vehicle.js';
import type {
  AxleWear,
  Finding,
  PadWear,
  Replacement,
  RotorWear,
  Wear,
} from '../src/core/vocabulary/wear.js';
import type { DueAxle } from '../src/store/store.js';
import type { VisitInput } from './workshop.js';

/** What the demo prints: calls to paste, and answers in words and numbers. */

export type DemoKeys = Record<Role, string>;

/** What the due-soon report answers, as far as the demo tells of it. */
export interface DueSoon {
  horizon: string;
  total: number;
  unassessedCount: number;
  items: DueAxle[];
}

type Names = Pick<Vehicle, 'externalId' | 'registration'>;

export const nameOf = ({ externalId, registration }: Names): string =>
  [externalId, registration].filter((name) => name !== null).join(' / ');

export function exportLines(address: string, keys: DemoKeys): string[] {
  const variables = Object.entries(keys).map(([role, key]) => {
    const name = `${role.toUpperCase().replace('-', '_')}_KEY`;
    return `export ${name}=${key}`;
  });
  return [`export BRAKES=${address}`, ...variables];
}

/**
 * Calls that work as they are pasted, each under a line that says what it asks. Those lines hold no quote, question
 * mark or semicolon: some shells take a pasted `#` for a command.
 */
export function calls(address: string, keys: DemoKeys, vehicle: Vehicle, visit: VisitInput): string[] {
  const get = (key: string, path: string): string =>
    `curl -sw '\\n' -H "Authorization: Bearer ${key}" "${address}/v1${path}"`;
  const name = nameOf(vehicle);
  const visits = `${address}/v1/vehicles/${vehicle.id}/visits`;
  return [
    `# How fast the pads of ${name} wear, when they reach their limit, how much rotor is left`,
    get(keys.technician, `/vehicles/${vehicle.id}/wear`),
    `# What is due within 60 days in ${vehicle.fleet}, the fleet of this fleet-manager key`,
    get(keys['fleet-manager'], '/reports/due-soon?withinDays=60'),
    '# The same over every fleet, as CSV',
    get(keys['front-desk'], '/reports/due-soon?withinDays=60&format=csv'),
    `# Record a visit of ${name} today. The answer holds the new outlook, and so does the first call from then on`,
    postCall(visits, keys.technician, visit),
    '# The axles of which nobody can tell a date, and why',
    get(keys.owner, '/reports/unassessed'),
    '# How past forecasts did against what followed. What was known in the past is fitted for half a minute first',
    get(keys.owner, '/reports/forecast-accuracy?limit=5'),
    `# Everything else it answers. To read it, open ${address}/docs`,
    `curl -sw '\\n' "${address}/openapi.json"`,
  ];
}

const postCall = (url: string, key: string, body: VisitInput): string =>
  [
    `curl -sw '\\n' -X POST -H "Authorization: Bearer ${key}" \\`,
    `  -H "Content-Type: application/json" "${url}" \\`,
    `  -d '${readableJson(body)}'`,
  ].join('\n');

/** One line a member, and one line an entry of a list. */
function readableJson(body: VisitInput): string {
  const members = Object.entries(body).map(([name, value]) => {
    if (!Array.isArray(value)) return `  "${name}": ${JSON.stringify(value)}`;
    const entries = value.map((entry) => `    ${JSON.stringify(entry)}`);
    return `  "${name}": [\n${entries.join(',\n')} ]`;
  });
  return `{\n${members.join(',\n')} }`;
}

export function wearInWords(vehicle: Vehicle, { asAt, usage, axles }: Wear): string[] {
  const at = asAt?.odometerKm == null ? '' : ` at ${wholeKm(asAt.odometerKm)}`;
  const pace = usage.kmPerDay ? `, ${inWords(usage.kmPerDay.median, 0)} km a day` : '';
  const seen = asAt ? `last seen ${asAt.date}${at}${pace}` : 'never seen';
  return [
    `${nameOf(vehicle)}, ${vehicle.description ?? 'vehicle'}: ${seen}`,
    ...axles.flatMap((axle) => axleInWords(axle).map((line) => `  ${line}`)),
  ];
}

function axleInWords({ axle, pads, replacement, rotors, findings }: AxleWear): string[] {
  const { limitMm, governingPad, reasons, basis } = replacement;
  const first = governingPad ? `, the ${governingPad.side} ${governingPad.pad} pad first` : '';
  const limit = limitMm === null ? '' : `, pad limit ${inWords(limitMm)} mm${first}`;
  const lines = [
    ...pads.map(padInWords),
    ...replacementInWords(replacement),
    ...reasons.map(({ detail }) => detail),
    ...rotors.map(rotorInWords),
    ...findings.flatMap(findingInWords),
    basis.words,
  ];
  return [`${axle} axle${limit}`, ...lines.map((line) => `  ${line}`)];
}

function padInWords({ side, pad, latest, ratePer1000KmMm: rate, remainingMm }: PadWear): string {
  const reading = latest ? `${inWords(latest.valueMm)} mm on ${latest.date}` : 'not measured yet';
  const range = rate && `${rate.low.toFixed(3)} to ${rate.high.toFixed(3)}`;
  const pace = rate ? `, wears ${rate.median.toFixed(3)} mm per 1000 km (${range})` : '';
  const left = remainingMm ? `, ${remainingMm.median.toFixed(1)} mm to the limit` : '';
  return `${`${side} ${pad}`.padEnd(PLACE_WIDTH)}${reading}${pace}${left}`;
}

function replacementInWords({ distanceKm, date, untilNextVisit, overdue }: Replacement): string[] {
  const { chanceLimitReached, date: nextDate } = untilNextVisit;
  if (!date || !distanceKm || chanceLimitReached === null) return [];
  const points = (['early', 'median', 'late'] as const).map(
    (point) => `${point} ${date[point] ?? 'beyond 30 years'} (${wholeKm(distanceKm[point])})`,
  );
  return [
    `reaches the limit ${points.join(', ')}${overdue ? ': overdue' : ''}`,
    `chance of that before the next visit, about ${nextDate}: ${percent(chanceLimitReached)}`,
  ];
}

function rotorInWords({ side, thinnestMm, marginMm, decision, decisionReasons }: RotorWear): string {
  const thickness = thinnestMm === null ? 'not measured yet' : `${thinnestMm.toFixed(2)} mm at its thinnest`;
  const margin = marginMm === null ? '' : `, ${marginMm.toFixed(2)} mm above discard`;
  // A rotor kept for its margin alone needs no more words than the margin.
  const why = decisionReasons.filter(({ code }) => code !== 'margin').map(({ detail }) => `: ${detail}`);
  return `${`${side} rotor`.padEnd(PLACE_WIDTH)}${thickness}${margin}; ${decision}${why.join('')}`;
}

const findingInWords = ({ severity, side, pad, message, check }: Finding): string[] => [
  `${[severity, side, pad].filter((part) => part !== null).join(' ')}: ${message}`,
  `  ${check}`,
];

/** The first rows of a due-soon report as a table. */
export function dueInWords({ horizon, total, unassessedCount, items }: DueSoon, rows: number): string[] {
  const head = ['vehicle', 'axle', 'early', 'median', 'late', `by ${horizon}`, 'first pad', 'limit'];
  const table = [head, ...items.slice(0, rows).map(dueRow)];
  const widths = head.map((_, column) => Math.max(...table.map((row) => row[column]!.length)));
  return [
    `${total} axles due, ${unassessedCount} without a projection`,
    ...table.map((row) =>
      `  ${row.map((cell, column) => cell.padEnd(widths[column]!)).join('  ')}`.trimEnd(),
    ),
  ];
}

function dueRow(item: DueAxle): string[] {
  const { axle, overdue, chance, earlyDate, medianDate, lateDate, governingPad, limitMm, limitSource } = item;
  return [
    nameOf(item),
    axle,
    earlyDate ?? '',
    medianDate ?? '',
    lateDate ?? '',
    `${percent(chance)}${overdue ? ', overdue' : ''}`,
    governingPad ? `${governingPad.side} ${governingPad.pad}` : '',
    limitMm === null ? '' : `${inWords(limitMm)} mm (${limitSource})`,
  ];
}

const PLACE_WIDTH = 13;

function percent(chance: number): string {
  if (chance < 0.01) return 'under 1 %';
  return chance > 0.99 ? 'over 99 %' : `${inWords(100 * chance, 0)} %`;
}

const wholeKm = (km: number | null): string =>
  km === null ? 'distance unknown' : `${Math.round(km).toLocaleString('en')} km`;
