import { SpreadsheetError } from './spreadsheetError';

/** Five thousand lines of names need a tenth of this. */
const BYTES_MOST = 5 * 1024 * 1024;
/** Bytes that are looked at for the way letters are written. */
const LOOK_BYTES = 4096;

/** What other files begin with: ZIP (workbooks), the older workbooks, PDF. */
const OTHERS: readonly (readonly number[])[] = [
  [0x50, 0x4b, 0x03, 0x04],
  [0xd0, 0xcf, 0x11, 0xe0],
  [0x25, 0x50, 0x44, 0x46],
];

/** Throws SpreadsheetError where a file of so many bytes is not read. */
export function mustFit(bytes: number): void {
  if (bytes <= BYTES_MOST) return;
  const megabytes = (bytes / 1024 / 1024).toFixed(1);
  throw new SpreadsheetError(
    `The file has ${megabytes} MB; at most 5 MB are read. Keep only the list of athletes in it, save it as CSV and choose it again.`,
  );
}

/** A file's text; `isGuess` where the file does not tell how its letters are written. */
export function textOf(content: string | Uint8Array): { text: string; isGuess: boolean } {
  mustFit(content.length);
  if (typeof content === 'string') return { text: content.replace(/^\uFEFF/, ''), isGuess: false };
  if (OTHERS.some((first) => first.every((byte, at) => content[at] === byte))) {
    throw new SpreadsheetError(
      'This is a workbook or a document. Open it in your spreadsheet, save the list as CSV, and choose that file.',
    );
  }
  const decoded = decode(content);
  if (decoded.text.includes('\0')) {
    throw new SpreadsheetError(
      'This is no text file. Save the list as CSV in your spreadsheet, and choose that file.',
    );
  }
  return decoded;
}

function decode(bytes: Uint8Array): { text: string; isGuess: boolean } {
  const wide = wideIn(bytes);
  // A byte-order mark is left out by the decoder.
  if (wide !== null) return { text: new TextDecoder(wide).decode(bytes), isGuess: false };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), isGuess: false };
  } catch {
    // What older spreadsheets of western Europe write; Latin-1 is part of it (Encoding Standard).
    return { text: new TextDecoder('windows-1252').decode(bytes), isGuess: true };
  }
}

/** UTF-16 by its mark, or by the empty half of western letters. */
function wideIn(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  const looked = bytes.subarray(0, LOOK_BYTES);
  const empty = [0, 0];
  looked.forEach((byte, at) => {
    if (byte === 0) empty[at % 2] = (empty[at % 2] ?? 0) + 1;
  });
  const [even = 0, odd = 0] = empty;
  const many = looked.length / 4;
  if (odd > many && even === 0) return 'utf-16le';
  return even > many && odd === 0 ? 'utf-16be' : null;
}
