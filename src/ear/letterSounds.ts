import rules from './letterSounds.json' with { type: 'json' };

/**
 * What a letter sounds like: its phones, or [its phones, the place to look at, what it sounds like
 * by the letter found there]. Places are relative to the letter.
 */
export type Sounding = string | [said: string, place: number, by: Record<string, Sounding>];

/** The end of the word, where a place lies beyond it. */
export const BEYOND = '#';

const learnt = rules as unknown as Record<string, Sounding>;

/**
 * Phones of a word by its letters alone: trees over the letters around each, learnt from the CMU
 * dictionary (tests/training/letterSounds.ts; one phone in ten is wrong on words kept from it).
 * Empty for what has no letters.
 */
export function soundsOfLetters(word: string, trees: Record<string, Sounding> = learnt): string[] {
  const letters = word.toLowerCase().replace(/[^a-z]/g, '');
  return [...letters].flatMap((letter, at) => {
    let sounding = trees[letter] ?? '';
    while (typeof sounding !== 'string') {
      const [said, place, by] = sounding;
      sounding = by[letters[at + place] ?? BEYOND] ?? said;
    }
    return sounding === '' ? [] : sounding.split(' ');
  });
}
