import { randomBytes } from 'node:crypto';
import { parseArgs } from 'node:util';
import { readConfig, type Config } from '../config.js';
import { Refusal } from '../core/refusal.js';
import { ROLES, type Role } from '../core/vocabulary/terms.js';
import { startOrExplain } from '../server.js';
import { sha256 } from '../store/digest.js';
import { freeReserve, isDiskFull } from '../store/files.js';
import { openStore } from '../store/open.js';
import type { KeyStore } from '../store/store.js';

const USAGE = `Usage:
  keys -- create --role ROLE --name NAME [--fleet FLEET ...]   prints the key, once
  keys -- list
  keys -- revoke NAME
Roles: ${ROLES.join(', ')}`;

/** A new key: 256 random bits behind a prefix that says what it opens. Only its digest is stored. */
export async function createKey(
  keys: KeyStore,
  key: { name: string; role: Role; fleets: string[] },
): Promise<string> {
  const secret = `bws_${randomBytes(32).toString('base64url')}`;
  await keys.create({ ...key, digest: sha256(secret) });
  return secret;
}

async function run(keys: KeyStore, [command, ...rest]: string[]): Promise<string> {
  if (command === 'create') {
    const { values } = parseArgs({
      args: rest,
      options: {
        role: { type: 'string' },
        name: { type: 'string' },
        fleet: { type: 'string', multiple: true },
      },
    });
    const role = ROLES.find((known) => known === values.role);
    if (!role || !values.name || !/^[A-Za-z0-9_.-]{1,60}$/.test(values.name)) return fail(USAGE);
    return createKey(keys, { name: values.name, role, fleets: values.fleet ?? [] });
  }
  if (command === 'list') {
    const all = await keys.list();
    return all
      .map(({ name, role, fleets, createdAt, revokedAt }) =>
        [name, role, fleets.join(','), createdAt, revokedAt ? `revoked ${revokedAt}` : 'in use'].join('\t'),
      )
      .join('\n');
  }
  const [name] = rest;
  if (command === 'revoke' && name)
    return (await keys.revoke(name)) ? `revoked ${name}` : fail(`no key in use is named ${name}`);
  return fail(USAGE);
}

/** With no server running, opening a database needs room itself; a key must be revoked without any. */
function open(
  { databaseFile: file, timeZone }: Config,
  mayUseReserve: boolean,
): ReturnType<typeof openStore> {
  const options = { file, timeZone, patienceMs: 60_000 };
  try {
    return openStore(options);
  } catch (fault) {
    if (!mayUseReserve || !isDiskFull((fault as Error).cause) || !freeReserve(file)) throw fault;
    return openStore(options);
  }
}

function fail(message: string): never {
  process.stderr.write(`${message}\n`);
  process.exit(2);
}

if (process.argv[1] === import.meta.filename) {
  await startOrExplain(async () => {
    const config = readConfig(process.env);
    const command = process.argv.slice(2);
    const store = open(config, command[0] === 'revoke');
    try {
      const line = await run(store.keys, command);
      if (line) process.stdout.write(`${line}\n`);
    } catch (error) {
      fail(error instanceof Refusal || error instanceof TypeError ? error.message : String(error));
    } finally {
      store.close();
    }
  });
}
