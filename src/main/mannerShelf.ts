import { mannerFrom, USUAL_MANNER, type Manner } from '../voice/manner';

/** Keeps on this device how loud and how fast the athlete wants to be spoken to. */
export interface MannerShelf {
  /** The usual manner where none was kept, or what was kept cannot be read. */
  load(): Manner;
  save(manner: Manner): void;
}

const KEY = 'sayso-manner';

/** In the page's storage; `storage` throws where the browser refuses it, and nothing is kept then. */
export const createMannerShelf = (storage: () => Storage): MannerShelf => ({
  load: () => {
    try {
      return mannerFrom(storage().getItem(KEY) ?? '') ?? USUAL_MANNER;
    } catch {
      return USUAL_MANNER;
    }
  },
  save: (manner) => {
    try {
      storage().setItem(KEY, JSON.stringify(manner));
    } catch {
      // It holds until the page is closed.
    }
  },
});
