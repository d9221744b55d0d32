import { expect, test } from 'vitest';
import type { Import } from '../../src/core/vocabulary/import.js';
import { countingOnce, NOTHING_TAKEN, saveImport } from '../../src/store/imports/register.js';
import type { Rules } from '../../src/store/parts.js';

const REPORT = { id: 'i', version: 3, state: 'writing', ...NOTHING_TAKEN } as Import;

test('an import whose transaction is repeated counts each vehicle and each version once', async () => {
  const report = { ...REPORT };
  const saved: Import[] = [];
  const own = { rows: { imports: { update: async (told: Import) => saved.push({ ...told }) } } };
  const work = countingOnce(report, async (rules) => {
    report.vehiclesWritten += 1;
    Object.assign(report, { state: 'done' });
    await saveImport(rules, report);
  });
  await work(own as unknown as Rules);
  await work(own as unknown as Rules);
  expect(report).toEqual({ ...REPORT, version: 4, vehiclesWritten: 1, state: 'done' });
  expect(saved).toEqual([report, report]);
});
