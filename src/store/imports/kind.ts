import type { Import } from '../../core/vocabulary/import.js';
import { OPERATOR, type Caller } from '../contract/caller.js';
import type { Stage } from '../engine/contract/stage.js';
import type { ComputedOutlook } from '../outlooks/outlooks.js';
import type { Rules, StoreParts } from '../parts.js';

/** The vehicles have changed since the rows were checked, and some rows are now in error. */
export class Refused extends Error {}

export interface Job {
  report: Import;
  stage: Stage<ComputedOutlook>;
  /** Lets other requests run if it is time. */
  yieldIfDue: () => Promise<void>;
}

/** The operations for one kind of file: reading and checking it, and writing its contents. */
export interface Kind<Row> {
  take(job: Job, rows: Row[]): Promise<void>;
  check(job: Job): Promise<void>;
  forecast(job: Job): Promise<void>;
  /** Within a transaction. */
  write(own: Rules, job: Job): Promise<void>;
}

export type MakeKind<Row> = (parts: StoreParts) => Kind<Row>;

/** The sender of a file; staff see every fleet. */
export const senderOf = ({ by }: Import): Caller => ({ ...OPERATOR, keyName: by });
