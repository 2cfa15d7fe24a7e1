import { RefusedRecord } from '../../domain/keeping/wholeRecord';

/** Some twenty thousand sessions; more would not fit into the memory of a phone. */
export const BYTES_MOST = 256 * 1024 * 1024;

const CHANGED = 'Another program has saved the file anew. Choose the file as Sayso saved it.';

/** Throws RefusedRecord where a file of so many bytes is not read. */
export function mustFit(bytes: number): void {
  if (bytes <= BYTES_MOST) return;
  const megabytes = Math.ceil(bytes / 1024 / 1024);
  throw new RefusedRecord('', `The file has ${megabytes} MB; at most 256 MB are read.`);
}

/** Whether a file of this text could be read again; letters of three bytes are counted as such. */
export const fits = (text: string): boolean =>
  text.length <= BYTES_MOST && new TextEncoder().encode(text).length <= BYTES_MOST;

/** The bytes of a file without a mark at the front, and their text. Throws RefusedRecord. */
export function textOf(file: Uint8Array<ArrayBuffer>): {
  bytes: Uint8Array<ArrayBuffer>;
  text: string;
} {
  mustFit(file.length);
  if (file.length === 0) throw new RefusedRecord('', 'The file is empty.');
  const isWide = file.subarray(0, 4).some((byte) => byte === 0 || byte >= 0xfe);
  if (isWide) throw new RefusedRecord('', `The file is in UTF-16, not in UTF-8. ${CHANGED}`);
  const hasMark = file[0] === 0xef && file[1] === 0xbb && file[2] === 0xbf;
  const bytes = hasMark ? file.subarray(3) : file;
  try {
    return {
      bytes,
      text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes),
    };
  } catch {
    throw new RefusedRecord('', `The file is not in UTF-8. ${CHANGED}`);
  }
}
