import { isDeepStrictEqual } from 'node:util';
import { eq } from 'drizzle-orm';
import { latestDateAt } from '../../core/calendar.js';
import { asHistoryVisit, inOrder, type History } from '../../core/history.js';
import { invalid, Refusal, type Issue } from '../../core/refusal.js';
import { checkOthersInHistory, checkPlaceInHistory, contentIssues } from '../../core/visitRules.js';
import type { VisitBody } from '../../core/vocabulary/visit.js';
import { refuseStale } from '../contract/expected.js';
import { refuseErased } from '../vehicles/findVehicle.js';
import { visitFinder } from './findVisit.js';
import type { VisitRow } from './history.js';
import { numbersAfter } from './itemNumbers.js';
import type { StoreParts } from '../parts.js';
import { visits } from '../engine/sqlite/schema.js';
import type { Caller } from '../contract/caller.js';
import type { Expected } from '../contract/expected.js';
import type { Keep } from '../contract/idempotency.js';
import type { CorrectionStore, RecordedVisit } from '../contract/visits.js';
import {
  headOf,
  itemWriter,
  NONE_YET,
  refuseVoided,
  sourceOf,
  withoutArrival,
  workOrderKnown,
} from './visits.js';

export function correctionStore(parts: StoreParts): CorrectionStore {
  const { database, clock, write, history, versions, settings, writeOutlook, outcomes } = parts;
  const find = visitFinder(database);
  const items = itemWriter(parts);

  type Found = ReturnType<typeof find.visit>;
  type Next = Partial<VisitRow> & Pick<VisitRow, 'version' | 'updatedAt'>;

  const nextOf = ({ version }: VisitRow): Next => ({
    version: version + 1,
    updatedAt: clock().toISOString(),
  });

  const versionOf = (row: VisitRow, { version, updatedAt }: Next) => ({
    ...sourceOf(row),
    version,
    at: updatedAt,
  });

  function otherVisits({ visit, vehicle }: Found): History['visits'] {
    return history.visitsOf(vehicle.seq, vehicle.id).filter(({ id }) => id !== visit.id);
  }

  /**
   * The vehicle's history with a visit's new body, checked like a new visit.
   *
   * @param isInPlace whether its date and odometer were accepted before
   */
  function historyWith(
    { visit, vehicle }: Found,
    body: VisitBody,
    others: History['visits'],
    isInPlace: boolean,
  ): History {
    const known = find.byWorkOrder(vehicle.seq, body);
    if (known && known.seq !== visit.seq) throw workOrderKnown(body, known);
    const after: History = {
      vehicle: vehicle.body,
      visits: inOrder([...others, asHistoryVisit(visit.id, body, visit.seq)]),
    };
    checkPlaceInHistory(
      after,
      visit.id,
      latestDateAt(clock()),
      contentIssues(vehicle.body, body, [], settings().gauges),
      isInPlace,
    );
    return after;
  }

  function finish({ visit, vehicle }: Found, next: Next, after: History, keep: Keep<RecordedVisit> | null) {
    database.update(visits).set(next).where(eq(visits.seq, visit.seq)).run();
    const outlook = writeOutlook(vehicle.seq, after);
    const standing = withoutArrival(history.visit({ ...visit, ...next }, vehicle.id));
    const result = { visit: standing, outlook, isNew: false };
    outcomes.keep(keep, result);
    return result;
  }

  function correct(
    caller: Caller,
    found: Found,
    { reason, change }: Parameters<CorrectionStore['correct']>[3],
    keep: Keep<RecordedVisit> | null,
  ): RecordedVisit {
    const { visit: row, vehicle } = found;
    refuseVoided(row);
    const before = versions.visitBody(row.seq);
    const body = change(structuredClone(before));
    const others = otherVisits(found);
    const after = pointingTo(intoChanges, () => {
      const changed = historyWith(found, body, others, isSamePlace(before, body));
      checkOthersInHistory({ ...changed, visits: history.visitsOf(vehicle.seq, vehicle.id) }, changed);
      return changed;
    });
    const itemNumbers = numbersAfter(row.itemNumbers, before, body);
    const next = { ...nextOf(row), ...headOf(body), itemNumbers };
    items.clear(row);
    items.insert([{ visit: row, contents: body, already: NONE_YET }]);
    versions.visit(caller, { ...versionOf(row, next), kind: 'corrected', reason, body });
    return finish(found, next, after, keep);
  }

  function voidVisit(
    caller: Caller,
    found: Found,
    reason: string,
    keep: Keep<RecordedVisit> | null,
  ): RecordedVisit {
    const { visit: row, vehicle } = found;
    refuseVoided(row);
    const after: History = { vehicle: vehicle.body, visits: otherVisits(found) };
    const before: History = { vehicle: vehicle.body, visits: history.visitsOf(vehicle.seq, vehicle.id) };
    pointingTo(intoVoid, () => checkOthersInHistory(before, after));
    const next = nextOf(row);
    const voided = { at: next.updatedAt, by: caller.keyName, reason };
    const body = versions.visitBody(row.seq);
    versions.visit(caller, { ...versionOf(row, next), kind: 'voided', reason, body });
    return finish(found, { ...next, voided }, after, keep);
  }

  function restore(
    caller: Caller,
    found: Found,
    reason: string,
    keep: Keep<RecordedVisit> | null,
  ): RecordedVisit {
    const { visit: row, vehicle } = found;
    if (!row.voided) {
      throw new Refusal('conflict', 'visit-not-voided', 'this visit is not voided', [], { visitId: row.id });
    }
    const body = versions.visitBody(row.seq);
    const others = history.visitsOf(vehicle.seq, vehicle.id);
    const after = pointingTo(intoVoid, () => {
      const restored = historyWith(found, body, others, true);
      checkOthersInHistory({ ...restored, visits: others }, restored);
      return restored;
    });
    const next = nextOf(row);
    versions.visit(caller, { ...versionOf(row, next), kind: 'restored', reason, body });
    return finish(found, { ...next, voided: null }, after, keep);
  }

  function findExpected(caller: Caller, visitId: string, expected: Expected): Found {
    const found = find.visit(caller, visitId);
    refuseErased(found.vehicle);
    refuseStale(expected, found.visit.version);
    return found;
  }

  return {
    async correct(caller, visitId, expected, correction, keep) {
      return write(() => correct(caller, findExpected(caller, visitId, expected), correction, keep));
    },
    async setVoided(caller, visitId, expected, { reason, void: voided }, keep) {
      const set = voided ? voidVisit : restore;
      return write(() => set(caller, findExpected(caller, visitId, expected), reason, keep));
    },
  };
}

const intoChanges = ({ path, detail }: Issue): Issue => ({ path: ['changes', ...path], detail });
/** A restored visit is not in the request, so the message must say where the error is. */
const intoVoid = ({ path, detail }: Issue): Issue => ({
  path: ['void'],
  detail: path.length > 0 ? `${path.join('/')}: ${detail}` : detail,
});

/** Redirects a check's issues from the visit's body to the correction that was sent. */
function pointingTo<Result>(place: (issue: Issue) => Issue, check: () => Result): Result {
  try {
    return check();
  } catch (error) {
    if (error instanceof Refusal && error.kind === 'invalid')
      throw invalid(error.issues.map(place), error.members);
    throw error;
  }
}

/** Whether a correction leaves a visit's date and odometer unchanged. */
const isSamePlace = (before: VisitBody, after: VisitBody): boolean =>
  isDeepStrictEqual(placeMembers(before), placeMembers(after));

const placeMembers = ({ date, time, odometer, odometerReplaced }: VisitBody) => ({
  date,
  time: time ?? null,
  odometer: odometer ?? null,
  odometerReplaced: odometerReplaced ?? null,
});
