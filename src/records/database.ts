import { Dexie, type DexieOptions, type EntityTable } from 'dexie';
import { RefusedRecord, type KeptPerson, type Tombstone } from '../domain/keeping/wholeRecord';
import { checksumOf } from '../domain/keeping/checksum';
import type { Entry } from '../domain/log';
import { tellsWhatIsLeft } from '../domain/people/left';
import { ROW_SCHEMA, type Row } from './checked';
import { opening } from './opening';
import type { LockRow } from './lockRow';
import { RecordError } from './problems';
import {
  createSealings,
  type LyingNote,
  type LyingPerson,
  type LyingRow,
  type Sealings,
} from './sealing';
import type { Vault } from './vault';

/** The browser's own database, or what replaces it in tests. */
export type Database = Pick<DexieOptions, 'indexedDB' | 'IDBKeyRange'>;

export interface OpenDatabase {
  db: Dexie;
  entries: EntityTable<LyingRow, 'order'>;
  people: EntityTable<LyingPerson, 'id'>;
  notes: EntityTable<LyingNote, 'id'>;
  erased: EntityTable<Tombstone, 'id'>;
  /** One row where the record is locked, else none. */
  locks: EntityTable<LockRow, 'id'>;
  sealings: Sealings;
  /** Runs when the database is open; rejects with a {@link RecordError}, or with a RefusedRecord as it is. */
  reach<T>(work: () => Promise<T>): Promise<T>;
}

/**
 * The database `name` as all that is kept in it sees it. Versions: 1, the log; 2, people beside
 * it, and a mark on the entries that tell what is left; 3, notes beside the people; 4, a checksum
 * beside each entry, when people were changed, and who was erased; 5, the lock. Entries are the same
 * in all. `vault`: the key, where the record is locked.
 */
export function openDatabase(name: string, database: Database, vault: Vault): OpenDatabase {
  const db = new Dexie(name, { ...database, chromeTransactionDurability: 'strict' });
  db.version(1).stores({ entries: '++order, &id, session, type' });
  db.version(2)
    .stores({ entries: '++order, &id, session, type, tells', people: 'id' })
    .upgrade((old) =>
      old
        .table<OldRow>('entries')
        .filter(({ entry }) => tellsWhatIsLeft(entry))
        .modify({ tells: 1 }),
    );
  db.version(3).stores({ notes: 'id, session, person' });
  db.version(4)
    .stores({ erased: 'id' })
    .upgrade(async (old) => {
      // What was written before checksums cannot be judged: it is taken as it is.
      await old
        .table<OldRow>('entries')
        .toCollection()
        .modify((row) => {
          row.schema = ROW_SCHEMA;
          row.checksum = checksumOf(row.entry);
        });
      await old.table<KeptPerson>('people').toCollection().modify({ changedAt: 0 });
    });
  db.version(5).stores({ locks: 'id' });
  const open = opening(db, name, database);
  const reach = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      // A failed opening is remembered by the library; asking again gives it another chance.
      if (!db.isOpen()) await open();
      return await work();
    } catch (error) {
      if (error instanceof RefusedRecord) throw error;
      throw new RecordError(error);
    }
  };
  const locks = db.table<LockRow, string>('locks');
  return {
    db,
    entries: db.table('entries'),
    people: db.table('people'),
    notes: db.table('notes'),
    erased: db.table('erased'),
    locks: db.table('locks'),
    sealings: createSealings(locks, vault),
    reach,
  };
}

/** A row as versions 1 to 3 wrote it. */
interface OldRow extends Partial<Pick<Row, 'tells' | 'schema' | 'checksum'>> {
  entry: Entry;
}
