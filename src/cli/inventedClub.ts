import { DEFAULT_SETTINGS, type Entry } from '../domain/log';
import { athleteOf } from '../domain/people/age';
import type { InventedClub } from '../domain/people/inventedClub';
import type { Person } from '../domain/people/person';
import { personFrom } from '../domain/people/personFrom';
import type { CueBook } from '../domain/script';
import { INVENTED_SESSION } from '../ports';
import { secondsIn } from './durations';
import { CLUB, CLUB_NAME, VISIT_DAYS, type Invented } from './inventedVisits';
import { rehearse } from './rehearsing';

/** A squad comes one after the other: from three o'clock, so many minutes each. */
const FIRST_HOUR = 15;
const MINUTES_EACH = 40;

/** Squads share a floor on different days, so places count within each. */
const placeOf = (one: Invented): number =>
  CLUB.filter(({ squad }) => squad === one.squad).indexOf(one);

const two = (number: number): string => String(number).padStart(2, '0');
const idOf = (one: Invented): string => `${INVENTED_SESSION}${two(CLUB.indexOf(one) + 1)}`;

/** The person as the club keeps them. Throws where their fields are refused. */
export function personOf(one: Invented): Person {
  const today = VISIT_DAYS[one.squad][0];
  const fields = { ...one.fields, squad: one.squad };
  const { person, problems } = personFrom(fields, { id: idOf(one), today, isInvented: true });
  if (person === null) throw new Error(`${one.fields.name}: ${JSON.stringify(problems)}`);
  return person;
}

/** The log of one visit (0, 1 or 2), run on the project's own machines on a virtual clock. */
export function visitOf(book: CueBook, one: Invented, at: 0 | 1 | 2): Entry[] {
  const person = personOf(one);
  const day = VISIT_DAYS[one.squad][at];
  const { routine, replies } = one.visits[at];
  const athlete = athleteOf(person, day);
  return rehearse({
    book,
    routine,
    way: 'hands-on',
    settings: DEFAULT_SETTINGS,
    session: `${idOf(one)}-visit-${String(at + 1)}`,
    person: person.id,
    startsAtMilliseconds:
      Date.parse(day) + (FIRST_HOUR * 60 + placeOf(one) * MINUTES_EACH) * 60_000,
    ...(Object.keys(athlete).length > 0 && { athlete }),
    ...(person.angleTool !== null && { angleTool: person.angleTool }),
    secondsOf: secondsIn(book.language),
    replies: {
      inTurn: replies.map((text, line) => ({ line: line + 1, text, audio: null })),
      timed: [],
    },
  }).entries;
}

/** The whole club, the same each time. */
export const inventedClub = (book: CueBook): InventedClub => ({
  format: 'sayso-invented-club-1',
  name: CLUB_NAME,
  people: CLUB.map(personOf),
  sessions: CLUB.flatMap((one) => ([0, 1, 2] as const).map((at) => visitOf(book, one, at))),
});
