import { eq } from 'drizzle-orm';
import { randomBytes } from 'node:crypto';
import type { StoreParts } from '../parts.js';
import { serviceSecrets } from '../engine/sqlite/schema.js';

/** Reads a secret of the service's own; makes it where there is none yet, be it beside another process. */
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
