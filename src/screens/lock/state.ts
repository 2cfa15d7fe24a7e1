/** After how many minutes alone a locked record may lock itself. */
export const LOCK_MINUTES = [5, 15, 60] as const;
export type LockMinutes = (typeof LOCK_MINUTES)[number];

/** How the lock of the record stands. */
export interface LockState {
  /** It lies under a passphrase. */
  isOn: boolean;
  afterMinutes: LockMinutes;
  /** Rows that are still to be sealed or opened; null where none are. */
  left: number | null;
  /** Why that did not go on, and what to do; null where nothing is wrong. */
  trouble: string | null;
}

/** What a person may do about it; each gives null once it is done, else what to do. */
export interface LockHands {
  turnOn(passphrase: string): Promise<string | null>;
  change(from: string, to: string): Promise<string | null>;
  turnOff(passphrase: string): Promise<string | null>;
  /** Drops the key and all that is on the page, which asks for the passphrase then. */
  now(): string | null;
  after(minutes: LockMinutes): void;
}
