/** Somebody under 18 may be kept by initials alone, so that no list, file or speaker has the name. */
import { consentMissing } from './age';
import { initialsOf } from '../reporting/sheet/plain';
import type { Person } from './person';

/** Whether a name is no more than initials. */
export const isInitials = (name: string): boolean => name !== '' && initialsOf(name) === name;

/** Those without a guardian's consent on that ISO date by their initials, the others as they are. */
export const byInitials = (people: readonly Person[], date: string): Person[] =>
  people.map((one) => (consentMissing(one, date) ? { ...one, name: initialsOf(one.name) } : one));
