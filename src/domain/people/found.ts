/** Looking for people by a few letters. */
import type { Person } from './person';

/** Marks on letters, as NFD takes them apart (Unicode, Combining Diacritical Marks). */
const MARKS = /\p{M}/gu;

/** Letters that NFD leaves whole although people type them without their stroke. */
const WHOLE: Readonly<Record<string, string>> = {
  ...{ ł: 'l', ø: 'o', đ: 'd', ð: 'd', ħ: 'h', ı: 'i', ß: 'ss', æ: 'ae', œ: 'oe', þ: 'th' },
};

/** Text as it is compared: without case, without marks. */
export const plainly = (text: string): string =>
  text
    .toLowerCase()
    .normalize('NFD')
    .replace(MARKS, '')
    .replace(/[łøđðħıßæœþ]/g, (letter) => WHOLE[letter] ?? letter);

const wordsOf = (text: string): string[] => plainly(text).match(/[\p{L}\p{N}]+/gu) ?? [];

/**
 * Those of `people` whose name or squad has every word of `text`, case and accents aside: first
 * those in whose name each begins a word, then those where the squad helps, then where a word only
 * stands inside another. Each of these by name in the order of `locale` (default: the device's).
 * Nothing typed finds everybody.
 */
export function found(people: readonly Person[], text: string, locale?: string): Person[] {
  const asked = wordsOf(text);
  const collator = new Intl.Collator(locale, { sensitivity: 'base', numeric: true });
  const ranked = people.flatMap((person) => {
    const rank = rankOf(person, asked);
    return rank === null ? [] : [{ person, rank }];
  });
  return ranked
    .sort(
      (one, other) =>
        one.rank - other.rank ||
        collator.compare(one.person.name, other.person.name) ||
        (one.person.id < other.person.id ? -1 : 1),
    )
    .map(({ person }) => person);
}

/** 0 is best; null is no match. */
function rankOf({ name, squad }: Person, asked: string[]): number | null {
  const [inName, inSquad] = [wordsOf(name), wordsOf(squad ?? '')];
  const all = [...inName, ...inSquad];
  const every = (words: string[], how: 'startsWith' | 'includes') =>
    asked.every((word) => words.some((one) => one[how](word)));
  if (every(inName, 'startsWith')) return 0;
  if (every(all, 'startsWith')) return 1;
  return every(all, 'includes') ? 2 : null;
}

/** The squads that somebody is in, each once, by name in the order of `locale`. */
export const squadsOf = (people: readonly Person[], locale?: string): string[] =>
  [...new Set(people.flatMap(({ squad }) => squad ?? []))].sort(
    new Intl.Collator(locale, { sensitivity: 'base', numeric: true }).compare,
  );
