import { grammarOf } from '../domain/hearing/building';
import { promptsOf } from '../domain/hearing/prompts';
import type { CueBook } from '../domain/script';

/** Every word of every grammar of a book, once, sorted: what a lexicon must be able to say. */
export const wordsOf = (book: CueBook): string[] =>
  [
    ...new Set(
      promptsOf(book).flatMap(({ prompt }) =>
        grammarOf(book, prompt).arcs.flatMap(({ words }) => words.split(' ')),
      ),
    ),
  ].sort();
