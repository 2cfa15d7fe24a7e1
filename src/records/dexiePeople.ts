import type { People } from '../ports';
import { openDatabase, type Database } from './database';

/**
 * Keeps the people in the browser's database `name` (default `sayso`), beside the log and apart
 * from it; the notes about somebody's visits go with them. What is saved is on the disk when the
 * promise resolves (strict durability). Each rejects with a `RecordError`. `database` replaces the browser's own, for tests.
 */
export const createDexiePeople = (name = 'sayso', database: Database = {}): People => {
  const { db, people, notes, reach } = openDatabase(name, database);
  return {
    all: () => reach(() => people.toArray()),
    // Outside a transaction of its own it would keep those before one that fails.
    save: (those) =>
      reach(() => db.transaction('rw', people, async () => void (await people.bulkPut(those)))),
    remove: (ids) =>
      reach(() =>
        db.transaction('rw', people, notes, async () => {
          await people.bulkDelete(ids);
          await notes.where('person').anyOf(ids).delete();
        }),
      ),
  };
};
