import { and, count, eq, isNotNull, isNull, sql, type SQL } from 'drizzle-orm';
import { PROBABILITIES } from '../core/forecast/crossing.js';
import type { GroupBy } from '../core/vocabulary/terms.js';
import type { Database } from './database.js';
import { isAsked, once, type Whose } from './reportConditions.js';
import { axleOutlooks, vehicles } from './schema.js';

/**
 * The statements of the reports on forecasts, each prepared once a shape: what is due or wants measuring, whose vehicles,
 * and what the list is grouped by. Where the early date decides, counts are read from indexes alone, and so are the
 * places of the axles on a page, before their rows are.
 */

/** The chance behind the early date: asked for by default, and answered by the index alone. */
export const EARLY_CHANCE = 0.1;
/** The chance behind the first date. */
const FIRST_CHANCE = PROBABILITIES[0]!;

/** Sorts behind every date: axles with a chance but no early date within thirty years come last. */
export const NO_EARLY_DATE = '9999-12-31';

/** How candidates are found. */
export type DueBy = 'early' | 'early-and-near' | 'first-and-near' | 'any';

export function dueBy(chance: number): DueBy {
  if (chance === EARLY_CHANCE) return 'early';
  if (chance > EARLY_CHANCE) return 'early-and-near';
  return chance >= FIRST_CHANCE ? 'first-and-near' : 'any';
}

/** Where a crossing has the days to the next kept chance below the one asked for. */
export function daysBelow(chance: number): string {
  const above = PROBABILITIES.findIndex((probability) => probability >= chance);
  return `$.days[${Math.max(0, (above < 0 ? PROBABILITIES.length : above) - 1)}]`;
}

const [horizon, today] = [sql.placeholder('horizon'), sql.placeholder('today')];

/**
 * Whether a date has come by the horizon. What was found reached at a visit has, even where its date is still to come;
 * `latest` is the later of the horizon and the last date that a visit may have.
 */
const hasCome = (date: typeof axleOutlooks.earlyDate | typeof axleOutlooks.firstDate): SQL =>
  sql`(${date} <= ${sql.placeholder('latest')} and (${date} <= ${horizon} or ${date} <= ${axleOutlooks.asAtDate}))`;

/** Whether a chance a little below the one asked for is reached by the horizon, told before a crossing is read whole. */
const isNear = sql`json_extract(${axleOutlooks.crossing}, ${sql.placeholder('daysBelow')})
  <= max(0, julianday(${horizon}) - julianday(${axleOutlooks.asAtDate}))`;

const IS_DUE: Record<DueBy, SQL> = {
  early: sql`${axleOutlooks.earlyDate} is not null and ${hasCome(axleOutlooks.earlyDate)}`,
  'early-and-near': sql`${hasCome(axleOutlooks.earlyDate)} and ${isNear}`,
  'first-and-near': sql`${hasCome(axleOutlooks.firstDate)} and ${isNear}`,
  // Below the first chance that is kept no date can tell, and every axle with a projection is looked at.
  any: isNotNull(axleOutlooks.crossing),
};

/** A vehicle that comes as expected is measured then. */
const isToBePlanned = sql`(${axleOutlooks.measureDate} <= ${horizon}
  and (${axleOutlooks.expectedDate} > ${axleOutlooks.measureDate} or ${axleOutlooks.expectedDate} < ${today}))`;

/** Why an axle wants measuring; each has its index, and the second is counted where the first does not hold. */
const WANTS_MEASURING = [
  isToBePlanned,
  sql`${axleOutlooks.lastReadingDate} < ${sql.placeholder('oldest')} and not ifnull(${isToBePlanned}, 0)`,
];

/** Where a list is split, and an order that puts what has no such name last. */
const GROUP_COLUMNS = { fleet: axleOutlooks.fleet, model: vehicles.model };
const groupOrder = (groupBy: GroupBy | null): SQL[] =>
  groupBy ? [sql`${GROUP_COLUMNS[groupBy]} is null`, sql`ifnull(${GROUP_COLUMNS[groupBy]}, '')`] : [];

/** Where the early date decides, its index has the order. */
const earlyOrder = (by: DueBy): SQL[] => [
  by === 'early'
    ? sql`${axleOutlooks.earlyDate}`
    : sql`ifnull(${axleOutlooks.earlyDate}, ${sql.raw(`'${NO_EARLY_DATE}'`)})`,
  sql`${axleOutlooks.vehicleSeq}`,
  sql`${axleOutlooks.axle}`,
];

/** The last row of the page before: what fills `behind`. */
export const placeOf = (after: readonly (string | number)[] | null | undefined): Record<string, unknown> =>
  Object.fromEntries([0, 1, 2, 3, 4].map((index) => [`after${index}`, after?.[index] ?? null]));

function behind(order: readonly SQL[]): SQL<number> {
  const place = order.map((_, index) => sql`${sql.placeholder(`after${index}`)}`);
  return sql<number>`(${sql.join([...order], sql`, `)}) > (${sql.join(place, sql`, `)})`;
}

const isBehind = (order: readonly SQL[]): SQL<number> =>
  sql<number>`(${sql.placeholder('after1')} is null or ${behind(order)})`;

/** Every row that there is. */
export const NO_LIMIT = -1;
const LIMIT = sql.placeholder('limit');

export const identity = {
  vehicleId: vehicles.id,
  externalId: vehicles.externalId,
  registration: vehicles.registration,
  model: vehicles.model,
};

/** Rows of forecasts in an order, those behind a page marked. */
function rowsWhere(database: Database, where: SQL | undefined, order: readonly SQL[]) {
  return database
    .select({
      ...identity,
      seq: axleOutlooks.vehicleSeq,
      outlook: axleOutlooks,
      isBehind: isBehind(order),
    })
    .from(axleOutlooks)
    .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
    .where(where)
    .orderBy(...order)
    .prepare();
}

export type ForecastRow = ReturnType<ReturnType<typeof rowsWhere>['all']>[number];

/** The rows of axles whose places are selected. */
function rowsAt(database: Database, places: SQL, order: readonly SQL[]) {
  return rowsWhere(database, sql`(${axleOutlooks.vehicleSeq}, ${axleOutlooks.axle}) in (${places})`, order);
}

const PLACE = sql`select ${axleOutlooks.vehicleSeq}, ${axleOutlooks.axle} from ${axleOutlooks}`;
const OF_VEHICLE = sql` inner join ${vehicles} on ${vehicles.seq} = ${axleOutlooks.vehicleSeq}`;

/** Reads what may be due: of all vehicles or of one. */
export function dueRowsOf(database: Database) {
  const ofVehicle = eq(axleOutlooks.vehicleSeq, sql.placeholder('vehicleSeq'));
  const rows = (by: DueBy, where?: SQL) =>
    rowsWhere(database, and(where, IS_DUE[by], isAsked('all')), earlyOrder(by));
  return {
    all: once((by: DueBy) => rows(by)),
    ofVehicle: once((by: DueBy) => rows(by, ofVehicle)),
  };
}

/** What is due by its early date: a page of it, and how much of it there is. */
function dueByEarly(database: Database, whose: Whose, groupBy: GroupBy | null) {
  const where = and(IS_DUE.early, isAsked(whose))!;
  const order = [...groupOrder(groupBy), ...earlyOrder('early')];
  const from = groupBy === 'model' ? OF_VEHICLE : sql``;
  const page = (condition: SQL): ReturnType<typeof rowsAt> =>
    rowsAt(
      database,
      sql`${PLACE}${from} where ${condition} order by ${sql.join(order, sql`, `)} limit ${LIMIT}`,
      order,
    );
  const counting = database
    .select({
      group: sql<string | null>`${groupBy ? GROUP_COLUMNS[groupBy] : sql`null`}`,
      axle: axleOutlooks.axle,
      total: count(),
      overdueCount: sql<number>`sum(${axleOutlooks.failing} or ifnull(${axleOutlooks.medianDate} <= ${today}, 0))`,
    })
    .from(axleOutlooks)
    .$dynamic();
  if (groupBy === 'model') counting.innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq));
  return {
    first: page(where),
    behind: page(and(where, behind(order))!),
    tallies: counting
      .where(where)
      .groupBy(...groupOrder(groupBy), axleOutlooks.axle)
      .orderBy(...groupOrder(groupBy))
      .prepare(),
  };
}

/** What may be due where chances have to be looked at one by one. */
function dueByChance(database: Database, by: DueBy, whose: Whose, groupBy: GroupBy | null) {
  return rowsWhere(database, and(IS_DUE[by], isAsked(whose)), [...groupOrder(groupBy), ...earlyOrder(by)]);
}

/** What wants measuring: by the early date a page of it, what is due left out; else all that is looked at one by one. */
function toMeasure(database: Database, by: 'early' | 'any', whose: Whose) {
  const wanted = WANTS_MEASURING.map((why) =>
    and(
      why,
      isNull(axleOutlooks.unassessed),
      by === 'early' ? sql`not ifnull(${hasCome(axleOutlooks.earlyDate)}, 0)` : undefined,
      isAsked(whose),
    )!,
  );
  const early = sql.raw(`ifnull(early_date, '${NO_EARLY_DATE}')`);
  const all = sql.join(
    wanted.map(
      (where) => sql`select vehicle_seq, axle, ${early} as early from ${axleOutlooks} where ${where}`,
    ),
    sql` union all `,
  );
  const order = ['early', 'vehicle_seq', 'axle'].map((name) => sql.raw(name));
  const page = sql` where ${isBehind(order)} order by ${sql.join(order, sql`, `)} limit ${LIMIT}`;
  const counts = wanted.map((where) =>
    database.select({ total: count() }).from(axleOutlooks).where(where).prepare(),
  );
  return {
    rows: rowsAt(
      database,
      sql`select vehicle_seq, axle from (${all})${by === 'early' ? page : sql``}`,
      earlyOrder('any'),
    ),
    count: (values: Record<string, unknown>): number =>
      counts.reduce((sum, statement) => sum + statement.get(values)!.total, 0),
  };
}

export function forecastStatements(database: Database) {
  return {
    dueByEarly: once((whose: Whose, groupBy: GroupBy | null) => dueByEarly(database, whose, groupBy)),
    dueByChance: once((by: DueBy, whose: Whose, groupBy: GroupBy | null) =>
      dueByChance(database, by, whose, groupBy),
    ),
    toMeasure: once((by: 'early' | 'any', whose: Whose) => toMeasure(database, by, whose)),
  };
}
