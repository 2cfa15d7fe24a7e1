import { canonicalJson } from '../domain/keeping/canonical';
import type { KeptPerson, Tombstone } from '../domain/keeping/wholeRecord';
import type { Person } from '../domain/people/person';
import type { People } from '../ports';
import { openDatabase, type Database } from './database';
import { isInvented } from './heads';
import { ERASED, RecordError } from './problems';
import { createVault } from './vault';

/**
 * Keeps the people in the browser's database `name` (default `sayso`), beside the log and apart
 * from it; the notes about somebody's visits go with them. Who is removed is erased for good: a
 * tombstone stays, and `save` refuses them. What is saved is on the disk when the promise resolves
 * (strict durability). Each rejects with a `RecordError`. `database` replaces the browser's own,
 * and `now` (milliseconds since 1970) its clock, for tests.
 */
export const createDexiePeople = (
  name = 'sayso',
  database: Database = {},
  now: () => number = () => Date.now(),
  vault = createVault(),
): People => {
  const opened = openDatabase(name, database, vault);
  const { db, people, notes, erased, locks, reach, sealings } = opened;
  /** Later than the change before, also where the clock was set back. */
  const changed = (person: Person, before: KeptPerson | undefined): KeptPerson =>
    before !== undefined && canonicalJson(personOf(before)) === canonicalJson(person)
      ? before
      : { ...person, changedAt: Math.max(now(), (before?.changedAt ?? 0) + 1) };
  return {
    all: () =>
      reach(async () =>
        (await sealings.people.opened(await people.toArray())).flatMap((one) =>
          one === undefined ? [] : [personOf(one)],
        ),
      ),
    ids: () => reach(() => people.toCollection().primaryKeys()),
    // Outside a transaction of its own it would keep those before one that fails.
    save: (those) =>
      reach(() =>
        db.transaction('rw', people, erased, locks, async () => {
          const ids = those.map(({ id }) => id);
          const gone = await erased.bulkGet(ids);
          if (gone.some((one) => one !== undefined)) throw new RecordError(null, ERASED);
          const before = await sealings.people.opened(await people.bulkGet(ids));
          const kept = those.map((one, at) => changed(one, before[at]));
          await people.bulkPut(await sealings.people.sealed(kept));
        }),
      ),
    remove: (ids) =>
      reach(() =>
        db.transaction('rw', people, notes, erased, async () => {
          const there = await people.bulkGet(ids);
          // The invented club comes and goes under the same names.
          const real = there.flatMap((one) =>
            one === undefined || isInvented(one.id) ? [] : [one.id],
          );
          const tombstone = { kind: 'person', erasedAt: new Date(now()).toISOString() } as const;
          await erased.bulkPut(real.map((id): Tombstone => ({ id, ...tombstone })));
          await people.bulkDelete(ids);
          await notes.where('person').anyOf(ids).delete();
        }),
      ),
  };
};

function personOf(kept: KeptPerson): Person {
  const person: Person & { changedAt?: number } = { ...kept };
  delete person.changedAt;
  return person;
}
