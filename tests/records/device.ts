import { Dexie } from 'dexie';
import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import type { Entry } from '../../src/domain/log';
import type { Row } from '../../src/records/checked';
import { createDexieKeeping } from '../../src/records/dexieKeeping';
import { createDexieNotes } from '../../src/records/dexieNotes';
import { createDexiePeople } from '../../src/records/dexiePeople';
import { createDexieRecords } from '../../src/records/dexieRecords';

/** All that one device keeps, in a database of its own; `now` is its clock. */
export function device(indexedDB = new IDBFactory(), now: () => number = () => NOON) {
  const database = { indexedDB, IDBKeyRange };
  return {
    indexedDB,
    records: createDexieRecords('sayso', database),
    people: createDexiePeople('sayso', database, now),
    notes: createDexieNotes('sayso', database, now),
    keeping: createDexieKeeping('sayso', database),
  };
}
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
