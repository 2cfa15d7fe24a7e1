import { grammarOf } from '../domain/hearing/building';
import { meaningsOf } from '../domain/hearing/meanings';
import { phonesApart, phonesOf, VOWELS, type Lexicon } from '../domain/hearing/phonesApart';
import { promptsOf } from '../domain/hearing/prompts';
import type { CueBook } from '../domain/script';

/** Below these a word is lost in a loud room (common practice for wake words, no source). */
const LEAST = { syllables: 2, phones: 4 } as const;

/** Less of the longer word than this apart, two words are taken for each other. */
const TOO_SMALL_SHARE = 1 / 3;

/** Sayso's own name is said around replies, so it is listed among polite words, and may call. */
const OWN_NAME = 'sayso';

/**
 * What speaks against a call word: an empty list where it may be chosen. It has to be one or two
 * plain words that can be pronounced, long enough, and unlike every reply and every word that
 * coaches say to athletes. `lexiconFor` gives ARPAbet phones; what it throws is told as it is.
 */
export function callWordProblems(
  book: CueBook,
  word: string,
  lexiconFor: (words: string[]) => Lexicon,
): string[] {
  if (!/^[a-z']+( [a-z']+)?$/.test(word))
    return [`"${word}" is no call word: write one or two words in lower-case letters.`];
  const others = heardOrSaid(book).filter((other) => other !== word || word !== OWN_NAME);
  let lexicon: Lexicon;
  try {
    lexicon = lexiconFor([...new Set([word, ...others].flatMap((each) => each.split(' ')))]);
  } catch (problem) {
    return [problem instanceof Error ? problem.message : `"${word}" has no pronunciation.`];
  }
  const ways = phonesOf(word, lexicon);
  const isShort = ways.some(
    (phones) =>
      phones.length < LEAST.phones ||
      phones.filter((phone) => VOWELS.has(phone)).length < LEAST.syllables,
  );
  const alike = others.filter((other) =>
    phonesOf(other, lexicon).some((phones) => ways.some((way) => isAlike(way, phones))),
  );
  return [
    ...(isShort
      ? [
          `"${word}" is too short to be heard in a loud room: choose a word of two syllables or more.`,
        ]
      : []),
    ...(alike.length > 0
      ? [`"${word}" sounds like "${alike.slice(0, 3).join('", "')}": choose another word.`]
      : []),
  ];
}

function isAlike(one: string[], other: string[]): boolean {
  const longer = Math.max(one.length, other.length);
  const shorter = Math.min(one.length, other.length);
  if (longer - shorter >= longer * TOO_SMALL_SHARE) return false;
  return phonesApart(one, other) < longer * TOO_SMALL_SHARE;
}

/** Everything the recogniser listens for, its single words, and what is said to athletes. */
function heardOrSaid(book: CueBook): string[] {
  const heard = promptsOf(book).flatMap(({ prompt }) =>
    grammarOf(book, prompt).arcs.map(({ words }) => words),
  );
  const said = [...meaningsOf(book).phrases]
    .filter(([, meanings]) => meanings.some(({ is }) => is in book.vocabulary.talk))
    .map(([phrase]) => phrase);
  const all = [...heard, ...said];
  return [...new Set([...all, ...all.flatMap((words) => words.split(' '))])];
}
