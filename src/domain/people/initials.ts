/** Somebody under 18 may be kept by initials alone, so that no list, file or speaker has the name. */
import { consentMissing } from './age';
import type { Person } from './person';

/**
 * The initials of a name, in its order; of one that is initials already, the same.
 *
 * @example initialsOf('Quib Marn') // 'Q. M.'
 */
export const initialsOf = (name: string): string =>
  name
    .split(/[\s.\p{Pd}]+/u)
    .flatMap((word) => /[\p{L}\p{N}]\p{M}*/u.exec(word)?.[0] ?? [])
    .map((letter) => `${letter.toLocaleUpperCase('en')}.`)
    .join(' ');

/** Whether a name is no more than initials. */
export const isInitials = (name: string): boolean => name !== '' && initialsOf(name) === name;

/** Those without a guardian's consent on that ISO date by their initials, the others as they are. */
export const byInitials = (people: readonly Person[], date: string): Person[] =>
  people.map((one) => (consentMissing(one, date) ? { ...one, name: initialsOf(one.name) } : one));
