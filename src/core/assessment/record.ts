import type { Group } from '../forecast/experience.js';
import type { AxleRecord, VehicleRecord } from '../forecast/fit.js';
import type { History } from '../history.js';
import { counterpartLives, isDrumBrake } from '../lives.js';
import { layRoad, type Road } from '../odometer.js';
import { AXLES, SIDES, type Axle } from '../vocabulary/terms.js';
import { livedLinings } from './sameDay.js';
import { counterpartTracks, liningTracks } from './tracks.js';

/**
 * What the fit learns from a vehicle's history: brake wear by distance, and use. Empty if the odometer was never read.
 *
 * @param groupOf the class that each axle belongs to
 */
export function recordOf(history: History, groupOf: (axle: Axle) => Group): VehicleRecord {
  const road = layRoad(history);
  const axles = AXLES.filter((axle) => history.vehicle.axles[axle]);
  return {
    model: history.vehicle.model ?? null,
    stretches: road.stretches,
    axles: road.isByDistance ? axles.map((axle) => axleRecord(history, road, axle, groupOf(axle))) : [],
  };
}

function axleRecord(history: History, road: Road, axle: Axle, group: Group): AxleRecord {
  return {
    group,
    pads: livedLinings(history, road, axle, SIDES).map((lining) =>
      liningTracks(lining.believed, lining, axle, history, road),
    ),
    rotors: SIDES.map((side) =>
      counterpartTracks(
        counterpartLives(history, road, axle, side),
        side,
        isDrumBrake(history, axle) ? 'wider' : 'thinner',
        road,
      ),
    ),
  };
}
