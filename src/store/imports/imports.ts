import { v7 as uuid } from 'uuid';
import { required } from '../../core/items.js';
import { notFound } from '../../core/refusal.js';
import type { Import } from '../../core/vocabulary/import.js';
import type { KeyCaller } from '../contract/caller.js';
import type { Keep } from '../contract/idempotency.js';
import type { FilePiece, ImportStore } from '../contract/imports.js';
import { pageOf } from '../paging.js';
import type { Release } from '../engine/contract/engine.js';
import type { StoreParts } from '../parts.js';
import type { MakeKind } from './kind.js';
import { importRegister, NOTHING_ADDED } from './register.js';
import { importRunner } from './run.js';
import { vehicleImport } from './vehicleImport.js';
import { visitImport } from './visitImport.js';

/** The lock held by the process that is importing a file. */
const lockOf = (id: string): string => `import ${id}`;

export function importStore(parts: StoreParts): ImportStore {
  const { tryHold } = parts;
  const register = importRegister(parts);
  const underWay = new Map<string, Import>();
  let stopping = false;
  let queue: Promise<unknown> = Promise.resolve();
  const carryOut = importRunner(parts, {
    register,
    isStopping: () => stopping,
  });

  /** Runs one file at a time, in order of arrival. */
  function inTurn<Row>(
    kindOf: MakeKind<Row>,
    id: string,
    pieces: AsyncIterable<FilePiece<Row>>,
    keep: Keep<Import> | null,
  ): Promise<Import> {
    const work = queue.then(async () => {
      const report = required(await register.find(id), 'import');
      underWay.set(id, report);
      try {
        await carryOut(kindOf, report, pieces, keep);
        return report;
      } finally {
        underWay.delete(id);
        await releaseLock(id);
      }
    });
    queue = work.catch(() => undefined);
    return work;
  }

  const locks = new Map<string, Release>();

  /** Releases the lock, so that other processes can tell that this one has finished with the file. */
  async function releaseLock(id: string): Promise<void> {
    await locks.get(id)?.();
    locks.delete(id);
  }

  return {
    async begin(caller: KeyCaller, kind, { dryRun }) {
      const id = uuid();
      // Take the lock before others can see the import, or they would think that its process has died.
      locks.set(id, required(await tryHold(lockOf(id)), 'lock of a new import'));
      return register.add(id, caller, kind, dryRun);
    },

    async markIncomplete(id: string, detail: string) {
      await register.finish(required(await register.find(id), 'import'), { state: 'failed', detail });
      await releaseLock(id);
    },

    async forget(id: string) {
      await register.remove(id);
      await releaseLock(id);
    },

    visits: (id, pieces, keep) => inTurn(visitImport, id, pieces, keep),
    vehicles: (id, pieces, keep) => inTurn(vehicleImport, id, pieces, keep),

    async get(id: string) {
      const report = underWay.get(id) ?? (await register.find(id));
      if (!report) throw notFound('import');
      return { ...report };
    },

    async list(page) {
      return pageOf(
        await register.rows(page),
        page,
        ({ report }) => ({ ...(underWay.get(report.id) ?? report) }),
        ({ seq }) => [seq],
      );
    },

    async recover() {
      for (const report of await register.unfinished()) {
        const release = await tryHold(lockOf(report.id));
        // Another process is still importing it.
        if (!release) continue;
        const detail =
          'the server stopped before the import was finished; nothing was imported. Send the file again';
        await register.finish(report, { state: 'failed', ...NOTHING_ADDED, detail });
        await release();
      }
    },

    async stop() {
      stopping = true;
      await queue;
      stopping = false;
    },
  };
}
