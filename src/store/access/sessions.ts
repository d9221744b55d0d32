import type { Caller } from '../contract/caller.js';
import type { SessionStore } from '../contract/sessions.js';
import type { Rules, StoreParts } from '../parts.js';

export function sessionStore({ reading, clock, write, keyCaller }: StoreParts): SessionStore {
  return {
    async begin(caller, session, former) {
      await write(async (own) => {
        await own.rows.sessions.removeExpired(clock().toISOString());
        if (former !== null) await endWithin(own, caller, former);
        await own.rows.sessions.insert(session);
        await note(own, caller, 'signed-in', session.keyName);
      });
    },

    async find(digest) {
      const key = await reading.rows.sessions.keyOf(digest, clock().toISOString());
      return key && keyCaller(key);
    },

    async end(caller, digest) {
      await write((own) => endWithin(own, caller, digest));
    },
  };
}

async function endWithin(own: Rules, caller: Caller, digest: string): Promise<void> {
  const ended = await own.rows.sessions.remove(digest);
  if (ended) await note(own, caller, 'signed-out', ended.keyName);
}

const note = ({ versions }: Rules, caller: Caller, action: string, keyName: string): Promise<void> =>
  versions.note(caller, { action, resource: 'session', resourceId: keyName });
