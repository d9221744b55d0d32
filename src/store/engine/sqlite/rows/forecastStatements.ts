import { and, count, eq, isNotNull, isNull, or, sql, type SQL } from 'drizzle-orm';
import { PROBABILITIES } from '../../../../core/forecast/crossing.js';
import { itemAt } from '../../../../core/items.js';
import { AXLES, type Axle, type GroupBy } from '../../../../core/vocabulary/terms.js';
import { EARLY_CHANCE, NO_EARLY_DATE, type DueQuestion, type Tally } from '../../contract/reports.js';
import type { Database } from '../connection.js';
import { axleOutlooks, vehicles } from '../schema.js';
import type { Whose } from '../visibility.js';
import { matchesQuestion, LEAVES, once, STAYS } from './reportConditions.js';

/**
 * Prepared statements of the forecast reports, one per shape: due or to be measured, whose vehicles, and grouping. If
 * the early date decides, counts and page positions come from indexes alone, before any rows are read.
 */

/** The chance of the first date. */
const FIRST_CHANCE = itemAt(PROBABILITIES, 0);

/** How to find candidates. */
export type DueBy = 'early' | 'early-and-near' | 'first-and-near' | 'any';

export function dueBy(chance: number): DueBy {
  if (chance === EARLY_CHANCE) return 'early';
  if (chance > EARLY_CHANCE) return 'early-and-near';
  return chance >= FIRST_CHANCE ? 'first-and-near' : 'any';
}

/** JSON path of the days to the next stored chance below the requested one. */
function daysBelow(chance: number): { daysBelow: string; counterpartDaysBelow: string } {
  const above = PROBABILITIES.findIndex((probability) => probability >= chance);
  const days = `days[${Math.max(0, (above < 0 ? PROBABILITIES.length : above) - 1)}]`;
  return { daysBelow: `$.${days}`, counterpartDaysBelow: `$.crossing.${days}` };
}

/** Date and chance parameters of the statements. */
export const datesOf = ({ today, horizon, chance, latestVisit }: DueQuestion) => ({
  today,
  horizon,
  latest: horizon > latestVisit ? horizon : latestVisit,
  ...daysBelow(chance),
});

const [horizon, today] = [sql.placeholder('horizon'), sql.placeholder('today')];

/**
 * Whether a date has come by the horizon. A limit found reached at a visit counts even if that visit's date is in the
 * future; `latest` is the later of the horizon and the latest possible visit date.
 */
const hasCome = (date: typeof axleOutlooks.earlyDate | typeof axleOutlooks.firstDate): SQL =>
  sql`(${date} <= ${sql.placeholder('latest')} and (${date} <= ${horizon} or ${date} <= ${axleOutlooks.asAtDate}))`;

/**
 * Whether a chance slightly below the requested one is reached by the horizon, decided without reading the whole
 * crossing.
 */
const isNear = sql`(min(
    ifnull(json_extract(${axleOutlooks.crossing}, ${sql.placeholder('daysBelow')}), 1e9),
    ifnull(json_extract(${axleOutlooks.counterpart}, ${sql.placeholder('counterpartDaysBelow')}), 1e9))
  <= max(0, julianday(${horizon}) - julianday(${axleOutlooks.asAtDate})))`;

const IS_DUE: Record<DueBy, SQL> = {
  early: sql`${axleOutlooks.earlyDate} is not null and ${hasCome(axleOutlooks.earlyDate)}`,
  'early-and-near': sql`${hasCome(axleOutlooks.earlyDate)} and ${isNear}`,
  'first-and-near': sql`${hasCome(axleOutlooks.firstDate)} and ${isNear}`,
  // Below the first stored chance no date helps: check every axle with a forecast.
  any: isNotNull(axleOutlooks.part),
};

/** A vehicle whose expected visit is ahead is measured at that visit. */
const isToBePlanned = sql`(${axleOutlooks.measureDate} <= ${horizon}
  and (${axleOutlooks.expectedDate} > ${axleOutlooks.measureDate} or ${axleOutlooks.expectedDate} < ${today}))`;

/** Reasons to measure an axle, each with its index; the second is counted only where the first does not apply. */
const WANTS_MEASURING = [
  isToBePlanned,
  sql`${axleOutlooks.lastReadingDate} < ${sql.placeholder('oldest')} and not ifnull(${isToBePlanned}, 0)`,
];

/** Selected values of an axle, by column name. */
type Columns = Record<string, SQL>;
/** What a list is ordered by, in sequence. */
type Order = Columns;

/** Grouping columns, and an order that puts rows without a group last. */
const GROUP_COLUMNS = { fleet: axleOutlooks.fleet, model: axleOutlooks.model };
const groupOrder = (groupBy: GroupBy | null): Order =>
  groupBy
    ? { is_unnamed: sql`${GROUP_COLUMNS[groupBy]} is null`, name: sql`ifnull(${GROUP_COLUMNS[groupBy]}, '')` }
    : {};

/** If the early date decides, its index provides the order. */
const earlyOrder = (by: DueBy): Order => ({
  early:
    by === 'early'
      ? sql`${axleOutlooks.earlyDate}`
      : sql`ifnull(${axleOutlooks.earlyDate}, ${sql.raw(`'${NO_EARLY_DATE}'`)})`,
  vehicle_seq: sql`${axleOutlooks.vehicleSeq}`,
  axle: sql`${axleOutlooks.axle}`,
});

/** Parameters of `behind`: the last row of the previous page. */
export const placeOf = (after: readonly (string | number)[] | null | undefined): Record<string, unknown> =>
  Object.fromEntries([0, 1, 2, 3, 4].map((index) => [`after${index}`, after?.[index] ?? null]));

function behind(order: readonly SQL[]): SQL {
  const place = order.map((_, index) => sql`${sql.placeholder(`after${index}`)}`);
  return sql`(${listed(order)}) > (${listed(place)})`;
}

const isBehind = (order: readonly SQL[]): SQL<number> =>
  sql<number>`(${sql.placeholder('after1')} is null or ${behind(order)})`;

/** Without a limit on rows. */
export const NO_LIMIT = -1;
const LIMIT = sql.placeholder('limit');

const listed = (parts: readonly SQL[]): SQL => sql.join([...parts], sql`, `);
const unionAll = (selects: readonly SQL[]): SQL => sql.join([...selects], sql` union all `);
const namesOf = (columns: Columns, of = ''): SQL[] => Object.keys(columns).map((name) => sql.raw(of + name));

function axlesWhere(columns: Columns, where: SQL | undefined, index: string | null = null): SQL {
  const named = Object.entries(columns).map(([name, column]) => sql`${column} as ${sql.raw(name)}`);
  const by = index === null ? sql`` : sql.raw(`indexed by ${index}`);
  return sql`select ${listed(named)} from ${axleOutlooks} ${by} where ${where}`;
}

/** The index to use when the caller's fleets determine it; the planner's own choice would vary with its statistics. */
const INDEX_OF: Record<Whose, string | null> = {
  all: null,
  'one-fleet': 'axle_outlooks_fleet',
  fleets: 'axle_outlooks_fleet',
};
const leaving = (columns: Columns, where: SQL | undefined): SQL =>
  axlesWhere(columns, and(where, LEAVES), 'axle_outlooks_leaving');

/** Axles in service, as a union of those that stay and those that leave, since each has its own index. */
const inService = (whose: Whose, columns: Columns, where: SQL | undefined): SQL => {
  const matching = and(where, matchesQuestion(whose));
  return unionAll([axlesWhere(columns, and(matching, STAYS), INDEX_OF[whose]), leaving(columns, matching)]);
};

const identity = {
  vehicleId: vehicles.id,
  externalId: vehicles.externalId,
  registration: vehicles.registration,
  model: axleOutlooks.model,
};

/** Reads the rows of axles selected by their position in an order. */
function rowsAt(database: Database, places: SQL, order: Order) {
  const columns = namesOf(order, 'place.');
  return database
    .select({
      ...identity,
      seq: axleOutlooks.vehicleSeq,
      outlook: {
        axle: axleOutlooks.axle,
        fleet: axleOutlooks.fleet,
        asAtDate: axleOutlooks.asAtDate,
        earlyDate: axleOutlooks.earlyDate,
        overdueFrom: axleOutlooks.overdueFrom,
        failing: axleOutlooks.failing,
        crossing: axleOutlooks.crossing,
        counterpart: axleOutlooks.counterpart,
        linings: axleOutlooks.linings,
        governingSide: axleOutlooks.governingSide,
        governingPad: axleOutlooks.governingPad,
        limitMm: axleOutlooks.limitMm,
        limitSource: axleOutlooks.limitSource,
        lastReadingDate: axleOutlooks.lastReadingDate,
        measureDate: axleOutlooks.measureDate,
        expectedDate: axleOutlooks.expectedDate,
        stops: axleOutlooks.stops,
        changedAt: axleOutlooks.changedAt,
      },
    })
    .from(sql`(${places}) place`)
    .innerJoin(
      axleOutlooks,
      sql`${axleOutlooks.vehicleSeq} = place.vehicle_seq and ${axleOutlooks.axle} = place.axle`,
    )
    .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
    .orderBy(...columns)
    .prepare();
}

/** Like `rowsAt`, but without reading the rows. */
function placesAt(database: Database, places: SQL, order: Order) {
  return database
    .select({ seq: sql<number>`vehicle_seq`, axle: sql<Axle>`axle` })
    .from(sql`(${places}) place`)
    .orderBy(...namesOf(order))
    .prepare();
}

/** Reads the axles that may be due, of all vehicles or one. */
export function dueRowsOf(database: Database) {
  const ofVehicle = eq(axleOutlooks.vehicleSeq, sql.placeholder('vehicleSeq'));
  return {
    all: once((by: DueBy) => rowsAt(database, inService('all', earlyOrder(by), IS_DUE[by]), earlyOrder(by))),
    ofVehicle: once((by: DueBy) => {
      const where = and(ofVehicle, IS_DUE[by], matchesQuestion('all'), or(STAYS, LEAVES));
      return rowsAt(database, axlesWhere(earlyOrder(by), where), earlyOrder(by));
    }),
    ofAxle: once(() => {
      const where = and(ofVehicle, eq(axleOutlooks.axle, sql.placeholder('axle')));
      return rowsAt(database, axlesWhere(earlyOrder('early'), where), earlyOrder('early'));
    }),
  };
}

/** The rows of a page, or their places alone. */
export interface DuePage {
  rows: ReturnType<typeof rowsAt>;
  places: ReturnType<typeof placesAt>;
}

/** Due by early date: one page, and the total. */
function dueByEarly(database: Database, whose: Whose, groupBy: GroupBy | null) {
  const order = { ...groupOrder(groupBy), ...earlyOrder('early') };
  const page = (where: SQL | undefined): DuePage => {
    const places = sql`${inService(whose, order, where)} order by ${listed(namesOf(order))} limit ${LIMIT}`;
    return { rows: rowsAt(database, places, order), places: placesAt(database, places, order) };
  };
  return {
    first: page(IS_DUE.early),
    behind: page(and(IS_DUE.early, behind(Object.values(order)))),
    tallies:
      whose === 'all' && !groupBy
        ? countedOfAll(database)
        : counted(database, (columns) => inService(whose, columns, IS_DUE.early), groupBy),
  };
}

type Counting = (values: Record<string, unknown>) => Tally[];

/** Counts by reading the axles one by one; groups are in order. */
function counted(database: Database, axles: (columns: Columns) => SQL, groupBy: GroupBy | null): Counting {
  const columns = {
    name: groupBy ? sql`${GROUP_COLUMNS[groupBy]}` : sql`null`,
    axle: sql`${axleOutlooks.axle}`,
    overdue_from: sql`${axleOutlooks.overdueFrom}`,
  };
  const group = sql<string | null>`name`;
  const axle = sql<Axle>`axle`;
  const statement = database
    .select({
      group,
      axle,
      total: count(),
      overdueCount: sql<number>`sum(ifnull(overdue_from <= ${today}, 0))`,
    })
    .from(sql`(${axles(columns)}) due`)
    .groupBy(group, axle)
    .orderBy(sql`name is null`, group)
    .prepare();
  return (values) => statement.all(values);
}

/** All possible axles. */
const EVERY_AXLE = sql.raw(`json_each('${JSON.stringify(AXLES)}')`);

/** Counts index entries, which takes a tenth of the time, and reads only the axles that no index covers. */
function countedOfAll(database: Database): Counting {
  const here = and(
    sql`${axleOutlooks.axle} = every.value`,
    sql`${axleOutlooks.earlyDate} <= ${horizon}`,
    STAYS,
  );
  const countOf = (where: SQL | undefined) =>
    sql<number>`(select count(*) from ${axleOutlooks} where ${where})`;
  const statement = database
    .select({
      group: sql<null>`null`,
      axle: sql<Axle>`every.value`,
      total: countOf(here),
      overdueCount: countOf(and(here, sql`${axleOutlooks.overdueFrom} <= ${today}`)),
    })
    .from(sql`${EVERY_AXLE} every`)
    .where(sql`every.value = ifnull(${sql.placeholder('axle')}, every.value)`)
    .prepare();
  const due = and(IS_DUE.early, matchesQuestion('all'));
  const reachedBeforehand = and(due, sql`${axleOutlooks.earlyDate} > ${horizon}`, STAYS);
  const others = counted(
    database,
    (columns) => unionAll([axlesWhere(columns, reachedBeforehand), leaving(columns, due)]),
    null,
  );
  return (values) => [...statement.all(values).filter(({ total }) => total > 0), ...others(values)];
}

/** Candidates whose chances must be computed one by one. */
function dueByChance(database: Database, by: DueBy, whose: Whose, groupBy: GroupBy | null) {
  const order = { ...groupOrder(groupBy), ...earlyOrder(by) };
  return rowsAt(database, inService(whose, order, IS_DUE[by]), order);
}

/** Selects axles that are not due but need attention for another reason. */
type Listing = (whose: Whose, columns: Columns, notDue: SQL | undefined) => SQL;

const toMeasure: Listing = (whose, columns, notDue) =>
  unionAll(
    WANTS_MEASURING.map((why) =>
      inService(whose, columns, and(why, isNull(axleOutlooks.unassessed), notDue)),
    ),
  );

const stopped: Listing = (whose, columns, notDue) =>
  axlesWhere(
    columns,
    and(isNotNull(axleOutlooks.stops), matchesQuestion(whose), or(STAYS, LEAVES), notDue),
    'axle_outlooks_stopped',
  );

/** Axles that are not due: one page by early date, otherwise all of them, to be checked one by one. */
function notDue(database: Database, listing: Listing, by: 'early' | 'any', whose: Whose) {
  const order = earlyOrder('any');
  const wanted = (columns: Columns): SQL =>
    listing(
      whose,
      columns,
      by === 'early' ? sql`not ifnull(${hasCome(axleOutlooks.earlyDate)}, 0)` : undefined,
    );
  const names = namesOf(order);
  const page = sql`select * from (${wanted(order)}) where ${isBehind(names)} order by ${listed(names)} limit ${LIMIT}`;
  const counting = database
    .select({ total: count() })
    .from(sql`(${wanted({ one: sql`1` })}) wanted`)
    .prepare();
  return {
    rows: rowsAt(database, by === 'early' ? page : wanted(order), order),
    count: (values: Record<string, unknown>): number => counting.get(values)!.total,
  };
}

export function forecastStatements(database: Database) {
  return {
    dueByEarly: once((whose: Whose, groupBy: GroupBy | null) => dueByEarly(database, whose, groupBy)),
    dueByChance: once((by: DueBy, whose: Whose, groupBy: GroupBy | null) =>
      dueByChance(database, by, whose, groupBy),
    ),
    toMeasure: once((by: 'early' | 'any', whose: Whose) => notDue(database, toMeasure, by, whose)),
    stopped: once((by: 'early' | 'any', whose: Whose) => notDue(database, stopped, by, whose)),
  };
}
