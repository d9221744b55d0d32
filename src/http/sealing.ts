import { createCipheriv, createDecipheriv, hkdfSync, randomBytes } from 'node:crypto';

/**
 * Keeps a text so that only the caller can have it back: AES-256-GCM under a key derived (RFC 5869) from the caller's
 * API key, which the service knows from requests alone.
 */

const IV_BYTES = 12;
const TAG_BYTES = 16;

const keyFrom = (secret: string): Uint8Array =>
  new Uint8Array(hkdfSync('sha256', secret, '', 'brake-wear kept answer', 32));

/** @returns base64url of the IV, the tag and the ciphertext */
export function seal(secret: string, text: string): string {
  const iv = randomBytes(IV_BYTES);
  const cipher = createCipheriv('aes-256-gcm', keyFrom(secret), iv);
  const sealed = [cipher.update(text, 'utf8'), cipher.final()];
  return Buffer.concat([iv, cipher.getAuthTag(), ...sealed]).toString('base64url');
}

/** @throws where it was sealed with another secret, or changed since */
export function unseal(secret: string, sealed: string): string {
  const bytes = Buffer.from(sealed, 'base64url');
  const decipher = createDecipheriv('aes-256-gcm', keyFrom(secret), bytes.subarray(0, IV_BYTES));
  decipher.setAuthTag(bytes.subarray(IV_BYTES, IV_BYTES + TAG_BYTES));
  const text = [decipher.update(bytes.subarray(IV_BYTES + TAG_BYTES)), decipher.final()];
  return Buffer.concat(text).toString('utf8');
}
