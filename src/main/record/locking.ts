/**
 * A saved record under a passphrase: AES-GCM with 256 bits, its key by PBKDF2-HMAC-SHA-256. There
 * is no other way in: a passphrase that is forgotten cannot be found again by anybody.
 */
import { RefusedRecord } from '../../domain/keeping/wholeRecord';
import { base64, bytesOf } from '../../records/base64';
import {
  gcm,
  ITERATIONS,
  keyOf,
  NONCE_BYTES,
  randomBytes,
  SALT_BYTES,
  WrongPassphrase,
} from '../../records/passphrase';
import { textOf } from './fileText';
import { sha256 } from './sha256';

export const LOCKED_FORMAT = 'sayso-record-locked';
const VERSION = 1;

/** More would only hold up whoever opens a file that somebody made up. */
const ITERATIONS_MOST = 10_000_000;
const WRONG =
  'This passphrase does not open the file. Type it as it was when the record was saved. Without it nobody can open the file, nor can Sayso.';

/** What tells how a file was locked. It is authenticated with the rest. */
const headerOf = (iterations: number, salt: string, nonce: string): string =>
  `{"format":"${LOCKED_FORMAT}","version":${VERSION},` +
  `"key":{"by":"PBKDF2-HMAC-SHA-256","iterations":${iterations},"salt":"${salt}"},` +
  `"cipher":{"by":"AES-256-GCM","nonce":"${nonce}"}`;

const HEADER = new RegExp(
  `^${headerOf(0, '', '')
    .replace(/[{}]/g, '\\$&')
    .replace('"iterations":0', '"iterations":(\\d{1,9})')
    .replace('"salt":""', '"salt":"([A-Za-z0-9+/]+=*)"')
    .replace('"nonce":""', '"nonce":"([A-Za-z0-9+/]+=*)"')}`,
);
const END = /,\n"checksum":"([0-9a-f]{64})"\}\s*$/;
const END_LETTERS = 200;
const DATA = ',\n"data":"';

/** Whether a file is one that `lock` made, by how it begins. */
export const isLocked = (file: Uint8Array<ArrayBuffer>): boolean =>
  new TextDecoder().decode(file.subarray(0, 100)).includes(`{"format":"${LOCKED_FORMAT}"`);

/**
 * The text of a file under a passphrase, as the text of another. Salt and nonce are random and new
 * each time, or `given` by a test. The passphrase is taken as it is: see `passphraseProblem`.
 */
export async function lock(
  text: string,
  passphrase: string,
  given: {
    iterations?: number;
    salt?: Uint8Array<ArrayBuffer>;
    nonce?: Uint8Array<ArrayBuffer>;
  } = {},
): Promise<string> {
  const { iterations = ITERATIONS } = given;
  const salt = given.salt ?? randomBytes(SALT_BYTES);
  const nonce = given.nonce ?? randomBytes(NONCE_BYTES);
  const header = headerOf(iterations, base64(salt), base64(nonce));
  const key = await keyOf(passphrase, salt, iterations);
  const sealed = await crypto.subtle.encrypt(
    gcm(nonce, header),
    key,
    new TextEncoder().encode(text),
  );
  const body = `${header}${DATA}${base64(new Uint8Array(sealed))}"`;
  return `${body},\n"checksum":"${await sha256(new TextEncoder().encode(body))}"}`;
}

/**
 * What `lock` put under the passphrase. Throws WrongPassphrase, or RefusedRecord where the file is
 * damaged: that is known before the passphrase is tried, by a checksum over all of it. Who changes
 * the file and the checksum too gets nothing in either: the tag of GCM does not fit then, which
 * cannot be told from a wrong passphrase.
 */
export async function unlock(
  file: Uint8Array<ArrayBuffer>,
  passphrase: string,
): Promise<Uint8Array<ArrayBuffer>> {
  const { text } = textOf(file);
  const [header = '', iterationsText, salt, nonce] = HEADER.exec(text) ?? [];
  const end = END.exec(text.slice(-END_LETTERS));
  if (salt === undefined || nonce === undefined || end === null) {
    throw new RefusedRecord(
      '',
      'The file is cut off or changed, or of a newer version. Take another copy of it.',
    );
  }
  const body = text.slice(0, Math.max(0, text.length - END_LETTERS) + end.index);
  if ((await sha256(new TextEncoder().encode(body))) !== end[1]) {
    throw new RefusedRecord(
      'checksum',
      'it does not fit the rest of the file, so something in it was changed or damaged, whatever the passphrase. Take another copy of it.',
    );
  }
  const iterations = Number(iterationsText);
  if (iterations < ITERATIONS || iterations > ITERATIONS_MOST) {
    throw new RefusedRecord('key.iterations', `must be ${ITERATIONS} to ${ITERATIONS_MOST}.`);
  }
  const data = bytesOf(body.slice(header.length + DATA.length, -1));
  const isAsWritten = body.startsWith(DATA, header.length) && body.endsWith('"');
  if (!isAsWritten || data === null) {
    throw new RefusedRecord('data', 'it is not written as Sayso writes it.');
  }
  const [saltBytes, nonceBytes] = [bytesOf(salt), bytesOf(nonce)];
  if (saltBytes?.length !== SALT_BYTES || nonceBytes?.length !== NONCE_BYTES) {
    throw new RefusedRecord('key.salt', 'salt and nonce are not as long as Sayso makes them.');
  }
  const key = await keyOf(passphrase, saltBytes, iterations);
  try {
    return new Uint8Array(await crypto.subtle.decrypt(gcm(nonceBytes, header), key, data));
  } catch {
    throw new WrongPassphrase(WRONG);
  }
}
