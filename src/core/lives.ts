import { toDay } from './calendar.js';
import { gaugeFor, type Gauge, type Gauges } from './gauges.js';
import type { History, HistoryVisit } from './history.js';
import type { Place, Road } from './odometer.js';
import { roundMm } from './rounding.js';
import { toKm, toMm } from './units.js';
import type { Axle, LiningPosition, Side, Taken, WorkKind } from './vocabulary/terms.js';
import type { DrumSpec, PadSpec, RotorSpec } from './vocabulary/vehicle.js';
import type { Reading, WorkItem } from './vocabulary/visit.js';

/** One look at one part: the thinnest of the places measured, each the mean of its repeats. */
export interface Observation {
  visit: HistoryVisit;
  day: number;
  place: Place | null;
  mm: number;
  gauge: Gauge;
  /** Each place that was measured, mm: pad ends by name, rotor points by number. */
  places: Map<string, number>;
}

/** One part from its fitting to its replacement. */
export interface Life<Spec> {
  origin: 'replaced' | 'machined' | 'in-service' | 'first-reading';
  /** Where it began; null where only the first reading is known. */
  start: { day: number; place: Place | null; odometerKm: number | null } | null;
  /** Thickness at the start, mm; null where it is not known. */
  startMm: number | null;
  spec: Spec;
  observations: Observation[];
}

interface Part<Spec> {
  axle: Axle;
  side: Side;
  reading: (reading: Reading) => string | null;
  /** −1 where the part grows as it wears: its readings are taken as negative thicknesses. */
  sign: 1 | -1;
  /** The spec a new part brings, over the vehicle's; null where the work is not a replacement of this part. */
  replacement: (item: WorkItem) => Partial<Spec> | null;
  machined: (item: WorkItem) => boolean;
  spec: Spec;
  newMm: (spec: Spec) => number | null;
}

/** The work that begins a new life of a lining, of its counterpart, and that cuts the counterpart anew. */
const LININGS_REPLACED: ReadonlySet<WorkKind> = new Set(['pads-replaced', 'shoes-replaced']);
const COUNTERPART_REPLACED: ReadonlySet<WorkKind> = new Set(['rotor-replaced', 'drum-replaced']);
const COUNTERPART_MACHINED: ReadonlySet<WorkKind> = new Set(['rotor-machined', 'drum-machined']);

/** Whether work put new linings on an axle, be it on one side. */
export const replacesLinings = (item: WorkItem, axle: Axle): boolean =>
  LININGS_REPLACED.has(item.kind) && item.axle === axle;

export const isDrumBrake = ({ vehicle }: History, axle: Axle): boolean =>
  vehicle.axles[axle]?.brake === 'drum';

/** The lives of a lining, a pad's or a shoe's, oldest first; the last is the present one. */
export function padLives(
  history: History,
  road: Road,
  axle: Axle,
  side: Side,
  pad: LiningPosition,
): Life<PadSpec>[] {
  const specs = history.vehicle.axles[axle];
  return partLives(history, road, {
    axle,
    side,
    reading: (reading) =>
      (reading.kind === 'pad-thickness' && reading.pad === pad) ||
      (reading.kind === 'shoe-thickness' && reading.shoe === pad)
        ? reading.at
        : null,
    sign: 1,
    replacement: (item) =>
      LININGS_REPLACED.has(item.kind)
        ? { new: item.new, limit: item.limit, wearIndicator: item.wearIndicator as never }
        : null,
    machined: () => false,
    spec: (isDrumBrake(history, axle) ? specs?.shoe : specs?.pad) ?? {},
    newMm: (spec) => (spec.new ? toMm(spec.new) : null),
  });
}

/**
 * The lives of a rotor, oldest first. Machining begins a new one, of a thickness that only a reading tells. A drum is
 * a rotor with the sign turned: its diameters are taken as negative thicknesses, and its maximum as the discard one.
 */
export function rotorLives(history: History, road: Road, axle: Axle, side: Side): Life<RotorSpec>[] {
  const specs = history.vehicle.axles[axle];
  const drum = isDrumBrake(history, axle);
  return partLives(history, road, {
    axle,
    side,
    reading: (reading) =>
      reading.kind === (drum ? 'drum-diameter' : 'rotor-thickness') ? `point ${reading.point ?? '-'}` : null,
    sign: drum ? -1 : 1,
    replacement: (item) => {
      if (!COUNTERPART_REPLACED.has(item.kind)) return null;
      if (drum) return turned({ new: item.new, maximum: item.maximum, machineTo: item.machineTo });
      return {
        new: item.new,
        discard: item.discard,
        machineTo: item.machineTo,
        runoutLimit: item.runoutLimit,
        variationLimit: item.variationLimit,
      };
    },
    machined: (item) => COUNTERPART_MACHINED.has(item.kind),
    spec: drum ? turned(specs?.drum ?? {}) : (specs?.rotor ?? {}),
    newMm: (spec) => (spec.new ? toMm(spec.new) : null),
  });
}

/** A drum's specification as that of a rotor of negative thickness. */
function turned({ new: fresh, maximum, machineTo }: DrumSpec): RotorSpec {
  const turn = (length: DrumSpec['new']) => length && { ...length, value: -length.value };
  return { new: turn(fresh), discard: turn(maximum), machineTo: turn(machineTo) };
}

function partLives<Spec extends object>(history: History, road: Road, part: Part<Spec>): Life<Spec>[] {
  const { inService } = history.vehicle;
  const lives: Life<Spec>[] = [
    {
      origin: inService ? 'in-service' : 'first-reading',
      start: inService
        ? {
            day: toDay(inService.date),
            place: road.inService,
            odometerKm: inService.odometer ? toKm(inService.odometer) : null,
          }
        : null,
      startMm: inService ? part.newMm(part.spec) : null,
      spec: part.spec,
      observations: [],
    },
  ];
  history.visits.forEach((visit, index) => {
    const place = road.places[index] ?? null;
    observe(lives.at(-1)!, visit, place, part, 'as-found', history.gauges);
    for (const item of visit.work) {
      if (item.axle !== part.axle || (item.side != null && item.side !== part.side)) continue;
      const begun = beginLife(lives.at(-1)!, item, visit, place, part);
      if (begun) lives.push(begun);
    }
    observe(lives.at(-1)!, visit, place, part, 'as-left', history.gauges);
  });
  return lives;
}

function beginLife<Spec extends object>(
  ended: Life<Spec>,
  item: WorkItem,
  visit: HistoryVisit,
  place: Place | null,
  part: Part<Spec>,
): Life<Spec> | null {
  const start = { day: toDay(visit.date), place, odometerKm: visit.odometer?.km ?? null };
  if (part.machined(item))
    return { origin: 'machined', start, startMm: null, spec: ended.spec, observations: [] };
  const brought = part.replacement(item);
  if (!brought) return null;
  const given = Object.fromEntries(
    Object.entries(brought).filter(([, value]) => value != null),
  ) as Partial<Spec>;
  const spec = { ...part.spec, ...given };
  return { origin: 'replaced', start, startMm: part.newMm(spec), spec, observations: [] };
}

function observe<Spec extends object>(
  life: Life<Spec>,
  visit: HistoryVisit,
  place: Place | null,
  part: Part<Spec>,
  taken: Taken,
  gauges: Gauges | undefined,
): void {
  let byPlace: Map<string, { sum: number; count: number; gauge: Gauge }> | null = null;
  for (const reading of visit.readings) {
    if (reading.axle !== part.axle || reading.side !== part.side || reading.taken !== taken) continue;
    const where = part.reading(reading);
    if (where === null) continue;
    const gauge = gaugeFor(reading.gauge, reading.kind, gauges);
    byPlace ??= new Map();
    const seen = byPlace.get(where);
    if (!seen) byPlace.set(where, { sum: part.sign * reading.mm, count: 1, gauge });
    else {
      seen.sum += part.sign * reading.mm;
      seen.count += 1;
    }
  }
  if (!byPlace) return;
  const places = new Map(
    [...byPlace].map(([where, { sum, count }]) => [where, count > 1 ? roundMm(sum / count) : sum]),
  );
  const [thinnest, mm] = [...places].reduce((least, entry) => (entry[1] < least[1] ? entry : least));
  life.observations.push({
    visit,
    day: toDay(visit.date),
    place,
    mm,
    gauge: byPlace.get(thinnest)!.gauge,
    places,
  });
}
