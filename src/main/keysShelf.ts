import { ownKeysFrom, type OwnKey } from '../domain/hearing/deeds';
import { keptText } from './keptText';

/** Keeps on this device which keys a coach has set. */
export interface KeysShelf {
  /** No own keys where none were kept, or where what was kept cannot be read: `isDamaged`. */
  load(): { own: OwnKey[]; isDamaged: boolean };
  /** False where the browser keeps nothing. */
  save(own: readonly OwnKey[]): boolean;
}

/** In the page's storage. */
export const createKeysShelf = (storage: () => Storage): KeysShelf => {
  const kept = keptText(storage, 'sayso-keys');
  return {
    load: () => {
      const text = kept.load();
      const own = text === null ? [] : ownKeysFrom(text);
      return { own: own ?? [], isDamaged: own === null };
    },
    save: (own) => {
      const text = JSON.stringify(own);
      kept.save(text);
      return kept.load() === text;
    },
  };
};
