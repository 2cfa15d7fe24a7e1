/** How old somebody is, of whom the year of birth alone is known. */
import type { Athlete } from '../athlete';
import { blocksFor } from '../athlete';
import type { Person } from './person';

/** From this age on nobody else has to agree; most laws, and Sayso's own line (README, cautions). */
const ADULT_FROM_YEARS = 18;

/**
 * The age in whole years that somebody born in `birthYear` has surely reached on an ISO date: the
 * birthday may still come, unless it is the last day of the year.
 *
 * @example ageOn(2013, '2031-06-01') // 17
 */
export function ageOn(birthYear: number, date: string): number {
  const hadBirthday = date.slice(5, 10) === '12-31';
  return Number(date.slice(0, 4)) - birthYear - (hadBirthday ? 0 : 1);
}

/** Whether they may still be under 18 on that ISO date; false where no year of birth is known. */
export const mayBeMinor = ({ birthYear }: Pick<Person, 'birthYear'>, date: string): boolean =>
  birthYear !== null && ageOn(birthYear, date) < ADULT_FROM_YEARS;

/** Whether a guardian has to agree before they train on that ISO date, and none is noted. */
export const consentMissing = (
  person: Pick<Person, 'birthYear' | 'guardianAgreedOn'>,
  date: string,
): boolean =>
  mayBeMinor(person, date) && (person.guardianAgreedOn === null || person.guardianAgreedOn > date);

/**
 * What a session on that ISO date knows of them. A stature from which no knee can be estimated
 * (age unknown or under 17, outside 140 to 200 cm) is left out where no knee was measured, so that
 * `blocksFor` takes the answer as it is.
 */
export function athleteOf(person: Person, date: string): Athlete {
  const { birthYear, sex, statureMillimetres, kneeMillimetres } = person;
  const athlete: Athlete = {
    ...(kneeMillimetres !== null && { kneeMillimetres }),
    ...(birthYear !== null && { ageYears: ageOn(birthYear, date) }),
    ...(sex !== null && { sex }),
  };
  if (statureMillimetres === null) return athlete;
  const taller = { ...athlete, statureMillimetres };
  try {
    blocksFor(taller);
    return taller;
  } catch (problem) {
    if (problem instanceof RangeError) return athlete;
    throw problem;
  }
}
