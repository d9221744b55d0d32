import { itemAt } from '../items.js';
import type { Range, Reason } from '../vocabulary/quantities.js';
import type { LimitSource, LiningName, LiningNames, PadSet, Side } from '../vocabulary/terms.js';
import type { DateInterval, DecisionReason, Finding, RotorWear, UntilNextVisit } from '../vocabulary/wear.js';
import type { LiningAt } from './linings.js';
import type { AxleOutlook, RotorOutlook } from './outlookShape.js';

/** The facts that an axle's advice is composed from. */

/** One lining against its governing limit. */
export interface LiningFact extends LiningAt {
  limitMm: number;
  source: LimitSource;
  fails: boolean;
  latest: { valueMm: number; date: string } | null;
}

/** One rotor or drum. */
export interface CounterpartFact {
  side: Side;
  decision: RotorWear['decision'];
  /** The most important reason. */
  reason: DecisionReason;
  marginMm: number | null;
  /** Median margin when the linings are due. */
  marginThenMm: number | null;
  /** Thinnest point of a rotor, largest diameter of a drum, as last measured. */
  latest: { valueMm: number; date: string } | null;
  limitMm: number | null;
}

/** The facts behind an axle's advice that do not change from day to day. */
export interface AdviceFacts {
  linings: LiningNames;
  part: 'rotors' | 'drums';
  set: PadSet;
  fitted: string | null;
  /** The lining expected to be the first at its limit. */
  governing: LiningFact | null;
  /** Linings that fail their limit or are too close to it to tell, worst first. */
  beyond: LiningFact[];
  counterparts: CounterpartFact[];
  /** Why there is no date; null if there is one. */
  noDate: Reason | null;
}

/** `shoe` for an axle with drums, `pad` for any other. */
export const liningName = ({ drums }: { drums: readonly unknown[] }): LiningName =>
  drums.length > 0 ? 'shoe' : 'pad';

export function adviceFacts({ pads, replacement, rotors, drums }: AxleOutlook): AdviceFacts {
  const { governingPad, basis, reasons } = replacement;
  const known = pads.flatMap(({ side, pad, limits, latest }) => {
    const limit = limits.find(({ governs }) => governs);
    if (!limit) return [];
    const { limitMm, source, conformity } = limit;
    const lining: LiningFact = { side, pad, limitMm, source, fails: limit.fails === true, latest };
    return [{ lining, isBeyond: lining.fails || (conformity !== null && conformity !== 'conforms') }];
  });
  const isGoverning = ({ side, pad }: LiningFact) => side === governingPad?.side && pad === governingPad.pad;
  return {
    linings: `${liningName({ drums })}s`,
    part: drums.length > 0 ? 'drums' : 'rotors',
    set: basis.set,
    fitted: pads.find(({ fitted }) => fitted)?.fitted?.date ?? null,
    governing: known.find(({ lining }) => isGoverning(lining))?.lining ?? null,
    beyond: known
      .filter(({ isBeyond }) => isBeyond)
      .map(({ lining }) => lining)
      .sort((a, b) => aboveLimit(a) - aboveLimit(b)),
    counterparts: [
      ...rotors.map((rotor) =>
        counterpartFact(rotor, {
          then: rotor.marginAtPadReplacementMm,
          extremeMm: rotor.thinnestMm,
          limitMm: rotor.discardMm,
        }),
      ),
      ...drums.map((drum) =>
        counterpartFact(drum, {
          then: drum.marginAtShoeReplacementMm,
          extremeMm: drum.largestMm,
          limitMm: drum.maximumMm,
        }),
      ),
    ],
    noDate: reasons.find(({ field }) => field === 'date') ?? null,
  };
}

export const aboveLimit = ({ latest, limitMm }: LiningFact): number =>
  (latest?.valueMm ?? Infinity) - limitMm;

function counterpartFact(
  {
    side,
    decision,
    decisionReasons,
    marginMm,
    latestDate,
  }: Pick<RotorOutlook, 'side' | 'decision' | 'decisionReasons' | 'marginMm' | 'latestDate'>,
  { then, extremeMm, limitMm }: { then: Range | null; extremeMm: number | null; limitMm: number | null },
): CounterpartFact {
  return {
    side,
    decision,
    reason: itemAt(decisionReasons, 0),
    marginMm,
    marginThenMm: then?.median ?? null,
    latest: extremeMm !== null && latestDate !== null ? { valueMm: extremeMm, date: latestDate } : null,
    limitMm,
  };
}

/** The facts of an axle that depend on the date. */
export interface AdviceDay {
  today: string;
  /** The latest visit; forecasts count from its date. */
  asAtDate: string | null;
  /** When the linings, and the first rotor or drum, reach their limit; null without a forecast. */
  liningDates: DateInterval | null;
  counterpartDates: DateInterval | null;
  overdue: boolean;
  untilNextVisit: UntilNextVisit;
  /** Chance that the limit of the linings has been reached by today. */
  chanceToday: number | null;
  /** Chance that the first rotor or drum reaches its limit by the next visit. */
  counterpartChance: number | null;
  /** Includes the findings that depend on the date. */
  findings: readonly Finding[];
  /** Whether to measure first: the last reading is too old, or the dates are too far apart to plan by. */
  measureFirst: boolean;
  /** Days from today within which work counts as due if the next visit is unknown. */
  dueSoonDays: number;
}
