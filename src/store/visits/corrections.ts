import { isDeepStrictEqual } from 'node:util';
import { latestDateAt } from '../../core/calendar.js';
import { asHistoryVisit, inOrder, type History } from '../../core/history.js';
import { invalid, Refusal, type Issue } from '../../core/refusal.js';
import { checkOthersInHistory, checkPlaceInHistory, contentIssues } from '../../core/visitRules.js';
import type { VisitBody } from '../../core/vocabulary/visit.js';
import type { Caller } from '../contract/caller.js';
import { refuseStale, type Expected } from '../contract/expected.js';
import type { CorrectionStore, RecordedVisit } from '../contract/visits.js';
import type { VisitOfVehicle, VisitRow } from '../engine/contract/visits.js';
import type { Rules, StoreParts } from '../parts.js';
import { refuseErased } from '../vehicles/findVehicle.js';
import { numbersAfter } from './itemNumbers.js';
import { headOf, sourceOf } from './recording.js';
import { refuseVoided, withoutArrival, workOrderKnown } from './visits.js';

export const correctionStore = ({ write }: StoreParts): CorrectionStore => ({
  correct: (caller, visitId, expected, correction, keep) =>
    write(async (own) => {
      const found = await findExpected(own, caller, visitId, expected);
      const result = await correctVisit(own, caller, found, correction);
      await own.outcomes.keep(keep, result);
      return result;
    }),

  setVoided: (caller, visitId, expected, { reason, void: isVoid }, keep) =>
    write(async (own) => {
      const found = await findExpected(own, caller, visitId, expected);
      const result = await (isVoid ? voidVisit : restoreVisit)(own, caller, found, reason);
      await own.outcomes.keep(keep, result);
      return result;
    }),
});

type Next = Partial<VisitRow> & Pick<VisitRow, 'version' | 'updatedAt'>;

const nextOf = ({ clock }: Rules, { version }: VisitRow): Next => ({
  version: version + 1,
  updatedAt: clock().toISOString(),
});

const versionOf = (row: VisitRow, { version, updatedAt }: Next) => ({
  ...sourceOf(row),
  version,
  at: updatedAt,
});

async function findExpected(
  { findVisit }: Rules,
  caller: Caller,
  visitId: string,
  expected: Expected,
): Promise<VisitOfVehicle> {
  const found = await findVisit.visit(caller, visitId);
  refuseErased(found.vehicle);
  refuseStale(expected, found.visit.version);
  return found;
}

const visitsOf = ({ history }: Rules, { vehicle }: VisitOfVehicle): Promise<History['visits']> =>
  history.visitsOf(vehicle.seq, vehicle.id);

/**
 * The vehicle's history with a visit's new body, checked like a new visit.
 *
 * @param isInPlace whether its date and odometer were accepted before
 */
async function historyWith(
  own: Rules,
  { visit, vehicle }: VisitOfVehicle,
  body: VisitBody,
  others: History['visits'],
  isInPlace: boolean,
): Promise<History> {
  const known = await own.findVisit.byWorkOrder(vehicle.seq, body);
  if (known && known.seq !== visit.seq) throw workOrderKnown(body, known);
  const after: History = {
    vehicle: vehicle.body,
    visits: inOrder([...others, asHistoryVisit(visit.id, body, visit.seq)]),
  };
  const { gauges } = await own.settings();
  checkPlaceInHistory(
    after,
    visit.id,
    latestDateAt(own.clock()),
    contentIssues(vehicle.body, body, [], gauges),
    isInPlace,
  );
  return after;
}

async function finishChange(
  own: Rules,
  { visit, vehicle }: VisitOfVehicle,
  next: Next,
  after: History,
): Promise<RecordedVisit> {
  await own.rows.visits.update(visit.seq, next);
  const outlook = await own.writeOutlook(vehicle.seq, after);
  const current = withoutArrival(await own.history.visit({ ...visit, ...next }, vehicle.id));
  return { visit: current, outlook, isNew: false };
}

async function correctVisit(
  own: Rules,
  caller: Caller,
  found: VisitOfVehicle,
  { reason, change }: Parameters<CorrectionStore['correct']>[3],
): Promise<RecordedVisit> {
  const { visit: row } = found;
  refuseVoided(row);
  const before = await own.versions.visitBody(row.seq);
  const body = change(structuredClone(before));
  const all = await visitsOf(own, found);
  const others = all.filter(({ id }) => id !== row.id);
  const after = await redirectIssues(intoChanges, async () => {
    const changed = await historyWith(own, found, body, others, isSamePlace(before, body));
    checkOthersInHistory({ ...changed, visits: all }, changed);
    return changed;
  });
  const itemNumbers = numbersAfter(row.itemNumbers, before, body);
  const next = { ...nextOf(own, row), ...headOf(body), itemNumbers };
  await own.recordVisit.replaceItems(row, body);
  await own.versions.visit(caller, { ...versionOf(row, next), kind: 'corrected', reason, body });
  return finishChange(own, found, next, after);
}

async function voidVisit(
  own: Rules,
  caller: Caller,
  found: VisitOfVehicle,
  reason: string,
): Promise<RecordedVisit> {
  const { visit: row, vehicle } = found;
  refuseVoided(row);
  const all = await visitsOf(own, found);
  const after: History = { vehicle: vehicle.body, visits: all.filter(({ id }) => id !== row.id) };
  await redirectIssues(intoVoid, async () =>
    checkOthersInHistory({ vehicle: vehicle.body, visits: all }, after),
  );
  const next = nextOf(own, row);
  const body = await own.versions.visitBody(row.seq);
  await own.versions.visit(caller, { ...versionOf(row, next), kind: 'voided', reason, body });
  return finishChange(
    own,
    found,
    { ...next, voided: { at: next.updatedAt, by: caller.keyName, reason } },
    after,
  );
}

async function restoreVisit(
  own: Rules,
  caller: Caller,
  found: VisitOfVehicle,
  reason: string,
): Promise<RecordedVisit> {
  const { visit: row } = found;
  if (!row.voided) {
    throw new Refusal('conflict', 'visit-not-voided', 'this visit is not voided', [], { visitId: row.id });
  }
  const body = await own.versions.visitBody(row.seq);
  const others = await visitsOf(own, found);
  const after = await redirectIssues(intoVoid, async () => {
    const history = await historyWith(own, found, body, others, true);
    checkOthersInHistory({ ...history, visits: others }, history);
    return history;
  });
  const next = nextOf(own, row);
  await own.versions.visit(caller, { ...versionOf(row, next), kind: 'restored', reason, body });
  return finishChange(own, found, { ...next, voided: null }, after);
}

const intoChanges = ({ path, detail }: Issue): Issue => ({ path: ['changes', ...path], detail });
/** A restored visit is not in the request, so the message must say where the error is. */
const intoVoid = ({ path, detail }: Issue): Issue => ({
  path: ['void'],
  detail: path.length > 0 ? `${path.join('/')}: ${detail}` : detail,
});

/** Redirects a check's issues from the visit's body to the correction that was sent. */
async function redirectIssues<Result>(
  place: (issue: Issue) => Issue,
  check: () => Promise<Result>,
): Promise<Result> {
  try {
    return await check();
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
