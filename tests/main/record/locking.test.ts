import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { RefusedRecord } from '../../../src/domain/keeping/wholeRecord';
import { isLocked, lock, unlock } from '../../../src/main/record/locking';
import { ITERATIONS, passphraseProblem, WrongPassphrase } from '../../../src/records/passphrase';
import { readRecord } from '../../../src/main/record/reading';
import { sha256 } from '../../../src/main/record/sha256';
import { writeRecord } from '../../../src/main/record/writing';
import { fullDevice, MADE_AT } from './wholeRecords';

const PASSPHRASE = 'kettle under violet ladder';
const bytesOf = (text: string) => new TextEncoder().encode(text);
const textOf = (bytes: Uint8Array) => new TextDecoder().decode(bytes);
const hex = (digits: string) =>
  Uint8Array.from(digits.match(/../g) ?? [], (byte) => parseInt(byte, 16));
const digitsOf = (bytes: ArrayBuffer) =>
  [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, '0')).join('');

let text = '';
let locked = '';
beforeAll(async () => {
  ({ text } = await writeRecord(await (await fullDevice()).keeping.whole(), MADE_AT));
  locked = await lock(text, PASSPHRASE);
});

/** The locked file with this put in place of that, and a checksum that fits. */
async function sealed(from: string | RegExp, to: string): Promise<Uint8Array<ArrayBuffer>> {
  const body = locked.slice(0, locked.lastIndexOf(',\n"checksum"')).replace(from, to);
  return bytesOf(`${body},\n"checksum":"${await sha256(bytesOf(body))}"}`);
}

describe('a record under a passphrase', () => {
  it('comes out of it as it was, and shows nothing of what is in it', async () => {
    expect(textOf(await unlock(bytesOf(locked), PASSPHRASE))).toBe(text);
    expect(locked).not.toMatch(/Quib|Mornings|calm|mon:/);
    expect(isLocked(bytesOf(locked))).toBe(true);
    expect(isLocked(bytesOf(text))).toBe(false);
  });

  it('is not read as a record without it', async () => {
    await expect(readRecord(bytesOf(locked))).rejects.toThrow(/no record that Sayso saved/);
  });

  it('tells how it was locked: 600,000 rounds or more, as OWASP asks', () => {
    expect(ITERATIONS).toBeGreaterThanOrEqual(600_000);
    const { key, cipher } = JSON.parse(locked) as Record<string, Record<string, unknown>>;
    expect(key).toMatchObject({ by: 'PBKDF2-HMAC-SHA-256', iterations: ITERATIONS });
    expect(cipher).toMatchObject({ by: 'AES-256-GCM' });
  });

  it('is another file each time: salt and nonce are new', async () => {
    const again = await lock(text, PASSPHRASE);
    const parts = (file: string) =>
      JSON.parse(file) as { key: { salt: string }; cipher: { nonce: string }; data: string };
    expect(parts(again).key.salt).not.toBe(parts(locked).key.salt);
    expect(parts(again).cipher.nonce).not.toBe(parts(locked).cipher.nonce);
    expect(parts(again).data).not.toBe(parts(locked).data);
  });

  it.each(['Kettle under violet ladder', 'kettle under violet ladder ', '', 'kettle'])(
    'says that "%s" is not the passphrase, and that nobody else has it',
    async (wrong) => {
      const opening = unlock(bytesOf(locked), wrong);
      await expect(opening).rejects.toBeInstanceOf(WrongPassphrase);
      await expect(opening).rejects.toThrow(/does not open the file.*nobody can open/);
    },
  );

  it('takes a passphrase whose letters another keyboard composes', async () => {
    const composed = await lock('{}', 'café café café'.normalize('NFC'));
    expect(textOf(await unlock(bytesOf(composed), 'café café café'.normalize('NFD')))).toBe('{}');
  });

  it('says damage whatever the passphrase, wherever a letter of it is another', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.nat(locked.length - 1),
        fc.constantFrom('A', '0', '"', 'é'),
        async (at, letter) => {
          fc.pre(locked[at] !== letter);
          const flipped = locked.slice(0, at) + letter + locked.slice(at + 1);
          const opening = unlock(bytesOf(flipped), PASSPHRASE);
          await expect(opening).rejects.toBeInstanceOf(RefusedRecord);
          await expect(opening).rejects.toThrow(/changed/);
        },
      ),
      { numRuns: 200 },
    );
  });

  it.each<[string, string | RegExp, string]>([
    ['its data', /"data":"../, '"data":"AA'],
    ['its nonce', /"nonce":"../, '"nonce":"AA'],
    ['its salt', /"salt":"../, '"salt":"AA'],
    ['the number of rounds', '"iterations":600000', '"iterations":600001'],
  ])('is not opened where somebody changed %s and made the checksum fit', async (_, from, to) => {
    await expect(unlock(await sealed(from, to), PASSPHRASE)).rejects.toBeInstanceOf(
      WrongPassphrase,
    );
  });

  it.each<[string, string | RegExp, string, RegExp]>([
    [
      'so few rounds that it is quick to guess',
      '"iterations":600000',
      '"iterations":1000',
      /key\.iterations: must be 600000/,
    ],
    [
      'rounds that take for ever',
      '"iterations":600000',
      '"iterations":999999999',
      /key\.iterations: must be/,
    ],
    ['a salt that is too short', /"salt":"[^"]*"/, '"salt":"AAAA"', /not as long/],
    ['data that is no base64', /"data":"...../, '"data":"*****', /At data: it is not written/],
    ['something between', ',\n"data"', ',"more":1,\n"data"', /At data: it is not written/],
    ['a later version', '"version":1', '"version":2', /of a newer version/],
  ])('is refused with %s', async (_, from, to, reason) => {
    await expect(unlock(await sealed(from, to), PASSPHRASE)).rejects.toThrow(reason);
  });

  it('wants a passphrase that is not found by trying', () => {
    expect(passphraseProblem('kettlebell1')).toMatch(/at least 12 letters; this has 11/);
    expect(passphraseProblem('kettlebell12')).toBeNull();
    expect(passphraseProblem('')).toMatch(/at least 12/);
  });
});

describe('what Web Crypto does here is what is published', () => {
  // RFC 7914, section 11.
  it.each([
    [
      ...(['passwd', 'salt', 1] as const),
      '55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc' +
        '49ca9cccf179b645991664b39d77ef317c71b845b1e30bd509112041d3a19783',
    ],
    [
      ...(['Password', 'NaCl', 80000] as const),
      '4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56' +
        'a1d425a1225833549adb841b51c9b3176a272bdebba1d078478f62b397f33c8d',
    ],
  ])('PBKDF2-HMAC-SHA-256 of %s with %s, %i rounds', async (password, salt, iterations, digits) => {
    const base = await crypto.subtle.importKey('raw', bytesOf(password), 'PBKDF2', false, [
      'deriveBits',
    ]);
    const how = { name: 'PBKDF2', hash: 'SHA-256', salt: bytesOf(salt), iterations };
    expect(digitsOf(await crypto.subtle.deriveBits(how, base, 512))).toBe(digits);
  });

  it('AES-256-GCM of test case 16 of the specification of GCM', async () => {
    const key = await crypto.subtle.importKey(
      'raw',
      hex('feffe9928665731c6d6a8f9467308308feffe9928665731c6d6a8f9467308308'),
      'AES-GCM',
      false,
      ['encrypt'],
    );
    const plain = hex(
      'd9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a72' +
        '1c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b39',
    );
    const how = {
      name: 'AES-GCM',
      iv: hex('cafebabefacedbaddecaf888'),
      additionalData: hex('feedfacedeadbeeffeedfacedeadbeefabaddad2'),
    };
    expect(digitsOf(await crypto.subtle.encrypt(how, key, plain))).toBe(
      '522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa' +
        '8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662' +
        '76fc6ece0f4e1768cddf8853bb2d551b',
    );
  });

  it('SHA-256 of abc (FIPS 180-4)', async () => {
    expect(await sha256(bytesOf('abc'))).toBe(
      'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    );
  });
});
