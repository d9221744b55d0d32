import { and, between, eq, max, sql, type SQL } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import {
  demandTally,
  lastDayOf,
  liningChances,
  monthsFrom,
  rotorChances,
  type Brake,
} from '../../core/planning/demand.js';
import type { Axle } from '../../core/vocabulary/terms.js';
import type { Database } from '../engine/sqlite/connection.js';
import { inService, unassessedCounter } from '../engine/sqlite/reportConditions.js';
import { visibleTo } from '../engine/sqlite/visibility.js';
import { axleOutlooks, vehicles } from '../engine/sqlite/schema.js';
import type { Caller } from '../contract/caller.js';
import type { PartsDemandQuery, ReportStore } from '../contract/reports.js';

/** Vehicles read per batch; other requests are answered in between. */
const BATCH = 200;

const brake = sql<Brake>`case json_extract(${vehicles.body}, '$.axles."' || ${axleOutlooks.axle} || '".brake') when 'drum' then 'drum' else 'disc' end`;

/** Axles that are counted together. */
interface Kind {
  fleet: string | null;
  model: string | null;
  axle: Axle;
  brake: Brake;
}

export function partsDemandReader(database: Database): ReportStore['partsDemand'] {
  const countUnassessed = unassessedCounter(database);
  const lastSeq = database
    .select({ seq: max(axleOutlooks.vehicleSeq) })
    .from(axleOutlooks)
    .prepare();

  /** Axles of a range of vehicles, by order of arrival. */
  function axlesOf(from: number, to: number, where: SQL | undefined) {
    return database
      .select({
        axle: axleOutlooks.axle,
        fleet: axleOutlooks.fleet,
        model: vehicles.model,
        brake,
        crossing: axleOutlooks.crossing,
        asAtDate: axleOutlooks.asAtDate,
        failing: axleOutlooks.failing,
        counterpart: axleOutlooks.counterpart,
        rotorChance: axleOutlooks.rotorChance,
        rotorsNow: axleOutlooks.rotorsNow,
      })
      .from(axleOutlooks)
      .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
      .where(and(between(axleOutlooks.vehicleSeq, from, to), where))
      .all();
  }

  return async (caller: Caller, { today, months, fleet }: PartsDemandQuery) => {
    const names = monthsFrom(today, months);
    const ends = names.map(lastDayOf);
    // The unary plus keeps the planner on the primary key; any other index would be searched for every batch.
    const needing = and(
      sql`(+${axleOutlooks.firstDate} <= ${ends.at(-1)!} or ${axleOutlooks.failing} or ${axleOutlooks.rotorsNow})`,
      visibleTo(caller, axleOutlooks.fleet, fleet),
      inService(today),
    );
    const byKind = demandTally<Kind>(names);
    const inAll = demandTally<{ brake: Brake }>(names);
    let axles = 0;
    let rotorsUnknown = 0;
    const last = lastSeq.get()?.seq ?? 0;
    for (let from = 1; from <= last; from += BATCH) {
      for (const row of axlesOf(from, from + BATCH - 1, needing)) {
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
      unassessedCount: countUnassessed(caller, { today, fleet }),
    };
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
