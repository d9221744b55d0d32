import type { OutcomeStore } from '../contract/idempotency.js';
import type { StoreParts } from '../parts.js';

export function outcomeStore({ reading, write }: StoreParts): OutcomeStore {
  return {
    find: (key) => reading.rows.outcomes.find(key),
    async keep(keyed, outcome) {
      await write((own) => own.outcomes.add(keyed, outcome));
    },
    forget: (key) => write((own) => own.outcomes.remove(key)),
  };
}
