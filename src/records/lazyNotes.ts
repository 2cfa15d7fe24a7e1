import type { Notes } from '../ports';
import { loadedOnce } from './loadedOnce';

/** Notes whose keeper is loaded when it is first asked for, as `lazyRecords` are. */
export function lazyNotes(load: () => Promise<Notes>): Notes {
  const notes = loadedOnce(load);
  return {
    of: async (session) => (await notes()).of(session),
    last: async (person) => (await notes()).last(person),
    add: async (note) => (await notes()).add(note),
    remove: async (id) => (await notes()).remove(id),
  };
}
