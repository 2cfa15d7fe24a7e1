import type {
  BroughtIn,
  KeptNote,
  KeptPerson,
  KeptSession,
  WholeRecord,
} from '../domain/keeping/wholeRecord';
import { type Entry } from '../domain/log';
import { damagedEntry, damageOf, intact, upToDamage, type Damage, type Row } from './checked';
import { bringIn } from './bringIn';
import { openDatabase, type Database } from './database';
import { isInvented } from './heads';
import { createVault } from './vault';

/** Looks after all that is kept on a device at once. Each rejects with a `RecordError`. */
export interface Keeping {
  /** All of it, the invented club left out, each list in the order of its ids. */
  whole(): Promise<WholeRecord>;
  /**
   * Adds what the record has and this device lacks: all of it or nothing. Who was erased, here or
   * there, stays erased. Rejects with a RefusedRecord where an entry or a note here has the same id
   * and other content. `isTrial`: only tells what it would change.
   */
  bringIn(record: WholeRecord, isTrial?: boolean): Promise<BroughtIn>;
  /** The entries of a session up to the first that is damaged, and which that is; null where none is. */
  upToDamage(session: string): Promise<{ entries: Entry[]; damage: Damage | null }>;
  /** Every entry that is damaged; reads all of the record. */
  damage(): Promise<Damage[]>;
}

/** Rows that are read at a time, so that a long record does not lie in memory twice. */
const ROWS_AT_ONCE = 2000;

/** Looks after the browser's database `name` (default `sayso`); `database` replaces it in tests. */
export const createDexieKeeping = (
  name = 'sayso',
  database: Database = {},
  vault = createVault(),
): Keeping => {
  const here = openDatabase(name, database, vault);
  const { db, entries, people, notes, erased, locks, reach, sealings } = here;
  const tables = [entries, people, notes, erased, locks];

  async function* everyRow(): AsyncGenerator<Row> {
    for (let last = -Infinity; ;) {
      const rows = await entries.where('order').above(last).limit(ROWS_AT_ONCE).toArray();
      last = rows.at(-1)?.order ?? last;
      yield* await sealings.entries.opened(rows);
      if (rows.length < ROWS_AT_ONCE) return;
    }
  }

  async function sessions(): Promise<KeptSession[]> {
    const found = new Map<string, KeptSession['entries']>();
    for await (const row of everyRow()) {
      if (isInvented(row.session)) continue;
      const own = found.get(row.session) ?? [];
      own.push(intact(row) ?? damagedEntry(row));
      found.set(row.session, own);
    }
    return [...found].map(([session, all]) => ({ session, entries: all })).sort(bySession);
  }

  return {
    whole: () =>
      reach(() =>
        db.transaction('r', tables, async () => {
          const all = await sealings.people.opened(await people.orderBy('id').toArray());
          const kept = await sealings.notes.opened(await notes.orderBy('id').toArray());
          return {
            people: all.filter((one) => one !== undefined && !one.isInvented) as KeptPerson[],
            sessions: await sessions(),
            notes: kept.filter(
              (one) => one !== undefined && !isInvented(one.session),
            ) as KeptNote[],
            erased: await erased.orderBy('id').toArray(),
          };
        }),
      ),
    bringIn: (record, isTrial = false) =>
      reach(() => db.transaction('rw', tables, () => bringIn(here, record, isTrial))),
    upToDamage: (session) =>
      reach(async () =>
        upToDamage(
          await sealings.entries.opened(
            await entries.where('session').equals(session).sortBy('order'),
          ),
        ),
      ),
    damage: () =>
      reach(async () => {
        const found: Damage[] = [];
        for await (const row of everyRow()) {
          if (intact(row) === null) found.push(damageOf(row, null));
        }
        return found;
      }),
  };
};

const bySession = (one: KeptSession, other: KeptSession): number =>
  one.session < other.session ? -1 : 1;
