import { describe, expect, it } from 'vitest';
import type { Import } from '../../src/core/vocabulary/import.js';
import { NOTHING_ADDED, saveImport, writeReport } from '../../src/store/imports/register.js';
import type { Rules, StoreParts } from '../../src/store/parts.js';

const REPORT = { id: 'i', version: 3, state: 'writing', ...NOTHING_ADDED } as Import;

/** The rules that record what is saved, and the write of a transaction around them. */
function recorded(write: (own: Rules, work: (own: Rules) => Promise<unknown>) => Promise<void>) {
  const saved: Import[] = [];
  const own = {
    rows: { imports: { update: async (next: Import) => saved.push({ ...next }) } },
  } as unknown as Rules;
  return {
    saved,
    write: ((work: (own: Rules) => Promise<unknown>) => write(own, work)) as unknown as StoreParts['write'],
  };
}

const finish = async (own: Rules, next: Import): Promise<void> => {
  next.vehiclesWritten += 1;
  Object.assign(next, { state: 'done' });
  await saveImport(own, next);
};
const DONE = { ...REPORT, version: 4, vehiclesWritten: 1, state: 'done' };

describe('the report of an import', () => {
  it('the report of an import counts each vehicle and each version once if the transaction is repeated', async () => {
    const report = { ...REPORT };
    const { saved, write } = recorded(async (own, work) => {
      await work(own);
      await work(own);
    });
    await writeReport(write, report, finish);
    expect(report).toEqual(DONE);
    expect(saved).toEqual([report, report]);
  });

  it('the report of an import says that it is done only once that is committed', async () => {
    const report = { ...REPORT };
    let beforeCommit: Import | null = null;
    const { write } = recorded(async (own, work) => {
      await work(own);
      beforeCommit = { ...report };
    });
    await writeReport(write, report, finish);
    expect(beforeCommit).toEqual(REPORT);
    expect(report).toEqual(DONE);
  });

  it('the report of an import does not change if the commit fails', async () => {
    const report = { ...REPORT };
    const { write } = recorded(async (own, work) => {
      await work(own);
      throw new Error('the disk is full');
    });
    await expect(writeReport(write, report, finish)).rejects.toThrow('the disk is full');
    expect(report).toEqual(REPORT);
  });
});
