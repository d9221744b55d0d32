import { randomBytes } from 'node:crypto';
import { realpathSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { readConfig } from '../config.js';
import { Refusal } from '../core/refusal.js';
import { ROLES, type Role } from '../core/vocabulary/terms.js';
import { startOrExplain } from '../startUp.js';
import { sha256 } from '../digest.js';
import { openConfigured } from '../openConfigured.js';
import { OPERATOR } from '../store/contract/caller.js';
import type { Key, KeyStore } from '../store/contract/keys.js';

const DEFAULT_OVERLAP_HOURS = 24;
const MAX_OVERLAP_HOURS = 720;

const USAGE = `Usage:
  keys -- create --role ROLE --name NAME [--fleet FLEET ...] [--expires DATE]   creates a key and prints it, only this once
  keys -- change NAME [--role ROLE] [--fleet FLEET ...] [--expires DATE|never]
  keys -- rotate NAME [--overlap HOURS]   prints a new key, only this once; the old key works for another ${DEFAULT_OVERLAP_HOURS} hours
  keys -- list
  keys -- sign-out NAME   ends all browser sessions of the key
  keys -- revoke NAME
Roles: ${ROLES.join(', ')}
--expires DATE: the key stops working at the start of that day, in UTC. --overlap HOURS: from 0 to ${MAX_OVERLAP_HOURS}.`;

const OPTIONS = {
  role: { type: 'string' },
  name: { type: 'string' },
  fleet: { type: 'string', multiple: true },
  expires: { type: 'string' },
  overlap: { type: 'string' },
} as const;

/** 256 random bits after a prefix that marks the string as one of this service's keys. */
const newSecret = (): string => `bws_${randomBytes(32).toString('base64url')}`;

/** Creates a key and stores only its digest. */
export async function createKey(
  keys: KeyStore,
  key: { name: string; role: Role; fleets: string[]; expiresAt?: string | null },
): Promise<string> {
  const secret = newSecret();
  await keys.create({ ...key, digest: sha256(secret) });
  return secret;
}

/** The output of a command: the result on stdout, a warning on stderr. */
interface CommandOutput {
  out: string;
  warning?: string;
}

/**
 * Runs one command.
 *
 * @throws Refusal, or BadUsage when the arguments are not a valid command
 */
export async function runKeys(
  keys: KeyStore,
  [command, ...rest]: string[],
  now: Date,
): Promise<CommandOutput> {
  const { values, positionals } = parseArgs({ args: rest, options: OPTIONS, allowPositionals: true });
  const settings = readKeySettings(values, now);
  if (positionals.length === 0) {
    if (command === 'create') return create(keys, values.name, settings);
    if (command === 'list') return { out: await listing(keys, now) };
  }
  const [name, ...others] = positionals;
  if (name === undefined || others.length > 0) throw new BadUsage();
  switch (command) {
    case 'change':
      return change(keys, name, settings);
    case 'rotate': {
      const secret = newSecret();
      await keys.rotate(name, sha256(secret), readOverlap(values.overlap));
      return { out: secret };
    }
    case 'sign-out':
      return {
        out: `ended ${await keys.endSessions(OPERATOR, name)} sessions of ${name}`,
      };
    case 'revoke':
      if (await keys.revoke(name)) return { out: `revoked ${name}` };
      throw new Refusal('not-found', 'not-found', `no valid key is named ${name}`);
    default:
      throw new BadUsage();
  }
}

/** The settings given as options; undefined if missing. */
interface KeySettings {
  role?: Role | undefined;
  fleets?: string[] | undefined;
  /** Null if the key is never to expire. */
  expiresAt?: string | null | undefined;
}

function readKeySettings(
  { role: name, fleet: fleets, expires }: { role?: string; fleet?: string[]; expires?: string },
  now: Date,
): KeySettings {
  const role = ROLES.find((known) => known === name);
  if (name !== undefined && !role) throw new BadUsage();
  return { role, fleets, expiresAt: expires === undefined ? undefined : readExpiry(expires, now) };
}

async function create(
  keys: KeyStore,
  name: string | undefined,
  { role, fleets = [], expiresAt }: KeySettings,
): Promise<CommandOutput> {
  if (name === undefined || !role) throw new BadUsage();
  const out = await createKey(keys, { name, role, fleets, ...(expiresAt && { expiresAt }) });
  return { out, ...(await warningOf(keys, fleets)) };
}

async function change(
  keys: KeyStore,
  name: string,
  { role, fleets, expiresAt }: KeySettings,
): Promise<CommandOutput> {
  if (!role && !fleets && expiresAt === undefined) throw new BadUsage();
  await keys.change(name, {
    ...(role && { role }),
    ...(fleets && { fleets }),
    ...(expiresAt !== undefined && { expiresAt }),
  });
  return { out: `changed ${name}`, ...(await warningOf(keys, fleets)) };
}

class BadUsage extends Error {
  constructor() {
    super(USAGE);
  }
}

/** Warns about a fleet without vehicles: allowed, since vehicles may follow, but usually a typing error. */
async function warningOf(keys: KeyStore, fleets: string[] = []): Promise<{ warning?: string }> {
  const without = await keys.fleetsWithoutVehicles(fleets.map((fleet) => fleet.normalize('NFC').trim()));
  if (without.length === 0) return {};
  const names = without.map((fleet) => JSON.stringify(fleet)).join(', ');
  return { warning: `warning: fleet ${names} has no vehicles yet; check the spelling` };
}

/** @returns an instant in UTC; null for `never` */
function readExpiry(text: string, now: Date): string | null {
  if (text === 'never') return null;
  const instant = /^\d{4}-\d\d-\d\d$/.test(text) ? new Date(`${text}T00:00:00Z`) : new Date(NaN);
  if (Number.isNaN(instant.getTime()) || !instant.toISOString().startsWith(text))
    throw new Refusal('invalid', 'key-expiry', `--expires ${text}: give a date as YYYY-MM-DD, or never`);
  if (instant <= now)
    throw new Refusal('invalid', 'key-expiry', `--expires ${text}: the date must be in the future`);
  return instant.toISOString();
}

function readOverlap(text = String(DEFAULT_OVERLAP_HOURS)): number {
  if (/^\d{1,3}$/.test(text) && Number(text) <= MAX_OVERLAP_HOURS) return Number(text);
  throw new Refusal('invalid', 'key-overlap', `--overlap ${text}: give 0 to ${MAX_OVERLAP_HOURS} hours`);
}

/** One line per key: name, role, fleets, creation date, state, last use. */
async function listing(keys: KeyStore, now: Date): Promise<string> {
  const lines = (await keys.list()).map((key) =>
    [
      key.name,
      key.role,
      key.fleets.join(','),
      key.createdAt,
      stateOf(key, now),
      key.lastUsedAt === null ? 'never used' : `last used ${key.lastUsedAt}`,
    ].join('\t'),
  );
  return lines.join('\n');
}

function stateOf({ expiresAt, revokedAt }: Key, now: Date): string {
  if (revokedAt !== null) return `revoked ${revokedAt}`;
  if (expiresAt === null) return 'in use';
  return expiresAt > now.toISOString() ? `in use until ${expiresAt}` : `expired ${expiresAt}`;
}

// Compare real paths: the program may have been started through a symbolic link.
if (realpathSync(process.argv[1]!) === import.meta.filename) {
  await startOrExplain(async () => {
    const config = readConfig(process.env);
    const command = process.argv.slice(2);
    const store = await openConfigured(config, {
      maxWaitMs: 60_000,
      // Without a running server, opening the database needs disk space; revoking a key must work on a full disk.
      mayOpenFromReserve: ['revoke', 'sign-out'].includes(command[0] ?? ''),
    });
    try {
      const { out, warning } = await runKeys(store.keys, command, new Date());
      if (warning) process.stderr.write(`${warning}\n`);
      if (out) process.stdout.write(`${out}\n`);
    } catch (error) {
      process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
      process.exitCode = 2;
    } finally {
      await store.close();
    }
  });
}
