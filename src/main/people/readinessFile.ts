import { readinessSheet } from '../../domain/reporting/sheet/readinessSheet';
import type { Entry } from '../../domain/log';
import type { CueBook } from '../../domain/script';
import { READINESS_FORMS } from '../../records/readinessFile';
import type { SheetWanted } from '../../screens/finished/state';

/**
 * The readiness sheet of a session as a file: its name, which names nobody, its text and its MIME
 * type. Throws where the log cannot be followed.
 */
export function readinessFile(
  book: CueBook,
  log: readonly Entry[],
  { wanted, name, notes }: { wanted: SheetWanted; name: string | undefined; notes: string[] },
): [name: string, text: string, type: string] {
  const { as, nameAs } = wanted;
  const sheet = readinessSheet(book, log, { ...(nameAs !== 'none' && { name, nameAs }), notes });
  const { write, ending, type } = READINESS_FORMS[as];
  return [`readiness-${sheet.startedAt.slice(0, 10)}.${ending}`, write(sheet), type];
}
