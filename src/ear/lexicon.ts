import { dictionary } from 'cmu-pronouncing-dictionary';
import { soundsOfLetters } from './letterSounds';
import { OWN_WORDS } from './ownWords';
import { outputOf } from './phones';

/** How words sound: phones of the CMU dictionary without stress, one list a pronunciation. */
export type Lexicon = Record<string, string[][]>;

/** A word that nothing can say, or a pronunciation that is none. */
export class PronunciationError extends Error {
  override name = 'PronunciationError';
}

/** Some entries end in a remark ("F AY1 N # place, irish"). */
const phonesOf = (entry: string) =>
  entry
    .replace(/#.*$|[0-9]/g, '')
    .trim()
    .split(' ');

/**
 * Pronunciations of these lower-case words, plain data that a build can embed. `own` adds to the
 * dictionary and to OWN_WORDS: phones separated by spaces, several pronunciations by commas. A word
 * that none of them has is said as its letters are.
 * @throws PronunciationError listing every word without letters, or an own entry with unknown phones.
 */
export function lexiconFor(words: string[], own: Record<string, string> = {}): Lexicon {
  const lexicon: Lexicon = {};
  const missing: string[] = [];
  for (const word of [...new Set(words)].sort()) {
    const entries = [
      ...inDictionary(word),
      ...[OWN_WORDS, own].flatMap((words) => entryOf(words, word)?.split(',') ?? []),
    ];
    const said = [...new Set(entries.map((entry) => phonesOf(entry.trim()).join(' ')))];
    if (said.length === 0) said.push(soundsOfLetters(word).join(' '));
    if (said[0] === '') missing.push(word);
    else lexicon[word] = said.map((pronunciation) => pronunciation.split(' '));
  }
  if (missing.length > 0)
    throw new PronunciationError(
      `No pronunciation for: ${missing.join(', ')}. Write it in letters, or add it to src/ear/ownWords.ts.`,
    );
  refuseUnknownPhones(lexicon);
  return lexicon;
}

/** Words such as "constructor" are no entries. */
const entryOf = (words: Record<string, string>, word: string): string | undefined =>
  Object.hasOwn(words, word) ? words[word] : undefined;

function inDictionary(word: string): string[] {
  const found: string[] = [];
  for (let variant = 0; ; variant += 1) {
    const entry = entryOf(dictionary, variant === 0 ? word : `${word}(${variant})`);
    if (entry !== undefined) found.push(entry);
    // Variants are numbered from 1 or from 2, by edition.
    else if (variant > 1) return found;
  }
}

function refuseUnknownPhones(lexicon: Lexicon): void {
  for (const [word, pronunciations] of Object.entries(lexicon))
    for (const phone of pronunciations.flat())
      if (outputOf(phone) === undefined)
        throw new PronunciationError(
          `"${phone}" in the pronunciation of "${word}" is no phone of the CMU dictionary.`,
        );
}
