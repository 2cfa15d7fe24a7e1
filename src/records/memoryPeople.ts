import type { Person } from '../domain/people/person';
import type { People } from '../ports';

/** Keeps the people in memory only, for tests. */
export const memoryPeople = (): People => {
  const people = new Map<string, Person>();
  return {
    all: () => Promise.resolve([...people.values()].map((person) => ({ ...person }))),
    ids: () => Promise.resolve([...people.keys()]),
    save: (those) => {
      for (const person of those) people.set(person.id, { ...person });
      return Promise.resolve();
    },
    remove: (ids) => {
      for (const id of ids) people.delete(id);
      return Promise.resolve();
    },
  };
};
