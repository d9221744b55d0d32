import { createCipheriv, createDecipheriv, createHmac, hkdfSync, randomBytes } from 'node:crypto';

/** Encrypts and authenticates text with AES-256-GCM, with a key derived (RFC 5869) from a secret and a purpose. */

const IV_BYTES = 12;
const TAG_BYTES = 16;
const PURPOSE = 'brake-wear kept answer';

const keyFrom = (secret: string, purpose: string): Uint8Array =>
  new Uint8Array(hkdfSync('sha256', secret, '', purpose, 32));

/** @returns base64url of the IV, the tag and the ciphertext */
function sealWith(secret: string, purpose: string, iv: Buffer, text: string): string {
  const cipher = createCipheriv('aes-256-gcm', keyFrom(secret, purpose), iv);
  const sealed = [cipher.update(text, 'utf8'), cipher.final()];
  return Buffer.concat([iv, cipher.getAuthTag(), ...sealed]).toString('base64url');
}

/** @throws if the text was sealed with another secret or purpose, or changed since */
function unsealWith(secret: string, purpose: string, sealed: string): string {
  const bytes = Buffer.from(sealed, 'base64url');
  const decipher = createDecipheriv('aes-256-gcm', keyFrom(secret, purpose), bytes.subarray(0, IV_BYTES));
  decipher.setAuthTag(bytes.subarray(IV_BYTES, IV_BYTES + TAG_BYTES));
  const text = [decipher.update(bytes.subarray(IV_BYTES + TAG_BYTES)), decipher.final()];
  return Buffer.concat(text).toString('utf8');
}

/**
 * Seals an answer so that only its caller can read it; `secret` is the API key, which the service itself does not
 * store.
 */
export const seal = (secret: string, text: string): string =>
  sealWith(secret, PURPOSE, randomBytes(IV_BYTES), text);
export const unseal = (secret: string, sealed: string): string => unsealWith(secret, PURPOSE, sealed);

const CURSOR = 'brake-wear cursor';

/**
 * Seals a cursor. The IV is derived from the text, so that the same page of a list always has the same cursor; an IV
 * repeats only for identical text.
 */
export function sealCursor(secret: string, text: string): string {
  const digest = createHmac('sha256', keyFrom(secret, `${CURSOR} iv`))
    .update(text)
    .digest();
  return sealWith(secret, CURSOR, digest.subarray(0, IV_BYTES), text);
}
export const unsealCursor = (secret: string, sealed: string): string => unsealWith(secret, CURSOR, sealed);
