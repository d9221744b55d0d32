import { randomBytes } from 'node:crypto';
import cookie from '@fastify/cookie';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { LRUCache } from 'lru-cache';
import { sha256 } from '../../digest.js';
import type { KeyCaller } from '../../store/contract/caller.js';
import type { SessionStore } from '../../store/contract/sessions.js';
import type { SharedCounts } from '../../store/contract/counts.js';
import type { ZodServer } from '../context.js';
import { networkOf } from '../networks.js';
import { HttpProblem } from '../problems.js';

/**
 * Sign-in for the pages. The cookie holds a random token, never the key, and the store keeps only the token's digest.
 * The browser sends the cookie only to this address, and scripts cannot read it.
 */

export const COOKIE = 'brake-wear-session';
/** A working day, so that nobody signs in twice per shift. */
const SESSION_MS = 12 * 3_600_000;

const digestIn = (request: FastifyRequest): string | null => {
  const token = request.cookies[COOKIE];
  return token === undefined ? null : sha256(token);
};

export interface Sessions {
  begin(request: FastifyRequest, reply: FastifyReply, caller: KeyCaller): Promise<void>;
  end(request: FastifyRequest, reply: FastifyReply): Promise<void>;
  /** The signed-in user; null if there is none. */
  callerOf(request: FastifyRequest): Promise<KeyCaller | null>;
}

export async function sessionCookies(
  app: ZodServer,
  store: SessionStore,
  clock: () => Date,
): Promise<Sessions> {
  await app.register(cookie);
  const options = { path: '/', httpOnly: true, sameSite: 'strict' } as const;
  return {
    async begin(request, reply, caller) {
      const token = randomBytes(32).toString('base64url');
      const expiresAt = new Date(clock().getTime() + SESSION_MS).toISOString();
      const session = { digest: sha256(token), keyName: caller.keyName, expiresAt };
      await store.begin(caller, session, digestIn(request));
      const secure = request.protocol === 'https';
      reply.setCookie(COOKIE, token, { ...options, secure, maxAge: SESSION_MS / 1000 });
    },

    async end(request, reply) {
      const digest = digestIn(request);
      const caller = digest === null ? null : await store.find(digest);
      if (digest !== null && caller) await store.end(caller, digest);
      reply.clearCookie(COOKIE, options);
    },

    async callerOf(request) {
      const digest = digestIn(request);
      return digest === null ? null : store.find(digest);
    },
  };
}

/**
 * Failed sign-ins allowed per address or key, and the period in which they are counted, starting with the first
 * failure.
 */
const MAX_FAILURES = 20;
const FAILURES_MS = 600_000;
/** Addresses and prefixes to remember; beyond that, those whose last failure is oldest are forgotten. */
const MAX_REMEMBERED = 10_000;
/** The first characters of a key, which identify it: its prefix and 48 random bits. */
const PREFIX_LENGTH = 12;

/**
 * Counts failed sign-ins by address and by the key's first characters, so that many addresses together cannot guess the
 * rest of one key. Valid keys are never refused.
 */
export function signInFailures(clock: () => Date, counts: SharedCounts | null) {
  const failures = new LRUCache<string, { count: number; until: number }>({ max: MAX_REMEMBERED });

  /** The counts of all servers, in periods that all of them share. */
  async function sharedCountsOf(counts: SharedCounts, names: readonly string[]) {
    const period = Math.floor(clock().getTime() / FAILURES_MS);
    const endsAt = (period + 1) * FAILURES_MS;
    const totals = await counts.add(
      names.map((what) => ({ name: `sign-in ${what}`, period, endsAt, by: 1 })),
    );
    return totals.map((count) => ({ count, until: endsAt }));
  }

  function countOf(what: string): { count: number; until: number } {
    const now = clock().getTime();
    const known = failures.get(what);
    const counted = known && known.until > now ? known : { count: 0, until: now + FAILURES_MS };
    counted.count += 1;
    failures.set(what, counted);
    return counted;
  }

  return {
    /** @throws HttpProblem 429 when this failure exceeds the limit */
    async note(address: string, key: string): Promise<void> {
      const names = [`from ${networkOf(address)}`, `with ${sha256(key.slice(0, PREFIX_LENGTH))}`];
      const counted = counts ? await sharedCountsOf(counts, names) : names.map(countOf);
      const over = counted.filter(({ count }) => count > MAX_FAILURES);
      if (over.length === 0) return;
      const seconds = Math.ceil((Math.max(...over.map(({ until }) => until)) - clock().getTime()) / 1000);
      throw new HttpProblem(
        'too-many-requests',
        `Too many failed attempts to sign in. Check the key, and try again in ${Math.ceil(seconds / 60)} minutes.`,
        [],
        { 'retry-after': String(seconds) },
      );
    },
  };
}

/**
 * Accepts a form only if the browser says that it came from this service's own pages. Together with the cookie's
 * SameSite=Strict, this stops other sites from acting for the signed-in user.
 *
 * @throws HttpProblem 403
 */
export function refuseForeignForm(request: FastifyRequest): void {
  const { 'sec-fetch-site': site, origin } = request.headers;
  const isOwn =
    site === undefined ? origin !== undefined && hostOf(origin) === request.host : site === 'same-origin';
  if (!isOwn)
    throw new HttpProblem('form-from-elsewhere', 'the form was not sent from one of the service’s pages');
}

function hostOf(origin: string): string | null {
  try {
    return new URL(origin).host;
  } catch {
    return null;
  }
}
