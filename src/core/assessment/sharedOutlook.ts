import type { Gauges } from '../gauges.js';
import type { History } from '../history.js';
import type { Axle } from '../vocabulary/terms.js';
import { axlesOf, outlookInParts, type OutlookInParts } from './outlook.js';
import type { AxleOutlook, Outlook } from './outlookShape.js';
import type { Policy } from './policy.js';
import { experienceOf, type KnownExperience } from './whichExperience.js';

/** The inputs of an outlook other than the history. All vehicles share these objects until one of them changes. */
export interface Basis {
  known: KnownExperience;
  policy: Policy;
  gauges: Gauges;
}

/** Axles of one vehicle, for a worker to compute. */
export interface AxlesJob {
  basis: Basis;
  history: History;
  axles: readonly Axle[];
}

export interface AxlesResult {
  axles: AxleOutlook[];
  /** The vehicle's whole outlook, if the job was for all its axles; otherwise null. */
  outlook: Outlook | null;
}

/**
 * Offloads the computation of axles.
 *
 * @returns null if no worker is free; a promise of null if the computation failed
 */
export type WorkElsewhere = (job: AxlesJob) => Promise<AxlesResult | null> | null;

/** Computes a job; runs on the worker. */
export function computeAxles({ basis, history, axles }: AxlesJob): AxlesResult {
  const { axle, whole } = partsOf(history, basis);
  const outlooks = axles.map(axle);
  return { axles: outlooks, outlook: axles.length === axlesOf(history).length ? whole(outlooks) : null };
}

const partsOf = (history: History, { known, policy, gauges }: Basis): OutlookInParts =>
  outlookInParts({ ...history, gauges }, experienceOf(history.vehicle, known), policy);

/**
 * Computes an outlook like {@link import('./outlook.js').outlookFor}, offloading half of its axles if a worker is free.
 *
 * @param isAwaited whether other callers are waiting; if so, the whole outlook is offloaded, to free this thread
 */
export async function sharedOutlook(
  history: History,
  basis: Basis,
  elsewhere: WorkElsewhere,
  isAwaited: boolean,
): Promise<Outlook> {
  const axles = axlesOf(history);
  const ownCount = isAwaited ? 0 : Math.ceil(axles.length / 2);
  const offloaded = axles.slice(ownCount);
  const result = offloaded.length > 0 ? elsewhere({ basis, history, axles: offloaded }) : null;
  const complete = ownCount === 0 ? await result : null;
  if (complete?.outlook) return complete.outlook;
  const { axle, whole } = partsOf(history, basis);
  const own = axles.slice(0, ownCount).map(axle);
  return whole([...own, ...((await result)?.axles ?? offloaded.map(axle))]);
}
