/** The least for PBKDF2-HMAC-SHA-256 (OWASP, Password Storage Cheat Sheet, 2023). */
export const ITERATIONS = 600_000;
/** Twice what is asked of any salt (NIST SP 800-132, 5.1: 16 bytes). */
export const SALT_BYTES = 32;
/** The length that GCM is made for (NIST SP 800-38D, 8.2). */
export const NONCE_BYTES = 12;
export const TAG_BITS = 128;

/** Shorter ones are found by trying. */
export const PASSPHRASE_LETTERS_LEAST = 12;

/** What is wrong with a passphrase that was typed to lock something, and what to do; null where nothing is. */
export function passphraseProblem(passphrase: string): string | null {
  const letters = [...passphrase.normalize('NFKC')].length;
  if (letters >= PASSPHRASE_LETTERS_LEAST) return null;
  return `A passphrase has at least ${PASSPHRASE_LETTERS_LEAST} letters; this has ${letters}. Four or five words that do not belong together are good.`;
}

/** The passphrase is not the one that was chosen; `message` tells it and what to do. */
export class WrongPassphrase extends Error {
  constructor(say: string) {
    super(say);
    this.name = 'WrongPassphrase';
  }
}

/** The key of a passphrase, by PBKDF2. Letters that are composed in different ways are the same. */
export async function keyOf(
  passphrase: string,
  salt: Uint8Array<ArrayBuffer>,
  iterations: number,
  uses: KeyUsage[] = ['encrypt', 'decrypt'],
): Promise<CryptoKey> {
  const typed = new TextEncoder().encode(passphrase.normalize('NFKC'));
  const base = await crypto.subtle.importKey('raw', typed, 'PBKDF2', false, ['deriveKey']);
  const how = { name: 'PBKDF2', hash: 'SHA-256', salt, iterations };
  const kind = { name: 'AES-GCM', length: 256 };
  return crypto.subtle.deriveKey(how, base, kind, false, uses);
}

/** AES-GCM for Web Crypto; what is `bound` is authenticated with what is sealed. */
export const gcm = (iv: Uint8Array<ArrayBuffer>, bound: string) => ({
  ...{ name: 'AES-GCM', iv, tagLength: TAG_BITS },
  additionalData: new TextEncoder().encode(bound),
});

/** So many random bytes. */
export const randomBytes = (count: number): Uint8Array<ArrayBuffer> =>
  crypto.getRandomValues(new Uint8Array(count));
