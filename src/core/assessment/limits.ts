import type { Observation } from '../lives.js';
import { toMm } from '../units.js';
import type { PadSpec } from '../vocabulary/vehicle.js';
import type { Limit } from '../vocabulary/wear.js';
import { conformityAbove } from './conformity.js';

type Bound = Pick<Limit, 'source' | 'rule' | 'limitMm' | 'failsAt'>;

/** The limits a pad's own specification sets, the greatest first. */
function boundsOf(spec: PadSpec): Bound[] {
  const bounds: Bound[] = [];
  if (spec.limit) {
    const rule = 'least thickness in the vehicle’s or part’s specification';
    bounds.push({ source: 'maker', rule, limitMm: toMm(spec.limit), failsAt: 'at-or-below' });
  }
  if (spec.wearIndicator) {
    const kind = spec.wearIndicator.type ? `${spec.wearIndicator.type} ` : '';
    const rule = `thickness at which the ${kind}wear indicator speaks`;
    bounds.push({
      source: 'wear-indicator',
      rule,
      limitMm: toMm(spec.wearIndicator),
      failsAt: 'at-or-below',
    });
  }
  return bounds.sort(bySeverity);
}

/** The greatest limit governs; at equal ones the one that fails at the figure itself. */
function bySeverity(a: Bound, b: Bound): number {
  return b.limitMm - a.limitMm || Number(b.failsAt === 'at-or-below') - Number(a.failsAt === 'at-or-below');
}

/** Every limit that applies to a pad, judged by its latest reading; the first governs. */
export function padLimits(spec: PadSpec, latest: Observation | null): Limit[] {
  return boundsOf(spec).map((bound, index) => ({
    ...bound,
    fails: latest === null ? null : fails(latest.mm, bound),
    conformity:
      latest === null ? null : conformityAbove(latest.mm, bound.limitMm, latest.gauge.standardUncertaintyMm),
    governs: index === 0,
  }));
}

function fails(mm: number, { limitMm, failsAt }: Bound): boolean {
  return failsAt === 'at-or-below' ? mm <= limitMm : mm < limitMm;
}
