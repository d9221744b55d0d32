import { parseArgs } from 'node:util';
import { countInWords } from '../core/words.js';
import { withStore } from './withStore.js';

/**
 * `npm run erase -- --vehicle ID`: erases one vehicle's personal data everywhere in the database, then rewrites the
 * file.
 */
const USAGE = `Usage:
  erase -- --vehicle ID   erases the names, notes, registration and VIN of a vehicle and its visits, for good`;

await withStore(USAGE, async (store, args) => {
  const { values } = parseArgs({ args, options: { vehicle: { type: 'string' } } });
  if (!values.vehicle) return null;
  const { records, visits, outcomes } = await store.retention.erase(values.vehicle);
  await store.retention.vacuum();
  const erased = [
    countInWords(records, 'record'),
    countInWords(visits, 'visit'),
    countInWords(outcomes, 'stored answer'),
  ];
  return `erased the personal data of ${values.vehicle}: ${erased.join(', ')}
Backups, copies named ….before-N and files exported before now still contain this data. Delete them yourself.`;
});
