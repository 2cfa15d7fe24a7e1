import * as embedded from 'virtual:sayso-cues';
import type { Durations } from '../domain/pacing/duration';
import type { CueBook } from '../domain/script';
import type { Lexicon } from './soundingAlike';

/** Everything spoken, asked and graded in one language, checked when the page was built. */
export interface Cues {
  book: CueBook;
  /** Pronunciations of every word that can be heard; empty where no ear hears the language. */
  lexicon: Lexicon;
  /** How long words take to say. */
  durations: Durations;
}

/** Those that the first script holds. */
export const ownCues: Cues = embedded;

const others: Record<string, () => Promise<Cues>> = embedded.others;

/** The languages of the page, its own first. */
export const LANGUAGES: string[] = [ownCues.book.language, ...Object.keys(others)];

/** Fetches the cues of a language; null where the page has none of it. Rejects where it is not reached. */
export const otherCues = async (language: string): Promise<Cues | null> =>
  (await others[language]?.()) ?? null;

export const { book, lexicon } = ownCues;
