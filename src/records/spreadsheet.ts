import Papa from 'papaparse';
import { sheetOf, type Sheet, type SheetRow } from '../domain/people/sheet';
import { textOf } from './sheetText';
import { SpreadsheetError } from './spreadsheetError';

/** More people than any club; a file of millions of empty lines is refused before it is read. */
const LINES_MOST = 5000;
const COLUMNS_MOST = 60;

/**
 * Reads a spreadsheet that was saved as CSV: UTF-8, UTF-16 or, by guess, Windows-1252; separated
 * by comma, semicolon or tab; at most 5 MB and 5,000 lines. Guards against formulas are taken off
 * (see `writeSpreadsheet`). Throws SpreadsheetError, which says what to do.
 *
 * @example readSpreadsheet('Name;Squad\nQuib Marn;Early').columns[1]?.samples // ['Early']
 */
export function readSpreadsheet(content: string | Uint8Array): Sheet {
  const { text, isGuess } = textOf(content);
  const lines = rowsOf(text.replace(/\r\n?/g, '\n'));
  const filled = lines.filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  const [first, ...rest] = filled;
  if (first === undefined) {
    throw new SpreadsheetError('The file is empty. Choose one with a line for each athlete.');
  }
  const sheet = sheetOf([first, ...rest], isGuess);
  if (sheet.columns.length > COLUMNS_MOST) {
    throw new SpreadsheetError(
      `The file has ${sheet.columns.length} columns; at most ${COLUMNS_MOST} are read. Delete those that are not about who the athletes are.`,
    );
  }
  return sheet;
}

/** Some programs write the separator as the first line of the file. */
const SEPARATOR_LINE = /^sep=([,;\t])\n/i;

function rowsOf(text: string): SheetRow[] {
  const said = SEPARATOR_LINE.exec(text);
  const { data, errors } = Papa.parse<string[]>(said === null ? text : text.slice(said[0].length), {
    ...(said?.[1] !== undefined && { delimiter: said[1] }),
    delimitersToGuess: [',', ';', '\t'],
    newline: '\n',
    preview: LINES_MOST + 2,
  });
  if (data.length > LINES_MOST + 1) {
    throw new SpreadsheetError(
      `The file has more than ${LINES_MOST} lines. Delete what is below the list, or split it.`,
    );
  }
  let line = said === null ? 1 : 2;
  const rows = data.map((cells) => {
    const row = { line, cells: cells.map(unguarded) };
    line += 1 + cells.join('').split('\n').length - 1;
    return row;
  });
  const quotes = errors.find(({ type }) => type === 'Quotes');
  if (quotes !== undefined) {
    const at = rows[quotes.row ?? 0]?.line ?? 1;
    throw new SpreadsheetError(
      `Line ${at}: a quotation mark opens there and does not close as it should. Mend or delete it, and choose the file again.`,
    );
  }
  return rows;
}

/**
 * What a spreadsheet takes for a formula at the beginning of a cell (OWASP, "CSV Injection", and
 * ASVS 1.2.10). The apostrophes before it are part, so that the guard can be taken off exactly.
 */
const FORMULA = /^'*[=+\-@\t\r\n\0＝＋－＠]/;

/** A cell that no spreadsheet takes for a formula: an apostrophe before what may be one. */
export const guarded = (cell: string): string => (FORMULA.test(cell) ? `'${cell}` : cell);

/** The cell that was guarded; any other as it is. */
export const unguarded = (cell: string): string =>
  cell.startsWith("'") && FORMULA.test(cell) ? cell.slice(1) : cell;

/**
 * Lines as a CSV file that spreadsheets open by themselves: UTF-8 with its mark, comma separated
 * (RFC 4180), each cell guarded against being run as a formula.
 */
export const writeSpreadsheet = (rows: readonly (readonly string[])[]): string =>
  `\uFEFF${Papa.unparse(
    rows.map((cells) => cells.map(guarded)),
    { newline: '\r\n' },
  )}\r\n`;
