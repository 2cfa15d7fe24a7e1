import { RefusedRecord } from '../../domain/keeping/wholeRecord';

/** Some twenty thousand sessions; more would not fit into the memory of a phone. */
export const BYTES_MOST = 256 * 1024 * 1024;

const CHANGED = 'Another program has saved the file anew. Choose the file as Sayso saved it.';

/** The bytes of a file without a mark at the front, and their text. Throws RefusedRecord. */
export function textOf(file: Uint8Array<ArrayBuffer>): {
  bytes: Uint8Array<ArrayBuffer>;
  text: string;
} {
  if (file.length > BYTES_MOST) {
    const megabytes = Math.ceil(file.length / 1024 / 1024);
    throw new RefusedRecord('', `The file has ${megabytes} MB; at most 256 MB are read.`);
  }
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
