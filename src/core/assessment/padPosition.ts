import type { UsagePosterior } from '../forecast/usagePosterior.js';
import type { PartTracks } from '../forecast/wear.js';
import type { History } from '../history.js';
import { isDrumBrake, padLives, type Life, type Observation } from '../lives.js';
import type { Road } from '../odometer.js';
import { toMm } from '../units.js';
import type { Reason } from '../vocabulary/quantities.js';
import { SIDES, type Axle, type LiningPosition, type Side } from '../vocabulary/terms.js';
import type { PadSpec } from '../vocabulary/vehicle.js';
import type { Limit } from '../vocabulary/wear.js';
import { padLimits, type ShopMinimum } from './limits.js';
import type { RuleSet } from './ruleSets.js';
import { standingFailure, type StandingFailure } from './standing.js';
import { shortLiningTracks } from './tracks.js';
import { axleFacts } from './whichRules.js';

export interface AxleContext {
  history: History;
  road: Road;
  usage: UsagePosterior;
  daysToNextVisit: number;
  /** The rule sets and the least thickness of pads that the shop's owner picked. */
  ruleSets: readonly RuleSet[];
  padMinimum: ShopMinimum | null;
}

/** One pad position with all that the assessment needs of it. */
export interface PadPosition {
  side: Side;
  pad: LiningPosition;
  lives: Life<PadSpec>[];
  /** The lives as the filter takes them. */
  tracks: PartTracks;
  present: Life<PadSpec>;
  latest: Observation | null;
  limits: Limit[];
  /** What was not known when the limits were found. */
  limitReasons: Reason[];
  governing: Limit | null;
  /** A failing reading that no later one has overruled, where the latest does not fail itself. */
  standing: StandingFailure | null;
}

/** What the linings of an axle are forecast from. */
export type LiningContext = Pick<AxleContext, 'history' | 'road' | 'usage' | 'ruleSets' | 'padMinimum'>;

/** Visits at which one side alone was measured from which on the axle is taken to have a brake on that side alone. */
const VISITS_OF_ONE_SIDE = 2;

/** The sides of an axle that have a brake: one alone where nobody ever measured, or worked on, the other. */
export function sidesOf({ visits }: History, axle: Axle): readonly Side[] {
  const measured = visits.map(({ readings, conditions, work }) =>
    SIDES.filter((side) =>
      [...readings, ...conditions, ...work].some(
        (item) => item.axle === axle && (item.side ?? side) === side,
      ),
    ),
  );
  const seen = measured.filter((sides) => sides.length > 0);
  const only = SIDES.find((side) => seen.every((sides) => sides.length === 1 && sides[0] === side));
  return only && seen.length >= VISITS_OF_ONE_SIDE ? [only] : SIDES;
}

export function padPosition(
  context: LiningContext,
  axle: Axle,
  side: Side,
  pad: LiningPosition,
  placementSdMm: number,
): PadPosition {
  const { history, road, ruleSets, padMinimum } = context;
  const lives = padLives(history, road, axle, side, pad);
  const present = lives.at(-1)!;
  const latest = present.observations.at(-1) ?? null;
  const facts = axleFacts(history.vehicle, axle);
  const drum = isDrumBrake(history, axle);
  const { limits, reasons } = padLimits(present.spec, latest, {
    part: drum ? 'shoe' : 'pad',
    facts,
    ruleSets,
    placementSdMm,
    // The shop's own figure is for pads; shoes are thinner from new.
    shopMinimum: drum ? null : padMinimum,
  });
  return {
    side,
    pad,
    lives,
    tracks: shortLiningTracks(lives, pad, side, axle, history, road),
    present,
    latest,
    limits,
    limitReasons: reasons,
    governing: limits[0] ?? null,
    standing: limits[0]
      ? standingFailure(present.observations, {
          bound: limits[0],
          placementSdMm,
          newMm: present.spec.new ? toMm(present.spec.new) : null,
        })
      : null,
  };
}
