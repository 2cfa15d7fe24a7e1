import { DEFAULT_SETTINGS, WORDS, type Words } from '../domain/log';
import type { Records } from '../ports';
import { keptText } from './keptText';

/** Keeps on this device how much is to be said. */
export interface WordsShelf {
  /** The usual where none was kept, or what was kept is no such choice. */
  load(): Words;
  save(words: Words): void;
}

/** In the page's storage. */
export const createWordsShelf = (storage: () => Storage): WordsShelf => {
  const kept = keptText(storage, 'sayso-words');
  return {
    load: () => {
      const text = kept.load();
      return WORDS.find((words) => words === text) ?? DEFAULT_SETTINGS.words;
    },
    save: kept.save,
  };
};

/** The same records, which also tell what "fewer words" and "more words" came to. */
export const tellingWords = (records: Records, tell: (words: Words) => void): Records => ({
  ...records,
  append(entry, done) {
    if (entry.type === 'words') tell(entry.words);
    records.append(entry, done);
  },
});
