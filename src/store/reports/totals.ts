import { group } from 'd3-array';
import { AXLES, type GroupBy } from '../../core/vocabulary/terms.js';
import type { DueSoonQuery, DueTotals } from '../contract/reports.js';
import type { ForecastRow, Tally } from '../engine/contract/reports.js';
import { groupOf, isOverdue } from './axles.js';

/** Totals of due axles. */

export function tallyOf(row: ForecastRow, query: DueSoonQuery): Tally {
  const overdueCount = Number(isOverdue(row, query));
  return { group: groupOf(row, query), axle: row.outlook.axle, total: 1, overdueCount };
}

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
