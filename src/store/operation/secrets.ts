import { eq } from 'drizzle-orm';
import { randomBytes } from 'node:crypto';
import type { StoreParts } from '../parts.js';
import { serviceSecrets } from '../engine/sqlite/schema.js';

/** Reads one of the service's own secrets, creating it if missing; safe against another process doing the same. */
export async function secretOf(
  { database, write }: Pick<StoreParts, 'database' | 'write'>,
  name: string,
): Promise<string> {
  const known = database.select().from(serviceSecrets).where(eq(serviceSecrets.name, name));
  if (!known.get()) {
    const secret = randomBytes(32).toString('base64url');
    await write(() => database.insert(serviceSecrets).values({ name, secret }).onConflictDoNothing().run());
  }
  return known.get()!.secret;
}
