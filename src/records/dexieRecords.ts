import { INVENTED_SESSION, type Records } from '../ports';
import { openDatabase, rowOf, type Database, type Row } from './database';
import { headsOf, outcomesOf, sessionOf } from './heads';
import { RecordError } from './problems';

/**
 * Keeps the log in the browser's database `name` (default `sayso`). `done(null)` comes only
 * when the entry is on the disk (strict durability); entries are written one after the other in
 * the order of `append`, and an id that is already there is left as it is. A failed write is
 * told and not tried again (see `keepTrying`). Reading and `addAll` reject with a `RecordError`.
 * `database` replaces the browser's own, for tests.
 */
export const createDexieRecords = (name = 'sayso', database: Database = {}): Records => {
  const { db, entries: rows, reach } = openDatabase(name, database);

  const write = (entries: Parameters<Records['addAll']>[0]) =>
    reach(() =>
      db.transaction('rw', rows, async () => {
        const ids = entries.map(({ id }) => id);
        const there = new Set<string>();
        await rows
          .where('id')
          .anyOf(ids)
          .eachKey((id) => void there.add(String(id)));
        await rows.bulkAdd(entries.filter(({ id }) => !there.has(id)).map(rowOf));
      }),
    );
  const read = (find: () => Promise<Row[]>) =>
    reach(async () => (await find()).map(({ entry }) => entry));

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
    read: (session) => read(() => rows.where('session').equals(session).sortBy('order')),
    sessions: async () =>
      headsOf(await read(() => rows.where('type').anyOf('started', 'ended').sortBy('order'))),
    async outcomes() {
      const telling = await read(() => rows.where('tells').equals(1).sortBy('order'));
      // What was corrected is told by the whole of its session (domain/people/left.ts).
      const corrected = new Set(
        telling.flatMap(({ type, id }) => (type === 'corrected' ? [sessionOf(id)] : [])),
      );
      if (corrected.size === 0) return outcomesOf(telling);
      const whole = await read(() =>
        rows
          .where('session')
          .anyOf([...corrected])
          .sortBy('order'),
      );
      return outcomesOf([...telling.filter(({ id }) => !corrected.has(sessionOf(id))), ...whole]);
    },
    addAll: (entries) => inTurn(() => write(entries)),
    removeInvented: () =>
      inTurn(() =>
        reach(async () => void (await rows.where('session').startsWith(INVENTED_SESSION).delete())),
      ),
  };
};
