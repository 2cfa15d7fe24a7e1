import type { Records } from '../ports';
import { loadedOnce } from './loadedOnce';
import { problemOf } from './problems';

/**
 * Records that are loaded when they are first asked for, so that their library does not delay the
 * start. Entries are handed on in the order of `append`; a loading that failed is tried again by
 * the next call, and told by this one.
 */
export function lazyRecords(load: () => Promise<Records>): Records {
  const records = loadedOnce(load);
  return {
    append: (entry, done) => {
      records().then(
        (loaded) => loaded.append(entry, done),
        (error: unknown) => done(problemOf(error)),
      );
    },
    read: async (session) => (await records()).read(session),
    sessions: async () => (await records()).sessions(),
    outcomes: async () => (await records()).outcomes(),
    addAll: async (entries) => (await records()).addAll(entries),
    removeInvented: async () => (await records()).removeInvented(),
  };
}
