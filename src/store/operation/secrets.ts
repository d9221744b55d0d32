import { randomBytes } from 'node:crypto';
import { required } from '../../core/items.js';
import type { StoreParts } from '../parts.js';

/** Reads one of the service's own secrets, creating it if missing; safe against another process doing the same. */
export async function secretOf({ reading, write }: StoreParts, name: string): Promise<string> {
  const known = await reading.rows.secrets.find(name);
  if (known !== null) return known;
  const secret = randomBytes(32).toString('base64url');
  return write(async ({ rows: { secrets } }) => {
    await secrets.insert(name, secret);
    return required(await secrets.find(name), 'secret');
  });
}
