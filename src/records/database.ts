import { Dexie, type DexieOptions, type EntityTable } from 'dexie';
import type { Entry } from '../domain/log';
import { tellsWhatIsLeft } from '../domain/people/left';
import type { Person } from '../domain/people/person';
import type { Note } from '../ports';
import { sessionOf } from './heads';
import { RecordError } from './problems';

export interface Row {
  /** Given by the database in the order of writing. */
  order: number;
  id: string;
  session: string;
  type: Entry['type'];
  /** 1 on what tells how a session left its areas, so that a list reads those alone. */
  tells?: 1;
  entry: Entry;
}

/** The browser's own database, or what replaces it in tests. */
export type Database = Pick<DexieOptions, 'indexedDB' | 'IDBKeyRange'>;

export interface OpenDatabase {
  db: Dexie;
  entries: EntityTable<Row, 'order'>;
  people: EntityTable<Person, 'id'>;
  notes: EntityTable<Note, 'id'>;
  /** Runs when the database is open; rejects with a {@link RecordError}. */
  reach<T>(work: () => Promise<T>): Promise<T>;
}

/**
 * The database `name` as all that is kept in it sees it. Versions: 1, the log; 2, people beside
 * it, and a mark on the entries that tell what is left; 3, notes beside the people. Entries are the
 * same in all.
 */
export function openDatabase(name: string, database: Database): OpenDatabase {
  const db = new Dexie(name, { ...database, chromeTransactionDurability: 'strict' });
  db.version(1).stores({ entries: '++order, &id, session, type' });
  db.version(2)
    .stores({ entries: '++order, &id, session, type, tells', people: 'id' })
    .upgrade((old) =>
      old
        .table<Row>('entries')
        .filter(({ entry }) => tellsWhatIsLeft(entry))
        .modify({ tells: 1 }),
    );
  db.version(3).stores({ notes: 'id, session, person' });
  const reach = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      // A failed opening is remembered by the library; asking again gives it another chance.
      if (!db.isOpen()) await db.open();
      return await work();
    } catch (error) {
      throw new RecordError(error);
    }
  };
  return {
    db,
    entries: db.table('entries'),
    people: db.table('people'),
    notes: db.table('notes'),
    reach,
  };
}

export const rowOf = (entry: Entry): Omit<Row, 'order'> => ({
  id: entry.id,
  session: sessionOf(entry.id),
  type: entry.type,
  ...(tellsWhatIsLeft(entry) && { tells: 1 }),
  entry,
});
