import { canTake, STANDARD_GAUGES, type Gauges } from './gauges.js';
import type { History } from './history.js';
import { leftUntil } from './lives.js';
import { conflictIn, odometerConflict } from './odometerConflict.js';
import { invalid, type Issue } from './refusal.js';
import { inWords } from './rounding.js';
import { toMm } from './units.js';
import { VISIT_PARTS, type Axle, type VisitPart } from './vocabulary/terms.js';
import type { VehicleBody } from './vocabulary/vehicle.js';
import type { EntryBody, ReadingBody } from './vocabulary/visit.js';

/** The items of a visit or a later entry, with the index of the first new one in its body. */
type Contents = Pick<EntryBody, VisitPart>;
interface OnAxle {
  axle?: Axle | null;
}
/** The items, reduced to the axle and kind that they refer to. */
type Items = Partial<
  Record<Exclude<VisitPart, 'readings' | 'work'>, readonly OnAxle[] | null> &
    Record<'readings' | 'work', readonly (OnAxle & { kind: string })[] | null>
>;

/**
 * Errors in a visit's contents: an axle or a kind of brake that the vehicle does not have, an unknown gauge, a place
 * measured twice.
 *
 * @param already readings that the visit already has
 */
export function contentIssues(
  vehicle: VehicleBody,
  contents: Contents,
  already: readonly ReadingBody[] = [],
  gauges: Gauges = STANDARD_GAUGES,
): Issue[] {
  return [
    ...misfits(vehicle, contents),
    ...machineToIssues(vehicle, contents.work ?? []),
    ...readingIssues(contents.readings ?? [], already, gauges),
  ];
}

/** Items for an axle that the vehicle lacks, or for another kind of brake than the axle has. */
export function misfits(vehicle: VehicleBody, items: Items): Issue[] {
  return [...axleIssues(vehicle, items), ...brakeIssues(vehicle, items), ...workIssues(vehicle, items)];
}

function axleIssues(vehicle: VehicleBody, items: Items): Issue[] {
  return VISIT_PARTS.flatMap((part) =>
    (items[part] ?? []).flatMap((item, index): Issue[] => {
      const { axle } = item;
      if (axle == null || vehicle.axles[axle]) return [];
      const known = Object.keys(vehicle.axles).join(', ');
      return [{ path: [part, index, 'axle'], detail: `the vehicle has no axle ${axle}; it has ${known}` }];
    }),
  );
}

function brakeIssues(vehicle: VehicleBody, { readings }: Items): Issue[] {
  return (readings ?? []).flatMap(({ kind, axle }, index): Issue[] => {
    const specs = axle == null ? undefined : vehicle.axles[axle];
    const ofDrum = OF_DRUMS.has(kind);
    if (!specs || ofDrum === (specs.brake === 'drum')) return [];
    const detail = `${kind} belongs to a ${ofDrum ? 'drum' : 'disc'} brake; the brake of axle ${axle} is ${specs.brake ?? 'unknown, so disc is assumed'}`;
    return [{ path: ['readings', index, 'kind'], detail }];
  });
}

function readingIssues(
  readings: readonly ReadingBody[],
  already: readonly ReadingBody[],
  gauges: Gauges,
): Issue[] {
  const seen = new Set(already.map(placeOf));
  return readings.flatMap((reading, index): Issue[] => {
    const issues: Issue[] = [];
    const detail = gaugeProblem(reading, gauges);
    if (detail) issues.push({ path: ['readings', index, 'gauge'], detail });
    const place = placeOf(reading);
    if (seen.has(place)) {
      issues.push({
        path: ['readings', index],
        detail: 'duplicates a reading in this visit: same place, repeat and taken',
      });
    }
    seen.add(place);
    return issues;
  });
}

function gaugeProblem({ gauge, kind }: ReadingBody, gauges: Gauges): string | null {
  if (gauge == null) return null;
  const known = gauges.get(gauge);
  if (!known) return `unknown gauge ${gauge}; GET /v1/gauges lists the known ones`;
  return canTake(known.kind, kind) ? null : `a gauge of kind ${known.kind} cannot take a ${kind} reading`;
}

/** Refuses drum work on an axle without drums. Pad or rotor work on an axle with drums counts as shoe or drum work. */
function workIssues(vehicle: VehicleBody, { work }: Items): Issue[] {
  return (work ?? []).flatMap(({ kind, axle }, index): Issue[] => {
    const specs = axle == null ? undefined : vehicle.axles[axle];
    if (!specs || !OF_DRUMS.has(kind) || specs.brake === 'drum') return [];
    return [
      {
        path: ['work', index, 'kind'],
        detail: `${kind} belongs to a drum brake; the vehicle record does not say that axle ${axle} has one`,
      },
    ];
  });
}

/**
 * Errors in work whose machine-to figure is past the limit, if necessary the vehicle's. A new part that is already past
 * its limit is not an error but a finding, since it may really have been fitted.
 */
function machineToIssues({ axles }: VehicleBody, work: NonNullable<Contents['work']>): Issue[] {
  return work.flatMap((item, index): Issue[] => {
    const specs = item.axle == null ? undefined : axles[item.axle];
    if (!('machineTo' in item) || !item.machineTo || !specs) return [];
    const limit =
      item.kind === 'drum-replaced'
        ? (item.maximum ?? specs.drum?.maximum)
        : (item.discard ?? specs.rotor?.discard);
    const isDrum = item.kind === 'drum-replaced';
    if (!limit || leftUntil(isDrum ? 'wider' : 'thinner', toMm(item.machineTo), toMm(limit)) >= 0) return [];
    const detail = `must not be ${isDrum ? 'above the maximum diameter' : 'below the discard thickness'} of ${inWords(toMm(limit), 4)} mm`;
    return [{ path: ['work', index, 'machineTo', 'value'], detail }];
  });
}

/** Terms that apply only to drum brakes. */
const OF_DRUMS: ReadonlySet<string> = new Set([
  'shoe-thickness',
  'drum-diameter',
  'shoes-replaced',
  'drum-replaced',
  'drum-machined',
]);

/** Identifies the place, repeat and time of a reading; a visit has at most one reading for each. */
export function placeOf(reading: ReadingBody): string {
  const { kind, axle, side, repeat, taken } = reading;
  const pad = 'pad' in reading ? reading.pad : 'shoe' in reading ? reading.shoe : '';
  const where = 'at' in reading ? `${pad} ${reading.at}` : '';
  const point = 'point' in reading ? (reading.point ?? '') : '';
  return [kind, axle, side, where, point, repeat, taken].join('|');
}

/**
 * Refuses a visit with an impossible date or odometer.
 *
 * @param history including the visit
 * @param latestDate today's date at UTC+14, the latest on earth
 * @param isRecorded whether the visit was already accepted with this date and odometer
 * @throws Refusal of kind invalid
 */
export function checkPlaceInHistory(
  history: History,
  visitId: string,
  latestDate: string,
  earlier: Issue[],
  isRecorded = false,
): void {
  const visit = history.visits.find(({ id }) => id === visitId)!;
  const { inService } = history.vehicle;
  const issues = [...earlier];
  if (visit.date > latestDate) issues.push({ path: ['date'], detail: `${visit.date} is in the future` });
  if (inService && visit.date < inService.date) {
    issues.push({
      path: ['date'],
      detail: `${visit.date} is before the vehicle went into service on ${inService.date}`,
    });
  }
  const conflict = odometerConflict(history, visitId, isRecorded);
  if (conflict) issues.push({ path: conflict.field.split('/'), detail: conflict.detail });
  if (issues.length > 0) throw invalid(issues, conflict?.visitId ? { visitId: conflict.visitId } : {});
}

/**
 * Refuses a change to one visit that would make the odometers of others conflict, such as removing an odometer
 * replacement. Existing conflicts do not count against the change.
 *
 * @throws Refusal of kind invalid, with one issue for the whole body
 */
export function checkOthersInHistory(before: History, after: History): void {
  const made = conflictIn(after, before);
  if (!made || conflictIn(before)) return;
  const { visit, conflict } = made;
  const detail = `this conflicts with visit ${visit.id} on ${visit.date}: ${conflict.detail}`;
  throw invalid([{ path: [], detail }], { visitId: visit.id });
}
