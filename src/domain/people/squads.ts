/** A squad is a name that some people share: renamed or dissolved for all of them at once. */
import type { Person } from './person';
import { personFrom } from './personFrom';

export const inSquad = (people: readonly Person[], squad: string): Person[] =>
  people.filter((one) => one.squad === squad);

export type Renamed =
  { people: Person[]; squad: string; problem: null } | { people: null; problem: string };

/**
 * The people of the squad `from` under the name that was typed, or what is wrong with it. A squad
 * that has this name already takes them in. `today` is an ISO date.
 */
export function renamed(
  people: readonly Person[],
  from: string,
  typed: string,
  today: string,
): Renamed {
  const read = personFrom({ name: 'A', squad: typed }, { id: '', today });
  if (read.person === null) {
    return { people: null, problem: read.problems.map(({ say }) => say).join(' ') };
  }
  const { squad } = read.person;
  if (squad === null) {
    return { people: null, problem: 'There is no name. Type one, or dissolve the squad.' };
  }
  return { people: inSquad(people, from).map((one) => ({ ...one, squad })), squad, problem: null };
}

/** The people of that squad, without one. */
export const dissolved = (people: readonly Person[], squad: string): Person[] =>
  inSquad(people, squad).map((one) => ({ ...one, squad: null }));
