import type { Side } from '../areas';
import type { CueBook } from '../script';
import { unwrapped } from './commanding';
import { entries } from './entries';
import { phrasesOf } from './patterns';
import type { Reply } from './reply';
import type { Ways } from './vocabulary';

/** Everything that "same" is said with, ready to look up. */
interface SameWords {
  same: Set<string>;
  beforeSide: Set<string>;
  afterSide: Set<string>;
  sides: Map<string, Side | 'both'>;
  noPain: Set<string>;
  /** Endings that an apostrophe parts from a side ("right's the same"). */
  endings: string[];
}

const known = new WeakMap<CueBook, SameWords>();

function gather({ vocabulary: { same, sides, pain, endings } }: CueBook): SameWords {
  const phrases = ({ say, also }: Ways) => [...say, ...also].flatMap(phrasesOf);
  return {
    same: new Set(phrases(same)),
    beforeSide: new Set(['', ...phrases(same.beforeSide)]),
    afterSide: new Set(['', ...phrases(same.afterSide)]),
    sides: new Map(
      entries(sides).flatMap(([side, ways]) => phrases(ways).map((phrase) => [phrase, side])),
    ),
    noPain: new Set(phrases(pain.none)),
    endings: endings.filter((ending) => ending.startsWith("'")),
  };
}

/**
 * The side (and "no pain") that is said with "same", or null where the words are not wholly that,
 * politeness aside: "they all look the same" is talk.
 */
export function sameSaid(book: CueBook, texts: string[]): Pick<Reply, 'side' | 'pain'> | null {
  const words = known.get(book) ?? gather(book);
  known.set(book, words);
  for (const phrase of unwrapped(book, texts))
    for (const { said, pain } of painless(words, phrase)) {
      const side = sideOf(words, said);
      if (side !== undefined) return { side, pain };
    }
  return null;
}

/** The words, and without a "no pain" at their end. */
function painless({ noPain }: SameWords, phrase: string[]): { said: string[]; pain: 0 | null }[] {
  const cuts = phrase.flatMap((_, at) => (noPain.has(phrase.slice(at).join(' ')) ? [at] : []));
  return [
    { said: phrase, pain: null },
    ...cuts.map((at) => ({ said: phrase.slice(0, at), pain: 0 as const })),
  ];
}

const bare = ({ endings }: SameWords, word: string): string =>
  endings.reduce(
    (each, ending) => (each.endsWith(ending) ? each.slice(0, -ending.length) : each),
    word,
  );

/** The side, null where none is said, or undefined where it is not wholly understood. */
function sideOf(words: SameWords, phrase: string[]): Side | 'both' | null | undefined {
  const text = (from: number, to: number) => phrase.slice(from, to).join(' ');
  if (words.same.has(text(0, phrase.length))) return null;
  for (let first = 1; first < phrase.length; first++)
    for (let second = first; second < phrase.length; second++) {
      const [head, join, tail] = [text(0, first), text(first, second), text(second, phrase.length)];
      const after = words.same.has(head) && words.beforeSide.has(join) && words.sides.get(tail);
      const named = words.afterSide.has(join) && words.sides.get(bare(words, head));
      // "Right is the same as the left" is of the right.
      const before = named && sideOf(words, phrase.slice(second)) !== undefined && named;
      if (after || before) return after || before || null;
    }
  return undefined;
}
