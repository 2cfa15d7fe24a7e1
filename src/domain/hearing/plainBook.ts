import type { CueBook } from '../script';
import { unaccented } from './words';

const known = new WeakMap<CueBook, CueBook>();

/**
 * The book by which words are understood: nothing in it has an accent, since many type without.
 * The same book where it had none; what is read back comes of the book as it is written.
 */
export function plainBook(book: CueBook): CueBook {
  const made = known.get(book) ?? withoutAccents(book);
  known.set(book, made);
  return made;
}

function withoutAccents(book: CueBook): CueBook {
  // As one text, since words of numbers are keys.
  const written = JSON.stringify(book);
  const plain = unaccented(written);
  return plain === written ? book : (JSON.parse(plain) as CueBook);
}
