import type { Policy } from '../core/assessment/outlook.js';
import type { Database } from './database.js';
import type { HistoryReader } from './history.js';
import type { OutlookWriter } from './outlooks.js';
import type { Keep } from './store.js';

/** What the parts of the store share. */
export interface StoreParts {
  database: Database;
  clock: () => Date;
  /** Today's date in the shop's time zone. */
  today: () => string;
  policy: Policy;
  /** Runs a whole write in one transaction that takes the writer's lock at once, when its turn has come. */
  write: <Result>(work: () => Result) => Promise<Result>;
  history: HistoryReader;
  writeOutlook: OutlookWriter;
  /** Keeps the answer to an Idempotency-Key, within the running transaction. */
  keepAnswer: <Result>(keep: Keep<Result> | null, result: Result) => void;
}
