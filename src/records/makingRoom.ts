import type { Records } from '../ports';

/**
 * The same records. Where the device has no room for an entry, `makeRoom` takes away what can be
 * fetched again, bit by bit, until the entry is written or nothing is left to take (false).
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
});
