import { eq, sql } from 'drizzle-orm';
import { withoutShopCounts } from '../../core/assessment/narrowed.js';
import { wearAnswer, type OpenOutlook, type Question } from '../../core/assessment/wearAnswer.js';
import type { Outlook } from '../../core/assessment/outlookShape.js';
import { fillTemplate } from '../../core/assessment/wearTemplate.js';
import type { History } from '../../core/history.js';
import type { Database } from '../engine/sqlite/connection.js';
import { experienceKnownOn } from '../experience/knownExperience.js';
import { workOut } from './outlooks.js';
import { programDigest } from './program.js';
import type { StoreParts } from '../parts.js';
import { outlooks, vehicles } from '../engine/sqlite/schema.js';
import { readyAnswerReader } from '../engine/sqlite/statements.js';
import { maySee, type Caller } from '../contract/caller.js';
import type { OutlookStore } from '../contract/outlooks.js';

/** Reads a vehicle's stored outlook; every vehicle has one from its creation. */
export function outlookReader(database: Database): (vehicleSeq: number) => Outlook {
  const select = database
    .select()
    .from(outlooks)
    .where(eq(outlooks.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare();
  return (vehicleSeq) => select.get({ vehicleSeq })!.body;
}

/** Maximum answers cached, some 10 kB each. */
const MAX_READY = 1000;

/**
 * Reads a vehicle's prepared wear answer if it is current, and fills it in for a day. The text stays bytes throughout,
 * since decoding and encoding it takes longer than finding it.
 */
function answerReader(database: Database) {
  const ready = readyAnswerReader(database);
  return (vehicleId: string, today: string, until: string | null) => {
    const row = ready(vehicleId, programDigest());
    if (!row) return null;
    const open = JSON.parse(row.open) as OpenOutlook;
    return fillTemplate(vehicleId, row.text, open, { today, until });
  };
}

/** Callers limited to some fleets are not told how many vehicles the shop has. */
const forCaller = ({ fleets }: Caller, outlook: Outlook): Outlook =>
  fleets === null ? outlook : withoutShopCounts(outlook);

export function outlookStore({
  database,
  findVehicle,
  versions,
  settings,
  history,
  experience,
  refreshOutlooks,
  whileUnchanged,
  sightOf,
}: StoreParts): OutlookStore {
  const stored = database
    .select({
      seq: vehicles.seq,
      fleet: vehicles.fleet,
      body: outlooks.body,
      settingsRevision: outlooks.settingsRevision,
      program: outlooks.program,
    })
    .from(vehicles)
    .innerJoin(outlooks, eq(outlooks.vehicleSeq, vehicles.seq))
    .where(eq(vehicles.id, sql.placeholder('id')))
    .prepare();
  const answerFor = whileUnchanged(answerReader(database), MAX_READY);
  const knownOn = experienceKnownOn(database);

  function standing(caller: Caller, vehicleId: string): Outlook {
    const row = stored.get({ id: vehicleId });
    if (!row || !maySee(caller, row.fleet)) throw findVehicle.missing(caller, vehicleId);
    const inForce = settings();
    // Findings quote notes of visits, so callers who must not read those get an outlook computed without them.
    const isForAll = sightOf(caller, row.seq).isWhole;
    const isCurrent = row.settingsRevision === inForce.revision && row.program === programDigest();
    if (isForAll && isCurrent) return forCaller(caller, row.body);
    // The settings or the program may have changed before the stored outlook was recomputed.
    return forCaller(caller, workOut(historyOf(caller, vehicleId, null), experience(), inForce).outlook);
  }

  const ofDate = (caller: Caller, history: History, date: string): Outlook =>
    forCaller(caller, workOut(history, knownOn(date), settings()).outlook);

  /** @param asOf null for the whole history */
  function historyOf(caller: Caller, vehicleId: string, asOf: string | null): History {
    const { seq, id, body } = findVehicle.standing(caller, vehicleId);
    const visits = history.visitsOf(seq, id).map(sightOf(caller, seq).visit);
    const { gauges } = settings();
    return asOf === null
      ? { vehicle: body, visits, gauges }
      : {
          vehicle: versions.vehicleBodyOn(seq, asOf),
          visits: visits.filter((visit) => visit.date <= asOf),
          gauges,
        };
  }

  return {
    async get(caller: Caller, vehicleId: string) {
      return standing(caller, vehicleId);
    },

    async wear(caller: Caller, vehicleId: string, question: Question) {
      const ready = caller.fleets === null ? answerFor(vehicleId, question.today, question.until) : null;
      return (
        ready ?? Buffer.from(JSON.stringify(wearAnswer(vehicleId, standing(caller, vehicleId), question)))
      );
    },

    async asOf(caller: Caller, vehicleId: string, date: string) {
      return ofDate(caller, historyOf(caller, vehicleId, date), date);
    },

    async withHistory(caller: Caller, vehicleId: string, asOf: string | null) {
      return database.transaction(() => {
        const known = historyOf(caller, vehicleId, asOf);
        return {
          history: known,
          outlook: asOf === null ? standing(caller, vehicleId) : ofDate(caller, known, asOf),
        };
      });
    },

    refresh: refreshOutlooks,
  };
}
