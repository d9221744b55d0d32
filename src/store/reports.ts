import { and, asc, count, eq, gt, isNotNull, isNull, or, sql, type SQL } from 'drizzle-orm';
import { chanceBy, isOverdue } from '../core/assessment/outlook.js';
import { PROBABILITIES } from '../core/forecast/crossing.js';
import type { Database } from './database.js';
import type { StoreParts } from './parts.js';
import { axleOutlooks, vehicles } from './schema.js';
import type { DueAxle, DueSoonQuery, Page, ReportStore, Scope, UnassessedAxle } from './store.js';
import { fleetCondition } from './vehicles.js';

/** The chance behind the early date: asked for by default, and answered by the index alone. */
const EARLY_CHANCE = 0.1;
/** The chance behind the first date. */
const FIRST_CHANCE = PROBABILITIES[0]!;

/** Sorts behind every date. */
const NO_EARLY_DATE = '9999-12-31';

const identity = {
  vehicleId: vehicles.id,
  externalId: vehicles.externalId,
  registration: vehicles.registration,
  model: vehicles.model,
};

/** The fleets a report is about: the scope's, narrowed to the one asked for; null is every vehicle. */
function fleetsAsked({ fleets }: Scope, asked: string | null): readonly string[] | null {
  if (asked === null) return fleets;
  return fleets === null || fleets.includes(asked) ? [asked] : [];
}

const horizon = sql.placeholder('horizon');
const isDated = (date: typeof axleOutlooks.earlyDate | typeof axleOutlooks.firstDate): SQL =>
  sql`${date} is not null and ${date} <= ${horizon}`;

/** Whether a chance a little below the one asked for is reached by the horizon, told without reading the crossing whole. */
const isNear = sql`json_extract(${axleOutlooks.crossing}, ${sql.placeholder('daysBelow')})
  <= max(0, julianday(${horizon}) - julianday(${axleOutlooks.asAtDate}))`;

/** Where a crossing has the days to the next chance below the one asked for. */
function daysBelow(chance: number): string {
  const above = PROBABILITIES.findIndex((probability) => probability >= chance);
  return `$.days[${Math.max(0, above - 1)}]`;
}

/** By what axles that may be due are found: the early date where it decides, else the first date with any chance. */
const DUE_BY = {
  early: isDated(axleOutlooks.earlyDate),
  first: sql`${isDated(axleOutlooks.firstDate)} and ${isNear}`,
  // Below the first chance that is kept no date can tell, and every axle with a projection is looked at.
  chance: isNotNull(axleOutlooks.crossing),
};
type DueBy = keyof typeof DUE_BY;

function dueBy({ chance }: DueSoonQuery): DueBy {
  if (chance >= EARLY_CHANCE) return 'early';
  return chance >= FIRST_CHANCE ? 'first' : 'chance';
}

/** Where the early date decides, its index has the order; else axles with a chance but no early date come last. */
const earlyKey = (by: DueBy): SQL =>
  by === 'early' ? sql`${axleOutlooks.earlyDate}` : sql`ifnull(${axleOutlooks.earlyDate}, ${NO_EARLY_DATE})`;

const isAsked = (inFleets: boolean): SQL | undefined =>
  and(
    inFleets
      ? sql`${axleOutlooks.fleet} in (select value from json_each(${sql.placeholder('fleets')}))`
      : undefined,
    sql`${axleOutlooks.axle} = ifnull(${sql.placeholder('axle')}, ${axleOutlooks.axle})`,
    sql`(${axleOutlooks.outOfServiceDate} is null or ${axleOutlooks.outOfServiceDate} > ${sql.placeholder('today')})`,
  );

/** The statements of the due-soon report; to build and prepare them takes longer than to run them. */
function dueStatements(database: Database) {
  const countOf = (where: SQL | undefined) =>
    database.select({ total: count() }).from(axleOutlooks).where(where).prepare();
  const prepare = (by: DueBy, inFleets: boolean) => {
    const where = and(DUE_BY[by], isAsked(inFleets));
    const key = sql`(${earlyKey(by)}, ${axleOutlooks.vehicleSeq}, ${axleOutlooks.axle})`;
    const rows = (from?: SQL) =>
      database
        .select({ ...identity, seq: axleOutlooks.vehicleSeq, outlook: axleOutlooks })
        .from(axleOutlooks)
        .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
        .where(and(where, from))
        .orderBy(asc(earlyKey(by)), asc(axleOutlooks.vehicleSeq), asc(axleOutlooks.axle))
        .limit(sql.placeholder('limit'))
        .prepare();
    const [early, seq, axle] = ['early', 'seq', 'afterAxle'].map((name) => sql.placeholder(name));
    return {
      total: countOf(where),
      unassessed: countOf(and(isNotNull(axleOutlooks.unassessed), isAsked(inFleets))),
      first: rows(),
      behind: rows(sql`${key} > (${early}, ${seq}, ${axle})`),
    };
  };
  const prepared = new Map<string, ReturnType<typeof prepare>>();
  return (by: DueBy, inFleets: boolean) => {
    const name = `${by} ${inFleets}`;
    const statements = prepared.get(name) ?? prepare(by, inFleets);
    prepared.set(name, statements);
    return statements;
  };
}

/** Every row that there is. */
const NO_LIMIT = -1;

export function reportStore({ database }: StoreParts): ReportStore {
  const statementsFor = dueStatements(database);

  return {
    async dueSoon(scope: Scope, query: DueSoonQuery, page: Page | null) {
      const { horizon, today, axle } = query;
      const fleets = fleetsAsked(scope, query.fleet);
      const asked = {
        horizon,
        today,
        axle,
        fleets: JSON.stringify(fleets),
        daysBelow: daysBelow(query.chance),
      };
      const statements = statementsFor(dueBy(query), fleets !== null);
      const unassessedCount = statements.unassessed.get(asked)!.total;
      const rowsFrom = (after: Page['after'], limit: number) => {
        const [early, seq, afterAxle] = after ?? [];
        const rows = after
          ? statements.behind.all({ ...asked, limit, early, seq, afterAxle })
          : statements.first.all({ ...asked, limit });
        return rows.map((row) => toDueAxle(row, query));
      };
      if (query.chance === EARLY_CHANCE) {
        const { total } = statements.total.get(asked)!;
        const rows = rowsFrom(page?.after ?? null, page ? page.limit + 1 : NO_LIMIT);
        return { ...pageOf(rows, page), total, unassessedCount };
      }
      const all = rowsFrom(null, NO_LIMIT).filter(({ item }) => item.chance >= query.chance);
      const after = page?.after;
      const rest = after ? all.slice(all.findIndex(({ key }) => comesBehind(key, after))) : all;
      const shown = after && !all.some(({ key }) => comesBehind(key, after)) ? [] : rest;
      return { ...pageOf(shown, page), total: all.length, unassessedCount };
    },

    async unassessed(scope: Scope, query: { today: string; fleet: string | null }, page: Page | null) {
      const { today, fleet } = query;
      const asked = and(
        isNotNull(axleOutlooks.unassessed),
        fleetCondition(axleOutlooks.fleet as unknown as typeof vehicles.fleet, scope, fleet),
        or(isNull(axleOutlooks.outOfServiceDate), gt(axleOutlooks.outOfServiceDate, today)),
      );
      const [seq, axle] = page?.after ?? [];
      const select = database
        .select({ ...identity, seq: axleOutlooks.vehicleSeq, outlook: axleOutlooks })
        .from(axleOutlooks)
        .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
        .where(
          and(
            asked,
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
      const { total } = database.select({ total: count() }).from(axleOutlooks).where(asked).get()!;
      return { ...pageOf(keyed, page), total };
    },
  };
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
    key: [earlyDate ?? NO_EARLY_DATE, seq, axle],
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
