import type { Notes } from '../ports';
import { openDatabase, type Database } from './database';
import { oldestFirst } from './notesInOrder';
import { ERASED, RecordError } from './problems';
import { createVault } from './vault';

/**
 * Keeps notes in the browser's database `name` (default `sayso`), beside the people. Of a note that
 * is removed a tombstone stays, so that no saved record brings it back; about somebody who was
 * erased none is added. Each rejects with a `RecordError`. `database` replaces the browser's own,
 * and `now` (milliseconds since 1970) its clock, for tests.
 */
export const createDexieNotes = (
  name = 'sayso',
  database: Database = {},
  now: () => number = () => Date.now(),
  vault = createVault(),
): Notes => {
  const { db, notes, erased, locks, reach, sealings } = openDatabase(name, database, vault);
  const where = (key: 'session' | 'person', is: string) =>
    reach(async () =>
      (await sealings.notes.opened(await notes.where(key).equals(is).toArray()))
        .filter((note) => note !== undefined)
        .sort(oldestFirst),
    );
  return {
    of: (session) => where('session', session),
    last: async (person) => (await where('person', person)).at(-1) ?? null,
    add: (note) =>
      reach(() =>
        db.transaction('rw', notes, erased, locks, async () => {
          const ids = [note.id, ...(note.person === null ? [] : [note.person])];
          const gone = await erased.bulkGet(ids);
          if (gone.some((one) => one !== undefined)) throw new RecordError(null, ERASED);
          await notes.bulkPut(await sealings.notes.sealed([note]));
        }),
      ),
    remove: (id) =>
      reach(() =>
        db.transaction('rw', notes, erased, async () => {
          if ((await notes.get(id)) === undefined) return;
          await erased.put({ id, kind: 'note', erasedAt: new Date(now()).toISOString() });
          await notes.delete(id);
        }),
      ),
  };
};
