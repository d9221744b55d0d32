import fc from 'fast-check';
import { resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { afterEach, describe, expect, it } from 'vitest';
import { outlookFor } from '../../src/core/assessment/outlook.js';
import type { Outlook } from '../../src/core/assessment/outlookShape.js';
import { DEFAULT_POLICY } from '../../src/core/assessment/policy.js';
import { sharedOutlook, type Basis, type WorkElsewhere } from '../../src/core/assessment/sharedOutlook.js';
import { experienceOf, STARTING } from '../../src/core/assessment/whichExperience.js';
import { fitExperience } from '../../src/core/forecast/fit.js';
import { STANDARD_GAUGES } from '../../src/core/gauges.js';
import type { History } from '../../src/core/history.js';
import type { Axle } from '../../src/core/vocabulary/terms.js';
import { helper, type Helper, MAX_JOBS } from '../../src/helper.js';
import { historyOf, messyHistory, wornHistory, type SentHistory } from '../support/histories.js';
import { shopOf } from '../support/shop.js';

/** The compiled worker thread. */
const SCRIPT = pathToFileURL(resolve('dist/src/helperThread.js'));

/** A worker that reports ready, then does what the test says. */
const threadThat = (does: string): URL =>
  new URL(
    `data:text/javascript,import { parentPort } from 'node:worker_threads';
     parentPort.postMessage(null);
     parentPort.on('message', () => { ${does} });`,
  );

let thread: Helper;
afterEach(() => thread.stop());

const BASES: Basis[] = [
  { known: STARTING, policy: DEFAULT_POLICY, gauges: STANDARD_GAUGES },
  {
    known: { version: 3, fitted: fitExperience(shopOf({ vehicles: 12 })) },
    policy: { ...DEFAULT_POLICY, visitIntervalDays: 90, padMinimumMm: { limitMm: 4, failsAt: 'below' } },
    gauges: new Map([...STANDARD_GAUGES, ['own', { ...STANDARD_GAUGES.get('caliper')!, name: 'own' }]]),
  },
];

const inOneThread = (history: History, { known, policy, gauges }: Basis): Outlook =>
  outlookFor({ ...history, gauges }, experienceOf(history.vehicle, known), policy);

/** A vehicle with the history of one axle on several axles. */
function onAxles({ vehicle, visits }: SentHistory, axles: readonly Axle[]): History {
  const [specification] = Object.values(vehicle.axles as object) as object[];
  const onEach = (items: unknown) =>
    ((items ?? []) as object[]).flatMap((item) => axles.map((axle) => ({ ...item, axle })));
  return historyOf({
    vehicle: {
      ...vehicle,
      model: 'van',
      axles: Object.fromEntries(axles.map((axle) => [axle, specification])),
    },
    visits: visits.map((visit) => ({ ...visit, readings: onEach(visit.readings), work: onEach(visit.work) })),
  });
}

const HISTORY = onAxles(fc.sample(wornHistory({ min: 4, max: 4 }), { numRuns: 1, seed: 7 })[0]!, [
  'front',
  'rear',
]);

/** Counts the jobs that are taken, and those that return a result. */
function counted(work: WorkElsewhere) {
  const jobs = { taken: 0, done: 0 };
  const counting: WorkElsewhere = (job) => {
    const given = work(job);
    if (given === null) return null;
    jobs.taken += 1;
    return given.then((outlooks) => {
      if (outlooks) jobs.done += 1;
      return outlooks;
    });
  };
  return { jobs, work: counting };
}

/** Repeats the request until the worker takes a job: the first request only starts the worker. */
async function untilTaken(work: WorkElsewhere): Promise<Outlook> {
  const { jobs, work: counting } = counted(work);
  for (;;) {
    const outlook = await sharedOutlook(HISTORY, BASES[0]!, counting, true);
    if (jobs.taken > 0) return outlook;
    await sleep(10);
  }
}

describe('an outlook that the forecast worker helps to compute', () => {
  it('the outlook equals that of one thread bit for bit, for any history, axles, experience and policy', async () => {
    thread = helper({ script: SCRIPT });
    await untilTaken(thread.work);
    const { jobs, work } = counted(thread.work);
    let asked = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.oneof(wornHistory({ min: 1, max: 4 }), messyHistory()),
        fc.constantFrom<Axle[]>(['front'], ['front', 'rear'], ['axle-1', 'axle-2', 'axle-3']),
        fc.constantFrom(...BASES),
        fc.boolean(),
        async (sent, axles, basis, isAwaited) => {
          const history = onAxles(sent, axles);
          asked += axles.length > 1 || isAwaited ? 1 : 0;
          expect(await sharedOutlook(history, basis, work, isAwaited)).toStrictEqual(
            inOneThread(history, basis),
          );
        },
      ),
      { numRuns: 60 },
    );
    expect(jobs).toEqual({ taken: asked, done: asked });
  });

  it('the main thread computes outlooks while the worker is busy, and uses it again afterwards', async () => {
    thread = helper({ script: SCRIPT });
    await untilTaken(thread.work);
    const { jobs, work } = counted(thread.work);
    const asked = Array.from({ length: 6 }, () => sharedOutlook(HISTORY, BASES[1]!, work, true));
    expect(jobs.taken).toBe(MAX_JOBS);
    for (const outlook of await Promise.all(asked))
      expect(outlook).toStrictEqual(inOneThread(HISTORY, BASES[1]!));
    await sharedOutlook(HISTORY, BASES[0]!, work, true);
    expect(jobs).toEqual({ taken: MAX_JOBS + 1, done: MAX_JOBS + 1 });
  });
});

describe('a forecast worker that fails delays outlooks and changes none', () => {
  it.each<[string, string, number]>([
    ['dies of an error', `throw new Error('out of order')`, 1],
    ['ends', 'process.exit(3)', 1],
    ['stalls', 'for (;;);', 0],
    ['never answers', '', 0],
    ['answers nonsense', 'parentPort.postMessage(null)', 0],
  ])('the main thread computes the outlook if the worker %s', async (_how, does, faults) => {
    const reported: unknown[] = [];
    thread = helper({ script: threadThat(does), maxWaitMs: 100, onFault: (fault) => reported.push(fault) });
    expect(await untilTaken(thread.work)).toStrictEqual(inOneThread(HISTORY, BASES[0]!));
    expect(reported).toHaveLength(faults);
    expect(await sharedOutlook(HISTORY, BASES[0]!, thread.work, true)).toStrictEqual(
      inOneThread(HISTORY, BASES[0]!),
    );
  });

  it('the main thread computes the outlook if the worker cannot be started', async () => {
    const reported: unknown[] = [];
    const missing = new URL('./missing.js', SCRIPT);
    thread = helper({ script: missing, onFault: (fault) => reported.push(fault) });
    expect(await sharedOutlook(HISTORY, BASES[0]!, thread.work, true)).toStrictEqual(
      inOneThread(HISTORY, BASES[0]!),
    );
    await expect.poll(() => reported.length).toBe(1);
    expect(thread.work({ basis: BASES[0]!, history: HISTORY, axles: ['front'] })).toBeNull();
  });

  it('a worker that dies is replaced after a while', async () => {
    const reported: unknown[] = [];
    thread = helper({
      script: threadThat('process.exit(3)'),
      restartAfterMs: 50,
      onFault: (fault) => reported.push(fault),
    });
    for (const deaths of [1, 2]) {
      expect(await untilTaken(thread.work)).toStrictEqual(inOneThread(HISTORY, BASES[0]!));
      await expect.poll(() => reported.length).toBe(deaths);
      expect(thread.work({ basis: BASES[0]!, history: HISTORY, axles: ['front'] })).toBeNull();
    }
  });

  it('the main thread computes the outlook if the system refuses to start a thread', async () => {
    const reported: unknown[] = [];
    // The constructor itself throws, as it does when no thread can be created.
    thread = helper({ script: 'not a file' as unknown as URL, onFault: (fault) => reported.push(fault) });
    expect(await sharedOutlook(HISTORY, BASES[0]!, thread.work, true)).toStrictEqual(
      inOneThread(HISTORY, BASES[0]!),
    );
    expect(reported).toHaveLength(1);
  });

  it('a worker that answers too late gets no more jobs than it can hold', async () => {
    const late = `setTimeout(() => parentPort.postMessage([]), 300)`;
    thread = helper({ script: threadThat(late), maxWaitMs: 50 });
    expect(await untilTaken(thread.work)).toStrictEqual(inOneThread(HISTORY, BASES[0]!));
    const { jobs, work } = counted(thread.work);
    for (let time = 0; time < 3; time++)
      expect(await sharedOutlook(HISTORY, BASES[0]!, work, true)).toStrictEqual(
        inOneThread(HISTORY, BASES[0]!),
      );
    expect(jobs.done).toBe(0);
  });
});
