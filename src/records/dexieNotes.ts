import type { Notes } from '../ports';
import { openDatabase, type Database } from './database';
import { oldestFirst } from './notesInOrder';

/**
 * Keeps notes in the browser's database `name` (default `sayso`), beside the people. Each rejects
 * with a `RecordError`. `database` replaces the browser's own, for tests.
 */
export const createDexieNotes = (name = 'sayso', database: Database = {}): Notes => {
  const { notes, reach } = openDatabase(name, database);
  const where = (key: 'session' | 'person', is: string) =>
    reach(async () => (await notes.where(key).equals(is).toArray()).sort(oldestFirst));
  return {
    of: (session) => where('session', session),
    last: async (person) => (await where('person', person)).at(-1) ?? null,
    add: (note) => reach(async () => void (await notes.put(note))),
    remove: (id) => reach(() => notes.delete(id)),
  };
};
