import type { Entry } from '../domain/log';
import type { Records } from '../ports';
import { headsOf, isInvented, outcomesOf, sessionOf } from './heads';

/**
 * Keeps the log in memory only: for rehearsals and tests. `done` is called before `append`
 * returns; an id that is already there is left as it is.
 */
export const memoryRecords = (): Records => {
  const entries = new Map<string, Entry>();
  const add = (entry: Entry) => {
    if (!entries.has(entry.id)) entries.set(entry.id, entry);
  };
  return {
    append(entry, done) {
      add(entry);
      done(null);
    },
    read: (session) =>
      Promise.resolve([...entries.values()].filter(({ id }) => sessionOf(id) === session)),
    sessions: () => Promise.resolve(headsOf([...entries.values()])),
    outcomes: () => Promise.resolve(outcomesOf([...entries.values()])),
    addAll: (those) => {
      for (const entry of those) add(entry);
      return Promise.resolve();
    },
    removeInvented: () => {
      for (const id of [...entries.keys()]) if (isInvented(sessionOf(id))) entries.delete(id);
      return Promise.resolve();
    },
  };
};
