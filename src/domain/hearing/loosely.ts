import { numberAt } from './numbers';
import { slotsOf } from './patterns';
import type { NumberWords, Pattern } from './vocabulary';
import type { Word } from './words';

/** Stands for any number but one in a pattern that is matched loosely. */
const NUMBER = '0';

/** A stretch of words: where it begins and how many there are. */
export interface Stretch {
  at: number;
  length: number;
}

const source = (pattern: Pattern, ending: string): string =>
  slotsOf(pattern)
    .map(({ options, optional }) => `(?: (?:${options.join('|')})${ending})${optional ? '?' : ''}`)
    .join('');

/** Each word of them may end so. */
const anyOf = (patterns: Pattern[], ending = ''): string =>
  `(?:${patterns.map((pattern) => source(pattern, ending)).join('|')})`;

/** Patterns wherever they stand ("heart's racing" too). */
export const within = (patterns: Pattern[]): RegExp =>
  new RegExp(`${anyOf(patterns, "(?:'s)?")}(?= |$)`, 'g');

/** Patterns that are all that is said, but for what may stand before and after them. */
export function wholly(patterns: Pattern[], before: Pattern[], after: Pattern[]): RegExp {
  const some = (around: Pattern[]) => (around.length > 0 ? `${anyOf(around)}*` : '');
  return new RegExp(`^${some(before)}${anyOf(patterns)}${some(after)}$`);
}

/** Words without the small ones between them, as one text, each with a space before it. */
export interface Bare {
  text: string;
  /** Where each word that is left began, then where the words end. */
  at: number[];
}

/** Every number but one is a word, `0`. */
export function bare(
  numbers: NumberWords,
  small: ReadonlySet<string>,
  words: readonly Word[],
): Bare {
  const texts = words.map(({ text }) => text);
  const kept: string[] = [];
  const at: number[] = [];
  for (let from = 0; from < texts.length;) {
    const number = numberAt(numbers, texts, from);
    const word = texts[from] ?? '';
    // "One" may stand for what was named.
    const counts = number !== null && number.value !== 1;
    if (counts || !small.has(word)) {
      kept.push(counts ? NUMBER : word);
      at.push(from);
    }
    from += number?.length ?? 1;
  }
  return { text: kept.map((word) => ` ${word}`).join(''), at: [...at, texts.length] };
}

/** Where an expression made by `within` is found. */
export function stretchesOf(expression: RegExp, { text, at }: Bare): Stretch[] {
  return [...text.matchAll(expression)].map((found) => {
    const count = (some: string) => some.split(' ').length - 1;
    const first = count(text.slice(0, found.index));
    const from = at[first] ?? 0;
    return { at: from, length: (at[first + count(found[0]) - 1] ?? from) + 1 - from };
  });
}
