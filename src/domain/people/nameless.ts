/** Names stay out of the log, so that somebody who is erased is erased there too. */
import type { Entry } from '../log';
import { plainly } from './found';

/** A single letter names nobody. */
const LETTERS_LEAST = 2;
const WORD = /[\p{L}\p{N}\p{M}]+/gu;

/** The words of these names, as they are compared: without case, without marks. */
export const nameWords = (names: readonly string[]): Set<string> =>
  new Set(
    names
      .flatMap((name) => name.match(WORD) ?? [])
      .map(plainly)
      .filter((word) => word.length >= LETTERS_LEAST),
  );

/** Where an entry has what was heard or typed, letter for letter. */
const AS_SAID = ['text', 'heard'];

/**
 * An entry with "…" for each of those words, by `plainly`, in what was heard or typed; the same
 * entry where none is in it. What it means stays: that was understood before.
 */
export function nameless(entry: Entry, words: ReadonlySet<string>): Entry {
  let isChanged = false;
  const kept = (text: string) =>
    text.replace(WORD, (word) => {
      if (!words.has(plainly(word))) return word;
      isChanged = true;
      return '…';
    });
  const left = (name: string, value: unknown): unknown =>
    AS_SAID.includes(name) && typeof value === 'string' ? kept(value) : value;
  if (words.size === 0) return entry;
  const without = JSON.parse(JSON.stringify(entry, left)) as Entry;
  return isChanged ? without : entry;
}
