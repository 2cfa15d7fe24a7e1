import * as embedded from 'virtual:sayso-cues';
import type { Durations } from '../domain/pacing/duration';
import type { CueBook } from '../domain/script';
import type { Lexicon } from './soundingAlike';

/** Everything spoken, asked and graded, checked when the page was built. */
export const book: CueBook = embedded.book;
/** Pronunciations of every word that can be heard. */
export const lexicon: Lexicon = embedded.lexicon;
/** How long words take to say. */
export const durations: Durations = embedded.durations;
