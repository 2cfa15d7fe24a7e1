import type { BroughtIn } from '../../domain/keeping/wholeRecord';

/** What was saved: the name of the file, and how many entries in it are damaged. */
export interface Saved {
  file: string;
  damaged: number;
}
/** What became of something, or what to say where it did not. */
export type Became<T> = T | { say: string };

/** How the record of this device stands, as a whole. */
export interface RecordState {
  /** Sessions were run since it was saved last, a week ago or more. */
  isSavingDue: boolean;
  /** How long the browser keeps it; null until that was asked. */
  lasting: string | null;
  /** Damaged entries, in words; null until it was looked at. */
  damage: string[] | null;
}

/** What a person may do with it. */
export interface RecordHands {
  /** To the whole record: out, in, how long it lasts. From a tap, in which the browser may be asked. */
  show(): void;
  /** Saves all of it in a file, under a passphrase unless it is null. */
  save(passphrase: string | null): Promise<Became<Saved>>;
  /**
   * Reads a file and tells what it would change; nothing is changed yet. `isLocked`: it wants its
   * passphrase, and is to be looked at again with it.
   */
  look(
    file: Blob,
    passphrase: string | null,
  ): Promise<Became<{ would: BroughtIn } | { isLocked: true }>>;
  /** Brings in the file that was looked at last. */
  bringIn(): Promise<Became<{ did: BroughtIn }>>;
  /** Back to the people. */
  leave(): void;
}
