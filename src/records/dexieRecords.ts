import { Dexie, type DexieOptions, type EntityTable } from 'dexie';
import type { Entry } from '../domain/log';
import type { Records } from '../ports';
import { headsOf, sessionOf } from './heads';
import { problemOf, RecordError } from './problems';

interface Row {
  /** Given by the database in the order of writing. */
  order: number;
  id: string;
  session: string;
  type: Entry['type'];
  entry: Entry;
}

/**
 * Keeps the log in the browser's database `name` (default `sayso`). `done(null)` comes only
 * when the entry is on the disk (strict durability); entries are written one after the other in
 * the order of `append`, and an id that is already there is left as it is. A failed write is
 * told and not tried again (see `keepTrying`). Reading rejects with a {@link RecordError}.
 * `database` replaces the browser's own, for tests.
 */
export const createDexieRecords = (
  name = 'sayso',
  database: Pick<DexieOptions, 'indexedDB' | 'IDBKeyRange'> = {},
): Records => {
  const db = new Dexie(name, { ...database, chromeTransactionDurability: 'strict' });
  db.version(1).stores({ entries: '++order, &id, session, type' });
  const rows = db.table('entries') as EntityTable<Row, 'order'>;

  // A failed opening is remembered by the library; asking again gives it another chance.
  const opened = async () => {
    if (!db.isOpen()) await db.open();
  };
  const write = async (entry: Entry) => {
    await opened();
    await db.transaction('rw', rows, async () => {
      if ((await rows.where('id').equals(entry.id).count()) > 0) return;
      await rows.add({ id: entry.id, session: sessionOf(entry.id), type: entry.type, entry });
    });
  };
  const read = async (find: () => Promise<Row[]>): Promise<Entry[]> => {
    try {
      await opened();
      return (await find()).map(({ entry }) => entry);
    } catch (error) {
      throw new RecordError(error);
    }
  };

  let last: Promise<unknown> = Promise.resolve();
  return {
    append(entry, done) {
      last = last
        .then(() => write(entry))
        .then(
          () => done(null),
          (error: unknown) => done(problemOf(error)),
        );
    },
    read: (session) => read(() => rows.where('session').equals(session).sortBy('order')),
    sessions: async () =>
      headsOf(await read(() => rows.where('type').anyOf('started', 'ended').sortBy('order'))),
  };
};
