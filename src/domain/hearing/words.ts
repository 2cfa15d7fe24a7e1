import { phrasesOf } from './patterns';
import type { NumberWords } from './vocabulary';

/** One word of an utterance; `after` tells whether punctuation stands before it. */
export interface Word {
  text: string;
  after: boolean;
}

/** An utterance cut into words. */
export interface Words {
  words: Word[];
  /** A question mark was typed or recognised. */
  question: boolean;
}

/** The words that signs beside a number stand for. */
type Signs = Pick<NumberWords, 'ofTen' | 'between' | 'degrees'>;

const NO_SIGNS: Signs = { ofTen: [], between: [], degrees: [] };

/**
 * Cuts a text into lower-case words without accents; never throws. "7/10" is read in the words of
 * the language ("7 out of ten"). After a word that `isKnown` as it stands, "in'" only closes a quote.
 */
export function wordsOf(
  text: string,
  { ofTen, between, degrees }: Signs = NO_SIGNS,
  isKnown: (word: string) => boolean = () => false,
): Words {
  const said = ([pattern]: string[]) => phrasesOf(pattern ?? '')[0] ?? '';
  const plain = unaccented(text.toLowerCase())
    .replace(/[’‘`´]/g, "'")
    // "Roundin'", as it is typed by who writes as they speak.
    .replace(/(\p{L}{2,}in)'(?!\p{L})/gu, (typed, word: string) =>
      isKnown(word) ? typed : `${word}g`,
    )
    .replace(/(\d)\s*\/\s*10\b/g, (_, number: string) => `${number} ${said(ofTen)}`)
    .replace(
      /(\d)\s*[-–]\s*(\d)/g,
      (_, one: string, other: string) => `${one} ${said(between)} ${other}`,
    )
    .replace(/(\d)\s*°/g, (_, number: string) => `${number} ${said(degrees)}`)
    .replace(/(\d)([a-z])/g, '$1 $2')
    .replace(/(\p{L})-(\p{L})/gu, '$1 $2');
  const words: Word[] = [];
  let after = false;
  for (const [piece] of plain.matchAll(/[\p{L}\d]+(?:'[\p{L}]+)*'?|[^\s\p{L}\d']+/gu)) {
    if (/[\p{L}\d]/u.test(piece)) {
      words.push({ text: piece.replace(/'$/, ''), after: after && words.length > 0 });
      after = false;
    } else after = true;
  }
  return { words, question: plain.includes('?') };
}

/** As it is typed by who leaves accents out. */
export const unaccented = (text: string): string =>
  text.normalize('NFKD').replace(/\p{M}/gu, '').normalize('NFKC');
