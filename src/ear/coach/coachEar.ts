import type { Belief } from '../confidence';
import type { Lexicon } from '../lexicon';

/** One reply as a coach said it, of which the words are known: read aloud, or confirmed by a yes. */
export interface Reading {
  /** Lower-case words separated by single spaces. */
  text: string;
  /** The phones that were heard, bound by no reply. */
  phones: string[];
  /** How far the ear believed the right words, 0 to 1; null where it heard others. */
  confidence: number | null;
}

/** What the ear has learnt of one coach in one room: plain data, kept on the device. */
export interface CoachEar {
  /** Further pronunciations: phones separated by spaces, by word. */
  variants: Record<string, string[]>;
  /** Phones of which this voice makes others: the share of times. */
  swaps: Swap[];
  /** Added to the offset of the confidence; 0 or less. */
  offset: number;
}

export interface Swap {
  said: string;
  heard: string;
  /** 0 to 1. */
  share: number;
}

/** An ear that has learnt nothing. */
export const UNFITTED: CoachEar = { variants: {}, swaps: [], offset: 0 };

/** The lexicon with this coach's pronunciations; words that it lacks stay out. */
export function lexiconOf(base: Lexicon, { variants }: CoachEar): Lexicon {
  const lexicon: Lexicon = { ...base };
  for (const [word, said] of Object.entries(variants)) {
    const known = Object.hasOwn(base, word) ? base[word] : undefined;
    if (known) lexicon[word] = [...known, ...said.map((phones) => phones.split(' '))];
  }
  return lexicon;
}

/** How far replies are to be believed where this coach speaks. */
export const beliefOf = (base: Belief, { offset }: CoachEar): Belief => ({
  ...base,
  offset: base.offset + offset,
});
