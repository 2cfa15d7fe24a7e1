import type { People, Records } from '../ports';
import { shifted, type InventedClub } from '../domain/people/inventedClub';
import { isInvented, sessionOf } from './heads';

/** Where the page fetches the club, beside the page itself. */
export const INVENTED_CLUB = 'invented-club/club.json';

/** Thrown where the club cannot be loaded; the message says what to do. */
export class InventedClubError extends Error {}

/**
 * Loads the invented club (the JSON of `INVENTED_CLUB`, as fetched) with its visits moved so that
 * the latest lies one to two weeks before `today` (ISO date): people and sessions, or neither. One
 * that is there is replaced. Rejects with an InventedClubError where it is no
 * invented club, else with a `RecordError`.
 */
export async function loadInventedClub(
  people: People,
  records: Records,
  fetched: unknown,
  today: string,
): Promise<void> {
  const club = shifted(clubOf(fetched), today);
  await removeInventedClub(people, records);
  await people.save(club.people);
  try {
    await records.addAll(club.sessions.flat());
  } catch (problem) {
    await people.remove(club.people.map(({ id }) => id));
    throw problem;
  }
}

/** Removes every invented person and every session of theirs, and nothing else. */
export async function removeInventedClub(people: People, records: Records): Promise<void> {
  await records.removeInvented();
  const invented = (await people.all()).filter((person) => person.isInvented);
  await people.remove(invented.map(({ id }) => id));
}

/** What would not leave again is never let in: each person and session must say it is invented. */
function clubOf(fetched: unknown): InventedClub {
  const { format, people, sessions } = fieldsOf(fetched);
  const isClub =
    format === 'sayso-invented-club-1' &&
    listOf(people).every((one) => one.isInvented === true && isInvented(idOf(one))) &&
    Array.isArray(sessions) &&
    listOf(sessions.flat()).every((entry) => isInvented(sessionOf(idOf(entry))));
  if (!isClub) {
    throw new InventedClubError(
      'What was fetched is not the invented club. Load this page anew, and try again.',
    );
  }
  return fetched as InventedClub;
}

type Fields = Partial<Record<string, unknown>>;

const fieldsOf = (value: unknown): Fields =>
  typeof value === 'object' && value !== null ? (value as Fields) : {};
/** What is no list is a list with nothing right in it. */
const listOf = (value: unknown): Fields[] => (Array.isArray(value) ? value : [null]).map(fieldsOf);
const idOf = ({ id }: Fields): string => (typeof id === 'string' ? id : '');
