import type { Role } from '../src/core/vocabulary/terms.js';
import type { Vehicle } from '../src/core/vocabulary/vehicle.js';
import { countInWords, dateInWords, onAxle } from '../src/core/words.js';
import type { DueAxle } from '../src/store/contract/reports.js';
import type { LoadedVehicle } from './load.js';
import type { Example } from './tour.js';
import type { VisitInput } from './workshop.js';

/** The demo's texts: one screen to begin with, and a file with more calls to paste. */

export type DemoKeys = Record<Role, string>;

/** The members of the due-soon report that the demo prints. */
export interface DueSoon {
  total: number;
  overdueCount: number;
  unassessedCount: number;
  items: DueAxle[];
}

type Names = Pick<Vehicle, 'externalId' | 'registration'>;

const nameOf = ({ externalId, registration }: Names): string =>
  [externalId, registration].filter((name) => name !== null).join(' / ');

interface Greeting {
  address: string;
  keys: DemoKeys;
  loaded: readonly LoadedVehicle[];
  example: Example;
  dueSoon: DueSoon;
  /** The file with the other calls. */
  callsIn: string;
}

/** One screen: the address, a key for each role, and three things to try. */
export function greeting({ address, keys, loaded, example, dueSoon, callsIn }: Greeting): string[] {
  const { vehicle } = example.loaded;
  const visits = loaded.reduce((sum, each) => sum + each.visits.length, 0);
  return [
    `The demo is at ${address} until you press Ctrl-C: ${loaded.length} vehicles and ${visits} visits, all invented.`,
    '',
    'A key for each role. Paste these lines into a second terminal:',
    ...exportLines(address, keys),
    '',
    `1. Look: open ${address}/vehicles/${vehicle.id} and paste the technician's key.`,
    '',
    `2. Ask what the brakes of ${nameOf(vehicle)} need. The answer, in words, is under the call.`,
    wearCall(address, keys, vehicle),
    ...example.wear.axles.map(({ axle, advice }) => `     ${axle}: ${advice.words} ${advice.why}`),
    `   Ask what is due within 60 days in ${vehicle.fleet}, the fleet of the fleet manager's key.`,
    dueSoonCall(address, keys),
    `     ${dueInWords(dueSoon)}`,
    '',
    `3. Read on: docs/walkthrough.md is a tour with curl. ${callsIn} has more calls to paste.`,
  ];
}

function dueInWords({ total, overdueCount, unassessedCount, items }: DueSoon): string {
  const counts = `${countInWords(total, 'axle')} due, ${overdueCount} of them overdue; ${unassessedCount} without a forecast.`;
  const [first] = items;
  if (!first?.medianDate) return counts;
  const when = `${first.overdue ? 'overdue since' : 'at the limit about'} ${dateInWords(first.medianDate)}`;
  return `${counts} First: ${nameOf(first)}, ${onAxle(first.part, first.axle)}, ${when}.`;
}

function exportLines(address: string, keys: DemoKeys): string[] {
  const variables = Object.entries(keys).map(([role, key]) => {
    const name = `${role.toUpperCase().replace('-', '_')}_KEY`;
    return `export ${name}=${key}`;
  });
  return [`export BRAKES=${address}`, ...variables];
}

export const callsFile = (address: string, keys: DemoKeys, vehicle: Vehicle, visit: VisitInput): string =>
  [
    '# Calls for the demo. Paste one at a time; they hold the keys of this run.',
    ...exportLines(address, keys),
    ...calls(address, keys, vehicle, visit).map((line) => (line.startsWith('# ') ? `\n${line}` : line)),
    '',
  ].join('\n');

/**
 * Calls that work when pasted, each under a comment line that says what it does. Those lines contain no quote, question
 * mark or semicolon, because some shells run a pasted `#` line as a command.
 */
export function calls(address: string, keys: DemoKeys, vehicle: Vehicle, visit: VisitInput): string[] {
  const get = (key: string, path: string): string => getCall(address, key, path);
  const name = nameOf(vehicle);
  const visits = `${address}/v1/vehicles/${vehicle.id}/visits`;
  return [
    `# How fast the pads of ${name} wear, when they reach their limit, how much rotor is left`,
    wearCall(address, keys, vehicle),
    `# What is due within 60 days in ${vehicle.fleet}, the fleet of this fleet-manager key`,
    dueSoonCall(address, keys),
    '# The same for all fleets, as CSV',
    get(keys['front-desk'], '/reports/due-soon?withinDays=60&format=csv'),
    `# Record a visit of ${name} today. The answer holds the new outlook, and so does the first call from then on`,
    postCall(visits, keys.technician, visit),
    '# The axles that have no forecast yet, and why',
    get(keys.owner, '/reports/unassessed'),
    '# How past forecasts compare with what followed. This waits up to half a minute for the past fits',
    get(keys.owner, '/reports/forecast-accuracy?limit=5'),
    `# All other calls. To read the reference, open ${address}/docs`,
    `curl -sw '\\n' "${address}/openapi.json"`,
  ];
}

const getCall = (address: string, key: string, path: string): string =>
  `curl -sw '\\n' -H "Authorization: Bearer ${key}" "${address}/v1${path}"`;

const wearCall = (address: string, keys: DemoKeys, { id }: Vehicle): string =>
  getCall(address, keys.technician, `/vehicles/${id}/wear`);

const dueSoonCall = (address: string, keys: DemoKeys): string =>
  getCall(address, keys['fleet-manager'], '/reports/due-soon?withinDays=60');

const postCall = (url: string, key: string, body: VisitInput): string =>
  [
    `curl -sw '\\n' -X POST -H "Authorization: Bearer ${key}" \\`,
    `  -H "Content-Type: application/json" "${url}" \\`,
    `  -d '${readableJson(body)}'`,
  ].join('\n');

/** Formats one line per member, and one line per entry of a list. */
function readableJson(body: VisitInput): string {
  const members = Object.entries(body).map(([name, value]) => {
    if (!Array.isArray(value)) return `  "${name}": ${JSON.stringify(value)}`;
    const entries = value.map((entry) => `    ${JSON.stringify(entry)}`);
    return `  "${name}": [\n${entries.join(',\n')} ]`;
  });
  return `{\n${members.join(',\n')} }`;
}
