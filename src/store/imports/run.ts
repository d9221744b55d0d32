import { setImmediate } from 'node:timers/promises';
import { Refusal } from '../../core/refusal.js';
import type { Import } from '../../core/vocabulary/import.js';
import type { Keep } from '../contract/idempotency.js';
import type { FilePiece } from '../contract/imports.js';
import type { ComputedOutlook } from '../outlooks/outlooks.js';
import type { Rules, StoreParts } from '../parts.js';
import { Refused, senderOf, type Job, type Kind, type MakeKind } from './kind.js';
import { NOTHING_ADDED, saveImport, writeReport, type ImportRegister } from './register.js';

/** An import step blocks other requests for at most about this long. */
const STEP_MS = 15;

/** The service is closing; aborts an import in progress. */
class Stopped extends Error {}

interface RunnerOptions {
  register: ImportRegister;
  isStopping: () => boolean;
}

/** Imports one file: checks its rows, computes the resulting outlooks and writes everything in one transaction. */
export function importRunner(parts: StoreParts, { register, isStopping }: RunnerOptions) {
  const { clock, write, openStage } = parts;

  /** Writes a file's contents, the outcome and the stored answer in one transaction. */
  function commit<Row>(kind: Kind<Row>, job: Job, keep: Keep<Import> | null): Promise<void> {
    return writeReport(write, job.report, async (own, next) => {
      await kind.write(own, { ...job, report: next });
      Object.assign(next, { state: 'done', finishedAt: clock().toISOString() });
      await saveImport(own, next);
      await noteImported(own, next);
      await own.outcomes.keep(keep, next);
    });
  }

  return async function carryOut<Row>(
    kindOf: MakeKind<Row>,
    report: Import,
    pieces: AsyncIterable<FilePiece<Row>>,
    keep: Keep<Import> | null,
  ): Promise<void> {
    const stage = openStage<ComputedOutlook>();
    const kind = kindOf(parts);
    const job: Job = { report, stage, yieldIfDue: yielder(isStopping) };
    const refuse = () =>
      register.finish(report, {
        state: 'refused',
        ...NOTHING_ADDED,
        errorsTotal: stage.errorsTotal(),
        errors: stage.firstErrors(),
      });
    try {
      await register.step(report, { state: 'checking' });
      for await (const { rows, errors, unread } of pieces) {
        errors.forEach(stage.addError);
        await kind.take(job, rows);
        report.rows += rows.length + unread;
        await job.yieldIfDue();
      }
      await kind.check(job);
      if (stage.errorsTotal() > 0) {
        await refuse();
        return;
      }
      if (report.dryRun) {
        await register.finish(report, { state: 'done' });
        return;
      }
      await register.step(report, { state: 'forecasting' });
      await kind.forecast(job);
      await register.step(report, { state: 'writing' });
      await commit(kind, job, keep);
    } catch (fault) {
      if (fault instanceof Refused) {
        await refuse();
        return;
      }
      const detail =
        fault instanceof Stopped
          ? 'the service was shutting down'
          : fault instanceof Refusal
            ? fault.message
            : 'the service failed';
      await register.finish(report, {
        state: 'failed',
        ...NOTHING_ADDED,
        detail: `${detail}; nothing was imported`,
      });
      if (!(fault instanceof Stopped)) throw fault;
    } finally {
      stage.close();
    }
  };
}

/** Lets other requests run if it is time; throws once the service is closing. */
function yielder(isStopping: () => boolean): () => Promise<void> {
  let since = performance.now();
  return async () => {
    if (isStopping()) throw new Stopped();
    if (performance.now() - since < STEP_MS) return;
    await setImmediate();
    since = performance.now();
  };
}

/** Adds an audit entry that outlives the import's own record; none if nothing was imported. */
async function noteImported({ versions }: Rules, report: Import): Promise<void> {
  const { id, kind, rowsAdded, rowsSkipped, visitsAdded, visitsExtended } = report;
  if (rowsAdded + visitsExtended === 0) return;
  const detail =
    kind === 'vehicles'
      ? `${rowsAdded} vehicles recorded, ${rowsSkipped} already known`
      : `${visitsAdded} visits recorded, ${visitsExtended} added to, with ${rowsAdded} rows; ${rowsSkipped} rows already known`;
  await versions.note(senderOf(report), {
    action: 'imported',
    resource: 'import',
    resourceId: id,
    detail,
  });
}
