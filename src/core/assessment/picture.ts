import { toDay } from '../calendar.js';
import type { History } from '../history.js';
import { itemAt } from '../items.js';
import { isDrumBrake } from '../lives.js';
import { layRoad, type Road } from '../odometer.js';
import { toKm } from '../units.js';
import type { Axle } from '../vocabulary/terms.js';
import type { Wear } from '../vocabulary/wear.js';
import { drumPanel, rotorPanel } from './counterpartPicture.js';
import { liningPanel } from './liningPicture.js';
import type { PictureContext } from './pictureParts.js';
import type { AxlePicture, PicturedRoad } from './pictureShape.js';

/**
 * @param wear the answer for the same history
 * @returns null if the vehicle has no such axle
 */
export function axlePicture(history: History, wear: Wear, axle: Axle, today: string): AxlePicture | null {
  const answer = wear.axles.find((each) => each.axle === axle);
  if (!answer) return null;
  const road = layRoad(history);
  const asAt = wear.asAt && toDay(wear.asAt.date);
  const context: PictureContext = {
    history,
    road,
    axle,
    wear: answer,
    asAt,
    kmPerDay: wear.usage.kmPerDay?.median ?? null,
  };
  const { date, dateSource } = answer.replacement.untilNextVisit;
  return {
    axle,
    wear: answer,
    today: toDay(today),
    asAt,
    nextVisit: { day: toDay(date), source: dateSource },
    road: picturedRoad(context),
    panels: [liningPanel(context), isDrumBrake(history, axle) ? drumPanel(context) : rotorPanel(context)],
  };
}

function picturedRoad({ history: { vehicle, visits }, road, kmPerDay }: PictureContext): PicturedRoad {
  const replacedOn = visits.filter((visit) => visit.odometerReplaced).map(({ date }) => toDay(date));
  // The road starts at 0 km; if the odometer was never replaced, show the odometer's own figures instead.
  const shown = replacedOn.length === 0 ? odometerAtStart({ vehicle, visits }, road) : 0;
  const placed = [
    ...(vehicle.inService ? [{ date: vehicle.inService.date, place: road.inService }] : []),
    ...visits.map(({ date }, index) => ({ date, place: itemAt(road.places, index) })),
  ];
  if (!road.isByDistance) return { marks: [], replacedOn, kmPerDay };
  const marks = placed.flatMap(({ date, place }) =>
    place ? [{ day: toDay(date), km: place.km + shown }] : [],
  );
  return { marks, replacedOn, kmPerDay };
}

/** The odometer reading at the start of the road, km. */
function odometerAtStart({ vehicle: { inService }, visits }: History, road: Road): number {
  if (inService?.odometer && road.inService) return toKm(inService.odometer) - road.inService.km;
  const isDoubted = (id: string): boolean => road.doubted.some(({ visitId }) => visitId === id);
  const read = visits.findIndex(({ id, odometer }) => odometer && !isDoubted(id));
  const place = road.places[read];
  return place ? itemAt(visits, read).odometer!.km - place.km : 0;
}
