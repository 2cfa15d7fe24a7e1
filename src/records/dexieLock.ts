import { openDatabase, type Database, type OpenDatabase } from './database';
import { newLock, openLock, rewrapped, type LockRow } from './lockRow';
import { ITERATIONS } from './passphrase';
import { LOCKED, problem, RecordError } from './problems';
import { SEALED_TYPES } from './sealing';
import { createVault, type Vault } from './vault';

/** How the record lies: open, under its passphrase, or on its way out of it. */
export type LockState = 'off' | LockRow['state'];

/**
 * The lock of the record. Each rejects with a `RecordError`, and with a WrongPassphrase where a
 * passphrase is wrong; then nothing has changed. There is no other way in.
 */
export interface RecordLock {
  state(): Promise<LockState>;
  /** Locks what is not locked; this page has the key from then on. `settle` is to follow. */
  turnOn(passphrase: string): Promise<void>;
  /** Gives this page the key. `settle` is to follow. */
  open(passphrase: string): Promise<void>;
  /** Another passphrase; no row is written anew for it. */
  change(from: string, to: string): Promise<void>;
  /** Takes the lock off. `settle` is to follow. */
  turnOff(passphrase: string): Promise<void>;
  /**
   * Writes every row anew that does not lie as it should, a few at a time, each time whole; and
   * takes the lock away where it is to go. Broken off, it goes on at the next call: rows of both
   * kinds are read meanwhile. `tell` gets how many are left.
   */
  settle(tell?: (left: number) => void): Promise<void>;
}

/** Rows that are written at a time: others wait for them. */
const ROWS_AT_ONCE = 500;

/** Of the browser's database `name`; `vault` gets the key. Rounds and rows are fewer in tests. */
export function createDexieLock(
  name = 'sayso',
  database: Database = {},
  vault: Vault = createVault(),
  { iterations = ITERATIONS, rowsAtOnce = ROWS_AT_ONCE } = {},
): RecordLock {
  const here = openDatabase(name, database, vault);
  const { db, locks, reach } = here;
  const lockRow = () => reach(() => locks.get('lock'));
  const mustBe = (row: LockRow | undefined): LockRow => {
    if (row === undefined) throw new RecordError(null, problem('differs'));
    return row;
  };

  /** Changes the lock where it is still as it was read: another window may have changed it. */
  const replace = (before: LockRow | undefined, after: LockRow) =>
    reach(() =>
      db.transaction('rw', locks, async () => {
        const now = await locks.get('lock');
        const isSame = now?.keyId === before?.keyId && now?.state === before?.state;
        if (!isSame) throw new RecordError(null, problem('differs'));
        await locks.put(after);
      }),
    );

  return {
    state: async () => (await lockRow())?.state ?? 'off',
    async turnOn(passphrase) {
      const { row, open } = await newLock(passphrase, iterations);
      await replace(undefined, row);
      vault.open = open;
    },
    async open(passphrase) {
      vault.open = await openLock(mustBe(await lockRow()), passphrase);
    },
    async change(from, to) {
      const row = mustBe(await lockRow());
      await replace(row, await rewrapped(row, from, to));
    },
    async turnOff(passphrase) {
      const row = mustBe(await lockRow());
      vault.open = await openLock(row, passphrase);
      await replace(row, { ...row, state: 'off-soon' });
    },
    settle: (tell = () => undefined) => reach(() => settle(here, vault, rowsAtOnce, tell)),
  };
}

async function settle(
  here: OpenDatabase,
  vault: Vault,
  rowsAtOnce: number,
  tell: (left: number) => void,
): Promise<void> {
  const { db, entries, people, notes, locks, sealings } = here;
  const lock = await locks.get('lock');
  if (lock === undefined) return;
  if (vault.open?.keyId !== lock.keyId) throw new RecordError(null, LOCKED);
  const isOn = lock.state === 'on';
  /** Another window may turn it about meanwhile. */
  const isStill = async () => {
    const now = await locks.get('lock');
    return now?.keyId === lock.keyId && now.state === lock.state;
  };
  const wrong = () =>
    isOn
      ? entries.where('type').noneOf([...SEALED_TYPES])
      : entries.where('type').anyOf([...SEALED_TYPES]);
  await db.transaction('rw', people, notes, locks, async () => {
    const [ofPeople, ofNotes] = [await people.toArray(), await notes.toArray()];
    // What is damaged under the key stays as it is: nobody can open it.
    const those = (await sealings.people.opened(ofPeople)).filter((one) => one !== undefined);
    await people.bulkPut(await sealings.people.sealed(those));
    const noted = (await sealings.notes.opened(ofNotes)).filter((one) => one !== undefined);
    await notes.bulkPut(await sealings.notes.sealed(noted));
  });
  for (;;) {
    tell(await wrong().count());
    const count = await db.transaction('rw', entries, locks, async () => {
      const rows = (await isStill()) ? await wrong().limit(rowsAtOnce).toArray() : [];
      await entries.bulkPut(
        (await sealings.entries.sealed(await sealings.entries.opened(rows))) as typeof rows,
      );
      return rows.length;
    });
    if (count < rowsAtOnce) break;
  }
  tell(0);
  if (!isOn) await takeAway(here);
}

/** Only where nothing lies under it any more: another window may have written meanwhile. */
const takeAway = ({ db, entries, locks }: OpenDatabase) =>
  db.transaction('rw', entries, locks, async () => {
    const left = await entries
      .where('type')
      .anyOf([...SEALED_TYPES])
      .count();
    if (left === 0) await locks.delete('lock');
  });
