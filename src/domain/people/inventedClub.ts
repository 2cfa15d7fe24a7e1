/** A club of nobody, to look at what Sayso shows of a club; marked as invented throughout. */
import type { Entry } from '../log';
import { dateAfter } from './dateAfter';
import type { Person } from './person';

export interface InventedClub {
  format: 'sayso-invented-club-1';
  /** Says that it is invented. */
  name: string;
  people: Person[];
  /** The log of each visit. */
  sessions: Entry[][];
}

/**
 * Sessions that a coach ran with somebody invented are named so. They begin as all sessions of the
 * club do, and so leave with it.
 */
export const RUN_WITH_INVENTED = 'invented-own-';

const DAY_MILLISECONDS = 24 * 3600 * 1000;
/** The latest visit lies so long ago at least: what is worked at is due again after seven days. */
const AGO_DAYS = 8;

/**
 * The club with its visits moved by whole weeks, so that the latest lies 8 to 14 days before
 * `today` (ISO date): areas that are worked at are due again, and what held is not yet. Years of
 * birth move with the year of that visit, so that nobody changes in age.
 */
export function shifted(club: InventedClub, today: string): InventedClub {
  const latest = club.sessions
    .flatMap((session) => dayOf(session) ?? [])
    .sort()
    .at(-1);
  if (latest === undefined) return club;
  const ago = (Date.parse(today) - Date.parse(latest)) / DAY_MILLISECONDS;
  const days = Math.floor((ago - AGO_DAYS) / 7) * 7;
  const moved = (date: string) => dateAfter(date, days) ?? date;
  const years = Number(moved(latest).slice(0, 4)) - Number(latest.slice(0, 4));
  return {
    ...club,
    people: club.people.map((person) => ({
      ...person,
      birthYear: person.birthYear === null ? null : person.birthYear + years,
      guardianAgreedOn: person.guardianAgreedOn === null ? null : moved(person.guardianAgreedOn),
    })),
    sessions: club.sessions.map((session) =>
      session.map((entry) =>
        entry.type === 'started'
          ? { ...entry, startedAt: moved(entry.startedAt) + entry.startedAt.slice(10) }
          : entry,
      ),
    ),
  };
}

const dayOf = (session: readonly Entry[]): string | undefined =>
  session.find((entry) => entry.type === 'started')?.startedAt.slice(0, 10);
