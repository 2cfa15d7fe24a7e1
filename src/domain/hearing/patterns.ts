import type { Pattern } from './vocabulary';

/** One place in a pattern: any of the options, or none where it is optional. */
export interface Slot {
  options: string[];
  optional: boolean;
}

const SLOT = /\(([^)]*)\)(\?)?|([^\s()]+)/g;

/** The slots of a pattern in order: `knees (came|went)? forward` has three. */
export const slotsOf = (pattern: Pattern): Slot[] =>
  [...pattern.matchAll(SLOT)].map(([, group, optional, word]) => ({
    options: group === undefined ? [word ?? ''] : group.split('|').map((option) => option.trim()),
    optional: optional !== undefined,
  }));

/** Every phrase that a pattern stands for. */
export function phrasesOf(pattern: Pattern): string[] {
  // Most patterns are plain words, and all of a book's are read before its first word is understood.
  if (!pattern.includes('(') && !/\s\s|^\s|\s$/.test(pattern)) return [pattern];
  return slotsOf(pattern).reduce<string[]>(
    (phrases, { options, optional }) =>
      phrases.flatMap((phrase) =>
        (optional ? ['', ...options] : options).map((option) => `${phrase} ${option}`.trim()),
      ),
    [''],
  );
}
