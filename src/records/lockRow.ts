import {
  gcm,
  ITERATIONS,
  keyOf,
  NONCE_BYTES,
  randomBytes,
  SALT_BYTES,
  WrongPassphrase,
} from './passphrase';
import type { OpenLock } from './vault';

/** The lock of the record: its key, wrapped by the key of the passphrase. There is one or none. */
export interface LockRow {
  id: 'lock';
  version: 1;
  /** Random; tells this lock from one that was there before. */
  keyId: string;
  /** Of PBKDF2-HMAC-SHA-256. */
  iterations: number;
  salt: Uint8Array<ArrayBuffer>;
  nonce: Uint8Array<ArrayBuffer>;
  wrapped: Uint8Array<ArrayBuffer>;
  /** `off-soon`: it is being taken off; rows are written open, and those that are sealed opened. */
  state: 'on' | 'off-soon';
}

const WRONG =
  'This passphrase does not open the record. Nothing was lost. Type it as it was when it was chosen; look at capital letters and at the language of the keys.';

/** A new lock with a new random key, and the key. */
export async function newLock(
  passphrase: string,
  iterations = ITERATIONS,
): Promise<{ row: LockRow; open: OpenLock }> {
  const kind = { name: 'AES-GCM', length: 256 };
  const key = await crypto.subtle.generateKey(kind, true, ['encrypt', 'decrypt']);
  const keyId = crypto.randomUUID();
  const row = await wrapped(key, passphrase, { keyId, iterations, state: 'on' });
  return { row, open: await openLock(row, passphrase) };
}

/** The key of a lock. Throws WrongPassphrase; a lock that is damaged cannot be told from that. */
export const openLock = async (row: LockRow, passphrase: string): Promise<OpenLock> => ({
  keyId: row.keyId,
  key: await unwrapped(row, passphrase, false),
});

/** The same key under another passphrase, so that no row is written anew. Throws WrongPassphrase. */
export const rewrapped = async (row: LockRow, from: string, to: string): Promise<LockRow> =>
  wrapped(await unwrapped(row, from, true), to, row);

type Known = Pick<LockRow, 'keyId' | 'iterations' | 'state'>;

async function wrapped(
  key: CryptoKey,
  passphrase: string,
  { keyId, iterations, state }: Known,
): Promise<LockRow> {
  const [salt, nonce] = [randomBytes(SALT_BYTES), randomBytes(NONCE_BYTES)];
  const by = await keyOf(passphrase, salt, iterations, ['wrapKey', 'unwrapKey']);
  const made = await crypto.subtle.wrapKey('raw', key, by, gcm(nonce, boundTo(keyId)));
  return {
    ...{ id: 'lock', version: 1, keyId, iterations, state, salt, nonce },
    wrapped: new Uint8Array(made),
  };
}

async function unwrapped(row: LockRow, passphrase: string, isExtractable: boolean) {
  const by = await keyOf(passphrase, row.salt, row.iterations, ['wrapKey', 'unwrapKey']);
  const how = gcm(row.nonce, boundTo(row.keyId));
  try {
    return await crypto.subtle.unwrapKey('raw', row.wrapped, by, how, 'AES-GCM', isExtractable, [
      ...(['encrypt', 'decrypt'] as const),
    ]);
  } catch {
    throw new WrongPassphrase(WRONG);
  }
}

const boundTo = (keyId: string): string => `sayso-lock-1 ${keyId}`;
