import { required } from '../core/items.js';

/** How many dated copies of a database are kept. */

const KEPT = { daily: 7, weekly: 4, monthly: 12 };
const DAY_MS = 86_400_000;
const NAME =
  /^(?<stem>.+)-(?<date>\d{4}-\d{2}-\d{2})T(?<hours>\d{2})(?<minutes>\d{2})(?<seconds>\d{2})Z\.sqlite$/;

/** The name of a copy made at an instant, such as `brakes-2026-03-10T023000Z.sqlite`. */
export const copyName = (stem: string, at: Date): string =>
  `${stem}-${at
    .toISOString()
    .replace(/\.\d{3}Z$/, 'Z')
    .replaceAll(':', '')}.sqlite`;

/**
 * The copies in a folder to delete. Keeps the latest copy of each of the last 7 days, 4 weeks (from Monday) and 12
 * months that have copies, so that a gap between copies deletes none. Never includes other files.
 *
 * @param names of all files in the folder
 */
export function copiesToRemove(stem: string, names: readonly string[]): string[] {
  const copies = names.filter((name) => NAME.exec(name)?.groups?.stem === stem).sort();
  const latestFirst = [...copies].reverse();
  const kept = new Set([
    ...latestOfEach(latestFirst, dayOf, KEPT.daily),
    ...latestOfEach(latestFirst, weekOf, KEPT.weekly),
    ...latestOfEach(latestFirst, (name) => dayOf(name).slice(0, 7), KEPT.monthly),
  ]);
  return copies.filter((name) => !kept.has(name));
}

function latestOfEach(
  latestFirst: readonly string[],
  periodOf: (name: string) => string,
  count: number,
): string[] {
  const latest = new Map<string, string>();
  for (const name of latestFirst) if (!latest.has(periodOf(name))) latest.set(periodOf(name), name);
  return [...latest.values()].slice(0, count);
}

const dayOf = (name: string): string => required(NAME.exec(name)?.groups?.date, `date in ${name}`);

/** The date of the week's Monday. */
function weekOf(name: string): string {
  const day = new Date(`${dayOf(name)}T00:00:00Z`);
  const sinceMonday = (day.getUTCDay() + 6) % 7;
  return new Date(day.getTime() - sinceMonday * DAY_MS).toISOString().slice(0, 10);
}
