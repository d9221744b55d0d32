import type { UsagePosterior } from '../forecast/usagePosterior.js';
import type { PartTracks } from '../forecast/wear.js';
import type { History } from '../history.js';
import { liningNameOf, type Life, type Observation } from '../lives.js';
import type { Road } from '../odometer.js';
import { toMm } from '../units.js';
import type { Reason } from '../vocabulary/quantities.js';
import type { Axle, LiningName } from '../vocabulary/terms.js';
import type { PadSpec } from '../vocabulary/vehicle.js';
import type { Limit } from '../vocabulary/wear.js';
import { padLimits, type ShopMinimum } from './limits.js';
import type { LiningAt } from './linings.js';
import type { RuleSet } from './ruleSets.js';
import type { LivedLining, SameDay } from './sameDay.js';
import { standingFailure, type StandingFailure } from './standing.js';
import { shortLiningTracks } from './tracks.js';
import { axleFacts } from './whichRules.js';

export interface AxleContext {
  history: History;
  road: Road;
  usage: UsagePosterior;
  daysToNextVisit: number;
  /** The rule sets and the minimum pad thickness that the shop's owner selected. */
  ruleSets: readonly RuleSet[];
  padMinimum: ShopMinimum | null;
}

/** One pad position with everything the assessment needs. */
export interface PadPosition extends LiningAt {
  lining: LiningName;
  /** The lives with readings as the forecast uses them; `present` has them as recorded. */
  lives: Life<PadSpec>[];
  /** The lives in the form the filter takes. */
  tracks: PartTracks;
  present: Life<PadSpec>;
  latest: Observation | null;
  sameDay: SameDay | null;
  limits: Limit[];
  /** The unknown facts behind the limits. */
  limitReasons: Reason[];
  governing: Limit | null;
  /**
   * A reading under the governing limit, or of bare metal if no limit is known, that no later one has overruled; null
   * if the latest reading itself fails.
   */
  standing: StandingFailure | null;
  /** The same for each other limit that the latest reading passes. */
  standingOfOthers: { limit: Limit; failure: StandingFailure }[];
}

/** Usable wear of a new lining whose thickness is unknown, mm (common practice, no source). */
const USUAL_USABLE_MM = 8;
/** Without a known limit, only bare metal fails. */
const BARE_METAL: Pick<Limit, 'limitMm' | 'failsAt'> = { limitMm: 0, failsAt: 'at-or-below' };

/** The inputs of an axle's lining forecast. */
export type LiningContext = Pick<AxleContext, 'history' | 'road' | 'usage' | 'ruleSets' | 'padMinimum'>;

/** A lining that was measured since it was fitted. */
export type MeasuredPad = PadPosition & { latest: Observation };

export const isMeasured = (position: PadPosition | undefined): position is MeasuredPad =>
  position !== undefined && position.latest !== null;

export function padPosition(
  context: LiningContext,
  axle: Axle,
  { side, pad, recorded, believed, sameDay }: LivedLining,
  placementSdMm: number,
): PadPosition {
  const { history, road, ruleSets, padMinimum } = context;
  const present = recorded.at(-1)!;
  const latest = present.observations.at(-1) ?? null;
  const facts = axleFacts(history.vehicle, axle);
  const lining = liningNameOf(history, axle);
  const { limits, reasons } = padLimits(present.spec, latest, {
    part: lining,
    facts,
    ruleSets,
    placementSdMm,
    // The shop's own minimum is for pads; shoes are thinner even when new.
    shopMinimum: lining === 'shoe' ? null : padMinimum,
  });
  const standing = ({ limitMm, failsAt }: Pick<Limit, 'limitMm' | 'failsAt'>) =>
    standingFailure(present.observations, {
      wears: 'thinner',
      limitMm,
      failsAtLimit: failsAt === 'at-or-below',
      placementSdMm,
      usableMm: present.spec.new ? toMm(present.spec.new) - limitMm : USUAL_USABLE_MM,
    });
  return {
    side,
    pad,
    lining,
    lives: believed,
    tracks: shortLiningTracks(believed, { side, pad }, axle, history, road),
    present,
    latest,
    sameDay,
    limits,
    limitReasons: reasons,
    governing: limits[0] ?? null,
    standing: standing(limits[0] ?? BARE_METAL),
    standingOfOthers: limits.slice(1).flatMap((limit) => {
      const failure = standing(limit);
      return failure ? [{ limit, failure }] : [];
    }),
  };
}
