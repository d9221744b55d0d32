import { setImmediate } from 'node:timers/promises';
import { itemAt } from '../../core/items.js';
import {
  demandTally,
  lastDayOf,
  liningChances,
  monthsFrom,
  rotorChances,
  type Brake,
} from '../../core/planning/demand.js';
import type { Axle } from '../../core/vocabulary/terms.js';
import { fleetsSeen, type Caller } from '../contract/caller.js';
import type { PartsDemand, PartsDemandQuery } from '../contract/reports.js';
import type { ReadingRules } from '../parts.js';

/** Vehicles read per batch; other requests are answered in between. */
const BATCH = 200;

/** Axles that are counted together. */
interface Kind {
  fleet: string | null;
  model: string | null;
  axle: Axle;
  brake: Brake;
}

export async function partsDemand(
  { rows: { reports } }: ReadingRules,
  caller: Caller,
  { today, months, fleet }: PartsDemandQuery,
): Promise<PartsDemand> {
  const names = monthsFrom(today, months);
  const ends = names.map(lastDayOf);
  const filter = { fleets: fleetsSeen(caller, fleet), today, axle: null };
  const byKind = demandTally<Kind>(names);
  const inAll = demandTally<{ brake: Brake }>(names);
  let axles = 0;
  let rotorsUnknown = 0;
  const last = await reports.lastVehicleSeq();
  for (let from = 1; from <= last; from += BATCH) {
    for (const row of await reports.mayNeedParts(filter, itemAt(ends, -1), from, from + BATCH - 1)) {
      const linings = liningChances(row, ends);
      const rotors = rotorChances(row, linings, ends);
      axles += 1;
      if (row.rotorChance === null && row.counterpart === null && !row.rotorsNow) rotorsUnknown += 1;
      const kind = { fleet: row.fleet, model: row.model, axle: row.axle, brake: row.brake };
      byKind.takeIn(JSON.stringify(Object.values(kind)), kind, linings, rotors);
      inAll.takeIn(row.brake, { brake: row.brake }, linings, rotors);
    }
    await setImmediate();
  }
  return {
    items: byKind
      .demands()
      .map(({ brake: _, ...item }) => item)
      .sort(byMonthAndKind),
    totals: inAll
      .demands()
      .map(({ brake: _, ...total }) => total)
      .sort(byMonthAndKind),
    axles,
    rotorsUnknownCount: rotorsUnknown,
    unassessedCount: await reports.countUnassessed(filter),
  };
}

const SORTED_BY = ['month', 'fleet', 'model', 'axle', 'item'] as const;

type Sorted = Partial<Record<(typeof SORTED_BY)[number], string | null>>;

/** Axles without a fleet or model come first. */
function byMonthAndKind(a: Sorted, b: Sorted): number {
  for (const name of SORTED_BY) {
    const [one, other] = [a[name] ?? '', b[name] ?? ''];
    if (one !== other) return one < other ? -1 : 1;
  }
  return 0;
}
