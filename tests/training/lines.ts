import { dictionary } from 'cmu-pronouncing-dictionary';
import type { Grammar } from '../../src/domain/hearing/grammar';
import { lexiconFor, type Lexicon } from '../../src/ear/lexicon';
import { outputOf } from '../../src/ear/phones';
import { NUMBERS } from '../ear/grammars';
import { randomFrom } from '../ear/noises';
import { nearWords } from './near';
import { sentence } from './talk';

export type Kind =
  'reply' | 'short' | 'urgent' | 'number' | 'near' | 'mixed' | 'talk' | 'dictionary';

/** One thing to say; phones are outputs of the head. */
export interface Line {
  kind: Kind;
  words: string[];
  phones: number[];
  /** Phones of what it could be mistaken for: one word replaced by one that sounds near. */
  rivals: number[][];
}

/** Of a hundred lines. */
const SHARES: [Kind, number][] = [
  ['reply', 24],
  ['short', 15],
  ['urgent', 6],
  ['number', 11],
  ['near', 13],
  ['mixed', 5],
  ['talk', 8],
  ['dictionary', 18],
];
const RIVALS = 6;

/**
 * So many lines of all kinds, or of replies, short replies and numbers alone. `common`: word lists,
 * commonest first; only words of the CMU dictionary with one pronunciation are used of them.
 * `urgent`: stop words, pain and red flags, which are said more often than they come by chance.
 */
export function writtenLines(options: {
  grammars: Grammar[];
  common: string[][];
  urgent: string[];
  seed: number;
  lines: number;
  onlyReplies: boolean;
}): Line[] {
  const random = randomFrom(options.seed);
  const pick = <T>(from: readonly T[]) => from[Math.floor(random() * from.length)] as T;
  const replyWords = [
    ...new Set([
      ...options.grammars.flatMap(({ arcs }) => arcs.flatMap(({ words }) => words.split(' '))),
      ...NUMBERS.flatMap((number) => number.split(' ')),
    ]),
  ];
  const lists = options.common.map((words) => words.filter(hasOneSound));
  const everyWord = [...new Set([...replyWords, ...lists.flat()])];
  const lexicon = lexiconFor(everyWord);
  const near = nearWords(replyWords, everyWord, lexicon);
  const nearReplies = [
    ...new Set(
      replyWords.flatMap((word) => near(word)).filter((word) => !replyWords.includes(word)),
    ),
  ];
  const short = shortReplies(options.grammars);
  const number = () => {
    const said = pick(NUMBERS).split(' ');
    const before = random() < 0.3 ? [pick(['left', 'right', 'both'])] : [];
    const after = random();
    if (after < 0.2) return [...before, ...said, 'degrees'];
    if (after < 0.45)
      return [...before, ...said, pick(['pass', 'clear', 'held', 'limited', 'lost', 'short'])];
    return [...before, ...said];
  };
  const dictionaryWords = (length: number) =>
    Array.from({ length }, () => pick(pick([...lists, lists[0] ?? []])));
  const saying: Record<Kind, () => string[]> = {
    // A part lost from a long reply is a wrong grade, so half of them run on.
    reply: () => walk(pick(options.grammars), random, pick([0.55, 0.25])),
    short: () => pick(short).split(' '),
    urgent: () => pick(options.urgent).split(' '),
    number,
    near: () => Array.from({ length: pick([1, 1, 1, 2, 3]) }, () => pick(nearReplies)),
    mixed: () => {
      const words = [...walk(pick(options.grammars), random).slice(0, 3), pick(nearReplies)];
      return random() < 0.5 ? words : words.reverse();
    },
    talk: () => sentence(pick),
    dictionary: () => dictionaryWords(pick([1, 1, 2, 2, 3, 4, 5, 6])),
  };
  const shares = SHARES.filter(
    ([kind]) => !options.onlyReplies || ['reply', 'short', 'urgent', 'number'].includes(kind),
  );
  const whole = shares.reduce((sum, [, share]) => sum + share, 0);
  const kindOf = (): Kind => {
    let left = random() * whole;
    return shares.find(([, share]) => (left -= share) < 0)?.[0] ?? 'dictionary';
  };
  const sounds = lexiconWith(lexicon);
  const rivalsOf = (words: string[]) => {
    const found: string[][] = [];
    for (let tries = 0; tries < 3 * RIVALS && found.length < RIVALS; tries += 1) {
      const at = Math.floor(random() * words.length);
      const [other] = [pick(near(words[at] ?? ''))];
      if (other === undefined) continue;
      const rival = words.with(at, other);
      if (!found.some((known) => known.join(' ') === rival.join(' '))) found.push(rival);
    }
    return found.map(sounds);
  };
  return Array.from({ length: options.lines }, () => {
    for (;;) {
      const kind = kindOf();
      const words = saying[kind]();
      const phones = soundsOrNull(words, sounds);
      if (phones === null || phones.length === 0 || phones.length > 60) continue;
      const same = phones.join();
      const rivals = kind === 'talk' || kind === 'dictionary' ? [] : rivalsOf(words);
      return { kind, words, phones, rivals: rivals.filter((rival) => rival.join() !== same) };
    }
  });
}

/**
 * Any path through the grammar, ended at so many of the places where it may end; groups of words
 * that lead to one place weigh the same.
 */
export function walk(grammar: Grammar, random: () => number, endShare = 0.55): string[] {
  const pick = <T>(from: readonly T[]) => from[Math.floor(random() * from.length)] as T;
  const said: string[] = [];
  for (let state = 0; ;) {
    const arcs = grammar.arcs.filter(({ from }) => from === state);
    if (arcs.length === 0 || (grammar.finals.includes(state) && random() < endShare)) break;
    const to = pick([...new Set(arcs.map((arc) => arc.to))]);
    const arc = pick(arcs.filter((other) => other.to === to));
    said.push(...arc.words.split(' '));
    state = arc.to;
  }
  return said;
}

/** Whole replies of one arc or two words. */
function shortReplies(grammars: Grammar[]): string[] {
  const found = new Set<string>();
  for (const { arcs, finals } of grammars)
    for (const { from, to, words } of arcs) if (from === 0 && finals.includes(to)) found.add(words);
  return [...found].sort();
}

const hasOneSound = (word: string) =>
  /^[a-z]{2,}$/.test(word) &&
  Object.hasOwn(dictionary, word) &&
  !Object.hasOwn(dictionary, `${word}(1)`) &&
  !Object.hasOwn(dictionary, `${word}(2)`);

const lexiconWith = (lexicon: Lexicon) => {
  const known: Lexicon = { ...lexicon };
  return (words: string[]): number[] =>
    words.flatMap((word) => {
      known[word] ??= lexiconFor([word])[word] ?? [];
      return (known[word][0] ?? []).map((phone) => outputOf(phone) ?? 0);
    });
};

function soundsOrNull(words: string[], sounds: (words: string[]) => number[]): number[] | null {
  try {
    return sounds(words);
  } catch {
    return null;
  }
}
