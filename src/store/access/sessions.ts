import { and, eq, gt, lte, sql } from 'drizzle-orm';
import type { StoreParts } from '../parts.js';
import { apiKeys, sessions } from '../engine/sqlite/schema.js';
import type { Caller } from '../contract/caller.js';
import type { SessionStore } from '../contract/sessions.js';

export function sessionStore({ database, clock, write, versions, keyCaller }: StoreParts): SessionStore {
  const standing = database
    .select({ key: apiKeys })
    .from(sessions)
    .innerJoin(apiKeys, eq(apiKeys.name, sessions.keyName))
    .where(
      and(eq(sessions.digest, sql.placeholder('digest')), gt(sessions.expiresAt, sql.placeholder('now'))),
    )
    .prepare();
  const note = (caller: Caller, action: string, keyName: string): void =>
    versions.note(caller, { action, resource: 'session', resourceId: keyName });

  function endWithin(caller: Caller, digest: string): void {
    const ended = database.delete(sessions).where(eq(sessions.digest, digest)).returning().get();
    if (ended) note(caller, 'signed-out', ended.keyName);
  }

  return {
    async begin(caller, session, former) {
      await write(() => {
        database.delete(sessions).where(lte(sessions.expiresAt, clock().toISOString())).run();
        if (former !== null) endWithin(caller, former);
        database.insert(sessions).values(session).run();
        note(caller, 'signed-in', session.keyName);
      });
    },

    async find(digest) {
      const row = standing.get({ digest, now: clock().toISOString() });
      return row ? keyCaller(row.key) : null;
    },

    async end(caller, digest) {
      await write(() => endWithin(caller, digest));
    },
  };
}
