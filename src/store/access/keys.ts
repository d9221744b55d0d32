import { timingSafeEqual } from 'node:crypto';
import { Refusal } from '../../core/refusal.js';
import { identifier } from '../../core/vocabulary/quantities.js';
import { OPERATOR } from '../contract/caller.js';
import type { Key, KeyStore } from '../contract/keys.js';
import type { KeyRow } from '../engine/contract/access.js';
import type { ReadingRules, Rules, StoreParts } from '../parts.js';
import { isPast } from './keyUses.js';

const NO_DIGEST = '0'.repeat(64);
/** Maximum number of keys cached in memory. */
const MAX_CACHED = 1000;
const NAME = /^[A-Za-z0-9_.-]{1,60}$/;
const Fleet = identifier(100);

export function keyStore(parts: StoreParts): KeyStore {
  const { clock, reading, write, writeFromReserve, whileUnchanged, keyCaller } = parts;
  const known = whileUnchanged((digest: string) => reading.rows.keys.byDigest(digest), MAX_CACHED);

  /** The digest by which the row was found, unless it is a rotated key's former digest and its overlap has ended. */
  function digestInForce(row: KeyRow | null, digest: string): string | null {
    if (row?.digest === digest) return row.digest;
    return row?.formerDigest != null && !isPast(row.formerUntil, clock()) ? row.formerDigest : null;
  }

  return {
    async find(digest) {
      const row = await known(digest);
      const own = digestInForce(row, digest);
      // Compare even without a row, so that an unknown key takes as long as a known one.
      const isSame = timingSafeEqual(Buffer.from(own ?? NO_DIGEST), Buffer.from(digest));
      return row && own !== null && isSame ? keyCaller(row) : null;
    },

    async create({ name, role, fleets, digest, expiresAt = null }) {
      if (!NAME.test(name)) {
        const detail = 'a key name must be 1 to 60 letters, digits, and _ . -';
        throw new Refusal('invalid', 'key-name', detail);
      }
      const given = readFleets({ role, fleets });
      await write(async ({ rows, versions }) => {
        await refuseUsed(rows, name);
        const createdAt = clock().toISOString();
        await rows.keys.insert({ name, role, fleets: given, digest, createdAt, expiresAt });
        await noteKey(versions, 'created', name);
      });
    },

    async change(name, change) {
      await write(async ({ rows, versions }) => {
        await rows.keys.update(name, changesOf(await validKey(rows, name), change));
        await noteKey(versions, 'changed', name);
      });
    },

    async rotate(name, digest, overlapHours) {
      await write(async ({ rows, versions }) => {
        const { digest: formerDigest } = await validKey(rows, name);
        const formerUntil = new Date(clock().getTime() + overlapHours * 3_600_000).toISOString();
        await rows.keys.update(name, { digest, formerDigest, formerUntil });
        await noteKey(versions, 'rotated', name);
      });
    },

    async endSessions(caller, name) {
      return writeFromReserve(async ({ rows, versions }) => {
        await validKey(rows, name);
        const ended = await rows.sessions.removeOfKey(name);
        await versions.note(caller, {
          effect: 'remove',
          action: 'signed-out',
          resource: 'session',
          resourceId: name,
        });
        return ended;
      });
    },

    async fleetsWithoutVehicles(fleets) {
      const named = await reading.rows.vehicles.fleets(fleets);
      return fleets.filter((fleet) => !named.includes(fleet));
    },

    async list() {
      return (await reading.rows.keys.all()).map(toKey);
    },

    async revoke(name) {
      return writeFromReserve(async ({ rows, versions }) => {
        const row = await rows.keys.byName(name);
        if (!row || row.revokedAt !== null) return false;
        await rows.keys.update(name, { revokedAt: clock().toISOString() });
        await noteKey(versions, 'revoked', name);
        return true;
      });
    },
  };
}

async function refuseUsed({ keys }: ReadingRules['rows'], name: string): Promise<void> {
  if (!(await keys.byName(name))) return;
  const detail = `a key named ${name} exists or existed; names are never used again`;
  throw new Refusal('conflict', 'key-name-used', detail);
}

/** The columns that a change sets. */
function changesOf(row: KeyRow, { role = row.role, fleets, expiresAt }: Parameters<KeyStore['change']>[1]) {
  const kept = role === 'fleet-manager' ? row.fleets : [];
  return {
    role,
    fleets: readFleets({ role, fleets: fleets ?? kept }),
    expiresAt: expiresAt === undefined ? row.expiresAt : expiresAt,
  };
}

/** Only the command line creates and revokes keys. */
const noteKey = (versions: Rules['versions'], action: string, name: string): Promise<void> =>
  versions.note(OPERATOR, { action, resource: 'key', resourceId: name });

/** @throws Refusal if there is no such key or it is revoked */
async function validKey({ keys }: ReadingRules['rows'], name: string): Promise<KeyRow> {
  const row = await keys.byName(name);
  if (!row || row.revokedAt !== null)
    throw new Refusal('not-found', 'not-found', `no valid key is named ${name}`);
  return row;
}

/**
 * A key's fleets, normalized for comparison with those of vehicles.
 *
 * @throws Refusal if the role needs a fleet or takes none, or a fleet's name is invalid
 */
function readFleets({ role, fleets }: Pick<Key, 'role' | 'fleets'>): string[] {
  const refuse = (detail: string) => new Refusal('invalid', 'key-fleets', detail);
  if (role === 'fleet-manager' && fleets.length === 0)
    throw refuse('a fleet-manager key needs at least one fleet');
  if (role !== 'fleet-manager' && fleets.length > 0)
    throw refuse(`a ${role} key cannot be limited to a fleet; leave out --fleet`);
  return fleets.map((fleet) => {
    const read = Fleet.safeParse(fleet);
    if (!read.success)
      throw refuse(
        `${JSON.stringify(fleet)} is not a fleet name: it must be 1 to 100 characters on one line, without tabs`,
      );
    return read.data;
  });
}

function toKey({ name, role, fleets, createdAt, expiresAt, lastUsedAt, revokedAt }: KeyRow): Key {
  return { name, role, fleets, createdAt, expiresAt, lastUsedAt, revokedAt };
}
