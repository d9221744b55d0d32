import type { Gauges } from '../gauges.js';
import type { History } from '../history.js';
import type { Axle } from '../vocabulary/terms.js';
import { axlesOf, outlookInParts, type OutlookInParts } from './outlook.js';
import type { AxleOutlook, Outlook } from './outlookShape.js';
import type { Policy } from './policy.js';
import { experienceOf, type KnownExperience } from './whichExperience.js';

/** What outlooks rest on beside a history: the same objects from one vehicle to the next until one of them changes. */
export interface Basis {
  known: KnownExperience;
  policy: Policy;
  gauges: Gauges;
}

/** Axles of one vehicle, to be worked out apart from its others. */
export interface AxlesJob {
  basis: Basis;
  history: History;
  axles: readonly Axle[];
}

/**
 * Has axles worked out by somebody else.
 *
 * @returns null where nobody is free to; a promise of null where it has come to nothing
 */
export type WorkElsewhere = (job: AxlesJob) => Promise<AxleOutlook[] | null> | null;

/** What somebody else does for a job. */
export const axlesOutOf = ({ basis, history, axles }: AxlesJob): AxleOutlook[] =>
  axles.map(partsOf(history, basis).axle);

const partsOf = (history: History, { known, policy, gauges }: Basis): OutlookInParts =>
  outlookInParts({ ...history, gauges }, experienceOf(history.vehicle, known), policy);

/**
 * Works an outlook out as {@link import('./outlook.js').outlookFor} does, half of its axles elsewhere where somebody is
 * free to.
 *
 * @param isAwaited whether others wait for whoever asks: then the odd axle is had elsewhere too, else it is not worth it
 */
export async function sharedOutlook(
  history: History,
  basis: Basis,
  elsewhere: WorkElsewhere,
  isAwaited: boolean,
): Promise<Outlook> {
  const axles = axlesOf(history);
  const kept = isAwaited ? Math.floor(axles.length / 2) : Math.ceil(axles.length / 2);
  const given = axles.slice(kept);
  const helped = given.length > 0 ? elsewhere({ basis, history, axles: given }) : null;
  const { axle, whole } = partsOf(history, basis);
  const own = axles.slice(0, kept).map(axle);
  return whole([...own, ...((await helped) ?? given.map(axle))]);
}
