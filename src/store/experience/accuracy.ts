import { and, asc, count, eq, gt, isNotNull, isNull, not, sql, type SQL } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import { pastForecastOf } from '../../core/accuracy/pastForecast.js';
import { scoreVehicle, type ExperienceBefore, type VehicleScores } from '../../core/accuracy/scores.js';
import { accuracyOf, type ScoredVehicle } from '../../core/accuracy/summary.js';
import { recordOf } from '../../core/assessment/record.js';
import { experienceOf, groupOf } from '../../core/assessment/whichExperience.js';
import { toDay, toFullDate } from '../../core/calendar.js';
import { fitExperience } from '../../core/forecast/fit.js';
import type { History } from '../../core/history.js';
import type { PastForecast } from '../../core/vocabulary/accuracy.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import { Damaged, StoreFault } from '../contract/faults.js';
import { experienceKnownOn } from './knownExperience.js';
import { pageOf } from '../paging.js';
import type { StoreParts } from '../parts.js';
import { learningSample, scoringSample } from './sample.js';
import { experiences, forecastScores, pastExperiences, vehicles, visits } from '../engine/sqlite/schema.js';
import type { AccuracyQuery, AccuracyStore } from '../contract/accuracy.js';
import type { Caller } from '../contract/caller.js';
import type { Page } from '../contract/paging.js';
import { visibleTo } from '../engine/sqlite/visibility.js';

/** Vehicles read at a time. */
const BATCH = 50;
/** While forecasts are scored nothing else waits for longer than about this. */
const TURN_MS = 20;
/** How long one request scores what is pending before it is answered from what there is. */
const REQUEST_MS = 2500;

/** A change to what was known in the past makes every score stale; the table of its fits only ever grows. */
const pastFitsMade = sql<number>`(select count(*) from ${pastExperiences})`;
const areCurrent = sql`(${forecastScores.scores} is not null and ${forecastScores.pastFits} = ${pastFitsMade})`;

export function accuracyStore({ database, clock, write, history, settings }: StoreParts): AccuracyStore {
  const knownOn = experienceKnownOn(database);
  const stored = database
    .select({
      seq: vehicles.seq,
      id: vehicles.id,
      body: vehicles.body,
      revision: forecastScores.revision,
      pastFits: pastFitsMade,
    })
    .from(vehicles)
    .innerJoin(forecastScores, eq(forecastScores.vehicleSeq, vehicles.seq))
    .where(eq(vehicles.seq, sql.placeholder('seq')))
    .prepare();

  const matching = (caller: Caller, { fleet, model }: AccuracyQuery): SQL | undefined =>
    and(
      isNull(vehicles.mergedInto),
      visibleTo(caller, vehicles.fleet, fleet),
      model === null ? undefined : eq(vehicles.model, model),
    );

  /** The vehicles looked at of those that a condition holds for, and how many these are. */
  function sampleOf(where: SQL | undefined): { where: SQL | undefined; of: number } {
    const { of } = database
      .select({ of: count() })
      .from(forecastScores)
      .innerJoin(vehicles, eq(vehicles.seq, forecastScores.vehicleSeq))
      .where(where)
      .get()!;
    return { where: and(where, scoringSample(of)), of };
  }

  function pendingOnes(where: SQL | undefined): number[] {
    return database
      .select({ seq: vehicles.seq })
      .from(forecastScores)
      .innerJoin(vehicles, eq(vehicles.seq, forecastScores.vehicleSeq))
      .where(and(not(areCurrent), where))
      .orderBy(asc(vehicles.seq))
      .all()
      .map(({ seq }) => seq);
  }

  /** Scores one vehicle's past forecasts and keeps them, unless its history has changed meanwhile. */
  async function score(seq: number, turn: Turn): Promise<void> {
    const { known, revision, pastFits } = database.transaction(() => {
      const { id, body, ...standing } = stored.get({ seq })!;
      const { gauges } = settings();
      return { known: { vehicle: body, visits: history.visitsOf(seq, id), gauges }, ...standing };
    });
    const scores = await turn.run(scoreVehicle(known, experienceBefore(known.vehicle)));
    await write(() =>
      database
        .update(forecastScores)
        .set({ scores, pastFits })
        .where(and(eq(forecastScores.vehicleSeq, seq), eq(forecastScores.revision, revision)))
        .run(),
    );
    await turn.over();
  }

  /** What a fit made on a day learned from it, no forecast of that day could know: the day before counts. */
  function experienceBefore(vehicle: VehicleBody): ExperienceBefore {
    const made = new Map<number | string, ReturnType<typeof experienceOf>>();
    return (date) => {
      const known = knownOn(toFullDate(toDay(date) - 1));
      const experienceFor = made.get(known.version) ?? experienceOf(vehicle, known);
      made.set(known.version, experienceFor);
      return experienceFor;
    };
  }

  let scoring = Promise.resolve();
  /** Scores what is pending until a deadline, one asker after the other, so that none does another's work again. */
  function scorePending(where: SQL | undefined, deadline: number): Promise<void> {
    const mine = scoring.then(async () => {
      const turn = new Turn();
      for (const seq of pendingOnes(where)) {
        if (performance.now() >= deadline) return;
        await score(seq, turn);
      }
    });
    scoring = mine.catch(() => undefined);
    return mine;
  }

  /** The histories to learn from, for fits that look at a part of each. */
  async function historiesToLearnFrom(): Promise<History[]> {
    const turn = new Turn();
    const { gauges } = settings();
    const all: History[] = [];
    for (const seq of learningSample(database)) {
      const { id, body } = stored.get({ seq })!;
      all.push({ vehicle: body, visits: history.visitsOf(seq, id), gauges });
      await turn.over();
    }
    return all;
  }

  /**
   * Fits what would have been known at the ends of past half-years where no fit was made about then, as when a shop
   * brought its history with it. A change to it makes every score stale.
   */
  async function fitPast(): Promise<void> {
    const dates = missingFits();
    if (dates.length === 0) return;
    const histories = await historiesToLearnFrom();
    for (const learnedTo of dates) {
      const records = histories.map(({ vehicle, visits, gauges }) =>
        recordOf(
          { vehicle, gauges, visits: visits.filter(({ date }) => date <= learnedTo) },
          groupOf(vehicle),
        ),
      );
      const fitted = fitExperience(records);
      await write(() =>
        database
          .insert(pastExperiences)
          .values({ learnedTo, fitted, createdAt: clock().toISOString() })
          .onConflictDoNothing()
          .run(),
      );
      await setImmediate();
    }
  }

  /** The ends of half-years for which there was enough to learn from, and of which no fit tells what was known. */
  function missingFits(): string[] {
    const days = database
      .select({ date: visits.date, visits: count() })
      .from(visits)
      .where(isNull(visits.voided))
      .groupBy(visits.date)
      .orderBy(asc(visits.date))
      .all();
    if (days.length === 0) return [];
    const fits = [experiences, pastExperiences].flatMap((table) =>
      database.select({ learnedTo: table.learnedTo }).from(table).where(isNotNull(table.learnedTo)).all(),
    );
    const missing: string[] = [];
    let known = 0;
    for (const { from, to } of halfYears(days[0]!.date, days.at(-1)!.date)) {
      const visitsBy = days.reduce((sum, day) => sum + (day.date <= to ? day.visits : 0), 0);
      if (visitsBy < Math.max(FEWEST_VISITS, GROWTH * known)) continue;
      known = visitsBy;
      if (!fits.some(({ learnedTo }) => learnedTo! > from && learnedTo! <= to)) missing.push(to);
    }
    return missing;
  }

  return {
    async bringUpToDate() {
      await fitPast();
      await scorePending(sampleOf(isNull(vehicles.mergedInto)).where, Infinity);
    },

    async report(caller: Caller, query: AccuracyQuery, page: Page | null) {
      const { where, of } = sampleOf(matching(caller, query));
      // Scores that cannot be kept, on a full disk, stay pending and are told as such.
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

/** Lets others have their turn once this one has taken long enough. */
class Turn {
  #began = performance.now();

  async over(): Promise<void> {
    if (performance.now() - this.#began < TURN_MS) return;
    await setImmediate();
    this.#began = performance.now();
  }

  async run<Result>(work: Generator<void, Result>): Promise<Result> {
    let step = work.next();
    while (!step.done) {
      await this.over();
      step = work.next();
    }
    return step.value;
  }
}

/** Fewer visits than this in the whole shop are not worth a fit, nor is a shop that has hardly grown since. */
const FEWEST_VISITS = 20;
const GROWTH = 1.2;

/** The half-years that ended between two dates; each is after `from` and up to `to`. */
function halfYears(first: string, last: string): { from: string; to: string }[] {
  const ends: string[] = [];
  for (let year = Number(first.slice(0, 4)); year <= Number(last.slice(0, 4)); year++) {
    ends.push(`${year}-06-30`, `${year}-12-31`);
  }
  return ends
    .map((to, index) => ({ from: ends[index - 1] ?? '', to }))
    .filter(({ to }) => to >= first && to < last);
}

function onAxle({ dates, readings }: VehicleScores, axle: AccuracyQuery['axle']): VehicleScores {
  if (axle === null) return { dates, readings };
  return {
    dates: dates.filter((score) => score.axle === axle),
    readings: readings.filter((score) => score.axle === axle),
  };
}

/** Date of the forecast, vehicle, and the number of the forecast among the vehicle's. */
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
