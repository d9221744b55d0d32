import type { CounterpartDue } from '../../../core/assessment/dueParts.js';
import type { Outlook } from '../../../core/assessment/outlookShape.js';
import type { Crossing } from '../../../core/forecast/crossing.js';
import type { Reason } from '../../../core/vocabulary/quantities.js';
import type { Axle, DuePart, LiningNames, LiningPosition, Side } from '../../../core/vocabulary/terms.js';
import type { StopFinding } from '../../../core/vocabulary/wear.js';

/** What an outlook was computed with. */
export interface OutlookSource {
  /** 0 means the starting values. */
  experienceVersion: number;
  /** -1 if written by an earlier program. */
  settingsRevision: number;
  /** The program that computed it (`programDigest`). */
  program: string;
}

/** The columns of an axle's outlook that reports query. */
export interface AxleOutlookRow {
  vehicleSeq: number;
  axle: Axle;
  /** Copied from the vehicle, as are the next two. */
  fleet: string | null;
  model: string | null;
  outOfServiceDate: string | null;
  asAtDate: string | null;
  /** The part with the soonest early date; the dates below are for this part. */
  part: DuePart | null;
  /** The first date on which the chance of any part reaches the minimum worth naming (0.1 %). */
  firstDate: string | null;
  earlyDate: string | null;
  medianDate: string | null;
  lateDate: string | null;
  /** Whether a reading of a lining fails its limit. */
  failing: boolean;
  /** Date from which any part is overdue; before any real date if a reading fails its limit. */
  overdueFrom: string | null;
  /** Of the linings. */
  crossing: Crossing | null;
  /** The forecast of the rotors or drums; null if none. */
  counterpart: CounterpartDue | null;
  /** Whether the linings are pads or shoes; null in rows of earlier versions. */
  linings: LiningNames | null;
  governingSide: Side | null;
  governingPad: LiningPosition | null;
  limitMm: number | null;
  limitSource: string | null;
  lastReadingDate: string | null;
  /** Chance that rotors or drums are replaced with the next set of linings; null if unknown. */
  rotorChance: number | null;
  /** Whether they must be replaced now, whatever the state of the linings. */
  rotorsNow: boolean;
  /** Why there is no forecast; null if there is one. */
  unassessed: Reason | null;
  /** Its stop findings; null if none. Never includes their words, which quote notes of visits. */
  stops: StopFinding[] | null;
  /** Date from which it should be measured before planning; null if its dates are close enough together. */
  measureDate: string | null;
  /** Expected date of the vehicle's next visit; null if it never had one. */
  expectedDate: string | null;
  /** When the reported columns last changed. */
  changedAt: string;
}

/** The columns that reports show; other columns may be rewritten without counting as a change. */
export const REPORTED_COLUMNS = [
  'asAtDate',
  'crossing',
  'counterpart',
  'failing',
  'governingSide',
  'governingPad',
  'limitMm',
  'limitSource',
  'lastReadingDate',
  'unassessed',
] as const satisfies (keyof AxleOutlookRow)[];

/** A vehicle's outlook, its prepared wear answer, and the columns of its axles. */
export interface NewOutlook extends OutlookSource {
  vehicleSeq: number;
  body: Outlook;
  /** The wear answer: the inputs that depend on the date, and the rest. */
  answer: { open: object; text: string };
  /** A row keeps the time of its last change unless a column of `REPORTED_COLUMNS` has changed. */
  axles: Omit<AxleOutlookRow, 'vehicleSeq'>[];
  /** Whether the scores of the vehicle's past forecasts become stale with it. */
  expiresScores: boolean;
}

/** A prepared wear answer: the inputs that depend on the date as JSON, and the rest as bytes to send. */
export interface ReadyAnswer {
  open: string;
  text: Buffer;
}

/** The experience, settings and program in force. */
export interface InForce {
  version: number;
  revision: number;
  program: string;
}

/** One process's place, from 0, among several that share the recomputation. */
export interface Share {
  index: number;
  of: number;
}

export interface OutlookRows {
  /** Null for a record that was merged into another. */
  find(vehicleSeq: number): Promise<Outlook | null>;
  ofVehicle(
    vehicleId: string,
  ): Promise<
    ({ seq: number; fleet: string | null; body: Outlook } & Omit<OutlookSource, 'experienceVersion'>) | null
  >;
  /** A vehicle's prepared wear answer, if it comes from a program and the settings in force. */
  ready(vehicleId: string, program: string): Promise<ReadyAnswer | null>;
  /** Replaces a vehicle's outlook and everything that follows from it. */
  put(outlook: NewOutlook): Promise<void>;
  /** Removes what `put` wrote, except for the scores. */
  remove(vehicleSeq: number): Promise<void>;
  /** Outlooks from another experience, other settings or another program. */
  stale(
    inForce: InForce,
    share: Share,
    limit: number,
  ): Promise<({ vehicleSeq: number } & Omit<OutlookSource, 'experienceVersion'>)[]>;
  countStale(inForce: InForce): Promise<number>;
}
