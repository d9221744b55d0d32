import { and, asc, between, count, eq, gt, isNotNull, max, or, sql } from 'drizzle-orm';
import type { ForecastRow, NotDueQuestion, ReportRows } from '../../contract/reports.js';
import type { Database } from '../connection.js';
import type { CachedRows } from '../cachedRows.js';
import { axleOutlooks, vehicles } from '../schema.js';
import { isAmong, type Whose } from '../visibility.js';
import {
  datesOf,
  dueBy,
  dueRowsOf,
  forecastStatements,
  NO_LIMIT,
  placeOf,
  type DuePage,
} from './forecastStatements.js';
import { parametersOf, inService, matchesQuestion, once, TODAY } from './reportConditions.js';

/** Up to this many missing rows are read one by one. */
const MAX_READ_ALONE = 5;

const brake = sql<
  'disc' | 'drum'
>`case json_extract(${vehicles.body}, '$.axles."' || ${axleOutlooks.axle} || '".brake') when 'drum' then 'drum' else 'disc' end`;

/** @param kept cached rows for a page of due axles; null on any view other than the latest committed data */
export function reportRows(database: Database, kept: CachedRows | null = null): ReportRows {
  const statements = forecastStatements(database);
  const dueRows = dueRowsOf(database);
  const countingUnassessed = once((whose: Whose) =>
    database
      .select({ total: count() })
      .from(axleOutlooks)
      .where(and(isNotNull(axleOutlooks.unassessed), matchesQuestion(whose), inService(sql`${TODAY}`)))
      .prepare(),
  );
  const lastSeq = database
    .select({ seq: max(axleOutlooks.vehicleSeq) })
    .from(axleOutlooks)
    .prepare();

  /** A page from cached rows; reads the few that are missing. */
  function pageOfCached(
    kept: CachedRows,
    { rows, places }: DuePage,
    values: Record<string, unknown>,
  ): ForecastRow[] {
    const page = places.all(values);
    const missing = page.filter(({ seq, axle }) => !kept.get(seq, axle));
    if (missing.length > MAX_READ_ALONE) {
      const read = rows.all(values);
      read.forEach(kept.keep);
      return read;
    }
    for (const { seq, axle } of missing) {
      dueRows.ofAxle().all({ vehicleSeq: seq, axle }).forEach(kept.keep);
    }
    return page.map(({ seq, axle }) => kept.get(seq, axle)!);
  }

  function notDue(question: NotDueQuestion, by: 'early' | 'any') {
    const { whose, values } = parametersOf(question);
    const { listing, oldestReading } = question;
    return {
      statement: statements[listing](by, whose),
      values: { ...values, ...datesOf(question), oldest: oldestReading },
    };
  }

  return {
    async dueByEarly(question, { after, limit }) {
      const { whose, values } = parametersOf(question);
      const { first, behind } = statements.dueByEarly(whose, question.groupBy);
      const page = after ? behind : first;
      const placed = { ...values, ...datesOf(question), ...placeOf(after), limit: limit ?? NO_LIMIT };
      if (!kept || limit === null) return page.rows.all(placed);
      kept.isCurrent();
      const rows = pageOfCached(kept, page, placed);
      // Another process may have written between two of the statements; if so, read the page again.
      return kept.isCurrent() ? rows : page.rows.all(placed);
    },

    async countDueByEarly(question) {
      const { whose, values } = parametersOf(question);
      const { tallies } = statements.dueByEarly(whose, question.groupBy);
      return tallies({ ...values, ...datesOf(question) });
    },

    async perhapsDue(question, vehicleSeq) {
      const { whose, values } = parametersOf(question);
      const by = dueBy(question.chance);
      const statement =
        vehicleSeq === null ? statements.dueByChance(by, whose, question.groupBy) : dueRows.ofVehicle(by);
      return statement.all({ ...values, ...datesOf(question), ...placeOf(null), vehicleSeq });
    },

    async notDueByEarly(question, { after, limit }) {
      const { statement, values } = notDue(question, 'early');
      return statement.rows.all({ ...values, ...placeOf(after), limit: limit ?? NO_LIMIT });
    },

    async countNotDueByEarly(question) {
      const { statement, values } = notDue(question, 'early');
      return statement.count(values);
    },

    async listed(question) {
      const { statement, values } = notDue(question, 'any');
      return statement.rows.all({ ...values, ...placeOf(null) });
    },

    async unassessed({ fleets, today, axle }, { after, limit }) {
      const [seq, name] = after ?? [];
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
            isAmong(axleOutlooks.fleet, fleets),
            axle === null ? undefined : eq(axleOutlooks.axle, axle),
            inService(today),
            seq === undefined
              ? undefined
              : or(
                  gt(axleOutlooks.vehicleSeq, Number(seq)),
                  and(eq(axleOutlooks.vehicleSeq, Number(seq)), sql`${axleOutlooks.axle} > ${name}`),
                ),
          ),
        )
        .orderBy(asc(axleOutlooks.vehicleSeq), asc(axleOutlooks.axle))
        .$dynamic();
      const rows = limit === null ? select.all() : select.limit(limit).all();
      return rows.map((row) => ({ ...row, reason: row.reason! }));
    },

    async countUnassessed(filter) {
      const { whose, values } = parametersOf(filter);
      return countingUnassessed(whose).get(values)!.total;
    },

    lastVehicleSeq: async () => lastSeq.get()?.seq ?? 0,

    mayNeedParts: async ({ fleets, today }, by, from, to) =>
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
            // The unary plus keeps the planner on the primary key; any other index would be searched for every batch.
            sql`(+${axleOutlooks.firstDate} <= ${by} or ${axleOutlooks.failing} or ${axleOutlooks.rotorsNow})`,
            isAmong(axleOutlooks.fleet, fleets),
            inService(today),
          ),
        )
        .all(),
  };
}
