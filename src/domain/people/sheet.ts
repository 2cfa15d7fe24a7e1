/** A spreadsheet that was read: lines of cells, the first of which may be titles. */
import { areTitles, type Column } from './columns';

/** A line of cells, by where it begins in the file, from 1. */
export interface SheetRow {
  line: number;
  cells: string[];
}

export interface Sheet {
  columns: Column[];
  /** Lines with something in them, without the titles. */
  rows: SheetRow[];
  /** The first line with something in it. */
  first: SheetRow;
  /** It is the titles of the columns. */
  hasTitles: boolean;
  /** The file does not say how its letters are written, and they were guessed: look at accents. */
  isGuess: boolean;
}

const SAMPLES = 3;

/** A sheet of these lines; where it is not said whether the first has the titles, it is guessed. */
export function sheetOf(
  [first, ...rest]: readonly [SheetRow, ...SheetRow[]],
  isGuess: boolean,
  hasTitles = areTitles(first.cells),
): Sheet {
  const rows = hasTitles ? rest : [first, ...rest];
  const width = Math.max(...[first, ...rest].map(({ cells }) => cells.length));
  const columns = Array.from({ length: width }, (_, at) => ({
    title: (hasTitles && first.cells[at]?.trim()) || `Column ${at + 1}`,
    samples: samplesIn(rows, at),
  }));
  return { columns, rows, first, hasTitles, isGuess };
}

/** The same sheet, its first line taken for the titles, or for a person as all others. */
export const withTitles = ({ rows, first, isGuess, ...now }: Sheet, hasTitles: boolean): Sheet =>
  sheetOf([first, ...(now.hasTitles ? rows : rows.slice(1))], isGuess, hasTitles);

function samplesIn(rows: readonly SheetRow[], at: number): string[] {
  const samples = new Set<string>();
  for (const { cells } of rows) {
    const cell = cells[at]?.trim() ?? '';
    if (cell !== '') samples.add(cell);
    if (samples.size === SAMPLES) break;
  }
  return [...samples];
}
