/** What is kept under a key: AES-256-GCM by Web Crypto, the place where it lies authenticated with it. */
import { gcm, NONCE_BYTES, randomBytes } from './passphrase';
import type { OpenLock } from './vault';

/** Nonces are random: a key seals up to 2^32 times (NIST SP 800-38D, 8.3); a record has millions of rows. */
export async function seal(
  { key, keyId }: OpenLock,
  place: readonly unknown[],
  value: unknown,
): Promise<Uint8Array<ArrayBuffer>> {
  const nonce = randomBytes(NONCE_BYTES);
  const text = new TextEncoder().encode(JSON.stringify(value));
  const made = await crypto.subtle.encrypt(gcm(nonce, boundTo(keyId, place)), key, text);
  const sealed = new Uint8Array(NONCE_BYTES + made.byteLength);
  sealed.set(nonce);
  sealed.set(new Uint8Array(made), NONCE_BYTES);
  return sealed;
}

/** What was sealed in that place; rejects where it was changed, or lay in another place. */
export async function unseal(
  { key, keyId }: OpenLock,
  place: readonly unknown[],
  sealed: Uint8Array<ArrayBuffer>,
): Promise<unknown> {
  const how = gcm(sealed.slice(0, NONCE_BYTES), boundTo(keyId, place));
  const made = await crypto.subtle.decrypt(how, key, sealed.subarray(NONCE_BYTES));
  return JSON.parse(new TextDecoder().decode(made)) as unknown;
}

const boundTo = (keyId: string, place: readonly unknown[]): string =>
  JSON.stringify(['sayso-1', keyId, ...place]);
