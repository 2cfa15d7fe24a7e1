import { Dexie } from 'dexie';
import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import type { Entry } from '../../src/domain/log';
import type { Row } from '../../src/records/checked';
import { createDexieKeeping } from '../../src/records/dexieKeeping';
import { createDexieLock } from '../../src/records/dexieLock';
import { createDexieNotes } from '../../src/records/dexieNotes';
import { createDexiePeople } from '../../src/records/dexiePeople';
import { createDexieRecords } from '../../src/records/dexieRecords';
import { createVault } from '../../src/records/vault';

/** All that one device keeps, in a database of its own; `now` is its clock. */
export function device(indexedDB = new IDBFactory(), now: () => number = () => NOON) {
  const database = { indexedDB, IDBKeyRange };
  const vault = createVault();
  return {
    indexedDB,
    database,
    vault,
    records: createDexieRecords('sayso', database, vault),
    people: createDexiePeople('sayso', database, now, vault),
    notes: createDexieNotes('sayso', database, now, vault),
    keeping: createDexieKeeping('sayso', database, vault),
    lock: createDexieLock('sayso', database, vault, QUICK),
  };
}
/** What keeps others from trying passphrases would only keep tests waiting. */
const QUICK = { iterations: 1, rowsAtOnce: 5 };

export type Device = ReturnType<typeof device>;

const NOON = Date.parse('2031-03-01T12:00:00Z');

/** The database itself, behind the back of those that keep it. */
export async function behind<T>(
  indexedDB: IDBFactory,
  work: (db: Dexie) => Promise<T>,
): Promise<T> {
  const db = await new Dexie('sayso', { indexedDB, IDBKeyRange }).open();
  try {
    return await work(db);
  } finally {
    db.close();
  }
}

/** Changes the stored row of an entry, as a fault of the disk would. */
export const damageRow = (
  { indexedDB }: Pick<Device, 'indexedDB'>,
  id: string,
  change: (row: Row) => void,
): Promise<number> =>
  behind(indexedDB, async (db) => {
    const rows = await db.table<Row>('entries').where('id').equals(id).toArray();
    for (const row of rows) {
      change(row);
      await db.table('entries').put(row);
    }
    return rows.length;
  });

/** Changes the stored entry and leaves all that stands beside it. */
export const damageEntry = (to: Pick<Device, 'indexedDB'>, id: string, change: object) =>
  damageRow(to, id, (row) => {
    row.entry = { ...row.entry, ...change } as Entry;
  });
