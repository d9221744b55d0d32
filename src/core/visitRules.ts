import { canTake, STANDARD_GAUGES, type Gauges } from './gauges.js';
import type { History } from './history.js';
import { conflictIn, odometerConflict } from './odometer.js';
import { invalid, type Issue } from './refusal.js';
import { VISIT_PARTS, type Axle, type VisitPart } from './vocabulary/terms.js';
import type { VehicleBody } from './vocabulary/vehicle.js';
import type { EntryBody, ReadingBody } from './vocabulary/visit.js';

/** What a visit or a later entry brings, and where its first items stand in the body that brought them. */
type Contents = Pick<EntryBody, VisitPart>;
interface OnAxle {
  axle?: Axle | null;
}
/** As much of each item as says what it is of. */
type Told = Partial<
  Record<Exclude<VisitPart, 'readings' | 'work'>, readonly OnAxle[] | null> &
    Record<'readings' | 'work', readonly (OnAxle & { kind: string })[] | null>
>;

/**
 * What is wrong with a visit's contents beside the vehicle they are said of: an axle it lacks, a brake of another
 * kind, an unknown gauge, a place measured twice.
 *
 * @param already readings the visit has already
 */
export function contentIssues(
  vehicle: VehicleBody,
  contents: Contents,
  already: readonly ReadingBody[] = [],
  gauges: Gauges = STANDARD_GAUGES,
): Issue[] {
  return [...misfits(vehicle, contents), ...readingIssues(contents.readings ?? [], already, gauges)];
}

/** What is said of an axle that the vehicle lacks, or of a brake of another kind than the axle has. */
export function misfits(vehicle: VehicleBody, told: Told): Issue[] {
  return [...axleIssues(vehicle, told), ...brakeIssues(vehicle, told), ...workIssues(vehicle, told)];
}

function axleIssues(vehicle: VehicleBody, told: Told): Issue[] {
  return VISIT_PARTS.flatMap((part) =>
    (told[part] ?? []).flatMap((item, index): Issue[] => {
      const { axle } = item;
      if (axle == null || vehicle.axles[axle]) return [];
      const known = Object.keys(vehicle.axles).join(', ');
      return [{ path: [part, index, 'axle'], detail: `the vehicle has no axle ${axle}; it has ${known}` }];
    }),
  );
}

function brakeIssues(vehicle: VehicleBody, { readings }: Told): Issue[] {
  return (readings ?? []).flatMap(({ kind, axle }, index): Issue[] => {
    const specs = axle == null ? undefined : vehicle.axles[axle];
    const ofDrum = OF_DRUMS.has(kind);
    if (!specs || ofDrum === (specs.brake === 'drum')) return [];
    const detail = `${kind} is of a ${ofDrum ? 'drum' : 'disc'} brake; axle ${axle} has brake ${specs.brake ?? 'unknown, taken for disc'}`;
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
  if (!known) return `unknown gauge ${gauge}; GET /v1/gauges lists those known`;
  return canTake(known.kind, kind)
    ? null
    : `${gauge} is a ${known.kind}, which cannot take a ${kind} reading`;
}

/** Work on a drum brake needs one; that on pads or rotors is taken for its counterpart where the axle has drums. */
function workIssues(vehicle: VehicleBody, { work }: Told): Issue[] {
  return (work ?? []).flatMap(({ kind, axle }, index): Issue[] => {
    const specs = axle == null ? undefined : vehicle.axles[axle];
    if (!specs || !OF_DRUMS.has(kind) || specs.brake === 'drum') return [];
    return [
      {
        path: ['work', index, 'kind'],
        detail: `${kind} is of a drum brake; axle ${axle} is not said to have one`,
      },
    ];
  });
}

/** What is said of drum brakes alone. */
const OF_DRUMS: ReadonlySet<string> = new Set([
  'shoe-thickness',
  'drum-diameter',
  'shoes-replaced',
  'drum-replaced',
  'drum-machined',
]);

/** Where and how a reading was taken: one place may stand once in a visit. */
export function placeOf(reading: ReadingBody): string {
  const { kind, axle, side, repeat, taken } = reading;
  const pad = 'pad' in reading ? reading.pad : 'shoe' in reading ? reading.shoe : '';
  const where = 'at' in reading ? `${pad} ${reading.at}` : '';
  const point = 'point' in reading ? (reading.point ?? '') : '';
  return [kind, axle, side, where, point, repeat, taken].join('|');
}

/**
 * Refuses a visit whose date or odometer cannot be.
 *
 * @param history with the visit in its place
 * @param latestDate today's date where it is latest on earth
 * @param isRecorded whether the visit stands there already with this date and odometer
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
  if (visit.date > latestDate) issues.push({ path: ['date'], detail: `${visit.date} lies in the future` });
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
 * Refuses a change to one visit that would set the odometers of others against one another, as taking the replacement
 * of an odometer away does. What stood against one another before is not held against the change.
 *
 * @throws Refusal of kind invalid, with one issue of the whole body
 */
export function checkOthersInHistory(before: History, after: History): void {
  const made = conflictIn(after, before);
  if (!made || conflictIn(before)) return;
  const { visit, conflict } = made;
  const detail = `the visit ${visit.id} on ${visit.date} would not fit any more: ${conflict.detail}`;
  throw invalid([{ path: [], detail }], { visitId: visit.id });
}
