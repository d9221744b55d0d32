import { withoutShopCounts } from '../../core/assessment/narrowed.js';
import type { Outlook } from '../../core/assessment/outlookShape.js';
import { wearAnswer, type OpenOutlook } from '../../core/assessment/wearAnswer.js';
import { fillTemplate } from '../../core/assessment/wearTemplate.js';
import type { History } from '../../core/history.js';
import { maySee, type Caller } from '../contract/caller.js';
import type { OutlookStore } from '../contract/outlooks.js';
import type { ReadingRules, StoreParts } from '../parts.js';
import { computeOutlook } from './outlooks.js';
import { programDigest } from './program.js';

/** Maximum answers cached, some 10 kB each. */
const MAX_READY = 1000;

/**
 * Reads a vehicle's prepared wear answer if it is current, and fills it in for a day. The text stays bytes throughout,
 * since decoding and encoding it takes longer than finding it.
 */
const answerReader =
  ({ rows }: ReadingRules) =>
  async (vehicleId: string, today: string, until: string | null) => {
    const row = await rows.outlooks.ready(vehicleId, programDigest());
    if (!row) return null;
    const open = JSON.parse(row.open) as OpenOutlook;
    return fillTemplate(vehicleId, row.text, open, { today, until });
  };

/** Callers limited to some fleets do not see how many vehicles the shop has. */
const forCaller = ({ fleets }: Caller, outlook: Outlook): Outlook =>
  fleets === null ? outlook : withoutShopCounts(outlook);

export function outlookStore(parts: StoreParts): OutlookStore {
  const { reading, consistently, refreshOutlooks, whileUnchanged } = parts;
  const answerFor = whileUnchanged(answerReader(reading), MAX_READY);

  return {
    get: (caller, vehicleId) => consistently((own) => currentOutlook(own, caller, vehicleId)),

    async wear(caller, vehicleId, question) {
      const ready =
        caller.fleets === null ? await answerFor(vehicleId, question.today, question.until) : null;
      if (ready) return ready;
      const outlook = await consistently((own) => currentOutlook(own, caller, vehicleId));
      return Buffer.from(JSON.stringify(wearAnswer(vehicleId, outlook, question)));
    },

    asOf: (caller, vehicleId, date) =>
      consistently(async (own) => ofDate(own, caller, await historyOf(own, caller, vehicleId, date), date)),

    withHistory: (caller, vehicleId, asOf) =>
      consistently(async (own) => {
        const history = await historyOf(own, caller, vehicleId, asOf);
        const outlook =
          asOf === null ? currentOutlook(own, caller, vehicleId) : ofDate(own, caller, history, asOf);
        return { history, outlook: await outlook };
      }),

    refresh: refreshOutlooks,
  };
}

async function currentOutlook(own: ReadingRules, caller: Caller, vehicleId: string): Promise<Outlook> {
  const row = await own.rows.outlooks.ofVehicle(vehicleId);
  if (!row || !maySee(caller, row.fleet)) throw await own.findVehicle.missing(caller, vehicleId);
  const inForce = await own.settings();
  // Findings quote notes of visits, so callers who must not read those get an outlook computed without them.
  const isForAll = (await own.sightOf(caller, row.seq)).isWhole;
  const isCurrent = row.settingsRevision === inForce.revision && row.program === programDigest();
  if (isForAll && isCurrent) return forCaller(caller, row.body);
  // The settings or the program may have changed before the stored outlook was recomputed.
  const history = await historyOf(own, caller, vehicleId, null);
  return forCaller(caller, computeOutlook(history, await own.experience(), inForce).outlook);
}

async function ofDate(own: ReadingRules, caller: Caller, history: History, date: string): Promise<Outlook> {
  const known = await own.experienceKnownOn(date);
  return forCaller(caller, computeOutlook(history, known, await own.settings()).outlook);
}

/** @param asOf null for the whole history */
async function historyOf(
  own: ReadingRules,
  caller: Caller,
  vehicleId: string,
  asOf: string | null,
): Promise<History> {
  const { seq, id, body } = await own.findVehicle.current(caller, vehicleId);
  const sight = await own.sightOf(caller, seq);
  const visits = (await own.history.visitsOf(seq, id)).map(sight.visit);
  const { gauges } = await own.settings();
  return asOf === null
    ? { vehicle: body, visits, gauges }
    : {
        vehicle: await own.versions.vehicleBodyOn(seq, asOf),
        visits: visits.filter((visit) => visit.date <= asOf),
        gauges,
      };
}
