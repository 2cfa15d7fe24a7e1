import { callWordProblems } from '../cues/callWord';
import { hasPhones } from '../cues/languages';
import type { CueBook } from '../domain/script';
import { lexiconFor } from '../ear/lexicon';

/**
 * The call word as it is looked for, in lower case, or undefined where none was given. What speaks
 * against it is said on standard error; it is taken all the same, since here words are typed.
 */
export function callWordOf(book: CueBook, given: string | undefined): string | undefined {
  if (given === undefined) return undefined;
  const word = given.trim().toLowerCase();
  // Likeness is told by phones, which are known of one language.
  if (!hasPhones(book.language)) return word;
  for (const problem of callWordProblems(book, word, lexiconFor)) console.error(problem);
  return word;
}
