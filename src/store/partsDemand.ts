import { and, eq, sql, type SQL } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import {
  demandTally,
  lastDayOf,
  liningChances,
  monthsFrom,
  rotorChances,
  type Brake,
} from '../core/planning/demand.js';
import type { Axle } from '../core/vocabulary/terms.js';
import type { Database } from './database.js';
import { countUnassessed, inFleet, inService } from './reportConditions.js';
import { axleOutlooks, vehicles } from './schema.js';
import type { PartsDemandItem, PartsDemandQuery, ReportStore, Scope } from './store.js';

/** Axles read at a time; other requests are answered in between. */
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
  /** Axles that may need something by a date, in the order of the table, behind one of them. */
  function batch(where: SQL | undefined, after: { seq: number; axle: string }) {
    return database
      .select({
        seq: axleOutlooks.vehicleSeq,
        axle: axleOutlooks.axle,
        fleet: axleOutlooks.fleet,
        model: vehicles.model,
        brake,
        crossing: axleOutlooks.crossing,
        asAtDate: axleOutlooks.asAtDate,
        failing: axleOutlooks.failing,
        rotorChance: axleOutlooks.rotorChance,
        rotorsNow: axleOutlooks.rotorsNow,
      })
      .from(axleOutlooks)
      .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
      .where(
        and(sql`(${axleOutlooks.vehicleSeq}, ${axleOutlooks.axle}) > (${after.seq}, ${after.axle})`, where),
      )
      .orderBy(axleOutlooks.vehicleSeq, axleOutlooks.axle)
      .limit(BATCH)
      .all();
  }

  return async (scope: Scope, { today, months, fleet }: PartsDemandQuery) => {
    const names = monthsFrom(today, months);
    const ends = names.map(lastDayOf);
    // One pass along the primary key; the plus keeps the planner from searching another index once a batch.
    const needing = and(
      sql`(+${axleOutlooks.firstDate} <= ${ends.at(-1)!} or ${axleOutlooks.failing} or ${axleOutlooks.rotorsNow})`,
      inFleet(scope, fleet),
      inService(today),
    );
    const byKind = demandTally<Kind>(names);
    const inAll = demandTally<{ brake: Brake }>(names);
    let axles = 0;
    let rotorsUnknown = 0;
    let after = { seq: 0, axle: '' };
    for (let rows = batch(needing, after); rows.length > 0; rows = batch(needing, after)) {
      for (const row of rows) {
        const { fleet: ofFleet, model, axle } = row;
        const linings = liningChances(row, ends);
        const rotors = rotorChances(row, linings);
        axles += 1;
        if (row.rotorChance === null && !row.rotorsNow) rotorsUnknown += 1;
        const kind = { fleet: ofFleet, model, axle, brake: row.brake };
        byKind.takeIn(JSON.stringify(Object.values(kind)), kind, linings, rotors);
        inAll.takeIn(row.brake, { brake: row.brake }, linings, rotors);
      }
      after = rows.at(-1)!;
      await setImmediate();
    }
    return {
      items: byKind
        .demands()
        .map(({ brake: _, ...item }) => item)
        .sort(byMonthAndKind),
      totals: inAll.demands().map(({ brake: _, ...total }) => total),
      axles,
      rotorsUnknownCount: rotorsUnknown,
      unassessedCount: countUnassessed(database, scope, { today, fleet }),
    };
  };
}

const SORTED_BY = ['month', 'fleet', 'model', 'axle', 'item'] as const;

/** What has no fleet or model comes first. */
function byMonthAndKind(a: PartsDemandItem, b: PartsDemandItem): number {
  for (const name of SORTED_BY) {
    const [one, other] = [a[name] ?? '', b[name] ?? ''];
    if (one !== other) return one < other ? -1 : 1;
  }
  return 0;
}
