import type { Records } from '../ports';
import { RecordError } from './problems';

/**
 * The same records. Where the device has no room for what is to be written, `makeRoom` takes away
 * what can be fetched again, bit by bit, until it is written or nothing is left to take (false).
 */
export const makingRoom = (records: Records, makeRoom: () => Promise<boolean>): Records => ({
  ...records,
  append(entry, done) {
    const write = () =>
      records.append(entry, (problem) => {
        if (problem?.reason !== 'full') return done(problem);
        makeRoom().then(
          (isMade) => (isMade ? write() : done(problem)),
          () => done(problem),
        );
      });
    write();
  },
  async addAll(entries) {
    for (;;) {
      try {
        return await records.addAll(entries);
      } catch (error) {
        const isFull = new RecordError(error).problem.reason === 'full';
        if (!isFull || !(await makeRoom().catch(() => false))) throw error;
      }
    }
  },
});
