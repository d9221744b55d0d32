import { and, asc, eq, gt, isNotNull, or } from 'drizzle-orm';
import { measureReasons } from '../../core/assessment/measureFirst.js';
import { toDay, toFullDate } from '../../core/calendar.js';
import { OPERATOR, type Caller } from '../contract/caller.js';
import type { Page } from '../contract/paging.js';
import type { DueSoonQuery, MeasureFirstAxle, ReportStore } from '../contract/reports.js';
import {
  dueBy,
  EARLY_CHANCE,
  forecastStatements,
  identity,
  NO_LIMIT,
  placeOf,
  type ForecastRow,
} from '../engine/sqlite/forecastStatements.js';
import { askedOf, inService, unassessedCounter } from '../engine/sqlite/reportConditions.js';
import { axleOutlooks, vehicles } from '../engine/sqlite/schema.js';
import { visibleTo } from '../engine/sqlite/visibility.js';
import { pageOf, rowsFor } from '../paging.js';
import type { StoreParts } from '../parts.js';
import {
  compareKeys,
  keyOf,
  liningsOf,
  partOf,
  partsOf,
  toDueAxle,
  toForecastAxle,
  toStopped,
  type Keyed,
} from './axles.js';
import { datesOf } from './due.js';
import { partsDemandReader } from './partsDemand.js';
import { tallyOf, totalsOf } from './totals.js';

/** Maximum lists whose counts are cached. */
const MAX_COUNTED = 100;

export function reportStore({ database, settings, whileUnchanged }: StoreParts): ReportStore {
  const statements = forecastStatements(database);
  const countUnassessed = unassessedCounter(database);

  function valuesOf(caller: Caller, query: DueSoonQuery, page: Page | null) {
    const { whose, values } = askedOf(caller, query);
    const { longestDaysWithoutReading } = settings().policy;
    const oldest = toFullDate(toDay(query.today) - longestDaysWithoutReading);
    return { whose, values: { ...values, ...datesOf(query), ...placeOf(page?.after), oldest } };
  }

  /** By early date, reading only the axles on the page. */
  function dueByEarly(caller: Caller, query: DueSoonQuery, page: Page | null) {
    const { whose, values } = valuesOf(caller, query, page);
    const { first, behind } = statements.dueByEarly(whose, query.groupBy ?? null);
    const limit = page ? rowsFor(page) : NO_LIMIT;
    const rows = (page?.after ? behind : first).all({ ...values, limit });
    return {
      ...pageOfKeyed(
        rows.map((row) => toDueAxle(row, query, partsOf(row)[0]!, row.outlook.earlyDate)),
        page,
      ),
      ...countsByEarly(JSON.stringify({ fleets: caller.fleets, query })),
    };
  }

  /** Counts shown with a page; the same on every page of the list. */
  const countsByEarly = whileUnchanged((asked: string) => {
    const { fleets, query } = JSON.parse(asked) as Pick<Caller, 'fleets'> & { query: DueSoonQuery };
    const caller = { ...OPERATOR, fleets };
    const { whose, values } = valuesOf(caller, query, null);
    const { tallies } = statements.dueByEarly(whose, query.groupBy ?? null);
    return { ...totalsOf(tallies(values), query.groupBy), ...countsOfOthers(caller, query) };
  }, MAX_COUNTED);

  function dueByChance(caller: Caller, query: DueSoonQuery, page: Page | null) {
    const { whose, values } = valuesOf(caller, query, page);
    const due = statements
      .dueByChance(dueBy(query.chance), whose, query.groupBy ?? null)
      .all(values)
      .flatMap((row) => {
        const part = partOf(row, query);
        return part ? [{ row, keyed: toDueAxle(row, query, part) }] : [];
      });
    const inOrder = due.map(({ keyed }) => keyed).sort((a, b) => compareKeys(a.key, b.key));
    const after = page?.after;
    return {
      ...pageOfKeyed(after ? inOrder.filter(({ key }) => compareKeys(key, after) > 0) : inOrder, page),
      ...totalsOf(
        due.map(({ row }) => tallyOf(row, query)),
        query.groupBy,
      ),
      ...countsOfOthers(caller, query),
    };
  }

  const countsOfOthers = (caller: Caller, query: DueSoonQuery) => ({
    unassessedCount: countUnassessed(caller, query),
    measureFirstCount: countNotDue('toMeasure', caller, query),
    stopCount: countNotDue('stopped', caller, query),
  });

  function countNotDue(listing: Listing, caller: Caller, query: DueSoonQuery): number {
    if (query.chance !== EARLY_CHANCE) return allNotDue(listing, caller, query, null).length;
    const { whose, values } = valuesOf(caller, query, null);
    return statements[listing]('early', whose).count(values);
  }

  /** Reads all rows if another chance than the early date's decides what is due. */
  function allNotDue(
    listing: Listing,
    caller: Caller,
    query: DueSoonQuery,
    page: Page | null,
  ): ForecastRow[] {
    const { whose, values } = valuesOf(caller, query, page);
    return statements[listing]('any', whose)
      .rows.all(values)
      .filter((row) => partOf(row, query) === null);
  }

  /** One page of a listing's axles that are not due, soonest early date first. */
  function pageNotDue<Item>(
    listing: Listing,
    { caller, query, page }: { caller: Caller; query: DueSoonQuery; page: Page | null },
    toItem: (row: ForecastRow) => Item,
  ) {
    const toKeyed = (row: ForecastRow) => ({ key: keyOf(row, row.outlook.earlyDate), item: toItem(row) });
    if (query.chance === EARLY_CHANCE) {
      const { whose, values } = valuesOf(caller, query, page);
      const limit = page ? rowsFor(page) : NO_LIMIT;
      const rows = statements[listing]('early', whose).rows.all({ ...values, limit });
      return { ...pageOfKeyed(rows.map(toKeyed), page), total: countNotDue(listing, caller, query) };
    }
    const all = allNotDue(listing, caller, query, page);
    return { ...pageOfKeyed(all.filter((row) => row.isBehind).map(toKeyed), page), total: all.length };
  }

  const toMeasureFirst = (row: ForecastRow, query: DueSoonQuery): MeasureFirstAxle => {
    const { part: _, ...axle } = toForecastAxle(row, query, liningsOf(row));
    const { measureDate, expectedDate } = row.outlook;
    const reasons = measureReasons({ ...axle, measureDate, expectedDate }, query, settings().policy);
    return { ...axle, reasons };
  };

  return {
    async dueSoon(caller: Caller, query: DueSoonQuery, page: Page | null) {
      const due = query.chance === EARLY_CHANCE ? dueByEarly : dueByChance;
      return due(caller, query, page);
    },

    async measureFirst(caller: Caller, query: DueSoonQuery, page: Page | null) {
      return pageNotDue('toMeasure', { caller, query, page }, (row) => toMeasureFirst(row, query));
    },

    async stopped(caller: Caller, query: DueSoonQuery, page: Page | null) {
      return pageNotDue('stopped', { caller, query, page }, toStopped);
    },

    async unassessed(caller: Caller, query: { today: string; fleet: string | null }, page: Page | null) {
      const [seq, axle] = page?.after ?? [];
      const select = database
        .select({
          seq: axleOutlooks.vehicleSeq,
          vehicleId: identity.vehicleId,
          externalId: identity.externalId,
          registration: identity.registration,
          fleet: axleOutlooks.fleet,
          model: identity.model,
          axle: axleOutlooks.axle,
          lastReadingDate: axleOutlooks.lastReadingDate,
          reason: axleOutlooks.unassessed,
        })
        .from(axleOutlooks)
        .innerJoin(vehicles, eq(vehicles.seq, axleOutlooks.vehicleSeq))
        .where(
          and(
            isNotNull(axleOutlooks.unassessed),
            visibleTo(caller, axleOutlooks.fleet, query.fleet),
            inService(query.today),
            seq === undefined
              ? undefined
              : or(
                  gt(axleOutlooks.vehicleSeq, Number(seq)),
                  and(eq(axleOutlooks.vehicleSeq, Number(seq)), gt(axleOutlooks.axle, axle as never)),
                ),
          ),
        )
        .orderBy(asc(axleOutlooks.vehicleSeq), asc(axleOutlooks.axle));
      const rows = page ? select.limit(rowsFor(page)).all() : select.all();
      const keyed = rows.map(({ seq, reason, ...axle }) => ({
        key: [seq, axle.axle],
        item: { ...axle, reason: reason! },
      }));
      return { ...pageOfKeyed(keyed, page), total: countUnassessed(caller, query) };
    },

    partsDemand: partsDemandReader(database),
  };
}

/** Lists of axles that are not due. */
type Listing = 'toMeasure' | 'stopped';

const pageOfKeyed = <Item>(rows: readonly Keyed<Item>[], page: Page | null) =>
  pageOf(
    rows,
    page,
    ({ item }) => item,
    ({ key }) => key,
  );
