import { and, asc, count, eq, gt, isNotNull, lte, or, sql, type SQL } from 'drizzle-orm';
import { chanceBy, isOverdue } from '../core/assessment/outlook.js';
import { PROBABILITIES } from '../core/forecast/crossing.js';
import type { StoreParts } from './parts.js';
import { partsDemandReader } from './partsDemand.js';
import { countUnassessed, inFleet, inService } from './reportConditions.js';
import { axleOutlooks, vehicles } from './schema.js';
import type { DueAxle, DueSoonQuery, Page, ReportStore, Scope, UnassessedAxle } from './store.js';

/** The chance behind the early date: asked for by default, and answered by the index alone. */
const EARLY_CHANCE = 0.1;
/** The chance behind the first date. */
const FIRST_CHANCE = PROBABILITIES[0]!;

const identity = {
  vehicleId: vehicles.id,
  externalId: vehicles.externalId,
  registration: vehicles.registration,
  model: vehicles.model,
};

export function reportStore({ database }: StoreParts): ReportStore {
  /** Axles that may be due: by the early date where that decides, else by the first date on which there is any chance. */
  function candidates(scope: Scope, query: DueSoonQuery): SQL | undefined {
    const { horizon, chance, fleet, axle, today } = query;
    const date = chance >= EARLY_CHANCE ? axleOutlooks.earlyDate : axleOutlooks.firstDate;
    return and(
      // Below the first chance that is kept no date can tell, and every axle with a projection is looked at.
      chance < FIRST_CHANCE ? isNotNull(axleOutlooks.crossing) : and(isNotNull(date), lte(date, horizon)),
      inFleet(scope, fleet),
      axle === null ? undefined : eq(axleOutlooks.axle, axle),
      inService(today),
    );
  }

  function dueRows(scope: Scope, query: DueSoonQuery, page: Page | null) {
    const select = database
      .select({ ...identity, seq: axleOutlooks.vehicleSeq, outlook: axleOutlooks })
      .from(axleOutlooks)
      .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
      .where(and(candidates(scope, query), page?.after ? behind(page.after) : undefined))
      .orderBy(asc(earlyKey), asc(axleOutlooks.vehicleSeq), asc(axleOutlooks.axle));
    return page ? select.limit(page.limit).all() : select.all();
  }

  return {
    async dueSoon(scope: Scope, query: DueSoonQuery, page: Page | null) {
      const unassessedCount = countUnassessed(database, scope, query);
      if (query.chance === EARLY_CHANCE) {
        const total = database
          .select({ total: count() })
          .from(axleOutlooks)
          .where(candidates(scope, query))
          .get()!.total;
        const rows = dueRows(scope, query, page && { ...page, limit: page.limit + 1 });
        return {
          ...pageOf(
            rows.map((row) => toDueAxle(row, query)),
            page,
          ),
          total,
          unassessedCount,
        };
      }
      const all = dueRows(scope, query, null)
        .map((row) => toDueAxle(row, query))
        .filter(({ item }) => item.chance >= query.chance);
      const after = page?.after;
      const rest = after ? all.slice(all.findIndex(({ key }) => comesBehind(key, after))) : all;
      const shown = after && !all.some(({ key }) => comesBehind(key, after)) ? [] : rest;
      return { ...pageOf(shown, page), total: all.length, unassessedCount };
    },

    async unassessed(scope: Scope, query: { today: string; fleet: string | null }, page: Page | null) {
      const { today, fleet } = query;
      const [seq, axle] = page?.after ?? [];
      const select = database
        .select({ ...identity, seq: axleOutlooks.vehicleSeq, outlook: axleOutlooks })
        .from(axleOutlooks)
        .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
        .where(
          and(
            isNotNull(axleOutlooks.unassessed),
            inFleet(scope, fleet),
            inService(today),
            seq === undefined
              ? undefined
              : or(
                  gt(axleOutlooks.vehicleSeq, Number(seq)),
                  and(eq(axleOutlooks.vehicleSeq, Number(seq)), gt(axleOutlooks.axle, axle as never)),
                ),
          ),
        )
        .orderBy(asc(axleOutlooks.vehicleSeq), asc(axleOutlooks.axle));
      const rows = page ? select.limit(page.limit + 1).all() : select.all();
      const keyed = rows.map((row) => ({ key: [row.seq, row.outlook.axle], item: toUnassessed(row) }));
      return { ...pageOf(keyed, page), total: countUnassessed(database, scope, query) };
    },

    partsDemand: partsDemandReader(database),
  };
}

/** Axles with a chance but no early date within thirty years come last. */
const earlyKey = sql<string>`ifnull(${axleOutlooks.earlyDate}, '9999-12-31')`;

function behind([early, seq, axle]: readonly (string | number)[]): SQL {
  return sql`(${earlyKey}, ${axleOutlooks.vehicleSeq}, ${axleOutlooks.axle}) > (${early}, ${seq}, ${axle})`;
}

type Keyed<Item> = { key: (string | number)[]; item: Item };

function comesBehind(key: readonly (string | number)[], after: readonly (string | number)[]): boolean {
  for (let i = 0; i < key.length; i++) {
    if (key[i] !== after[i]) return key[i]! > after[i]!;
  }
  return false;
}

/** The first page of rows; one row more than the page holds shows that another follows. */
function pageOf<Item>(
  rows: Keyed<Item>[],
  page: Page | null,
): { items: Item[]; next: (string | number)[] | null } {
  const shown = page ? rows.slice(0, page.limit) : rows;
  return {
    items: shown.map(({ item }) => item),
    next: rows.length > shown.length ? shown.at(-1)!.key : null,
  };
}

interface Row {
  vehicleId: string;
  externalId: string | null;
  registration: string | null;
  model: string | null;
  seq: number;
  outlook: typeof axleOutlooks.$inferSelect;
}

function toDueAxle({ seq, outlook, ...vehicle }: Row, { horizon, today }: DueSoonQuery): Keyed<DueAxle> {
  const { axle, fleet, crossing, asAtDate, failing, earlyDate, medianDate, lateDate } = outlook;
  const { governingSide: side, governingPad: pad, limitMm, limitSource, lastReadingDate } = outlook;
  return {
    key: [earlyDate ?? '9999-12-31', seq, axle],
    item: {
      vehicleId: vehicle.vehicleId,
      externalId: vehicle.externalId,
      registration: vehicle.registration,
      fleet,
      model: vehicle.model,
      axle,
      overdue: isOverdue(failing, medianDate, today),
      chance: chanceBy(crossing!, asAtDate!, horizon),
      earlyDate,
      medianDate,
      lateDate,
      governingPad: side && pad ? { side, pad } : null,
      limitMm,
      limitSource,
      lastReadingDate,
    },
  };
}

function toUnassessed({ outlook, vehicleId, externalId, registration, model }: Row): UnassessedAxle {
  const { axle, fleet, lastReadingDate, unassessed } = outlook;
  return { vehicleId, externalId, registration, fleet, model, axle, lastReadingDate, reason: unassessed! };
}
