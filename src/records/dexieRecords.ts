import { INVENTED_SESSION, type Records } from '../ports';
import { intact, rowOf, wholeOrThrow } from './checked';
import { openDatabase, type Database } from './database';
import { headsOf, outcomesOf, unknownLeft } from './heads';
import { newOf } from './newOf';
import { RecordError } from './problems';
import { createVault } from './vault';

/** What a list of sessions reads. */
const ENDS = ['started', 'ended', 'sealed-started', 'sealed-ended'];

/**
 * Keeps the log in the browser's database `name` (default `sayso`). `done(null)` comes only
 * when the entry is on the disk (strict durability); entries are written one after the other in
 * the order of `append`. A failed write is told and not tried again (see `keepTrying`). Reading and `addAll` reject with a `RecordError`.
 * A session with a damaged entry is not read (see `Keeping.upToDamage`); in the lists it leaves
 * every area unfinished, and pain not excluded.
 * `database` replaces the browser's own, for tests; `vault` has the key where the record is locked.
 */
export const createDexieRecords = (
  name = 'sayso',
  database: Database = {},
  vault = createVault(),
): Records => {
  const { db, entries: rows, locks, reach, sealings } = openDatabase(name, database, vault);
  const { sealed, opened } = sealings.entries;

  const write = (entries: Parameters<Records['addAll']>[0]) =>
    reach(() =>
      db.transaction('rw', rows, locks, async () => {
        const ids = entries.map(({ id }) => id);
        const known = await opened(await rows.where('id').anyOf(ids).toArray());
        const there = new Map(known.map((row) => [row.id, intact(row)]));
        await rows.bulkAdd(await sealed(newOf(entries, there).map(rowOf)));
      }),
    );
  const whole = (names: string[]) =>
    reach(async () => opened(await rows.where('session').anyOf(names).sortBy('order')));

  let last: Promise<unknown> = Promise.resolve();
  /** Changes come one after the other, whatever became of those before. */
  const inTurn = <T>(change: () => Promise<T>): Promise<T> => {
    const next = last.then(change);
    last = next.catch(() => undefined);
    return next;
  };
  return {
    append(entry, done) {
      inTurn(() => write([entry])).then(
        () => done(null),
        (error: unknown) => done(new RecordError(error).problem),
      );
    },
    read: (session) => reach(async () => wholeOrThrow(await whole([session]))),
    async sessions() {
      const ends = await reach(async () =>
        opened(await rows.where('type').anyOf(ENDS).sortBy('order')),
      );
      return headsOf(ends.flatMap((row) => intact(row) ?? []));
    },
    async outcomes() {
      const telling = await reach(async () =>
        opened(await rows.where('tells').equals(1).sortBy('order')),
      );
      // What was corrected is told by the whole of its session (domain/people/left.ts).
      const corrected = new Set(
        telling.flatMap(({ type, session }) => (type === 'corrected' ? [session] : [])),
      );
      const all =
        corrected.size === 0
          ? telling
          : [
              ...telling.filter(({ session }) => !corrected.has(session)),
              ...(await whole([...corrected])),
            ];
      const damaged = new Set<string>();
      const entries = all.flatMap((row) => {
        const entry = intact(row);
        if (entry === null) damaged.add(row.session);
        return entry ?? [];
      });
      return outcomesOf(entries).map(({ head, ...left }) => ({
        head,
        ...(damaged.has(head.session) ? unknownLeft(left) : left),
      }));
    },
    addAll: (entries) => inTurn(() => write(entries)),
    removeInvented: () =>
      inTurn(() =>
        reach(async () => void (await rows.where('session').startsWith(INVENTED_SESSION).delete())),
      ),
  };
};
