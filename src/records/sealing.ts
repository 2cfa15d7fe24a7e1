import { Dexie, type PromiseExtended, type Table } from 'dexie';
import { canonicalJson } from '../domain/keeping/canonical';
import type { KeptPerson } from '../domain/keeping/wholeRecord';
import type { Note } from '../ports';
import { base64 } from './base64';
import { rowOfDamaged, type Row } from './checked';
import type { LockRow } from './lockRow';
import { LOCKED, RecordError } from './problems';
import { seal, unseal } from './seal';
import type { OpenLock, Vault } from './vault';

/** A row under the key, with what of it lies in the open: DEVELOPERS.md says why. */
export type Sealed<Clear> = Clear & { sealed: Uint8Array<ArrayBuffer> };

/** Starts and ends are told apart so that sessions are listed without opening each entry. */
export const SEALED_TYPES = ['sealed', 'sealed-started', 'sealed-ended'] as const;
export type SealedType = (typeof SEALED_TYPES)[number];

/** An entry before the database has given it its order. */
type NewRow = Omit<Row, 'order'> & { order?: number };
type ClearRow = Pick<NewRow, 'order' | 'id' | 'session' | 'tells'> & { type: SealedType };
type ClearNote = Pick<Note, 'id' | 'session' | 'person'>;
type ClearPerson = Pick<KeptPerson, 'id'>;

/** As they lie in the database. */
export type LyingRow = (Row | Sealed<ClearRow>) & { order: number };
export type LyingNote = Note | Sealed<ClearNote>;
export type LyingPerson = KeptPerson | Sealed<ClearPerson>;

/** How rows of one table get under the key and out of it. Transactions must have `locks` in them. */
export interface Sealing<Read, Clear> {
  /** As they are to lie: under the key where the record is locked. In the transaction that writes them. */
  sealed(rows: readonly Read[]): PromiseExtended<(Read | Sealed<Clear>)[]>;
  /**
   * As they are read, each in its place; undefined where none is, or where it is damaged. Rejects
   * with a RecordError where they are under a lock that this page did not open.
   */
  opened(
    rows: readonly (Read | Sealed<Clear> | undefined)[],
  ): PromiseExtended<(Read | undefined)[]>;
}

export const isSealed = (row: object): row is Sealed<object> => 'sealed' in row;

/** A transaction of the browser waits for Web Crypto only so. */
const held = <T>(work: Promise<T>[]): Promise<T[]> =>
  Dexie.waitFor(Promise.all(work) as Promise<T[]>);

function createSealing<Read extends object, Clear extends object>(
  table: string,
  locks: Table<LockRow, string>,
  vault: Vault,
  clearOf: (row: Read) => Clear,
): Sealing<Read, Clear> {
  type Lies = Read | Sealed<Clear>;
  /** All that lies in the open is bound to what is sealed, but for the order, which the database gives. */
  const placeOf = (clear: object) => [
    table,
    canonicalJson({ ...clear, order: undefined, sealed: undefined }),
  ];
  const sealedOne = async (open: OpenLock, row: Read): Promise<Lies> => {
    const clear = clearOf(row);
    return { ...clear, sealed: await seal(open, placeOf(clear), row) };
  };
  const openedOne = async (open: OpenLock | null, row: Lies | undefined) => {
    if (row === undefined || !isSealed(row)) return row;
    if (open === null) return undefined;
    try {
      const content = (await unseal(open, placeOf(row), row.sealed)) as Read;
      return 'order' in row ? { ...content, order: row.order } : content;
    } catch {
      return undefined;
    }
  };
  // The library's own promises: a transaction does not outlast several of the language's in a row.
  return {
    sealed: (rows) =>
      locks.get('lock').then((lock): Lies[] | PromiseLike<Lies[]> => {
        const { open } = vault;
        // A page that did not open the lock writes on; it is sealed when the record is opened next.
        if (lock?.state !== 'on' || open?.keyId !== lock.keyId) return [...rows];
        return held(rows.map((row) => sealedOne(open, row)));
      }),
    opened(rows) {
      const isOpen = (row: Lies | undefined): row is Read | undefined =>
        row === undefined || !isSealed(row);
      if (rows.every(isOpen)) return Dexie.Promise.resolve([...rows]);
      return locks.get('lock').then((lock) => {
        const { open } = vault;
        if (lock !== undefined && open?.keyId !== lock.keyId) throw new RecordError(null, LOCKED);
        return held(rows.map((row) => openedOne(open, row)));
      });
    },
  };
}

/** The three tables that say anything of anybody. */
export interface Sealings {
  /** What is damaged is read as an entry that is. */
  entries: {
    sealed: Sealing<NewRow, ClearRow>['sealed'];
    opened(rows: readonly LyingRow[]): PromiseExtended<Row[]>;
  };
  people: Sealing<KeptPerson, ClearPerson>;
  notes: Sealing<Note, ClearNote>;
}

export function createSealings(locks: Table<LockRow, string>, vault: Vault): Sealings {
  const rows = createSealing<NewRow, ClearRow>('entries', locks, vault, clearRowOf);
  return {
    entries: {
      sealed: rows.sealed,
      opened: (lying) =>
        rows
          .opened(lying)
          .then((read) => read.map((row, at) => row ?? damaged(lying[at])) as Row[]),
    },
    people: createSealing('people', locks, vault, ({ id }) => ({ id })),
    notes: createSealing('notes', locks, vault, ({ id, session, person }) => ({
      ...{ id, session, person },
    })),
  };
}

const clearRowOf = ({ order, id, session, type, tells }: NewRow): ClearRow => ({
  ...(order !== undefined && { order }),
  ...{ id, session },
  type: type === 'started' || type === 'ended' ? `sealed-${type}` : 'sealed',
  ...(tells !== undefined && { tells }),
});

/** Which checksum it had is not known: it lies under the key too. */
function damaged(row: LyingRow | undefined): Row | undefined {
  if (row === undefined || !isSealed(row)) return row;
  const { id, order, sealed } = row;
  return { ...rowOfDamaged({ type: 'damaged', id, checksum: '', was: base64(sealed) }), order };
}
