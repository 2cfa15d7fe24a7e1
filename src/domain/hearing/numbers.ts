import type { NumberWords } from './vocabulary';

/** A number found in a row of words: its value and how many words it took. */
export interface NumberRead {
  value: number;
  length: number;
}

/**
 * The number that begins at a word, or null: "one forty", "one six five", "one oh five", "a hundred
 * and forty five" (from "hundred"), "ciento cuarenta y cinco", "ninety", "140". Whole numbers from
 * 0 to 999. Which words join hundreds, tens and units is data of the language.
 */
export function numberAt(numbers: NumberWords, words: string[], from: number): NumberRead | null {
  if (!isNumber(numbers, words[from])) return null;
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
    const joined = isIn(numbers.tensAnd, offset + 1) ? 1 : 0;
    const unit = first >= 20 && first % 10 === 0 ? under(10, offset + 1 + joined) : null;
    return unit === null || unit === 0
      ? { value: first, length: 1 }
      : { value: first + unit, length: 2 + joined };
  };
  const afterHundred = (hundreds: number, length: number): NumberRead => {
    const joined = isIn(numbers.and, length) ? 1 : 0;
    const tail = rest(length + joined);
    return tail === null
      ? { value: hundreds, length }
      : { value: hundreds + tail.value, length: length + joined + tail.length };
  };
  if (isIn(numbers.hundred, 0)) return afterHundred(100, 1);
  const whole = hundredsIn(numbers, at(0));
  if (whole !== null) return afterHundred(whole, 1);
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

/** Most words are none, and that is seen at once. */
const isNumber = (numbers: NumberWords, word: string | undefined): boolean =>
  word !== undefined &&
  (valueOf(numbers, word) !== null ||
    hundredsIn(numbers, word) !== null ||
    numbers.hundred.includes(word));

function valueOf(numbers: NumberWords, word: string | undefined): number | null {
  if (word === undefined) return null;
  if (/^\d{1,3}$/.test(word)) return Number(word);
  return Object.hasOwn(numbers.words, word) ? (numbers.words[word] ?? null) : null;
}

/** A whole hundred in one word ("doscientos"). */
const hundredsIn = ({ hundreds }: NumberWords, word: string | undefined): number | null =>
  word !== undefined && Object.hasOwn(hundreds, word) ? (hundreds[word] ?? null) : null;

/**
 * A whole number from 0 to 999 as a coach says it: 140 is "one forty", 105 "one oh five"; where
 * the language has words for whole hundreds, "ciento cuarenta" and "ciento cinco".
 */
export function numberSpoken(numbers: NumberWords, value: number): string {
  const named = (wanted: number) =>
    Object.entries(numbers.words).find(([, each]) => each === wanted)?.[0];
  const word = (wanted: number) => named(wanted) ?? String(wanted);
  const underHundred = (rest: number) => {
    if (rest <= 20 || named(rest) !== undefined) return word(rest);
    return [word(rest - (rest % 10)), ...numbers.tensAnd.slice(0, 1), word(rest % 10)].join(' ');
  };
  if (value < 100) return underHundred(value);
  const rest = value % 100;
  const whole = Object.entries(numbers.hundreds).flatMap(([each, hundreds]) =>
    hundreds === value - rest ? [each] : [],
  );
  // "Cien" alone, "ciento" before more.
  if (whole.length > 0)
    return rest === 0 ? (whole[0] ?? '') : `${whole.at(-1) ?? ''} ${underHundred(rest)}`;
  const hundreds = word(Math.floor(value / 100));
  if (rest === 0) return `${hundreds} ${numbers.hundred[0] ?? ''}`;
  return rest < 10
    ? `${hundreds} ${numbers.zeroInside[0] ?? ''} ${word(rest)}`
    : `${hundreds} ${underHundred(rest)}`;
}

/** A number before what it counts ("veintiún centímetros"). */
export function numberCounting(numbers: NumberWords, value: number): string {
  const spoken = numberSpoken(numbers, value).split(' ');
  const last = spoken.pop() ?? '';
  const counting = Object.hasOwn(numbers.beforeNoun, last) ? numbers.beforeNoun[last] : last;
  return [...spoken, counting].join(' ');
}
