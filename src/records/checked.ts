import { canonicalJson } from '../domain/keeping/canonical';
import { checksumOf } from '../domain/keeping/checksum';
import { type DamagedEntry } from '../domain/keeping/wholeRecord';
import type { Entry } from '../domain/log';
import { tellsWhatIsLeft } from '../domain/people/left';
import type { RecordProblem } from '../ports';
import { sessionOf } from './heads';
import { RecordError } from './problems';

/** The shape of the rows that are written now. */
export const ROW_SCHEMA = 1;

export interface Row {
  /** Given by the database in the order of writing. */
  order: number;
  id: string;
  session: string;
  /** `damaged` where a damaged entry came in from another device. */
  type: Entry['type'] | 'damaged';
  /** 1 on what tells how a session left its areas, so that a list reads those alone. */
  tells?: 1;
  /**
   * {@link ROW_SCHEMA} when it was written. Left out with the checksum by a window of an older
   * version, which may write on after this one has changed the database.
   */
  schema?: number;
  /** Of the entry, by {@link checksumOf}. */
  checksum?: string;
  entry: Entry | DamagedEntry;
}

/** An entry that is not as it was written. */
export interface Damage {
  session: string;
  /** Its id as far as that can be told. */
  id: string;
  /** Which entry of its session it is, from 1; null where the session was not read. */
  number: number | null;
  /** A later version of this page wrote it, in a shape that this one does not know. */
  isNewer: boolean;
}

export const rowOf = (entry: Entry): Omit<Row, 'order'> => ({
  id: entry.id,
  session: sessionOf(entry.id),
  type: entry.type,
  ...(tellsWhatIsLeft(entry) && { tells: 1 }),
  schema: ROW_SCHEMA,
  checksum: checksumOf(entry),
  entry,
});

/** The row of an entry that was damaged on the device that it came from: its place is kept. */
export const rowOfDamaged = (entry: DamagedEntry): Omit<Row, 'order'> => ({
  id: entry.id,
  session: sessionOf(entry.id),
  type: 'damaged',
  tells: 1,
  schema: ROW_SCHEMA,
  checksum: entry.checksum,
  entry,
});

/** The entry of a row as it was written, or null where it is not, or cannot be told. */
export function intact(row: Row): Entry | null {
  const { entry } = row;
  if (typeof entry !== 'object' || entry === null || entry.type === 'damaged') return null;
  const isOlder = row.schema === undefined && row.checksum === undefined;
  if (!isOlder && row.schema !== ROW_SCHEMA) return null;
  try {
    const { id, session, type, tells, checksum } = rowOf(entry);
    const isAsWritten =
      row.id === id &&
      row.session === session &&
      row.type === type &&
      row.tells === tells &&
      (isOlder || row.checksum === checksum);
    return isAsWritten ? entry : null;
  } catch {
    return null;
  }
}

/** What is taken out of the record in place of an entry that is damaged: what is left of it, as text. */
export function damagedEntry({ id, checksum, entry }: Row): DamagedEntry {
  if (typeof entry === 'object' && entry?.type === 'damaged') return entry;
  return { type: 'damaged', id, checksum: String(checksum), was: canonicalJson(entry) };
}

/** Rows of one session in order: its entries up to the first that is damaged, and which that is. */
export function upToDamage(rows: readonly Row[]): { entries: Entry[]; damage: Damage | null } {
  const entries: Entry[] = [];
  for (const row of rows) {
    const entry = intact(row);
    if (entry === null) {
      return { entries, damage: damageOf(row, entries.length + 1) };
    }
    entries.push(entry);
  }
  return { entries, damage: null };
}

export const damageOf = ({ session, id, schema = 0 }: Row, number: number | null): Damage => ({
  ...{ session, id, number, isNewer: schema > ROW_SCHEMA },
});

/** What is said of a session that cannot be read to its end. */
export const damageProblem = ({ number, isNewer }: Damage): RecordProblem => {
  const entry = number === null ? 'An entry' : `Entry ${number}`;
  return {
    reason: 'damaged',
    say: isNewer
      ? `${entry} of this session was written by a newer version of this page. Load the page again.`
      : `${entry} of this session was damaged on this device, so nothing is graded from it and it does not go on. Nothing was deleted: bring in a saved record that has it whole, or begin a new session.`,
  };
};

/** Throws what is said where a session is damaged. */
export function wholeOrThrow(rows: readonly Row[]): Entry[] {
  const { entries, damage } = upToDamage(rows);
  if (damage !== null) throw new RecordError(null, damageProblem(damage));
  return entries;
}
