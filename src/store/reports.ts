import { and, asc, count, eq, gt, isNotNull, isNull, lt, lte, or, sql, type SQL } from 'drizzle-orm';
import { measureReasons } from '../core/assessment/measureFirst.js';
import { chanceBy, isOverdue } from '../core/assessment/outlook.js';
import { toDay, toFullDate } from '../core/calendar.js';
import { PROBABILITIES } from '../core/forecast/crossing.js';
import { AXLES, type Axle, type GroupBy } from '../core/vocabulary/terms.js';
import type { Database } from './database.js';
import type { StoreParts } from './parts.js';
import { partsDemandReader } from './partsDemand.js';
import { countUnassessed, inFleet, inService } from './reportConditions.js';
import { axleOutlooks, vehicles } from './schema.js';
import type {
  DueAxle,
  DueSoonQuery,
  DueTotals,
  MeasureFirstAxle,
  Page,
  ReportStore,
  Scope,
  UnassessedAxle,
} from './store.js';

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

/** What every report may be narrowed to. */
type Filter = Pick<DueSoonQuery, 'today' | 'fleet'> & Partial<Pick<DueSoonQuery, 'axle'>>;
type Horizon = Pick<DueSoonQuery, 'today' | 'horizon'>;

const filtered = (scope: Scope, { today, fleet, axle }: Filter): SQL | undefined =>
  and(inFleet(scope, fleet), axle ? eq(axleOutlooks.axle, axle) : undefined, inService(today));

/** The latest date that a visit may have on a day: today's date may be the one at UTC−12, and a visit be at UTC+14. */
const LATEST_VISIT_DAYS = 2;

/** Whether a date has come by the horizon. What was found reached at a visit has, even where its date is still to come. */
function hasCome(
  date: typeof axleOutlooks.earlyDate | typeof axleOutlooks.firstDate,
  { today, horizon }: Horizon,
): SQL {
  const latestVisit = toFullDate(toDay(today) + LATEST_VISIT_DAYS);
  return and(
    lte(date, horizon > latestVisit ? horizon : latestVisit),
    or(lte(date, horizon), lte(date, axleOutlooks.asAtDate)),
  )!;
}

/** Axles that may be due: by the early date where that decides, else by the first date on which there is any chance. */
function candidates(scope: Scope, query: DueSoonQuery): SQL | undefined {
  const { chance } = query;
  const date = chance >= EARLY_CHANCE ? axleOutlooks.earlyDate : axleOutlooks.firstDate;
  return and(
    // Below the first chance that is kept no date can tell, and every axle with a projection is looked at.
    chance < FIRST_CHANCE ? isNotNull(axleOutlooks.crossing) : hasCome(date, query),
    filtered(scope, query),
  );
}

/** Where a list is split, and an order that puts what has no such name last. */
const GROUP_COLUMNS = { fleet: axleOutlooks.fleet, model: vehicles.model };
const groupOrder = (groupBy: GroupBy | undefined): SQL[] =>
  groupBy ? [sql`${GROUP_COLUMNS[groupBy]} is null`, sql`ifnull(${GROUP_COLUMNS[groupBy]}, '')`] : [];

/** Axles with a chance but no early date within thirty years come last. */
const NO_EARLY_DATE = '9999-12-31';
const earlyOrder = [
  sql`ifnull(${axleOutlooks.earlyDate}, ${NO_EARLY_DATE})`,
  sql`${axleOutlooks.vehicleSeq}`,
  sql`${axleOutlooks.axle}`,
];

/** Whether a row stands behind the last one of the page before, in the order given. */
function isBehind(order: readonly SQL[], page: Page | null): SQL<number> {
  if (!page?.after) return sql<number>`1`;
  const place = page.after.map((value) => sql`${value}`);
  return sql<number>`(${sql.join([...order], sql`, `)}) > (${sql.join(place, sql`, `)})`;
}

/** The rows of forecasts, those behind a page marked. */
function forecastRows(database: Database, where: SQL | undefined, order: SQL[], page: Page | null) {
  return database
    .select({
      ...identity,
      seq: axleOutlooks.vehicleSeq,
      outlook: axleOutlooks,
      isBehind: isBehind(order, page),
    })
    .from(axleOutlooks)
    .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
    .where(where)
    .orderBy(...order)
    .$dynamic();
}

const EVERYTHING: Scope = { fleets: null, keyName: null };

/**
 * Reads the axles whose chance of reaching their limit by a horizon is at least so great: of one vehicle, or of all.
 */
export function dueReader(database: Database) {
  return (
    question: Pick<DueSoonQuery, 'today' | 'horizon' | 'chance'>,
    vehicleSeq: number | null,
  ): { seq: number; item: DueAxle }[] => {
    const query = { ...question, fleet: null, axle: null };
    const ofVehicle = vehicleSeq === null ? undefined : eq(axleOutlooks.vehicleSeq, vehicleSeq);
    return forecastRows(database, and(candidates(EVERYTHING, query), ofVehicle), earlyOrder, null)
      .all()
      .filter((row) => chanceOf(row, query) >= query.chance)
      .map((row) => ({ seq: row.seq, item: toDueAxle(row, query).item }));
  };
}

export function reportStore({ database, settings }: StoreParts): ReportStore {
  const forecasts = (where: SQL | undefined, order: SQL[], page: Page | null) =>
    forecastRows(database, where, order, page);

  /** One page of the rows that are wanted: picked by the database where the condition says it all. */
  function pageOfForecasts(where: SQL | undefined, order: SQL[], page: Page | null) {
    const rows = forecasts(and(where, isBehind(order, page)), order, page);
    return page ? rows.limit(page.limit + 1).all() : rows.all();
  }

  /** Counts axles that are due by their early date, without reading them. */
  function countDue(scope: Scope, query: DueSoonQuery): Tally[] {
    const { groupBy, today } = query;
    const group = groupBy ? GROUP_COLUMNS[groupBy] : sql<null>`null`;
    const counting = database
      .select({
        group: sql<string | null>`${group}`,
        axle: axleOutlooks.axle,
        total: count(),
        overdueCount: sql<number>`sum(${axleOutlooks.failing} or ifnull(${axleOutlooks.medianDate} <= ${today}, 0))`,
      })
      .from(axleOutlooks)
      .$dynamic();
    if (groupBy === 'model') counting.innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq));
    return counting
      .where(candidates(scope, query))
      .groupBy(...groupOrder(groupBy), axleOutlooks.axle)
      .orderBy(...groupOrder(groupBy))
      .all();
  }

  function countWhere(where: SQL | undefined): number {
    return database.select({ total: count() }).from(axleOutlooks).where(where).get()!.total;
  }

  /** Axles that want measuring, those that are due by their early date left out. */
  function wantsMeasuring(scope: Scope, query: DueSoonQuery): SQL | undefined {
    const { today, horizon } = query;
    const oldest = toFullDate(toDay(today) - settings().policy.longestDaysWithoutReading);
    return and(
      or(
        and(
          lte(axleOutlooks.measureDate, horizon),
          // A vehicle that comes as expected is measured then.
          or(gt(axleOutlooks.expectedDate, axleOutlooks.measureDate), lt(axleOutlooks.expectedDate, today)),
        ),
        lt(axleOutlooks.lastReadingDate, oldest),
      ),
      isNull(axleOutlooks.unassessed),
      query.chance === EARLY_CHANCE
        ? sql`not ifnull(${hasCome(axleOutlooks.earlyDate, query)}, 0)`
        : undefined,
      filtered(scope, query),
    );
  }

  /** Read in full where another chance than that of the early date says what is due. */
  function allToMeasure(scope: Scope, query: DueSoonQuery, page: Page | null) {
    return forecasts(wantsMeasuring(scope, query), earlyOrder, page)
      .all()
      .filter((row) => chanceOf(row, query) < query.chance);
  }

  const toMeasureFirst = (row: ForecastRow, query: DueSoonQuery): Keyed<MeasureFirstAxle> => {
    const axle = toForecastAxle(row, query);
    const { measureDate, expectedDate } = row.outlook;
    const reasons = measureReasons({ ...axle, measureDate, expectedDate }, query, settings().policy);
    return { key: keyOf(row), item: { ...axle, reasons } };
  };

  return {
    async dueSoon(scope: Scope, query: DueSoonQuery, page: Page | null) {
      const order = [...groupOrder(query.groupBy), ...earlyOrder];
      const toKeyed = (row: ForecastRow) => toDueAxle(row, query);
      const unassessedCount = countUnassessed(database, scope, query);
      if (query.chance === EARLY_CHANCE) {
        const rows = pageOfForecasts(candidates(scope, query), order, page);
        return {
          ...pageOf(rows.map(toKeyed), page),
          ...totalsOf(countDue(scope, query), query.groupBy),
          unassessedCount,
          measureFirstCount: countWhere(wantsMeasuring(scope, query)),
        };
      }
      const due = forecasts(candidates(scope, query), order, page)
        .all()
        .filter((row) => chanceOf(row, query) >= query.chance);
      const tallies = due.map((row) => tallyOf(row, query));
      return {
        ...pageOf(due.filter((row) => row.isBehind).map(toKeyed), page),
        ...totalsOf(tallies, query.groupBy),
        unassessedCount,
        measureFirstCount: allToMeasure(scope, query, null).length,
      };
    },

    async measureFirst(scope: Scope, query: DueSoonQuery, page: Page | null) {
      const toKeyed = (row: ForecastRow) => toMeasureFirst(row, query);
      if (query.chance === EARLY_CHANCE) {
        const where = wantsMeasuring(scope, query);
        const rows = pageOfForecasts(where, earlyOrder, page);
        return { ...pageOf(rows.map(toKeyed), page), total: countWhere(where) };
      }
      const all = allToMeasure(scope, query, page);
      return { ...pageOf(all.filter((row) => row.isBehind).map(toKeyed), page), total: all.length };
    },

    async unassessed(scope: Scope, query: { today: string; fleet: string | null }, page: Page | null) {
      const [seq, axle] = page?.after ?? [];
      const select = database
        .select({ ...identity, seq: axleOutlooks.vehicleSeq, outlook: axleOutlooks })
        .from(axleOutlooks)
        .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
        .where(
          and(
            isNotNull(axleOutlooks.unassessed),
            filtered(scope, query),
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

type Keyed<Item> = { key: (string | number)[]; item: Item };

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

/** Axles of one group and one name that are due. */
interface Tally {
  group: string | null;
  axle: Axle;
  total: number;
  overdueCount: number;
}

const groupOf = ({ outlook, model }: Row, { groupBy }: DueSoonQuery): string | null =>
  groupBy ? { fleet: outlook.fleet, model }[groupBy] : null;

function tallyOf(row: Row, query: DueSoonQuery): Tally {
  const { axle, failing, medianDate } = row.outlook;
  const overdueCount = Number(isOverdue(failing, medianDate, query.today));
  return { group: groupOf(row, query), axle, total: 1, overdueCount };
}

/** @param tallies in the order of their groups */
function totalsOf(
  tallies: readonly Tally[],
  groupBy: GroupBy | undefined,
): DueTotals & { groups: (DueTotals & { group: string | null })[] } {
  const groups = new Map<string | null, Tally[]>();
  for (const tally of groupBy ? tallies : []) {
    const own = groups.get(tally.group);
    if (own) own.push(tally);
    else groups.set(tally.group, [tally]);
  }
  return {
    ...sumOf(tallies),
    groups: [...groups].map(([group, own]) => ({ group, ...sumOf(own) })),
  };
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

interface Row {
  vehicleId: string;
  externalId: string | null;
  registration: string | null;
  model: string | null;
  seq: number;
  outlook: typeof axleOutlooks.$inferSelect;
}

type ForecastRow = Row & { isBehind: number };

const chanceOf = ({ outlook: { crossing, asAtDate } }: Row, { horizon }: Horizon): number =>
  chanceBy(crossing!, asAtDate!, horizon);

const keyOf = ({ outlook, seq }: Row): (string | number)[] => [
  outlook.earlyDate ?? NO_EARLY_DATE,
  seq,
  outlook.axle,
];

function toForecastAxle(row: Row, query: DueSoonQuery): Omit<DueAxle, 'overdue' | 'changedAt'> {
  const { vehicleId, externalId, registration, model, outlook } = row;
  const { axle, fleet, earlyDate, medianDate, lateDate } = outlook;
  const { governingSide: side, governingPad: pad, limitMm, limitSource, lastReadingDate } = outlook;
  return {
    vehicleId,
    externalId,
    registration,
    fleet,
    model,
    axle,
    chance: chanceOf(row, query),
    earlyDate,
    medianDate,
    lateDate,
    governingPad: side && pad ? { side, pad } : null,
    limitMm,
    limitSource,
    lastReadingDate,
  };
}

function toDueAxle(row: Row, query: DueSoonQuery): Keyed<DueAxle> {
  const { failing, medianDate, changedAt } = row.outlook;
  const overdue = isOverdue(failing, medianDate, query.today);
  const group = groupOf(row, query);
  return {
    key: [...(query.groupBy ? [Number(group === null), group ?? ''] : []), ...keyOf(row)],
    item: { ...toForecastAxle(row, query), overdue, changedAt },
  };
}

function toUnassessed({ outlook, vehicleId, externalId, registration, model }: Row): UnassessedAxle {
  const { axle, fleet, lastReadingDate, unassessed } = outlook;
  return { vehicleId, externalId, registration, fleet, model, axle, lastReadingDate, reason: unassessed! };
}
