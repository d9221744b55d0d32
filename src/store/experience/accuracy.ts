import { setImmediate } from 'node:timers/promises';
import { pastForecastOf } from '../../core/accuracy/pastForecast.js';
import type { VehicleScores } from '../../core/accuracy/scores.js';
import { accuracyOf, type ScoredVehicle } from '../../core/accuracy/summary.js';
import { itemAt } from '../../core/items.js';
import type { PastForecast } from '../../core/vocabulary/accuracy.js';
import type { AccuracyQuery, AccuracyStore } from '../contract/accuracy.js';
import { fleetsSeen } from '../contract/caller.js';
import { Damaged, StoreFault } from '../contract/faults.js';
import type { ScoredSelection } from '../engine/contract/experience.js';
import type { VehicleRow } from '../engine/contract/vehicles.js';
import { pageOf } from '../paging.js';
import type { StoreParts } from '../parts.js';
import { fitPast } from './pastFits.js';
import { scoringShare } from './sample.js';
import { forecastScorer } from './scoring.js';
import { Turn } from './turn.js';

/** Vehicles read at a time. */
const BATCH = 50;
/** How long a request scores pending vehicles before it is answered with what is available. */
const REQUEST_MS = 2500;

export function accuracyStore(parts: StoreParts): AccuracyStore {
  const { scores } = parts.reading.rows;
  const scorePending = forecastScorer(parts);

  /** The sampled vehicles among those selected, and the total. */
  async function sampleOf(
    selected: Omit<ScoredSelection, 'share'>,
  ): Promise<{ selection: ScoredSelection; of: number }> {
    const of = await scores.count({ ...selected, share: null });
    return { selection: { ...selected, share: scoringShare(of) }, of };
  }

  /** Reads the current scores of the selected vehicles. */
  async function readForecasts(selection: ScoredSelection, axle: AccuracyQuery['axle']) {
    const scored: ScoredVehicle[] = [];
    const listed: ListedForecast[] = [];
    let after = 0;
    for (;;) {
      const rows = await scores.current(selection, after, BATCH);
      for (const { vehicle, scores: ofVehicle } of rows) {
        const ofAxle = onAxle(ofVehicle, axle);
        scored.push({ model: vehicle.model, scores: ofAxle });
        listed.push(...listForecasts(vehicle, ofAxle));
      }
      if (rows.length < BATCH) break;
      after = itemAt(rows, -1).vehicle.seq;
      await setImmediate();
    }
    return { scored, listed: listed.sort((a, b) => latestFirst(a.key, b.key)) };
  }

  return {
    bringUpToDate: () =>
      parts.alone('past forecasts', async () => {
        await fitPast(parts);
        const { selection } = await sampleOf({ fleets: null, model: null });
        await scorePending(selection, Infinity);
      }),

    async report(caller, { fleet, model, axle }, page) {
      const { selection, of } = await sampleOf({ fleets: fleetsSeen(caller, fleet), model });
      // If the disk is full, scores stay pending and the report says so.
      await scorePending(selection, performance.now() + REQUEST_MS).catch(rethrowUnlessOfStore);
      const { scored, listed } = await readForecasts(selection, axle);
      const rest = page?.after ? listed.filter(({ key }) => latestFirst(key, page.after as Key) > 0) : listed;
      return {
        accuracy: await new Turn().run(accuracyOf(scored)),
        vehicles: scored.length,
        ofVehicles: of,
        pendingVehicles: (await scores.pending(selection)).length,
        total: listed.length,
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

/** Date of the forecast, vehicle, and the forecast's index for that vehicle. */
type Key = [date: string, seq: number, number: number];
interface ListedForecast {
  key: Key;
  item: PastForecast;
}

function listForecasts(
  { seq, id, externalId, registration, fleet, model }: VehicleRow,
  { dates }: VehicleScores,
): ListedForecast[] {
  return dates.flatMap((score, number): ListedForecast[] => {
    const listed = pastForecastOf(score);
    if (!listed) return [];
    return [
      {
        key: [score.date, seq, number],
        item: { vehicleId: id, externalId, registration, fleet, model, ...listed },
      },
    ];
  });
}

function latestFirst(a: Key, b: Key): number {
  if (a[0] !== b[0]) return a[0] < b[0] ? 1 : -1;
  return a[1] - b[1] || a[2] - b[2];
}
