import { parseArgs } from 'node:util';
import { countInWords } from '../core/words.js';
import { withStore } from './withStore.js';

/**
 * `npm run prune`: removes audit entries and superseded versions older than the policy's `retentionYears`, or the given
 * years, then rewrites the file.
 */
const USAGE = `Usage:
  prune              removes audit entries and superseded versions older than the policy's retentionYears
  prune -- --years N   the same, older than N years`;

await withStore(USAGE, async (store, args) => {
  const { values } = parseArgs({ args, options: { years: { type: 'string' } } });
  const years =
    values.years === undefined ? (await store.settings.policy()).body.retentionYears : Number(values.years);
  if (years === null)
    throw new Error(
      'the policy keeps audit entries and old versions for good; set its retentionYears, or give --years N',
    );
  if (!Number.isInteger(years) || years < 1) return null;
  const before = new Date();
  before.setUTCFullYear(before.getUTCFullYear() - years);
  const { audit, visitVersions, vehicleVersions } = await store.retention.prune(before.toISOString());
  await store.retention.vacuum();
  const removed = [
    countInWords(audit, 'audit entry', 'audit entries'),
    countInWords(visitVersions, 'version of a visit', 'versions of visits'),
    countInWords(vehicleVersions, 'version of a vehicle', 'versions of vehicles'),
  ];
  return `removed from before ${before.toISOString()}: ${removed.join(', ')}`;
});
