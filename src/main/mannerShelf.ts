import { mannerFrom, USUAL_MANNER, type Manner } from '../voice/manner';
import { keptText } from './keptText';

/** Keeps on this device how loud and how fast the athlete wants to be spoken to. */
export interface MannerShelf {
  /** The usual manner where none was kept, or what was kept cannot be read. */
  load(): Manner;
  save(manner: Manner): void;
}

/** In the page's storage. */
export const createMannerShelf = (storage: () => Storage): MannerShelf => {
  const kept = keptText(storage, 'sayso-manner');
  return {
    load: () => mannerFrom(kept.load() ?? '') ?? USUAL_MANNER,
    save: (manner) => kept.save(JSON.stringify(manner)),
  };
};
