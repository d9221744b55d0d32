import { asc, eq, inArray, sql } from 'drizzle-orm';
import { timingSafeEqual } from 'node:crypto';
import { Refusal } from '../../core/refusal.js';
import { identifier } from '../../core/vocabulary/quantities.js';
import { isPast, type KeyRow } from './keyUses.js';
import type { StoreParts } from '../parts.js';
import { apiKeys, sessions, vehicles } from '../engine/sqlite/schema.js';
import { selector } from '../engine/sqlite/selects.js';
import { OPERATOR } from '../contract/caller.js';
import type { Key, KeyStore } from '../contract/keys.js';

const NO_DIGEST = '0'.repeat(64);
/** Maximum number of keys cached in memory. */
const MAX_CACHED = 1000;
const NAME = /^[A-Za-z0-9_.-]{1,60}$/;
const Fleet = identifier(100);

export function keyStore(parts: StoreParts): KeyStore {
  const { database, clock, write, writeFromReserve, versions, whileUnchanged, keyCaller } = parts;
  const byDigest = selector(database, apiKeys, 'digest = ? or former_digest = ?');
  const known = whileUnchanged((digest: string) => byDigest(digest, digest)[0] ?? null, MAX_CACHED);
  const byName = database
    .select()
    .from(apiKeys)
    .where(eq(apiKeys.name, sql.placeholder('name')))
    .prepare();
  const note = (action: string, name: string): void =>
    // Only the command line creates and revokes keys.
    versions.note(OPERATOR, { action, resource: 'key', resourceId: name });

  /** The digest by which the row was found, unless it is a rotated key's former digest and its overlap has ended. */
  function digestInForce(row: KeyRow | null, asked: string): string | null {
    if (row?.digest === asked) return row.digest;
    return row?.formerDigest != null && !isPast(row.formerUntil, clock()) ? row.formerDigest : null;
  }

  /** @throws Refusal if there is no such key or it is revoked */
  function standing(name: string): KeyRow {
    const row = byName.get({ name });
    if (!row || row.revokedAt !== null)
      throw new Refusal('not-found', 'not-found', `no valid key is named ${name}`);
    return row;
  }

  return {
    async find(digest: string) {
      const row = known(digest);
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
      await write(() => {
        if (byName.get({ name })) {
          throw new Refusal(
            'conflict',
            'key-name-used',
            `a key named ${name} exists or existed; names are never used again`,
          );
        }
        const createdAt = clock().toISOString();
        database.insert(apiKeys).values({ name, role, fleets: given, digest, createdAt, expiresAt }).run();
        note('created', name);
      });
    },

    async change(name, { role, fleets, expiresAt }) {
      await write(() => {
        const row = standing(name);
        const becomes = role ?? row.role;
        const kept = becomes === 'fleet-manager' ? row.fleets : [];
        const given = readFleets({ role: becomes, fleets: fleets ?? kept });
        const expiry = expiresAt === undefined ? row.expiresAt : expiresAt;
        database
          .update(apiKeys)
          .set({ role: becomes, fleets: given, expiresAt: expiry })
          .where(eq(apiKeys.name, name))
          .run();
        note('changed', name);
      });
    },

    async rotate(name, digest, overlapHours) {
      await write(() => {
        const { digest: formerDigest } = standing(name);
        const formerUntil = new Date(clock().getTime() + overlapHours * 3_600_000).toISOString();
        database
          .update(apiKeys)
          .set({ digest, formerDigest, formerUntil })
          .where(eq(apiKeys.name, name))
          .run();
        note('rotated', name);
      });
    },

    async endSessions(caller, name) {
      return writeFromReserve(() => {
        standing(name);
        const { changes } = database.delete(sessions).where(eq(sessions.keyName, name)).run();
        versions.note(caller, {
          effect: 'remove',
          action: 'signed-out',
          resource: 'session',
          resourceId: name,
        });
        return changes;
      });
    },

    async fleetsWithoutVehicles(fleets) {
      const named = database
        .selectDistinct({ fleet: vehicles.fleet })
        .from(vehicles)
        .where(inArray(vehicles.fleet, [...fleets]))
        .all();
      return fleets.filter((fleet) => !named.some((row) => row.fleet === fleet));
    },

    async list() {
      return database
        .select()
        .from(apiKeys)
        .orderBy(asc(apiKeys.createdAt), asc(apiKeys.name))
        .all()
        .map(toKey);
    },

    async revoke(name: string) {
      return writeFromReserve(() => {
        const row = byName.get({ name });
        if (!row || row.revokedAt !== null) return false;
        database
          .update(apiKeys)
          .set({ revokedAt: clock().toISOString() })
          .where(eq(apiKeys.name, name))
          .run();
        note('revoked', name);
        return true;
      });
    },
  };
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
