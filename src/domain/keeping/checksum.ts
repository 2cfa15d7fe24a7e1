import type { Entry } from '../log';
import { canonicalJson } from './canonical';

/** CRC-32 as in ISO 3309, ITU-T V.42 and PNG: reflected, polynomial 0x04C11DB7. */
const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

/** The CRC-32 of a text in UTF-8, as 8 hexadecimal digits. @example crc32('123456789') // 'cbf43926' */
export function crc32(text: string): string {
  let rest = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) {
    rest = (rest >>> 8) ^ (TABLE[(rest ^ byte) & 0xff] ?? 0);
  }
  return ((rest ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0');
}

/**
 * What is kept beside an entry so that damage shows: the CRC-32 of its canonical JSON. It is no
 * seal against people, who could write it anew; but it is known at once, and a database's
 * transaction does not wait for Web Crypto, which has only promises. One run of wrong bits of up to
 * 32 is always seen, any other damage but for one in four thousand million.
 */
export const checksumOf = (entry: Entry): string => crc32(canonicalJson(entry));
