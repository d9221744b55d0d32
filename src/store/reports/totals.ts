import { group } from 'd3-array';
import { AXLES, type GroupBy } from '../../core/vocabulary/terms.js';
import type { DueAxle, DueSoonQuery, DueTotals } from '../contract/reports.js';
import type { Tally } from '../engine/contract/reports.js';

/** Totals of due axles. */

export const tallyOf = (item: DueAxle, { groupBy }: DueSoonQuery): Tally => ({
  group: groupBy ? item[groupBy] : null,
  axle: item.axle,
  total: 1,
  overdueCount: Number(item.overdue),
});

/** @param tallies in the order of their groups */
export function totalsOf(
  tallies: readonly Tally[],
  groupBy: GroupBy | undefined,
): DueTotals & { groups: (DueTotals & { group: string | null })[] } {
  const groups = groupBy ? [...group(tallies, (tally) => tally.group)] : [];
  return { ...sumOf(tallies), groups: groups.map(([name, own]) => ({ group: name, ...sumOf(own) })) };
}

function sumOf(tallies: readonly Tally[]): DueTotals {
  const sum = (member: 'total' | 'overdueCount', of = tallies): number =>
    of.reduce((result, tally) => result + tally[member], 0);
  return {
    total: sum('total'),
    overdueCount: sum('overdueCount'),
    byAxle: AXLES.flatMap((axle) => {
      const own = tallies.filter((tally) => tally.axle === axle);
      return own.length === 0
        ? []
        : [{ axle, total: sum('total', own), overdueCount: sum('overdueCount', own) }];
    }),
  };
}
