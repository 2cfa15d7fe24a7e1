import type { Note, Notes, People } from '../ports';
import { oldestFirst } from './notesInOrder';

/** Keeps notes in memory only, and the people whose they are: for tests. */
export function memoryNotes(people: People): { notes: Notes; people: People } {
  const all = new Map<string, Note>();
  const where = (key: 'session' | 'person', is: string) =>
    [...all.values()].filter((note) => note[key] === is).sort(oldestFirst);
  return {
    notes: {
      of: (session) => Promise.resolve(where('session', session)),
      last: (person) => Promise.resolve(where('person', person).at(-1) ?? null),
      add: (note) => Promise.resolve(void all.set(note.id, { ...note })),
      remove: (id) => Promise.resolve(void all.delete(id)),
    },
    people: {
      ...people,
      async remove(ids) {
        await people.remove(ids);
        for (const { id, person } of all.values())
          if (person !== null && ids.includes(person)) all.delete(id);
      },
    },
  };
}
