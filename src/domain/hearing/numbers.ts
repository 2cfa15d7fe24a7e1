import type { NumberWords } from './vocabulary';

/** A number found in a row of words: its value and how many words it took. */
export interface NumberRead {
  value: number;
  length: number;
}

/**
 * The number that begins at a word, or null: "one forty", "one six five", "one oh five", "a hundred
 * and forty five" (from "hundred"), "ninety", "140". Whole numbers from 0 to 999.
 */
export function numberAt(numbers: NumberWords, words: string[], from: number): NumberRead | null {
  const at = (offset: number) => words[from + offset];
  const value = (offset: number): number | null => valueOf(numbers, at(offset));
  const isIn = (list: string[], offset: number) => list.includes(at(offset) ?? '');
  const under = (limit: number, offset: number) => {
    const found = value(offset);
    return found !== null && found < limit ? found : null;
  };
  /** Tens and units that begin at an offset. */
  const rest = (offset: number): NumberRead | null => {
    const first = value(offset);
    if (first === null || first > 99) return null;
    const unit = first >= 20 && first % 10 === 0 ? under(10, offset + 1) : null;
    return unit === null || unit === 0
      ? { value: first, length: 1 }
      : { value: first + unit, length: 2 };
  };
  const afterHundred = (hundreds: number, length: number): NumberRead => {
    const joined = isIn(numbers.and, length) ? 1 : 0;
    const tail = rest(length + joined);
    return tail === null
      ? { value: hundreds, length }
      : { value: hundreds + tail.value, length: length + joined + tail.length };
  };
  if (isIn(numbers.hundred, 0)) return afterHundred(100, 1);
  const first = value(0);
  if (first === null) return null;
  if (first > 0 && first < 10) {
    if (isIn(numbers.hundred, 1)) return afterHundred(first * 100, 2);
    const second = isIn(numbers.zeroInside, 1) ? 0 : value(1);
    if (second !== null && second < 10 && first <= 2) {
      const third = isIn(numbers.zeroInside, 2) ? 0 : under(10, 2);
      if (third !== null) return { value: first * 100 + second * 10 + third, length: 3 };
    }
    if (second === 0 && first > 2) return { value: first * 10, length: 2 };
    if (second !== null && second >= 10 && second < 100 && first <= 2) {
      const tail = rest(1);
      if (tail !== null) return { value: first * 100 + tail.value, length: 1 + tail.length };
    }
  }
  return first > 99 ? { value: first, length: 1 } : rest(0);
}

function valueOf(numbers: NumberWords, word: string | undefined): number | null {
  if (word === undefined) return null;
  if (/^\d{1,3}$/.test(word)) return Number(word);
  return Object.hasOwn(numbers.words, word) ? (numbers.words[word] ?? null) : null;
}

/** A whole number from 0 to 999 as a coach says it: 140 is "one forty", 105 "one oh five". */
export function numberSpoken(numbers: NumberWords, value: number): string {
  const word = (wanted: number) =>
    Object.entries(numbers.words).find(([, each]) => each === wanted)?.[0] ?? String(wanted);
  const underHundred = (rest: number) =>
    rest <= 20 || rest % 10 === 0 ? word(rest) : `${word(rest - (rest % 10))} ${word(rest % 10)}`;
  if (value < 100) return underHundred(value);
  const hundreds = word(Math.floor(value / 100));
  const rest = value % 100;
  if (rest === 0) return `${hundreds} ${numbers.hundred[0] ?? ''}`;
  return rest < 10
    ? `${hundreds} ${numbers.zeroInside[0] ?? ''} ${word(rest)}`
    : `${hundreds} ${underHundred(rest)}`;
}
