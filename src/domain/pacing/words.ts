import { DEFAULT_SETTINGS, WORDS, type Entry, type Words } from '../log';

/** How much is said as the log stands: what was asked for last, else the setting it began with. */
export function wordsOf(log: readonly Entry[]): Words {
  const asked = log.findLast((entry) => entry.type === 'words');
  if (asked !== undefined) return asked.words;
  const started = log.find((entry) => entry.type === 'started');
  // A log of before there was a choice has no such setting.
  return { ...DEFAULT_SETTINGS, ...started?.settings }.words;
}

/** One step fewer or more words; null where there is none. */
export const changedWords = (words: Words, change: 'fewer' | 'more'): Words | null =>
  WORDS[WORDS.indexOf(words) + (change === 'fewer' ? 1 : -1)] ?? null;
