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
export const phrasesOf = (pattern: Pattern): string[] =>
  slotsOf(pattern).reduce<string[]>(
    (phrases, { options, optional }) =>
      phrases.flatMap((phrase) =>
        (optional ? ['', ...options] : options).map((option) => `${phrase} ${option}`.trim()),
      ),
    [''],
  );
