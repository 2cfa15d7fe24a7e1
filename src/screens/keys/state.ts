import type { Deed, OwnKey } from '../../domain/hearing/deeds';

/** The keys of this device, as the coach set them. */
export interface KeysState {
  /** What is not as it comes. */
  own: OwnKey[];
  /**
   * `damaged`: what was kept could not be read, and all keys are as they come; `refused`: the
   * browser keeps nothing, and they hold until the page is closed.
   */
  trouble?: 'damaged' | 'refused' | null;
}

/** What a person may do with the keys. */
export interface KeysHands {
  /** To the screen of the keys. */
  show(): void;
  /** Back to the gate. */
  leave(): void;
  /** That key does this alone from now on; null: nothing. */
  set(key: string, deed: Deed | null): void;
  /** All keys as they come. */
  reset(): void;
  /** Tells the buttons of a headset, by the keys that they stand for, until it is cancelled. */
  hearHeadset(onKey: (key: string) => void): () => void;
}
