import { setTimeout as sleep } from 'node:timers/promises';
import { isDeepStrictEqual } from 'node:util';
import BetterSqlite from 'better-sqlite3';
import { streams } from '../seed/random.js';
import { createKey } from '../src/commands/keys.js';
import { openStore } from '../src/store/open.js';
import { ask, killServer, startServer, type ServerProcess } from './serverProcess.js';
import { compareOutlooks, wrongIn } from './databaseCheck.js';
import { send, Writer, type Deed, type DeedKind } from './writers.js';

/**
 * Kills the service many times during concurrent writes, and after each restart compares the database with the answers.
 * A kill does not lose what the process has handed to the system, so this tests transactions and recovery, not whether
 * the disk stores what it was told to flush.
 */

export interface CrashOptions {
  file: string;
  kills: number;
  seed: number;
  writers?: number;
  /** Maximum time of writing before a kill. */
  maxMs?: number;
  /** Inspects the files as the kill left them. */
  afterKill?: (kill: number) => Promise<void>;
}

export interface CrashFigures {
  kills: number;
  killsAtStart: number;
  acknowledged: number;
  byKind: Partial<Record<DeedKind, number>>;
  replayed: number;
  unanswered: number;
  tookEffect: number;
  outlooksCompared: number;
  /** From the start of the process until it listens. */
  recoveryMs: number[];
  /** Writes that were answered and are missing or different. */
  lost: string[];
  /** Rows that are incomplete, duplicate or damaged, and outlooks that do not follow from the stored history. */
  wrong: string[];
}

const KILL_AT_START = 0.1;

export async function crashTrial(options: CrashOptions): Promise<CrashFigures> {
  const { file, kills, seed, writers = 4, maxMs = 1500, afterKill } = options;
  const [chance, ...rest] = streams(seed, 1 + writers);
  const callers = rest.map((own, index) => new Writer(`w${index + 1}`, own));
  const key = await makeKey(file);
  const trial = new Trial(file, key);
  await trial.start();
  for (let kill = 1; kill <= kills; kill++) {
    await trial.writeUntilKilled(callers, chance!.between(20, maxMs));
    await afterKill?.(kill);
    if (chance!.happens(KILL_AT_START)) await trial.killWhileStarting(chance!.between(50, 600));
    await trial.start();
    await trial.check(callers.flatMap((caller) => caller.deeds.splice(0)));
  }
  await trial.finish();
  return trial.figures;
}

async function makeKey(file: string): Promise<string> {
  const store = await openStore({ file, timeZone: 'UTC' });
  try {
    return await createKey(store.keys, { name: 'crash', role: 'owner', fleets: [] });
  } finally {
    await store.close();
  }
}

class Trial {
  readonly figures: CrashFigures = {
    kills: 0,
    killsAtStart: 0,
    acknowledged: 0,
    byKind: {},
    replayed: 0,
    unanswered: 0,
    tookEffect: 0,
    outlooksCompared: 0,
    recoveryMs: [],
    lost: [],
    wrong: [],
  };
  /** Everything that must exist at the end. */
  readonly #answered: Deed[] = [];
  #server: ServerProcess | null = null;
  #address = '';

  constructor(
    readonly file: string,
    readonly key: string,
  ) {}

  async start(): Promise<void> {
    const began = performance.now();
    this.#server = startServer(this.file);
    this.#address = await this.#server.listening;
    this.figures.recoveryMs.push(performance.now() - began);
  }

  async writeUntilKilled(callers: Writer[], ms: number): Promise<void> {
    let over = false;
    const writing = callers.map((caller) => caller.run(this.#address, this.key, () => over));
    await sleep(ms);
    await killServer(this.#server!);
    over = true;
    await Promise.all(writing);
    this.figures.kills += 1;
  }

  async killWhileStarting(ms: number): Promise<void> {
    const starting = startServer(this.file);
    await sleep(ms);
    await killServer(starting);
    this.figures.killsAtStart += 1;
  }

  /** Compares the database after a restart with what was sent and answered before. */
  async check(deeds: Deed[]): Promise<void> {
    await this.#look((connection) => {
      this.figures.wrong.push(...wrongIn(connection));
      this.#countEffects(connection, deeds);
    });
    for (const deed of deeds) await this.#settle(deed);
    for (const deed of deeds) await this.#compareContent(deed);
    await this.#look(async (connection) => {
      const touched = deeds.flatMap(vehiclesOf);
      const { compared, different } = await compareOutlooks(connection, touched);
      this.figures.outlooksCompared += compared;
      this.figures.wrong.push(...different.map((id) => `outlook of ${id}`));
      for (const deed of deeds.filter(isAnswered)) this.#mustStandOnce(connection, deed);
    });
    this.#answered.push(...deeds.filter(isAnswered));
  }

  /** Compares everything once more, after the service was closed normally. */
  async finish(): Promise<void> {
    this.#server!.child.kill('SIGTERM');
    const { code } = await this.#server!.ended;
    if (code !== 0) this.figures.wrong.push(`exit code ${code} after SIGTERM`);
    await this.#look(async (connection) => {
      for (const deed of this.#answered) this.#mustStandOnce(connection, deed);
      const { compared, different } = await compareOutlooks(connection, null);
      this.figures.outlooksCompared += compared;
      this.figures.wrong.push(...wrongIn(connection), ...different.map((id) => `outlook of ${id}`));
    });
  }

  async #look(at: (connection: BetterSqlite.Database) => void | Promise<void>): Promise<void> {
    const connection = new BetterSqlite(this.file, { fileMustExist: true });
    try {
      await at(connection);
    } finally {
      connection.close();
    }
  }

  /** Before anything is sent again: an answered write exists once, any other write at most once. */
  #countEffects(connection: BetterSqlite.Database, deeds: Deed[]): void {
    for (const deed of deeds) {
      if (isAnswered(deed)) {
        this.figures.acknowledged += 1;
        this.figures.byKind[deed.kind] = (this.figures.byKind[deed.kind] ?? 0) + 1;
        this.#mustStandOnce(connection, deed);
      } else if (deed.answer) {
        this.#mustBeTaken(deed);
      } else {
        const effects = effectsOf(connection, deed);
        this.figures.unanswered += 1;
        if (effects === 1) this.figures.tookEffect += 1;
        else if (effects !== 0) this.figures.wrong.push(`${deed.mark} took effect ${effects} times`);
      }
    }
  }

  /** The writers send nothing that the service has a reason to refuse. */
  #mustBeTaken(deed: Deed): void {
    const { status, text } = deed.answer!;
    if (!isAnswered(deed))
      this.figures.wrong.push(`${deed.mark} was refused: ${status} ${text.slice(0, 300)}`);
  }

  #mustStandOnce(connection: BetterSqlite.Database, deed: Deed): void {
    const effects = effectsOf(connection, deed);
    if (effects === 0) this.figures.lost.push(`${deed.kind} ${deed.mark}`);
    else if (effects !== 1) this.figures.wrong.push(`${deed.mark} took effect ${effects} times`);
  }

  /** Repeats requests that had an Idempotency-Key: each gets its first answer or, without one, takes effect now. */
  async #settle(deed: Deed): Promise<void> {
    if (deed.idempotencyKey === null) return;
    const first = deed.answer;
    const again = await send(this.#address, this.key, deed);
    const wasReplayed = again.headers.get('idempotent-replayed') === 'true';
    if (wasReplayed) this.figures.replayed += 1;
    if (first === null) {
      deed.answer = again;
      this.#mustBeTaken(deed);
    } else if (!wasReplayed || again.status !== first.status || again.text !== first.text)
      this.figures.lost.push(`the answer to ${deed.mark}: now ${again.status} ${again.text.slice(0, 300)}`);
  }

  /** A resource reads as its last answer said; earlier answers are in its history. */
  async #compareContent(deed: Deed): Promise<void> {
    if (!isAnswered(deed) || deed.kind === 'import') return;
    const {
      findings: _f,
      cautions: _c,
      outlook: _o,
      ...answered
    } = JSON.parse(deed.answer!.text) as AnsweredRecord;
    const path = `/v1/${'vehicleId' in answered ? 'visits' : 'vehicles'}/${answered.id}`;
    const current = JSON.parse((await ask(this.#address, this.key, path)).text) as AnsweredRecord;
    if (current.version === answered.version) {
      if (!isDeepStrictEqual(current, answered)) this.figures.lost.push(`content of ${deed.mark}`);
      return;
    }
    const { items } = JSON.parse((await ask(this.#address, this.key, `${path}/history?limit=200`)).text) as {
      items: { version: number; body: AnsweredRecord }[];
    };
    const version = items.find((item) => item.version === answered.version);
    if (!version || contentOf(version.body) !== contentOf(answered))
      this.figures.lost.push(`version of ${deed.mark}`);
  }
}

interface AnsweredRecord {
  id: string;
  version: number;
  [member: string]: unknown;
}

export const isAnswered = ({ answer }: Deed): boolean => answer !== null && answer.status < 300;

/** The parts of a version that its answer repeats unchanged: its texts, and the number of its entries. */
const contentOf = (answered: AnsweredRecord): string =>
  JSON.stringify(
    [
      'externalId',
      'description',
      'notes',
      'complaint',
      'readings',
      'work',
      'torques',
      'conditions',
      'notMeasured',
    ].map((name) => (Array.isArray(answered[name]) ? answered[name].length : (answered[name] ?? 0))),
  );

function vehiclesOf({ kind, answer, vehicleIds }: Deed): string[] {
  if (kind !== 'vehicle' || !answer) return vehicleIds;
  return [(JSON.parse(answer.text) as AnsweredRecord).id];
}

/** Where the effect of a write is visible, one row for each time it took effect. */
const EFFECTS: Record<DeedKind, string> = {
  vehicle: 'select count(*) from vehicles where external_id = ?',
  visit: 'select count(*) from visits where notes = ?',
  entry: 'select count(*) from conditions where notes = ?',
  correction: 'select count(*) from visit_versions where reason = ?',
  change: "select count(*) from vehicle_versions where json_extract(patch, '$.description') = ?",
  import: 'select count(*) from visits where notes = ?',
};

/** How often a write took effect; a fraction if part of a file was taken. */
export function effectsOf(connection: BetterSqlite.Database, { kind, mark, vehicleIds }: Deed): number {
  const found = connection.prepare(EFFECTS[kind]).pluck().get(mark) as number;
  return kind === 'import' ? found / vehicleIds.length : found;
}
