/** Lists of people as files; comes when one is asked for, since it brings the reader of CSV. */
import { peopleRows, standingRows } from '../../domain/people/exporting';
import type { Sheet } from '../../domain/people/sheet';
import { takenOut, type ListKind } from '../../domain/people/takenOut';
import { mustFit } from '../../records/sheetText';
import { readSpreadsheet, writeSpreadsheet } from '../../records/spreadsheet';
import type { PersonKnown } from '../../screens/people/state';

/** Throws SpreadsheetError where it is no list, and what the browser throws where it is gone. */
export async function sheetIn(file: Blob): Promise<Sheet> {
  mustFit(file.size);
  return readSpreadsheet(new Uint8Array(await file.arrayBuffer()));
}

/** The text of a CSV file. */
export function listOf(kind: ListKind, all: readonly PersonKnown[]): string {
  const those = takenOut(all);
  const people = those.map(({ person }) => person);
  if (kind === 'who') return writeSpreadsheet(peopleRows(people));
  const open = new Map(those.map((one) => [one.person.id, one.open]));
  return writeSpreadsheet(standingRows(people, open));
}
