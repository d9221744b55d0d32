import { measureReasons } from '../../core/assessment/measureFirst.js';
import type { Policy } from '../../core/assessment/policy.js';
import { toDay, toFullDate } from '../../core/calendar.js';
import { fleetsSeen, type Caller } from '../contract/caller.js';
import type { Page } from '../contract/paging.js';
import type { DueSoonQuery, MeasureFirstAxle, ReportStore } from '../contract/reports.js';
import {
  EARLY_CHANCE,
  type ForecastRow,
  type NotDueQuestion,
  type Slice,
} from '../engine/contract/reports.js';
import { pageOf, rowsFor } from '../paging.js';
import type { ReadingRules, StoreParts } from '../parts.js';
import {
  compareKeys,
  keyOf,
  liningsOf,
  partOf,
  toDueAxle,
  toDueByEarly,
  toForecastAxle,
  toStopped,
  type Keyed,
} from './axles.js';
import { questionOf } from './due.js';
import { partsDemand } from './partsDemand.js';
import { tallyOf, totalsOf } from './totals.js';

/** Maximum lists whose counts are cached. */
const MAX_COUNTED = 100;
/** Maximum pages cached, for callers who request the same page repeatedly. */
const MAX_PAGES = 30;

export function reportStore({ reading, consistently, whileUnchanged }: StoreParts): ReportStore {
  type ListRequest = Pick<Caller, 'fleets'> & { query: DueSoonQuery };
  /** Counts shown with a page; the same on every page of the list. */
  const countsByEarly = whileUnchanged((request: string) => {
    const { fleets, query, page } = JSON.parse(request) as ListRequest & { page: 'one-of-several' | 'whole' };
    return consistently(async (own) => ({
      tallies:
        page === 'whole' ? null : await own.rows.reports.countDueByEarly(questionOf({ fleets }, query)),
      others: await countsOfOthers(own, { fleets }, query),
    }));
  }, MAX_COUNTED);

  /** By early date, reading only the axles on the page. */
  async function axlesByEarly(caller: Pick<Caller, 'fleets'>, query: DueSoonQuery, page: Page | null) {
    const rows = await reading.rows.reports.dueByEarly(questionOf(caller, query), sliceOf(page));
    return pageOfKeyed(
      rows.map((row) => toDueByEarly(row, query)),
      page,
    );
  }

  const pagesByEarly = whileUnchanged((request: string) => {
    const { fleets, query, page } = JSON.parse(request) as ListRequest & { page: Page };
    return axlesByEarly({ fleets }, query, page);
  }, MAX_PAGES);

  async function dueByEarly({ fleets }: Caller, query: DueSoonQuery, page: Page | null) {
    const axles = page
      ? await pagesByEarly(JSON.stringify({ fleets, query, page }))
      : await axlesByEarly({ fleets }, query, null);
    // If one page holds the whole list, count its items.
    const isWhole = !page?.after && axles.next === null;
    const request = { fleets, query, page: isWhole ? 'whole' : 'one-of-several' };
    const { tallies, others } = await countsByEarly(JSON.stringify(request));
    const counted = tallies ?? axles.items.map((item) => tallyOf(item, query));
    return { ...axles, ...totalsOf(counted, query.groupBy), ...others };
  }

  return {
    dueSoon: (caller, query, page) =>
      query.chance === EARLY_CHANCE
        ? dueByEarly(caller, query, page)
        : consistently((own) => dueByChance(own, caller, query, page)),

    measureFirst: (caller, query, page) =>
      consistently(async (own) => {
        const { policy } = await own.settings();
        const listed = { caller, query, page };
        return pageNotDue(own, 'toMeasure', listed, (row) => toMeasureFirst(row, query, policy));
      }),

    stopped: (caller, query, page) =>
      consistently((own) => pageNotDue(own, 'stopped', { caller, query, page }, toStopped)),

    unassessed: (caller, { today, fleet }, page) =>
      consistently(async ({ rows: { reports } }) => {
        const filter = { fleets: fleetsSeen(caller, fleet), today, axle: null };
        const rows = await reports.unassessed(filter, sliceOf(page));
        const keyed = rows.map(({ seq, ...item }) => ({ key: [seq, item.axle], item }));
        return { ...pageOfKeyed(keyed, page), total: await reports.countUnassessed(filter) };
      }),

    partsDemand: (caller, query) => partsDemand(reading, caller, query),
  };
}

const sliceOf = (page: Page | null): Slice => ({
  after: page?.after ?? null,
  limit: page && rowsFor(page),
});

async function dueByChance(own: ReadingRules, caller: Caller, query: DueSoonQuery, page: Page | null) {
  const rows = await own.rows.reports.perhapsDue(questionOf(caller, query), null);
  const due = rows.flatMap((row) => {
    const part = partOf(row, query);
    return part ? [toDueAxle(row, query, part)] : [];
  });
  const inOrder = due.toSorted((a, b) => compareKeys(a.key, b.key));
  const tallies = due.map(({ item }) => tallyOf(item, query));
  return {
    ...pageOfKeyed(behind(inOrder, page), page),
    ...totalsOf(tallies, query.groupBy),
    ...(await countsOfOthers(own, caller, query)),
  };
}

async function countsOfOthers(own: ReadingRules, caller: Pick<Caller, 'fleets'>, query: DueSoonQuery) {
  const { policy } = await own.settings();
  const countNotDue = async (listing: Listing): Promise<number> => {
    const question = notDueQuestion(policy, listing, caller, query);
    return query.chance === EARLY_CHANCE
      ? own.rows.reports.countNotDueByEarly(question)
      : (await allNotDue(own, question, query)).length;
  };
  return {
    unassessedCount: await own.rows.reports.countUnassessed(questionOf(caller, query)),
    measureFirstCount: await countNotDue('toMeasure'),
    stopCount: await countNotDue('stopped'),
  };
}

type Listing = NotDueQuestion['listing'];

function notDueQuestion(
  { longestDaysWithoutReading }: Policy,
  listing: Listing,
  caller: Pick<Caller, 'fleets'>,
  query: DueSoonQuery,
): NotDueQuestion {
  const oldestReading = toFullDate(toDay(query.today) - longestDaysWithoutReading);
  return { ...questionOf(caller, query), listing, oldestReading };
}

/** Reads all rows; needed if a chance other than the early date's decides what is due. */
async function allNotDue(
  { rows }: ReadingRules,
  question: NotDueQuestion,
  query: DueSoonQuery,
): Promise<ForecastRow[]> {
  const listed = await rows.reports.listed(question);
  return listed.filter((row) => partOf(row, query) === null);
}

/** One page of a listing's axles that are not due, soonest early date first. */
async function pageNotDue<Item>(
  own: ReadingRules,
  listing: Listing,
  { caller, query, page }: { caller: Caller; query: DueSoonQuery; page: Page | null },
  toItem: (row: ForecastRow) => Item,
) {
  const { reports } = own.rows;
  const question = notDueQuestion((await own.settings()).policy, listing, caller, query);
  const toKeyed = (row: ForecastRow) => ({ key: keyOf(row, row.outlook.earlyDate), item: toItem(row) });
  if (query.chance === EARLY_CHANCE) {
    const rows = await reports.notDueByEarly(question, sliceOf(page));
    const total = await reports.countNotDueByEarly(question);
    return { ...pageOfKeyed(rows.map(toKeyed), page), total };
  }
  const all = (await allNotDue(own, question, query)).map(toKeyed);
  return { ...pageOfKeyed(behind(all, page), page), total: all.length };
}

/** The items after the previous page. */
function behind<Item>(keyed: Keyed<Item>[], page: Page | null): Keyed<Item>[] {
  const after = page?.after;
  return after ? keyed.filter(({ key }) => compareKeys(key, after) > 0) : keyed;
}

function toMeasureFirst(row: ForecastRow, query: DueSoonQuery, policy: Policy): MeasureFirstAxle {
  const { part: _, ...axle } = toForecastAxle(row, query, liningsOf(row));
  const { measureDate, expectedDate } = row.outlook;
  return { ...axle, reasons: measureReasons({ ...axle, measureDate, expectedDate }, query, policy) };
}

const pageOfKeyed = <Item>(rows: readonly Keyed<Item>[], page: Page | null) =>
  pageOf(
    rows,
    page,
    ({ item }) => item,
    ({ key }) => key,
  );
