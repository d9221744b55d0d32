import { and, asc, count, eq, gt, isNull, type SQL } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import { pastForecastOf } from '../../core/accuracy/pastForecast.js';
import type { VehicleScores } from '../../core/accuracy/scores.js';
import { accuracyOf, type ScoredVehicle } from '../../core/accuracy/summary.js';
import type { PastForecast } from '../../core/vocabulary/accuracy.js';
import type { AccuracyQuery, AccuracyStore } from '../contract/accuracy.js';
import type { Caller } from '../contract/caller.js';
import { Damaged, StoreFault } from '../contract/faults.js';
import type { Page } from '../contract/paging.js';
import { forecastScores, vehicles } from '../engine/sqlite/schema.js';
import { visibleTo } from '../engine/sqlite/visibility.js';
import { pageOf } from '../paging.js';
import type { StoreParts } from '../parts.js';
import { pastFitter } from './pastFits.js';
import { scoringSample } from './sample.js';
import { areCurrent, forecastScorer } from './scoring.js';
import { Turn } from './turn.js';

/** Vehicles read at a time. */
const BATCH = 50;
/** How long a request scores pending vehicles before it is answered with what is available. */
const REQUEST_MS = 2500;

export function accuracyStore(parts: StoreParts): AccuracyStore {
  const { database } = parts;
  const { pendingOnes, scorePending } = forecastScorer(parts);
  const fitPast = pastFitter(parts);

  const matching = (caller: Caller, { fleet, model }: AccuracyQuery): SQL | undefined =>
    and(
      isNull(vehicles.mergedInto),
      visibleTo(caller, vehicles.fleet, fleet),
      model === null ? undefined : eq(vehicles.model, model),
    );

  /** The sampled vehicles among those that meet a condition, and the total. */
  function sampleOf(where: SQL | undefined): { where: SQL | undefined; of: number } {
    const { of } = database
      .select({ of: count() })
      .from(forecastScores)
      .innerJoin(vehicles, eq(vehicles.seq, forecastScores.vehicleSeq))
      .where(where)
      .get()!;
    return { where: and(where, scoringSample(of)), of };
  }

  return {
    async bringUpToDate() {
      await fitPast();
      await scorePending(sampleOf(isNull(vehicles.mergedInto)).where, Infinity);
    },

    async report(caller: Caller, query: AccuracyQuery, page: Page | null) {
      const { where, of } = sampleOf(matching(caller, query));
      // Scores that cannot be stored on a full disk stay pending and are reported so.
      await scorePending(where, performance.now() + REQUEST_MS).catch(rethrowUnlessOfStore);
      const scored: ScoredVehicle[] = [];
      const told: Told[] = [];
      let after = 0;
      for (;;) {
        const rows = database
          .select({ vehicle: vehicles, scores: forecastScores.scores })
          .from(forecastScores)
          .innerJoin(vehicles, eq(vehicles.seq, forecastScores.vehicleSeq))
          .where(and(areCurrent, gt(vehicles.seq, after), where))
          .orderBy(asc(vehicles.seq))
          .limit(BATCH)
          .all();
        for (const { vehicle, scores } of rows) {
          const ofAxle = onAxle(scores!, query.axle);
          scored.push({ model: vehicle.model, scores: ofAxle });
          told.push(...toldOf(vehicle, ofAxle));
        }
        if (rows.length < BATCH) break;
        after = rows.at(-1)!.vehicle.seq;
        await setImmediate();
      }
      told.sort((a, b) => latestFirst(a.key, b.key));
      const rest = page?.after ? told.filter(({ key }) => latestFirst(key, page.after as Key) > 0) : told;
      return {
        accuracy: await new Turn().run(accuracyOf(scored)),
        vehicles: scored.length,
        ofVehicles: of,
        pendingVehicles: pendingOnes(where).length,
        total: told.length,
        ...pageOf(
          rest,
          page,
          ({ item }) => item,
          ({ key }) => key,
        ),
      };
    },
  };
}

function rethrowUnlessOfStore(fault: unknown): void {
  if (!(fault instanceof StoreFault) || fault instanceof Damaged) throw fault;
}

function onAxle({ dates, readings }: VehicleScores, axle: AccuracyQuery['axle']): VehicleScores {
  if (axle === null) return { dates, readings };
  return {
    dates: dates.filter((score) => score.axle === axle),
    readings: readings.filter((score) => score.axle === axle),
  };
}

/** Date of the forecast, vehicle, and the forecast's number for that vehicle. */
type Key = [date: string, seq: number, number: number];
interface Told {
  key: Key;
  item: PastForecast;
}

function toldOf(
  { seq, id, externalId, registration, fleet, model }: typeof vehicles.$inferSelect,
  { dates }: VehicleScores,
): Told[] {
  return dates.flatMap((score, number): Told[] => {
    const told = pastForecastOf(score);
    if (!told) return [];
    return [
      {
        key: [score.date, seq, number],
        item: { vehicleId: id, externalId, registration, fleet, model, ...told },
      },
    ];
  });
}

function latestFirst(a: Key, b: Key): number {
  if (a[0] !== b[0]) return a[0] < b[0] ? 1 : -1;
  return a[1] - b[1] || a[2] - b[2];
}
