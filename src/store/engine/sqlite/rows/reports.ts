import { and, asc, between, count, eq, gt, isNotNull, max, or, sql } from 'drizzle-orm';
import type { NotDueQuestion, ReportRows } from '../../contract/reports.js';
import type { Database } from '../connection.js';
import { axleOutlooks, vehicles } from '../schema.js';
import { isAmong, type Whose } from '../visibility.js';
import { datesOf, dueBy, dueRowsOf, forecastStatements, NO_LIMIT, placeOf } from './forecastStatements.js';
import { askedOf, inService, isAskedOf, once, TODAY } from './reportConditions.js';

const brake = sql<
  'disc' | 'drum'
>`case json_extract(${vehicles.body}, '$.axles."' || ${axleOutlooks.axle} || '".brake') when 'drum' then 'drum' else 'disc' end`;

export function reportRows(database: Database): ReportRows {
  const statements = forecastStatements(database);
  const dueRows = dueRowsOf(database);
  const countingUnassessed = once((whose: Whose) =>
    database
      .select({ total: count() })
      .from(axleOutlooks)
      .where(and(isNotNull(axleOutlooks.unassessed), isAskedOf(whose), inService(sql`${TODAY}`)))
      .prepare(),
  );
  const lastSeq = database
    .select({ seq: max(axleOutlooks.vehicleSeq) })
    .from(axleOutlooks)
    .prepare();

  function notDue(question: NotDueQuestion, by: 'early' | 'any') {
    const { whose, values } = askedOf(question);
    const { listing, oldestReading } = question;
    return {
      statement: statements[listing](by, whose),
      values: { ...values, ...datesOf(question), oldest: oldestReading },
    };
  }

  return {
    async dueByEarly(question, { after, limit }) {
      const { whose, values } = askedOf(question);
      const { first, behind } = statements.dueByEarly(whose, question.groupBy);
      const place = { ...placeOf(after), limit: limit ?? NO_LIMIT };
      return (after ? behind : first).all({ ...values, ...datesOf(question), ...place });
    },

    async countDueByEarly(question) {
      const { whose, values } = askedOf(question);
      const { tallies } = statements.dueByEarly(whose, question.groupBy);
      return tallies({ ...values, ...datesOf(question) });
    },

    async perhapsDue(question, vehicleSeq) {
      const { whose, values } = askedOf(question);
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

    async countUnassessed(asked) {
      const { whose, values } = askedOf(asked);
      return countingUnassessed(whose).get(values)!.total;
    },

    lastVehicleSeq: async () => lastSeq.get()?.seq ?? 0,

    needy: async ({ fleets, today }, by, from, to) =>
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
