import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { streams } from '../seed/random.js';
import { crashTrial, type CrashFigures } from './crashTrial.js';
import { KILLED, killTrials, makeKillShop } from './commandKills.js';
import { wholeNumber } from './options.js';
import { tornTrials, type TornFigures } from './tornLog.js';

/**
 * Kills a backup, a fit, an import and a start, then the service while it writes, many times over; then tears its log.
 * Prints what was lost, which must be nothing; otherwise it exits with 1. The seed decides the input; the moment of a
 * kill also depends on the machine.
 */

const { values } = parseArgs({
  options: {
    kills: { type: 'string', default: '200' },
    torn: { type: 'string', default: '200' },
    each: { type: 'string', default: '50' },
    what: { type: 'string' },
    seed: { type: 'string', default: '1' },
  },
});
const [kills, torn, each, seed] = (['kills', 'torn', 'each', 'seed'] as const).map((name) =>
  wholeNumber(name, values[name], name === 'seed' ? 1 : 0),
) as [number, number, number, number];
/** Torn logs are tried on small databases, a few trials each. */
const TRIALS_A_LOG = 10;

const folder = mkdtempSync(join(tmpdir(), 'brakes-crash-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

const commandFaults = await killCommands();
const figures =
  kills > 0 &&
  (await crashTrial({
    file: join(folder, 'crash.sqlite'),
    kills,
    seed,
    afterKill: async (kill) => {
      if (kill % 20 === 0) console.log(`${kill} kills`);
    },
  }));
if (figures) console.log(crashLine(figures));
const tornFigures = await tearLogs();
console.log(
  `${tornFigures.trials} torn logs, ${tornFigures.shortened} of which lost the last writes: ${tornFigures.wrong.length} wrong`,
);
const faults = [
  ...commandFaults,
  ...(figures ? [...figures.lost, ...figures.wrong] : []),
  ...tornFigures.wrong,
];
for (const fault of faults.slice(0, 50)) console.log(`  ${fault}`);
process.exitCode = faults.length > 0 ? 1 : 0;

/** @returns what was wrong after the kills */
async function killCommands(): Promise<string[]> {
  if (each === 0) return [];
  const shop = join(folder, 'shop.sqlite');
  const key = await makeKillShop(shop);
  const wrong: string[] = [];
  const chosen = KILLED.filter((what) => (values.what ?? what) === what);
  for (const [index, what] of chosen.entries()) {
    const [chance] = streams(seed + index, 1);
    const result = await killTrials(what, each, { shop, key, folder: join(folder, what), chance: chance! });
    console.log(
      `${result.kills} kills of ${what}, ${result.finished} of them after it had finished: ${result.wrong.length} wrong`,
    );
    wrong.push(...result.wrong);
  }
  return wrong;
}

async function tearLogs(): Promise<TornFigures> {
  const total: TornFigures = { trials: 0, shortened: 0, wrong: [] };
  for (let log = 1; total.trials < torn; log++) {
    const file = join(folder, `torn-${log}.sqlite`);
    const [chance] = streams(seed + log, 1);
    const afterKill = async (): Promise<void> => {
      const { trials, shortened, wrong } = await tornTrials(
        file,
        Math.min(TRIALS_A_LOG, torn - total.trials),
        chance!,
      );
      total.trials += trials;
      total.shortened += shortened;
      total.wrong.push(...wrong);
    };
    await crashTrial({ file, kills: 1, seed: seed + log, afterKill });
  }
  return total;
}

function crashLine(result: CrashFigures): string {
  const times = [...result.recoveryMs].sort((a, b) => a - b);
  const kinds = Object.entries(result.byKind).map(([kind, count]) => `${count} ${kind}`);
  return [
    `${result.kills} kills while writing and ${result.killsAtStart} while starting`,
    `${result.acknowledged} writes acknowledged (${kinds.join(', ')})`,
    `${result.lost.length} lost`,
    `${result.wrong.length} incomplete or wrong`,
    `${result.unanswered} in flight, of which ${result.tookEffect} took effect`,
    `${result.replayed} answers replayed`,
    `${result.outlooksCompared} outlooks compared`,
    `recovery ${times[Math.floor(times.length / 2)]!.toFixed(0)} ms median, ${times.at(-1)!.toFixed(0)} ms maximum`,
  ].join('; ');
}
