import { conflictIn } from '../../core/odometerConflict.js';
import type { History } from '../../core/history.js';
import type { Issue } from '../../core/refusal.js';
import { misfits } from '../../core/visitRules.js';
import type { Axle } from '../../core/vocabulary/terms.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';

/** Errors if a change to a vehicle contradicts visits already recorded. */
export function historyIssues({ vehicle, visits }: History, before: VehicleBody): Issue[] {
  const issues: Issue[] = [];
  const first = visits[0];
  if (first && vehicle.inService && vehicle.inService.date > first.date) {
    issues.push({
      path: ['inService', 'date'],
      detail: `a visit on ${first.date} (${first.id}) is before this date`,
    });
  } else if (conflictIn({ vehicle, visits })) {
    issues.push({
      path: ['inService', 'odometer'],
      detail: 'a recorded visit has an odometer reading below this one',
    });
  }
  return [...issues, ...axleIssues({ vehicle, visits }, before)];
}

/**
 * Errors if a change removes an axle, or changes its kind of brake, while visits refer to it: those visits could not be
 * sent again unchanged. Existing contradictions do not count against the change.
 */
function axleIssues({ vehicle, visits }: History, before: VehicleBody): Issue[] {
  return (Object.keys(before.axles) as Axle[]).flatMap((axle): Issue[] => {
    const changed = { ...before, axles: { ...before.axles, [axle]: vehicle.axles[axle] } };
    const first = visits.find((visit) => misfits(changed, visit).length > misfits(before, visit).length);
    if (!first) return [];
    const where = `the visit on ${first.date} (${first.id})`;
    if (!vehicle.axles[axle])
      return [
        {
          path: ['axles', axle],
          detail: `${where} has entries for this axle, so the axle cannot be removed`,
        },
      ];
    const brake = before.axles[axle]!.brake ?? 'disc';
    const detail = `${where} has entries for a ${brake} brake on this axle; correct or void it before you change the brake`;
    return [{ path: ['axles', axle, 'brake'], detail }];
  });
}
