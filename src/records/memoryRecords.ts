import type { Entry } from '../domain/log';
import type { Records } from '../ports';
import { headsOf, isInvented, outcomesOf, sessionOf } from './heads';
import { newOf } from './newOf';
import { RecordError } from './problems';

/**
 * Keeps the log in memory only: for rehearsals and tests. `done` is called before `append`
 * returns.
 */
export const memoryRecords = (): Records => {
  const entries = new Map<string, Entry>();
  const add = (those: Entry[]) => {
    for (const entry of newOf(those, entries)) entries.set(entry.id, entry);
  };
  return {
    append(entry, done) {
      try {
        add([entry]);
      } catch (error) {
        return done(new RecordError(error).problem);
      }
      done(null);
    },
    read: (session) =>
      Promise.resolve([...entries.values()].filter(({ id }) => sessionOf(id) === session)),
    sessions: () => Promise.resolve(headsOf([...entries.values()])),
    outcomes: () => Promise.resolve(outcomesOf([...entries.values()])),
    // What it throws is to be a rejection.
    addAll: async (those) => add(those),
    removeInvented: () => {
      for (const id of [...entries.keys()]) if (isInvented(sessionOf(id))) entries.delete(id);
      return Promise.resolve();
    },
  };
};
