import { group } from 'd3-array';
import { and, asc, eq, gt, isNotNull, or } from 'drizzle-orm';
import { dueFirst, partsDue, type PartDue } from '../../core/assessment/dueParts.js';
import { measureReasons } from '../../core/assessment/measureFirst.js';
import { chanceBy } from '../../core/assessment/forecastDates.js';
import { toDay, toFullDate } from '../../core/calendar.js';
import { AXLES, type GroupBy } from '../../core/vocabulary/terms.js';
import type { Database } from '../engine/sqlite/connection.js';
import {
  daysBelow,
  dueBy,
  dueRowsOf,
  EARLY_CHANCE,
  forecastStatements,
  identity,
  NO_EARLY_DATE,
  NO_LIMIT,
  placeOf,
  type ForecastRow,
  type Tally,
} from '../engine/sqlite/forecastStatements.js';
import type { StoreParts } from '../parts.js';
import { partsDemandReader } from './partsDemand.js';
import { askedOf, inService, unassessedCounter } from '../engine/sqlite/reportConditions.js';
import { visibleTo } from '../engine/sqlite/visibility.js';
import { axleOutlooks, vehicles } from '../engine/sqlite/schema.js';
import { OPERATOR, type Caller } from '../contract/caller.js';
import type { Page } from '../contract/paging.js';
import type {
  DueAxle,
  DueSoonQuery,
  DueTotals,
  MeasureFirstAxle,
  ReportStore,
  StoppedAxle,
} from '../contract/reports.js';

type Horizon = Pick<DueSoonQuery, 'today' | 'horizon'>;

/** The latest date that a visit may have on a day: today's date may be the one at UTC−12, and a visit be at UTC+14. */
const LATEST_VISIT_DAYS = 2;

/** What a statement on forecasts asks of a day and a chance. */
function datesOf({ today, horizon, chance }: Horizon & Pick<DueSoonQuery, 'chance'>) {
  const latestVisit = toFullDate(toDay(today) + LATEST_VISIT_DAYS);
  return {
    today,
    horizon,
    latest: horizon > latestVisit ? horizon : latestVisit,
    ...daysBelow(chance),
  };
}

/** Lists whose counts are at hand. */
const MOST_COUNTED = 100;

/**
 * Reads the axles whose chance of reaching their limit by a horizon is at least so great: of one vehicle, or of all.
 */
export function dueReader(database: Database) {
  const rows = dueRowsOf(database);
  return (
    question: Pick<DueSoonQuery, 'today' | 'horizon' | 'chance'>,
    vehicleSeq: number | null,
  ): { seq: number; item: DueAxle }[] => {
    const query = { ...question, fleet: null, axle: null };
    const { values } = askedOf(OPERATOR, query);
    const statementFor = vehicleSeq === null ? rows.all : rows.ofVehicle;
    return statementFor(dueBy(query.chance))
      .all({ ...values, ...datesOf(query), ...placeOf(null), vehicleSeq })
      .flatMap((row) => {
        const due = partOf(row, query);
        return due ? [{ seq: row.seq, item: toDueAxle(row, query, due).item }] : [];
      });
  };
}

export function reportStore({ database, settings, whileUnchanged }: StoreParts): ReportStore {
  const statements = forecastStatements(database);
  const countUnassessed = unassessedCounter(database);

  function valuesOf(caller: Caller, query: DueSoonQuery, page: Page | null) {
    const { whose, values } = askedOf(caller, query);
    const { longestDaysWithoutReading } = settings().policy;
    const oldest = toFullDate(toDay(query.today) - longestDaysWithoutReading);
    return { whose, values: { ...values, ...datesOf(query), ...placeOf(page?.after), oldest } };
  }

  /** By the early date, without a look at axles that are not on the page. */
  function dueByEarly(caller: Caller, query: DueSoonQuery, page: Page | null) {
    const { whose, values } = valuesOf(caller, query, page);
    const { first, behind } = statements.dueByEarly(whose, query.groupBy ?? null);
    const limit = page ? page.limit + 1 : NO_LIMIT;
    const rows = (page?.after ? behind : first).all({ ...values, limit });
    return {
      ...pageOf(
        rows.map((row) => toDueAxle(row, query, partsOf(row)[0]!, row.outlook.earlyDate)),
        page,
      ),
      ...countsByEarly(JSON.stringify({ fleets: caller.fleets, query })),
    };
  }

  /** What is counted beside a page: the same on each of its list's pages. */
  const countsByEarly = whileUnchanged((asked: string) => {
    const { fleets, query } = JSON.parse(asked) as Pick<Caller, 'fleets'> & { query: DueSoonQuery };
    const caller = { ...OPERATOR, fleets };
    const { whose, values } = valuesOf(caller, query, null);
    const { tallies } = statements.dueByEarly(whose, query.groupBy ?? null);
    return { ...totalsOf(tallies(values), query.groupBy), ...countsOfOthers(caller, query) };
  }, MOST_COUNTED);

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
      ...pageOf(after ? inOrder.filter(({ key }) => compareKeys(key, after) > 0) : inOrder, page),
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

  /** Read in full where another chance than that of the early date says what is due. */
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

  /** A page of the axles that are not due and that a listing names, soonest early date first. */
  function pageNotDue<Item>(
    listing: Listing,
    { caller, query, page }: { caller: Caller; query: DueSoonQuery; page: Page | null },
    toItem: (row: ForecastRow) => Item,
  ) {
    const toKeyed = (row: ForecastRow) => ({ key: keyOf(row, row.outlook.earlyDate), item: toItem(row) });
    if (query.chance === EARLY_CHANCE) {
      const { whose, values } = valuesOf(caller, query, page);
      const limit = page ? page.limit + 1 : NO_LIMIT;
      const rows = statements[listing]('early', whose).rows.all({ ...values, limit });
      return { ...pageOf(rows.map(toKeyed), page), total: countNotDue(listing, caller, query) };
    }
    const all = allNotDue(listing, caller, query, page);
    return { ...pageOf(all.filter((row) => row.isBehind).map(toKeyed), page), total: all.length };
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
      const rows = page ? select.limit(page.limit + 1).all() : select.all();
      const keyed = rows.map(({ seq, reason, ...axle }) => ({
        key: [seq, axle.axle],
        item: { ...axle, reason: reason! },
      }));
      return { ...pageOf(keyed, page), total: countUnassessed(caller, query) };
    },

    partsDemand: partsDemandReader(database),
  };
}

/** Lists of axles that are not due. */
type Listing = 'toMeasure' | 'stopped';

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

const groupOf = ({ outlook, model }: ForecastRow, { groupBy }: DueSoonQuery): string | null =>
  groupBy ? { fleet: outlook.fleet, model }[groupBy] : null;

function tallyOf(row: ForecastRow, query: DueSoonQuery): Tally {
  const overdueCount = Number(isOverdue(row, query));
  return { group: groupOf(row, query), axle: row.outlook.axle, total: 1, overdueCount };
}

/** @param tallies in the order of their groups */
function totalsOf(
  tallies: readonly Tally[],
  groupBy: GroupBy | undefined,
): DueTotals & { groups: (DueTotals & { group: string | null })[] } {
  const groups = groupBy ? [...group(tallies, (tally) => tally.group)] : [];
  return { ...sumOf(tallies), groups: groups.map(([name, own]) => ({ group: name, ...sumOf(own) })) };
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

const isOverdue = ({ outlook: { overdueFrom } }: ForecastRow, { today }: Horizon): boolean =>
  overdueFrom !== null && overdueFrom <= today;

const partsOf = ({ outlook }: ForecastRow): PartDue[] => {
  const { governingSide: side, governingPad: pad } = outlook;
  return partsDue({ ...outlook, governingPad: side && pad ? { side, pad } : null });
};

/** What is due on an axle by a horizon with a chance; null where nothing is. */
const partOf = (row: ForecastRow, query: DueSoonQuery): PartDue | null =>
  dueFirst(partsOf(row), row.outlook.asAtDate!, query);

/** Of an axle whose linings have a forecast. */
const liningsOf = (row: ForecastRow): PartDue => partsOf(row).find(({ part }) => part === 'pads')!;

const keyOf = ({ outlook, seq }: ForecastRow, earlyDate: string | null): (string | number)[] => [
  earlyDate ?? NO_EARLY_DATE,
  seq,
  outlook.axle,
];

/** Orders keys as the database does, text by its bytes in UTF-8. */
function compareKeys(a: readonly (string | number)[], b: readonly (string | number)[]): number {
  for (const [index, one] of a.entries()) {
    const other = b[index]!;
    const order =
      typeof one === 'number'
        ? one - Number(other)
        : Buffer.compare(Buffer.from(one), Buffer.from(String(other)));
    if (order !== 0) return order;
  }
  return 0;
}

function toForecastAxle(
  row: ForecastRow,
  { horizon }: Horizon,
  { part, crossing, dates, governingPad, limitMm, limitSource, lastReadingDate }: PartDue,
): Omit<DueAxle, 'overdue' | 'changedAt'> {
  const { vehicleId, externalId, registration, model, outlook } = row;
  const { axle, fleet, asAtDate } = outlook;
  return {
    vehicleId,
    externalId,
    registration,
    fleet,
    model,
    axle,
    chance: chanceBy(crossing, asAtDate!, horizon),
    earlyDate: dates.early,
    medianDate: dates.median,
    lateDate: dates.late,
    governingPad,
    limitMm,
    limitSource,
    lastReadingDate,
    part,
  };
}

function toStopped({ vehicleId, externalId, registration, model, outlook }: ForecastRow): StoppedAxle {
  const { fleet, axle, earlyDate, lastReadingDate, stops } = outlook;
  return {
    vehicleId,
    externalId,
    registration,
    fleet,
    model,
    axle,
    earlyDate,
    lastReadingDate,
    stops: stops!,
  };
}

/** @param earlyDate the date that the list is ordered by */
function toDueAxle(
  row: ForecastRow,
  query: DueSoonQuery,
  due: PartDue,
  earlyDate = due.dates.early,
): Keyed<DueAxle> {
  const item = toForecastAxle(row, query, due);
  const group = groupOf(row, query);
  return {
    key: [...(query.groupBy ? [Number(group === null), group ?? ''] : []), ...keyOf(row, earlyDate)],
    item: { ...item, overdue: isOverdue(row, query), changedAt: row.outlook.changedAt },
  };
}
