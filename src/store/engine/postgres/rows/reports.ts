import { and, asc, between, count, eq, gt, isNotNull, isNull, max, or, sql, type SQL } from 'drizzle-orm';
import { PROBABILITIES } from '../../../../core/forecast/crossing.js';
import { itemAt, required } from '../../../../core/items.js';
import type { Axle, GroupBy } from '../../../../core/vocabulary/terms.js';
import {
  EARLY_CHANCE,
  NO_EARLY_DATE,
  type AxleFilter,
  type DueQuestion,
  type ForecastRow,
  type NotDueQuestion,
  type ReportRows,
  type Slice,
} from '../../contract/reports.js';
import type { Database } from '../connections.js';
import { axleOutlooks, vehicles } from '../schema.js';
import { isAmong } from '../visibility.js';

/** The chance of the first date. */
const FIRST_CHANCE = itemAt(PROBABILITIES, 0);

/** A vehicle in service has no end date, or one in the future. Each case has its own index. */
const STAYS = isNull(axleOutlooks.outOfServiceDate);
const leaves = (today: string): SQL => gt(axleOutlooks.outOfServiceDate, today);

const matchesFilter = ({ fleets, axle }: AxleFilter): SQL | undefined =>
  and(isAmong(axleOutlooks.fleet, fleets), axle === null ? undefined : eq(axleOutlooks.axle, axle));

/** Whether a date has come by the horizon, or by the visit at which the limit was found reached. */
const hasCome = (
  date: typeof axleOutlooks.earlyDate | typeof axleOutlooks.firstDate,
  { horizon, latestVisit }: DueQuestion,
): SQL => {
  const latest = horizon > latestVisit ? horizon : latestVisit;
  return sql`(${date} <= ${latest} and (${date} <= ${horizon} or ${date} <= ${axleOutlooks.asAtDate}))`;
};

const isDueByEarly = (question: DueQuestion): SQL => hasCome(axleOutlooks.earlyDate, question);

/**
 * Whether a chance slightly below the requested one is reached by the horizon, decided without reading the whole
 * crossing.
 */
function isNear({ chance, horizon }: DueQuestion): SQL {
  const above = PROBABILITIES.findIndex((probability) => probability >= chance);
  const below = Math.max(0, (above < 0 ? PROBABILITIES.length : above) - 1);
  const days = sql.raw(`{days,${below}}`);
  const counterpartDays = sql.raw(`{crossing,days,${below}}`);
  return sql`(${axleOutlooks.asAtDate} is not null
    and least(
      coalesce((${axleOutlooks.crossing} #>> '${days}')::float8, 1e9),
      coalesce((${axleOutlooks.counterpart} #>> '${counterpartDays}')::float8, 1e9)
    ) <= greatest(0, ${horizon}::date - ${axleOutlooks.asAtDate}::date))`;
}

/** Selects every axle that is due, and perhaps others, by the index of the nearest stored chance. */
function mayBeDue(question: DueQuestion): SQL | undefined {
  const { chance } = question;
  if (chance === EARLY_CHANCE) return isDueByEarly(question);
  if (chance > EARLY_CHANCE) return and(isDueByEarly(question), isNear(question));
  if (chance >= FIRST_CHANCE) return and(hasCome(axleOutlooks.firstDate, question), isNear(question));
  // Below the first stored chance no date helps: check every axle with a forecast.
  return isNotNull(axleOutlooks.part);
}

/** Combines the given conditions; at least one must be given. */
const allOf = (...conditions: (SQL | undefined)[]): SQL => required(and(...conditions), 'condition');

/** A vehicle whose expected visit is ahead is measured at that visit. */
const isToBePlanned = ({ horizon, today }: DueQuestion): SQL =>
  sql`(${axleOutlooks.measureDate} <= ${horizon}
    and (${axleOutlooks.expectedDate} > ${axleOutlooks.measureDate} or ${axleOutlooks.expectedDate} < ${today}))`;

/** The reasons to list an axle that is not due; no axle meets two of them. */
function reasonsToList(question: NotDueQuestion): SQL[] {
  if (question.listing === 'stopped') return [isNotNull(axleOutlooks.stops)];
  const isOld = sql`${axleOutlooks.lastReadingDate} < ${question.oldestReading}`;
  const isOnlyOld = and(isOld, sql`not coalesce(${isToBePlanned(question)}, false)`);
  return [isToBePlanned(question), isOnlyOld].map((why) => allOf(why, isNull(axleOutlooks.unassessed)));
}

const notDueByEarly = (question: NotDueQuestion): SQL[] =>
  reasonsToList(question).map((why) => allOf(why, sql`not coalesce(${isDueByEarly(question)}, false)`));

/**
 * Axles in service that meet one of the conditions; no axle may meet two. A union lets each condition use its index;
 * with `or`, the planner would scan the table.
 *
 * @param rest SQL that follows each condition, such as an order
 */
const inService = (filter: AxleFilter, conditions: readonly SQL[], columns: SQL, rest = sql``): SQL =>
  sql.join(
    conditions.flatMap((condition) =>
      [STAYS, leaves(filter.today)].map(
        (isInService) =>
          sql`(select ${columns} from ${axleOutlooks} where ${and(condition, matchesFilter(filter), isInService)} ${rest})`,
      ),
    ),
    sql` union all `,
  );

/** The order of a list: by group (rows without one last), then early date, vehicle and axle. */
function orderOf(groupBy: GroupBy | null, early: SQL): SQL[] {
  const group = groupBy && { fleet: axleOutlooks.fleet, model: axleOutlooks.model }[groupBy];
  return [
    ...(group ? [sql`(${group} is null)::int`, sql`coalesce(${group}, '')`] : []),
    early,
    sql`${axleOutlooks.vehicleSeq}`,
    sql`${axleOutlooks.axle}`,
  ];
}

/** The early date to order by, if it may be missing. */
const anyEarly = sql`coalesce(${axleOutlooks.earlyDate}, ${sql.raw(`'${NO_EARLY_DATE}'`)})`;

const listed = (parts: readonly SQL[]): SQL => sql.join([...parts], sql`, `);

const rowColumns = {
  vehicleId: vehicles.id,
  externalId: vehicles.externalId,
  registration: vehicles.registration,
  model: axleOutlooks.model,
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
};

const brake = sql<
  'disc' | 'drum'
>`case ${vehicles.body} -> 'axles' -> ${axleOutlooks.axle} ->> 'brake' when 'drum' then 'drum' else 'disc' end`;

export function reportRows(database: Database): ReportRows {
  const lastSeq = database
    .select({ seq: max(axleOutlooks.vehicleSeq) })
    .from(axleOutlooks)
    .prepare('');

  /** Reads a slice of axles in order; each index returns at most as many as requested. */
  async function sliceOf(
    filter: AxleFilter,
    conditions: readonly SQL[],
    order: readonly SQL[],
    { after, limit }: Slice,
  ): Promise<ForecastRow[]> {
    const behind = after && sql`(${listed(order)}) > (${listed(after.map((value) => sql`${value}`))})`;
    const asMany = limit === null ? sql`` : sql`limit ${limit}`;
    const names = order.map((_, index) => sql.raw(`place${index}`));
    const places = listed([
      sql`${axleOutlooks.vehicleSeq} as vehicle_seq`,
      sql`${axleOutlooks.axle} as axle`,
      ...order.map((column, index) => sql`${column} as ${itemAt(names, index)}`),
    ]);
    const each = conditions.map((condition) => allOf(condition, behind ?? undefined));
    const chosen = inService(filter, each, places, sql`order by ${listed(order)} ${asMany}`);
    const page = sql`(select * from (${chosen}) chosen order by ${listed(names)} ${asMany}) page`;
    return database
      .select(rowColumns)
      .from(page)
      .innerJoin(
        axleOutlooks,
        sql`${axleOutlooks.vehicleSeq} = page.vehicle_seq and ${axleOutlooks.axle} = page.axle`,
      )
      .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
      .orderBy(...names.map((name) => sql`page.${name}`));
  }

  async function countOf(filter: AxleFilter, conditions: readonly SQL[]): Promise<number> {
    const [counted] = await database
      .select({ total: count() })
      .from(sql`(${inService(filter, conditions, sql`1`)}) counted`);
    return required(counted, 'count').total;
  }

  return {
    dueByEarly: async (question, slice) =>
      sliceOf(
        question,
        [isDueByEarly(question)],
        orderOf(question.groupBy, sql`${axleOutlooks.earlyDate}`),
        slice,
      ),

    async countDueByEarly({ groupBy, ...question }) {
      const group = groupBy
        ? sql`${{ fleet: axleOutlooks.fleet, model: axleOutlooks.model }[groupBy]}`
        : sql`null::text`;
      const columns = sql`${group} as name, ${axleOutlooks.axle} as axle, ${axleOutlooks.overdueFrom} as overdue_from`;
      return database
        .select({
          group: sql<string | null>`name`,
          axle: sql<Axle>`axle`,
          total: count(),
          overdueCount: sql<number>`count(*) filter (where overdue_from <= ${question.today})`,
        })
        .from(sql`(${inService(question, [isDueByEarly(question)], columns)}) due`)
        .groupBy(sql`name`, sql`axle`)
        .orderBy(sql`name nulls last`);
    },

    async perhapsDue(question, vehicleSeq) {
      const isOfVehicle = vehicleSeq === null ? undefined : eq(axleOutlooks.vehicleSeq, vehicleSeq);
      const order = orderOf(question.groupBy, anyEarly);
      return sliceOf(question, [allOf(isOfVehicle, mayBeDue(question))], order, { after: null, limit: null });
    },

    notDueByEarly: async (question, slice) =>
      sliceOf(question, notDueByEarly(question), orderOf(null, anyEarly), slice),
    countNotDueByEarly: async (question) => countOf(question, notDueByEarly(question)),
    listed: async (question) =>
      sliceOf(question, reasonsToList(question), orderOf(null, anyEarly), { after: null, limit: null }),

    async unassessed(filter, { after, limit }) {
      const select = database
        .select({
          seq: axleOutlooks.vehicleSeq,
          vehicleId: vehicles.id,
          externalId: vehicles.externalId,
          registration: vehicles.registration,
          fleet: axleOutlooks.fleet,
          model: axleOutlooks.model,
          axle: axleOutlooks.axle,
          lastReadingDate: axleOutlooks.lastReadingDate,
          reason: axleOutlooks.unassessed,
        })
        .from(axleOutlooks)
        .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
        .where(
          and(
            isNotNull(axleOutlooks.unassessed),
            matchesFilter(filter),
            or(STAYS, leaves(filter.today)),
            after
              ? sql`(${axleOutlooks.vehicleSeq}, ${axleOutlooks.axle}) > (${after[0]}, ${after[1]})`
              : undefined,
          ),
        )
        .orderBy(asc(axleOutlooks.vehicleSeq), asc(axleOutlooks.axle))
        .$dynamic();
      const rows = await (limit === null ? select : select.limit(limit));
      return rows.map((row) => ({ ...row, reason: row.reason! }));
    },
    countUnassessed: async (filter) => countOf(filter, [isNotNull(axleOutlooks.unassessed)]),

    lastVehicleSeq: async () => itemAt(await lastSeq.execute(), 0).seq ?? 0,

    mayNeedParts: async (filter, by, from, to) =>
      database
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
        .where(
          and(
            between(axleOutlooks.vehicleSeq, from, to),
            sql`(${axleOutlooks.firstDate} <= ${by} or ${axleOutlooks.failing} or ${axleOutlooks.rotorsNow})`,
            isAmong(axleOutlooks.fleet, filter.fleets),
            or(STAYS, leaves(filter.today)),
          ),
        ),
  };
}
