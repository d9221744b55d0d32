import { randomBytes } from 'node:crypto';
import cookie from '@fastify/cookie';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { sha256 } from '../../store/digest.js';
import type { Key, SessionStore } from '../../store/store.js';
import { scopeOf } from '../auth.js';
import type { ZodServer } from '../context.js';
import { HttpProblem } from '../problems.js';

/**
 * Signing in on the pages. The cookie holds a random token and never the key; the store knows the token's digest alone.
 * The browser sends it to this address only, and no script can read it.
 */

export const COOKIE = 'brake-wear-session';
/** A working day: nobody is asked twice in one shift. */
const SESSION_MS = 12 * 3_600_000;

const digestIn = (request: FastifyRequest): string | null => {
  const token = request.cookies[COOKIE];
  return token === undefined ? null : sha256(token);
};

export interface Sessions {
  begin(request: FastifyRequest, reply: FastifyReply, key: Key): Promise<void>;
  end(request: FastifyRequest, reply: FastifyReply): Promise<void>;
  /** Who is signed in; null for nobody. */
  callerOf(request: FastifyRequest): Promise<Key | null>;
}

export async function sessionCookies(
  app: ZodServer,
  store: SessionStore,
  clock: () => Date,
): Promise<Sessions> {
  await app.register(cookie);
  const options = { path: '/', httpOnly: true, sameSite: 'strict' } as const;
  return {
    async begin(request, reply, key) {
      const token = randomBytes(32).toString('base64url');
      const expiresAt = new Date(clock().getTime() + SESSION_MS).toISOString();
      await store.begin(scopeOf(key), { digest: sha256(token), keyName: key.name, expiresAt });
      const secure = request.protocol === 'https';
      reply.setCookie(COOKIE, token, { ...options, secure, maxAge: SESSION_MS / 1000 });
    },

    async end(request, reply) {
      const digest = digestIn(request);
      const key = digest === null ? null : await store.find(digest);
      if (digest !== null && key) await store.end(scopeOf(key), digest);
      reply.clearCookie(COOKIE, options);
    },

    async callerOf(request) {
      const digest = digestIn(request);
      return digest === null ? null : store.find(digest);
    },
  };
}

/** Failed tries to sign in that one address may make, and for how long the first of them counts. */
const MOST_FAILURES = 20;
const FAILURES_MS = 600_000;
/** Addresses remembered; beyond them those that failed first are forgotten. */
const MOST_ADDRESSES = 10_000;

/** Counts failed tries by address, so that keys cannot be guessed; who signs in as is right is never kept out by others. */
export function signInFailures(clock: () => Date) {
  const failures = new Map<string, { count: number; until: number }>();
  const standing = (address: string) => {
    const known = failures.get(address);
    if (known && known.until > clock().getTime()) return known;
    failures.delete(address);
    return null;
  };
  return {
    /** @throws HttpProblem 429 */
    refuseTooMany(address: string): void {
      const known = standing(address);
      if (!known || known.count < MOST_FAILURES) return;
      const seconds = Math.ceil((known.until - clock().getTime()) / 1000);
      throw new HttpProblem(
        'too-many-requests',
        `too many failed tries to sign in from here; try again in ${Math.ceil(seconds / 60)} minutes`,
        [],
        { 'retry-after': String(seconds) },
      );
    },
    note(address: string): void {
      const known = standing(address) ?? { count: 0, until: clock().getTime() + FAILURES_MS };
      failures.set(address, { ...known, count: known.count + 1 });
      if (failures.size > MOST_ADDRESSES) failures.delete(failures.keys().next().value!);
    },
  };
}

/**
 * A form counts only where the browser says that one of this service's own pages sent it; together with the cookie's
 * SameSite=Strict no other site can act for who is signed in.
 *
 * @throws HttpProblem 403
 */
export function refuseForeignForm(request: FastifyRequest): void {
  const { 'sec-fetch-site': site, origin, host } = request.headers;
  const isOwn = site === undefined ? origin !== undefined && hostOf(origin) === host : site === 'same-origin';
  if (!isOwn) throw new HttpProblem('form-from-elsewhere', 'the form did not come from one of these pages');
}

function hostOf(origin: string): string | null {
  try {
    return new URL(origin).host;
  } catch {
    return null;
  }
}
