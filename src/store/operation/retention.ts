import { OPERATOR } from '../contract/caller.js';
import type { Pruned, RetentionStore } from '../contract/retention.js';
import type { Rules, StoreParts } from '../parts.js';
import { eraseVehicle } from './erasing.js';

export const retentionStore = ({ changeHistory, rewrite }: StoreParts): RetentionStore => ({
  erase: (vehicleId) => changeHistory((own) => eraseVehicle(own, vehicleId)),
  prune: (before) => changeHistory((own) => pruneBefore(own, before)),
  vacuum: rewrite,
});

async function pruneBefore({ rows, versions }: Rules, before: string): Promise<Pruned> {
  const removed = await rows.history.prune(before);
  await versions.note(OPERATOR, {
    action: 'pruned',
    resource: 'audit',
    resourceId: before,
    detail: `${removed.audit} audit entries, ${removed.visitVersions} versions of visits, ${removed.vehicleVersions} of vehicles`,
  });
  return removed;
}
